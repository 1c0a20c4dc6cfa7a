// A new version of the app: it waits to be asked, and what is typed survives it.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import type { Browser } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { startProxy } from "./proxy.ts";

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

scene("an update waits for a tap and keeps the bowl that is being weighed", 120, async () => {
	const proxy = await startProxy(server.url);
	try {
		const phone = await TestPhone.make(browser, proxy.url);
		await phone.joinDemo("Kitchen phone");
		await phone.readyForOffline();
		await phone.go("/weigh");
		const { page } = phone;
		await page.getByRole("button", { name: "Coffee grounds" }).click();
		for (const key of ["1", "8", "0"]) {
			await page.getByRole("button", { name: key, exact: true }).click();
		}
		await page.getByRole("button", { name: "Add", exact: true }).click();
		await page.getByRole("button", { name: /^Keep in bowl, 180/ }).waitFor();
		proxy.newVersion = "\n// another version";
		await page.evaluate(async () => {
			await (await navigator.serviceWorker.getRegistration())?.update();
			(globalThis as { before?: boolean }).before = true;
		});
		await page.getByText("A new version of Trayside is ready.").waitFor();
		assert.equal(
			await page.evaluate(() => (globalThis as { before?: boolean }).before),
			true,
			"nothing reloads by itself",
		);
		await page.getByRole("button", { name: "Use it now" }).click();
		await page.waitForFunction(() => !(globalThis as { before?: boolean }).before);
		await page.getByRole("button", { name: /^Keep in bowl, 180/ }).waitFor();
		assert.equal(await page.getByText("A new version of Trayside is ready.").count(), 0);
	} finally {
		await proxy.end();
	}
});
