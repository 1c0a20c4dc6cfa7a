import "fake-indexeddb/auto";
import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import type { CallName } from "./border.ts";
import { type Engine, EngineDied } from "./engine.ts";
import { deviceKey, signRoster } from "./keys.ts";
import { Log } from "./log.ts";
import { Store } from "./store.ts";

type Asked = { call: CallName; header: Record<string, unknown>; body: Uint8Array | undefined };

/** An engine that notes its calls and answers by a table. */
class FakeEngine {
	asked: Asked[] = [];
	answers: Partial<Record<CallName, (header: never) => unknown>> = {};
	body = new Uint8Array();
	restarts = 0;
	async call(call: CallName, header: never, body?: Uint8Array) {
		this.asked.push({ call, header, body });
		const known = this.answers[call];
		const plain = {
			open: { state: "ready", count: 0, why: "" },
			receive: { added: 0 },
			view: { v: 1 },
		};
		return {
			header: known ? known(header) : ((plain as Record<string, unknown>)[call] ?? { effects: [] }),
			body: this.body,
		};
	}
	restart() {
		this.restarts++;
	}
	of(call: CallName) {
		return this.asked.filter((asked) => asked.call === call).map((asked) => asked.header);
	}
}

let store: Store;
let engine: FakeEngine;
let log: Log;
let count = 0;
beforeEach(async () => {
	store = await Store.open({ blocked() {}, outdated() {} }, `log-${++count}`);
	engine = new FakeEngine();
	log = new Log(store, engine as unknown as Engine, {
		engineName: "engine-1",
		now: () => 50,
		day: () => "2026-11-25",
		instant: () => "2026-11-25T12:00:00+01:00",
		changed() {},
	});
});

const many = (n: number) => Array.from({ length: n }, (_, i) => `op ${i}`);
const recorded = (ops: string[]) => () => ({ ops, entity: "feeding/1", refused: null, slip: null });

test("a cold start opens with the checkpoint and the entries after it", async () => {
	await store.save(["a", "b", "c"]);
	await store.saveCheckpoint({
		seq: 2,
		engine: "engine-1",
		count: 2,
		root: null,
		bytes: new Uint8Array([7]),
	});
	await log.open();
	const { header, body } = engine.asked[0] as Asked;
	assert.deepEqual([header.tail, header.more, [...(body ?? [])]], [["c"], false, [7]]);
	assert.equal((header.unshared as string[]).length, 3);
});

test("a checkpoint of another engine is left alone and the whole log is read", async () => {
	await store.save(["a", "b"]);
	await store.saveCheckpoint({
		seq: 2,
		engine: "old",
		count: 2,
		root: null,
		bytes: new Uint8Array(1),
	});
	await log.open();
	const { header, body } = engine.asked[0] as Asked;
	assert.deepEqual([header.tail, body], [["a", "b"], undefined]);
});

test("a checkpoint the engine can't use makes it read the whole log", async () => {
	await store.save(["a", "b", "c"]);
	await store.saveCheckpoint({
		seq: 2,
		engine: "engine-1",
		count: 2,
		root: null,
		bytes: new Uint8Array(1),
	});
	engine.answers.open = () => ({ state: "rebuilding", count: 0, why: "cut short" });
	await log.open();
	assert.deepEqual(engine.of("receive"), [{ ops: ["a", "b", "c"], mine: false, more: false }]);
});

for (const n of [499, 500, 501, 1000, 1001]) {
	test(`a log of ${n} entries is read whole, once, and its end is said`, async () => {
		await store.save(many(n));
		await log.open();
		const open = engine.of("open")[0] as { tail: string[]; more: boolean };
		const rest = engine.of("receive") as { ops: string[]; more: boolean }[];
		assert.deepEqual([...open.tail, ...rest.flatMap((batch) => batch.ops)], many(n));
		const mores = [open.more, ...rest.map((batch) => batch.more)];
		assert.deepEqual(mores, [...mores.slice(1).map(() => true), false]);
	});
}

test("an entry is saved only once it is durable, and reaches the engine from storage", async () => {
	await log.open();
	engine.answers.record = recorded(["new"]);
	assert.deepEqual(await log.record({ do: "feed" }), { ok: true, entity: "feeding/1" });
	assert.deepEqual(
		(await store.after(0, 9)).map((row) => row.text),
		["new"],
	);
	assert.deepEqual(engine.of("receive"), []);
	await log.catchUp();
	assert.deepEqual(engine.of("receive"), [{ ops: ["new"], mine: true, more: false }]);
	assert.equal(await log.catchUp(), false);
});

