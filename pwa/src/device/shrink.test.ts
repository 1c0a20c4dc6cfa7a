import assert from "node:assert/strict";
import { test } from "node:test";
import { type Encode, fit, MOST, type Size, shrink, WISHED } from "./shrink.ts";

for (const [name, size, want] of [
	["a large picture, upright", { width: 3000, height: 4000 }, { width: 1200, height: 1600 }],
	["a large picture, lying", { width: 4000, height: 3000 }, { width: 1600, height: 1200 }],
	["a small one, which stays", { width: 640, height: 480 }, { width: 640, height: 480 }],
	["one of exactly the longest side", { width: 1600, height: 1 }, { width: 1600, height: 1 }],
	["a strip, which keeps a pixel", { width: 1, height: 9000 }, { width: 1, height: 1600 }],
] as [string, Size, Size][]) {
	test(`fit: ${name}`, () => assert.deepEqual(fit(size, 1600), want));
}

/** An encoder whose pictures weigh so much at full size and quality, and less in
 * proportion to pixels and quality; it notes what it was asked. */
function weighing(full: number): { encode: Encode; asked: string[] } {
	const asked: string[] = [];
	const encode: Encode = async ({ width, height }, quality) => {
		asked.push(`${width}x${height} ${quality}`);
		return new Uint8Array(Math.round((full * width * height * quality) / (1600 * 1200)));
	};
	return { encode, asked };
}

const album = { width: 4000, height: 3000 };

test("a light picture keeps its pixels and the best quality", async () => {
	const { encode, asked } = weighing(300_000);
	const { width, height, bytes } = await shrink(album, encode);
	assert.deepEqual([width, height], [1600, 1200]);
	assert.ok(bytes.length <= WISHED);
	assert.deepEqual(asked, ["1600x1200 0.82"]);
});

test("a heavy one loses quality first, then pixels", async () => {
	const { encode, asked } = weighing(1_200_000);
	const { width, height, bytes } = await shrink(album, encode);
	assert.deepEqual([width, height], [1024, 768]);
	assert.ok(bytes.length <= WISHED);
	assert.deepEqual(asked.slice(0, 3), ["1600x1200 0.82", "1600x1200 0.7", "1600x1200 0.55"]);
	assert.equal(asked.length, 5);
});

test("the smallest may weigh what the server takes, and no more", async () => {
	const just = (weight: number) => weighing((weight * 1600 * 1200) / (800 * 600 * 0.5));
	assert.equal((await shrink(album, just(MOST).encode)).bytes.length, MOST);
	await assert.rejects(shrink(album, just(MOST + 1).encode), /still weighs 500001 bytes/);
});
