// What every browser test stands on: the real program as a process that can be
// stopped, killed and started again, and phones that are browser contexts under
// the real content security policy. A phone's console errors and policy
// violations fail the test that made them.

import assert from "node:assert/strict";
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { test } from "node:test";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";

const BIN = process.env.TRAYSIDE_BIN ?? "";
const CHROMIUM = process.env.TRAYSIDE_CHROMIUM ?? "/usr/bin/chromium";

// A slow machine with many tests at once needs patience; a person would not.
export const PATIENCE = 20_000;

export interface Server {
	readonly url: string;
	/** The first keeper's link of the latest start. */
	readonly link: string;
	/** Ends the program in good order. */
	stop(): Promise<void>;
	/** Ends it with SIGKILL. */
	kill(): Promise<void>;
	/** Starts it again: same data, same address. */
	start(): Promise<void>;
	/** Stops it and removes its data. */
	end(): Promise<void>;
}

/** Starts `trayside demo` or `trayside serve` on a free port; `flags` go to it as
 * they are. */
export async function startServer(mode: "demo" | "serve", flags: string[] = []): Promise<Server> {
	assert.ok(BIN, "TRAYSIDE_BIN names the program to test; `go run ./cmd/dev test` sets it");
	const dir = await mkdtemp(join(tmpdir(), "trayside-e2e-"));
	let child: ChildProcess | undefined;
	let url = "";
	let link = "";
	const start = async () => {
		const listen = url ? new URL(url).host : "127.0.0.1:0";
		const args = [mode, "--data", dir, "--listen", listen, "--json", ...flags];
		const started = spawn(BIN, args, { stdio: ["ignore", "pipe", "inherit"] });
		child = started;
		const lines = createInterface({ input: started.stdout as NodeJS.ReadableStream });
		const line = await Promise.race([
			once(lines, "line").then(([text]) => String(text)),
			once(started, "exit").then(([code]) => {
				throw new Error(`${BIN} ${args.join(" ")} ended with ${code} before it served`);
			}),
		]);
		const said = JSON.parse(line) as { address: string; link?: string };
		url = said.address.replace(/\/$/, "");
		link = said.link ?? "";
	};
	const end = async (signal: "SIGTERM" | "SIGKILL") => {
		const running = child;
		child = undefined;
		if (!running || running.exitCode !== null) return;
		const exited = once(running, "exit");
		running.kill(signal);
		await exited;
	};
	await start();
	return {
		get url() {
			return url;
		},
		get link() {
			return link;
		},
		start,
		stop: () => end("SIGTERM"),
		kill: () => end("SIGKILL"),
		end: async () => {
			await end("SIGTERM");
			await rm(dir, { recursive: true, force: true });
		},
	};
}

const launch = {
	executablePath: CHROMIUM,
	args: [
		"--headless",
		"--no-sandbox",
		"--disable-gpu",
		"--disable-quic",
		"--no-first-run",
		"--disable-background-networking",
		"--disable-component-update",
		"--disable-sync",
	],
};

export function openBrowser(flags: string[] = []): Promise<Browser> {
	return chromium.launch({ ...launch, args: [...launch.args, ...flags] });
}

/** A browser that keeps its one phone's storage in a folder, as a real one does:
 * on disk, and still there after the browser was closed. */
export function openKept(folder: string, options: PhoneOptions = {}): Promise<BrowserContext> {
	return chromium.launchPersistentContext(folder, { ...launch, ...likeAPhone(options) });
}

/** Console errors that the browser itself writes and no page can prevent: a
 * request without an answer, and an answer that refuses. */
const noAnswer = /^Failed to load resource: net::ERR_/;
const refusal = /^Failed to load resource: the server responded with a status of (4\d\d|507)/;

export interface PhoneOptions {
	dark?: boolean;
	width?: number;
	height?: number;
	userAgent?: string;
	/** The browser's language and country. */
	locale?: string;
}

function likeAPhone(options: PhoneOptions) {
	const { dark = false, width = 390, height = 844, userAgent, locale = "en-GB" } = options;
	return {
		viewport: { width, height },
		hasTouch: true,
		isMobile: true,
		colorScheme: dark ? ("dark" as const) : ("light" as const),
		locale,
		...(userAgent ? { userAgent } : {}),
	};
}

