// A visit to a tray: fed by one tap and told more of it with dry hands, looked
// at, caught up on, mended in the timeline; and the screen that children get.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import type { Browser } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { broken } from "./rules.ts";
import { comes, draftsKept, feed, invite, labels, undo, workedOut } from "./steps.ts";

let server: Server;
let browser: Browser;
before(async () => {
	browser = await openBrowser();
});
after(async () => {
	await browser?.close();
	for (const each of ended) await each.end();
});
const ended: Server[] = [];

/** A scene in a household of its own: what one feeds, no other sees. */
function visit(name: string, seconds: number, play: () => Promise<void>): void {
	scene(name, seconds, async () => {
		server = await startServer("demo");
		ended.push(server);
		await play();
	});
}

const saved = (phone: TestPhone, words: string | RegExp) =>
	phone.page.locator(".saverow", { hasText: words }).filter({ hasText: "saved" }).waitFor();

async function joined(options = {}): Promise<TestPhone> {
	const phone = await TestPhone.make(browser, server.url, options);
	await phone.joinDemo("Kitchen phone");
	await phone.waitForSync("Everything shared");
	return phone;
}

visit("after the one tap, the place and the person are told with dry hands", 120, async () => {
	const phone = await joined();
	const { page } = phone;
	const cellar = (await labels(phone)).get("Cellar") ?? "";
	await phone.go(`/t/${cellar}`);
	const amount = await feed(phone);
	// A second tap of a wet thumb is none, and the plan shows where the meal lies.
	assert.equal(await page.locator("tray-screen .foot .go").isDisabled(), true);
	await page.locator(".spot.dropped").waitFor();
	await page.getByRole("button", { name: /^front left/ }).click();
	await saved(phone, /front left/);
	await page.locator(".whofed summary").click();
	await page.locator(".whofed").getByRole("button", { name: "Odell" }).click();
	await saved(phone, /by Odell/);
	await phone.go("/timeline");
	const row = page.locator(".entries > li").first();
	await row.getByText(amount).waitFor();
	await row.getByText(/by Odell.*placed front left/).waitFor();
	// Undo takes the meal itself back, not only what was told of it.
	await phone.go(`/t/${cellar}`);
	await feed(phone);
	await page.getByRole("button", { name: /^back left/ }).click();
	await saved(phone, /back left/);
	await undo(phone);
	await phone.go("/timeline");
	await page.locator(".entries > li.gone").first().getByText("undone").waitFor();
});

visit("of several bowls the one in hand is chosen", 120, async () => {
	const phone = await joined();
	const { page } = phone;
	await phone.go("/weigh");
	await page.getByRole("button", { name: "Coffee grounds" }).click();
	for (const key of ["5", "0"]) await page.getByRole("button", { name: key, exact: true }).click();
	await page.getByRole("button", { name: "Add", exact: true }).click();
	await page.getByRole("button", { name: /^Keep in bowl/ }).click();
	await saved(phone, "");
	const cellar = (await labels(phone)).get("Cellar") ?? "";
	await phone.go(`/t/${cellar}`);
	await page.locator(".bowlpick summary").click();
	const bowls = page.getByRole("group", { name: "Which bowl" }).getByRole("button");
	assert.ok((await bowls.count()) > 1, "two bowls wait");
	await bowls.filter({ hasText: /^50/ }).click();
	await page.locator(".bowlpick summary .line", { hasText: /^50/ }).waitFor();
	await page.getByRole("button", { name: /^all 50/ }).click();
	await page.getByRole("button", { name: /^Fed 50/ }).click();
	await saved(phone, /^50/);
});

