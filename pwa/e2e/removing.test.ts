// Phones that go: lost, no longer used, and by their owner's own wish.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before } from "node:test";
import type { Browser } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { broken } from "./rules.ts";
import { comes, feed, invite, labels, within } from "./steps.ts";

// Two people who stand side by side must see it happen.
const AT_ONCE = 2_000;

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

/** A keeper, and a phone that the keeper has let in to feed. */
async function two(name: string): Promise<{ keeper: TestPhone; guest: TestPhone }> {
	const keeper = await TestPhone.make(browser, server.url);
	await keeper.joinDemo("Kitchen phone");
	await keeper.waitForSync("Everything shared");
	const guest = await TestPhone.make(browser, server.url);
	await invite(keeper, "Odell", guest, name);
	await guest.waitForSync("Everything shared");
	await keeper.page.getByText("Odell · feeds").first().waitFor();
	return { keeper, guest };
}

/** What the phone's storage holds, by store; empty ones left out. */
function storage(phone: TestPhone): Promise<Record<string, unknown[]>> {
	return phone.page.evaluate(async () => {
		const done = <T>(request: IDBRequest<T>) =>
			new Promise<T>((resolve, reject) => {
				request.onsuccess = () => resolve(request.result);
				request.onerror = () => reject(request.error);
			});
		const db = await done(indexedDB.open("trayside"));
		const held: Record<string, unknown[]> = {};
		for (const name of db.objectStoreNames) {
			const store = db.transaction(name).objectStore(name);
			const rows = await done(store.getAll());
			if (rows.length > 0) held[name] = name === "meta" ? await done(store.getAllKeys()) : rows;
		}
		db.close();
		return held;
	});
}

/** The token that the phone shows the server. */
async function tokenOf(phone: TestPhone): Promise<string> {
	const asked = phone.page.waitForRequest((request) => request.url().endsWith("/api/v1/exchange"));
	await phone.go("/household");
	await phone.page.getByRole("button", { name: "Exchange now" }).click();
	return (await (await asked).allHeaders()).authorization ?? "";
}

const removeOf = (keeper: TestPhone, name: string) =>
	keeper.page.getByRole("button", { name: `Remove this phone: ${name}` });

scene(
	"a lost phone wipes itself while its owner looks on, and is let in no more",
	180,
	async () => {
		const { keeper, guest } = await two("Porch phone");
		guest.expectRefusals = true;
		const token = await tokenOf(guest);
		const ask = () =>
			fetch(`${server.url}/api/v1/reconcile`, {
				method: "POST",
				headers: { Authorization: token, "Content-Type": "application/json" },
				body: '{"months":true}',
			});
		assert.equal((await ask()).status, 200);
		assert.equal(await guest.page.getByRole("button", { name: /^Remove this phone/ }).count(), 0);

		await removeOf(keeper, "Porch phone").click();
		const why = keeper.page.getByRole("group", { name: "Remove Porch phone: why?" });
		await why.getByText("That is a best effort").waitFor();
		assert.deepEqual(await broken(keeper), []);
		await keeper.page.getByRole("button", { name: "Keep this phone" }).click();
		await removeOf(keeper, "Porch phone").click();
		await why.getByRole("button", { name: "Lost: wipe it" }).click();
		await within(
			AT_ONCE,
			"the lost phone's farewell",
			guest.page.getByText("This phone was removed from the household"),
		);
		await comes("the lost phone's storage", () => storage(guest), { meta: ["wiped"] });
		await keeper.page.getByText("Odell · feeds · lost").waitFor();
		assert.equal(await removeOf(keeper, "Porch phone").count(), 0);
		await keeper.waitForSync("Everything shared");

		const refused = await ask();
		assert.equal(refused.status, 403);
		assert.equal(((await refused.json()) as { code: string }).code, "device-revoked");

		await guest.page.reload();
		await guest.page.getByText("This phone was removed from the household").waitFor();
		assert.deepEqual(await broken(guest), []);
		await comes("the phone's storage", () => storage(guest), { meta: ["wiped"] });
	},
);

type Op = { id: string; text: string; known?: number };

/** Two phones; the guest's was removed as no longer used while it was out of
 * reach with an entry that nobody else has. */
