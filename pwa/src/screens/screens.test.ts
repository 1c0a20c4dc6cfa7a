import assert from "node:assert/strict";
import { test } from "node:test";
import { bowl, fern, todayView, trayView, weighView } from "../view-fixtures.ts";
import { lookWords } from "../words.ts";
import { mealOn, offsetAt } from "./catch-up.ts";
import { askIntent, fedIntent, freezeIntent, muchGrams } from "./feeder.ts";
import {
	badFigure,
	decimal,
	lookIntents,
	nothingSeen,
	readSeen,
	stepped,
	warmer,
} from "./look-seen.ts";
import { simple } from "./simple.ts";
import { evenSplit, splitLeft, splitSteps } from "./split.ts";
import { moved } from "./taught-rows.ts";
import { undoOf } from "./timeline.ts";
import { mendIntent, mendingOf, scaled } from "./timeline-edit.ts";
import { chosenFirst } from "./tray-bowl.ts";
import { mayMiss } from "./tray-doubt.ts";
import { bowlDefault, mealGrams, mealIntent } from "./tray-feed.ts";
import * as weighing from "./weigh-bowl.ts";

const who = { member: "member/tamsin", guest: "" };
const carrot = { scrap: "carrot", name: "Carrot peel", class: "root", group: "vegetable" };
const typed = (d: weighing.Draft, keys: string): weighing.Draft =>
	[...keys].reduce((at, key) => weighing.press(at, key), d);
const begin = (): weighing.Draft => ({
	...weighing.freshDraft("g", who, "Kitchen bowl"),
	pick: carrot,
});

test("keys make a figure, without leading zeros and without end", () => {
	assert.equal(typed(begin(), "0180").typed, "180");
	assert.equal(typed(begin(), "123456789").typed.length, 7);
	assert.equal(weighing.press(typed(begin(), "18"), "rub").typed, "1");
	assert.equal(typed(begin(), "1.5").typed, "15", "grams have no point");
	assert.equal(typed({ ...begin(), unit: "kg" }, ".5").typed, "0.5");
});

test("without a tare the figure is the scrap itself", () => {
	let d = weighing.add(typed(begin(), "180"), weighView);
	d = weighing.add(typed(d, "250"), weighView);
	assert.equal(weighing.total(d), 430);
	assert.equal(d.typed, "");
});

test("with a tare the scale shows bowl, contents and the new scrap", () => {
	let d = weighing.tare(typed(begin(), "212"));
	assert.equal(d.tare, 212);
	d = weighing.add(typed(d, "392"), weighView);
	assert.equal(weighing.total(d), 180);
	d = typed(d, "642");
	assert.equal(weighing.net(d), 250);
	d = weighing.add(d, weighView);
	assert.equal(weighing.total(d), 430);
	assert.equal(
		weighing.add(typed(d, "300"), weighView).parts.length,
		2,
		"less than the bowl adds nothing",
	);
	assert.equal(weighing.tare(d).tare, 0, "tare without a figure forgets it");
});

test("the usual mix becomes its scraps and keeps every gram", () => {
	const mix = { ...begin(), pick: { scrap: "usual", name: "usual mix", class: "", group: "" } };
	for (const grams of ["1", "7", "100", "641"]) {
		const d = weighing.add(typed(mix, grams), weighView);
		assert.equal(weighing.total(d), Number(grams));
		assert.equal(weighing.undo(d).parts.length, 0, "one Undo takes the whole tap out");
	}
});

test("a usual mix of many scraps is one row of a few entries", () => {
	const usual = Array.from({ length: 20 }, (_, i) => ({
		scrap: `s${i % 15}`,
		name: `s${i}`,
		grams: 5,
	}));
	const view = { ...weighView, usual };
	const mix = { ...begin(), pick: { scrap: "usual", name: "usual mix", class: "", group: "" } };
	const d = weighing.add(typed(mix, "500"), view);
	assert.equal(weighing.total(d), 500);
	assert.equal(d.parts.length, 7);
	assert.equal(d.parts.at(-1)?.scrap, "kitchen-mixed");
	assert.deepEqual(
		weighing.rows(d).map((r) => [r.label, r.grams]),
		[["usual mix", 500]],
	);
	assert.equal(weighing.takeOut(d, 1).parts.length, 0);
});

