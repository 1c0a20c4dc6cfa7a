// Labels: printed from the app, put on a tray at the bin by their first scan,
// and the paper card of people without a phone.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFile } from "node:fs/promises";
import { after, before } from "node:test";
import type { Browser } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { broken } from "./rules.ts";
import { traysOf } from "./screens.ts";
import { draftsKept, invite, tabTo } from "./steps.ts";

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

const press = (phone: TestPhone, name: string | RegExp) =>
	phone.page.getByRole("button", { name, exact: typeof name === "string" });

async function keeper(): Promise<TestPhone> {
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Keeper's phone");
	await phone.waitForSync("Everything shared");
	return phone;
}

/** Draws what the form says and returns the file. */
async function drawn(phone: TestPhone, name: string | RegExp): Promise<string> {
	await press(phone, name).click();
	const link = phone.page.getByRole("link", { name: "Open the PDF" });
	await link.waitFor();
	const download = phone.page.waitForEvent("download");
	await link.click();
	return (await download).path();
}

/** The words of a PDF. */
const words = (pdf: string): string =>
	execFileSync("pdftotext", ["-layout", pdf, "-"], { encoding: "utf8" });

scene(
	"blank labels are printed from the app and put on a tray by their first scan",
	120,
	async () => {
		const phone = await keeper();
		const { page } = phone;
		await phone.go("/more");
		await page.getByRole("link", { name: /^Labels and cards/ }).click();
		await page.getByRole("checkbox").first().waitFor();
		for (const box of await page.getByRole("checkbox").all()) await box.uncheck();
		await press(phone, "One blank label more").click();
		await press(phone, "one label").click();
		const pdf = await drawn(phone, /^Draw one label$/);
		assert.equal((await readFile(pdf)).subarray(0, 5).toString(), "%PDF-");
		const code = /[0-9A-Z]{3}-[0-9A-Z]{3}-[0-9A-Z]{3}/.exec(words(pdf))?.[0] ?? "";
		assert.ok(code, `no code in ${words(pdf)}`);

		// A feeder who finds it is told to ask.
		const child = await TestPhone.make(browser, server.url);
		await invite(phone, "Wren", child, "Wren's phone");
		await child.go(`/t/${code}`);
		await child.page.getByText("ask a keeper to put it on a tray").waitFor();
		assert.equal(await child.page.locator(".claim .pickword").count(), 0);

		// The keeper sticks it on a new tray.
		await phone.go(`/t/${code}`);
		await press(phone, /^A new tray of/)
			.first()
			.click();
		await press(phone, "Add the tray with this label").click();
		await page.getByText("Give the tray a name.").waitFor();
		await page.getByLabel("Name of the new tray").fill("Ochre two");
		await press(phone, "Add the tray with this label").click();
		await page.getByRole("heading", { name: "Ochre two" }).waitFor();

		await phone.go("/labels");
		await page.getByRole("checkbox").first().waitFor();
		await page.getByText(code).waitFor();
	},
);

scene("two labels a tray, a started sheet and measures of one's own", 120, async () => {
	const phone = await keeper();
	const { page } = phone;
	await phone.go("/labels");
	await page.getByRole("checkbox").first().waitFor();
	const trays = await page.getByRole("checkbox").count();
	await page.getByText("A started sheet, and the offset").click();
	await page.getByLabel("First free label, counted row by row").fill("many");
	await press(phone, /^Draw \d+ labels$/).click();
	await page.getByText("type a plain number").waitFor();
	phone.expectRefusals = true;
	await page.getByLabel("First free label, counted row by row").fill("22");
	await press(phone, /^Draw \d+ labels$/).click();
	await page.getByText("there is no cell 22").waitFor();
	await page.getByLabel("First free label, counted row by row").fill("3");
	await page.getByLabel("Offset to the right, mm").fill("1,5");
	await page.getByText("Other measures").click();
	await page.getByLabel("Label, width").fill("62");
	const text = words(await drawn(phone, /^Draw \d+ labels$/));
	const codes = text.match(/[0-9A-Z]{3}-[0-9A-Z]{3}-[0-9A-Z]{3}/g) ?? [];
	assert.equal(codes.length, 2 * trays, text);

	await press(phone, "Paper cards").click();
	await press(phone, "US Letter").click();
	assert.match(words(await drawn(phone, /^Draw the pages$/)), /Left of the last meal/);
	await press(phone, "Calibration page").click();
	assert.match(words(await drawn(phone, /^Draw the pages$/)), /100 mm/);
	await phone.go("/labels");
	await press(phone, "Calibration page").and(page.locator("[aria-pressed=true]")).waitFor();
});

scene("without the server the choice stays, and says what it waits for", 120, async () => {
	const phone = await keeper();
	await phone.readyForOffline();
	await phone.go("/labels");
	await press(phone, /^Draw \d+ labels$/).waitFor();
	phone.expectNoAnswer = phone.expectRefusals = true; // its token is over, too
	await server.stop();
	try {
		await press(phone, /^Draw \d+ labels$/).click();
		await phone.page.getByText("The server does not answer").waitFor();
	} finally {
		await server.start();
	}
	await drawn(phone, /^Draw \d+ labels$/);
});

