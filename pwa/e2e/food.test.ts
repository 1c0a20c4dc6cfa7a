// "Can they eat this?", answered by the phone alone, and a keeper who is
// stricter than the guides.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import type { Browser } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { broken } from "./rules.ts";
import { invite } from "./steps.ts";

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

async function ask(phone: TestPhone, typed: string, name: string): Promise<void> {
	await phone.page.getByLabel("Can they eat this?").fill(typed);
	await phone.page.locator(".foundrow[aria-expanded=true]", { hasText: name }).waitFor();
}

const answer = (phone: TestPhone) => phone.page.locator(".answer");

scene("what people call a scrap gets an answer without a network", 120, async () => {
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Kitchen phone");
	await phone.waitForSync("Everything shared");
	await phone.readyForOffline();
	phone.expectNoAnswer = true;
	await phone.context.setOffline(true);
	await phone.coldStart("/food");
	const { page } = phone;
	await page.getByRole("heading", { name: "Food check" }).waitFor();
	assert.deepEqual(await broken(phone), []);

	await ask(phone, "Can they eat oranges?", "Orange peel");
	await page.locator(".foundrow .verdict", { hasText: "Sparingly." }).waitFor();
	await answer(phone).getByText("The oil of its peel harms worms").waitFor();
	await answer(phone).getByText("Guides disagree").waitFor();
	await answer(phone)
		.getByText(/^Who says so: 7 published/)
		.click();
	await answer(phone).getByText("Mid Sussex District Council").waitFor();
	assert.deepEqual(await broken(phone), []);

	await ask(phone, "chiken", "Meat and poultry scraps");
	await page.locator(".foundrow .verdict", { hasText: "Keep it out." }).waitFor();
	await answer(phone).getByText("can't be loosened").waitFor();

	await page.getByLabel("Can they eat this?").fill("plutonium");
	await page.getByText("The catalogue has no “plutonium”").waitFor();
	await page.locator(".kindrow", { hasText: "As bread, rice, pasta:" }).waitFor();
	assert.deepEqual(await broken(phone), []);
	await phone.context.setOffline(false);
});

scene("a keeper is stricter than the guides, for everyone", 180, async () => {
	const keeper = await TestPhone.make(browser, server.url);
	const feeder = await TestPhone.make(browser, server.url);
	await keeper.joinDemo("Kitchen phone");
	await keeper.waitForSync("Everything shared");
	await invite(keeper, "Odell", feeder, "Cellar phone");

	await keeper.go("/food");
	await ask(keeper, "bread", "Bread, stale");
	await answer(keeper).getByText("Be stricter here").click();
	await answer(keeper).getByLabel("Why (may stay empty)").fill("mice in the yard");
	await answer(keeper).getByRole("button", { name: "Keep it out." }).click();
	await keeper.page.locator(".saverow", { hasText: "Bread, stale: Keep it out., saved" }).waitFor();
	await answer(keeper).getByText("The guides say: Sparingly. “mice in the yard”").waitFor();
	await keeper.waitForSync("Everything shared");

	// The other phone says so in the food check and where it weighs.
	await feeder.go("/food");
	await feeder.page.locator(".foundrow", { hasText: "Bread, stale" }).waitFor();
	await feeder.go("/weigh?scrap=bread");
	await feeder.page.locator(".notice", { hasText: "Keep it out. House rule." }).waitFor();

	// And it can be taken back.
	await answer(keeper).getByRole("button", { name: "As the guides" }).click();
	await keeper.page.locator(".foundrow .verdict", { hasText: "Sparingly." }).waitFor();
	await feeder.page.locator(".notice", { hasText: "Sparingly." }).waitFor();
});