test("undo rubs out the figure first, then the last scrap", () => {
	const d = typed(weighing.add(typed(begin(), "180"), weighView), "25");
	assert.equal(weighing.undo(d).parts.length, 1);
	assert.equal(weighing.undo(weighing.undo(d)).parts.length, 0);
});

test("an amount is as sure as its least sure part", () => {
	const scale = weighing.add(typed(begin(), "180"), weighView);
	assert.equal(weighing.howOf(scale), "scale");
	const vessel = weighing.add(
		{ ...scale, mode: "vessel", vessel: "vessel/mug", quarters: 6 },
		weighView,
	);
	assert.equal(weighing.howOf(vessel), "vessel");
	assert.equal(weighing.total(vessel), 450);
	const some = weighing.add({ ...vessel, mode: "unweighed" }, weighView);
	assert.equal(weighing.howOf(some), "unweighed");
	assert.equal(weighing.total(some), 450);
});

test("a bowl takes no more entries than the log does, and loses none", () => {
	let d = begin();
	for (let i = 0; i < 30; i++) d = weighing.add(typed({ ...d, typed: "" }, "10"), weighView);
	assert.equal(d.parts.length, weighing.MOST_PARTS);
	assert.equal(d.typed, "10", "the figure that found no room is kept");
});

test("a draft survives being kept, and nonsense is no draft", () => {
	const d = weighing.add(typed(begin(), "180"), weighView);
	assert.deepEqual(weighing.readDraft(structuredClone(d)), d);
	for (const bad of [undefined, null, 5, "x", {}, { parts: 1 }])
		assert.equal(weighing.readDraft(bad), undefined);
});

test("only what is no catalogue entry carries a name and a class", () => {
	const other = {
		...begin(),
		pick: { scrap: "other", name: "Quince", class: "soft-fruit", group: "other" },
	};
	assert.deepEqual(weighing.itemsOf(weighing.add(typed(other, "90"), weighView)), [
		{ scrap: "other", g: 90, class: "soft-fruit", name: "Quince" },
	]);
	assert.deepEqual(weighing.itemsOf(weighing.add(typed(begin(), "90"), weighView)), [
		{ scrap: "carrot", g: 90 },
	]);
});

test("a bowl goes in whole when it fits, and never freezes what another tray is to get", () => {
	assert.equal(bowlDefault({ ...bowl, grams: 150 }, "tray/fern", 175), "all");
	assert.equal(bowlDefault(bowl, "tray/fern", 175), "part");
	assert.equal(bowlDefault(bowl, "tray/fern", 0), "none");
	const alone = { ...bowl, split: bowl.split.filter((s) => s.tray !== "tray/moss") };
	assert.equal(bowlDefault(alone, "tray/fern", 175), "freeze-rest");
});

test("no more goes in from a bowl than it holds", () => {
	assert.equal(mealGrams("part", bowl, 900), 640);
	assert.equal(mealGrams("all", bowl, 50), 640);
	assert.equal(mealGrams("none", bowl, 50), 50);
});

test("one tap writes the ration down as advised; a moved dial is an estimate", () => {
	const meal = { view: trayView, bowl: undefined, choice: "none" as const, spot: "back-left", who };
	assert.equal(mealIntent({ ...meal, dialled: 175 }).how, "as-advised");
	assert.equal(mealIntent({ ...meal, dialled: 200 }).how, "unweighed");
});

test("the shares of a placed bowl sum to what leaves it", () => {
	const intent = mealIntent({
		view: trayView,
		bowl,
		choice: "freeze-rest",
		dialled: 175,
		spot: "",
		who,
	});
	assert.deepEqual(intent.shares, [
		{ to: "tray", grams: 175, tray: "tray/fern" },
		{ to: "freezer", grams: 465 },
	]);
});

test("a split by hand begins with the drawing and tells what stays", () => {
	const shares = evenSplit(bowl, todayView.bins);
	assert.equal(splitLeft(bowl.grams, shares), 0);
	assert.deepEqual(
		splitSteps(shares).map((s) => s.grams),
		[175, 50, 415],
	);
	assert.equal(splitLeft(600, shares), -40);
});

