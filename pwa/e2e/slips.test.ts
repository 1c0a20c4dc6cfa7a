// What people type wrongly: amounts that are slips, labels of others, trays that
// are gone, scraps that nobody has heard of. Each gets a sentence, and nothing
// that was typed is lost.

import assert from "node:assert/strict";
import { after, afterEach, before, beforeEach } from "node:test";
import type { Browser } from "playwright-core";
import type { App, Shown } from "../src/app-api.ts";
import type { Intent, TrayView } from "../src/types.gen.ts";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { draftsKept, labels } from "./steps.ts";

let server: Server;
let browser: Browser;
before(async () => {
	browser = await openBrowser();
});
after(async () => {
	await browser?.close();
});
beforeEach(async () => {
	server = await startServer("demo"); // what a scene feeds must not fill the next one's bin
});
afterEach(async () => {
	await server?.end();
});

/** A phone of the demo household, at the Cellar's tray. */
async function atTheCellar(): Promise<{ phone: TestPhone; code: string }> {
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Kitchen phone");
	await phone.waitForSync("Everything shared");
	const code = (await labels(phone)).get("Cellar") ?? "";
	await phone.go(`/t/${code}`);
	await phone.page.getByRole("button", { name: /^Fed / }).waitFor();
	return { phone, code };
}

/** Types what the scale shows for spent coffee, and presses Add. */
async function typeCoffee(phone: TestPhone, keys: string): Promise<void> {
	const { page } = phone;
	await page.getByRole("button", { name: "Coffee grounds" }).first().click();
	for (const key of keys) await page.getByRole("button", { name: key, exact: true }).click();
	await page.getByRole("button", { name: "Add", exact: true }).click();
}

/** Puts spent coffee into the bowl of the Weigh screen that is open; an amount
 * that is asked about is meant. */
async function weighCoffee(phone: TestPhone, keys: string, yes = ""): Promise<void> {
	await typeCoffee(phone, keys);
	if (yes) await press(phone, yes).click();
	await phone.page.locator(".inbowl .sum").waitFor();
}

const weighForTheTray = (phone: TestPhone) =>
	phone.page.getByRole("link", { name: "Weigh the scraps for this tray" }).click();
const fault = (phone: TestPhone) => phone.page.locator(".saverow.fault");
const press = (phone: TestPhone, name: string | RegExp) =>
	phone.page.getByRole("button", { name, ...(typeof name === "string" ? { exact: true } : {}) });
const saved = (phone: TestPhone) => phone.page.locator(".saverow", { hasText: "saved" }).waitFor();

/** The tray's page, as far as the tests reach into it. */
type TrayPage = Element & { app: App; shown: Shown<TrayView> };

/** Writes what no screen writes yet, by the door that all screens use. */
async function record(phone: TestPhone, intent: Intent): Promise<void> {
	const answer = await phone.page
		.locator("tray-screen")
		.evaluate((page, intent) => (page as unknown as TrayPage).app.record(intent), intent);
	assert.equal(answer.ok, true, JSON.stringify(answer));
}

const trayId = (phone: TestPhone): Promise<string> =>
	phone.page
		.locator("tray-screen")
		.evaluate((page) => (page as unknown as TrayPage).shown.data.id ?? "");

scene(
	"2.5 kg is asked about at Add, can be mended, and is taken when it is meant",
	120,
	async () => {
		const { phone } = await atTheCellar();
		const { page } = phone;
		await weighForTheTray(phone);
		await typeCoffee(phone, "2500");
		await page.locator(".notice", { hasText: "2,500 g? The ration is" }).waitFor();
		await page.getByText("Nothing in the bowl yet").waitFor();
		await press(phone, "Undo").click(); // it was 250
		await weighCoffee(phone, "250");
		await page.locator(".inbowl .sum", { hasText: "250 g" }).waitFor();
		await press(phone, "Undo").click();
		await weighCoffee(phone, "2500", "Yes, 2,500 g");
		await press(phone, "Fed 2,500 g").click(); // asked once is enough
		await saved(phone);
	},
);

scene("320 kg goes into no bowl, and what was typed stays to be mended", 120, async () => {
	const { phone } = await atTheCellar();
	const { page } = phone;
	await phone.go("/weigh");
	await press(phone, "kg").click();
	await typeCoffee(phone, "320");
	await page.locator(".notice", { hasText: "320 kg is more than 200 kg" }).waitFor();
	await press(phone, "Add").click();
	await page.getByText("Nothing in the bowl yet").waitFor();
	await draftsKept(page);
	await page.reload();
	await page.locator(".read", { hasText: /320\s*kg/ }).waitFor();
	await press(phone, "g").click();
	await press(phone, "Add").click();
	await page.locator(".inbowl .sum", { hasText: "320 g" }).waitFor();
});

scene("a bowl of 2.5 kg is asked about where it is placed", 120, async () => {
	const { phone, code } = await atTheCellar();
	await phone.go("/");
	await press(phone, "Placed as drawn").click();
	await saved(phone);
	await phone.go("/weigh");
	await weighCoffee(phone, "2500", "Yes, 2,500 g");
	await press(phone, "Keep in bowl, 2,500 g").click();
	await saved(phone);
	await phone.go(`/t/${code}`);
	await phone.page.locator(".bowlpick summary").click();
	await press(phone, "all 2,500 g here").click();
	await press(phone, "Fed 2,500 g").click();
	await fault(phone).getByText("2,500 g?").waitFor();
	await press(phone, "It is already in the bin").click();
	await saved(phone);
	await phone.page.locator("ul.feeds li").first().getByText("2,500 g").waitFor();
});

