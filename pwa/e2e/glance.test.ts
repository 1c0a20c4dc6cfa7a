// The glance: what a scan shows of a tray before the app stands, and that it
// goes when it should.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import type { Browser, Page } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { labels } from "./steps.ts";

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

/** What stood on the page, and where its name and its amount stood. */
interface Look {
	words: string;
	name: number[];
	amount: number[];
}

interface Looks {
	glance?: Look;
	page?: Look; // in the frame in which the tray's page took over
}

/** Runs in every page before its own scripts. */
function watch(): void {
	const looks: Looks = {};
	Object.assign(globalThis, { looks });
	const at = (root: HTMLElement): Look => {
		const where = (selector: string) => {
			const box = root.querySelector(selector)?.getBoundingClientRect();
			return box ? [box.left, box.top, box.height].map(Math.round) : [];
		};
		return { words: root.innerText, name: where("h1"), amount: where(".numeral") };
	};
	const look = () => {
		const glance = document.querySelector<HTMLElement>("#glance:not([hidden])");
		const page = document.querySelector<HTMLElement>("tray-screen main");
		if (glance && document.readyState !== "loading") looks.glance ??= at(glance);
		// What took its place is looked at once its drawings are there, too.
		if (!glance && page && looks.glance) requestAnimationFrame(() => (looks.page ??= at(page)));
	};
	new MutationObserver(look).observe(document, {
		subtree: true,
		childList: true,
		attributes: true,
		attributeFilter: ["hidden"],
	});
	document.addEventListener("DOMContentLoaded", look);
}

const looksOf = (page: Page): Promise<Looks> =>
	page.evaluate(() => (globalThis as unknown as { looks: Looks }).looks);
const fresh = "tray-screen .numeral.big:not(.old)";

/** A phone of the demo household that has just seen a tray's ration. */
async function visited(): Promise<{
	phone: TestPhone;
	tray: string;
	name: string;
	amount: string;
}> {
	const phone = await TestPhone.make(browser, server.url);
	await phone.context.addInitScript(watch);
	await phone.joinDemo("Cellar phone");
	await phone.waitForSync("Everything shared");
	await phone.readyForOffline();
	const tray = `/t/${(await labels(phone)).get("Cellar")}`;
	await phone.go(tray);
	const { page } = phone;
	await page.locator(fresh).waitFor();
	const name = await page.locator("tray-screen h1").innerText();
	const amount = await page.locator(`${fresh} b`).innerText();
	return { phone, tray, name, amount };
}

/** Changes what is kept for the glance, as time or a setting would. */
async function meanwhile(phone: TestPhone, change: { hours?: number; language?: string }) {
	await phone.page.evaluate(({ hours = 0, language = "" }) => {
		const kept = JSON.parse(localStorage.getItem("trayside-glance") ?? "{}");
		for (const glance of Object.values(kept) as { at: number }[]) glance.at -= hours * 3_600_000;
		localStorage.setItem("trayside-glance", JSON.stringify(kept));
		if (language) localStorage.setItem("trayside-language", language);
	}, change);
}

scene("without a server a label shows the last ration at once, then today's", 180, async () => {
	const { phone, tray, name, amount } = await visited();
	phone.expectNoAnswer = true;
	await server.stop();
	await phone.coldStart(tray);
	const { page } = phone;
	await page.locator(fresh).waitFor();
	const { glance, page: next } = await looksOf(page);
	assert.ok(glance, "the glance stood first");
	for (const says of [
		name,
		amount,
		/from \d\d:\d\d, the engine is starting/,
		/May miss a feeding/,
	]) {
		assert.match(
			glance.words,
			new RegExp(says),
			"the name, the amount, its age, what may be missing",
		);
	}
	assert.doesNotMatch(glance.words, /Fed \d/, "nothing to tap that would do nothing");
	assert.ok(next, "the tray's page took its place");
	assert.deepEqual(next.name, glance.name, "without a jump of its name");
	assert.deepEqual(next.amount, glance.amount, "nor of its amount");
	assert.equal(await page.locator("#glance").count(), 0);
	await page.getByRole("button", { name: /^Fed / }).waitFor();

	// On a later day it is not taken for that day's.
	await meanwhile(phone, { hours: 48 });
	await phone.coldStart(tray);
	await phone.page.locator(fresh).waitFor();
	const later = (await looksOf(phone.page)).glance;
	assert.match(later?.words ?? "", /from \w+day \d+ \w+, \d\d:\d\d; today's is being worked out/);

	// In another language it would be half a page.
	await meanwhile(phone, { language: "es" });
	await phone.coldStart(tray);
	await phone.page.locator("tray-screen h1").waitFor();
	assert.equal((await looksOf(phone.page)).glance, undefined);
	await server.start();
});

scene("a phone that has left its household has no glance of it", 180, async () => {
	const { phone, tray } = await visited();
	phone.expectRefusals = true; // what was under way when the phone left
	const { page } = phone;
	const kept = () => phone.page.evaluate(() => localStorage.getItem("trayside-glance"));
	const before = await kept();
	assert.ok(before);
	await phone.go("/household");
	await page.getByRole("button", { name: "Leave the household" }).click();
	await page.getByRole("button", { name: "Leave", exact: true }).click();
	await page.getByText("You have left the household.").waitFor();
	assert.equal(await kept(), null);
	await phone.coldStart(tray);
	await phone.page.getByLabel("Name of this phone").waitFor();
	assert.equal((await looksOf(phone.page)).glance, undefined);
	// Another tab may have kept one while this phone was being emptied.
	await phone.page.evaluate((was) => localStorage.setItem("trayside-glance", was), before);
	await phone.coldStart(tray);
	await phone.page.getByLabel("Name of this phone").waitFor();
	assert.equal(await phone.page.locator("#glance").count(), 0);
	assert.equal(await kept(), null);
});