test("an intent gets the phone's instant and the household's day, unless it has its own", async () => {
	await log.open();
	engine.answers.record = recorded([]);
	await log.record({ do: "feed" });
	await log.record({ do: "feed", at: "2026-11-20T08:00:00+01:00", day: "2026-11-20" });
	const intents = engine.of("record").map((header) => header.intent as { at: string; day: string });
	assert.deepEqual(
		intents.map(({ at, day }) => [at, day]),
		[
			["2026-11-25T12:00:00+01:00", "2026-11-25"],
			["2026-11-20T08:00:00+01:00", "2026-11-20"],
		],
	);
});

test("an entry is saved while the log is still being read", async () => {
	let opened = () => {};
	const wait = new Promise<void>((resolve) => {
		opened = resolve;
	});
	let reading = () => {};
	const asked = new Promise<void>((resolve) => {
		reading = resolve;
	});
	const plain = engine.call.bind(engine);
	engine.call = async (call, header, body) => {
		if (call === "open") {
			reading();
			await wait;
		}
		return plain(call, header, body);
	};
	engine.answers.record = recorded(["new"]);
	const open = log.open();
	await asked;
	assert.equal((await log.record({ do: "feed" })).ok, true);
	assert.equal(log.ready, false);
	opened();
	await open;
	await log.catchUp();
	assert.deepEqual((engine.of("receive").at(-1) as { ops: string[] }).ops, ["new"]);
});

test("an entry made while the engine is replaced waits for the next one", async () => {
	await log.open();
	engine.answers.record = () => {
		engine.answers.record = recorded(["new"]);
		void log.reopen("this tab leads now"); // what reopen does to calls under way
		throw new EngineDied("this tab leads now");
	};
	assert.deepEqual(await log.record({ do: "feed" }), { ok: true, entity: "feeding/1" });
	assert.deepEqual(
		engine.asked.map((asked) => asked.call),
		["open", "record", "open", "record"],
	);
	assert.equal(await store.waiting(), 1);
});

test("an engine replaced while the storage was read is opened before it stamps", async () => {
	await log.open();
	engine.answers.record = recorded(["new"]);
	const saved = log.record({ do: "feed" });
	await Promise.resolve(); // now it looks for entries of other tabs
	void log.reopen("this tab leads now");
	assert.equal((await saved).ok, true);
	assert.deepEqual(
		engine.asked.map((asked) => asked.call),
		["open", "open", "record"],
	);
});

test("an engine that dies twice over an entry is a fault that is said", async () => {
	await log.open();
	engine.answers.record = () => {
		throw new EngineDied("no memory");
	};
	const answer = await log.record({ do: "feed" });
	assert.deepEqual(answer, {
		ok: false,
		fault: { kind: "broken", detail: "EngineDied: no memory" },
	});
});

test("an entry knows of the one before it: that one has reached the engine", async () => {
	await log.open();
	engine.answers.record = recorded(["bowl"]);
	await log.record({ do: "bowl" });
	engine.answers.record = recorded(["place"]);
	await log.record({ do: "place" });
	assert.deepEqual(
		engine.asked.map((asked) => asked.call),
		["open", "record", "receive", "record"],
	);
});

test("a likely slip and a refusal save nothing and say why", async () => {
	await log.open();
	const slip = { kind: "ask", grams: 9000, limit: 2000 };
	engine.answers.record = () => ({ ops: [], entity: "", refused: null, slip });
	assert.deepEqual(await log.record({ do: "feed" }), { ok: false, fault: { kind: "slip", slip } });
	const refused = { code: "negative", field: "items", detail: "less than nothing" };
	engine.answers.record = () => ({ ops: [], entity: "", refused, slip: null });
	assert.deepEqual(await log.record({ do: "feed" }), {
		ok: false,
		fault: { kind: "refused", ...refused },
	});
	assert.equal(await store.waiting(), 0);
});

test("a full phone says full and never saved", async () => {
	await log.open();
	engine.answers.record = recorded(["new"]);
	const real = IDBObjectStore.prototype.add;
	IDBObjectStore.prototype.add = () => {
		throw new DOMException("no space", "QuotaExceededError");
	};
	try {
		assert.deepEqual(await log.record({ do: "feed" }), { ok: false, fault: { kind: "full" } });
	} finally {
		IDBObjectStore.prototype.add = real;
	}
});

test("own entries and another tab's are told apart", async () => {
	await log.open();
	await store.save(["mine"]);
	await store.apply({ ops: ["theirs"], hint: { inst: "i", n: 1 }, floor: 0, heard: 0 }, 0);
	await log.catchUp();
	assert.deepEqual(engine.of("receive"), [
		{ ops: ["mine"], mine: true, more: false },
		{ ops: ["theirs"], mine: false, more: false },
	]);
});

test("what the loop of an exchange has folded is not given again", async () => {
	await log.open();
	log.stored(
		await store.apply({ ops: ["x", "y"], hint: { inst: "i", n: 1 }, floor: 0, heard: 0 }, 0),
	);
	await log.catchUp();
	assert.deepEqual(engine.of("receive"), []);
});

