import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { forgetGlances, glanceAt, keepGlance } from "./glance.ts";
import { ages } from "./parts/screen.ts";
import { glanceWords } from "./screens/tray-says.ts";
import { trayView } from "./view-fixtures.ts";

const kept = new Map<string, string>();
const storage = {
	getItem: (key: string) => kept.get(key) ?? null,
	setItem: (key: string, value: string) => void kept.set(key, value),
	removeItem: (key: string) => void kept.delete(key),
};
beforeEach(() => {
	kept.clear();
	Object.assign(globalThis, { localStorage: storage });
});

const noon = Date.UTC(2026, 10, 25, 12);
const held = (name: string) => ({
	shape: "",
	says: { name },
	onDay: {},
	later: {},
	at: noon,
	zone: "",
});

test("a glance is found under every way to write its code, and only there", () => {
	keepGlance("FERN-2345", held("Fern"));
	keepGlance("MOSS6789", held("Moss"));
	for (const arg of ["FERN-2345", "fern2345", "FERN 2345"]) {
		assert.equal(glanceAt(arg)?.says.name, "Fern", arg);
	}
	assert.equal(glanceAt("tray/fern"), undefined);
	keepGlance("fern2345", undefined);
	assert.equal(glanceAt("FERN-2345"), undefined, "forgotten");
	assert.equal(glanceAt("MOSS6789")?.says.name, "Moss", "the other one stays");
	forgetGlances();
	assert.equal(kept.size, 0);
});

test("words of another language are not shown", () => {
	keepGlance("FERN-2345", held("Fern"));
	for (const [key, value] of kept)
		kept.set(key, value.replace(/"spoken":"1 en /, '"spoken":"1 es '));
	assert.equal(glanceAt("FERN-2345"), undefined);
	for (const [key, value] of kept) kept.set(key, value.replace('"1 es ', '"0 en '));
	assert.equal(glanceAt("FERN-2345"), undefined, "nor what another version has kept");
});

test("storage that is full, forbidden or holds nonsense costs the glance only", () => {
	const refuses = () => {
		throw new Error("forbidden");
	};
	kept.set("trayside-glance", "no JSON");
	assert.equal(glanceAt("FERN-2345"), undefined);
	Object.assign(globalThis, {
		localStorage: { getItem: refuses, setItem: refuses, removeItem: refuses },
	});
	assert.equal(glanceAt("FERN-2345"), undefined);
	keepGlance("FERN-2345", held("Fern"));
	forgetGlances();
});

test("a ration's glance says the amount, how it is known and how old it is", () => {
	const view = trayView;
	const words = glanceWords(view, noon);
	const { ration } = view;
	assert.ok(words && ration);
	assert.equal(words.says.value, String(ration.grams));
	assert.equal(words.says.unit, "g");
	assert.equal(words.says.name, view.name);
	assert.match(words.shape, /\bbig\b.*\bold\b/);
	assert.match(words.says.likely ?? "", /between/);
	assert.equal(words.says.hold, undefined);
	assert.equal(words.onDay.age, ages(noon).onDay);
	assert.match(words.later.age ?? "", /25 November.*today's is being worked out/);
	const guess = glanceWords({ ...view, ration: { ...ration, sure: "guess" } }, noon);
	assert.equal(guess?.says.question, "?", "a guess looks like one");
});

test("what was fed is said on its own day only", () => {
	const view = trayView;
	assert.ok(view.ration);
	const words = glanceWords({ ...view, ration: { ...view.ration, feeds: 100 } }, noon);
	assert.match(words?.onDay.fed ?? "", /100.*already fed today/);
	assert.equal(words?.later.fed, undefined);
	assert.equal(words?.says.fed, undefined);
});

test("a tray that takes nothing shows what to do instead, and no amount", () => {
	const view = trayView;
	assert.ok(view.ration);
	const words = glanceWords(
		{ ...view, ration: { ...view.ration, grams: 0, answer: "cover" } },
		noon,
	);
	assert.equal(words?.says.hold, "Cover and wait");
	assert.equal(words?.says.value, undefined);
	const { ration: _none, ...without } = view;
	assert.equal(glanceWords(without, noon), undefined);
});
