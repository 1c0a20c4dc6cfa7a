// From a scan to the ration, with years of entries on the phone and nobody to
// ask: the app's cold start. A page of the same browser that is kept by a service
// worker too, but holds nothing, stands beside it: the least that any page takes.
//
// Times are from the start of the navigation to the first frame after the thing
// could be seen in the page, in ms. The remembered ration is the one of the last
// visit, which the shell's glance or the screen shows with its age; the fresh one is
// worked out by the engine. Each run opens the blank page and then the tray, so that
// what else the machine does meets both.

import { mkdtemp, rm } from "node:fs/promises";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { BrowserContext, Page } from "playwright-core";
import { openKept, startServer, TestPhone } from "./harness.ts";
import {
	dropFromPhone,
	entriesKept,
	flag,
	fullPull,
	machine,
	median,
	quantile,
} from "./measure.ts";
import { labels } from "./steps.ts";

const ENTRIES = flag("entries", 20_000);
const RUNS = flag("runs", 9);
const FEW = Math.ceil(RUNS / 2);
const SLOWER = 4;

/** When the selectors first matched, in ms from the start of the navigation. */
type Seen = Record<string, number>;

const remembered = "#glance .numeral.big, tray-screen .numeral.big";
const fresh = "tray-screen .numeral.big:not(.old)";
const blank = "p#blank";

/** Runs in every page before its own scripts. */
function watch(selectors: string[]): void {
	const seen: Seen = {};
	(globalThis as unknown as { seen: Seen }).seen = seen;
	const asked = new Set<string>();
	const look = () => {
		for (const selector of selectors) {
			if (asked.has(selector) || document.querySelector(selector) === null) continue;
			asked.add(selector);
			requestAnimationFrame(() => {
				const each = [...document.querySelectorAll<HTMLElement>(selector)];
				if (each.some((e) => e.innerText.trim() && e.checkVisibility())) {
					seen[selector] = performance.now();
				} else {
					asked.delete(selector); // it is there, but nobody can read it yet
				}
			});
		}
	};
	new MutationObserver(look).observe(document, {
		subtree: true,
		childList: true,
		attributes: true,
		attributeFilter: ["class", "hidden"],
	});
}

/** Opens a new page at an address and waits for the last of the selectors. */
function visit(context: BrowserContext, url: string, ...until: string[]): Promise<Seen> {
	return visitAt(1, context, url, ...until);
}

/** The same on a page whose thread is so many times slower. The browser slows no
 * worker, so the engine's own work takes as long as otherwise. */
async function visitAt(
	slower: number,
	context: BrowserContext,
	url: string,
	...until: string[]
): Promise<Seen> {
	const page = await context.newPage();
	if (slower > 1) {
		const session = await context.newCDPSession(page);
		await session.send("Emulation.setCPUThrottlingRate", { rate: slower });
	}
	await page.goto(url);
	const last = until.at(-1) ?? "";
	const handle = await page.waitForFunction(
		(selector) => {
			const { seen } = globalThis as unknown as { seen: Seen };
			return seen[selector] && seen;
		},
		last,
		{ timeout: 120_000 },
	);
	const seen = (await handle.jsonValue()) as Seen;
	await page.close();
	return seen;
}

/** Visits so often, and gives for each selector its times. */
async function visits(
	runs: number,
	...open: ((run: number) => Promise<Seen>)[]
): Promise<Map<string, number[]>> {
	const times = new Map<string, number[]>();
	for (let run = 0; run < runs; run++) {
		for (const each of open) {
			for (const [selector, ms] of Object.entries(await each(run))) {
				times.set(selector, [...(times.get(selector) ?? []), ms]);
			}
		}
	}
	return times;
}

/** A site of one empty page, kept by a service worker as the app keeps its own. */
async function blankSite(): Promise<{ url: string; stop(): void }> {
	const page = `<!doctype html><html lang="en"><title>Blank</title><p id="blank">Blank</p>
<script>navigator.serviceWorker.register("/sw.js")</script></html>`;
	const worker = `
addEventListener("install", (e) => e.waitUntil(caches.open("blank").then((c) => c.add("/"))));
addEventListener("fetch", (e) => {
	if (e.request.mode === "navigate") e.respondWith(caches.match("/").then((r) => r ?? fetch(e.request)));
});`;
	const server = createServer((request, response) => {
		const script = request.url === "/sw.js";
		response.writeHead(200, { "Content-Type": script ? "text/javascript" : "text/html" });
		response.end(script ? worker : page);
	});
	await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
	return {
		url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
		stop: () => {
			server.closeAllConnections();
			server.close();
		},
	};
}

