// Every screen against the rules of WCAG 2.2 AA that a program can check, in
// dark and in light, at 320 and at 390 px.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import axe from "axe-core";
import type { Browser } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
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

const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

/** What axe finds on the page, one line per place. */
async function violations(phone: TestPhone): Promise<string[]> {
	// By the debugger, so that the page's own policy stays as it is.
	await phone.page.evaluate(axe.source);
	return phone.page.evaluate(async (runOnly) => {
		const { axe } = globalThis as unknown as { axe: typeof import("axe-core") };
		// A row half under what sticks to the foot scrolls free of it; axe would
		// call it too small to press.
		for (const sticks of document.querySelectorAll<HTMLElement>(".places, .foot")) {
			sticks.style.position = "static";
		}
		const { violations } = await axe.run(document, { runOnly, resultTypes: ["violations"] });
		return violations.flatMap((v) =>
			v.nodes.map((node) => `${v.id}: ${node.target.join(" ")}: ${node.failureSummary ?? ""}`),
		);
	}, tags);
}

/** Buttons, links and fields smaller than a thumb: 44 px, links in a sentence
 * excepted (WCAG 2.2, 2.5.8, lets those be; the rest is stricter than it asks). */
function small(phone: TestPhone): Promise<string[]> {
	return phone.page.evaluate(() =>
		[...document.querySelectorAll<HTMLElement>("button, a[href], input, select, summary")]
			.filter((element) => {
				const box = element.getBoundingClientRect();
				const hidden = box.width === 0 || element.closest(".vh, .skip, [hidden]") !== null;
				const inSentence = element.matches("p a, h2 a, h3 a");
				const held = element.closest("label")?.getBoundingClientRect();
				const height = Math.max(box.height, held?.height ?? 0);
				return (
					!hidden && !inSentence && (height < 43.5 || Math.max(box.width, held?.width ?? 0) < 43.5)
				);
			})
			.map((element) => `${element.tagName} ${element.textContent?.trim().slice(0, 40)}`),
	);
}

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
			await phone.page.waitForTimeout(300);
			for (const line of await violations(phone)) found.push(`${name}: ${line}`);
			for (const line of await small(phone)) found.push(`${name}: smaller than 44 px: ${line}`);
			const wide = await phone.page.evaluate(
				() => document.documentElement.scrollWidth - document.documentElement.clientWidth,
			);
			if (wide > 0) found.push(`${name}: ${wide} px wider than the phone`);
		};
		await check("join", "/join", "form");
		await phone.joinDemo("Kitchen phone");
		await phone.waitForSync("Everything shared");
		const codes = await labels(phone);
		await check("today", "/", ".bins");
		for (const [bin, code] of codes) await check(`tray in ${bin}`, `/t/${code}`, "h1");
		await check("bad code", "/t/nonsense", "form");
		await check("scan", "/t", "main");
		await check("weigh", "/weigh", ".what");
		await check("timeline", "/timeline", "main li");
		await check("look", "/look", "main");
		await check("more", "/more", "main");
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
