// Every screen there is, in one list: what takes pictures and what checks rules
// both walk it, so a screen that is added here is looked at by both. Nothing in
// it depends on the language.

import type { Page } from "playwright-core";
import type { App } from "../src/app-api.ts";

/** The demo household as a phone knows it: label codes by tray name. */
export type Trays = Map<string, string>;

export interface Shot {
	name: string;
	path: string | ((trays: Trays) => string);
	/** What stands there once the screen is drawn. */
	ready: string;
	/** What is done before the picture; returns what takes it back. */
	prepare?: (page: Page) => Promise<(() => Promise<void>) | void>;
}

declare global {
	interface HTMLElementTagNameMap {
		"trayside-app": HTMLElement & App;
	}
}

const tray = (name: string) => (trays: Trays) =>
	`/t/${trays.get(name) ?? [...trays.values()][0] ?? ""}`;

const openWhy = (page: Page): Promise<void> =>
	page.locator("tray-screen details.why").evaluate((details: HTMLDetailsElement) => {
		details.open = true;
	});

/** Opens every part of a page that folds. */
const openAll = (page: Page): Promise<void> =>
	page.evaluate(() => {
		for (const details of document.querySelectorAll("details")) details.open = true;
	});

async function key(page: Page, digits: string): Promise<void> {
	for (const digit of digits) await page.getByRole("button", { name: digit, exact: true }).click();
}

/** What was keyed or added last on the Weigh screen, whose draft outlives it. */
const takeBack = (page: Page): Promise<void> => page.locator(".keys .word").first().click();

async function byVessel(page: Page): Promise<() => Promise<void>> {
	const modes = page.locator("weigh-screen .words.rule button");
	await modes.nth(-2).click();
	await page.locator(".stepper").waitFor();
	return () => modes.first().click();
}

/** A look that smelled of ammonia puts a tray on hold; undone again afterwards. */
async function smellAmmonia(page: Page): Promise<() => Promise<void>> {
	const entity = await page.evaluate(async () => {
		const app = document.querySelector("trayside-app");
		const code = location.pathname.split("/").pop() ?? "";
		const { data } = (await app?.view("tray", { arg: code })) ?? {};
		const answer = await app?.record({ do: "look", tray: data?.id ?? "", smell: "ammonia" });
		return answer?.ok ? answer.entity : "";
	});
	await page.locator("tray-screen .hold").waitFor();
	return async () => {
		await page.evaluate(async (undone) => {
			await document.querySelector("trayside-app")?.record({ do: "undo", entity: undone });
		}, entity);
		await page.locator("tray-screen .hold").waitFor({ state: "detached" });
	};
}

/** The screen for children, on a phone of a keeper who asked for it. */
async function simpleScreen(page: Page): Promise<() => Promise<void>> {
	const choose = (choice: string) =>
		page.evaluate((to) => {
			localStorage.setItem("trayside-simple", to);
			document.querySelector("trayside-app")?.go("/");
		}, choice);
	await choose("on");
	await page.locator(".feederbins a").first().waitFor();
	return () => choose("child");
}

/** A picture in an unfolded entry; removed again afterwards. */
async function takePicture(page: Page): Promise<() => Promise<void>> {
	const row = page.locator(".entries > li").first();
	await row.getByRole("button").first().click();
	const slot = row.locator("photo-slot");
	const buffer = await page.screenshot({ type: "jpeg" });
	await slot
		.locator("input[type=file]")
		.first()
		.setInputFiles({ name: "bed.jpg", mimeType: "image/jpeg", buffer });
	await slot.locator(".thumb img").waitFor();
	return () =>
		page.evaluate(async () => {
			const app = document.querySelector("trayside-app");
			const { data } = (await app?.view("photos", { arg: "" })) ?? {};
			for (const { entity } of data?.photos ?? []) await app?.record({ do: "undo", entity });
		});
}

/** A day of the card filled with the usual meal and opened; empty again afterwards. */
async function usualDay(page: Page): Promise<() => Promise<void>> {
	const filled = page.locator(".cardrows > .filled");
	await page.locator(".cardrows > li:not(.filled) > button:not(.dayname)").first().click();
	await filled.locator(".dayname").click();
	await filled.locator(".rowedit").waitFor();
	return async () => {
		await filled.locator("> button:not(.dayname)").click();
		await filled.waitFor({ state: "detached" });
	};
}

/** Picks the first that are offered, one tap each. */
const pick =
	(selector: string, count: number) =>
	async (page: Page): Promise<void> => {
		for (let i = 0; i < count; i++) await page.locator(selector).nth(i).click();
	};

/** Before a phone has joined. */
export const joining: Shot = { name: "join", path: "/join?label=DEMO", ready: "join-screen form" };

