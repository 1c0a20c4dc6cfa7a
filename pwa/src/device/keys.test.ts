import assert from "node:assert/strict";
import { test } from "node:test";
import { Auth, AuthRefused, deviceKey, type KeyStore } from "./keys.ts";
import type { KeyRow } from "./layout.ts";
import type { Answer, Net } from "./net.ts";

/** A server that knows some devices, and learns of one from a roster. */
class FakeServer {
	known: boolean;
	learns: boolean;
	asked: { path: string; body: Record<string, unknown> }[] = [];
	#nonces = 0;
	constructor(known: boolean, learns: boolean) {
		this.known = known;
		this.learns = learns;
	}
	async post(path: string, body: Record<string, unknown>): Promise<Answer> {
		this.asked.push({ path, body });
		if (path === "/api/v1/nonce") return answer(200, { nonce: `n${++this.#nonces}` });
		if (body.roster && this.learns) this.known = true;
		return this.known ? answer(200, { token: "t" }) : answer(401, { code: "unknown-device" });
	}
}

const answer = (status: number, data: unknown): Answer => ({
	status,
	data,
	body: JSON.stringify(data),
	retryAfter: 0,
});

function authWith(server: FakeServer): Auth {
	let held: KeyRow | undefined;
	const store: KeyStore = {
		key: async () => held,
		saveKey: async (row) => {
			held = row;
		},
	};
	return new Auth(
		server as unknown as Net,
		() => deviceKey(store),
		() => "home",
		async () => ["found", "grant"],
	);
}

test("a server that knows the phone is shown no roster, and a token is asked for once", async () => {
	const server = new FakeServer(true, false);
	const auth = authWith(server);
	assert.deepEqual(await Promise.all([auth.token(), auth.token()]), ["t", "t"]);
	assert.deepEqual(
		server.asked.map((a) => [a.path, a.body.roster]),
		[
			["/api/v1/nonce", undefined],
			["/api/v1/token", undefined],
		],
	);
});

test("a server put back from an old copy learns of the phone from its roster", async () => {
	const server = new FakeServer(false, true);
	assert.equal(await authWith(server).token(), "t");
	const tokens = server.asked.filter((a) => a.path === "/api/v1/token").map((a) => a.body);
	assert.deepEqual(
		tokens.map((body) => [body.nonce, body.roster]),
		[
			["n1", undefined],
			["n2", ["found", "grant"]], // a nonce buys one try
		],
	);
});

test("a phone that no roster speaks for is refused, and nobody is asked for ever", async () => {
	const server = new FakeServer(false, false);
	await assert.rejects(authWith(server).token(), AuthRefused);
	assert.equal(server.asked.length, 4);
});
