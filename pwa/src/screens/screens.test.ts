import assert from "node:assert/strict";
import { test } from "node:test";
import { bowl, fern, todayView, trayView } from "../view-fixtures.ts";
import { mealOn, offsetAt } from "./catch-up.ts";
import { askIntent, fedIntent, freezeIntent, muchGrams } from "./feeder.ts";
import { simple } from "./simple.ts";
import { evenSplit, splitLeft, splitSteps } from "./split.ts";
import { moved } from "./taught-rows.ts";
import { chosenFirst } from "./tray-bowl.ts";
import { mayMiss } from "./tray-doubt.ts";
import { bowlDefault, mealGrams, mealIntent } from "./tray-feed.ts";

const who = { member: "member/tamsin", guest: "" };

const missed = {
	bin: "bin/cellar",
	name: "Cellar",
	tray: fern.id,
	into: "Fern",
	days: 8,
	usual: 140,
	items: [
		{ scrap: "kale", name: "Kale", grams: 90 },
		{ scrap: "other", name: "Quince", class: "soft-fruit", grams: 50 },
	],
	week: [],
};

test("a bowl goes in whole when it fits, and never freezes what another tray is to get", () => {
	assert.equal(bowlDefault({ ...bowl, grams: 150 }, "tray/fern", 175), "all");
	assert.equal(bowlDefault(bowl, "tray/fern", 175), "part");
	assert.equal(bowlDefault(bowl, "tray/fern", 0), "none");
	const alone = { ...bowl, split: bowl.split.filter((s) => s.tray !== "tray/moss") };
	assert.equal(bowlDefault(alone, "tray/fern", 175), "freeze-rest");
});

test("no more goes in from a bowl than it holds", () => {
	assert.equal(mealGrams("part", bowl, 900), 640);
	assert.equal(mealGrams("all", bowl, 50), 640);
	assert.equal(mealGrams("none", bowl, 50), 50);
});

test("one tap writes the ration down as advised; a moved dial is an estimate", () => {
	const meal = { view: trayView, bowl: undefined, choice: "none" as const, spot: "back-left", who };
	assert.equal(mealIntent({ ...meal, dialled: 175 }).how, "as-advised");
	assert.equal(mealIntent({ ...meal, dialled: 200 }).how, "unweighed");
});

test("the shares of a placed bowl sum to what leaves it", () => {
	const intent = mealIntent({
		view: trayView,
		bowl,
		choice: "freeze-rest",
		dialled: 175,
		spot: "",
		who,
	});
	assert.deepEqual(intent.shares, [
		{ to: "tray", grams: 175, tray: "tray/fern" },
		{ to: "freezer", grams: 465 },
	]);
});

test("a split by hand begins with the drawing and tells what stays", () => {
	const shares = evenSplit(bowl, todayView.bins);
	assert.equal(splitLeft(bowl.grams, shares), 0);
	assert.deepEqual(
		splitSteps(shares).map((s) => s.grams),
		[175, 50, 415],
	);
	assert.equal(splitLeft(600, shares), -40);
});

test("an unchanged figure is no change, and worms move only by more than a grain", () => {
	const taught = {
		known: true,
		tray: fern.id,
		name: "Fern",
		mass: "g",
		temp: "C",
		today: "2026-11-25",
		ration: { before: 200, after: 175 },
		worms: { before: 741, after: 738 },
		lying: { before: 90, after: 90 },
	};
	assert.deepEqual(
		moved(taught).map((r) => r.code),
		["ration"],
	);
});

test("a meal caught up on lies at noon of its day and says that it is only about right", () => {
	const intent = mealOn(missed, "2026-11-24", who, "+01:00");
	assert.equal(intent.at, "2026-11-24T12:00:00+01:00");
	assert.equal(intent.day, "2026-11-24");
	assert.equal(intent.about, true);
	assert.equal(intent.how, "unweighed");
	assert.deepEqual(intent.items, [
		{ scrap: "kale", g: 90 },
		{ scrap: "other", g: 50, class: "soft-fruit", name: "Quince" },
	]);
	assert.match(offsetAt(Date.UTC(2026, 10, 24)), /^[+-]\d\d:\d\d$/);
});

test("a child's meal is taken whatever the advice, and only the advised one says so", () => {
	const bin = todayView.bins[0];
	assert.ok(bin);
	const told = { bin, bowl: undefined, who };
	assert.equal(fedIntent({ ...told, much: "about" }).how, "as-advised");
	const more = fedIntent({ ...told, much: "more" });
	assert.equal(more.how, "unweighed");
	assert.equal(more.items?.[0]?.g, 2 * bin.ration.grams);
	assert.equal(more.inBin, true);
	assert.equal(muchGrams("about", 0), 150, "a mug where nothing is advised");
	assert.deepEqual(fedIntent({ ...told, much: "more", bowl }).shares?.[0]?.grams, 350);
	assert.equal(freezeIntent({ ...told, much: "about", bowl }).shares?.[0]?.to, "freezer");
	assert.equal(freezeIntent({ ...told, much: "about" }).do, "freeze");
	assert.deepEqual(askIntent(who, "Wren asks").items, [{ scrap: "kitchen-mixed", g: 0 }]);
});

test("the simple screen is for children who feed, unless the phone says otherwise", () => {
	const members = [
		{ id: "member/wren", name: "Wren", child: true },
		{ id: "member/ada", name: "Ada" },
	];
	const me = (member: string, role: "keeper" | "feeder" | "viewer") => ({
		member,
		role,
		device: "",
	});
	assert.equal(simple(me("member/wren", "feeder"), members, "child"), true);
	assert.equal(simple(me("member/wren", "keeper"), members, "child"), false);
	assert.equal(simple(me("member/ada", "feeder"), members, "child"), false);
	assert.equal(simple(me("member/ada", "feeder"), members, "on"), true);
	assert.equal(simple(me("member/wren", "feeder"), members, "off"), false);
	assert.equal(simple(me("member/wren", "viewer"), members, "on"), false, "who may only look");
});

test("of several waiting bowls the chosen one is in front", () => {
	const other = { ...bowl, id: "bowl/other" };
	const view = { ...trayView, bowls: [bowl, other] };
	assert.equal(chosenFirst(view, "bowl/other").bowls[0], other);
	assert.equal(chosenFirst(view, "bowl/gone"), view);
	assert.equal(chosenFirst(view, undefined), view);
});

test("a ration says that it may miss a feeding once the household was not heard for long", () => {
	const now = Date.UTC(2026, 10, 25, 12);
	const hour = 3_600_000;
	const miss = (heard: number, remembered = false) =>
		mayMiss({ remembered, heard, now }, "2026-11-25");
	assert.equal(miss(now - hour), "");
	assert.notEqual(miss(now - hour, true), "", "a remembered view is old by itself");
	assert.match(miss(now - 4 * hour), /last heard/);
	assert.match(miss(now - 60 * hour), / on .* at /);
	assert.match(miss(0), /not heard/);
});
