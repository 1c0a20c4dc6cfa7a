import assert from "node:assert/strict";
import { test } from "node:test";
import type { Reason } from "../types.gen.ts";
import { layerHeights } from "./bowl.ts";
import { DIAL_END, keyTurn, turned } from "./dial-steps.ts";
import { ledgerRows } from "./ledger.ts";
import { hatch } from "./pen.ts";
import { placeOf } from "./places.ts";
import { randFrom } from "./rand.ts";
import { stepFor } from "./scale.ts";
import { ageOf, haloWidth } from "./stack.ts";
import { bedding, castings, type Ground, heap, wormPlaces, wormsAt } from "./textures.ts";
import { whoSays } from "./who.ts";

const ground: Ground = { top: () => 0, bottom: () => 90, left: () => 0, right: () => 240 };

test("a seed draws the same strokes every time, and another seed others", () => {
	const draw = (seed: string): string => {
		const rand = randFrom(seed);
		const food = heap(rand, ground, { x: 60, y: 30 }, 8, 9, []).map((p) => ({ ...p, r: 9 }));
		return (
			bedding(rand, ground, 120, food) +
			castings(rand, ground, 120).small +
			wormsAt(rand, wormPlaces(rand, ground, 120, 30, food, food))
		);
	};
	assert.equal(draw("bin/a tray/b"), draw("bin/a tray/b"));
	assert.notEqual(draw("bin/a tray/b"), draw("bin/a tray/c"));
	assert.ok(draw("").length > 1000, "an empty seed still draws");
});

test("the generator spreads evenly over [0, 1)", () => {
	const rand = randFrom("spread");
	const counts = new Array<number>(10).fill(0);
	for (let i = 0; i < 10_000; i++) {
		const x = rand();
		assert.ok(x >= 0 && x < 1);
		counts[Math.floor(x * 10)] = (counts[Math.floor(x * 10)] ?? 0) + 1;
	}
	for (const c of counts) assert.ok(c > 880 && c < 1120, `a tenth drew ${c} of 10,000`);
});

test("lumps of a heap lie inside the ground and don't touch", () => {
	const places = heap(randFrom("heap"), ground, { x: 20, y: 10 }, 12, 9, []);
	assert.ok(places.length > 6);
	for (const p of places) {
		assert.ok(p.x > 8 && p.x < 232 && p.y > 8 && p.y < 82);
		for (const q of places) {
			if (p !== q) assert.ok(Math.hypot(p.x - q.x, p.y - q.y) >= 17);
		}
	}
});

test("hatching stays inside its outline", () => {
	const square = [
		{ x: 0, y: 0 },
		{ x: 10, y: 0 },
		{ x: 10, y: 10 },
		{ x: 0, y: 10 },
	];
	const numbers =
		hatch(square, -40, 3)
			.match(/-?[\d.]+/g)
			?.map(Number) ?? [];
	assert.ok(numbers.length >= 8);
	for (const n of numbers) assert.ok(n >= 0 && n <= 10);
});

test("the dial goes by whole steps of 25 g from wherever it stands", () => {
	assert.equal(turned(175, 1, "g"), 200);
	assert.equal(turned(175, -1, "g"), 150);
	assert.equal(turned(180, 1, "g"), 200, "up from between two steps");
	assert.equal(turned(180, -1, "g"), 175, "down from between two steps");
	assert.equal(turned(0, -1, "g"), 0);
	assert.equal(turned(DIAL_END, 3, "g"), DIAL_END);
});

test("the dial of a household in ounces goes by ounces and comes back", () => {
	let grams = 0;
	for (let i = 0; i < 16; i++) grams = turned(grams, 1, "oz");
	assert.equal(grams, 454);
	for (let i = 0; i < 16; i++) grams = turned(grams, -1, "oz");
	assert.equal(grams, 0);
});

test("arrows and pages turn the dial, other keys don't", () => {
	assert.deepEqual(keyTurn("ArrowUp"), { by: 1 });
	assert.deepEqual(keyTurn("PageDown"), { by: -4 });
	assert.deepEqual(keyTurn("Home"), { to: 0 });
	assert.equal(keyTurn("a"), undefined);
});

