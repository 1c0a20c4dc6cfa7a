import assert from "node:assert/strict";
import { test } from "node:test";
import { dropLater, keepLater, renewLater } from "./later.ts";

/** A cache that holds `held` and fetches all but `missing`. */
function cacheOf(held: string[], missing = "") {
	const kept = new Set(held);
	const fetched: string[] = [];
	const cache = {
		match: async (url: string) => (kept.has(url) ? {} : undefined),
		add: async (url: string) => {
			if (url === missing) throw new TypeError("no connection");
			fetched.push(url);
			kept.add(url);
		},
		keys: async () => [...kept].map((path) => ({ url: `https://bins.example.org${path}` })),
		delete: async (request: { url: string }) => kept.delete(new URL(request.url).pathname),
	};
	return { storage: { open: async () => cache } as unknown as CacheStorage, kept, fetched };
}

test("what is missing is fetched, what is kept is not fetched again", async () => {
	const { storage, kept, fetched } = cacheOf(["/assets/reader-1.wasm"]);
	await keepLater(["/assets/reader-1.wasm", "/assets/reader-1.js"], storage);
	assert.deepEqual(fetched, ["/assets/reader-1.js"]);
	assert.deepEqual([...kept], ["/assets/reader-1.wasm", "/assets/reader-1.js"]);
});

test("a new version brings what the phone keeps, not what it never fetched", async () => {
	const { storage, kept } = cacheOf(["/assets/es-1a.js"]);
	const next = ["/assets/es-2b.js", "/assets/reader-2b.js"];
	await renewLater(next, storage);
	assert.deepEqual([...kept], ["/assets/es-1a.js", "/assets/es-2b.js"], "while the old one runs");
	await dropLater(next, storage);
	assert.deepEqual([...kept], ["/assets/es-2b.js"], "once the new one has taken over");
});

test("a page of the old version takes nothing from the one that waits", async () => {
	const { storage, kept } = cacheOf(["/assets/es-1a.js", "/assets/es-2b.js"]);
	await keepLater(["/assets/es-1a.js"], storage);
	assert.deepEqual([...kept], ["/assets/es-1a.js", "/assets/es-2b.js"]);
});

test("without a connection nothing is lost and the caller hears of it", async () => {
	const { storage, kept } = cacheOf(["/assets/reader-1.js"], "/assets/reader-2.js");
	await assert.rejects(keepLater(["/assets/reader-2.js"], storage), TypeError);
	assert.deepEqual([...kept], ["/assets/reader-1.js"]);
});
