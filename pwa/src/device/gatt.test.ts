import assert from "node:assert/strict";
import { test } from "node:test";
import { celsiusTenths, resting, stepOf, weighed } from "./gatt.ts";

const bytes = (hex: string): DataView =>
	new DataView(new Uint8Array(hex.split(" ").map((b) => Number.parseInt(b, 16))).buffer);

test("a scale's bytes are read as the standard lays them out", () => {
	for (const [says, hex, grams] of [
		["1 kg", "00 C8 00", 1000],
		["nothing on it", "00 00 00", 0],
		["70 kg", "00 B0 36", 70_000],
		["with the time of day", "02 B0 36 E7 07 0C 19 0E 1E 2D", 70_000],
		["with time, user and body", "0E C8 00 E7 07 0C 19 0E 1E 2D 03 F5 00 A8 02", 1000],
		["two at once: the last counts", "00 C8 00 00 2A 00", 210],
		["the most that has no sign", "00 FF 7F", 163_835],
	] as const) {
		const got = weighed(bytes(hex));
		assert.ok(typeof got === "object", `${says}: ${String(got)}`);
		assert.equal(got.grams, grams, says);
		assert.equal(got.imperial, false, says);
	}
});

test("pounds are hundredths of the exact pound", () => {
	const got = weighed(bytes("01 54 3D"));
	assert.ok(typeof got === "object");
	assert.equal(got.hundredths, 15_700);
	assert.equal(got.grams.toFixed(5), "71214.00209");
	const long = weighed(bytes("0F 54 3D E7 07 0C 19 0E 1E 2D 03 F5 00 A8 02"));
	assert.ok(typeof long === "object" && long.imperial && long.hundredths === 15_700);
});

test("a reading that is none is refused, and says why", () => {
	for (const [says, hex, why] of [
		["the scale could not measure", "00 FF FF", "failed"],
		["it could not measure in pounds", "01 FF FF", "failed"],
		["5 g less than nothing", "00 FE FF", "negative"],
		["the least with a sign", "00 00 80", "negative"],
		["too short", "00 01", "foreign"],
		["one byte", "00", "foreign"],
		["a time that is cut off", "02 B0 36 E7 07", "foreign"],
		["bytes behind the end", "00 C8 00 07", "foreign"],
		["flags that nobody gave a meaning", "A2 C8 00", "foreign"],
	] as const) {
		assert.equal(weighed(bytes(hex)), why, says);
	}
	assert.equal(weighed(new DataView(new ArrayBuffer(0))), "foreign");
});

test("a scale says how fine it is", () => {
	for (const [says, hex, grams, pounds] of [
		["nothing", "00 00 00 00", 5, 0.01],
		["code 7", "38 00 00 00", 5, 0.01],
		["code 6", "30 00 00 00", 10, 0.02],
		["code 1", "08 00 00 00", 500, 1],
		["code 3 among other features", "1F 01 00 00", 100, 0.2],
		["a code without a meaning", "78 00 00 00", 5, 0.01],
	] as const) {
		assert.deepEqual(stepOf(bytes(hex)), { grams, pounds }, says);
	}
	assert.deepEqual(stepOf(undefined), { grams: 5, pounds: 0.01 });
});

test("a thermometer's bytes are hundredths of a degree", () => {
	for (const [hex, tenths] of [
		["64 08", 215], // 21.48
		["18 FC", -100],
		["05 00", 1], // half away from zero
		["FB FF", -1],
		["00 00", 0],
		["4D 95", -2732],
	] as const) {
		assert.equal(celsiusTenths(bytes(hex)), tenths, hex);
	}
	assert.equal(celsiusTenths(bytes("00 80")), "unknown");
	assert.equal(celsiusTenths(bytes("4C 95")), "foreign", "colder than can be");
	assert.equal(celsiusTenths(bytes("64 08 00")), "foreign", "three bytes");
});

test("a scale is at rest from the last reading that moved it by a step", () => {
	let at = resting(undefined, 300, 5, 0);
	at = resting(at, 380, 5, 200);
	assert.equal(at.since, 200);
	at = resting(at, 384, 5, 600);
	assert.deepEqual(at, { grams: 384, since: 200 });
	at = resting(at, 390, 5, 900);
	assert.equal(at.since, 900);
});
