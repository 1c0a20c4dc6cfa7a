import assert from "node:assert/strict";
import { test } from "node:test";
import type { Effect, ExchangeEvent, StoreEffect, SyncStatus } from "./border.ts";
import { Carrier, type CarrierWorld } from "./carrier.ts";
import { AuthRefused } from "./keys.ts";
import { type Answer, NetFault } from "./net.ts";

const store: StoreEffect = { ops: ["x"], hint: { inst: "i", n: 1 }, floor: 1, heard: 1 };
const json = (status: number, data: unknown): Answer => ({
	status,
	body: JSON.stringify(data),
	data,
	retryAfter: 0,
});

/** An engine that answers events by a script and notes what it hears. */
function scripted(script: (event: ExchangeEvent) => Effect[], part: Partial<CarrierWorld> = {}) {
	const heard: ExchangeEvent[] = [];
	const did: string[] = [];
	const timers: { run: () => void; ms: number; on: boolean }[] = [];
	const world: CarrierWorld = {
		step: async (event) => {
			heard.push(event);
			return script(event);
		},
		post: async () => json(200, {}),
		token: async () => "t",
		forgetToken: () => did.push("forget"),
		load: async (ids) => ids.map((id) => `text of ${id}`),
		store: async () => {
			did.push("store");
		},
		stored: async () => {
			did.push("stored");
		},
		status: (status: SyncStatus) => did.push(`status ${status.state}`),
		changed: () => did.push("changed"),
		wipe: async (reason) => {
			did.push(`wipe ${reason}`);
		},
		now: () => 1000,
		rand: () => 0.5,
		setTimer: (run, ms) => timers[timers.push({ run, ms, on: true }) - 1],
		clearTimer: (timer) => {
			if (timer) (timer as { on: boolean }).on = false;
		},
		...part,
	};
	return { carrier: new Carrier(world), heard, did, timers };
}

const settle = () => new Promise((resolve) => setTimeout(resolve, 5));
const kinds = (heard: ExchangeEvent[]) => heard.map((event) => event.kind);

test("every event carries the phone's time and a random number", async () => {
	const { carrier, heard } = scripted(() => []);
	await carrier.start();
	assert.deepEqual(heard, [{ kind: "start", now: 1000, rand: 0.5 }]);
});

test("a post is answered with status, body, whether it was JSON, and its number", async () => {
	const { carrier, heard } = scripted(
		({ kind }) => (kind === "start" ? [{ kind: "post", seq: 4, path: "/p", body: "{}" }] : []),
		{ post: async () => ({ status: 429, body: "{}", data: {}, retryAfter: 7 }) },
	);
	await carrier.start();
	await settle();
	assert.deepEqual(heard[1], {
		kind: "answer",
		seq: 4,
		status: 429,
		body: "{}",
		json: true,
		retryAfter: 7,
		now: 1000,
		rand: 0.5,
	});
});

test("a sign-in page of a network is an answer that is no JSON", async () => {
	const { carrier, heard } = scripted(
		({ kind }) => (kind === "start" ? [{ kind: "post", seq: 1, path: "/p", body: "{}" }] : []),
		{ post: async () => ({ status: 200, body: "<html>", data: undefined, retryAfter: 0 }) },
	);
	await carrier.start();
	await settle();
	assert.equal(heard[1]?.json, false);
});

test("no answer is told with its reason", async () => {
	const { carrier, heard } = scripted(
		({ kind }) => (kind === "start" ? [{ kind: "post", seq: 1, path: "/p", body: "{}" }] : []),
		{
			post: async () => {
				throw new NetFault("certificate");
			},
		},
	);
	await carrier.start();
	await settle();
	assert.deepEqual([heard[1]?.kind, heard[1]?.reason], ["failed", "certificate"]);
});

test("news is stored before the loop hears that it is", async () => {
	const { carrier, heard, did } = scripted(({ kind }) =>
		kind === "start"
			? [{ kind: "store", seq: 2, store }]
			: kind === "stored"
				? [{ kind: "changed" }]
				: [],
	);
	await carrier.start();
	await settle();
	assert.deepEqual(kinds(heard), ["start", "stored"]);
	assert.deepEqual(did, ["store", "changed", "stored"]);
});

