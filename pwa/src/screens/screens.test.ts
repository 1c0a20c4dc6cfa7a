import assert from "node:assert/strict";
import { test } from "node:test";
import { bowl, fern, todayView, trayView, weighView } from "../gallery/fixtures.ts";
import { lookWords } from "../words.ts";
import { lookIntent, warmer } from "./look.ts";
import { evenSplit, splitLeft, splitSteps } from "./split.ts";
import { joined } from "./timeline.ts";
import { mendIntent, mendingOf, scaled } from "./timeline-edit.ts";
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

test("a look says only what was seen", () => {
	assert.deepEqual(lookIntent({ leftovers: "", squeeze: "", temp: 0, smell: "" }, fern.id, who), {
		do: "look",
		tray: fern.id,
		temp: 0,
		tempOf: "bed",
		member: who.member,
	});
});

test("a day cut in two by paging is joined and repeats nothing", () => {
	const entry = (entity: string) => ({ entity, kind: "look", at: "", names: [] });
	const days = joined(
		[{ day: "2026-11-25", entries: [entry("a"), entry("b")] }],
		[
			{ day: "2026-11-25", entries: [entry("b"), entry("c")] },
			{ day: "2026-11-24", entries: [entry("d")] },
		],
	);
	assert.deepEqual(
		days.map((d) => d.entries.map((e) => e.entity).join("")),
		["abc", "d"],
	);
});

test("an edit writes only what was changed, and its items sum to the new weight", () => {
	const feed = trayView.feeds[0];
	assert.ok(feed);
	const entry = { entity: feed.id, kind: "feeding", at: feed.at, names: [], feed };
	const m = mendingOf(entry, trayView.members, "g");
	assert.deepEqual(
		mendIntent(entry, { ...m, who: { member: "member/odell", guest: "" } }, "g")?.set,
		{ member: "member/odell", guest: "" },
	);
	assert.equal(mendIntent(entry, { ...m, typed: "a lot" }, "g"), undefined);
	assert.equal(mendIntent(entry, { ...m, typed: "-5" }, "g"), undefined);
	assert.deepEqual(
		mendIntent(entry, { ...m, who: { member: "", guest: " " } }, "g")?.set,
		{ member: "", guest: "a guest" }, // nobody's name must not become the phone's owner
	);
	assert.equal(
		scaled(feed.items, 91).reduce((sum, i) => sum + i.g, 0),
		91,
	);
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
