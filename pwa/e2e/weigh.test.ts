// Weighing in the kitchen beyond the keypad: what people call things, their own
// vessels and handfuls, what is better not fed, and what becomes of the rations.

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

/** A phone of the demo household with the Weigh screen open. */
async function weighing(): Promise<TestPhone> {
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Kitchen phone");
	await phone.waitForSync("Everything shared");
	await phone.go("/weigh");
	await phone.page.locator(".what").waitFor();
	return phone;
}

const press = (phone: TestPhone, name: string) =>
	phone.page.getByRole("button", { name, exact: true }).click();

/** Finds a scrap by what is typed and picks the first answer. */
async function find(phone: TestPhone, typed: string, name: string): Promise<void> {
	await press(phone, "find");
	await phone.page.getByLabel("Find a scrap").fill(typed);
	const first = phone.page.locator(".find .foundrow").first();
	await first.getByText(name).waitFor();
	await first.click();
}

async function add(phone: TestPhone, keys: string): Promise<void> {
	for (const key of keys) await press(phone, key);
	await press(phone, "Add");
}

const sum = (phone: TestPhone, amount: string) =>
	phone.page.locator(".inbowl .sum", { hasText: amount }).waitFor();

scene("a bowl is told what goes with it, in the household's own measures", 120, async () => {
	const phone = await weighing();
	const { page } = phone;
	await find(phone, "letuces", "Lettuce and salad leaves");
	await add(phone, "600");
	await sum(phone, "600 g");
	// What the rations become, the whole bowl accounted for.
	const rows = page.locator(".becomes li");
	await rows.first().waitFor();
	const grams = (await rows.locator("b").allInnerTexts()).map((row) =>
		Number(/(\d+)\sg/.exec(row)?.[1]),
	);
	assert.equal(
		grams.reduce((a, b) => a + b),
		600,
	);
	await page.getByText(/^Bedding with it: about \d+\sg$/).waitFor();

	// A handful is weighed once.
	await press(phone, "Say it in handfuls");
	await page.getByLabel("Which bedding").selectOption("newsprint");
	await page.getByLabel("Ten handfuls together, in g").fill("many");
	await press(phone, "Keep this handful");
	await page.getByRole("alert").getByText("plain number").waitFor();
	await page.getByLabel("Ten handfuls together, in g").fill("200");
	await press(phone, "Keep this handful");
	await page.getByText(/^Bedding with it: \d+½? handfuls, \d+\sg$/).waitFor();
	await page.getByText("weighed dry: Newspaper").waitFor();

	// So is a vessel; from then on its fill lines do.
	await press(phone, "Vessel");
	await press(phone, "Weigh a vessel");
	await page.getByLabel("What you call it").fill("yellow jug");
	await page.getByLabel("Scraps in it when full, in g").fill("400");
	await press(phone, "Keep this vessel");
	await page.getByRole("button", { name: /^yellow jug/, pressed: true }).waitFor();
	await press(phone, "half full");
	await press(phone, "Add");
	await sum(phone, "800 g");
	assert.deepEqual(await broken(phone), []);
});

scene("what is better not fed takes a second tap, and says why", 120, async () => {
	const phone = await weighing();
	const { page } = phone;
	await find(phone, "onions", "Onion flesh");
	await page.locator(".notice", { hasText: "Better not." }).waitFor();
	await add(phone, "90");
	await page.locator(".hint", { hasText: "Worms shun it while it is fresh" }).waitFor();
	assert.equal(await page.locator(".inbowl .sum").count(), 0, "nothing went in");
	await press(phone, "Add anyway");
	await sum(phone, "90 g");

	await find(phone, "ham", "Meat and poultry");
	await page.locator(".notice", { hasText: "Keep it out." }).waitFor();
	await add(phone, "50");
	await sum(phone, "90 g");
	await press(phone, "Add anyway");
	await sum(phone, "140 g");
	// The rations are not told to take it.
	await page.locator(".becomes li", { hasText: "out with the household waste" }).waitFor();
	await press(phone, "Undo");
	await sum(phone, "90 g");
});

scene("a small bowl is weighed and kept with no server and no mouse", 120, async () => {
	const phone = await weighing();
	const { page } = phone;
	phone.expectNoAnswer = true;
	await phone.context.setOffline(true);
	await page.getByRole("button", { name: "usual mix" }).focus();
	await page.keyboard.press("Enter");
	await page.getByRole("button", { name: "7", exact: true }).focus();
	await page.keyboard.type("250");
	await page.getByRole("button", { name: "Add", exact: true }).focus();
	await page.keyboard.press("Enter");
	await sum(phone, "250 g");
	await page.getByRole("button", { name: /^Keep in bowl/ }).focus();
	await page.keyboard.press("Enter");
	await page.locator(".saverow", { hasText: "saved" }).waitFor();
	await phone.context.setOffline(false);
});
