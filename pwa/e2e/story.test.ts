// The main story: two phones, one household, no signal at the bin.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import type { Browser } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { feed, invite, labels, undo, within } from "./steps.ts";

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

scene("label, bowl, feeding, a dead server and two phones that agree", 240, async () => {
	const ada = await TestPhone.make(browser, server.url);
	const odell = await TestPhone.make(browser, server.url);
	await ada.joinDemo("Kitchen phone");
	await ada.waitForSync("Everything shared");
	await invite(ada, "Odell", odell, "Cellar phone");
	await odell.waitForSync("Everything shared");

	// Two bins, each with its ration; their labels open from anywhere, as typed.
	const codes = await labels(ada);
	assert.deepEqual([...codes.keys()].sort(), ["Cellar", "Porch"]);
	const cellar = codes.get("Cellar") ?? "";
	const porch = codes.get("Porch") ?? "";
	assert.notEqual(cellar, porch);

	// A bowl is weighed upstairs and seen downstairs.
	await ada.go("/weigh");
	await ada.page.getByRole("button", { name: "Coffee grounds" }).click();
	for (const key of ["3", "0", "0"]) {
		await ada.page.getByRole("button", { name: key, exact: true }).click();
	}
	await ada.page.getByRole("button", { name: "Add", exact: true }).click();
	await odell.go("/");
	await ada.page.getByRole("button", { name: /^Keep in bowl, 300/ }).click();
	await within(
		2000,
		"bowl on the other phone",
		odell.page.getByText("Waiting to be placed").first(),
	);
	const lead = odell.page.getByText(/ bowl, weighed by /).first();
	const placed = /in (.+? bowl),/.exec(await lead.innerText())?.[1] ?? "";
	assert.notEqual(placed, "");
	await odell.page.getByRole("button", { name: "Placed as drawn" }).first().click();
	await odell.page.locator(".saverow", { hasText: "saved" }).waitFor();
	await odell.waitForSync("Everything shared");

	// The label as it is printed, in small letters without its hyphens.
	await ada.go(`/t/${cellar.replaceAll("-", "").toLowerCase()}`);
	await ada.page.getByRole("heading", { level: 1 }).waitFor();
	// What Odell placed is no longer offered here; feeding before that is told so.
	await ada.page.locator(".bowlpick", { hasText: placed }).waitFor({ state: "detached" });
	const first = await feed(ada);
	await undo(ada);
	await ada.waitForSync("Everything shared");
	console.log(`fed and undone: ${first}`);

	// The server's process dies; both phones go on.
	await ada.readyForOffline();
	await odell.readyForOffline();
	await odell.go(`/t/${porch}`);
	await odell.page.getByRole("heading", { level: 1 }).waitFor();
	ada.expectNoAnswer = odell.expectNoAnswer = true;
	await server.kill();

	// A cold start at another label, without anybody to ask.
	await ada.coldStart(`/t/${porch}`);
	const wrong = await feed(ada, 3);
	await undo(ada);
	const right = await feed(ada, 1);
	assert.ok(wrong && right);
	await ada.waitForSync(/entr(y|ies) waits? on this phone/);
	const other = await feed(odell, 2);
	await odell.waitForSync(/entr(y|ies) waits? on this phone/);

	// The server comes back: without a reload each shows what the other did.
	await odell.page.evaluate(() => {
		(globalThis as { sameePage?: boolean }).sameePage = true;
	});
	await server.start();
	const double = (phone: TestPhone) =>
		phone.page.getByText(/Fed twice, out of each other's sight/).first();
	await Promise.all([
		within(2000, "both feedings on the second phone", double(odell)),
		within(2000, "both feedings on the first phone", double(ada)),
	]);
	assert.equal(
		await odell.page.evaluate(() => (globalThis as { sameePage?: boolean }).sameePage),
		true,
		"without a reload",
	);
	for (const phone of [ada, odell]) {
		await phone.waitForSync("Everything shared");
		await phone.go("/timeline");
		for (const amount of new Set([right, other])) {
			await phone.page.getByText(amount).first().waitFor();
		}
	}
});
