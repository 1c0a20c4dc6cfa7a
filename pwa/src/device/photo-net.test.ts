import assert from "node:assert/strict";
import { test } from "node:test";
import { hashOf, PhotoNet } from "./photo-net.ts";

const picture = new TextEncoder().encode("a picture").buffer as ArrayBuffer;

/** A server that gives these answers in turn; undefined is no answer. */
function serverOf(...answers: (Response | undefined)[]) {
	const asked: { method: string; path: string; token: string | null }[] = [];
	let tokens = 0;
	let forgotten = 0;
	const net = new PhotoNet({
		fetch: async (path, init) => {
			const headers = new Headers(init?.headers);
			asked.push({
				method: init?.method ?? "",
				path: String(path),
				token: headers.get("Authorization"),
			});
			const answer = answers.shift();
			if (!answer) throw new TypeError("Failed to fetch");
			return answer;
		},
		token: async () => `token-${++tokens}`,
		forgetToken: () => {
			forgotten++;
		},
	});
	return { net, asked, forgotten: () => forgotten };
}

const problem = (status: number, code: string, headers: Record<string, string> = {}) =>
	new Response(JSON.stringify({ code }), { status, headers });

test("the list of pictures is read", async () => {
	const { net, asked } = serverOf(new Response(`{"photos":["a","b"],"bytes":2}`));
	assert.deepEqual(await net.list(), { kind: "done", value: ["a", "b"] });
	assert.deepEqual(asked, [{ method: "GET", path: "/api/v1/photos", token: "Bearer token-1" }]);
});

test("a picture counts only if it has the hash that was asked for", async () => {
	const hash = await hashOf(picture);
	assert.deepEqual(await serverOf(new Response(picture)).net.get(hash), {
		kind: "done",
		value: picture,
	});
	const other = serverOf(new Response("something else"));
	assert.deepEqual(await other.net.get(hash), { kind: "later", after: 0 });
});

test("a token that ran out is renewed once", async () => {
	const { net, asked, forgotten } = serverOf(
		problem(401, "bad-token"),
		new Response(null, { status: 204 }),
	);
	assert.deepEqual(await net.put("a", picture), { kind: "done", value: null });
	assert.deepEqual(
		asked.map((one) => one.token),
		["Bearer token-1", "Bearer token-2"],
	);
	assert.equal(forgotten(), 1);
	const twice = serverOf(problem(401, "bad-token"), problem(401, "bad-token"));
	assert.deepEqual(await twice.net.put("a", picture), { kind: "later", after: 0 });
});

for (const [name, answer, want] of [
	["nobody answers", undefined, { kind: "later", after: 0 }],
	["a network wants a sign-in", new Response("<html>"), { kind: "later", after: 0 }],
	["the disk is full", problem(507, "no-space"), { kind: "later", after: 0 }],
	[
		"too much is asked at once",
		problem(429, "too-many", { "Retry-After": "30" }),
		{ kind: "later", after: 30 },
	],
	["there is no such picture", problem(404, "not-found"), { kind: "none" }],
] as const) {
	test(`asking for the list when ${name}`, async () => {
		assert.deepEqual(await serverOf(answer).net.list(), want);
	});
}

for (const code of ["too-large", "unsupported-media", "photo-hash", "photo-private"]) {
	test(`a picture refused as ${code} is not sent again`, async () => {
		const { net } = serverOf(problem(422, code));
		assert.deepEqual(await net.put("a", picture), { kind: "refused", code });
	});
}

test("a household with too many pictures may have room later", async () => {
	const { net } = serverOf(problem(507, "photo-quota"));
	assert.deepEqual(await net.put("a", picture), { kind: "later", after: 0 });
});
