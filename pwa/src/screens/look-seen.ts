// What a look found, as the form holds it, and the entries it becomes. Apart
// from the screen, so that it can be tested.

import { parseAmount, plainNumber, type Temp } from "../format.ts";
import { type Who, whoSays } from "../parts/who.ts";
import type { Intent, Leftovers } from "../types.gen.ts";

/** Figures as they were typed; "" was skipped. */
export type Figure =
	| "temp"
	| "liquid"
	| "fill"
	| "weight"
	| "meter"
	| "ph"
	| "scoop"
	| "adults"
	| "young"
	| "cocoons";

/** What was seen so far; "" and what is missing are skipped. */
export interface Seen {
	left: Record<string, string>; // leftovers by place; "" is the whole tray
	squeeze: string;
	tempOf: "bed" | "room";
	smell: string;
	visitors: string[];
	cover: string;
	note: string;
	typed: Partial<Record<Figure, string>>;
}

export const nothingSeen: Seen = {
	left: {},
	squeeze: "",
	tempOf: "bed",
	smell: "",
	visitors: [],
	cover: "",
	note: "",
	typed: {},
};

/** A kept draft, or undefined if it is none of ours. */
export function readSeen(kept: unknown): Seen | undefined {
	const seen = kept as Partial<Seen> | undefined | null;
	if (typeof seen?.left !== "object" || typeof seen.typed !== "object") return undefined;
	return { ...nothingSeen, ...seen };
}

// Where the stepper begins when the bed was never read: a cellar's warmth.
const USUAL_BED = 160;
const COLDEST = -300; // 0.1 °C, what the log takes
const WARMEST = 700;

const fahrenheit = (deci: number): number => (deci * 9) / 50 + 32;
const deciOf = (degrees: number, temp: Temp): number =>
	Math.round(temp === "C" ? degrees * 10 : ((degrees - 32) * 50) / 9);

/** The next whole degree of the household's unit, up or down, in 0.1 °C. */
export function warmer(deci: number, by: 1 | -1, temp: Temp): number {
	const whole = temp === "C" ? Math.round(deci / 10) : Math.round(fahrenheit(deci));
	return Math.min(WARMEST, Math.max(COLDEST, deciOf(whole + by, temp)));
}

/** A typed decimal with either sign for its point; NaN if it is none. */
export function decimal(typed: string): number {
	const plain = typed.trim().replace("−", "-").replace(",", ".");
	return /^-?(\d+(\.\d*)?|\.\d+)$/.test(plain) ? Number(plain) : Number.NaN;
}

/** Degrees as they stand in the field. */
export const degrees = (deci: number, temp: Temp): string =>
	temp === "C" ? plainNumber(deci / 10, 1) : plainNumber(fahrenheit(deci));

/** The field one degree on; from nothing it begins at what is usual. */
export function stepped(typed: string, by: 1 | -1, temp: Temp): string {
	const at = decimal(typed);
	return degrees(Number.isNaN(at) ? USUAL_BED : warmer(deciOf(at, temp), by, temp), temp);
}

const whole = (most: number) => (typed: string) => {
	const n = decimal(typed);
	return Number.isInteger(n) && n >= 0 && n <= most ? n : Number.NaN;
};
const tenths = (most: number) => (typed: string) => {
	const n = Math.round(decimal(typed) * 10);
	return n >= 0 && n <= most ? n : Number.NaN;
};

/** How each figure is read, in the log's units; NaN is a slip. The bounds only
 * catch slips of the thumb. */
const reads: Record<Figure, (typed: string, temp: Temp, mass: "g" | "oz") => number> = {
	temp: (typed, temp) => {
		const deci = deciOf(decimal(typed), temp);
		return deci >= COLDEST && deci <= WARMEST ? deci : Number.NaN;
	},
	liquid: whole(50_000),
	fill: whole(2_000),
	weight: (typed, _, mass) => parseAmount(typed, mass === "g" ? "kg" : "lb"),
	meter: tenths(1_000),
	ph: tenths(140),
	scoop: whole(5_000),
	adults: whole(10_000),
	young: whole(10_000),
	cocoons: whole(10_000),
};

export interface Units {
	mass: "g" | "oz";
	temp: Temp;
}

/** A figure in the log's units; undefined if it was skipped, NaN if it is a slip. */
export function figure(seen: Seen, of: Figure, units: Units): number | undefined {
	const typed = seen.typed[of] ?? "";
	return typed.trim() === "" ? undefined : reads[of](typed, units.temp, units.mass);
}

/** The first figure that can't be read, "" if all can. */
export function badFigure(seen: Seen, units: Units): Figure | "" {
	for (const of of Object.keys(reads) as Figure[]) {
		const n = figure(seen, of, units);
		if (n !== undefined && Number.isNaN(n)) return of;
	}
	return counted(seen, units) && !figure(seen, "scoop", units) ? "scoop" : "";
}

const counted = (seen: Seen, units: Units): boolean =>
	(["adults", "young", "cocoons"] as const).some((of) => figure(seen, of, units) !== undefined);

/** The entries of one visit: the tray's look, one more for each place whose
 * leftovers were told apart, and the counted scoops. */
export function lookIntents(seen: Seen, tray: string, who: Who, units: Units): Intent[] {
	const by = whoSays(who);
	const n = (of: Figure): number | undefined => figure(seen, of, units);
	const numbers = Object.fromEntries(
		(["temp", "liquid", "fill", "weight", "meter", "ph"] as const).flatMap((of) => {
			const value = n(of);
			return value === undefined ? [] : [[of, value]];
		}),
	);
	const { "": all, ...places } = seen.left;
	const found = {
		...(all ? { leftovers: all as Leftovers } : {}),
		...(seen.squeeze ? { squeeze: seen.squeeze } : {}),
		...numbers,
		...("temp" in numbers ? { tempOf: seen.tempOf } : {}),
		...(seen.smell ? { smell: seen.smell } : {}),
		...(seen.visitors.length > 0 ? { visitors: seen.visitors } : {}),
		...(seen.cover ? { cover: seen.cover } : {}),
		...(seen.note.trim() ? { note: seen.note.trim() } : {}),
	};
	const list: Intent[] = [];
	if (Object.keys(found).length > 0) list.push({ do: "look", tray, ...found, ...by });
	for (const [spot, leftovers] of Object.entries(places)) {
		if (leftovers) list.push({ do: "look", tray, spot, leftovers: leftovers as Leftovers, ...by });
	}
	if (counted(seen, units)) {
		list.push({
			do: "sample",
			tray,
			scoops: SCOOPS,
			ml: n("scoop") ?? 0,
			adults: n("adults") ?? 0,
			young: n("young") ?? 0,
			cocoons: n("cocoons") ?? 0,
			...by,
		});
	}
	return list;
}

// A sample is always of so many scoops, from different places of the tray.
const SCOOPS = 3;
