import assert from "node:assert/strict";
import { test } from "node:test";
import type { Bowl } from "./types.gen.ts";
import { bowlWords, reasonWords } from "./words.ts";

const bowl = (at: string): Bowl => ({
	id: "bowl/1",
	name: "blue bowl",
	grams: 640,
	how: "scale",
	items: [],
	who: "Tamsin",
	at,
	split: [],
});

test("a bowl of another day is not taken for one of today", () => {
	const today = bowlWords(bowl("2026-11-25T18:40:00+01:00"), "g", "2026-11-25");
	const before = bowlWords(bowl("2026-11-24T18:40:00+01:00"), "g", "2026-11-25");
	assert.ok(!today.includes("Wednesday"), today);
	assert.ok(before.includes("Tuesday"), before);
});

test("a row's range holds the row's own figure", () => {
	const row = { code: "worms", milli: 339_000, unit: "g", from: 339, to: 846 };
	const said = reasonWords(row, "g", "2026-11-25");
	assert.match(said, /of 325\sg to 850\sg/);
});
