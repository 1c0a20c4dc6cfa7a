import assert from "node:assert/strict";
import { test } from "node:test";
import type { CardBin, CardDay, CardView, LabelsView, Sheet } from "../types.gen.ts";
import { quarterWords, typedTemp } from "./card-editor.ts";
import { emptyRow, intentsOf, isEmpty, usualRow, withVessel } from "./card-rows.ts";
import {
	cardsOf,
	firstForm,
	labelCount,
	labelsOf,
	shownMeasure,
	typedNumber,
	typedSheet,
} from "./labels-form.ts";

const a4: Sheet = {
	name: "a4-3x7",
	pageW: 210_000,
	pageH: 297_000,
	columns: 3,
	rows: 7,
	left: 7_250,
	top: 15_150,
	pitchX: 66_000,
	pitchY: 38_100,
	cellW: 63_500,
	cellH: 38_100,
	margin: 2_000,
	edge: 5_000,
};

const labels: LabelsView = {
	bins: [
		{
			id: "bin/1",
			name: "Cellar",
			width: 400,
			depth: 400,
			height: 140,
			trays: [
				{ id: "tray/1", name: "Fern", code: "00018HWZF" },
				{ id: "tray/2", name: "Slate" },
			],
		},
	],
	sheets: [a4],
	mass: "g",
	temp: "C",
	vessels: [{ id: "vessel/1", name: "mug", grams: 230 }],
};

test("numbers are read as people type them", () => {
	assert.equal(typedNumber(" 7,25 "), 7.25);
	assert.equal(typedNumber("−1.5"), -1.5);
	for (const wrong of ["", "seven", "1.2.3", "1e3", "--2"]) {
		assert.ok(Number.isNaN(typedNumber(wrong)), wrong);
	}
});

test("measures of one's own change the preset, and a typing slip is named", () => {
	const own = { cellW: "62,5", columns: "2" };
	const form = { ...firstForm, own };
	assert.deepEqual(typedSheet(form, a4), { ...a4, cellW: 62_500, columns: 2 });
	assert.equal(shownMeasure(form, a4, "cellW"), "62,5");
	assert.equal(shownMeasure(form, a4, "pitchX"), "66");
	assert.equal(typedSheet({ ...firstForm, own: { rows: "2.5" } }, a4), "rows");
	assert.equal(typedSheet({ ...firstForm, own: { top: "high" } }, a4), "top");
});

test("labels are those of the trays that are in, each for two faces", () => {
	const form = { ...firstForm, blank: 3 };
	assert.equal(labelCount(form, labels), 10);
	assert.equal(labelCount({ ...form, out: ["tray/1"], copies: 1 }, labels), 4);
	assert.deepEqual(labelsOf(form, labels), [{ code: "00018HWZF", tray: "Fern", bin: "Cellar" }]);
	assert.deepEqual(labelsOf({ ...form, out: ["tray/1"] }, labels), []);
	assert.deepEqual(cardsOf(labels)?.[0]?.vessels, [{ name: "mug", amount: "230\u00a0g" }]);
});

const bin: CardBin = {
	id: "bin/1",
	name: "Cellar",
	usual: 230,
	vessel: "vessel/1",
	called: "mug",
	vessels: 4,
	trays: [
		{ id: "tray/2", name: "Moss" },
		{ id: "tray/1", name: "Fern" },
	],
	days: [],
};
const view: CardView = {
	day: "2026-11-25",
	mass: "g",
	temp: "C",
	bins: [bin],
	members: [],
	vessels: labels.vessels,
	scrap: "kitchen-mixed",
};
const day: CardDay = { day: "2026-11-20", tray: "tray/1", name: "Fern", feeds: 0, grams: 0 };
const ana = { member: "member/ana", guest: "" };

test("a usual meal of a past day is one feeding by vessel, at its noon", () => {
	const [fed, ...more] = intentsOf(usualRow(bin, ana), day, bin, view);
	assert.equal(more.length, 0);
	assert.deepEqual(
		{ ...fed, at: fed?.at?.slice(0, 16) },
		{
			do: "feed",
			bin: "bin/1",
			tray: "tray/1",
			day: "2026-11-20",
			member: "member/ana",
			at: "2026-11-20T12:00",
			items: [{ scrap: "kitchen-mixed", g: 230 }],
			how: "vessel",
			vessel: "vessel/1",
		},
	);
});

test("what was seen comes before the meal, and a vague day says so", () => {
	const row = { ...usualRow(bin, ana), left: "some", temp: 185, about: true, sure: true };
	const [look, fed] = intentsOf(row, { ...day, day: view.day }, bin, view);
	assert.equal(look?.do, "look");
	assert.equal(look?.leftovers, "some");
	assert.equal(look?.temp, 185);
	assert.equal(look?.at, undefined, "today's entries are of now");
	assert.equal(fed?.about, true);
	assert.equal(fed?.inBin, true);
});

test("a row goes to the tray that took food that day, unless another was picked", () => {
	const row = { ...usualRow(bin, ana), left: "some" };
	for (const [picked, want] of [
		["", "tray/1"],
		["tray/2", "tray/2"],
	] as const) {
		const trays = intentsOf({ ...row, tray: picked }, day, bin, view).map((i) => i.tray);
		assert.deepEqual(trays, [want, want]);
	}
	const { tray: _, ...older } = row;
	const [look] = intentsOf(older as typeof row, day, bin, view);
	assert.equal(look?.tray, "tray/1", "a draft of an older app");
});

test("a row of a look alone feeds nothing, and an empty one is none", () => {
	const row = { ...emptyRow(ana), left: "none" };
	assert.deepEqual(
		intentsOf(row, day, bin, view).map((i) => i.do),
		["look"],
	);
	assert.ok(isEmpty(emptyRow(ana)));
	assert.ok(!isEmpty(row));
});

test("vessels are counted in halves and written as people do", () => {
	const row = withVessel(emptyRow(ana), view, "vessel/1", 6);
	assert.equal(row.grams, 345);
	assert.deepEqual([0, 1, 2, 4, 6, 11].map(quarterWords), ["0", "¼", "½", "1", "1½", "2¾"]);
	assert.equal(withVessel(row, view, "vessel/1", -2).vessel, "");
});

test("a bed's warmth is read in the household's unit", () => {
	assert.equal(typedTemp("18,5", "C"), 185);
	assert.equal(typedTemp("68", "F"), 200);
	assert.equal(typedTemp(" ", "C"), null);
	assert.ok(Number.isNaN(typedTemp("warm", "C")));
});
