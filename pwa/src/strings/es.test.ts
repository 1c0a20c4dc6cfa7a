// Spanish is whole: the same keys as English, a word of its own for each, and no
// English left in a sentence. What the types can't see (tables by code, what
// functions answer) is called and compared here.

import assert from "node:assert/strict";
import { test } from "node:test";
import { text as english } from "../strings.ts";
import { spanish } from "./es.ts";

/** What is the same in both languages, by the reason. */
const reasons: Record<string, string[]> = {
	"the app's name": ["app.name", "app.title"],
	"the same word": ["tray.unloggedAnswers.no"],
	"a unit": [
		"bins.areaUnits.g",
		"bins.lengthUnits.g",
		"section.mm",
		"timeline.ph",
		"timeline.volumeOf",
		"troubleUnits.%",
		"troubleUnits.ml",
		"troubleUnits.mm",
		"troubleUnits.s",
		"labels.option",
	],
	"names and amounts side by side": [
		"bins.areaOf",
		"bins.measures",
		"card.times",
		"card.vessel",
		"food.savedRule",
		"freezer.layer",
		"harvest.at",
		"harvest.line",
		"household.phoneOf",
		"look.placeOf",
		"section.tray",
		"taught.by",
		"today.toTray",
		"tray.manyVessels",
		"tray.subPlain",
		"trouble.at",
		"weigh.with.handfuls",
	],
};
const alike = Object.values(reasons).flat();

/** What a function answers for values that say where they went. */
function answers(of: (...given: never[]) => unknown): string[] {
	const tries: unknown[][] = [
		["‹1›", "‹2›", "‹3›", "‹4›", "‹5›"],
		[1, "‹2›", "‹3›"],
		[2, 3, 4],
		[7_200_000],
		["‹1›", true, "‹3›"],
		["", "", ""],
		[{ from: "‹1›", to: "‹2›", day: "‹3›" }],
		[{ from: "", to: "", day: "" }],
		[["‹1›", "‹2›"]],
	];
	return tries.flatMap((given) => {
		try {
			return [JSON.stringify((of as (...g: unknown[]) => unknown)(...given))];
		} catch {
			return []; // not for values of this kind
		}
	});
}

/** Every sentence of a language by its key; a function's answers in one. */
function sentencesOf(words: unknown, at: string, into = new Map<string, string>()) {
	if (typeof words === "string") into.set(at, words);
	else if (typeof words === "function") {
		into.set(at, answers(words as () => unknown).join("\n"));
	} else {
		for (const [key, inner] of Object.entries(words as object)) {
			sentencesOf(inner, at ? `${at}.${key}` : key, into);
		}
	}
	return into;
}

const [en, es] = [sentencesOf(english, ""), sentencesOf(spanish, "")];

test("Spanish has the keys of English, no fewer and no more", () => {
	assert.deepEqual([...es.keys()].sort(), [...en.keys()].sort());
});

test("every sentence differs from the English one, but for those with a reason", () => {
	const letters = (sentence: string | undefined) =>
		(sentence ?? "").replace(/‹\d›/g, "").match(/\p{L}{2,}/gu);
	const same = [...en]
		.filter(([key, sentence]) => letters(sentence) && sentence === es.get(key))
		.map(([key]) => key)
		.filter((key) => !alike.includes(key));
	assert.deepEqual(same, []);
});

test("what is allowed to be alike is there, and is alike", () => {
	for (const key of alike) {
		assert.ok(en.has(key) && en.get(key) === es.get(key), `${key} differs: take it out`);
	}
});

test("whatever English puts into a sentence, Spanish puts in too", () => {
	const given = (sentence: string) => new Set(sentence.match(/‹\d›/g));
	for (const [key, sentence] of en) {
		if (key.startsWith("problems.")) continue; // the server's own sentence is English
		assert.deepEqual([...given(es.get(key) ?? "")].sort(), [...given(sentence)].sort(), key);
	}
});

const ENGLISH =
	/\b(the|and|of|with|is|are|was|to|for|this|that|from|not|it|you|your|what|which|day|days|entry|entries|worm|worms|tray|bin|bowl|feed|fed|save|saved|look|undo|phone|household|today|more)\b/iu;

test("no English word is left in a Spanish sentence", () => {
	for (const [key, sentence] of es) {
		const found = ENGLISH.exec(sentence);
		assert.equal(found?.[0], undefined, `${key}: ${sentence}`);
	}
});
