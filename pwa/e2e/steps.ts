// What people do, as steps that several stories share.

import assert from "node:assert/strict";
import { setTimeout as pause } from "node:timers/promises";
import { isDeepStrictEqual } from "node:util";
import type { Locator, Page } from "playwright-core";
import { PATIENCE, type TestPhone } from "./harness.ts";

/** Invites a phone as the member, joins it and confirms it by its number. */
export async function invite(
	keeper: TestPhone,
	member: string,
	guest: TestPhone,
	name: string,
	by: "link" | "code" = "link",
): Promise<void> {
	await keeper.go("/household");
	await keeper.page.getByLabel("Whose phone is it?").selectOption({ label: member });
	await keeper.page.getByRole("button", { name: "Make an invite" }).click();
	const link = keeper.page.locator("add-phone .link span").last();
	await link.waitFor();
	await keeper.page.getByRole("img", { name: "Square code with the invite's address" }).waitFor();
	if (by === "link") {
		await guest.page.goto((await link.textContent()) ?? "");
	} else {
		await guest.go("/join");
		const short = await keeper.page.locator("add-phone strong.code").innerText();
		await guest.page.getByLabel("Code", { exact: true }).fill(short.toLowerCase());
	}
	await guest.page.getByLabel("Name of this phone").fill(name);
	await guest.page.getByRole("button", { name: "Join", exact: true }).click();
	const number = (await guest.page.locator(".match strong").innerText()).trim();
	assert.equal(new URL(guest.page.url()).hash, "", "the code is gone from the address");
	await keeper.page.getByText(`${name}: number ${number}`).waitFor();
	await keeper.page.getByRole("button", { name: "Same number: let it in" }).click();
	await guest.page.getByRole("navigation", { name: "Places" }).waitFor();
}

/** Codes of the trays that take food today, by bin name; the demo household has
 * two bins. */
export async function labels(phone: TestPhone): Promise<Map<string, string>> {
	await phone.go("/");
	const links = phone.page.locator(".bins .binname a");
	await links.nth(1).waitFor();
	const found = new Map<string, string>();
	for (const link of await links.all()) {
		const path = await link.getAttribute("href");
		found.set((await link.textContent()) ?? "", decodeURIComponent(path?.split("/").pop() ?? ""));
	}
	return found;
}

/** Feeds the tray that is open by its one big button, turning the dial up by so
 * many steps first; a tray that takes nothing today is fed anyway. Returns the
 * amount it said. */
export async function feed(phone: TestPhone, steps = 0): Promise<string> {
	await workedOut(phone.page);
	const button = phone.page.getByRole("button", { name: /^Fed( |$)/ });
	const anyway = phone.page.getByText("It was fed anyway");
	await button.or(anyway).first().waitFor();
	if ((await anyway.count()) > 0) await anyway.click();
	await button.waitFor();
	for (let i = 0; i < steps; i++) {
		await phone.page.getByRole("button", { name: / more$/ }).click();
	}
	const says = (await button.textContent()) ?? "";
	await button.click();
	await phone.page.locator(".saverow", { hasText: "saved" }).waitFor();
	return says.replace(/^Fed\s*/, "").trim();
}

export async function undo(phone: TestPhone): Promise<void> {
	await phone.page.getByRole("button", { name: "Undo" }).first().click();
	await phone.page.locator(".saverow").waitFor({ state: "detached" });
}

/** Waits until reading gives what is wanted, and tells what it gave instead. */
export async function comes<T>(what: string, read: () => Promise<T>, wanted: T): Promise<void> {
	const end = Date.now() + PATIENCE;
	let is = await read();
	while (!isDeepStrictEqual(is, wanted) && Date.now() < end) {
		await pause(50);
		is = await read();
	}
	assert.deepEqual(is, wanted, what);
}

/** Waits until the screen shows what the engine worked out since the page was
 * loaded, not what the phone remembered. */
export async function workedOut(page: Page): Promise<void> {
	await page.waitForFunction(() => {
		const screen = document.querySelector<Element & { shown?: { from: number | null } }>(
			"#page > *",
		);
		return screen?.shown?.from === null;
	});
}

/** Waits until what was typed is on the phone's disk, as it is for a person, who
 * takes longer to reload a page than a test does. */
export async function draftsKept(page: Page): Promise<void> {
	await page.evaluate(() => {
		const app = document.querySelector<Element & { phone: { settled(): Promise<void> } }>(
			"trayside-app",
		);
		return app?.phone.settled();
	});
}

/** Tabs until the element has the focus. */
export async function tabTo(page: Page, selector: string): Promise<void> {
	for (let i = 0; i < 150; i++) {
		await page.keyboard.press("Tab");
		if (await page.evaluate((s) => document.activeElement?.matches(s) ?? false, selector)) return;
	}
	assert.fail(`${selector} can't be reached with the Tab key`);
}

/** Waits for an element at most so long, and says how long it took. */
export async function within(ms: number, what: string, seen: Locator): Promise<void> {
	const start = Date.now();
	await seen.waitFor({ timeout: ms }).catch(() => {
		assert.fail(`${what} was not seen within ${ms} ms`);
	});
	console.log(`${what}: ${Date.now() - start} ms`);
}

/** Waits until a page stands still: its letters are there, nothing moves, and for
 * some frames nothing was drawn anew; drawings are fitted a moment later than the
 * words around them. */
export async function still(page: Page): Promise<void> {
	await page.evaluate(async () => {
		await document.fonts.ready;
		let calm = 0;
		const changes = new MutationObserver(() => {
			calm = 0;
		});
		changes.observe(document, {
			subtree: true,
			childList: true,
			attributes: true,
			characterData: true,
		});
		for (let frames = 0; calm < 4 && frames < 600; frames++) {
			await new Promise((drawn) => requestAnimationFrame(drawn));
			calm = document.getAnimations().length > 0 ? 0 : calm + 1;
		}
		changes.disconnect();
	});
}

/** Sets the text size as the browser's settings do, in per cent: 16 px is 100. */
export async function textSize(page: Page, percent: number): Promise<void> {
	const settings = await page.context().newCDPSession(page);
	const standard = Math.round((16 * percent) / 100);
	await settings.send("Page.setFontSizes", { fontSizes: { standard, fixed: standard } });
}
