// What is being weighed: a draft that every key changes, as plain values and
// pure steps. The screen keeps the draft at every step and shows it.

import { keyedFigure, type Mass, parseAmount } from "../format.ts";
import { type Who, whoSays } from "../parts/who.ts";
import type { How, Intent, Item, WeighView } from "../types.gen.ts";

export type Mode = "keypad" | "scale" | "vessel" | "unweighed";
export type Unit = "g" | "kg" | "oz" | "lb";

/** One layer of the bowl, the newest last. */
export interface Part {
	scrap: string;
	name: string;
	class: string;
	group: string;
	grams: number; // 0 when not weighed
	how: Mode;
	cut: boolean;
	frozen: boolean;
	/** parts of one tap are one row and one layer, and go out together */
	tap: number;
	/** what that row is called */
	label: string;
}

/** What a layer is of, before it has a weight. */
export interface Pick {
	scrap: string; // "usual" is the household's usual mix
	name: string;
	class: string;
	group: string;
}

export interface Draft {
	mode: Mode;
	parts: Part[];
	typed: string;
	unit: Unit;
	tare: number; // g of the empty bowl, 0 when the scale is zeroed each time
	pick: Pick | undefined;
	cut: boolean;
	frozen: boolean;
	vessel: string; // id
	quarters: number;
	name: string; // the bowl's
	who: Who;
	/** its size looked like a slip and was confirmed */
	meant?: boolean;
}

/** The most entries an amount holds (the log's own limit). */
export const MOST_PARTS = 24;
const LONGEST = 7; // keys of one figure

export const freshDraft = (mass: Mass, who: Who, name: string): Draft => ({
	mode: "keypad",
	parts: [],
	typed: "",
	unit: mass === "oz" ? "oz" : "g",
	tare: 0,
	pick: undefined,
	cut: false,
	frozen: false,
	vessel: "",
	quarters: 4,
	name,
	who,
});

/** A draft as it was kept, or nothing if it is none: an older version's, say. */
export function readDraft(kept: unknown): Draft | undefined {
	const d = kept as Draft | undefined;
	const sound =
		typeof d === "object" &&
		d !== null &&
		Array.isArray(d.parts) &&
		typeof d.typed === "string" &&
		typeof d.who === "object" &&
		typeof d.quarters === "number" &&
		typeof d.tare === "number";
	return sound ? d : undefined;
}

export const total = (d: Draft): number => d.parts.reduce((sum, p) => sum + p.grams, 0);
export const someUnweighed = (d: Draft): boolean => d.parts.some((p) => p.how === "unweighed");

/** Presses a figure, the point, or "rub". */
export function press(d: Draft, key: string): Draft {
	if (key === "rub") return { ...d, typed: d.typed.slice(0, -1) };
	if (key === "." && (d.typed.includes(".") || d.unit === "g")) return d;
	if (d.typed.length >= LONGEST) return d;
	const typed = d.typed === "0" && key !== "." ? key : d.typed + key;
	return { ...d, typed: typed === "." ? "0." : typed };
}

/** What the figure on the keypad says, g; NaN when nothing was typed. */
export const reading = (d: Draft): number =>
	parseAmount(keyedFigure(d.typed.replace(/\.$/, "")), d.unit);

/** The scrap's own weight: with a tare the scale shows bowl, what is in it and
 * the new scrap; without one it was zeroed. */
export function net(d: Draft): number {
	return d.tare > 0 ? reading(d) - d.tare - total(d) : reading(d);
}

/** Takes the figure as the weight of the empty bowl; pressed again without a
 * figure, forgets it. */
export function tare(d: Draft): Draft {
	const grams = reading(d);
	return { ...d, tare: Number.isNaN(grams) ? 0 : grams, typed: "" };
}

/** Grams that Add would put in, NaN when there is nothing to add. */
export function addable(d: Draft, view: WeighView): number {
	if (d.mode === "unweighed") return 0;
	if (d.mode === "keypad" || d.mode === "scale") {
		const grams = net(d);
		return grams > 0 ? grams : Number.NaN;
	}
	const vessel = view.vessels.find((v) => v.id === d.vessel) ?? view.vessels[0];
	return vessel ? Math.round((vessel.grams * d.quarters) / 4) : Number.NaN;
}

/** Puts the picked scrap in. The usual mix becomes its scraps in proportion;
 * what rounding leaves over goes to the first. */
