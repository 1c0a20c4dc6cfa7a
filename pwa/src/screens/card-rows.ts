// What stands on one row of a paper card, and the entries that it becomes.

import { instant } from "../device/clock.ts";
import { type Who, whoSays } from "../parts/who.ts";
import type { CardBin, CardDay, CardView, Intent, Leftovers } from "../types.gen.ts";

export interface Row {
	who: Who;
	/** g; 0 for no meal. */
	grams: number;
	/** Vessel it was measured with, "" for none. */
	vessel: string;
	/** How many of it, in quarters. */
	quarters: number;
	/** Weighed, and typed so. */
	weighed: boolean;
	left: string;
	/** Where the meal went, "" for the tray that took food that day. */
	tray: string;
	/** 0.1 °C; null when nobody read it. */
	temp: number | null;
	/** The day is only about right. */
	about: boolean;
	/** "It was so", said after a doubt. */
	sure: boolean;
}

/** Rows by day. */
export type Rows = Record<string, Row>;

export const emptyRow = (who: Who): Row => ({
	who,
	grams: 0,
	vessel: "",
	quarters: 0,
	weighed: false,
	left: "",
	tray: "",
	temp: null,
	about: false,
	sure: false,
});

/** The row of a usual meal. */
export const usualRow = (bin: CardBin, who: Who): Row => ({
	...emptyRow(who),
	grams: bin.usual,
	vessel: bin.vessel ?? "",
	quarters: bin.vessels ?? 0,
});

/** So many quarters of a vessel. */
export function withVessel(row: Row, view: CardView, vessel: string, quarters: number): Row {
	const size = view.vessels.find((v) => v.id === vessel)?.grams ?? 0;
	const some = Math.max(0, quarters);
	return {
		...row,
		vessel: some > 0 ? vessel : "",
		quarters: some,
		grams: Math.round((size * some) / 4),
		weighed: false,
		sure: false,
	};
}

export const isEmpty = (row: Row): boolean =>
	row.grams === 0 && row.left === "" && row.temp === null;

/** The row's entries in the order they happened: what was seen, then the meal.
 * Whoever wrote the card looked before feeding. A past day's entries are put at
 * its noon, because a card knows no hours. */
export function intentsOf(row: Row, day: CardDay, bin: CardBin, view: CardView): Intent[] {
	const past = day.day !== view.day;
	const at = (clock: string): { at?: string } =>
		past ? { at: instant(new Date(`${day.day}T${clock}`).getTime()) } : {};
	// A draft of an older app names no tray.
	const common = { bin: bin.id, tray: row.tray || day.tray, day: day.day, ...whoSays(row.who) };
	const intents: Intent[] = [];
	if (row.left !== "" || row.temp !== null) {
		intents.push({
			do: "look",
			...common,
			...at("11:59:00"),
			...(row.left ? { leftovers: row.left as Leftovers } : {}),
			...(row.temp === null ? {} : { temp: row.temp, tempOf: "bed" }),
		});
	}
	if (row.grams > 0) {
		intents.push({
			do: "feed",
			...common,
			...at("12:00:00"),
			items: [{ scrap: view.scrap, g: row.grams }],
			how: row.weighed ? "scale" : "vessel",
			...(row.vessel ? { vessel: row.vessel } : {}),
			...(row.about ? { about: true } : {}),
			...(row.sure ? { inBin: true } : {}),
		});
	}
	return intents;
}
