import assert from "node:assert/strict";
import { test } from "node:test";
import * as format from "./format.ts";

const plain = (s: string): string => s.replaceAll("\u00a0", " ");

test("pounds and ounces are split after rounding, so 16.0 oz never appears", () => {
	const rows: [number, string][] = [
		[453, "1 lb 0 oz"],
		[907, "2 lb 0 oz"],
		[2267, "5 lb 0 oz"],
		[28, "1 oz"],
		[175, "6.2 oz"],
		[0, "0 oz"],
		[1, "<0.1 oz"],
		[-482, "−1 lb 1 oz"],
	];
	for (const [grams, want] of rows) assert.equal(plain(format.weight(grams, "oz")), want);
});

test("grams stay whole up to ten kilograms", () => {
	assert.equal(plain(format.weight(175, "g")), "175 g");
	assert.match(plain(format.weight(1250, "g")), /^1,?250 g$/);
	assert.equal(plain(format.weight(12_340, "g")), "12.3 kg");
	assert.equal(plain(format.weight(-40, "g")), "−40 g");
});

test("a worked-out mass is rounded as coarsely as its range is wide", () => {
	const rows: [number, number, number, number][] = [
		[425, 258, 699, 425],
		[258, 258, 699, 250],
		[699, 258, 699, 700],
		[167, 167, 498, 175],
		[740, 610, 900, 740],
		[86, 86, 165, 85],
		[27, 0, 54, 25],
		[7, 6, 9, 7],
		[0, 0, 0, 0],
		[4321, 2000, 9000, 4250],
		[60_123, 0, 100_000, 60_000],
	];
	for (const [grams, low, high, want] of rows)
		assert.equal(format.rough(grams, { low, high }, "g"), want, `${grams} of ${low} to ${high}`);
	assert.equal(
		plain(format.weight(format.rough(425, { low: 258, high: 699 }, "oz"), "oz")),
		"15 oz",
	);
	assert.equal(plain(format.roughTemperature(137, "C")), "14 °C");
});

test("a scrap's short name drops only what stands behind a comma or in brackets", () => {
	const rows: [string, string][] = [
		["Potato peel, raw", "Potato peel"],
		["Melon rind (cantaloupe, honeydew)", "Melon rind"],
		["Mixed vegetable trimmings", "Mixed vegetable trimmings"],
		["", ""],
	];
	for (const [name, want] of rows) assert.equal(format.shortName(name), want);
});

test("halves are rounded away from zero, and zero has no sign", () => {
	assert.equal(format.round(2.5), 3);
	assert.equal(format.round(-2.5), -3);
	assert.ok(Object.is(format.round(-0.2), 0));
});

test("temperatures agree with the fixed points of both scales", () => {
	const rows: [number, string, string][] = [
		[0, "0 °C", "32 °F"],
		[-400, "−40 °C", "−40 °F"],
		[370, "37 °C", "99 °F"],
		[165, "16.5 °C", "62 °F"],
	];
	for (const [deci, c, f] of rows) {
		assert.equal(plain(format.temperature(deci, "C")), c);
		assert.equal(plain(format.temperature(deci, "F")), f);
	}
});

test("an amount is read with a comma or a point, and never guessed at", () => {
	assert.equal(format.parseAmount("175", "g"), 175);
	assert.equal(format.parseAmount("1,5", "kg"), 1500);
	assert.equal(format.parseAmount(".5", "kg"), 500);
	assert.equal(format.parseAmount("1", "lb"), 454);
	assert.equal(format.parseAmount("6.2", "oz"), 176);
	for (const bad of ["", "1,500", "-5", "12 g", "1.2.3", "abc"]) {
		assert.ok(Number.isNaN(format.parseAmount(bad, "g")), `${bad} was read as a number`);
	}
});

test("where the comma is the decimal sign, the point may mean thousands", () => {
	assert.equal(format.parseAmount("1,500", "kg", ","), 1500);
	assert.equal(format.parseAmount("1,5", "kg", ","), 1500);
	assert.equal(format.parseAmount("1.5", "kg", ","), 1500);
	assert.ok(Number.isNaN(format.parseAmount("1.500", "g", ",")));
});

test("a number stands in a field as it may be typed again", () => {
	assert.equal(format.parseAmount(format.plainNumber(1500), "g"), 1500);
	assert.equal(format.parseAmount(format.plainNumber(6.25, 2), "oz"), 177);
});

test("whole grams survive being shown and typed again in 0.05 oz or finer", () => {
	for (let grams = 1; grams < 3000; grams++) {
		const ounces = (grams / 28.349523125).toFixed(2);
		assert.equal(format.parseAmount(ounces, "oz"), grams);
	}
});

test("days are named as people do, across a change of clocks and of year", () => {
	assert.equal(format.daysBetween("2026-10-24", "2026-10-26"), 2);
	assert.equal(format.dayPlus("2026-12-31", 1), "2027-01-01");
	assert.equal(format.dayName("2026-11-28", "2026-11-25"), "Saturday");
	assert.match(format.dayName("2026-12-03", "2026-11-25"), /December/);
	assert.match(format.dayName("2027-01-03", "2026-11-25"), /2027/);
});

test("the clock is shown as it was written, whatever zone the phone is in", () => {
	assert.match(format.clock("2026-11-25T08:40:00+09:00"), /8:40/);
	assert.equal(format.clock("2026-11-25"), "");
});
