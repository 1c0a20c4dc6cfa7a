import assert from "node:assert/strict";
import { test } from "node:test";
import { trayView } from "../view-fixtures.ts";
import { undoOf } from "./timeline.ts";
import { mendIntent, mendingOf, scaled } from "./timeline-edit.ts";

const units = { mass: "g", temp: "C" } as const;

test("a stage is taken back by itself, its bedding with the batch", () => {
	const row = (code: string) => ({ entity: "batch/1", kind: "batch", at: "", names: [], code });
	assert.deepEqual(undoOf(row("resting")), {
		do: "edit",
		entity: "batch/1",
		set: { resting: null },
	});
	assert.deepEqual(undoOf(row("bedded")), { do: "undo", entity: "batch/1" });
});

test("an edit writes only what was changed, and its items sum to the new weight", () => {
	const feed = trayView.feeds[0];
	assert.ok(feed);
	const entry = {
		entity: feed.id,
		kind: "feeding",
		at: "2026-11-25T18:40:00+01:00",
		names: [],
		member: "member/tamsin",
		spot: "left",
		feed,
	};
	const m = mendingOf(entry, "2026-11-25", units);
	const set = (change: Partial<typeof m>) => {
		const intent = mendIntent(entry, { ...m, ...change }, units);
		return typeof intent === "string" ? intent : intent.set;
	};
	assert.deepEqual(set({ who: { member: "member/odell", guest: "" } }), {
		member: "member/odell",
		guest: "",
	});
	assert.deepEqual(
		set({ who: { member: "", guest: " " } }),
		{ member: "", guest: "a guest" }, // nobody's name must not become the phone's owner
	);
	assert.deepEqual(set({ values: { ...m.values, spot: "right" } }), { spot: "right" });
	assert.equal(set({ values: { ...m.values, weight: "a lot" } }), "weight");
	assert.equal(set({ values: { ...m.values, weight: "-5" } }), "weight");
	assert.equal(set({ values: { ...m.values, day: "" } }), "day");
	const moved = mendIntent(entry, { ...m, values: { ...m.values, day: "2026-11-24" } }, units);
	assert.deepEqual(moved, {
		do: "edit",
		entity: feed.id,
		set: {},
		day: "2026-11-24",
		at: "2026-11-24T18:40:00+01:00",
	});
	assert.equal(
		scaled(feed.items, 91).reduce((sum, i) => sum + i.g, 0),
		91,
	);
});

test("looks, frozen scraps and stages are mended in their own fields", () => {
	const look = {
		entity: "look/1",
		kind: "look",
		at: "2026-11-25T08:00:00Z",
		names: [],
		look: { temp: 164, tempOf: "bed" },
	};
	const l = mendingOf(look, "2026-11-25", units);
	assert.equal(l.values.temp, "16.4");
	assert.deepEqual(
		mendIntent(look, { ...l, values: { ...l.values, temp: "", smell: "sour" } }, units),
		{
			do: "edit",
			entity: "look/1",
			set: { temp: null, smell: "sour" },
		},
	);
	const out = {
		entity: "freezing/1",
		kind: "freezing",
		at: "",
		names: [],
		grams: -300,
		items: [{ scrap: "kale", name: "Kale", grams: -300 }],
	};
	const f = mendingOf(out, "2026-11-25", units);
	assert.equal(f.values.weight, "300");
	assert.deepEqual(mendIntent(out, { ...f, values: { ...f.values, weight: "250" } }, units), {
		do: "edit",
		entity: "freezing/1",
		set: { items: [{ scrap: "kale", g: -250 }] },
	});
	const stage = { entity: "batch/1", kind: "batch", at: "", names: [], code: "resting" };
	const b = mendingOf(stage, "2026-11-25", units);
	assert.deepEqual(mendIntent(stage, { ...b, values: { day: "2026-11-20" } }, units), {
		do: "edit",
		entity: "batch/1",
		set: { resting: "2026-11-20" },
	});
});

test("an edit of the weight keeps what was not weighed on the list", () => {
	const items = [
		{ scrap: "kale", name: "Kale", grams: 120 },
		{ scrap: "coffee-grounds", name: "Coffee grounds", grams: 0 },
	];
	assert.deepEqual(scaled(items, 150), [
		{ scrap: "kale", g: 150 },
		{ scrap: "coffee-grounds", g: 0 },
	]);
});
