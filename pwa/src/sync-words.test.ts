import assert from "node:assert/strict";
import { test } from "node:test";
import { clockTime } from "./format.ts";
import { arriving, sentences, type Told } from "./sync-words.ts";

const now = Date.UTC(2026, 10, 25, 18, 52);
const told = (part: Partial<Told>): Told => ({
	sync: { waiting: 0, heard: now, fetched: 0, state: "idle" },
	waiting: 0,
	pictures: 0,
	refused: 0,
	...part,
});

test("everything shared is said only after the household was heard", () => {
	assert.equal(sentences(told({}), now)[0], "Everything shared");
	const never = sentences(told({ sync: { waiting: 0, heard: 0, fetched: 0, state: "idle" } }), now);
	assert.deepEqual(never, ["Nothing waits on this phone", "not heard from the household yet"]);
});

test("pictures that wait are counted apart, and nothing is called shared meanwhile", () => {
	const at = (waiting: number, pictures: number) =>
		sentences(told({ waiting, pictures }), now).slice(0, -1);
	assert.deepEqual(at(0, 1), ["1 picture waits on this phone"]);
	assert.deepEqual(at(2, 3), ["2 entries wait on this phone", "3 pictures wait on this phone"]);
});

test("a pull under way is counted, and nothing is called shared or heard meanwhile", () => {
	const sync = { waiting: 0, heard: now, fetched: 3000, state: "busy" } as const;
	assert.deepEqual(sentences(told({ sync }), now), [
		"Nothing waits on this phone",
		"fetching what the household wrote, 3000 so far",
	]);
});

test("a first pull is arriving until all was heard; trouble of the exchange ends the wait", () => {
	const at = (heard: number, state: "busy" | "idle" | "offline" | "problem") =>
		arriving(told({ sync: { waiting: 0, heard, fetched: 0, state } }));
	assert.deepEqual(
		[at(0, "busy"), at(0, "idle"), at(0, "offline"), at(0, "problem"), at(now, "busy")],
		[true, true, true, false, false],
	);
});

test("what waits is counted, one and many", () => {
	assert.equal(sentences(told({ waiting: 1 }), now)[0], "1 entry waits on this phone");
	assert.equal(sentences(told({ waiting: 2 }), now)[0], "2 entries wait on this phone");
});

test("trouble comes first, with its reason where it is known", () => {
	for (const [state, detail, words] of [
		["offline", "", "No connection"],
		["offline", "certificate", "The server's certificate is not valid"],
		["portal", "", "This network wants a sign-in first"],
		["auth", "", "The server does not take this phone's key"],
		["problem", "server 507", "The exchange has trouble: the server has trouble of its own 507"],
		["problem", "unheard-of", "The exchange has trouble"],
	] as const) {
		const said = sentences(
			told({ sync: { waiting: 0, heard: now, fetched: 0, state, detail } }),
			now,
		);
		assert.equal(said[0], words);
	}
});

test("entries that were not accepted are never left out", () => {
	assert.ok(sentences(told({ refused: 2 }), now).includes("2 entries not accepted"));
});

test("a time of another day carries its date", () => {
	assert.match(clockTime(now - 3 * 24 * 60 * 60 * 1000, now), /^22 Nov \d\d:\d\d$/);
	assert.match(clockTime(now, now), /^\d\d:\d\d$/);
});
