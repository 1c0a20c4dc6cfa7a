// What measurements share: middle and tail of some times, and a look into what
// the phone keeps.

import { cpus, loadavg } from "node:os";
import { parseArgs } from "node:util";
import type { BrowserContext, Page } from "playwright-core";

/** What the command line says of a number that makes a bench longer or shorter. */
export function flag(name: "entries" | "runs", usual: number): number {
	const options = { entries: { type: "string" }, runs: { type: "string" } } as const;
	const said = parseArgs({ options }).values[name];
	return said === undefined ? usual : Number(said);
}

/** What the times below were taken on. */
export const machine = (): string =>
	`${cpus().length} cores, load ${loadavg()[0]?.toFixed(1) ?? "unknown"}`;

export function median(times: number[]): number {
	const sorted = [...times].sort((a, b) => a - b);
	const middle = sorted.length / 2;
	const upper = sorted[Math.floor(middle)] ?? Number.NaN;
	return sorted.length % 2 === 1 ? upper : (upper + (sorted[middle - 1] ?? Number.NaN)) / 2;
}

/** The time that so large a share of the runs stays within (nearest rank). */
export function quantile(times: number[], share: number): number {
	const sorted = [...times].sort((a, b) => a - b);
	return sorted[Math.ceil(sorted.length * share) - 1] ?? Number.NaN;
}

/** Waits until the phone keeps so many entries, and says how long that took, ms. */
export async function fullPull(page: Page, entries: number): Promise<number> {
	const start = Date.now();
	while ((await entriesKept(page)).ops < entries) await page.waitForTimeout(20);
	return Date.now() - start;
}

/** How many entries the phone of a page keeps, how many of them its checkpoint
 * covers, and how many bytes that has. */
export function entriesKept(page: Page): Promise<{ ops: number; covered: number; bytes: number }> {
	return page.evaluate(async () => {
		const done = <T>(request: IDBRequest<T>) =>
			new Promise<T>((resolve, reject) => {
				request.onsuccess = () => resolve(request.result);
				request.onerror = () => reject(request.error);
			});
		const db = await done(indexedDB.open("trayside"));
		const tx = db.transaction(["ops", "checkpoint"]);
		const [ops, checkpoint] = await Promise.all([
			done(tx.objectStore("ops").count()),
			done(tx.objectStore("checkpoint").get("latest")),
		]);
		db.close();
		const { count = 0, bytes = [] } = (checkpoint ?? {}) as { count?: number; bytes?: Uint8Array };
		return { ops, covered: count, bytes: bytes.length };
	});
}

/** Empties stores of the phone while its app is not open: from a page of the
 * same origin that is no page of the app. */
export async function dropFromPhone(
	context: BrowserContext,
	url: string,
	stores: string[],
): Promise<void> {
	const page = await context.newPage();
	await page.route("**/bench-aside", (route) =>
		route.fulfill({ contentType: "text/html", body: "<title>aside</title>" }),
	);
	await page.goto(new URL("/api/bench-aside", url).href);
	await page.evaluate(async (names) => {
		const db = await new Promise<IDBDatabase>((resolve, reject) => {
			const request = indexedDB.open("trayside");
			request.onsuccess = () => resolve(request.result);
			request.onerror = () => reject(request.error);
		});
		const tx = db.transaction(names, "readwrite");
		for (const name of names) tx.objectStore(name).clear();
		await new Promise((resolve) => {
			tx.oncomplete = resolve;
		});
		db.close();
	}, stores);
	await page.close();
}
