// What waits is placed, thawed and thrown out by one tap each, and each tap can
// be taken back.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import type { Browser } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { comes, undo, workedOut } from "./steps.ts";

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

scene(
	"a bowl is placed by one tap, then the freezer by one more, and both go back",
	120,
	async () => {
		const phone = await TestPhone.make(browser, server.url);
		await phone.joinDemo("Kitchen phone");
		await phone.waitForSync("Everything shared");
		await phone.go("/");
		const { page } = phone;
		const stock = page.locator(".today .rowtitle");
		/** What Today says is in the freezer, g. */
		const frozen = async () => Number((await stock.innerText()).replaceAll(/[^0-9]/g, ""));
		const saved = page.locator(".saverow", { hasText: "saved" });
		await workedOut(page);
		const before = await frozen();

		// 640 g wait: so much into each tray, the rest into the freezer.
		const shares = await page.locator(".sharelist li").allTextContents();
		const given = (share: string) => Number(/^[\d,]+/.exec(share)?.[0].replace(",", ""));
		assert.equal(
			shares.reduce((sum, share) => sum + given(share), 0),
			640,
			shares.join("; "),
		);
		const rest = given(shares.find((share) => share.includes("freezer")) ?? "");
		assert.ok(shares.length >= 2 && rest > 0, shares.join("; "));
		await page.getByRole("button", { name: "Placed as drawn" }).click();
		await saved.waitFor();
		await page.locator(".sharelist").waitFor({ state: "detached" });
		await comes("the rest is in the freezer", frozen, before + rest); // its entries come one by one
		await undo(phone);
		await page.locator(".sharelist").waitFor({ state: "attached" });
		await comes("undone as a whole", frozen, before);

		// With the bowl split onto none of them, the freezer is offered no room.
		assert.equal(await page.getByRole("button", { name: /^Take out/ }).count(), 0);
		await phone.go("/freezer");
		await page.getByText("Today's rations are spoken for").waitFor();
	},
);

scene("what comes out of the freezer becomes a bowl, a meal or waste", 120, async () => {
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Hall phone");
	await phone.waitForSync("Everything shared");
	const { page } = phone;
	const saved = page.locator(".saverow", { hasText: "saved" });
	const total = async () =>
		page.evaluate(
			async () => (await document.querySelector("trayside-app")?.view("freezer"))?.data,
		);
	const holds = (grams: number) =>
		comes("grams in the freezer", async () => (await total())?.grams, grams);

	await phone.go("/freezer");
	await workedOut(page);
	const before = await total();
	assert.ok(before && before.kinds.length > 1);
	const [oldest] = before.kinds;
	assert.ok(oldest);

	// Out with the oldest kind alone.
	await page.locator(".stockrow").first().click();
	assert.equal(await page.locator(".stockrow").first().getAttribute("aria-pressed"), "true");
	await page.getByRole("button", { name: "out with the household waste" }).click();
	await page.getByRole("button", { name: /^Throw out/ }).click();
	await saved.waitFor();
	await holds(before.grams - Math.min(200, oldest.item.grams));
	await undo(phone);
	await holds(before.grams); // both entries of the tap go back

	// Into a bowl, the oldest first: it waits on Today.
	await page.getByRole("button", { name: /^Take out 200/ }).click();
	await saved.waitFor();
	await holds(before.grams - 200);
	await page.getByRole("link", { name: "Today" }).click();
	await page.getByText("freezer bowl").first().waitFor();

	// In again, without a bowl.
	await phone.go("/freezer");
	await page.getByRole("button", { name: "Put in" }).click();
	await page.getByRole("button", { name: /^Freeze 250/ }).click();
	await saved.waitFor();
	await holds(before.grams + 50);
});

scene("the stack is told in words, opens by a tap, and a meal drops into it", 120, async () => {
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Shed phone");
	await phone.waitForSync("Everything shared");
	const { page } = phone;
	await phone.go("/");
	await workedOut(page);
	const picture = page.locator(".bins svg[role=img]").first();
	await picture.locator(".plumb").first().waitFor({ state: "attached" }); // worked out now, not remembered
	const said = (await picture.getAttribute("aria-label")) ?? "";
	for (const part of [/in section/, /Takes food: .* today/, /bedding on .* castings/, /Worms /]) {
		assert.match(said, part);
	}
	await page.locator(".bins .binname a").first().click();
	const large = page.locator("stack-section [role=img]");
	await large.waitFor();
	const name = await page.locator("tray-screen h1").innerText();
	const other = page.locator("stack-section .opener").first();
	const opens = (await other.getAttribute("aria-label")) ?? "";
	await other.click();
	// Until the other tray is worked out, the heading is a plain word.
	await page.waitForFunction(
		([was, label]) => {
			const now = document.querySelector("tray-screen h1")?.textContent ?? was;
			return now !== was && label?.includes(now ?? "");
		},
		[name, opens],
	);
	await page.goBack();
	await page.locator("tray-screen h1", { hasText: name }).waitFor();

	// A drawing that is told the same stays the same.
	const strokes = () =>
		page
			.locator("stack-section svg")
			.first()
			.locator("path")
			.evaluateAll((paths) => paths.map((path) => path.getAttribute("d")));
	const drawn = await strokes();
	await page.reload();
	await large.waitFor();
	await workedOut(page);
	await page.locator("stack-section .plumb").first().waitFor({ state: "attached" });
	assert.ok(drawn.length > 20);
	assert.deepEqual(await strokes(), drawn, "the same drawing after a reload");

	// What was fed drops in, and the words say so.
	await page.evaluate(() => {
		const seen = globalThis as unknown as { moved: string };
		seen.moved = "";
		document.addEventListener("animationstart", (e) => {
			seen.moved += `${e.animationName} `;
		});
	});
	const anyway = page.getByText("It was fed anyway");
	if ((await anyway.count()) > 0) await anyway.click();
	await page.getByRole("button", { name: /^Fed( |$)/ }).click();
	await page.locator(".saverow", { hasText: "saved" }).waitFor();
	await page.waitForFunction(() =>
		(globalThis as unknown as { moved: string }).moved.includes("drop"),
	);
	const day = await page.evaluate(() => document.querySelector("trayside-app")?.day() ?? "");
	const weekday = new Date(day).toLocaleDateString("en-GB", { weekday: "long", timeZone: "UTC" });
	await page.locator(`stack-section [aria-label*="left of ${weekday}'s scraps"]`).waitFor();
	await undo(phone);

	await page.emulateMedia({ reducedMotion: "reduce" });
	const moves = await page
		.locator("stack-section .surface")
		.first()
		.evaluate((line) => {
			line.closest(".stackframe")?.classList.add("fed");
			return getComputedStyle(line).animationName;
		});
	assert.equal(moves, "none", "nothing moves for those who asked for none");
});
