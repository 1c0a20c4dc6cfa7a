import assert from "node:assert/strict";
import { test } from "node:test";
import { codeOf, Joining, type JoinState, type JoinWorld, mustInstallFirst } from "./join.ts";
import type { KeyRow } from "./layout.ts";
import { type Answer, NetFault } from "./net.ts";
import { StoreFault } from "./store.ts";

const key = { device: "d", publicKey: new Uint8Array(65) } as KeyRow;
const answer = (status: number, data: unknown): Answer => ({
	status,
	body: JSON.stringify(data),
	data,
	retryAfter: 0,
});
const joined = (state: "waiting" | "granted") => ({
	join: "secret",
	match: "4821",
	state,
	household: "h",
	dev: "d",
	member: "member/1",
	role: "feeder",
	roster: ["signed"],
});

function world(part: Partial<JoinWorld>) {
	const states: JoinState[] = [];
	const log = {
		posted: [] as unknown[],
		meta: {} as object,
		roster: [] as string[],
		pending: null as unknown,
	};
	const full: JoinWorld = {
		key: async () => key,
		post: async (_path, body) => {
			log.posted.push(body);
			return answer(202, joined("granted"));
		},
		get: async () => answer(200, joined("granted")),
		pending: async () => undefined,
		keepPending: async (pending) => {
			log.pending = pending;
		},
		joined: async (meta, roster) => {
			log.meta = meta;
			log.roster = roster;
		},
		changed: (state) => states.push(state),
		sleep: async () => {},
		...part,
	};
	return { joining: new Joining(full), states, log };
}

const settle = () => new Promise((resolve) => setTimeout(resolve, 5));

test("an invite that is granted at once makes this phone a member's", async () => {
	const { joining, states, log } = world({});
	await joining.send({ code: "abcd" }, "Ada's phone");
	assert.deepEqual(
		states.map((state) => state.at),
		["sending", "joined"],
	);
	assert.deepEqual(log.posted, [
		{ code: "abcd", key: Buffer.alloc(65).toString("base64url"), device: "Ada's phone" },
	]);
	assert.deepEqual(log.meta, {
		household: "h",
		device: "d",
		member: "member/1",
		role: "feeder",
		deviceName: "Ada's phone",
	});
	assert.deepEqual(log.roster, ["signed"]);
});

test("a phone that must be confirmed shows its number until a keeper does", async () => {
	let polls = 0;
	const { joining, states } = world({
		post: async () => answer(202, joined("waiting")),
		get: async () => answer(200, joined(++polls < 3 ? "waiting" : "granted")),
	});
	await joining.send({ short: "ABCD2345" }, "p");
	await settle();
	assert.equal(polls, 3);
	const waiting = states.find((state) => state.at === "waiting");
	assert.deepEqual(waiting, { at: "waiting", match: "4821", fault: null });
	assert.equal(joining.state.at, "joined");
});

test("a reload in the middle goes on waiting with the same number", async () => {
	const { joining, states } = world({
		pending: async () => ({ join: "secret", match: "4821", name: "p" }),
	});
	await joining.resume();
	await settle();
	assert.deepEqual(states[0], { at: "waiting", match: "4821", fault: null });
	assert.equal(joining.state.at, "joined");
});

test("a lost connection while waiting is said, and waiting goes on", async () => {
	let polls = 0;
	const { joining, states } = world({
		post: async () => answer(202, joined("waiting")),
		get: async () => {
			if (++polls === 1) throw new NetFault("offline");
			return answer(200, joined("granted"));
		},
	});
	await joining.send({ code: "abcd" }, "p");
	await settle();
	assert.ok(states.some((state) => state.at === "waiting" && state.fault === "offline"));
	assert.equal(joining.state.at, "joined");
});

for (const [what, reply, fault] of [
	["an unknown code", answer(404, { code: "invite-unknown" }), "invite-unknown"],
	["an expired invite", answer(410, { code: "invite-expired" }), "invite-expired"],
	["a used invite", answer(409, { code: "invite-used" }), "invite-used"],
	["too many tries", answer(429, { code: "slow-down" }), "too-many"],
	[
		"a network's sign-in page",
		{ status: 200, body: "<html>", data: undefined, retryAfter: 0 },
		"portal",
	],
	["an answer nobody knows", answer(500, { code: "oven" }), "other"],
] as const) {
	test(`${what} brings the person back to the code with the reason`, async () => {
		const { joining } = world({ post: async () => reply });
		await joining.send({ short: "X" }, "p");
		assert.equal(joining.state.at, "ask");
		assert.equal(joining.state.at === "ask" && joining.state.fault, fault);
	});
}

test("a phone that can't keep its key says so and sends nothing", async () => {
	const { joining, log } = world({
		key: async () => {
			throw new StoreFault("full", "no space");
		},
	});
	await joining.send({ code: "abcd" }, "p");
	assert.equal(joining.state.at === "ask" && joining.state.fault, "storage");
	assert.deepEqual(log.posted, []);
});

test("whoever stops waiting is asked for a code again, and polling ends", async () => {
	let polls = 0;
	const { joining, log } = world({
		post: async () => answer(202, joined("waiting")),
		get: async () => {
			polls++;
			return answer(200, joined("waiting"));
		},
		sleep: () => new Promise((resolve) => setTimeout(resolve, 1)),
	});
	await joining.send({ code: "abcd" }, "p");
	await settle();
	await joining.cancel();
	const then = polls;
	await settle();
	assert.ok(polls <= then + 1);
	assert.equal(joining.state.at, "ask");
	assert.equal(log.pending, null);
});

test("a join that the server has forgotten ends the waiting with the reason", async () => {
	const { joining } = world({
		post: async () => answer(202, joined("waiting")),
		get: async () => answer(410, { code: "invite-expired" }),
	});
	await joining.send({ code: "abcd" }, "p");
	await settle();
	assert.equal(joining.state.at === "ask" && joining.state.fault, "invite-expired");
});

test("the code of a link is its fragment and nothing else", () => {
	for (const [hash, code] of [
		["#Ab3_-xyz", "Ab3_-xyz"],
		["", ""],
		["#", ""],
		["#a b", ""],
		["#<script>", ""],
		["#abc", ""],
	]) {
		assert.equal(codeOf(hash as string), code);
	}
});

test("only an iPhone or iPad outside the installed app must install first", () => {
	const iPhone = "Mozilla/5.0 (iPhone; CPU iPhone OS 19_0 like Mac OS X)";
	const mac = "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7)";
	for (const [userAgent, maxTouchPoints, standalone, must] of [
		[iPhone, 5, false, true],
		[iPhone, 5, true, false],
		[mac, 5, false, true],
		[mac, 0, false, false],
		["Mozilla/5.0 (Linux; Android 16)", 5, false, false],
	] as const) {
		assert.equal(mustInstallFirst({ userAgent, maxTouchPoints, standalone }), must, userAgent);
	}
});