test("degrees go up and down by one of the household's own and come back", () => {
	assert.equal(warmer(160, 1, "C"), 170);
	assert.equal(warmer(164, -1, "C"), 150);
	let deci = 160;
	for (let i = 0; i < 9; i++) deci = warmer(deci, 1, "F");
	for (let i = 0; i < 9; i++) deci = warmer(deci, -1, "F");
	assert.ok(Math.abs(deci - 160) <= 3);
});

const units = { mass: "g", temp: "C" } as const;

test("a look says only what was seen", () => {
	assert.deepEqual(lookIntents(nothingSeen, fern.id, who, units), []);
	assert.deepEqual(lookIntents({ ...nothingSeen, typed: { temp: "0" } }, fern.id, who, units), [
		{ do: "look", tray: fern.id, temp: 0, tempOf: "bed", member: who.member },
	]);
	assert.deepEqual(lookIntents({ ...nothingSeen, typed: { liquid: "0" } }, fern.id, who, units), [
		{ do: "look", tray: fern.id, liquid: 0, member: who.member },
	]);
});

test("leftovers told apart by place are looks of their own", () => {
	const seen = {
		...nothingSeen,
		left: { "": "", left: "some", "back-left": "none" },
		smell: "sour",
	};
	assert.deepEqual(
		lookIntents(seen, fern.id, who, units).map((i) => [
			i.spot ?? "",
			i.leftovers ?? "",
			i.smell ?? "",
		]),
		[
			["", "", "sour"],
			["left", "some", ""],
			["back-left", "none", ""],
		],
	);
});

test("figures are read in the household's units, and a slip is named", () => {
	const typed = { temp: "61", weight: "14.3", meter: "72,5", ph: "6.8" };
	const seen = { ...nothingSeen, typed };
	const [look] = lookIntents(seen, fern.id, who, { mass: "oz", temp: "F" });
	assert.deepEqual(
		[look?.temp, look?.weight, look?.meter, look?.ph],
		[161, 6486, 725, 68],
		"14.3 lb are 6486 g",
	);
	assert.equal(badFigure(seen, units), "", "all can be read");
	assert.equal(badFigure({ ...nothingSeen, typed: { temp: "warm" } }, units), "temp");
	assert.equal(badFigure({ ...nothingSeen, typed: { temp: "99" } }, units), "temp");
	assert.equal(badFigure({ ...nothingSeen, typed: { ph: "70" } }, units), "ph");
	assert.equal(badFigure({ ...nothingSeen, typed: { adults: "12" } }, units), "scoop");
	assert.equal(decimal("−3,5"), -3.5);
	assert.ok(Number.isNaN(decimal("3.5.1")));
});

test("counted scoops are an entry beside the look", () => {
	const typed = { scoop: "250", adults: "31", young: "12" };
	assert.deepEqual(lookIntents({ ...nothingSeen, typed }, fern.id, who, units), [
		{
			do: "sample",
			tray: fern.id,
			scoops: 3,
			ml: 250,
			adults: 31,
			young: 12,
			cocoons: 0,
			member: who.member,
		},
	]);
});

test("the stepper begins at what is usual and goes on from what was typed", () => {
	assert.equal(stepped("", 1, "C"), "16");
	assert.equal(stepped("18.4", 1, "C"), "19");
	assert.equal(stepped("61", -1, "F"), "60");
});

test("a kept look is read again, and nonsense is none", () => {
	assert.deepEqual(readSeen(structuredClone(nothingSeen)), nothingSeen);
	for (const bad of [undefined, null, 4, {}, { left: 1 }]) assert.equal(readSeen(bad), undefined);
});

test("an unchanged figure is no change, and worms move only by more than a grain", () => {
	const taught = {
		known: true,
		tray: fern.id,
		name: "Fern",
		mass: "g",
		temp: "C",
		today: "2026-11-25",
		ration: { before: 200, after: 175 },
		worms: { before: 741, after: 738 },
		lying: { before: 90, after: 90 },
	};
	assert.deepEqual(
		moved(taught).map((r) => r.code),
		["ration"],
	);
});