test("an entry of another tab kept before an exchange's is not passed over", async () => {
	await log.open();
	await store.save(["other tab"]);
	log.stored(await store.apply({ ops: ["x"], hint: { inst: "i", n: 1 }, floor: 0, heard: 0 }, 0));
	await log.catchUp();
	const given = (engine.of("receive") as { ops: string[] }[]).flatMap((batch) => batch.ops);
	assert.deepEqual(given, ["other tab", "x"]);
});

const received = () => engine.of("receive") as { ops: string[]; roster?: string[] }[];

test("a roster text that this phone signed is durable before the engine hears of it", async () => {
	await log.open();
	const text = await signRoster(await deviceKey(store), '{"kind":"revoke"}');
	let kept: string[] = [];
	const plain = engine.call.bind(engine);
	engine.call = async (call, header, body) => {
		if (call === "receive") kept = await store.roster();
		return plain(call, header, body);
	};
	await log.believe([text]);
	assert.deepEqual(kept, [text]);
	assert.deepEqual(received(), [{ ops: [], roster: [text], mine: false, more: false }]);
	assert.equal(await log.catchUp(), false, "it is given once");
});

test("a roster text without its key's signature is neither kept nor passed on", async () => {
	await log.open();
	const text = await signRoster(await deviceKey(store), '{"kind":"revoke"}');
	await assert.rejects(log.believe([text, text.replace("revoke", "grant!")]), /signature/);
	assert.deepEqual(await store.roster(), []);
	assert.deepEqual(received(), []);
});

test("a roster text that another tab kept reaches this tab's engine", async () => {
	await log.open();
	await store.believe(["from another tab"]);
	assert.equal(await log.catchUp(), true);
	assert.deepEqual(received()[0]?.roster, ["from another tab"]);
});

test("a cold start gives the roster once", async () => {
	await store.believe(["grant"]);
	await log.open();
	assert.deepEqual((engine.of("open")[0] as { roster: string[] }).roster, ["grant"]);
	assert.equal(await log.catchUp(), false);
	assert.deepEqual(received(), []);
});

test("a remembered view is shown with its age until the engine is ready", async () => {
	await store.saveProjection("today||", { data: { old: true }, at: 7 });
	assert.deepEqual(await log.view("today", {}), { data: { old: true }, from: 7 });
	await log.open();
	assert.deepEqual(await log.view("today", {}), { data: { v: 1 }, from: null });
});

/** Lets the engine answer as it does: with a checkpoint if there is news, or
 * once more because it worked something out. */
function resting(): { news: boolean[]; further: boolean } {
	const told = { news: [] as boolean[], further: false };
	engine.body = new Uint8Array([1, 2]);
	engine.answers.exchange = ({ news }: { news: boolean }) => {
		told.news.push(news);
		const gives = news || told.further;
		told.further = false;
		return { effects: [], ...(gives ? { checkpoint: { count: 2, root: "r" } } : {}) };
	};
	return told;
}

test("a checkpoint is kept with what it covers, and not again without news", async () => {
	await store.save(["a", "b"]);
	await log.open();
	const told = resting();
	await log.checkpoint(0, 0);
	await log.checkpoint(0, 0);
	assert.deepEqual(told.news, [true, false], "nothing came in since the first");
	await store.save(["c"]);
	await log.catchUp();
	await log.checkpoint(0, 0);
	assert.deepEqual(told.news, [true, false, true]);
	const { checkpoint } = await store.start();
	assert.deepEqual([checkpoint?.seq, checkpoint?.engine, checkpoint?.root], [3, "engine-1", "r"]);
});

test("what the engine worked out without a new entry is kept too", async () => {
	await store.save(["a", "b"]);
	await log.open();
	const told = resting();
	await log.checkpoint(0, 0);
	engine.body = new Uint8Array([1, 2, 3]);
	await log.checkpoint(0, 0);
	assert.equal((await store.start()).checkpoint?.bytes.length, 2);
	told.further = true;
	await log.checkpoint(0, 0);
	assert.deepEqual(told.news, [true, false, false]);
	const { checkpoint } = await store.start();
	assert.deepEqual([checkpoint?.seq, checkpoint?.bytes.length], [2, 3]);
});

test("a checkpoint that could not be stored is asked for again", async () => {
	await store.save(["a"]);
	await log.open();
	const told = resting();
	await log.checkpoint(0, 0);
	told.further = true;
	const put = store.saveCheckpoint;
	store.saveCheckpoint = () => Promise.reject(new Error("full"));
	await assert.rejects(log.checkpoint(0, 0), /full/);
	store.saveCheckpoint = put;
	await log.checkpoint(0, 0);
	await log.checkpoint(0, 0);
	assert.deepEqual(told.news, [true, false, true, false]);
});