function row(what: string, times: number[] | undefined, least: number): void {
	if (!times) throw new Error(`never seen: ${what}`);
	const mid = median(times);
	const cells = [mid, quantile(times, 0.9)].map((ms) => ms.toFixed(0).padStart(8)).join("");
	const label = `${what} (${times.length})`;
	console.log(`${label.padEnd(62)}${cells}${`${(mid / least).toFixed(1)} ×`.padStart(9)}`);
}

/** The rows of visits that opened the blank page, too. */
function rows(how: string, times: Map<string, number[]>): void {
	const least = median(times.get(blank) ?? []);
	row(`${how}blank page`, times.get(blank), least);
	row(`${how}ration, remembered`, times.get(remembered), least);
	row(`${how}ration, worked out`, times.get(fresh), least);
}

/** Waits until the checkpoint covers all entries and holds what the views worked
 * out: it has then not grown for longer than the phone rests before it keeps one. */
async function restedCheckpoint(page: Page): Promise<void> {
	for (let size = 0, still = 0; still < 8; ) {
		const { covered, bytes } = await entriesKept(page);
		still = covered === ENTRIES && bytes === size ? still + 1 : 0;
		size = bytes;
		await page.waitForTimeout(1000);
	}
	const { bytes } = await entriesKept(page);
	console.log(`checkpoint: ${(bytes / 1e6).toFixed(1)} MB`);
}

async function measure(folder: string): Promise<void> {
	const server = await startServer("demo", ["--entries", String(ENTRIES)]);
	const site = await blankSite();
	let context = await openKept(folder);
	try {
		const phone = await TestPhone.in(context, server.url);
		context.setDefaultTimeout(120_000); // a busy machine is slow, not broken
		await phone.joinDemo("Bench phone");
		const pulled = await fullPull(phone.page, ENTRIES);
		console.log(`first pull of ${ENTRIES} entries: ${pulled} ms`);
		await phone.readyForOffline();
		const [code = ""] = (await labels(phone)).values();
		const tray = `${server.url}/t/${code}`;
		await phone.go(`/t/${code}`);
		await phone.page.locator(fresh).waitFor();
		await restedCheckpoint(phone.page);
		await phone.page.goto(site.url);
		await phone.page.evaluate(async () => {
			await navigator.serviceWorker.ready;
		});
		await phone.page.close();
		await server.stop();
		site.stop();

		const start = async (context: BrowserContext) => {
			await context.addInitScript(watch, [remembered, fresh, blank]);
			await (await context.newPage()).goto("about:blank"); // keeps the browser open
		};
		await start(context);
		const cold = () => visit(context, tray, remembered, fresh);
		const nothing = () => visit(context, site.url, blank);
		await cold(); // the first one after the stop is not like the rest
		const usual = await visits(RUNS, nothing, cold);
		const slowed = await visits(
			FEW,
			() => visitAt(SLOWER, context, site.url, blank),
			() => visitAt(SLOWER, context, tray, remembered, fresh),
		);
		const reopen = async () => {
			await context.close();
			context = await openKept(folder);
			await start(context);
		};
		const restarted = await visits(
			FEW,
			() => reopen().then(nothing),
			() => reopen().then(cold),
		);
		// These two leave less behind than they found: they come last.
		const forget = (...stores: string[]) => dropFromPhone(context, tray, stores);
		const unknown = await visits(FEW, () => forget("projection").then(cold));
		const rebuilt = await visits(Math.ceil(RUNS / 3), () => forget("checkpoint").then(cold));
		console.log(machine());
		console.log(`${"".padEnd(62)}  median     90 %  to blank`);
		const least = median(usual.get(blank) ?? []);
		rows("", usual);
		row("ration of which only a glance is kept, worked out", unknown.get(fresh), least);
		row("ration without a checkpoint, whole log read", rebuilt.get(fresh), least);
		rows(`page's thread ${SLOWER} × slower: `, slowed);
		rows("browser just started: ", restarted);
	} finally {
		await context.close();
		site.stop();
		await server.end();
	}
}

const folder = await mkdtemp(join(tmpdir(), "trayside-bench-"));
try {
	await measure(folder);
} finally {
	await rm(folder, { recursive: true, force: true });
}