test("a ledger ends with its total and says the rounding there", () => {
	const reasons: Reason[] = [
		{ code: "worms", milli: 610_000, unit: "g", from: 610, to: 900 },
		{ code: "appetite", op: "×", milli: 180, unit: "per day" },
		{ code: "days", op: "×", milli: 3000, unit: "d", day: "2026-11-28" },
		{ code: "could-finish", milli: 329_400, unit: "g", sum: true },
		{ code: "rule_of_thumb", op: "compare", milli: 460_000, unit: "g", from: 310, to: 460 },
		{ code: "lying", op: "−", milli: 145_000, unit: "g", day: "2026-11-22" },
		{ code: "rounding", op: "≈", milli: -9_400, unit: "g" },
		{ code: "ration", milli: 175_000, unit: "g", sum: true },
	];
	const rows = ledgerRows(reasons, "g", "C", "2026-11-25");
	assert.deepEqual(
		rows.map((r) => `${r.kind} ${r.sign}${r.value}`.replaceAll("\u00a0", " ")),
		[
			"row 610 g",
			"row ×0.18",
			"row ×3",
			"part 329 g",
			"beside 310 g to 460 g",
			"row −145 g",
			"total 175 g",
		],
	);
	assert.match(rows.at(-1)?.words ?? "", /184.g, rounded down/);
	assert.match(rows[2]?.words ?? "", /Saturday/);
});

test("a reason nobody has words for is shown by its code", () => {
	const rows = ledgerRows(
		[{ code: "full-moon", milli: 5000, unit: "g", sum: true }],
		"g",
		"C",
		"2026-11-25",
	);
	assert.equal(rows[0]?.words, "full moon");
});

test("layers fill the bowl, and none is too thin to see", () => {
	const heights = layerHeights([5, 600, 35], 100);
	assert.ok(Math.abs(heights.reduce((a, b) => a + b, 0) - 100) < 1e-9);
	for (const h of heights) assert.ok(h >= 14.999);
	assert.deepEqual(layerHeights([0, 0], 60), [30, 30], "unweighed layers share alike");
	assert.ok(
		Math.abs(layerHeights(new Array<number>(12).fill(1), 100).reduce((a, b) => a + b, 0) - 100) <
			1e-9,
	);
});

test("a halo grows with doubt and has an end", () => {
	assert.ok(
		haloWidth({ mid: 740, low: 610, high: 900 }, 2.2) <
			haloWidth({ mid: 160, low: 90, high: 240 }, 2.2),
	);
	assert.equal(haloWidth({ mid: 10, low: 0, high: 500 }, 2.2), 13.2);
	assert.equal(haloWidth({ mid: 0, low: 0, high: 0 }, 2.2), 2.2);
});

test("scraps age by days and by what is left", () => {
	const portion = { feeding: "feeding/a", fed: 200, left: 150, day: "2026-11-24" };
	assert.equal(ageOf(portion, "2026-11-25"), "fresh");
	assert.equal(ageOf({ ...portion, day: "2026-11-20" }, "2026-11-25"), "some");
	assert.equal(ageOf({ ...portion, left: 40 }, "2026-11-25"), "nearly");
});

test("the ration's scale has a handful of figures at any size", () => {
	for (const end of [50, 184, 465, 1250, 6000]) {
		for (const mass of ["g", "oz"] as const) {
			const marks = end / stepFor(end, mass);
			assert.ok(marks > 0.9 && marks <= 6, `${end} ${mass} gives ${marks} steps`);
		}
	}
});

test("every address belongs to a place of the strip", () => {
	assert.equal(placeOf("/"), "/");
	assert.equal(placeOf("/t/FERN-2345"), "/scan");
	assert.equal(placeOf("/t"), "/scan");
	assert.equal(placeOf("/timeline"), "/more");
	assert.equal(placeOf("/trouble"), "/more");
	assert.equal(placeOf("/harvest"), "/more");
	assert.equal(placeOf("/catch-up"), "/look");
	assert.equal(placeOf("/weigh"), "/weigh");
});

test("a guest without a name is still a guest", () => {
	assert.deepEqual(whoSays({ member: "member/a", guest: "" }), { member: "member/a" });
	assert.deepEqual(whoSays({ member: "", guest: " Bo " }), { guest: "Bo" });
	assert.deepEqual(whoSays({ member: "", guest: "" }), { guest: "a guest" });
});
