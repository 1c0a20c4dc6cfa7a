// A new keeper sets a bin up from nothing and gets a first ration that looks like
// a guess; worms are written down, weighed, lost and taken back; a plan comes
// before the bin. All of it by the phone alone.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import type { Browser } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { broken } from "./rules.ts";

let browser: Browser;
before(async () => {
	browser = await openBrowser();
});
after(async () => {
	await browser?.close();
});

const press = (phone: TestPhone, name: string | RegExp) =>
	phone.page.getByRole("button", { name, exact: typeof name === "string" });
const saved = (phone: TestPhone, words: string) =>
	phone.page.locator(".saverow", { hasText: words }).waitFor();

/** The household's day so many days ago. */
const daysAgo = (phone: TestPhone, days: number): Promise<string> =>
	phone.page.evaluate((back) => {
		const app = document.querySelector("trayside-app") as unknown as {
			day(ms?: number): string;
			now(): number;
		};
		return app.day(app.now() - back * 86_400_000);
	}, days);

/** Runs with a household that has a name, a keeper and nothing else. */
async function newHousehold(run: (phone: TestPhone) => Promise<void>): Promise<void> {
	const server: Server = await startServer("serve");
	try {
		const phone = await TestPhone.make(browser, server.url);
		await phone.joinBy(server.link, "Kitchen phone");
		await phone.page.getByLabel("Name of the household").fill("Mill Yard");
		await phone.page.getByLabel("Your name").fill("Ines");
		await press(phone, "Save and begin").click();
		await phone.page.getByText("No bin is written down yet").waitFor();
		await run(phone);
		for (const each of browser.contexts()) await each.close(); // before the server, or they complain
	} finally {
		await server.end();
	}
}

scene("a new keeper sets a bin up from nothing and gets a first guess", 180, () =>
	newHousehold(async (phone) => {
		const { page } = phone;
		assert.deepEqual(await broken(phone), []);
		await phone.waitForSync("Everything shared");
		await phone.readyForOffline();
		phone.expectNoAnswer = true;
		await phone.context.setOffline(true);
		await page.getByRole("link", { name: "Set up a bin" }).click();
		await page.getByRole("heading", { level: 1, name: "A new bin" }).waitFor();
		assert.deepEqual(await broken(phone), []);

		// What is missing is named where it is missing.
		await press(phone, "Set up a bin").click();
		await page.getByText("Give the bin a name.").waitFor();
		const name = page.getByLabel("What do you call it?");
		assert.equal(await name.evaluate((field) => field === document.activeElement), true);
		await name.fill("Cellar");

		// Jumping worms get the caution and no bin.
		await press(phone, /^Jumping worms/).click();
		await page.getByText("local rules decide").waitFor();
		assert.equal(await press(phone, "Set up a bin").count(), 0);
		assert.deepEqual(await broken(phone), []);
		await press(phone, /^Red compost worm/).click();

		await press(phone, "One more tray on top").click();
		await page.getByLabel("Name of the tray", { exact: true }).fill("Fern");
		await page.getByLabel("Name of the tray above").fill("Fern");
		await page.getByLabel("Height").fill("14");
		await press(phone, "I only know its surface").click();
		await page.getByLabel("Surface, cm²").fill("1600");
		await press(phone, "They are in").click();
		await press(phone, "Counted").click();
		await page.getByLabel("How many worms").fill("1000");
		await page.getByText(/About 450.g, at 0\.45 g each/).waitFor();
		const day = await daysAgo(phone, 6);
		await page.getByLabel("Put in on").fill(day);
		await page.getByLabel("Begun on").fill(day);
		await press(phone, "Set up a bin").click();
		await page.getByText("Give every tray a name of its own.").waitFor();

		// Half a form outlives a reload.
		await page.reload();
		await page.getByLabel("Name of the tray above").fill("Moss");
		assert.equal(await page.getByLabel("How many worms").inputValue(), "1000");
		await press(phone, "Set up a bin").click();
		await saved(phone, "Cellar is set up, saved");
		await page.getByRole("heading", { level: 1, name: "Cellar" }).waitFor();
		await page.getByText("Red compost worm, since").waitFor();
		await page.getByText("What comes next").waitFor();
		assert.deepEqual(await page.locator(".sheettrays b").allInnerTexts(), ["Moss", "Fern"]);
		assert.match(
			await page.locator(".sheettrays li").last().innerText(),
			/bedded, day \d+\. 40 × 40 × 14 cm/,
		);
		assert.deepEqual(await broken(phone), []);

		await page.getByRole("link", { name: "Today's ration" }).click();
		await page.locator(".bins .numeral.dotted").waitFor();
		await page.getByText("first guess, from the handbook").waitFor();
		await page.locator(".binname a", { hasText: "Cellar" }).click();
		await page.getByRole("heading", { level: 1, name: "Fern" }).waitFor();
		await page.locator(".numeral.big.dotted").waitFor();
		await press(phone, /^Fed \d+.g$/).click();
		await saved(phone, "saved");
		await phone.context.setOffline(false);
	}),
);

