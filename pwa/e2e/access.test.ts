// Every screen against the rules of WCAG 2.2 AA that a program can check, in
// dark and in light, at 320 and at 390 px.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import type { Browser } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { broken } from "./rules.ts";
import { labels } from "./steps.ts";

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

for (const [dark, width] of [
	[false, 390],
	[true, 390],
	[false, 320],
] as const) {
	scene(`no screen breaks a rule, ${dark ? "dark" : "light"}, ${width} px`, 240, async () => {
		const phone = await TestPhone.make(browser, server.url, { dark, width });
		const found: string[] = [];
		const check = async (name: string, path: string, ready: string) => {
			await phone.go(path);
			await phone.page.locator(ready).first().waitFor();
			for (const line of await broken(phone)) found.push(`${name}: ${line}`);
		};
		await check("join", "/join", "form");
		await phone.joinDemo("Kitchen phone");
		await phone.waitForSync("Everything shared");
		const codes = await labels(phone);
		await check("today", "/", ".bins");
		for (const [bin, code] of codes) await check(`tray in ${bin}`, `/t/${code}`, "h1");
		await check("bad code", "/t/nonsense", "form");
		await check("scan", "/scan", "main");
		await check("code", "/t", "main");
		await check("weigh", "/weigh", ".what");
		await check("food", "/food?q=orange", ".answer");
		await check("timeline", "/timeline", "main li");
		await check("look", "/look", "main");
		await check("more", "/more", "main");
		await check("labels", "/labels", "labels-screen input");
		await check("card", "/card", ".cardrows");
		await check("claim", "/t/00018HWZF", ".claim");
		await check("household", "/household", "add-phone form");
		await check("lost", "/nowhere", "h1");
		assert.deepEqual(found, []);
	});
}

scene("the whole way from Today to a saved feeding works from the keyboard", 120, async () => {
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Keyboard phone");
	await phone.go("/");
	const { page } = phone;
	const link = page.locator(".bins .binname a").first();
	await link.waitFor();
	/** Tabs until the element has the focus. */
	const tabTo = async (selector: string) => {
		for (let i = 0; i < 120; i++) {
			await page.keyboard.press("Tab");
			if (await page.evaluate((s) => document.activeElement?.matches(s) ?? false, selector)) return;
		}
		assert.fail(`${selector} can't be reached with the Tab key`);
	};
	await page.locator("body").press("Tab");
	assert.equal(await page.evaluate(() => document.activeElement?.className), "skip");
	await tabTo(".bins .binname a");
	await page.keyboard.press("Enter");
	await page.getByRole("button", { name: /^Fed / }).waitFor();
	assert.notEqual(await page.evaluate(() => document.activeElement), null);
	await tabTo("button.go");
	await page.keyboard.press("Enter");
	await page.locator(".saverow", { hasText: "saved" }).waitFor();
	await page.locator("[role=status].live", { hasText: "saved" }).waitFor({ state: "attached" });
});
