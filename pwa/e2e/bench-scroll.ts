// Scrolling through years of the Timeline, on a phone that fetches each page of
// it from the engine as it goes, beside a page of plain lines that is scrolled the
// same way: the least that any page takes. Times are from one frame to the next,
// in ms. The drawing is Chromium's own without a graphics card.

import type { Page } from "playwright-core";
import { openBrowser, startServer, TestPhone } from "./harness.ts";
import { flag, fullPull, machine, median, quantile } from "./measure.ts";

const ENTRIES = flag("entries", 15_000);
const RUNS = flag("runs", 3);
const FRAMES = 600; // of each run: ten seconds of a smooth one
const STEP = 60; // px a frame: 3600 px/s, a hard fling
const SLOWER = 4;
const LATE = 50; // ms: a frame that a person sees as a jerk (three of a smooth one)

interface Scrolled {
	frames: number[];
	/** Frames at the end of what was there, waiting for more. */
	waited: number;
	px: number;
}

/** Scrolls a page down from its top, a step in every frame. */
function scroll(page: Page): Promise<Scrolled> {
	return page.evaluate(
		([count, step]) =>
			new Promise<Scrolled>((done) => {
				const frames: number[] = [];
				let waited = 0;
				let before = 0;
				scrollTo(0, 0);
				const next = (now: number) => {
					if (before > 0) frames.push(now - before);
					before = now;
					const at = scrollY;
					if (frames.length === count) return done({ frames, waited, px: at });
					scrollBy(0, step);
					if (scrollY === at) waited++;
					requestAnimationFrame(next);
				};
				requestAnimationFrame(next);
			}),
		[FRAMES, STEP] as const,
	);
}

async function slow(page: Page, rate: number): Promise<void> {
	const session = await page.context().newCDPSession(page);
	await session.send("Emulation.setCPUThrottlingRate", { rate });
}

function row(what: string, runs: Scrolled[]): void {
	const frames = runs.flatMap((r) => r.frames);
	const late = frames.filter((ms) => ms > LATE).length / frames.length;
	const waited = runs.reduce((sum, r) => sum + r.waited, 0) / frames.length;
	const cells = [
		...[median(frames), quantile(frames, 0.95), Math.max(...frames)].map((ms) => ms.toFixed(0)),
		...[late, waited].map((share) => `${(share * 100).toFixed(1)} %`),
		String(Math.max(...runs.map((r) => r.px))),
	];
	console.log(what.padEnd(44) + cells.map((cell) => cell.padStart(10)).join(""));
}

const server = await startServer("demo", ["--entries", String(ENTRIES)]);
const browser = await openBrowser();
try {
	const phone = await TestPhone.make(browser, server.url);
	phone.context.setDefaultTimeout(120_000); // a busy machine is slow, not broken
	await phone.joinDemo("Bench phone");
	await fullPull(phone.page, ENTRIES);
	await phone.waitForSync("Everything shared");
	const plain = await phone.context.newPage();
	await plain.setContent(
		Array.from({ length: 4000 }, (_, i) => `<p>Line ${i} of a page of plain lines</p>`).join(""),
	);
	const fling = async (page: Page, rate: number) => {
		await page.bringToFront();
		await slow(page, rate);
		return scroll(page);
	};
	const timeline = async (rate: number) => {
		await slow(phone.page, 1);
		await phone.go("/timeline");
		await phone.page.locator(".entries > li").first().waitFor();
		return fling(phone.page, rate);
	};
	console.log(
		`${"".padEnd(44)}${["median", "95 %", "longest", `> ${LATE} ms`, "waited", "px"].map((head) => head.padStart(10)).join("")}`,
	);
	for (const rate of [1, SLOWER]) {
		const how = rate > 1 ? `page's thread ${rate} × slower: ` : "";
		const lines: Scrolled[] = [];
		const days: Scrolled[] = [];
		for (let run = 0; run < RUNS; run++) {
			lines.push(await fling(plain, rate));
			days.push(await timeline(rate));
		}
		row(`${how}plain lines`, lines);
		row(`${how}Timeline`, days);
	}
	console.log(`${ENTRIES} entries; ${RUNS} runs of ${FRAMES} frames each; ${machine()}`);
} finally {
	await browser.close();
	await server.end();
}