async function removed(name: string) {
	const { keeper, guest } = await two(name);
	guest.expectRefusals = true;
	guest.expectNoAnswer = true;
	const code = (await labels(guest)).get("Cellar") ?? "";
	await guest.readyForOffline();
	await guest.go(`/t/${code}`);
	await guest.context.setOffline(true);
	await feed(guest);
	await guest.waitForSync("1 entry waits on this phone");

	// Signed in a tab that follows; the one that leads pushes it.
	await keeper.openTab("/household");
	await removeOf(keeper, name).click();
	const pushed = keeper.context.waitForEvent("response", (answer) =>
		(answer.request().postData() ?? "").includes("revoke"),
	);
	await keeper.page.getByRole("button", { name: "No longer used" }).click();
	await keeper.page.getByText(`${name} is removed.`).waitFor();
	assert.equal((await pushed).status(), 200);

	await guest.context.setOffline(false);
	await guest.page.getByText("This phone was removed from the household").waitFor();
	await guest.page.getByText(/^\d+ entries of the household/).waitFor();
	const held = await storage(guest);
	assert.deepEqual(Object.keys(held).sort(), ["meta", "ops"]);
	const alone = (held.ops as Op[]).filter((row) => row.known === 0);
	assert.ok(alone.length > 0, "what was not shared is still there");
	return { keeper, guest, alone };
}

scene("a phone that is no longer used keeps its entries for an export", 180, async () => {
	const { guest, alone } = await removed("Old phone");
	assert.deepEqual(await broken(guest), []);
	const [file] = await Promise.all([
		guest.page.waitForEvent("download"),
		guest.page.getByRole("button", { name: "Export this phone's entries" }).click(),
	]);
	const lines = (await readFile(await file.path(), "utf8")).split("\n");
	for (const { text } of alone) assert.ok(lines.includes(text), `the export lacks ${text}`);

	await guest.page.getByRole("button", { name: "Remove them from this phone" }).click();
	await guest.page.getByRole("button", { name: /^Yes, remove/ }).click();
	await guest.page.getByText("Nothing of the household is left on it.").waitFor();
	await comes("the phone's storage", () => storage(guest), { meta: ["wiped"] });
});

scene("a phone that comes back shares what it had not shared before", 180, async () => {
	const { keeper, guest, alone } = await removed("Tablet");
	await invite(keeper, "Odell", guest, "Tablet again");
	await guest.waitForSync("Everything shared");
	const all = async () => (await storage(guest)).ops as Op[];
	await comes(
		"what was not shared",
		async () => (await all()).filter((row) => row.known === 0),
		[],
	);
	const ops = await all();
	for (const { id } of alone) assert.ok(ops.some((row) => row.id === id));
	assert.equal(new Set(ops.map((row) => row.id)).size, ops.length);
});

scene("a phone that leaves tells the others and empties itself", 180, async () => {
	const { keeper, guest } = await two("Guest phone");
	await guest.go("/household");
	await guest.page.getByRole("button", { name: "Leave the household" }).click();
	assert.equal(await guest.page.getByText("You are the last keeper").count(), 0);
	assert.deepEqual(await broken(guest), []);
	await guest.page.getByRole("button", { name: "Leave", exact: true }).click();
	await guest.page.getByText("You have left the household.").waitFor();
	await comes("the phone's storage", () => storage(guest), { meta: ["wiped"] });
	await within(AT_ONCE, "the leaving", keeper.page.getByText("Odell · feeds · left"));
});

scene("leaving out of reach gives up what was not shared only when told to", 180, async () => {
	const phone = await TestPhone.make(browser, server.url);
	phone.expectNoAnswer = true;
	await phone.joinDemo("Cellar phone");
	await phone.waitForSync("Everything shared");
	const code = (await labels(phone)).get("Cellar") ?? "";
	await phone.readyForOffline();
	await phone.go(`/t/${code}`);
	await phone.context.setOffline(true);
	await feed(phone);
	await phone.go("/household");
	await phone.page.getByRole("button", { name: "Leave the household" }).click();
	await phone.page.getByText("1 entry is only on this phone").waitFor();
	await phone.page.getByRole("button", { name: "Discard 1 entry and leave" }).click();
	await phone.page.getByText("The household could not be told").waitFor();
	assert.deepEqual(await broken(phone), []);
	assert.ok((await storage(phone)).ops, "nothing is gone yet");
	await phone.page.getByRole("button", { name: "Leave without telling them" }).click();
	await phone.page.getByText("You have left the household.").waitFor();
	await comes("the phone's storage", () => storage(phone), { meta: ["wiped"] });
});

scene("the last keeper is warned before leaving", 120, async () => {
	const alone = await startServer("demo");
	try {
		const phone = await TestPhone.make(browser, alone.url);
		await phone.joinDemo("Only phone");
		await phone.waitForSync("Everything shared");
		await phone.go("/household");
		await phone.page.getByRole("button", { name: "Leave the household" }).click();
		await phone.page.getByText("You are the last keeper").waitFor();
		assert.deepEqual(await broken(phone), []);
		await phone.page.getByRole("button", { name: "Stay" }).click();
		await phone.page.getByRole("button", { name: "Leave the household" }).waitFor();
		phone.expectNoAnswer = true;
	} finally {
		await alone.end();
	}
});
