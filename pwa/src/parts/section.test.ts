import assert from "node:assert/strict";
import { test } from "node:test";
import type { TierView } from "../types.gen.ts";
import { fern, trayTall } from "../view-fixtures.ts";
import { between, randFrom } from "./rand.ts";
import { LARGE_TEXT, placeTiers, planSection } from "./section.ts";
import { labelsOf, type SectionLook, sectionLines } from "./section-words.ts";
import { tierHeight } from "./stack.ts";
import { change } from "./tiers.ts";

const look: SectionLook = {
	bin: "bin/cellar",
	open: "tray/fern",
	guess: false,
	meal: { grams: 175, spot: "back-left" },
	today: "2026-11-25",
	mass: "g",
	temp: "C",
	liquid: (base) => `${base.liquidML} ml`,
};

/** Some stack of up to six trays. */
function stack(seed: string): TierView[] {
	const rand = randFrom(seed);
	const whole = (low: number, high: number): number => Math.round(between(rand, low, high));
	return Array.from({ length: 1 + Math.floor(rand() * 6) }, (_, i) => ({
		...fern,
		id: `tray/${i}`,
		name: `Tray ${i}`,
		takes: i === 0,
		widthMM: whole(200, 600),
		heightMM: whole(60, 300),
		beddingMM: whole(0, 120),
		castingsMM: whole(0, 120),
		worms: { mid: whole(0, 2000), low: 0, high: 2500 },
	}));
}
const stacks = Array.from({ length: 300 }, (_, i) => stack(`stack ${i}`));
const frames = [288, 358, 512].flatMap((width) => [1, 1.2, 2].map((text) => ({ width, text })));

test("every stack fits its frame, and no tray stands in another", () => {
	for (const trays of stacks) {
		for (const frame of frames) {
			const plan = planSection(trays, frame, look, undefined);
			let below = 0;
			for (const [i, tier] of trays.entries()) {
				const rim = plan.rims[i] ?? Number.NaN;
				assert.ok(rim > below, `tray ${i} of ${trays.length} begins at ${rim}, above ${below}`);
				below = rim + tierHeight(tier, plan.scale * plan.rise);
				const right = plan.left + tier.widthMM * plan.scale;
				assert.ok(right < (frame.text < LARGE_TEXT ? plan.labels : frame.width));
			}
			assert.ok(below < plan.height);
		}
	}
});

test("widths and heights are to scale, heights as many times larger as it says", () => {
	for (const trays of stacks) {
		const plan = planSection(trays, { width: 358, text: 1 }, look, undefined);
		for (const p of placeTiers(trays, look, plan)) {
			assert.ok(Math.abs(p.width / p.tier.widthMM - plan.scale) < 1e-9);
			const height = (p.floor - p.rim) / p.tier.heightMM;
			assert.ok(Math.abs(height - plan.scale * plan.rise) < 1e-9);
		}
		assert.ok([1, 1.5, 2].includes(plan.rise));
	}
	const one = planSection([fern], { width: 358, text: 1 }, look, undefined);
	assert.equal(one.rise, 2, "a usual bin is drawn at twice its height");
});

/** All strokes of a section as one text. */
function strokes(trays: TierView[], seed: string, width = 358): string {
	const given = { ...look, bin: seed };
	const plan = planSection(trays, { width, text: 1 }, given, undefined);
	const flat = (value: unknown): string =>
		Array.isArray(value)
			? value.map(flat).join("")
			: value && typeof value === "object" && "values" in value
				? (value.values as unknown[]).map(flat).join("")
				: String(value);
	return placeTiers(trays, given, plan)
		.map((p) => flat(p.drawn.drawing))
		.join("");
}

test("a bin is drawn the same on every visit, and another bin differently", () => {
	assert.equal(strokes(trayTall.stack, "bin/a"), strokes(trayTall.stack, "bin/a"));
	assert.notEqual(strokes(trayTall.stack, "bin/a"), strokes(trayTall.stack, "bin/b"));
	assert.ok(strokes(trayTall.stack, "bin/a").length > 5000);
});

