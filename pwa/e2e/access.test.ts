// Every screen against the rules of WCAG 2.2 AA that a program can check: in dark
// and in light, at 320 and at 390 px, with doubled text and in forced colours.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import type { Browser } from "playwright-core";
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
	{ name: "forced colours, 320 px", width: 320, forced: true },
];

for (const way of ways) {
	scene(`no screen breaks a rule: ${way.name}`, 300, async () => {
		const phone = await TestPhone.make(browser, server.url, way);
		const { page } = phone;
		if (way.forced) await page.emulateMedia({ forcedColors: "active" });
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

scene("the whole way from Today to a saved feeding works from the keyboard", 120, async () => {
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Keyboard phone");
	await phone.go("/");
	const { page } = phone;
	const link = page.locator(".bins .binname a").first();
	await link.waitFor();
	await page.locator("body").press("Tab");
	assert.equal(await page.evaluate(() => document.activeElement?.className), "skip");
	await tabTo(page, ".bins .binname a");
	await page.keyboard.press("Enter");
	await page.getByRole("button", { name: /^Fed / }).waitFor();
	assert.notEqual(await page.evaluate(() => document.activeElement), null);
	await tabTo(page, "button.go");
	await page.keyboard.press("Enter");
	await page.locator(".saverow", { hasText: "saved" }).waitFor();
	await page.locator("[role=status].live", { hasText: "saved" }).waitFor({ state: "attached" });
});