visit("a look tells what it changed, and the timeline mends it", 180, async () => {
	const phone = await joined();
	const { page } = phone;
	await phone.go("/look");
	await page.locator("look-screen li", { hasText: "Fern" }).getByRole("link").click();
	const group = (name: string | RegExp) => page.getByRole("group", { name });
	await group(/^What is left/)
		.first()
		.getByRole("button", { name: "most" })
		.click();
	await group("Squeeze a handful").getByRole("button", { name: "runs" }).click();
	await page.getByLabel("Degrees, °C").fill("warm");
	await group(/^Visitors/)
		.getByRole("button", { name: "mites", exact: true })
		.click();
	await group("Cover sheet").getByRole("button", { name: "dry" }).click();
	await page.getByLabel(/^Millilitres/).fill("250");
	await page.getByText("Measured more closely").click();
	await page.getByLabel("One scoop holds, ml").fill("250");
	await page.getByLabel("Grown worms, with a band").fill("31");
	await page.getByRole("button", { name: "Save this look" }).click();
	await page.getByText("That is no temperature a bed can have").waitFor();
	assert.equal(await page.evaluate(() => document.activeElement?.getAttribute("name")), "temp");
	// What was typed outlives a reload.
	await page.getByLabel("Degrees, °C").fill("17,5");
	await draftsKept(page);
	await page.reload();
	await comes("what was typed", () => page.getByLabel("Degrees, °C").inputValue(), "17,5");
	assert.deepEqual(await broken(phone), []);
	await page.getByRole("button", { name: "Save this look" }).click();
	await saved(phone, "Look at Fern");
	await page.getByRole("heading", { name: "What this changed" }).waitFor();
	await page.locator(".taught li", { hasText: "ration for Fern" }).waitFor();
	assert.deepEqual(await broken(phone), []);
	await phone.go("/timeline");
	const row = page.locator(".entries > li", { hasText: "250 ml drained" });
	await row.getByText(/runs, bed 17\.5.°C, seen: mites, cover dry, 250 ml drained/).waitFor();
	await page.locator(".entries > li", { hasText: "31 grown" }).waitFor();
	await row.locator(".entry").click();
	await row.getByRole("button", { name: "Edit" }).click();
	await row.getByLabel("What is left").selectOption("half");
	await row.getByLabel("Temperature, °C").fill("16");
	assert.deepEqual(await broken(phone), []);
	await page.getByRole("button", { name: "Save the change" }).click();
	await page
		.locator(".entries > li", { hasText: "half left" })
		.getByText(/bed 16.°C/)
		.waitFor();
	// Narrowed to looks, no feeding is left; of a person without any, nothing.
	await page.locator(".filter summary").click();
	await page.getByLabel("Kind").selectOption("look");
	await row.waitFor();
	await page.locator(".entries .did", { hasText: /^Fed/ }).first().waitFor({ state: "detached" });
	await page.getByLabel("Person").selectOption({ label: "Wren" });
	await page.getByText("Nothing written down fits that.").waitFor();
});

visit("more than the log explains is asked about once, and the answer is kept", 120, async () => {
	const phone = await joined();
	const { page } = phone;
	const cellar = (await labels(phone)).get("Cellar") ?? "";
	await phone.go(`/look?tray=${cellar}`);
	await page
		.getByRole("group", { name: /^What is left/ })
		.first()
		.getByRole("button", { name: "most" })
		.click();
	// A look of which no question asked: one that says only what is left may have
	// answered this visit's.
	await page
		.getByRole("group", { name: "Squeeze a handful" })
		.getByRole("button", { name: "a few" })
		.click();
	await page.getByRole("button", { name: "Save this look" }).click();
	await page.getByRole("link", { name: /^Back to/ }).click();
	const question = page.getByRole("heading", {
		name: "Did somebody feed without writing it down?",
	});
	await question.waitFor();
	assert.deepEqual(await broken(phone), []);
	await page.getByRole("button", { name: "Skip" }).click();
	await question.waitFor({ state: "detached" });
	await page.reload();
	await page.getByRole("button", { name: "Yes, or probably" }).click();
	await question.waitFor({ state: "detached" });
	await page.reload();
	await workedOut(page);
	assert.equal(await question.count(), 0, "it is not asked again");
	await phone.go("/timeline");
	const answer = page.locator(".entries > li", { hasText: "fed without writing it down" });
	await answer.waitFor();
	// Taken back, it is asked again.
	await answer.locator(".entry").click();
	await answer.getByRole("button", { name: "Undo" }).click();
	await answer.getByText("undone").waitFor();
	await phone.go(`/t/${cellar}`);
	await question.waitFor();
});