test("even a bed of a hand's breadth shows its bedding, castings and worms", () => {
	for (let i = 0; i < 60; i++) {
		const tier = { ...fern, takes: false, scraps: [], beddingMM: 20 + i, castingsMM: 8 + (i % 20) };
		const plan = planSection([tier], { width: 288, text: 1 }, look, undefined);
		const [p] = placeTiers([tier], { ...look, bin: `bin/${i}` }, plan);
		assert.ok(p?.drawn.anchors.worms && p.drawn.anchors.bedding && p.drawn.anchors.castings);
		const bedding = strokes([tier], `bin/${i}`, 288).match(/Q/g) ?? [];
		assert.ok(
			bedding.length > 12,
			`${tier.beddingMM} mm of bedding have ${bedding.length} strokes`,
		);
	}
});

test("the labels name what the drawing shows, the figures of the worms first", () => {
	const labels = labelsOf(fern, look);
	assert.deepEqual(
		labels.map((label) => label.of),
		["worms", "bedding", "feeding/a", "feeding/b", "castings"],
	);
	const says = (of: string): string => {
		const label = labels.find((l) => l.of === of);
		return `${label?.words} | ${label?.detail}`.replaceAll("\u00a0", " ");
	};
	assert.equal(says("worms"), "worms 740 g | 610 g to 900 g");
	assert.equal(says("bedding"), "bed 16 °C | Mon");
	assert.equal(says("feeding/a"), "scraps, Sun | 115 g left");
	const rank = (of: string): number => labels.find((l) => l.of === of)?.rank ?? 0;
	assert.ok(rank("feeding/b") > rank("castings"), "the oldest scraps give way first");
});

test("cocoons of the last count are drawn, labelled and told, and move nothing else", () => {
	const counted: TierView = { ...fern, cocoons: { count: 12, day: "2026-11-20" } };
	const draw = (tier: TierView) => {
		const plan = planSection([tier], { width: 358, text: 1 }, look, undefined);
		return placeTiers([tier], look, plan)[0]?.drawn.anchors;
	};
	const [without, having] = [draw(fern), draw(counted)];
	assert.ok(having?.cocoons, "they are drawn");
	assert.equal(without?.cocoons, undefined);
	const { cocoons: _, ...others } = having;
	assert.deepEqual(others, without);
	assert.ok(labelsOf(counted, look).some((label) => label.of === "cocoons"));
	assert.match(
		sectionLines([counted], undefined, look)[0] ?? "",
		/Cocoons counted on Friday: 12\./,
	);
});

test("in words the section says tray, meal and place, worms, scraps, readings, liquid", () => {
	const [top, middle, low, base] = sectionLines(trayTall.stack, trayTall.base, look).map((line) =>
		line.replaceAll("\u00a0", " "),
	);
	for (const part of [
		/^Fern, feeding, day 41\./,
		/175 g today, back left/,
		/82 mm of bedding on 28 mm of castings/,
		/740 g, 610 to 900/,
		/115 g left of Sunday's scraps, back right/,
		/Bed 16 °C on Monday/,
		/Squeezed on Monday: a few/,
	]) {
		assert.match(top ?? "", part);
	}
	assert.doesNotMatch(middle ?? "", /Takes food/);
	assert.match(low ?? "", /runs/);
	assert.match(base ?? "", /1500 ml/);
});

test("a new feeding drops in, changed leftovers fade, other trays don't move", () => {
	const [tier] = trayTall.stack;
	assert.ok(tier);
	const meal = { feeding: "feeding/new", day: look.today, fed: 175, left: 175 };
	assert.equal(change([tier], [{ ...tier, scraps: [...tier.scraps, meal] }]), "fed");
	const less = tier.scraps.map((p) => ({ ...p, left: p.left / 2 }));
	assert.equal(change([tier], [{ ...tier, scraps: less }]), "looked");
	assert.equal(change([tier], [{ ...tier }]), "");
	assert.equal(change([tier], [{ ...tier, id: "tray/other", scraps: [meal] }]), "");
});
