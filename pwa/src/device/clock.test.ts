import assert from "node:assert/strict";
import { test } from "node:test";
import { Clock, dayIn, instant } from "./clock.ts";

const MINUTE = 60_000;

test("the server's time is believed, half a trip later", () => {
	const clock = new Clock(() => 10_000);
	clock.learn(500_000, 10_000, 10_200);
	assert.equal(clock.now(), 10_000 + (500_000 - 10_100));
});

test("the quickest answer counts, a slow one after it does not", () => {
	const clock = new Clock(() => 0);
	clock.learn(1_000, 0, 100);
	clock.learn(9_000, 0, 16_000);
	assert.equal(clock.now(), 950);
});

test("a phone's clock that was set meanwhile is noticed even by a slow answer", () => {
	let local = 0;
	const clock = new Clock(() => local);
	clock.learn(0, 0, 10);
	local = -60 * MINUTE;
	clock.learn(1_000, local, local + 2_000);
	assert.equal(clock.now(), local + 60 * MINUTE);
});

test("a clock is wrong from two minutes on, ahead or behind", () => {
	for (const [local, server, want] of [
		[0, MINUTE, 0],
		[0, 3 * MINUTE, -3 * MINUTE],
		[3 * MINUTE, 0, 3 * MINUTE],
	] as const) {
		const clock = new Clock(() => local);
		clock.learn(server, local, local);
		assert.equal(clock.wrong(0), want);
	}
});

test("without a server a clock before the newest time seen is behind, and moves no day", () => {
	const clock = new Clock(() => 0);
	assert.equal(clock.wrong(10 * MINUTE), -10 * MINUTE);
	assert.equal(clock.wrong(MINUTE), 0);
	assert.equal(clock.now(), 0);
});

test("the day is the household's, whatever the phone's zone", () => {
	const late = Date.UTC(2026, 10, 25, 23, 30);
	assert.equal(dayIn("Europe/Vienna", late), "2026-11-26");
	assert.equal(dayIn("America/New_York", late), "2026-11-25");
	// Samoa skipped the whole of 30 December 2011 (IANA tz database, Pacific/Apia).
	assert.equal(dayIn("Pacific/Apia", Date.UTC(2011, 11, 30, 9, 59)), "2011-12-29");
	assert.equal(dayIn("Pacific/Apia", Date.UTC(2011, 11, 30, 10, 0)), "2011-12-31");
});

test("an unknown zone falls back to the phone's own", () => {
	assert.match(dayIn("Nowhere/At-All", 0), /^\d{4}-\d\d-\d\d$/);
});

test("an instant carries the phone's offset and means the same moment", () => {
	const ms = Date.UTC(2026, 10, 25, 12, 34, 56);
	const written = instant(ms);
	assert.match(written, /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d$/);
	assert.equal(Date.parse(written), ms);
});
