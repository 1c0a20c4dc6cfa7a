import assert from "node:assert/strict";
import { test } from "node:test";
import { Net, type NetFault, type NetWorld, problemCode } from "./net.ts";

const answering = (body: string, init: ResponseInit): NetWorld => ({
	fetch: async () => new Response(body, init),
	online: () => true,
	probe: async () => {},
});
const failing = (
	part: Partial<NetWorld>,
	why: Error = new TypeError("fetch failed"),
): NetWorld => ({
	fetch: async () => {
		throw why;
	},
	online: () => true,
	probe: async () => {},
	...part,
});
const type = (value: string) => ({ headers: { "Content-Type": value } });

test("JSON and problem details are read; a page with status 200 is not", async () => {
	const data = async (body: string, contentType: string) =>
		(await new Net(answering(body, type(contentType))).get("/x")).data;
	assert.deepEqual(await data('{"a":1}', "application/json"), { a: 1 });
	assert.deepEqual(await data('{"a":1}', "application/problem+json; charset=utf-8"), { a: 1 });
	assert.equal(await data("<html></html>", "text/html"), undefined);
	assert.equal(await data('{"a":1}', "text/html"), undefined);
	assert.equal(await data("<html>", "application/json"), undefined);
});

test("a problem's code and the time to wait are read", async () => {
	const net = new Net(
		answering('{"code":"slow-down"}', {
			status: 429,
			headers: { "Content-Type": "application/problem+json", "Retry-After": "12" },
		}),
	);
	const answer = await net.post("/x", {});
	assert.deepEqual([problemCode(answer), answer.retryAfter, answer.status], ["slow-down", 12, 429]);
});

test("the server's time in an answer is heard", async () => {
	const net = new Net(answering('{"now":1700000000000}', type("application/json")));
	let heard = 0;
	net.onTime = (server) => {
		heard = server;
	};
	await net.get("/x");
	assert.equal(heard, 1700000000000);
});

test("why nobody answered is told apart", async () => {
	const certificate = new Error("An SSL certificate error occurred when fetching the script.");
	for (const [world, reason] of [
		[failing({ online: () => false }), "offline"],
		[failing({}), "unreachable"],
		[
			failing({
				probe: async () => {
					throw certificate;
				},
			}),
			"certificate",
		],
		[failing({}, new DOMException("late", "TimeoutError")), "timeout"],
	] as const) {
		await assert.rejects(
			new Net(world).get("/x"),
			(why: NetFault) => why.reason === reason,
			reason,
		);
	}
});
