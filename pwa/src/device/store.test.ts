import "fake-indexeddb/auto";
import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { openDB } from "idb";
import type { StoreEffect } from "./border.ts";
import { idOf } from "./bytes.ts";
import { VERSION } from "./layout.ts";
import { Store, StoreFault } from "./store.ts";

const quiet = { blocked() {}, outdated() {} };
const hint = { inst: "i", n: 1 };
const effect = (part: Partial<StoreEffect>): StoreEffect => ({ hint, floor: 0, heard: 0, ...part });

let name = "";
let count = 0;
let store: Store;
beforeEach(async () => {
	name = `test-${++count}`;
	store = await Store.open(quiet, name);
});

/** Makes the n-th `add` or `put` of a store fail the way a full disk does. */
function failAt(method: "add" | "put", n: number): () => void {
	const real = IDBObjectStore.prototype[method];
	let calls = 0;
	IDBObjectStore.prototype[method] = function (this: IDBObjectStore, ...args: [unknown]) {
		if (++calls === n) throw new DOMException("the disk is full", "QuotaExceededError");
		return real.apply(this, args) as IDBRequest<IDBValidKey>;
	};
	return () => {
		IDBObjectStore.prototype[method] = real;
	};
}

test("entries are kept with strict durability", async () => {
	const real = IDBDatabase.prototype.transaction;
	const asked: unknown[] = [];
	IDBDatabase.prototype.transaction = function (this: IDBDatabase, ...args) {
		if (args[1] === "readwrite") asked.push((args[2] as IDBTransactionOptions)?.durability);
		return real.apply(this, args);
	};
	try {
		await store.save(["a"]);
		await store.apply(effect({ ops: ["b"] }), 0);
	} finally {
		IDBDatabase.prototype.transaction = real;
	}
	assert.deepEqual(asked, ["strict", "strict"]);
});

test("save resolves only after the transaction has ended", async () => {
	const real = IDBDatabase.prototype.transaction;
	const order: string[] = [];
	IDBDatabase.prototype.transaction = function (this: IDBDatabase, ...args) {
		const tx = real.apply(this, args);
		if (args[1] === "readwrite") tx.addEventListener("complete", () => order.push("complete"));
		return tx;
	};
	try {
		await store.save(["a"]);
		order.push("saved");
	} finally {
		IDBDatabase.prototype.transaction = real;
	}
	assert.deepEqual(order, ["complete", "saved"]);
});

test("an entry saved twice is kept once", async () => {
	await store.save(["a", "a"]);
	await store.save(["a", "b"]);
	assert.deepEqual(
		(await store.after(0, 10)).map((row) => row.text),
		["a", "b"],
	);
});

test("a full disk keeps nothing of an intent's entries and says full", async () => {
	const restore = failAt("add", 2);
	try {
		await assert.rejects(store.save(["a", "b"]), (why: StoreFault) => why.kind === "full");
	} finally {
		restore();
	}
	assert.deepEqual(await store.after(0, 10), []);
});

test("an exchange that can't be kept marks nothing as known", async () => {
	await store.save(["mine"]);
	const id = await idOf("mine");
	const restore = failAt("add", 1);
	try {
		await assert.rejects(
			store.apply(effect({ ops: ["theirs"], known: [id], heard: 5 }), 0),
			StoreFault,
		);
	} finally {
		restore();
	}
	assert.equal(await store.waiting(), 1);
	assert.equal((await store.meta()).heard, undefined);
});

test("an exchange marks as known and as unknown, and counts what is new", async () => {
	await store.save(["a", "b"]);
	const [a, b] = [await idOf("a"), await idOf("b")];
	assert.equal(await store.apply(effect({ known: [a, b] }), 0), null);
	assert.equal(await store.waiting(), 0);
	assert.deepEqual(await store.apply(effect({ ops: ["a", "c", "d"], unknown: [b] }), 0), {
		first: 3,
		last: 4,
	});
	assert.deepEqual(
		(await store.unshared()).map((row) => row.id),
		[b],
	);
});

test("only what waits is in the index, and an entry of an older app counts as it says", async () => {
	await store.save(["mine"]);
	await store.apply(effect({ ops: ["theirs"] }), 0);
	const db = await openDB(name);
	await db.add("ops", { id: "ab", text: "older", known: 1 });
	assert.equal(await db.countFromIndex("ops", "known"), 2, "mine, and the older one");
	db.close();
	assert.equal(await store.waiting(), 1);
	await store.apply(effect({ unknown: ["ab", await idOf("theirs")] }), 0);
	assert.equal(await store.waiting(), 3, "a server put back from a backup lacks them");
	await store.apply(effect({ known: ["ab", await idOf("theirs"), await idOf("mine")] }), 0);
	assert.equal(await store.waiting(), 0);
});

test("an own entry that comes back from the server is known, and there once", async () => {
	await store.save(["a"]);
	await store.apply(effect({ ops: ["a"] }), 0);
	assert.equal(await store.waiting(), 0);
	assert.equal((await store.after(0, 10)).length, 1);
});

