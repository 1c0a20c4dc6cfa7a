import assert from "node:assert/strict";
import { test } from "node:test";
import type { BinSheet } from "../types.gen.ts";
import {
	areaShown,
	beddingItems,
	type Fault,
	firstSetUp,
	freshBedding,
	readySetUp,
	roomTyped,
	type SetUp,
	settingsIntent,
	settingsOf,
	sidesOf,
	sizeOf,
} from "./bin-form.ts";
import { sketchTiers } from "./bin-sketch.ts";
import { wormsIntent } from "./bin-worms.ts";

const view: BinSheet = {
	found: true,
	id: "bin/cellar",
	name: "Cellar",
	day: "2026-11-25",
	mass: "g",
	temp: "C",
	species: "eisenia-fetida",
	goal: "hold",
	placing: "pocket",
	feedEvery: 3,
	started: "2026-07-29",
	room: { coolest: 120, warmest: 210 },
	trays: [
		{
			...{ id: "tray/heath", name: "Heath", stage: "emptied", stageDay: 0, bedding: [] },
			...{ width: 400, depth: 400, height: 140 },
		},
		{
			...{
				id: "tray/fern",
				name: "Fern",
				stage: "feeding",
				stageDay: 9,
				batch: "batch/2",
				bedding: [],
			},
			...{ width: 400, depth: 400, height: 140 },
		},
	],
	moves: [],
	bins: [],
	sizes: [
		{ species: "eisenia-fetida", mg: 450 },
		{ species: "not-sure", mg: 450 },
	],
	fresh: { gramsPerM2: 4004, waterPerM2: 8890, depthMM: 100, soilG: 100 },
};
const ounces: BinSheet = { ...view, mass: "oz", temp: "F" };
const form = (change: Partial<SetUp>): SetUp => ({
	...firstSetUp(view, "Tray 1"),
	name: "Cellar",
	...change,
});

test("the first form needs nothing but a name", () => {
	const ready = readySetUp(form({}), view);
	assert.ok(typeof ready !== "string");
	assert.deepEqual(ready.bin, {
		...{ name: "Cellar", species: "not-sure", started: "2026-11-25", feedEvery: 3 },
	});
	assert.deepEqual(ready.trays, [{ name: "Tray 1", width: 400, depth: 400, height: 150 }]);
	assert.deepEqual(ready.bedding, [{ scrap: "cardboard", g: 640 }]);
	assert.equal(ready.worms, undefined);
});

test("each thing that can't be read is named by its part of the form", () => {
	const size = firstSetUp(view, "").size;
	const worms = { by: "weighed", amount: "500", day: "2026-11-20" } as const;
	const table: [string, Partial<SetUp>, Fault][] = [
		["no name", { name: "  " }, "name"],
		["jumping worms", { species: "jumping-worms" }, "species"],
		["a tray without a name", { trays: ["Fern", ""] }, "tray"],
		["two trays of one name", { trays: ["Fern", "Fern "] }, "tray"],
		["a side that is no number", { size: { ...size, width: "wide" } }, "size"],
		["a side of a metre's typing slip", { size: { ...size, length: "4000" } }, "size"],
		["a surface that is no number", { size: { ...size, byArea: true, area: "" } }, "area"],
		["bedding that is no number", { bedding: "some" }, "bedding"],
		["worms without an amount", { wormsIn: true, worms: { ...worms, amount: "" } }, "amount"],
		["half a worm", { wormsIn: true, worms: { ...worms, by: "counted", amount: "0.5" } }, "amount"],
		["worms to come", { wormsIn: true, worms: { ...worms, day: "2026-11-26" } }, "day"],
		["a beginning to come", { started: "2027-01-01" }, "day"],
		["one month of the room", { coolest: "12" }, "room"],
		["a summer colder than its winter", { coolest: "20", warmest: "12" }, "roomTurned"],
	];
	for (const [name, change, want] of table)
		assert.equal(readySetUp(form(change), view), want, name);
});

test("a tray is measured in the household's lengths, or by its surface", () => {
	assert.deepEqual(
		sidesOf({ ...sizeOf(undefined, "oz"), length: "16", width: "16", height: "6" }, "oz"),
		{
			...{ width: 406, depth: 406, height: 152 },
		},
	);
	assert.deepEqual(
		sidesOf({ byArea: true, length: "", width: "", area: "1600", height: "14" }, "g"),
		{ width: 400, depth: 400, height: 140 },
	);
	assert.equal(areaShown(400 * 400, "g"), 1600);
	assert.equal(areaShown(406 * 406, "oz"), 260);
});