const missed = {
	bin: "bin/cellar",
	name: "Cellar",
	tray: fern.id,
	into: "Fern",
	days: 8,
	usual: 140,
	items: [
		{ scrap: "kale", name: "Kale", grams: 90 },
		{ scrap: "other", name: "Quince", class: "soft-fruit", grams: 50 },
	],
	week: [],
};

test("a meal caught up on lies at noon of its day and says that it is only about right", () => {
	const intent = mealOn(missed, "2026-11-24", who, "+01:00");
	assert.equal(intent.at, "2026-11-24T12:00:00+01:00");
	assert.equal(intent.day, "2026-11-24");
	assert.equal(intent.about, true);
	assert.equal(intent.how, "unweighed");
	assert.deepEqual(intent.items, [
		{ scrap: "kale", g: 90 },
		{ scrap: "other", g: 50, class: "soft-fruit", name: "Quince" },
	]);
	assert.match(offsetAt(Date.UTC(2026, 10, 24)), /^[+-]\d\d:\d\d$/);
});

test("a child's meal is taken whatever the advice, and only the advised one says so", () => {
	const bin = todayView.bins[0];
	assert.ok(bin);
	const told = { bin, bowl: undefined, who };
	assert.equal(fedIntent({ ...told, much: "about" }).how, "as-advised");
	const more = fedIntent({ ...told, much: "more" });
	assert.equal(more.how, "unweighed");
	assert.equal(more.items?.[0]?.g, 2 * bin.ration.grams);
	assert.equal(more.inBin, true);
	assert.equal(muchGrams("about", 0), 150, "a mug where nothing is advised");
	assert.deepEqual(fedIntent({ ...told, much: "more", bowl }).shares?.[0]?.grams, 350);
	assert.equal(freezeIntent({ ...told, much: "about", bowl }).shares?.[0]?.to, "freezer");
	assert.equal(freezeIntent({ ...told, much: "about" }).do, "freeze");
	assert.deepEqual(askIntent(who, "Wren asks").items, [{ scrap: "kitchen-mixed", g: 0 }]);
});

test("the simple screen is for children who feed, unless the phone says otherwise", () => {
	const members = [
		{ id: "member/wren", name: "Wren", child: true },
		{ id: "member/ada", name: "Ada" },
	];
	const me = (member: string, role: "keeper" | "feeder" | "viewer") => ({
		member,
		role,
		device: "",
	});
	assert.equal(simple(me("member/wren", "feeder"), members, "child"), true);
	assert.equal(simple(me("member/wren", "keeper"), members, "child"), false);
	assert.equal(simple(me("member/ada", "feeder"), members, "child"), false);
	assert.equal(simple(me("member/ada", "feeder"), members, "on"), true);
	assert.equal(simple(me("member/wren", "feeder"), members, "off"), false);
	assert.equal(simple(me("member/wren", "viewer"), members, "on"), false, "who may only look");
});

test("of several waiting bowls the chosen one is in front", () => {
	const other = { ...bowl, id: "bowl/other" };
	const view = { ...trayView, bowls: [bowl, other] };
	assert.equal(chosenFirst(view, "bowl/other").bowls[0], other);
	assert.equal(chosenFirst(view, "bowl/gone"), view);
	assert.equal(chosenFirst(view, undefined), view);
});

test("a ration says that it may miss a feeding once the household was not heard for long", () => {
	const now = Date.UTC(2026, 10, 25, 12);
	const hour = 3_600_000;
	const miss = (heard: number, remembered = false) =>
		mayMiss({ remembered, heard, now }, "2026-11-25");
	assert.equal(miss(now - hour), "");
	assert.notEqual(miss(now - hour, true), "", "a remembered view is old by itself");
	assert.match(miss(now - 4 * hour), /last heard/);
	assert.match(miss(now - 60 * hour), / on .* at /);
	assert.match(miss(0), /not heard/);
});

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

test("a look says on the timeline all that it found", () => {
	assert.equal(lookWords({ leftovers: "some" }, "C"), "some left");
	assert.equal(
		lookWords({ squeeze: "one-drop", temp: 168, tempOf: "bed", smell: "earthy" }, "F"),
		"squeeze: one drop, bed 62\u00a0°F, smell: earthy",
	);
});
