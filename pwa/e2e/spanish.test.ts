// The app in Spanish: a phone whose browser speaks it meets no English word on
// any screen, feeds and weighs with a decimal comma, keeps its language without a
// network, and changes it under More.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import type { Browser, Page } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { broken } from "./rules.ts";
import { joining, open, screens, traysOf } from "./screens.ts";
import { still, textSize } from "./steps.ts";

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

/** Words that stand in nearly every English sentence, and the app's own nouns.
 * "no" and "me" are Spanish, too. */
const ENGLISH = new RegExp(
	`\\b(${[
		"the|and|of|with|is|are|was|were|to|for|this|that|from|not|it|its|you|your|what|which|by|on|at|in|into",
		"day|days|today|yesterday|entry|entries|worms?|trays?|bins?|feed|fed|feeding|saved?|look|undo|edit|phone|household",
		"freezer|scraps|bedding|castings|bowl|weigh|weighed|ration|label|labels|more|less|about|amount|open|close|take|out",
		"Monday|Tuesday|Wednesday|Thursday|Friday|Saturday|Sunday|January|February|March|April|June|July|August|September|October|November|December",
	].join("|")})\\b`,
	"giu",
);

/** What the demo household called its own things stays as it wrote it. */
const OWN = /blue bowl|full mug|green tub|Everything from the party\. .*/gu;

/** Everything a page says, aloud too, one line each. */
function saysOf(page: Page): Promise<string[]> {
	return page.evaluate(() => {
		const said = [document.title];
		const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
		while (walker.nextNode()) {
			const within = walker.currentNode.parentElement;
			// The languages stand under their own names.
			if (within && !within.closest('style, script, noscript, [lang="en"]')) {
				said.push(walker.currentNode.textContent ?? "");
			}
		}
		for (const name of ["aria-label", "title", "alt", "placeholder", "aria-description"]) {
			for (const e of document.querySelectorAll(`[${name}]`)) said.push(e.getAttribute(name) ?? "");
		}
		return said.map((line) => line.replaceAll("\u00ad", "").trim()).filter(Boolean);
	});
}

async function english(page: Page, where: string): Promise<string[]> {
	const found = new Set<string>();
	for (const line of await saysOf(page)) {
		const words = line.replace(OWN, "").match(ENGLISH);
		if (words) found.add(`${where}: ${words.join(", ")} in “${line}”`);
	}
	return [...found];
}

async function spanishPhone(options = {}): Promise<TestPhone> {
	const phone = await TestPhone.make(browser, server.url, { locale: "es-ES", ...options });
	return phone;
}

async function join(phone: TestPhone): Promise<void> {
	const { page } = phone;
	await phone.go(joining.path as string);
	await page.getByLabel("Nombre de este teléfono").fill("Teléfono de cocina");
	await page.getByRole("button", { name: "Ver el hogar de demostración" }).click();
	await page.getByRole("navigation", { name: "Lugares" }).waitFor();
	await phone.waitForSync("Todo compartido");
}

/** Walks every screen, and asks each whether anything is wrong with it. */
async function walk(phone: TestPhone, wrong: (name: string) => Promise<string[]>): Promise<void> {
	const { page } = phone;
	const found: string[] = [];
	await phone.go(joining.path as string);
	await page.locator(joining.ready).waitFor();
	found.push(...(await wrong(joining.name)));
	await join(phone);
	const trays = await traysOf(page);
	for (const shot of screens) {
		await open(page, shot, trays);
		const back = await shot.prepare?.(page);
		found.push(...(await wrong(shot.name)));
		if (back) await back();
	}
	assert.deepEqual(found, []);
}

scene("a browser that speaks Spanish sees no English word on any screen", 300, async () => {
	const phone = await spanishPhone();
	await walk(phone, async (name) => {
		await still(phone.page);
		return english(phone.page, name);
	});
	assert.equal(await phone.page.evaluate(() => document.documentElement.lang), "es");
});

for (const way of [
	{ name: "320 px", width: 320 },
	{ name: "dark, text at 200 %", dark: true, text: 200 },
]) {
	scene(`the longer words of Spanish fit: ${way.name}`, 300, async () => {
		const phone = await spanishPhone(way);
		if (way.text) await textSize(phone.page, way.text);
		await walk(phone, async (name) => (await broken(phone)).map((line) => `${name}: ${line}`));
	});
}

scene("weighed with a comma, fed by one tap, looked at, and taken back", 180, async () => {
	const phone = await spanishPhone();
	const { page } = phone;
	await join(phone);
	const button = (name: string | RegExp) => page.getByRole("button", { name, exact: true });
	await phone.go("/weigh");
	await button("Posos de café").click();
	await button("kg").click();
	for (const key of ["0", ",", "0", "5"]) await button(key).click();
	await page.locator(".read", { hasText: "0,05" }).waitFor();
	await button("Sumar").click();
	await button(/^Guardar en el bol, 50/).click();
	await page.locator(".saverow", { hasText: "guardado" }).waitFor();

	const trays = await traysOf(page);
	await phone.go(`/t/${trays.get("Fern") ?? ""}`);
	await button(/^(Les di|Ya comieron)/).click();
	await page.locator(".saverow", { hasText: "guardado" }).waitFor();
	await button("Deshacer").first().click();
	await page.locator(".saverow").waitFor({ state: "detached" });

	await phone.go("/look");
	await page.locator("look-screen li", { hasText: "Fern" }).getByRole("link").click();
	await page.getByLabel("Grados, °C").fill("17,5");
	await button("unas gotas").click();
	await button("Guardar esta revisión").click();
	await page.getByRole("heading", { name: "Qué cambió con esto" }).waitFor();
	await phone.go("/timeline");
	const newest = page.locator(".entries > li").first();
	await newest.getByText(/lecho a 17,5/).waitFor();
	await newest.getByText(/al apretar: unas gotas/).waitFor();
});

scene("the language is chosen under More and kept, without a network too", 180, async () => {
	const phone = await TestPhone.make(browser, server.url);
	const { page } = phone;
	await phone.joinDemo("Kitchen phone");
	await phone.waitForSync("Everything shared");
	await phone.readyForOffline();
	// Fetched in idle time, for whoever wants it in the cellar.
	await page.waitForFunction(async () => {
		const kept = await (await caches.open("trayside-later")).keys();
		return kept.some((request) => /\/es-[^/]*\.js$/.test(request.url));
	});
	phone.expectNoAnswer = true;
	await server.stop();
	try {
		await phone.coldStart("/more");
		await phone.page.getByLabel("Español").check();
		await phone.page.getByRole("heading", { name: "Más" }).waitFor();
		await phone.coldStart("/");
		await phone.page.getByRole("navigation", { name: "Lugares" }).waitFor();
		await phone.page.locator(".bins").waitFor();
		assert.equal(await phone.page.evaluate(() => document.documentElement.lang), "es");
		await phone.page.getByRole("link", { name: "Más" }).click();
		await phone.page.getByLabel("English").check();
		await phone.page.getByRole("heading", { name: "More" }).waitFor();
		assert.equal(await phone.page.evaluate(() => document.documentElement.lang), "en");
	} finally {
		await server.start();
	}
});
