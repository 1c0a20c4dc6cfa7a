import assert from "node:assert/strict";
import { test } from "node:test";
import { plainJpeg } from "./plain-jpeg.ts";

/** A segment: its marker, its length, its content. */
const segment = (marker: number, content: string): number[] => [
	0xff,
	marker,
	(content.length + 2) >> 8,
	(content.length + 2) & 0xff,
	...new TextEncoder().encode(content),
];

const start = [0xff, 0xd8];
const jfif = segment(0xe0, "JFIF");
const profile = segment(0xe2, "ICC_PROFILE");
const adobe = segment(0xee, "Adobe");
const exif = segment(0xe1, "Exif at home");
const iptc = segment(0xed, "Photoshop 3.0");
const remark = segment(0xfe, "made by a phone");
const tables = segment(0xdb, "tables");
// In the picture's own bytes nothing is a segment, whatever it looks like.
const picture = [...segment(0xda, "scan"), 1, 2, ...exif, 0xff, 0xd9];

const plain = (...parts: number[][]) => [...plainJpeg(new Uint8Array(parts.flat()))];

test("what a canvas of WebKit gives keeps its picture and loses Exif, IPTC and remarks", () => {
	assert.deepEqual(
		plain(start, jfif, exif, iptc, remark, tables, picture),
		[start, jfif, tables, picture].flat(),
	);
});

test("profile and colour transform stay, so that colours do", () => {
	const parts = [start, jfif, profile, adobe, tables, picture];
	assert.deepEqual(plain(...parts), parts.flat());
});

test("fill bytes before a segment change nothing", () => {
	assert.deepEqual(
		plain(start, [0xff], exif, [0xff, 0xff], tables, picture),
		[start, [0xff, 0xff, 0xff], tables, picture].flat(),
	);
});

for (const [name, bytes] of [
	["nothing", []],
	["two bytes", [0xff, 0xd8]],
	["no JPEG", [1, 2, 3, 4, 5, 6]],
	["a segment that says it is empty", [0xff, 0xd8, 0xff, 0xdb, 0, 0, 7, 7]],
	["a table cut off", [0xff, 0xd8, 0xff, 0xdb, 0x40, 0, 7]],
] as [string, number[]][]) {
	test(`left as it is: ${name}`, () => assert.deepEqual(plain(bytes), bytes));
}