test("what stands in the fields as ours comes back as the same tray", () => {
	for (const mass of ["g", "oz"] as const)
		for (const mm of [250, 333, 400, 455]) {
			const inside = { width: mm, depth: mm, height: mm };
			const back = sidesOf(sizeOf(inside, mass), mass);
			assert.ok(typeof back !== "string" && Math.abs(back.width - mm) <= 2, `${mm} mm in ${mass}`);
		}
});

test("bedding of several kinds sums to what was weighed", () => {
	for (const grams of [1, 100, 641]) {
		const items = beddingItems(["cardboard", "coir", "newsprint"], grams);
		assert.equal(
			items.reduce((sum, item) => sum + item.g, 0),
			grams,
		);
		assert.ok(items.every((item) => item.g >= 0));
	}
	assert.deepEqual(freshBedding({ width: 400, depth: 400 }, view.fresh), {
		grams: 640,
		water: 1420,
	});
});

test("the room is read in the household's degrees, and nothing is nobody's word", () => {
	assert.equal(roomTyped(" ", "", "C"), undefined);
	assert.deepEqual(roomTyped("12,5", "21", "C"), { coolest: 125, warmest: 210 });
	assert.deepEqual(roomTyped("50", "68", "F"), { coolest: 100, warmest: 200 });
	assert.deepEqual(roomTyped("-2", "0", "C"), { coolest: -20, warmest: 0 });
});

test("only the settings that were changed are written, and Undo knows what stood there", () => {
	const was = settingsOf(view);
	assert.equal(settingsIntent(was, was, view), undefined);
	const change = settingsIntent({ ...was, goal: "slow-down", hot: "2026-11-28" }, was, view);
	assert.deepEqual(change, {
		intent: {
			...{ do: "bin", entity: "bin/cellar" },
			set: { goal: "slow-down", hotUntil: "2026-11-28" },
		},
		back: { do: "edit", entity: "bin/cellar", set: { goal: "hold", hotUntil: null } },
	});
	// Another keeper renamed it and gave it a rhythm while this form stood open.
	const other = { ...view, name: "Den", feedEvery: 5 };
	assert.equal(settingsIntent(was, was, other), undefined);
	assert.equal(settingsIntent({ ...was, every: "15" }, was, view), "every");
	assert.equal(settingsIntent({ ...was, hot: "2026-11-20" }, was, view), "day");
});

test("worms come in grams, by eye or by number, go into the tray that is fed, and are lost by share", () => {
	const draft = { by: "weighed", amount: "500", day: "2026-11-20", share: "50", tray: "" } as const;
	const bin = "bin/cellar";
	const day = "2026-11-20";
	assert.deepEqual(wormsIntent({ ...draft, move: "added" }, view), {
		...{ do: "worms", bin, day, tray: "tray/fern" },
		set: { move: "added", mass: 500 },
	});
	assert.deepEqual(wormsIntent({ ...draft, move: "added", by: "counted", amount: "1000" }, view), {
		...{ do: "worms", bin, day, tray: "tray/fern" },
		set: { move: "added", mass: 450, wide: true },
	});
	assert.deepEqual(wormsIntent({ ...draft, move: "weighed", by: "about" }, ounces), {
		...{ do: "worms", bin, day },
		set: { move: "weighed", mass: 14175 },
	});
	assert.deepEqual(wormsIntent({ ...draft, move: "lost" }, view), {
		...{ do: "worms", bin, day },
		set: { move: "lost", share: 50 },
	});
	assert.equal(wormsIntent({ ...draft, move: "removed", amount: "0" }, view), "amount");
	assert.equal(wormsIntent({ ...draft, move: "lost", day: "2026-12-01" }, view), "day");
});

test("a bin that is only thought of has its bedding in the lowest tray", () => {
	const tiers = sketchTiers({
		...{ names: ["Fern", "Moss"], width: 400, height: 60, bedding: 100, worms: 500 },
		...{ today: "2026-11-25", label: "" },
	});
	assert.deepEqual(
		tiers.map((t) => [t.name, t.beddingMM, t.worms.mid]),
		[
			["Moss", 0, 0],
			["Fern", 48, 500],
		],
	);
});
