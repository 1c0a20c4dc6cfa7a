// Every screen against the rules of WCAG 2.2 AA that a program can check: in dark
// and in light, at 320 and at 390 px, with doubled text and in forced colours.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import type { Browser } from "playwright-core";
import { type Place, read } from "../src/router.ts";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { broken } from "./rules.ts";
import { joining, open, screens, traysOf } from "./screens.ts";
import { tabTo, textSize } from "./steps.ts";

let server: Server;
let browser: Browser;
before(async () => {
	server = await startServer("demo");
	browser = await openBrowser();
});
after(async () => {
	await browser?.close();
	await server?.end();
});

interface Way {
	name: string;
	dark?: boolean;
	width?: number;
	/** The text size a person set in the browser, in per cent. */
	text?: number;
	forced?: boolean;
}

const ways: Way[] = [
	{ name: "light, 390 px" },
	{ name: "dark, 390 px", dark: true },
	{ name: "light, 320 px", width: 320 },
	{ name: "dark, text at 200 %", dark: true, text: 200 },
	{ name: "forced colours, dark, 320 px", dark: true, width: 320, forced: true },
];

for (const way of ways) {
	scene(`no screen breaks a rule: ${way.name}`, 300, async () => {
		const phone = await TestPhone.make(browser, server.url, way);
		const { page } = phone;
		if (way.forced) await page.emulateMedia({ forcedColors: "active", colorScheme: "dark" });
		if (way.text) await textSize(page, way.text);
		const found: string[] = [];
		const check = async (name: string) => {
			for (const line of await broken(phone)) found.push(`${name}: ${line}`);
		};
		await phone.go(joining.path as string);
		await page.locator(joining.ready).waitFor();
		await check(joining.name);
		await phone.joinDemo("Kitchen phone");
		await phone.waitForSync("Everything shared");
		const trays = await traysOf(page);
		for (const shot of screens) {
			await open(page, shot, trays);
			const back = await shot.prepare?.(page);
			await check(shot.name);
			if (back) await back();
		}
		assert.deepEqual(found, []);
	});
}

// The compiler names a place that is missing here, the test one without a screen.
const places: Record<Place, true> = {
	today: true,
	tray: true,
	code: true,
	scan: true,
	weigh: true,
	bin: true,
	plan: true,
	food: true,
	timeline: true,
	freezer: true,
	household: true,
	labels: true,
	card: true,
	look: true,
	trouble: true,
	harvest: true,
	"catch-up": true,
	more: true,
	join: true,
	lost: true,
};

test("the screens that are walked through are of every place", () => {
	const walked = [joining, ...screens].map(({ path }) => {
		const at = typeof path === "string" ? path : path(new Map());
		return read(new URL(at || "/", "http://bin.example")).place;
	});
	assert.deepEqual([...new Set(walked)].sort(), Object.keys(places).sort());
});

scene("a day at the bin works from the keyboard alone, and shows where it is", 180, async () => {
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Keyboard phone");
	await phone.go("/");
	const { page } = phone;
	const press = async (selector: string) => {
		await tabTo(page, selector);
		const ring = await page.evaluate(() => {
			const { outlineStyle, outlineWidth } = getComputedStyle(document.activeElement as Element);
			return outlineStyle === "none" ? 0 : Number.parseFloat(outlineWidth);
		});
		assert.ok(ring >= 2, `${selector} has a ring of ${ring} px when it has the focus`);
		await page.keyboard.press("Enter");
	};
	const saved = page.locator(".saverow", { hasText: "saved" });
	const heading = (name: string) => page.getByRole("heading", { level: 1, name }).waitFor();

	await page.locator(".bins .binname a").first().waitFor();
	await page.locator("body").press("Tab");
	assert.equal(await page.evaluate(() => document.activeElement?.className), "skip");
	await press(".bins .binname a");
	await page.getByRole("button", { name: /^Fed / }).waitFor();
	await press("button.go");
	await saved.waitFor();
	await page.locator("[role=status].live", { hasText: "saved" }).waitFor({ state: "attached" });
	await press(".saverow button"); // Undo
	await saved.waitFor({ state: "detached" });

	await press(".places [href='/weigh']");
	await press(".what button[aria-pressed=false]");
	await tabTo(page, ".keys button");
	await page.keyboard.type("120");
	await press(".keys .add");
	await page.locator(".inbowl .sum", { hasText: "120 g" }).waitFor();
	await press(".act .go"); // Keep in bowl
	await saved.waitFor();

	await press("a[href='/']");
	await press(".places [href='/more']");
	await press("[href='/food']");
	await heading("Food check");
	await tabTo(page, "input[type=search]");
	await page.keyboard.type("banana");
	await page.locator(".answer").waitFor();

	await press(".places [href='/look']");
	await press("look-screen li a");
	await page.locator(".drawpicks").first().waitFor();
	await press(".drawpicks button");
	await press("look-screen .act .go");
	await saved.waitFor();

	await press(".places [href='/more']");
	await press("[href='/timeline']");
	await heading("Timeline");
	await press("button.entry");
	await page.locator(".entries [aria-expanded=true]").waitFor();
});
