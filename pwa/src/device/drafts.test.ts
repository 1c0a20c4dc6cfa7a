import "fake-indexeddb/auto";
import assert from "node:assert/strict";
import { test } from "node:test";
import { Drafts } from "./drafts.ts";
import { Store } from "./store.ts";

const open = (name: string) => Store.open({ blocked() {}, outdated() {} }, name);

test("a draft survives the page: the newest keystroke is what a new page finds", async () => {
	const store = await open("drafts-1");
	const drafts = new Drafts(store);
	for (const value of ["1", "18", "180"]) drafts.keep("weigh", { value });
	await drafts.settled();
	store.close();
	assert.deepEqual(await new Drafts(await open("drafts-1")).get("weigh"), { value: "180" });
});

test("what was typed is readable before it is written", async () => {
	const drafts = new Drafts(await open("drafts-2"));
	drafts.keep("weigh", 1);
	assert.equal(await drafts.get("weigh"), 1);
});

test("typing while a write is under way loses nothing and writes the last value", async () => {
	const written: unknown[] = [];
	let release = () => {};
	const drafts = new Drafts({
		draft: async () => undefined,
		dropDraft: async () => {},
		saveDraft: async (_key, value) => {
			written.push(value);
			if (written.length === 1) {
				await new Promise<void>((resolve) => {
					release = resolve;
				});
			}
		},
	});
	drafts.keep("f", 1);
	await Promise.resolve();
	await Promise.resolve();
	drafts.keep("f", 2);
	drafts.keep("f", 3);
	release();
	await drafts.settled();
	assert.deepEqual(written, [1, 3]);
});

test("a dropped draft is gone", async () => {
	const drafts = new Drafts(await open("drafts-3"));
	drafts.keep("f", 1);
	await drafts.drop("f");
	assert.equal(await drafts.get("f"), undefined);
});

test("a draft that can't be kept is told, and the next keystroke tries again", async () => {
	let full = true;
	let told = 0;
	const written: unknown[] = [];
	const drafts = new Drafts({
		draft: async () => undefined,
		dropDraft: async () => {},
		saveDraft: async (_key, value) => {
			if (full) throw new Error("full");
			written.push(value);
		},
	});
	drafts.onFault = () => told++;
	drafts.keep("f", 1);
	await drafts.settled();
	full = false;
	drafts.keep("f", 2);
	await drafts.settled();
	assert.deepEqual([told, written], [1, [2]]);
});
