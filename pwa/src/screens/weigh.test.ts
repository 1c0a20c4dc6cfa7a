import assert from "node:assert/strict";
import { test } from "node:test";
import { BluetoothFault, type Scale, type ScaleDoes } from "../device/bluetooth.ts";
import type { Weighed } from "../device/gatt.ts";
import type { ScrapView } from "../types.gen.ts";
import { choices, ruleIntent } from "./food-rule.ts";
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
