// Pictures of every screen of the demo household, to be looked at by people: one
// for each screen, theme, language and text size, at its whole length, and the
// narrow phone in both languages. One server, one browser and one phone do it
// all; a screen is opened once and taken in both themes. The first argument is
// the folder they go to, the second, if any, the screens whose names begin so.

import assert from "node:assert/strict";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { openBrowser, startServer, TestPhone } from "./harness.ts";
import { joining, open, type Shot, screens, traysOf } from "./screens.ts";
import { still, textSize } from "./steps.ts";

const HEIGHT = 844;

/** A way to look at the screens. */
interface Way {
	language: string;
	width: number;
	/** The text size a person set in the browser, in per cent. */
	text: number;
}

const ways: Way[] = [
	{ language: "en", width: 390, text: 100 },
	{ language: "en", width: 320, text: 100 },
	{ language: "en", width: 390, text: 200 },
	{ language: "es", width: 390, text: 100 },
	{ language: "es", width: 320, text: 100 },
	{ language: "es", width: 390, text: 200 },
];

/** "tray-fern-dark-es-large.png"; the narrow phone says its width. */
function nameOf(screen: string, theme: string, way: Way): string {
	const parts = [screen, theme, way.language, way.text > 100 ? "large" : "normal"];
	if (way.width !== 390) parts.push(String(way.width));
	return `${parts.join("-")}.png`;
}

/** Loads the app in a language and with a text size; false if it lacks the language. */
async function load(phone: TestPhone, way: Way, path: string): Promise<boolean> {
	const { page } = phone;
	await textSize(page, way.text);
	await page.setViewportSize({ width: way.width, height: HEIGHT });
	await phone.go(path);
	await page.evaluate((tag) => localStorage.setItem("trayside-language", tag), way.language);
	await page.reload();
	await page.locator("main").first().waitFor();
	return (await page.evaluate(() => document.documentElement.lang)) === way.language;
}

async function take(page: Page, shot: Shot, way: Way, dir: string): Promise<void> {
	await still(page);
	const { width } = way;
	const height = await page.evaluate(() => document.documentElement.scrollHeight);
	// By a phone that is as long as the page: what sticks to the foot stands there.
	if (height > HEIGHT) await page.setViewportSize({ width, height });
	for (const theme of ["light", "dark"] as const) {
		await page.emulateMedia({ colorScheme: theme });
		await still(page);
		await page.screenshot({
			path: join(dir, nameOf(shot.name, theme, way)),
			animations: "disabled",
		});
	}
	if (height > HEIGHT) await page.setViewportSize({ width, height: HEIGHT });
}

async function takeAll(page: Page, way: Way, dir: string, only: string): Promise<number> {
	// Worked out now, not remembered.
	await page.waitForFunction(
		async () => (await document.querySelector("trayside-app")?.view("today"))?.from === null,
	);
	const trays = await traysOf(page);
	let taken = 0;
	for (const shot of screens.filter((s) => s.name.startsWith(only))) {
		await open(page, shot, trays);
		const back = await shot.prepare?.(page);
		await take(page, shot, way, dir);
		if (back) await back();
		taken += 2;
	}
	return taken;
}

const [dir, only = ""] = process.argv.slice(2);
assert.ok(dir, "say where the pictures go: go run ./cmd/dev shots --out DIR");
const server = await startServer("demo");
const browser = await openBrowser();
try {
	const start = Date.now();
	const stranger = await TestPhone.make(browser, server.url);
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Kitchen phone");
	await phone.waitForSync("Everything shared");
	let taken = 0;
	for (const way of ways) {
		if (!(await load(phone, way, "/"))) {
			console.log(`the app does not speak "${way.language}" yet: no pictures in it`);
			continue;
		}
		if (joining.name.startsWith(only)) {
			await load(stranger, way, joining.path as string);
			await stranger.page.locator(joining.ready).waitFor();
			await take(stranger.page, joining, way, dir);
			taken += 2;
		}
		taken += await takeAll(phone.page, way, dir, only);
		console.log(`${way.language}, ${way.width} px, ${way.text} %: done`);
	}
	const seconds = (Date.now() - start) / 1000;
	console.log(
		`${taken} pictures in ${seconds.toFixed(0)} s, ${(seconds / taken).toFixed(2)} s each`,
	);
} finally {
	await browser.close();
	await server.end();
}