export function add(d: Draft, view: WeighView): Draft {
	const grams = addable(d, view);
	if (!d.pick || Number.isNaN(grams)) return d;
	const tap = (d.parts.at(-1)?.tap ?? 0) + 1;
	const base = { how: d.mode, cut: d.cut, frozen: d.frozen, tap, label: d.pick.name };
	const picks = d.pick.scrap === "usual" ? mixed(view, grams) : [{ ...d.pick, grams }];
	const parts = [...d.parts, ...picks.map((p) => ({ ...p, ...base }))];
	return parts.length > MOST_PARTS ? d : { ...d, parts, typed: "", quarters: 4 };
}

// The usual mix may name two dozen scraps; the biggest are told apart and the
// rest is written as mixed kitchen scraps, so that a bowl holds several mixes.
const MOST_OF_MIX = 6;
const REST = "kitchen-mixed";

function mixed(view: WeighView, grams: number): (Pick & { grams: number })[] {
	const by = new Map<string, Pick & { grams: number }>();
	for (const i of view.usual) {
		const known = by.get(i.scrap);
		const pick = {
			scrap: i.scrap,
			name: i.name,
			class: i.class ?? "",
			group: groupOf(view, i.scrap),
		};
		by.set(i.scrap, { ...pick, grams: (known?.grams ?? 0) + i.grams });
	}
	const sorted = [...by.values()].sort((a, b) => b.grams - a.grams);
	const kept = sorted.slice(0, MOST_OF_MIX);
	const rest = sorted.slice(MOST_OF_MIX).reduce((sum, p) => sum + p.grams, 0);
	if (rest > 0) {
		const held = kept.find((p) => p.scrap === REST);
		if (held) held.grams += rest;
		else kept.push({ scrap: REST, name: "", class: "", group: groupOf(view, REST), grams: rest });
	}
	const of = kept.reduce((sum, p) => sum + p.grams, 0);
	const shares = kept.map((p) => ({
		...p,
		grams: of > 0 ? Math.floor((p.grams * grams) / of) : 0,
	}));
	const first = shares[0];
	if (first) first.grams += grams - shares.reduce((sum, p) => sum + p.grams, 0);
	return grams > 0 ? shares.filter((p) => p.grams > 0) : shares;
}

/** The bowl's rows, the newest first: what one tap put in is one row. */
export function rows(
	d: Draft,
): { tap: number; label: string; grams: number; how: Mode; of: string }[] {
	const out: ReturnType<typeof rows> = [];
	for (const p of d.parts) {
		const last = out.at(-1);
		if (last?.tap === p.tap) last.grams += p.grams;
		else
			out.push({ tap: p.tap, label: p.label, grams: p.grams, how: p.how, of: p.class || p.group });
	}
	return out.reverse();
}

export const groupOf = (view: WeighView, scrap: string): string =>
	view.scraps.find((s) => s.id === scrap)?.group ?? "other";

/** Takes the last tap's layers out again, or rubs out the figure first. */
export function undo(d: Draft): Draft {
	if (d.typed !== "") return { ...d, typed: "" };
	const last = d.parts.at(-1)?.tap;
	return takeOut(d, last);
}

/** Without one of its rows a bowl is of another size, which nobody confirmed. */
export const takeOut = (d: Draft, tap: number | undefined): Draft => ({
	...d,
	parts: d.parts.filter((p) => p.tap !== tap),
	meant: false,
});

/** How far the whole amount can be trusted: as far as its least sure part. */
export function howOf(d: Draft): How {
	if (someUnweighed(d)) return "unweighed";
	return d.parts.some((p) => p.how === "vessel") ? "vessel" : "scale";
}

export const itemsOf = (d: Draft): Item[] =>
	d.parts.map((p) => ({
		scrap: p.scrap,
		g: p.grams,
		...(p.scrap === "other" ? { class: p.class, name: p.name } : {}),
		...(p.cut ? { cut: true } : {}),
		...(p.frozen ? { frozen: true } : {}),
	}));

export function bowlIntent(d: Draft): Intent {
	return {
		do: "bowl",
		items: itemsOf(d),
		how: howOf(d),
		...(d.vessel && howOf(d) === "vessel" ? { vessel: d.vessel } : {}),
		...(d.name.trim() ? { set: { name: d.name.trim() } } : {}),
		...whoSays(d.who),
	};
}

export const freezeIntent = (d: Draft): Intent => ({
	do: "freeze",
	items: itemsOf(d),
	how: howOf(d),
});

export function feedIntent(d: Draft, tray: string): Intent {
	return {
		do: "feed",
		tray,
		items: itemsOf(d),
		how: howOf(d),
		...(d.vessel && howOf(d) === "vessel" ? { vessel: d.vessel } : {}),
		...(d.meant ? { sure: true } : {}),
		...whoSays(d.who),
	};
}
