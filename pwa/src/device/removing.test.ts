import assert from "node:assert/strict";
import { test } from "node:test";
import type { DeviceView } from "../types.gen.ts";
import { base64url } from "./bytes.ts";
import { Refused } from "./invites.ts";
import { type Answer, NetFault } from "./net.ts";
import { lastKeeper, Removing } from "./removing.ts";
import { fits } from "./vouch.ts";

type Posted = { path: string; body: { ops: string[]; roster: string[] } };

async function keyRow() {
	const pair = await crypto.subtle.generateKey({ name: "ECDSA", namedCurve: "P-256" }, false, [
		"sign",
		"verify",
	]);
	const publicKey = new Uint8Array(await crypto.subtle.exportKey("raw", pair.publicKey));
	return { privateKey: pair.privateKey, publicKey, device: "me" };
}

/** A phone whose server answers `status` with the roster it makes of what is posted. */
async function phone(status = 200, heard: (posted: string[]) => string[] = (posted) => posted) {
	const key = await keyRow();
	const asked: unknown[] = [];
	const believed: string[] = [];
	const posted: Posted[] = [];
	const removing = new Removing({
		key: async () => key,
		signText: async (arg) => {
			asked.push(JSON.parse(arg));
			return `op of ${arg}`;
		},
		believe: async (texts) => {
			believed.push(...texts);
		},
		post: async (path, body) => {
			posted.push({ path, body: body as Posted["body"] });
			const data = { roster: heard((body as Posted["body"]).roster) };
			return { status, body: JSON.stringify(data), data, retryAfter: 0 } satisfies Answer;
		},
	});
	return { removing, asked, believed, posted, publicKey: key.publicKey };
}

test("removing a phone keeps a revocation that this phone signed, and posts nothing itself", async () => {
	const { removing, asked, believed, posted, publicKey } = await phone();
	await removing.remove("ada", "lost");
	await removing.remove("ben", "removed");
	assert.deepEqual(asked, [
		{ kind: "revoke", to: "ada", why: "lost" },
		{ kind: "revoke", to: "ben", why: "removed" },
	]);
	assert.equal(believed.length, 2);
	for (const text of believed) assert.equal(await fits(text), true);
	const { op, key } = JSON.parse(believed[0] ?? "") as { op: string; key: string };
	assert.equal(op, `op of ${JSON.stringify(asked[0])}`);
	assert.equal(key, base64url(publicKey));
	assert.deepEqual(posted, []);
});

test("a farewell is heard by the server before anything is kept here", async () => {
	const { removing, asked, believed, posted } = await phone();
	await removing.farewell();
	assert.deepEqual(asked, [{ kind: "revoke", to: "me", why: "left" }]);
	assert.deepEqual(believed, []);
	assert.equal(posted[0]?.path, "/api/v1/exchange");
	assert.deepEqual(posted[0]?.body.ops, []);
	assert.equal(await fits(posted[0]?.body.roster[0]), true);
});

for (const [name, status, heard] of [
	["refuses", 403, undefined],
	["answers without the word", 200, () => []],
] as const) {
	test(`a farewell counts as unheard when the server ${name}`, async () => {
		const { removing } = await phone(status, heard);
		await assert.rejects(removing.farewell(), Refused);
	});
}

test("a farewell without a network says so", async () => {
	const removing = new Removing({
		key: keyRow,
		signText: async () => "op",
		believe: async () => {},
		post: async () => {
			throw new NetFault("offline");
		},
	});
	await assert.rejects(removing.farewell(), NetFault);
});

const device = (part: Partial<DeviceView>): DeviceView => ({
	id: "d",
	name: "phone",
	member: "member/1",
	who: "Ada",
	role: "keeper",
	mine: false,
	gone: "",
	...part,
});
const mine = device({ mine: true });
const server = device({ member: "" });

for (const [name, devices, last] of [
	["alone with the console", [mine, server], true],
	["beside a feeder", [mine, server, device({ role: "feeder" })], true],
	["beside a keeper who was removed", [mine, server, device({ gone: "lost" })], true],
	["beside another keeper", [mine, server, device({})], false],
	["that feeds only", [{ ...mine, role: "feeder" }, server], false],
] as const) {
	test(`a phone ${name} is ${last ? "the last keeper's" : "not the last keeper's"}`, () => {
		assert.equal(lastKeeper([...devices]), last);
	});
}
