import assert from "node:assert/strict";
import { test } from "node:test";
import { fern } from "../view-fixtures.ts";
import { lookWords } from "../words.ts";
import {
	badFigure,
	decimal,
	lookIntents,
	nothingSeen,
	readSeen,
	stepped,
	warmer,
} from "./look-seen.ts";

const who = { member: "member/tamsin", guest: "" };

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

test("a look says on the timeline all that it found", () => {
	assert.equal(lookWords({ leftovers: "some" }, "C"), "some left");
	assert.equal(
		lookWords({ squeeze: "one-drop", temp: 168, tempOf: "bed", smell: "earthy" }, "F"),
		"squeeze: one drop, bed 62\u00a0°F, smell: earthy",
	);
});