test("a refused entry goes to the drawer, out of the set, and takes the checkpoint along", async () => {
	await store.save(["bad", "good"]);
	await store.saveCheckpoint({
		seq: 2,
		engine: "e",
		count: 2,
		root: null,
		bytes: new Uint8Array(1),
	});
	const id = await idOf("bad");
	await store.apply(effect({ refused: [{ id, code: "refused", why: "role" }] }), 77);
	assert.deepEqual(await store.refused(), [{ id, text: "bad", why: "role", when: 77 }]);
	const { tail, checkpoint, unshared } = await store.start();
	assert.deepEqual(
		tail.map((row) => row.text),
		["good"],
	);
	assert.equal(checkpoint, undefined);
	assert.equal(unshared.includes(id), false);
	await store.discardRefused(id);
	assert.deepEqual(await store.refused(), []);
});

test("floor and heard never go back", async () => {
	await store.apply(effect({ floor: 20, heard: 20 }), 0);
	await store.apply(effect({ floor: 10, heard: 10 }), 0);
	const { floor, heard } = await store.meta();
	assert.deepEqual([floor, heard], [20, 20]);
});

test("a cold start reads the entries after the checkpoint", async () => {
	await store.save(["a", "b", "c"]);
	await store.saveCheckpoint({
		seq: 2,
		engine: "e",
		count: 2,
		root: null,
		bytes: new Uint8Array(1),
	});
	const { tail } = await store.start();
	assert.deepEqual(
		tail.map((row) => row.text),
		["c"],
	);
});

test("an older checkpoint of another tab never replaces a newer one", async () => {
	const row = { engine: "e", count: 1, root: null, bytes: new Uint8Array(1) };
	await store.saveCheckpoint({ ...row, seq: 5 });
	await store.saveCheckpoint({ ...row, seq: 3 });
	assert.equal((await store.start()).checkpoint?.seq, 5);
	// A new engine's first checkpoint counts whatever it covers.
	await store.saveCheckpoint({ ...row, engine: "next", seq: 3 });
	assert.equal((await store.start()).checkpoint?.engine, "next");
});

test("storage of a newer app is read and exported, never written", async () => {
	await store.save(["a"]);
	store.close();
	(await openDB(name, VERSION + 1)).close();
	const old = await Store.open(quiet, name);
	assert.equal(old.locked, true);
	await assert.rejects(old.save(["b"]), (why: StoreFault) => why.kind === "locked");
	assert.deepEqual(
		(await old.everything()).ops.map((row) => row.text),
		["a"],
	);
});

test("an old tab gives the storage up to a newer app and says so", async () => {
	let outdated = false;
	const tab = await Store.open({ blocked() {}, outdated: () => (outdated = true) }, `${name}-old`);
	const next = await openDB(`${name}-old`, VERSION + 1);
	next.close();
	assert.equal(outdated, true);
	await assert.rejects(tab.save(["a"]), StoreFault);
});

test("a wipe empties the phone and leaves only why", async () => {
	await store.save(["a"]);
	await store.setMeta({ household: "h" });
	await store.wipe("lost", false);
	assert.deepEqual(await store.meta(), { wiped: "lost" });
	assert.deepEqual((await store.everything()).ops, []);
});

test("a phone that was removed can keep the entries for an export", async () => {
	await store.save(["a"]);
	await store.setMeta({ household: "h" });
	await store.wipe("removed", true);
	assert.equal((await store.everything()).ops.length, 1);
	assert.equal(await store.held(), 1);
	assert.deepEqual(await store.meta(), { wiped: "removed", was: "h" });
});

test("a page whose phone was emptied writes nothing afterwards", async () => {
	await store.save(["a"]);
	const wiping = store.wipe("lost", false);
	await assert.rejects(store.save(["b"]), StoreFault);
	await store.saveProjection("today", { data: 1, at: 1 });
	await wiping;
	assert.equal(await store.held(), 0);
	assert.equal(await store.projection("today"), undefined);
});

test("a page that could not empty its phone may still write", async () => {
	const restore = failAt("put", 1);
	try {
		await assert.rejects(store.wipe("lost", false), StoreFault);
	} finally {
		restore();
	}
	await store.save(["a"]);
	assert.equal(await store.waiting(), 1);
});

for (const [where, household, left] of [
	["the same household brings its kept entries along", "h", 1],
	["another household has none of the kept entries", "i", 0],
] as const) {
	test(`a phone that joins ${where}`, async () => {
		await store.save(["a"]);
		await store.setMeta({ household: "h" });
		await store.wipe("removed", true);
		const next = await Store.open(quiet, name);
		await next.joined({ household }, ["grant"]);
		assert.equal(await next.held(), left);
		assert.deepEqual(await next.meta(), { household });
		assert.deepEqual(await next.roster(), ["grant"]);
	});
}

test("roster texts are kept once each, with strict durability", async () => {
	const real = IDBDatabase.prototype.transaction;
	const asked: unknown[] = [];
	IDBDatabase.prototype.transaction = function (this: IDBDatabase, ...args) {
		if (args[1] === "readwrite") asked.push((args[2] as IDBTransactionOptions)?.durability);
		return real.apply(this, args);
	};
	try {
		await store.believe(["grant", "revocation"]);
		await store.believe(["grant"]);
	} finally {
		IDBDatabase.prototype.transaction = real;
	}
	assert.deepEqual(asked, ["strict", "strict"]);
	assert.deepEqual(await store.roster(), ["grant", "revocation"]);
	assert.equal(await store.believed(), 2);
});

test("a full disk forgets remembered views instead of failing", async () => {
	await store.saveProjection("today", { data: 1, at: 1 });
	const restore = failAt("put", 1);
	try {
		await store.saveProjection("weigh", { data: 2, at: 2 });
	} finally {
		restore();
	}
	assert.equal(await store.projection("today"), undefined);
});