visit("a week is caught up on with one tap, and taken back with one", 120, async () => {
	const phone = await joined();
	const { page } = phone;
	await phone.go("/catch-up");
	const about = page.getByText("about that day");
	await page
		.getByRole("button", { name: /^This week about/ })
		.first()
		.click();
	await saved(phone, "about the usual");
	assert.deepEqual(await broken(phone), []);
	await phone.go("/timeline");
	await about.nth(2).waitFor();
	await comes("meals caught up on", () => about.count(), 3);
	await phone.go("/catch-up");
	await page
		.getByRole("button", { name: /^This week about/ })
		.last()
		.click();
	await saved(phone, "about the usual");
	await undo(phone);
	await phone.go("/timeline");
	await page.locator(".entries > li.gone").nth(2).waitFor();
});

visit(
	"a held tray is covered; fed anyway is written down and followed by what helps",
	120,
	async () => {
		const phone = await joined();
		const { page } = phone;
		const porch = (await labels(phone)).get("Porch") ?? "";
		await phone.go(`/t/${porch}`);
		await page.locator("tray-screen .act").getByRole("link", { name: "Look" }).click();
		await page.getByRole("button", { name: /^sharp/ }).click();
		await page.getByRole("button", { name: "Save this look" }).click();
		await page.getByText("Feeding stops here until it is better.").waitFor();
		await page.getByRole("link", { name: /^Back to/ }).click();
		await page.getByRole("button", { name: "Covered" }).click();
		await saved(phone, "covered");
		assert.deepEqual(await broken(phone), []);
		await page.reload();
		await page.getByRole("button", { name: "It was fed anyway" }).click();
		await page.getByRole("button", { name: / more$/ }).click();
		await page.getByRole("button", { name: /^Fed/ }).click();
		await page.getByRole("heading", { name: "What helps now" }).waitFor();
	},
);

visit(
	"a child's phone has three things to do, and more than the ration is taken",
	180,
	async () => {
		const keeper = await joined();
		const wren = await TestPhone.make(browser, server.url);
		await keeper.go("/household");
		await keeper.page.locator("#add-role").selectOption("feeder");
		await invite(keeper, "Wren", wren, "Wren's phone");
		await wren.waitForSync("Everything shared");
		const { page } = wren;
		await wren.go("/");
		await page.getByRole("heading", { name: "Which bin?" }).waitFor();
		assert.deepEqual(await broken(wren), []);
		await page.getByRole("link", { name: "Cellar" }).click();
		await page.getByRole("button", { name: /^(more|a big bowl)$/ }).click();
		assert.deepEqual(await broken(wren), []);
		await page.getByRole("button", { name: "Fed", exact: true }).click();
		await saved(wren, "into");
		await page.getByRole("button", { name: "Ask a grown-up" }).click();
		await saved(wren, "a grown-up will see it");
		await page.getByRole("button", { name: "Into the freezer" }).click();
		await saved(wren, "freezer");
		await wren.waitForSync("Everything shared");
		await keeper.go("/");
		await keeper.page
			.getByText(/Wren asks/)
			.first()
			.waitFor();
		// More than the ration is no fault of the child's; the keeper is told.
		await keeper.page
			.getByText(/^Wren fed .+ into Fern; .+ (was advised|was to go in)\./)
			.waitFor();
		await keeper.go("/timeline");
		await keeper.page.locator(".entries > li", { hasText: "by Wren" }).first().waitFor();
	},
);
