// What's wrong, answered by the phone alone; and a harvest that is written down,
// taken back, and followed by an empty tray.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import type { Browser } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { broken } from "./rules.ts";

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

const saved = (phone: TestPhone, words: string) =>
	phone.page.locator(".saverow", { hasText: words }).waitFor();

scene("signs get causes, steps and a hold, without a network", 120, async () => {
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Kitchen phone");
	await phone.waitForSync("Everything shared");
	await phone.readyForOffline();
	phone.expectNoAnswer = true;
	await phone.context.setOffline(true);
	await phone.coldStart("/trouble");
	const { page } = phone;
	await page.getByRole("heading", { name: "What's wrong" }).waitFor();
	await page.getByRole("link", { name: /^Fern/ }).click();
	await page.getByText("nothing is diagnosed from nothing").waitFor();
	assert.deepEqual(await broken(phone), []);

	await page.getByRole("button", { name: "sour smell" }).click();
	await page.getByRole("heading", { name: "Could be" }).waitFor();
	await page.getByRole("button", { name: "puddles or mud" }).click();
	await page.getByRole("heading", { name: "Fits best" }).waitFor();
	await page.getByText("Nothing goes in until then: it smells sour.").waitFor();
	await page.getByText("Wash your hands; gloves over cuts.").waitFor();
	assert.deepEqual(await broken(phone), []);

	await page.getByRole("button", { name: "Write it down" }).click();
	await saved(phone, "Signs in Fern, saved");
	await phone.go("/");
	await page.getByText("Smells sour").first().waitFor();
	await phone.context.setOffline(false);
});

scene("a harvest is written down, taken back, and the tray emptied", 120, async () => {
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Cellar phone");
	await phone.waitForSync("Everything shared");
	await phone.go("/harvest");
	const { page } = phone;
	await page.getByRole("link", { name: /^Slate/ }).click();
	await page.getByText("Castings likely").waitFor();
	assert.deepEqual(await broken(phone), []);

	await page.getByRole("button", { name: /^Light/ }).click();
	await page.getByLabel("Weighed, g").fill("heavy");
	await page.getByRole("button", { name: "Write the harvest down" }).click();
	await page.getByText("That is no figure.").waitFor();
	await page.getByLabel("Weighed, g").fill("3200");
	await page.getByLabel("Worms put back, g").fill("40");
	await page.getByRole("button", { name: "Write the harvest down" }).click();
	await saved(phone, "Harvest of Slate, saved");
	await page.getByText(/3\.2\skg, \w/).waitFor();
	assert.deepEqual(await broken(phone), []);

	await page.getByRole("button", { name: "Undo" }).click();
	await page.getByText(/3\.2\skg/).waitFor({ state: "detached" });
	await page.getByLabel("Weighed, g").fill("3000");
	await page.getByRole("button", { name: "Write the harvest down" }).click();
	await saved(phone, "Harvest of Slate, saved");
	await page.getByRole("button", { name: "The tray is empty now" }).click();
	await page.getByText("This tray stands empty").waitFor();
	await page.getByRole("button", { name: "Undo" }).click();
	await page.getByText("Castings likely").waitFor();
	await page.getByText(/3\skg, \w/).waitFor();
});
