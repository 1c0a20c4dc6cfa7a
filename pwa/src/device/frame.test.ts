import assert from "node:assert/strict";
import { test } from "node:test";
import { decodeFrame, encodeFrame } from "./frame.ts";

test("a frame comes apart as it was put together", () => {
	for (const [header, body] of [
		[{ n: 1 }, new Uint8Array()],
		[{ s: "Möhre 200 g" }, new Uint8Array([0, 255, 123])],
		[{}, new Uint8Array([1])],
	] as const) {
		assert.deepEqual(decodeFrame(encodeFrame(header, body)), { header, body });
	}
});

test("the length counts bytes, not letters, and stands big-endian", () => {
	const frame = encodeFrame({ s: "ö" });
	assert.deepEqual([...frame.subarray(0, 4)], [0, 0, 0, '{"s":"ö"}'.length + 1]);
});

test("a frame that is part of a larger buffer is read from its own start", () => {
	const frame = encodeFrame({ n: 7 }, new Uint8Array([9]));
	const larger = new Uint8Array(frame.length + 8);
	larger.set(frame, 5);
	assert.deepEqual(decodeFrame(larger.subarray(5, 5 + frame.length)), {
		header: { n: 7 },
		body: new Uint8Array([9]),
	});
});

test("a frame cut short is refused at every length", () => {
	const frame = encodeFrame({ n: 1 });
	for (let n = 0; n < frame.length; n++) {
		assert.throws(() => decodeFrame(frame.subarray(0, n)), RangeError, `${n} bytes`);
	}
});
