import assert from "node:assert/strict";
import { test } from "node:test";
import { BluetoothFault, type Scale, type ScaleDoes } from "../device/bluetooth.ts";
import type { Weighed } from "../device/gatt.ts";
import type { ScrapView } from "../types.gen.ts";
import { weighView } from "../view-fixtures.ts";
import { choices, ruleIntent } from "./food-rule.ts";
import * as adding from "./weigh-add.ts";
import * as bowls from "./weigh-bowl.ts";
import { figure, ScaleReader } from "./weigh-scale.ts";
import { vesselForm, vesselIntent } from "./weigh-vessel.ts";
import { handfulIntent } from "./weigh-with.ts";

const metric = (grams: number): Weighed => ({ grams, imperial: false, hundredths: 0 });

test("a scale's weight is typed as the household reads weights", () => {
	const pounds: Weighed = { grams: 712.14, imperial: true, hundredths: 157 };
	for (const [says, is, mass, typed, unit] of [
		["grams in grams", metric(385), "g", "385", "g"],
		["pounds in grams", pounds, "g", "712", "g"],
		["pounds in pounds", pounds, "oz", "1.57", "lb"],
		["grams in ounces", metric(385), "oz", "13.6", "oz"],
		["nothing", metric(0), "g", "0", "g"],
	] as const) {
		assert.deepEqual(figure(is, mass), { typed, unit }, says);
	}
});

/** A scale that shows what the test says. */
function fakeScale() {
	let does: ScaleDoes | undefined;
	const closed: boolean[] = [];
	const stood: number[] = [];
	const connect = async (d: ScaleDoes): Promise<Scale> => {
		does = d;
		return {
			name: "Scale",
			step: { grams: 5, pounds: 0.01 },
			close: () => closed.push(true),
		};
	};
	const host = { addController() {}, requestUpdate() {} };
	const reader = new ScaleReader(host, (is) => stood.push(is.grams), connect);
	return {
		reader,
		stood,
		closed,
		shows: (is: Parameters<ScaleDoes["reading"]>[0]) => does?.reading(is),
	};
}

test("only a weight at rest is handed on, and once", async (t) => {
	t.mock.timers.enable({ apis: ["setTimeout"] });
	let now = 0;
	t.mock.method(performance, "now", () => now);
	const pass = (ms: number): void => {
		now += ms;
		t.mock.timers.tick(ms);
	};
	const { reader, stood, shows } = fakeScale();
	await reader.choose();
	shows(metric(120));
	pass(600);
	shows(metric(300));
	pass(600);
	assert.deepEqual(stood, [], "it still moves");
	shows(metric(300));
	pass(700);
	assert.deepEqual(stood, [300]);
	shows(metric(300));
	pass(5000);
	assert.deepEqual(stood, [300], "the same weight is not handed on again");
	shows("negative");
	pass(5000);
	shows("failed");
	pass(5000);
	assert.deepEqual(stood, [300], "what is no weight is not handed on");
});

test("leaving the screen lets the scale go", async (t) => {
	t.mock.timers.enable({ apis: ["setTimeout"] });
	const { reader, stood, closed, shows } = fakeScale();
	await reader.choose();
	shows(metric(120));
	reader.hostDisconnected();
	t.mock.timers.tick(5000);
	assert.deepEqual(closed, [true]);
	assert.deepEqual(stood, []);
});

test("a connection that fails leaves the keypad as it is", async () => {
	const host = { addController() {}, requestUpdate() {} };
	for (const why of ["cancelled", "forbidden", "foreign", "lost"] as const) {
		const reader = new ScaleReader(
			host,
			() => assert.fail("nothing was weighed"),
			() => Promise.reject(new BluetoothFault(why, undefined)),
		);
		await reader.choose();
		reader.row("g");
	}
});

test("a vessel is kept with a name and a weight, or not at all", () => {
	const form = vesselForm();
	for (const [says, name, typed, mass, grams] of [
		["grams", "mug", "230", "g", 230],
		["ounces", "mug", "8.1", "oz", 230],
		["no name", " ", "230", "g", 0],
		["no weight", "mug", "", "g", 0],
		["nothing in it", "mug", "0", "g", 0],
		["a word", "mug", "much", "g", 0],
	] as const) {
		const got = vesselIntent({ ...form, name, typed }, mass);
		if (grams === 0) assert.ok("fault" in got && got.fault, says);
		else assert.deepEqual(got, { intent: { do: "vessel", set: { name, grams } } }, says);
	}
	const again = vesselForm({ id: "vessel/1", name: "mug", grams: 200 });
	const got = vesselIntent({ ...again, typed: "230" }, "g");
	assert.ok(
		"intent" in got && got.intent.entity === "vessel/1",
		"weighed again, it stays the same",
	);
});