scene("a paper card is typed in, a tap for each usual meal", 120, async () => {
	const phone = await keeper();
	const { page } = phone;
	await phone.go("/card");
	const usual = press(phone, /^The usual on/);
	await usual.first().waitFor();
	const days = page.locator(".cardrows > li");
	const free = days.filter({ hasNotText: "already written" }).filter({ has: usual });
	await free
		.first()
		.getByRole("button", { name: /^The usual on/ })
		.click();
	// The first free day is filled now: the next one gets a look and grams.
	const second = page
		.locator(".cardrows > li:not(.filled)")
		.filter({ hasNotText: "already written" });
	await second.first().locator(".dayname").click();
	const edit = page.locator(".rowedit");
	await edit.getByLabel(/^Or weighed/).fill("143");
	await edit.getByLabel(/^Or weighed/).press("Tab");
	await edit.getByRole("button", { name: /^some/ }).click();
	await edit.getByLabel(/^Bed, in/).fill("18,5");
	await edit.getByLabel(/^Bed, in/).press("Tab");
	await edit.getByRole("checkbox").check();
	await press(phone, "Done with this day").click();
	// A reload loses nothing.
	await draftsKept(page);
	await page.reload();
	await press(phone, "Write down 2 days").click();
	await page.locator(".saverow", { hasText: "2 days of the card, saved" }).waitFor();
	await page.locator(".cardrows").getByText("already written: 143 g").waitFor();
	await page.getByText("looked at").first().waitFor();
	await press(phone, "Undo").click();
	await page
		.locator(".cardrows")
		.getByText("already written: 143 g")
		.waitFor({ state: "detached" });
});

scene("a card is typed in and a label drawn from the keyboard alone", 120, async () => {
	const phone = await keeper();
	const { page } = phone;
	await phone.go("/card");
	await press(phone, /^The usual on/)
		.first()
		.waitFor();
	await tabTo(page, ".cardrows li:nth-child(3) [aria-label^='The usual on']");
	await page.keyboard.press("Enter");
	await tabTo(page, "card-screen .go");
	await page.keyboard.press("Enter");
	await page.locator(".saverow", { hasText: "1 day of the card, saved" }).waitFor();
	await phone.go("/labels");
	await page.getByRole("checkbox").first().waitFor();
	await tabTo(page, "labels-screen button.go");
	await page.keyboard.press("Enter");
	await page.getByRole("link", { name: "Open the PDF" }).waitFor();
	await page.waitForFunction(() => document.activeElement?.matches("a.go"));
});

// What follows changes trays for good, which nothing after it must mind.
scene("a second label goes on a tray, and the label of one taken out on another", 120, async () => {
	const phone = await keeper();
	const { page } = phone;
	const trays = await traysOf(page);
	const [fern = "", slate = ""] = [trays.get("Fern"), trays.get("Slate")];
	const opens = async (code: string, name: string) => {
		await phone.go(`/t/${code}`);
		await page.getByRole("heading", { level: 1, name }).waitFor();
	};
	// Typed, because the sticker of it is wet.
	await phone.go("/t");
	await page.getByRole("textbox").fill("0001-8hwz-f");
	await page.keyboard.press("Enter");
	await press(phone, /^Fern.*both will open it/).click();
	await page.getByRole("heading", { level: 1, name: "Fern" }).waitFor();
	await opens(fern, "Fern");
	await opens("00018HWZF", "Fern");

	await page.evaluate(async (code) => {
		const app = document.querySelector("trayside-app");
		const { data } = (await app?.view("tray", { arg: code })) ?? {};
		await app?.record({ do: "undo", entity: data?.id ?? "" });
	}, slate);
	await phone.go(`/t/${slate}`);
	await page.getByText("This tray was taken out").waitFor();
	assert.deepEqual(await broken(phone), []);
	await press(phone, /^Moss/).click();
	await page.getByRole("heading", { level: 1, name: "Moss" }).waitFor();
	await opens(slate, "Moss");
});

scene("a name in letters that no label has is told of, and printed when told to", 120, async () => {
	const phone = await keeper();
	const { page } = phone;
	await phone.go("/labels");
	await page.getByRole("checkbox").first().waitFor();
	await page.evaluate(async () => {
		const app = document.querySelector("trayside-app");
		const { data } = (await app?.view("labels")) ?? {};
		const entity = data?.bins[0]?.trays[0]?.id ?? "";
		const answer = await app?.record({ do: "edit", entity, set: { name: "桶 7" } });
		if (!answer?.ok) throw new Error(JSON.stringify(answer));
	});
	await page.getByText("桶 7").first().waitFor();
	phone.expectRefusals = true;
	await press(phone, /^Draw \d+ labels$/).click();
	const fault = page.locator(".fault");
	await fault
		.getByText("Latin, Greek, Cyrillic, Armenian and Georgian letters, and not these: 桶.")
		.waitFor();
	assert.deepEqual(await broken(phone), []);
	assert.match(words(await drawn(phone, "Print it with question marks")), /\?\s?7/);
});
