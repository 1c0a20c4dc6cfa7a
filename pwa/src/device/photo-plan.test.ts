import assert from "node:assert/strict";
import { test } from "node:test";
import { NEWEST, planAway, planHome } from "./photo-plan.ts";
import type { PhotoRow } from "./photo-store.ts";

const DAY = 24 * 60 * 60_000;
const row = (hash: string, more: Partial<PhotoRow> = {}): PhotoRow => ({
	hash,
	at: 0,
	shared: 0,
	refused: "",
	...more,
});
const none = new Set<string>();

test("a copy goes as soon as the record says that the picture is gone", () => {
	const named = { live: ["a"], gone: ["b"] };
	assert.deepEqual(planHome(named, [row("a"), row("b")], none, 1).drop, ["b"]);
});

test("a picture whose entry was never saved goes after a day", () => {
	const named = { live: [], gone: [] };
	assert.deepEqual(planHome(named, [row("a")], none, DAY).drop, []);
	assert.deepEqual(planHome(named, [row("a")], none, DAY + 1).drop, ["a"]);
});

for (const [name, named, kept, seen, want] of [
	["nothing is to do", { live: ["a"], gone: [] }, [row("a", { shared: 1 })], [], false],
	["a picture was taken", { live: ["a"], gone: [] }, [row("a")], [], true],
	["the server has refused it", { live: ["a"], gone: [] }, [row("a", { refused: "x" })], [], false],
	["its entry is not saved yet", { live: [], gone: [] }, [row("a")], [], false],
	["one was removed", { live: [], gone: ["a"] }, [], [], true],
	["the server is known to have let it go", { live: [], gone: ["a"] }, [], ["a"], false],
	["somebody else took one", { live: ["a"], gone: [] }, [], [], true],
] as [string, { live: string[]; gone: string[] }, PhotoRow[], string[], boolean][]) {
	test(`the server is ${want ? "asked" : "left alone"} when ${name}`, () => {
		assert.equal(planHome(named, kept, new Set(seen), 1).ask, want);
	});
}

test("what the server lacks is sent, what it has too much is removed, what is new is fetched", () => {
	const named = { live: ["mine", "theirs", "both"], gone: ["gone", "long-gone"] };
	const kept = [row("mine"), row("both"), row("draft")];
	assert.deepEqual(planAway(named, kept, ["theirs", "both", "gone", "unheard-of"], true), {
		put: ["mine"],
		remove: ["gone"],
		fetch: ["theirs"],
		shared: ["both"],
	});
});

test("a server put back from an old copy gets again what it once had", () => {
	const plan = planAway({ live: ["a"], gone: [] }, [row("a", { shared: 1 })], [], true);
	assert.deepEqual(plan.put, ["a"]);
});

test("a phone that may only look fetches and does nothing else", () => {
	const named = { live: ["a", "b"], gone: ["c"] };
	assert.deepEqual(planAway(named, [row("a")], ["b", "c"], false), {
		put: [],
		remove: [],
		fetch: ["b"],
		shared: [],
	});
});

test("only the newest pictures are fetched before anybody looks at them", () => {
	const live = Array.from({ length: NEWEST + 5 }, (_, i) => `photo-${i}`);
	const plan = planAway({ live, gone: [] }, [], live, true);
	assert.deepEqual(plan.fetch, live.slice(0, NEWEST));
	const here = live.slice(0, NEWEST).map((hash) => row(hash, { shared: 1 }));
	assert.equal(planHome({ live, gone: [] }, here, none, 1).ask, false);
});
