import assert from "node:assert/strict";
import { test } from "node:test";
import { weighView } from "../view-fixtures.ts";
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