test("a store that fails is told as failed, and nothing counts as stored", async () => {
	const { carrier, heard, did } = scripted(
		({ kind }) => (kind === "start" ? [{ kind: "store", seq: 2, store }] : []),
		{
			store: async () => {
				throw new Error("full");
			},
		},
	);
	await carrier.start();
	await settle();
	assert.deepEqual(kinds(heard), ["start", "storefailed"]);
	assert.deepEqual(did, []);
});

test("a 401 and a 403 wipe nothing: only the loop's own effect does", async () => {
	const seen: number[] = [];
	const { carrier, did } = scripted(
		(event) => {
			if (event.kind === "answer") seen.push(event.status ?? 0);
			return event.kind === "start" || event.kind === "tap"
				? [{ kind: "post", seq: 1, path: "/p", body: "{}" }]
				: [];
		},
		{ post: async () => json(seen.length === 0 ? 401 : 403, { code: "revoked" }) },
	);
	await carrier.start();
	await settle();
	await carrier.tell({ kind: "tap" });
	await settle();
	assert.deepEqual(seen, [401, 403]);
	assert.deepEqual(did, []);
});

test("the loop's wipe is carried out, and nothing after it", async () => {
	const { carrier, heard, did } = scripted(() => [
		{ kind: "wipe", reason: "lost" },
		{ kind: "changed" },
	]);
	await carrier.start();
	await carrier.tell({ kind: "tap" });
	assert.deepEqual(did, ["wipe lost"]);
	assert.deepEqual(kinds(heard), ["start"]);
});

test("a new token is asked for afresh, and a refused key is told with its answer", async () => {
	const { carrier, heard, did } = scripted(
		({ kind }) => (kind === "start" ? [{ kind: "authenticate", seq: 3 }] : []),
		{
			token: async () => {
				throw new AuthRefused(json(403, { code: "device-revoked" }));
			},
		},
	);
	await carrier.start();
	await settle();
	assert.deepEqual(did, ["forget"]);
	assert.deepEqual(
		[heard[1]?.kind, heard[1]?.status, heard[1]?.body],
		["authfailed", 403, '{"code":"device-revoked"}'],
	);
});

test("a later timer replaces an earlier one", async () => {
	const { carrier, heard, timers } = scripted(({ kind }) =>
		kind === "start"
			? [{ kind: "timer", seq: 1, ms: 5 }]
			: kind === "tap"
				? [{ kind: "timer", seq: 2, ms: 9 }]
				: [],
	);
	await carrier.start();
	await carrier.tell({ kind: "tap" });
	assert.deepEqual(
		timers.map(({ ms, on }) => [ms, on]),
		[
			[5, false],
			[9, true],
		],
	);
	timers[1]?.run();
	await settle();
	assert.deepEqual([heard[2]?.kind, heard[2]?.seq], ["timer", 2]);
});

test("an answer meant for an engine that died is not told to the next one", async () => {
	let answer: (a: Answer) => void = () => {};
	const { carrier, heard } = scripted(
		({ kind }) => (kind === "tap" ? [{ kind: "post", seq: 1, path: "/p", body: "{}" }] : []),
		{
			post: () =>
				new Promise((resolve) => {
					answer = resolve;
				}),
		},
	);
	await carrier.start();
	await carrier.tell({ kind: "tap" });
	await settle();
	carrier.pause();
	await carrier.start();
	answer(json(200, {}));
	await settle();
	assert.deepEqual(kinds(heard), ["start", "tap", "start"]);
});

test("what happens before the engine is open is not told, and breaks nothing", async () => {
	const { carrier, heard } = scripted(({ kind }) =>
		kind === "start" ? [{ kind: "post", seq: 1, path: "/p", body: "{}" }] : [],
	);
	await carrier.tell({ kind: "tap" });
	await carrier.start();
	await settle();
	assert.deepEqual(kinds(heard), ["start", "answer"]);
});

test("an engine that dies over an event stops nothing: the next event is heard", async () => {
	let dead = true;
	const { carrier, did } = scripted(() => {
		if (dead) throw new Error("died");
		return [{ kind: "changed" }];
	});
	await carrier.start();
	dead = false;
	await carrier.tell({ kind: "tap" });
	assert.deepEqual(did, ["changed"]);
});
