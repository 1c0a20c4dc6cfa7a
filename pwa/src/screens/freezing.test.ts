import assert from "node:assert/strict";
import { test } from "node:test";
import { freezerView } from "../view-fixtures.ts";
import { itemsOf, jobIntents } from "./doing.ts";
import { kindOf, roomOf, stockOf, takeIntents, takeItems } from "./freezing.ts";

const none = new Set<string>();
const given = { bowlName: "freezer bowl", member: "member/a" };
const { kinds } = freezerView;

test("the oldest comes out first, and no more than there is", () => {
	assert.deepEqual(
		takeItems(kinds, none, 700).map((it) => [it.scrap, it.g, it.frozen]),
		[
			["melon-rind", 640, true],
			["carrot", 60, true],
		],
	);
	const all = takeItems(kinds, none, 5000);
	assert.equal(
		all.reduce((sum, it) => sum + it.g, 0),
		1200,
	);
	assert.equal(all[1]?.cut, true, "what was chopped stays chopped");
	assert.deepEqual(takeItems(kinds, none, 0), []);
});

test("only the picked kinds come out", () => {
	const kale = kinds[2];
	assert.ok(kale);
	const picked = new Set([kindOf(kale)]);
	assert.equal(stockOf(kinds, picked), 150);
	assert.deepEqual(
		takeItems(kinds, picked, 400).map((it) => [it.scrap, it.g]),
		[["kale", 150]],
	);
	assert.equal(stockOf(kinds, none), 1200);
	assert.equal(roomOf(freezerView), 175);
});

test("one tap says where the scraps go and that they left the freezer", () => {
	const items = takeItems(kinds, none, 100);
	const [bowl, out] = takeIntents(items, "bowl", given);
	assert.equal(bowl.do, "bowl");
	assert.deepEqual(bowl.set, { name: "freezer bowl" });
	assert.equal(bowl.items?.[0]?.frozen, true);
	assert.deepEqual(out, { do: "freeze", items: [{ scrap: "melon-rind", g: -100 }] });
	const [feed] = takeIntents(items, { tray: "tray/fern" }, given);
	assert.deepEqual([feed.do, feed.tray, feed.member], ["feed", "tray/fern", "member/a"]);
	assert.equal(takeIntents(items, "waste", given)[0].do, "discard");
});

test("what the catalogue lacks keeps its class and name, the rest only its id", () => {
	assert.deepEqual(
		itemsOf([
			{ scrap: "other", name: "yam skins", class: "root", grams: 20, frozen: true },
			{ scrap: "kale", name: "Kale", class: "leafy", grams: 10, cut: true },
		]),
		[
			{ scrap: "other", g: 20, class: "root", name: "yam skins", frozen: true },
			{ scrap: "kale", g: 10, cut: true },
		],
	);
});

test("a job that one tap can do writes it, and its undo takes only that back", () => {
	const job = { bin: "bin/a", tray: "tray/a", name: "Fern" };
	assert.deepEqual(jobIntents({ ...job, kind: "rest", batch: "batch/a" }), {
		intent: { do: "stage", entity: "batch/a", set: { stage: "resting" } },
		back: { do: "edit", entity: "batch/a", set: { resting: null } },
	});
	assert.deepEqual(
		jobIntents({
			...job,
			kind: "bed-next",
			next: "tray/b",
			items: [{ scrap: "cardboard", name: "Cardboard", grams: 900 }],
		})?.intent,
		{ do: "batch", tray: "tray/b", items: [{ scrap: "cardboard", g: 900 }] },
	);
	assert.equal(jobIntents({ ...job, kind: "rest" }), undefined, "no batch is known");
	assert.equal(jobIntents({ ...job, kind: "bed-next" }), undefined, "no tray stands empty");
	assert.equal(jobIntents({ ...job, kind: "look" }), undefined);
});
