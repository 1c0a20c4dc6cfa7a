// A picture's life: taken in the cellar, seen on another phone, removed, and gone
// from both phones and the server.

import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { after, before } from "node:test";
import type { Browser, Locator } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { broken } from "./rules.ts";
import { comes, workedOut } from "./steps.ts";

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

/** Unfolds the newest entry of the timeline, which all phones agree on. */
async function unfold(phone: TestPhone): Promise<Locator> {
	await phone.go("/timeline");
	await workedOut(phone.page);
	const row = phone.page.locator(".entries > li").first();
	await row.getByRole("button").first().click();
	const slot = row.locator("photo-slot");
	await slot.waitFor();
	return slot;
}

/** A JPEG as a camera makes it: a picture, and a segment that says where. */
async function fromCamera(phone: TestPhone): Promise<Buffer> {
	const picture = await phone.page.screenshot({ type: "jpeg", quality: 95 });
	const said = Buffer.from("Exif\0\0 taken at home", "latin1");
	const head = Buffer.from([0xff, 0xd8, 0xff, 0xe1, 0, said.length + 2]);
	return Buffer.concat([head, said, picture.subarray(2)]);
}

const thumb = (slot: Locator): Locator => slot.locator(".thumb img");

/** How many pictures lie on the phone. */
const kept = (phone: TestPhone): Promise<number> =>
	phone.page.evaluate(
		() =>
			new Promise<number>((done, failed) => {
				const open = indexedDB.open("trayside-photos");
				open.onerror = () => failed(open.error);
				open.onsuccess = () => {
					const count = open.result.transaction("bytes").objectStore("bytes").count();
					count.onsuccess = () => {
						open.result.close();
						done(count.result);
					};
				};
			}),
	);

scene("a picture taken in the cellar is seen upstairs, and is gone when removed", 180, async () => {
	const ada = await TestPhone.make(browser, server.url);
	const odell = await TestPhone.make(browser, server.url, { dark: true });
	for (const [phone, name] of [
		[ada, "Ada's phone"],
		[odell, "Odell's phone"],
	] as const) {
		await phone.joinDemo(name);
		await phone.waitForSync("Everything shared");
		await phone.readyForOffline();
	}
	const sent: { hash: string; body: Buffer; token: string }[] = [];
	ada.page.on("request", (request) => {
		const hash = /\/photos\/([0-9a-f]{64})$/.exec(request.url())?.[1];
		if (!hash || request.method() !== "PUT") return;
		const token = request.headers().authorization ?? "";
		sent.push({ hash, body: request.postDataBuffer() ?? Buffer.alloc(0), token });
	});

	// In the cellar: no signal, and the picture is there at once.
	let slot = await unfold(ada);
	const camera = await fromCamera(ada);
	ada.expectNoAnswer = true;
	await ada.context.setOffline(true);
	await slot
		.locator("input[type=file]")
		.first()
		.setInputFiles({ name: "beetle.jpg", mimeType: "image/jpeg", buffer: camera });
	await thumb(slot).waitFor();
	await ada.waitForSync(/1 entry waits on this phone.*1 picture waits on this phone/);
	assert.deepEqual(await broken(ada), []);
	assert.equal(sent.length, 0);
	await slot.getByText("only here so far").waitFor();
	await ada.go("/household");
	await ada.page.getByRole("button", { name: "Leave the household" }).click();
	await ada.page.getByText("1 picture is only on this phone").waitFor();
	await ada.page.getByRole("button", { name: "Stay" }).click();
	slot = await unfold(ada);

	// Upstairs: the entry goes, then the picture, made small and without its place.
	await ada.context.setOffline(false);
	await ada.waitForSync("Everything shared");
	await comes("pictures sent", async () => sent.length, 1);
	const [first] = sent;
	assert.ok(first);
	assert.equal(createHash("sha256").update(first.body).digest("hex"), first.hash);
	assert.ok(first.body.length <= 400_000, `the picture weighs ${first.body.length} bytes`);
	assert.equal(first.body.includes("Exif"), false);
	const onServer = async () =>
		(await fetch(`${server.url}/api/v1/photos/${first.hash}`, {
			headers: { authorization: first.token },
		}).then((answer) => answer.status)) === 200;
	await comes("the server has it", onServer, true);
	await slot.getByText("only here so far").waitFor({ state: "detached" });

	const theirs = await unfold(odell);
	const drawn = (img: HTMLImageElement) => img.naturalWidth > 0;
	await comes("Odell sees it", () => thumb(theirs).evaluate(drawn), true);
	await theirs.getByRole("button", { name: /^Photo by / }).click();
	const large = odell.page.getByRole("dialog");
	await large.locator("img").waitFor();
	assert.deepEqual(await broken(odell), []);
	await large.getByRole("button", { name: "Close" }).press("Enter");
	await large.waitFor({ state: "detached" });

	// Removed by mistake, brought back, removed for good.
	slot = await unfold(ada);
	const remove = async () => {
		await thumb(slot).click();
		await ada.page.getByRole("dialog").getByRole("button", { name: "Remove" }).click();
		await slot.getByText("Photo removed").waitFor();
	};
	await remove();
	await slot.getByRole("button", { name: "Keep it" }).click();
	await thumb(slot).waitFor();
	assert.equal(await onServer(), true);
	await remove();
	await ada.page.getByRole("navigation", { name: "Places" }).getByText("Today").click();
	await comes("the server has it", onServer, false);
	await comes("pictures on Ada's phone", () => kept(ada), 0);
	await comes("pictures on Odell's phone", () => kept(odell), 0);
	await thumb(theirs).waitFor({ state: "detached" });
});

scene("a file that is no picture is refused in words", 60, async () => {
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Phone with a text");
	const slot = await unfold(phone);
	await slot
		.locator("input[type=file]")
		.last()
		.setInputFiles({ name: "list.txt", mimeType: "text/plain", buffer: Buffer.from("no picture") });
	await slot.getByText("can't read that file as a picture").waitFor();
	assert.equal(await thumb(slot).count(), 0);
});

scene("a picture taken during a look goes with it, and the timeline lists it", 90, async () => {
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Phone at the bin");
	await phone.waitForSync("Everything shared");
	const { page } = phone;
	await phone.go("/look");
	await page.locator(".rows").getByRole("link", { name: "Look" }).first().click();
	const slot = page.locator("photo-slot");
	await slot
		.locator("input[type=file]")
		.first()
		.setInputFiles({ name: "mites.jpg", mimeType: "image/jpeg", buffer: await fromCamera(phone) });
	await thumb(slot).waitFor();
	await page.getByText("A picture goes with something seen").waitFor();
	assert.ok(await page.getByRole("button", { name: "Save this look" }).isDisabled());
	// The rare visitors are folded away, the common ones are not.
	assert.equal(await page.getByRole("button", { name: "ants", exact: true }).isVisible(), false);
	await page.getByText("Other visitors").click();
	await page.getByRole("button", { name: "ants", exact: true }).click();
	await page.getByRole("button", { name: "mites", exact: true }).click();
	await page.getByRole("button", { name: "Save this look" }).click();
	await page.getByText("What this changed").waitFor();
	await thumb(slot).waitFor();

	await phone.go("/timeline");
	await page.locator("details.filter summary").click();
	await page.getByLabel("Kind").selectOption("photo");
	await comes("entries listed", () => page.locator(".entries > li").count(), 1);
	await page.locator(".entries > li").getByRole("button").first().click();
	await thumb(page.locator(".entries photo-slot")).waitFor();
});