scene("a bin that was set up by mistake goes back whole by one Undo", 120, () =>
	newHousehold(async (phone) => {
		const { page } = phone;
		await page.getByRole("link", { name: "Set up a bin" }).click();
		await page.getByLabel("What do you call it?").fill("Shed");
		await press(phone, "Set up a bin").click();
		await saved(phone, "Shed is set up, saved");
		await press(phone, "Undo").last().click();
		await page.getByRole("heading", { level: 1, name: "A new bin" }).waitFor();
		await phone.go("/timeline");
		await page.getByText("Nothing is written down yet").waitFor();
	}),
);

scene("worms are weighed and lost, trays changed, and the goal set", 180, async () => {
	const server = await startServer("demo");
	try {
		const phone = await TestPhone.make(browser, server.url);
		const { page } = phone;
		await phone.joinDemo("Keeper's phone");
		await phone.waitForSync("Everything shared");
		await phone.go("/more");
		await page.getByRole("link", { name: /^Bins and worms/ }).click();
		await page.getByRole("link", { name: "Cellar" }).click();
		await page.getByText(/About .* live in it/).waitFor();

		await press(phone, "Weighed").click();
		await page.getByLabel("Worms, in g").fill("lots");
		await press(phone, "Write it down").click();
		await page.getByText("Type how much there was as a plain number.").waitFor();
		assert.deepEqual(await broken(phone), []);
		await page.getByLabel("Worms, in g").fill("500");
		await press(phone, "Write it down").click();
		await saved(phone, "Worms weighed, saved");
		await page.getByRole("heading", { name: "What this changed" }).waitFor();
		await page.locator(".taught .figure", { hasText: /g$/ }).first().waitFor();

		await press(phone, "Lost").click();
		await press(phone, "Half").click();
		await press(phone, "Write it down").click();
		await saved(phone, "Loss of worms, saved");
		await page.getByText("lost: Half").waitFor();
		await press(phone, "Undo").last().click();
		await page.getByText("lost: Half").waitFor({ state: "detached" });
		await phone.go("/timeline");
		await page.locator(".gone", { hasText: "lost: Half" }).waitFor();
		await phone.go("/bin");
		await page.getByRole("link", { name: "Cellar" }).click();

		await press(phone, "Add a tray on top").click();
		await page.getByLabel("Name of the tray").fill("Heath");
		await press(phone, "Add the tray").click();
		await saved(phone, "Heath stands on top, saved");
		await page.locator(".sheettrays li:first-child", { hasText: "Heath" }).waitFor();
		await press(phone, "Change: Heath").click();
		await press(phone, "Bed it: Heath").click();
		assert.deepEqual(await broken(phone), []);
		await press(phone, "Bed it").click();
		await saved(phone, "Heath is bedded, saved");
		await page.getByText("bedded, day 1").waitFor();

		await page.locator("bin-settings summary").click();
		await press(phone, /^Slow down/).click();
		await page.getByLabel("Days between meals").fill("40");
		await press(phone, "Save").click();
		await page.getByText("Meals are 1 to 14 days apart.").waitFor();
		await page.getByLabel("Days between meals").fill("4");
		await page.getByLabel(/^Hot week/).fill(await daysAgo(phone, -3));
		await press(phone, "Save").click();
		await saved(phone, "Cellar changed, saved");
		await page.reload();
		await page.locator("bin-settings summary").click();
		await page.locator(".pickword[aria-pressed=true]", { hasText: "Slow down" }).waitFor();
		assert.equal(await page.getByLabel("Days between meals").inputValue(), "4");

		await phone.go("/timeline");
		await page
			.getByText(/^Worms at .*Cellar/)
			.first()
			.waitFor();
		for (const each of browser.contexts()) await each.close();
	} finally {
		await server.end();
	}
});

scene("a plan says what to buy and begins the form of a new bin", 120, () =>
	newHousehold(async (phone) => {
		const { page } = phone;
		await page.getByRole("link", { name: "Plan first: what to buy, and when" }).click();
		await page.getByLabel("How many people it feeds").fill("");
		await press(phone, "Work it out").click();
		await page.getByText("Say how many people, or how much a week.").waitFor();
		await page.getByLabel("How many people it feeds").fill("3");
		await page.getByLabel("Coldest month, °C").fill("20");
		await page.getByLabel("Warmest month, °C").fill("12");
		await press(phone, "Work it out").click();
		await page.getByText("can't be colder than the coldest").waitFor();
		await page.getByLabel("Coldest month, °C").fill("6");
		await page.getByLabel("Warmest month, °C").fill("20");
		await press(phone, "Work it out").click();
		await page.locator(".made .numeral.dotted").waitFor();
		await page.getByText("Red compost worm: copes").waitFor();
		await page.getByText(/^About .* after the worms come/).waitFor();
		assert.deepEqual(await broken(phone), []);
		await press(phone, "Set up this bin").click();
		await page.getByRole("heading", { level: 1, name: "A new bin" }).waitFor();
		assert.equal(await page.getByLabel("Coldest month, °C").inputValue(), "6");
		const red = press(phone, /^Red compost worm/);
		assert.equal(await red.getAttribute("aria-pressed"), "true");
	}),
);
