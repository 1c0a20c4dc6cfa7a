import assert from "node:assert/strict";
import { test } from "node:test";
import { base64url } from "./bytes.ts";
import { signRoster } from "./keys.ts";
import { Net } from "./net.ts";
import { fits } from "./vouch.ts";

async function signer() {
	const pair = await crypto.subtle.generateKey({ name: "ECDSA", namedCurve: "P-256" }, false, [
		"sign",
		"verify",
	]);
	const publicKey = new Uint8Array(await crypto.subtle.exportKey("raw", pair.publicKey));
	return { privateKey: pair.privateKey, publicKey, device: "" };
}

const answers = (data: unknown) =>
	new Net({
		fetch: async () =>
			new Response(JSON.stringify(data), { headers: { "Content-Type": "application/json" } }),
		online: () => true,
		probe: async () => {},
	});

test("a text that its key signed fits; a changed one does not", async () => {
	const text = await signRoster(await signer(), '{"kind":"grant"}');
	assert.equal(await fits(text), true);
	assert.equal(await fits(text.replace("grant", "grunt")), false);
	const parts = JSON.parse(text) as { op: string; key: string; sig: string };
	const stranger = base64url((await signer()).publicKey);
	assert.equal(await fits(JSON.stringify({ ...parts, key: stranger })), false);
	assert.equal(await fits(JSON.stringify({ ...parts, key: "!" })), false);
	for (const junk of ["", "[]", "null", "{}", 7]) assert.equal(await fits(junk), false);
});

test("a forged revocation in an answer never reaches the engine; the rest does", async () => {
	const good = await signRoster(await signer(), '{"kind":"found"}');
	const forged = good.replace("found", "revoke");
	const answer = await answers({ roster: [good, forged], ops: ['{"v":1}'], more: false }).get("/x");
	const expected = { roster: [good], ops: ['{"v":1}'], more: false };
	assert.deepEqual(answer.data, expected);
	assert.deepEqual(JSON.parse(answer.body), expected);
});

test("a roster under a name that the engine would take for one never reaches it", async () => {
	const good = await signRoster(await signer(), '{"kind":"found"}');
	const forged = good.replace("found", "revoke");
	for (const name of ["Roster", "ROSTER", "ro\u017fter"]) {
		const alone = await answers({ [name]: [forged], more: false }).get("/x");
		assert.deepEqual(JSON.parse(alone.body), { more: false }, name);
		const beside = await answers({ roster: [good], [name]: [forged] }).get("/x");
		assert.deepEqual(JSON.parse(beside.body), { roster: [good] }, name);
		const agreed = await answers({ roster: null, [name]: [forged] }).get("/x");
		assert.deepEqual(JSON.parse(agreed.body), { roster: null }, name);
	}
});

test("an answer without a roster, or with a good one, is passed on byte for byte", async () => {
	const good = await signRoster(await signer(), '{"kind":"found"}');
	for (const data of [{ a: 1 }, { roster: null }, { roster: [] }, { roster: [good] }]) {
		assert.equal((await answers(data).get("/x")).body, JSON.stringify(data));
	}
	assert.deepEqual((await answers({ roster: good }).get("/x")).data, { roster: [] });
});