/** Where a phone of the household can be. */
export const screens: Shot[] = [
	{ name: "today", path: "/", ready: ".bins" },
	{ name: "tray-fern", path: tray("Fern"), ready: "stack-section svg" },
	{ name: "tray-fern-why", path: tray("Fern"), ready: "details.why", prepare: openWhy },
	{ name: "tray-fern-all", path: tray("Fern"), ready: "stack-section svg", prepare: openAll },
	{ name: "tray-slate", path: tray("Slate"), ready: "stack-section svg" },
	{ name: "tray-moss", path: tray("Moss"), ready: "stack-section svg" },
	{ name: "tray-held", path: tray("Moss"), ready: "stack-section svg", prepare: smellAmmonia },
	{ name: "weigh", path: "/weigh", ready: ".what" },
	{
		name: "weigh-keyed",
		path: "/weigh",
		ready: ".what",
		prepare: async (page) => {
			await page.locator(".what button").nth(1).click();
			await key(page, "320");
			return () => takeBack(page);
		},
	},
	{
		name: "weigh-bowl",
		path: "/weigh",
		ready: ".what",
		prepare: async (page) => {
			await page.locator(".what button").nth(1).click();
			await key(page, "320");
			await page.locator(".keys .add").click();
			await page.locator(".becomes li").first().waitFor();
			await openAll(page);
			return () => takeBack(page);
		},
	},
	{ name: "weigh-vessel", path: "/weigh", ready: ".what", prepare: byVessel },
	{
		name: "weigh-vessel-new",
		path: "/weigh",
		ready: ".what",
		prepare: async (page) => {
			const back = await byVessel(page);
			await page.locator(".stepper ~ .textlink").click();
			await page.locator(".subform").waitFor();
			return back;
		},
	},
	{ name: "freezer", path: "/freezer", ready: "freezer-screen h1", prepare: openAll },
	{ name: "food", path: "/food", ready: ".foundrow" },
	{
		name: "food-answer",
		path: "/food",
		ready: ".foundrow",
		prepare: async (page) => {
			await page.locator(".foundrow").first().click();
			await page.locator(".answer").waitFor();
		},
	},
	{ name: "look", path: "/look", ready: "look-screen li" },
	{
		name: "look-tray",
		path: "/look",
		ready: "look-screen li a",
		prepare: async (page) => {
			await page.locator("look-screen li a").first().click();
			await page.locator(".drawpicks").first().waitFor();
		},
	},
	{ name: "timeline", path: "/timeline", ready: "main li" },
	{ name: "photos", path: "/timeline", ready: ".entries > li", prepare: takePicture },
	{ name: "feeder", path: "/more", ready: "main", prepare: simpleScreen },
	{
		name: "feeder-tray",
		path: "/more",
		ready: "main",
		prepare: async (page) => {
			const back = await simpleScreen(page);
			await page.locator(".feederbins a").first().click();
			await page.locator(".threeways").waitFor();
			return back;
		},
	},
	{ name: "trouble", path: "/trouble", ready: "trouble-screen li a" },
	{
		name: "trouble-causes",
		path: "/trouble",
		ready: "trouble-screen li a",
		prepare: async (page) => {
			await page.locator("trouble-screen li a").first().click();
			await pick("trouble-screen .pickword", 2)(page);
			await page.locator("trouble-screen .steps").waitFor();
		},
	},
	{ name: "harvest", path: "/harvest", ready: "harvest-screen li a" },
	{
		name: "harvest-tray",
		path: "/harvest",
		ready: "harvest-screen li a",
		prepare: async (page) => {
			await page.locator("harvest-screen li a").nth(1).click();
			await pick("harvest-screen .pickword", 1)(page);
		},
	},
	{ name: "bins", path: "/bin", ready: "bin-screen li a" },
	{
		name: "bin",
		path: "/bin",
		ready: "bin-screen li a",
		prepare: async (page) => {
			await page.locator("bin-screen li a").first().click();
			await page.locator(".sheettrays").waitFor();
		},
	},
	{
		name: "bin-all",
		path: "/bin",
		ready: "bin-screen li a",
		prepare: async (page) => {
			await page.locator("bin-screen li a").first().click();
			await page.locator(".sheettrays").waitFor();
			await pick("bin-worms .pickword", 1)(page);
			await page.locator(".sheettrays li > .plain").last().click();
			await openAll(page);
			return () => page.locator("bin-worms .rowedit .plain").last().click();
		},
	},
	{ name: "bin-new", path: "/bin?new", ready: "bin-new input" },
	{ name: "plan", path: "/plan", ready: "plan-screen input" },
	{
		name: "plan-made",
		path: "/plan",
		ready: "plan-screen input",
		prepare: async (page) => {
			await page.locator("plan-screen button[type=submit]").click();
			await page.locator(".made li").first().waitFor();
		},
	},
	{ name: "household", path: "/household", ready: "add-phone form" },
	{ name: "more", path: "/more", ready: "main" },
	{ name: "labels", path: "/labels", ready: "labels-screen input", prepare: openAll },
	{ name: "claim", path: "/t/00018HWZF", ready: ".claim" },
	{
		name: "claim-new",
		path: "/t/00018HWZF",
		ready: ".claim .picks",
		prepare: async (page) => {
			await page.locator(".claim .picks > .pickword:last-child").first().click();
			await page.locator(".newtray").waitFor();
		},
	},
	{ name: "card", path: "/card", ready: ".cardrows" },
	{ name: "card-day", path: "/card", ready: ".cardrows", prepare: usualDay },
	{ name: "catch-up", path: "/catch-up", ready: "main h1" },
	{ name: "scan-without-camera", path: "/scan", ready: "scan-screen section" },
	{ name: "code", path: "/t", ready: "main" },
	{ name: "bad-code", path: "/t/nonsense", ready: "form" },
	{ name: "lost", path: "/nowhere", ready: "h1" },
];

/** Asks the open app for the trays that it knows. */
export async function traysOf(page: Page): Promise<Trays> {
	const pairs = await page.evaluate(async () => {
		const view = await document.querySelector("trayside-app")?.view("today");
		return (view?.data.bins ?? []).flatMap((bin) =>
			bin.stack.map((t) => [t.name, t.code] as const),
		);
	});
	return new Map(pairs);
}

/** Goes to a screen without loading the app again, and waits until it stands. */
export async function open(page: Page, shot: Shot, trays: Trays): Promise<void> {
	const path = typeof shot.path === "string" ? shot.path : shot.path(trays);
	await page.evaluate((to) => document.querySelector("trayside-app")?.go(to), path);
	await page.locator(shot.ready).first().waitFor();
}
