// Pictures of every screen of the demo household, to be looked at by people:
// light and dark, usual and doubled text, and a narrow phone. A screen that is
// longer than the phone gets a second picture of its whole length. The first
// argument is the folder they go to.

import assert from "node:assert/strict";
import { join } from "node:path";
import { openBrowser, type Server, startServer, TestPhone } from "./harness.ts";
import { labels, settled } from "./steps.ts";

const HEIGHT = 844;

/** A way to look at the screens; its name ends the pictures' names. */
interface Way {
	name: string;
	dark: boolean;
	width: number;
	/** The text size a person set in the browser, in per cent. */
	text: number;
}

const ways: Way[] = [
	{ name: "light-390", dark: false, width: 390, text: 100 },
	{ name: "dark-390", dark: true, width: 390, text: 100 },
	{ name: "light-390-text200", dark: false, width: 390, text: 200 },
	{ name: "dark-390-text200", dark: true, width: 390, text: 200 },
	{ name: "light-320", dark: false, width: 320, text: 100 },
];

class Album {
	readonly phone: TestPhone;
	readonly #way: Way;
	readonly #dir: string;

	constructor(phone: TestPhone, way: Way, dir: string) {
		this.phone = phone;
		this.#way = way;
		this.#dir = dir;
	}

	/** Opens an address, waits until `ready` stands, and takes its pictures. */
	async open(screen: string, path: string, ready: string): Promise<void> {
		await this.phone.go(path);
		await this.phone.page.locator(ready).first().waitFor();
		await this.take(screen);
	}

	/** Pictures of what is open now: as the phone shows it, and at its whole
	 * length, by a phone that is long enough. */
	async take(screen: string): Promise<void> {
		const { page } = this.phone;
		await settled(page);
		const { width } = this.#way;
		const shoot = (name: string) =>
			page.screenshot({
				path: join(this.#dir, `${name}-${this.#way.name}.png`),
				animations: "disabled",
			});
		await shoot(screen);
		const height = await page.evaluate(() => document.documentElement.scrollHeight);
		if (height <= HEIGHT || screen.endsWith("-why")) return;
		await page.setViewportSize({ width, height });
		await shoot(`${screen}-whole`);
		await page.setViewportSize({ width, height: HEIGHT });
	}
}

/** Every tray's page that Today and the trays lead to: label code by tray name. */
async function allTrays(phone: TestPhone): Promise<Map<string, string>> {
	const found = new Map<string, string>();
	const open = [...(await labels(phone)).values()];
	for (let code = open.pop(); code !== undefined; code = open.pop()) {
		await phone.go(`/t/${code}`);
		await phone.page.locator("tray-screen .tiers").waitFor();
		const name = await phone.page.locator("tray-screen h1").innerText();
		if (found.has(name)) continue;
		found.set(name, code);
		for (const link of await phone.page.locator("tray-screen .tiers a").all()) {
			open.push((await link.getAttribute("href"))?.split("/").pop() ?? "");
		}
	}
	return found;
}

async function joinIn(album: Album): Promise<void> {
	await album.open("join", "/join?label=DEMO", "join-screen form");
	await album.phone.joinDemo("Kitchen phone");
	await album.phone.waitForSync("Everything shared");
	await album.phone.page.locator(".bins").waitFor();
}

async function screens(album: Album, trays: Map<string, string>): Promise<void> {
	const { page } = album.phone;
	await album.open("today", "/", ".bins");
	for (const [name, code] of trays) {
		await album.open(`tray-${name.toLowerCase()}`, `/t/${code}`, "tray-screen .tiers");
		const why = page.locator("tray-screen details.why");
		if ((await why.count()) === 0) continue;
		await why.evaluate((details: HTMLDetailsElement) => {
			details.open = true;
			details.scrollIntoView();
		});
		await album.take(`tray-${name.toLowerCase()}-why`);
	}
	await album.open("weigh", "/weigh", ".what");
	await page.locator(".what button").nth(1).click();
	for (const key of ["3", "2", "0"]) {
		await page.getByRole("button", { name: key, exact: true }).click();
	}
	await album.take("weigh-keyed");
	await page.getByRole("button", { name: "Add", exact: true }).click();
	await page.getByRole("button", { name: /^Keep in bowl/ }).waitFor();
	await album.take("weigh-bowl");
	await page.getByRole("button", { name: "Vessel", exact: true }).click();
	await album.take("weigh-vessel");
	await album.open("food", "/food", ".foundrow");
	await album.open("food-answer", "/food?q=orange", ".answer");
	await album.open("timeline", "/timeline", "main li");
	await album.open("look", "/look", "look-screen li");
	await page.locator("look-screen li a").first().click();
	await page.locator(".drawpicks").first().waitFor();
	await album.take("look-tray");
	await album.open("household", "/household", "add-phone form");
	await album.open("more", "/more", "main");
	await album.open("labels", "/labels", "labels-screen input");
	for (const summary of await page.locator("labels-screen summary").all()) await summary.click();
	await album.take("labels-measures");
	await album.open("claim", "/t/00018HWZF", ".claim .pickword");
	await album.open("card", "/card", ".cardrows");
	await page
		.getByRole("button", { name: /^The usual on/ })
		.first()
		.click();
	await page.locator(".cardrows .filled .dayname").first().click();
	await album.take("card-day");
	await album.open("scan-without-camera", "/scan", "scan-screen section");
	await album.open("code", "/t", "#label-code");
	await album.open("bad-code", "/t/nonsense", "form");
}

/** A look that smelled of ammonia puts its tray on hold. */
async function smellAmmonia(phone: TestPhone, tray: string): Promise<void> {
	await phone.go(`/t/${tray}`);
	await phone.page.locator("tray-screen .act").getByRole("link", { name: "Look" }).click();
	await phone.page.locator(".drawpicks").first().waitFor();
	await phone.page.getByRole("button", { name: /^sharp/ }).click();
	await phone.page.locator("button.go").click();
	await phone.page.locator(".saverow", { hasText: "saved" }).waitFor();
	await phone.waitForSync("Everything shared");
}

async function takeAll(server: Server, dir: string): Promise<void> {
	const albums: Album[] = [];
	const browsers = new Map<number, Awaited<ReturnType<typeof openBrowser>>>();
	try {
		let trays: Map<string, string> | undefined;
		for (const way of ways) {
			let browser = browsers.get(way.text);
			if (!browser) {
				// What "text size" in the browser's settings does to a page: 16 px is 100 %.
				browser = await openBrowser([`--blink-settings=defaultFontSize=${(16 * way.text) / 100}`]);
				browsers.set(way.text, browser);
			}
			const phone = await TestPhone.make(browser, server.url, { ...way, height: HEIGHT });
			const album = new Album(phone, way, dir);
			albums.push(album);
			await joinIn(album);
			trays ??= await allTrays(phone);
			await screens(album, trays);
			console.log(`${way.name}: done`);
		}
		const first = albums[0];
		const code = trays && [...trays.values()][0];
		assert.ok(first && code, "the demo household has a tray");
		await smellAmmonia(first.phone, code);
		for (const album of albums) await album.open("tray-held", `/t/${code}`, "tray-screen .hold");
	} finally {
		for (const browser of browsers.values()) await browser.close();
	}
}

const [dir] = process.argv.slice(2);
assert.ok(dir, "say where the pictures go: go run ./cmd/dev shots --out DIR");
const server = await startServer("demo");
try {
	await takeAll(server, dir);
} finally {
	await server.end();
}
