import assert from "node:assert/strict";
import { test } from "node:test";
import { instantiate } from "./compile.ts";

// The smallest module: the magic word and version 1.
const empty = new Uint8Array([0, 0x61, 0x73, 0x6d, 1, 0, 0, 0]);

function served(type: string, status = 200) {
	const asked: string[] = [];
	const ask = async (url: string) => {
		asked.push(url);
		return new Response(empty, { status, headers: { "Content-Type": type } });
	};
	return { ask, asked };
}

test("the engine's file is compiled as it arrives", async () => {
	const { ask, asked } = served("application/wasm");
	assert.ok((await instantiate("/engine.wasm", {}, ask)) instanceof WebAssembly.Instance);
	assert.equal(asked.length, 1);
});

test("a file whose type was lost on the way is read whole and still starts", async () => {
	const { ask, asked } = served("application/octet-stream");
	assert.ok((await instantiate("/engine.wasm", {}, ask)) instanceof WebAssembly.Instance);
	assert.equal(asked.length, 2);
});

test("a missing file is named with its status", async () => {
	const { ask } = served("text/html", 404);
	await assert.rejects(instantiate("/engine.wasm", {}, ask), /\/engine\.wasm answers 404/);
});
