// The same app in another engine: Firefox ESR, driven through the WebDriver BiDi
// protocol. One short story, because what differs between browsers is the ground
// the app stands on: storage, workers, wasm, the service worker, the policy.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import puppeteer, { type Browser, type Page } from "puppeteer-core";
import { PATIENCE, type Server, startServer } from "./harness.ts";

// The engine is another, the protocol a standard one (W3C, WebDriver BiDi).
const FIREFOX = process.env.TRAYSIDE_FIREFOX ?? "/usr/bin/firefox-esr";

let server: Server;
let browser: Browser;
before(async () => {
	server = await startServer("demo");
	browser = await puppeteer.launch({
		browser: "firefox",
		executablePath: FIREFOX,
		headless: true,
		extraPrefsFirefox: { "intl.accept_languages": "en-GB" },
	});
});
after(async () => {
	await browser?.close();
	await server?.end();
});

/** Waits until the page shows a text. */
const shows = (page: Page, words: string) =>
	page.locator(`::-p-text(${words})`).setTimeout(PATIENCE).wait();

/** Presses the button whose name begins so. */
const press = (page: Page, name: string) =>
	page.locator(`button ::-p-text(${name}), button::-p-text(${name})`).setTimeout(PATIENCE).click();

test("in Firefox a tray is opened and fed without a server, and told when it is back", {
	timeout: 120_000,
}, async () => {
	const page = await browser.newPage();
	const faults: string[] = [];
	page.on("pageerror", (error) => faults.push(String(error)));
	await page.setViewport({ width: 390, height: 844 });
	await page.goto(`${server.url}/join`);
	await page.locator("input").setTimeout(PATIENCE).fill("Firefox phone");
	await press(page, "Look at the demo household");
	await shows(page, "Everything shared");
	await page.evaluate(async () => {
		await navigator.serviceWorker.ready;
	});

	await server.stop();
	await page.reload();
	await page.locator('a[href^="/t/"]').setTimeout(PATIENCE).click();
	await press(page, "Fed");
	await page.locator(".saverow ::-p-text(saved)").setTimeout(PATIENCE).wait();
	await page.reload();
	await shows(page, "1 entry waits");

	await server.start();
	await page.reload();
	await shows(page, "Everything shared");
	assert.deepEqual(faults, []);
});