// The phones of the scene that runs; scenes of one file run one after the other.
let made: TestPhone[] = [];

/** A test with phones: they end quiet and closed, and a failure shows what each
 * of them showed. */
export function scene(name: string, seconds: number, play: () => Promise<void>): void {
	test(name, { timeout: seconds * 1000 }, async () => {
		made = [];
		try {
			await play();
			for (const phone of made) phone.assertQuiet();
		} catch (why) {
			for (const phone of made) console.error(await phone.shows());
			throw why;
		} finally {
			for (const phone of made) await phone.context.close();
		}
	});
}

/** A phone: its own storage, and everything it complained about. */
export class TestPhone {
	readonly context: BrowserContext;
	readonly url: string;
	page: Page;
	faults: string[] = [];
	/** Set while the server is down or is expected to refuse. */
	expectNoAnswer = false;
	expectRefusals = false;

	private constructor(context: BrowserContext, page: Page, url: string) {
		this.context = context;
		this.page = page;
		this.url = url;
	}

	static async make(browser: Browser, url: string, options: PhoneOptions = {}) {
		return TestPhone.in(await browser.newContext(likeAPhone(options)), url);
	}

	/** A phone in a context that was made for it. */
	static async in(context: BrowserContext, url: string) {
		context.setDefaultTimeout(PATIENCE);
		const phone = new TestPhone(context, await context.newPage(), url);
		made.push(phone);
		phone.#listen(phone.page);
		await context.addInitScript(() => {
			document.addEventListener("securitypolicyviolation", (event) => {
				console.error(`policy violation: ${event.violatedDirective} ${event.blockedURI}`);
			});
		});
		return phone;
	}

	#listen(page: Page): void {
		page.on("console", (message) => {
			if (message.type() !== "error") return;
			const text = message.text();
			if (this.expectNoAnswer && noAnswer.test(text)) return;
			if (this.expectRefusals && refusal.test(text)) return;
			this.faults.push(`console: ${text} (${message.location().url})`);
		});
		page.on("pageerror", (error) => this.faults.push(`page: ${error.stack ?? error}`));
		page.on("crash", () => this.faults.push("page crashed"));
	}

	async go(path: string): Promise<void> {
		await this.page.goto(this.url + path);
	}

	/** Opens a second tab of the same phone; it becomes the one that is used. */
	async openTab(path: string): Promise<void> {
		this.page = await this.context.newPage();
		this.#listen(this.page);
		await this.go(path);
	}

	/** Cold-starts the app: the page is closed and a new one opened. */
	async coldStart(path: string): Promise<void> {
		await this.page.close();
		this.page = await this.context.newPage();
		this.#listen(this.page);
		await this.go(path);
	}

	/** Joins by a link and waits until the places are there. */
	async joinBy(link: string, name: string): Promise<void> {
		await this.page.goto(link);
		const { page } = this;
		await page.getByLabel("Name of this phone").fill(name);
		await page.getByRole("button", { name: "Join", exact: true }).click();
	}

	/** Joins the demo household with its one tap. */
	async joinDemo(name: string): Promise<void> {
		await this.go("/join");
		await this.page.getByLabel("Name of this phone").fill(name);
		await this.page.getByRole("button", { name: "Look at the demo household" }).click();
		await this.page.getByRole("navigation", { name: "Places" }).waitFor();
	}

	/** Waits until the service worker has everything and will serve the next start. */
	async readyForOffline(): Promise<void> {
		await this.page.evaluate(async () => {
			await navigator.serviceWorker.ready;
		});
	}

	async waitForSync(text: string | RegExp): Promise<void> {
		await this.page.locator(".sync-line", { hasText: text }).waitFor();
	}

	/** What a person would see, and what the console says. */
	async shows(): Promise<string> {
		const words = await this.page
			.locator("body")
			.innerText({ timeout: 1000 })
			.catch((why: unknown) => String(why));
		return [`--- ${this.page.url()}`, words, ...this.faults, "---"].join("\n");
	}

	assertQuiet(): void {
		assert.deepEqual(this.faults, []);
	}
}