scene("another household's label and a tray that was taken out say so", 120, async () => {
	const { phone, code } = await atTheCellar();
	const tray = await trayId(phone);
	await phone.go("/t/ABCD-EFGH-R");
	await phone.page.getByText("That is no label code").first().waitFor();
	await phone.go("/t/abcd-efgh-q");
	await phone.page.getByText("A label on no tray yet").first().waitFor();
	await phone.go(`/t/${code}`);
	await press(phone, /^Fed /).waitFor();

	// Scraps are weighed for a tray that somebody takes out meanwhile.
	await record(phone, { do: "undo", entity: tray });
	await phone.page.getByText("This tray was taken out").waitFor();
	await phone.go(`/weigh?tray=${encodeURIComponent(tray)}`);
	await weighCoffee(phone, "150");
	await press(phone, "Fed 150 g").click();
	await fault(phone).getByText("Choose another tray").waitFor();
	await press(phone, "Keep in bowl").click();
	await saved(phone);
});

scene("a scrap that nobody has heard of is logged as other, for a child", 120, async () => {
	const { phone, code } = await atTheCellar();
	const { page } = phone;
	await weighForTheTray(phone);
	await press(phone, "find").click();
	await page.getByLabel("Find a scrap").fill("dragon fruit husk");
	await page.getByText("No scrap is called").waitFor();
	await press(phone, "soft fruit").click();
	for (const key of "120") await press(phone, key).click();
	await press(phone, "Add").click();
	await press(phone, "Not weighed").click();
	await press(phone, "Coffee grounds").first().click();
	await press(phone, "Add some").click();
	await page.locator("details.who summary", { hasText: "Weighed by" }).click();
	await press(phone, "Wren").click();
	await press(phone, "Fed 120 g + some").click();
	await saved(phone);

	await phone.go(`/t/${code}`);
	const line = page.locator("ul.feeds li").first();
	await line.getByText("Wren, on Tamsin's phone").waitFor();
	await line.getByText("dragon fruit husk; Coffee grounds").waitFor();
	await line.getByText("not weighed").waitFor();
});

scene("a guest's feeding is undone, brought back and mended", 120, async () => {
	const { phone } = await atTheCellar();
	const { page } = phone;
	await page.locator("section.whofed summary").click();
	await press(phone, "a guest").click();
	await page.getByLabel("Guest’s name").fill("Aunt Bo");
	await press(phone, /^Fed /).click();
	await saved(phone);
	await phone.go("/timeline");
	const entry = page.locator("button.entry").first();
	await entry.getByText("by Aunt Bo, on Tamsin's phone").waitFor();
	await entry.click();
	await press(phone, "Undo").click();
	await entry.getByText("undone").waitFor();
	await press(phone, "Bring back").click();
	await press(phone, "Edit").click();
	const weight = page.getByLabel("Weight in g");
	for (const wrong of ["-5", "a lot", "0"]) {
		await weight.fill(wrong);
		await press(phone, "Save the change").click();
		await page.getByText("as a plain number").waitFor();
		assert.equal(await weight.inputValue(), wrong);
	}
	await weight.fill("2500");
	await press(phone, "Save the change").click();
	await fault(phone).getByText("2,500 g?").waitFor();
	await press(phone, "Mend it").click();
	// More than anybody carries is refused, unless it is in the bin already.
	await weight.fill("201000");
	await press(phone, "Save the change").click();
	await fault(phone).getByText("201 kg is more than 200 kg").waitFor();
	assert.equal(await press(phone, /^Yes/).count(), 0);
	await press(phone, "It is already in the bin").click();
	await entry.getByText("201 kg").waitFor();
	await press(phone, "Edit").click();
	await weight.fill("175");
	await press(phone, "Save the change").click();
	await entry.getByText("edited").waitFor();
	await entry.getByText("175 g").waitFor();
});

scene("a household of pounds, ounces and °F reads them everywhere", 120, async () => {
	const { phone, code } = await atTheCellar();
	const { page } = phone;
	await record(phone, { do: "household", set: { mass: "oz", temp: "F" } });
	await press(phone, /^Fed [\d.]+\soz$/).click();
	await saved(phone);
	await page.locator("details.why summary").click();
	await page.getByText(/Bed taken as \d+\s°F/).waitFor();
	await weighForTheTray(phone);
	await weighCoffee(phone, "9");
	await press(phone, "Fed 9 oz").click();
	await saved(phone);
	await phone.go("/timeline");
	const nine = page.locator(".figure", { hasText: /^\s*9\soz\s*$/ });
	await page.locator("button.entry", { has: nine }).click();
	await press(phone, "Edit").click();
	assert.match(await page.getByLabel("Weight in oz").inputValue(), /^(9|8\.99)$/);
	await phone.go("/");
	await page.locator(".bins", { hasText: "oz" }).waitFor();
	await phone.go(`/t/${code}`);
	await page.locator("ul.feeds li", { hasText: "9 oz" }).first().waitFor();
});
