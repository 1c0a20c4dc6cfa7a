// What measurements share: middle and tail of some times, and a look into what
// the phone keeps.

import type { BrowserContext, Page } from "playwright-core";

export function median(times: number[]): number {
	const sorted = [...times].sort((a, b) => a - b);
	const middle = sorted.length / 2;
	const upper = sorted[Math.floor(middle)] ?? Number.NaN;
	return sorted.length % 2 === 1 ? upper : (upper + (sorted[middle - 1] ?? Number.NaN)) / 2;
}

/** The time that nine of ten runs stay within (nearest rank). */
export function ninetieth(times: number[]): number {
	const sorted = [...times].sort((a, b) => a - b);
	return sorted[Math.ceil(sorted.length * 0.9) - 1] ?? Number.NaN;
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