test("a handful is a tenth of ten", () => {
	const form = { bedding: "newsprint", typed: "184", fault: "" };
	assert.deepEqual(handfulIntent(form, "g"), {
		intent: { do: "household", set: { handful: 18, handfulOf: "newsprint" } },
		grams: 18,
	});
	for (const typed of ["", "0", "4", "-3", "lots"]) {
		assert.ok("fault" in handfulIntent({ ...form, typed }, "g"), typed);
	}
});

const scrap = (verdict: string, guides?: string): ScrapView => ({
	id: "bread",
	name: "Bread",
	group: "starch",
	class: "starch",
	verdict,
	reasons: [],
	prep: [],
	...(guides ? { house: { rule: "rule/1", guides } } : {}),
});

test("a house rule offers what is stricter than the guides, never what is milder", () => {
	assert.deepEqual(choices(scrap("good")), ["good", "little", "avoid", "never"]);
	assert.deepEqual(choices(scrap("avoid")), ["avoid", "never"]);
	assert.deepEqual(choices(scrap("never")), ["never"]);
	assert.deepEqual(choices(scrap("never", "little")), ["little", "avoid", "never"]);
});

test("a rule is made, changed, and taken back", () => {
	assert.deepEqual(ruleIntent(scrap("little"), "never", " rats "), {
		do: "rule",
		scrap: "bread",
		verdict: "never",
		note: "rats",
	});
	assert.equal(ruleIntent(scrap("never", "little"), "avoid", "").entity, "rule/1");
	assert.deepEqual(ruleIntent(scrap("never", "little"), "little", ""), {
		do: "undo",
		entity: "rule/1",
	});
});

const keyed = (keys: string, over: Partial<bowls.Draft> = {}): bowls.Draft => ({
	...bowls.freshDraft("g", { member: "member/tamsin", guest: "" }, "bowl"),
	pick: { scrap: "carrot", name: "Carrot", class: "root", group: "vegetable" },
	typed: keys,
	...over,
});

test("an amount that may be a slip is asked about at Add, and taken when it is pressed again", () => {
	for (const [says, d, tray, asks] of [
		["a usual amount", keyed("320"), "", ""],
		["what the limit just allows", keyed("2000"), "", ""],
		["more than that", keyed("2001"), "", "Yes, 2,001 g"],
		["what the tray's own limit allows", keyed("2001"), "tray/fern", ""],
		["a resting tray's, by the household's", keyed("2001"), "tray/slate", "Yes, 2,001 g"],
		["kilograms typed for grams", keyed("320", { unit: "kg" }), "", "refused"],
	] as const) {
		const not = adding.whyNot(d, weighView, tray, []);
		assert.equal(not?.amount === true, asks !== "", says);
		assert.equal(not?.ask === undefined, asks === "" || asks === "refused", says);
		if (!not?.ask) continue;
		assert.equal(adding.whyNot(d, weighView, tray, [not.ask]), undefined, says);
		assert.equal(
			adding.addWord(d, weighView, tray, [not.ask]).replaceAll("\u00a0", " "),
			asks,
			says,
		);
		assert.equal(adding.added(d, weighView, tray, [not.ask]).meant, true, says);
	}
});

test("another figure is asked about anew, and a confirmed bowl by what comes to it", () => {
	const first = keyed("2500");
	const meant = [adding.whyNot(first, weighView, "", [])?.ask ?? ""];
	assert.ok(adding.whyNot(keyed("3500"), weighView, "", meant)?.ask, "another figure");
	const bowl = { ...adding.added(first, weighView, "", meant), typed: "300" };
	assert.equal(adding.whyNot(bowl, weighView, "", []), undefined, "a little more");
	assert.ok(adding.whyNot({ ...bowl, typed: "2600" }, weighView, "", [])?.ask, "as much again");
	assert.equal(bowls.feedIntent(bowl, "tray/fern").sure, true);
	const less = bowls.takeOut(bowl, 1);
	assert.equal(bowls.feedIntent(less, "tray/fern").sure, undefined, "what was confirmed is gone");
});

test("many small amounts that make a slip together are asked about too", () => {
	const bowl = adding.added(keyed("1900"), weighView, "", []);
	assert.equal(bowl.meant, false);
	assert.ok(adding.whyNot({ ...bowl, typed: "200" }, weighView, "", [])?.amount);
});
