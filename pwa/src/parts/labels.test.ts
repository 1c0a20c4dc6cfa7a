import assert from "node:assert/strict";
import { test } from "node:test";
import { placeLabels, type Standing, textWidth, type Wanted, wrap } from "./labels.ts";
import { between, randFrom } from "./rand.ts";

/** A column of labels as some stack may want it. */
function drawn(seed: string): { wanted: Wanted[]; from: number; to: number } {
	const rand = randFrom(seed);
	const from = between(rand, 0, 200);
	const to = from + between(rand, 20, 260);
	const wanted = Array.from({ length: Math.floor(rand() * 12) }, () => {
		const brief = between(rand, 12, 40);
		return {
			at: between(rand, from - 60, to + 60),
			brief,
			full: rand() < 0.5 ? brief : brief + between(rand, 10, 30),
			rank: Math.floor(rand() * 6),
		};
	});
	return { wanted, from, to };
}

const cases = Array.from({ length: 2000 }, (_, i) => drawn(`stack ${i}`));
const each = (
	check: (c: (typeof cases)[number], placed: Standing[], name: string) => void,
): void => {
	cases.forEach((c, i) => {
		check(c, placeLabels(c.wanted, c.from, c.to), `stack ${i}`);
	});
};

test("no label overlaps another or leaves its column", () => {
	each(({ from, to }, placed, name) => {
		let free = from - 1e-6;
		for (const label of placed) {
			assert.ok(label.top >= free, `${name}: ${label.top} begins above ${free}`);
			free = label.top + label.height - 1e-6;
		}
		assert.ok(placed.length === 0 || free <= to, `${name}: ends at ${free}, below ${to}`);
	});
});

test("labels stand in the order of the things they name", () => {
	each(({ wanted }, placed, name) => {
		const ats = placed.map((label) => wanted[label.index]?.at ?? 0);
		assert.deepEqual(
			ats,
			[...ats].sort((a, b) => a - b),
			name,
		);
	});
});

test("what is left out matters no more than anything that stays", () => {
	each(({ wanted, from, to }, placed, name) => {
		const kept = new Set(placed.map((label) => label.index));
		const ranks = (keep: boolean): number[] =>
			wanted.flatMap((w, i) => (kept.has(i) === keep ? [w.rank] : []));
		const dropped = ranks(false);
		if (dropped.length === 0) return;
		assert.ok(Math.min(...dropped) >= Math.max(0, ...ranks(true)), name);
		assert.ok(
			placed.every((label) => label.brief || wanted[label.index]?.full === label.height),
			name,
		);
		const briefs = wanted.reduce((sum, w) => sum + w.brief, 0);
		assert.ok(briefs > to - from, `${name}: all would have fitted in brief`);
	});
});

test("labels with room stand exactly beside their things", () => {
	const at = [30, 80, 150];
	const placed = placeLabels(
		at.map((a) => ({ at: a, full: 20, brief: 20, rank: 1 })),
		0,
		200,
	);
	assert.deepEqual(
		placed.map((label) => label.top + label.height / 2),
		at,
	);
});

test("labels that push each other share the way they give", () => {
	const placed = placeLabels(
		[50, 50].map((at) => ({ at, full: 20, brief: 20, rank: 1 })),
		0,
		200,
	);
	assert.deepEqual(
		placed.map((label) => label.top),
		[30, 50],
	);
});

test("the details of the least important label go first, then the label", () => {
	const wanted = [
		{ at: 10, full: 32, brief: 16, rank: 1 },
		{ at: 40, full: 32, brief: 16, rank: 9 },
	];
	const says = (room: number): string =>
		placeLabels(wanted, 0, room)
			.map((label) => `${label.index}${label.brief ? " brief" : ""}`)
			.join(", ");
	assert.equal(says(64), "0, 1");
	assert.equal(says(50), "0, 1 brief");
	assert.equal(says(40), "0 brief, 1 brief");
	assert.equal(says(20), "0 brief");
	assert.equal(says(10), "");
});

test("words break between words, and what is too long ends in an ellipsis", () => {
	assert.deepEqual(wrap("worms 740 g", 200, 15), ["worms 740 g"]);
	assert.deepEqual(wrap("worms 740 g", 60, 15), ["worms", "740 g"]);
	for (const line of wrap("Kompostetage im hinteren Keller links", 90, 19, 2)) {
		assert.ok(textWidth(line, 19) <= 90, line);
	}
	assert.match(wrap("Kompostetage im hinteren Keller links", 90, 19, 2).at(-1) ?? "", /…$/u);
	assert.deepEqual(wrap("", 90, 15), []);
});
