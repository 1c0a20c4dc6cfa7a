// What a keeper says of a bin, as the forms hold it, and the entries it becomes.
// Apart from the screens, so that it can be tested.

import { GRAMS_PER_OUNCE, type Mass, parseAmount, plainNumber, type Temp } from "../format.ts";
import { text } from "../strings.ts";
import type { BinSheet, Intent, Item, SheetTray } from "../types.gen.ts";
import { decimal, degrees } from "./look-seen.ts";

/** A part of a form that a fault is told of. */
export type Fault =
	| "name"
	| "species"
	| "tray"
	| "size"
	| "area"
	| "bedding"
	| "amount"
	| "day"
	| "room"
	| "roomTurned"
	| "every";

/** How an amount of worms is known. */
export type AmountBy = "weighed" | "about" | "counted";

export interface Worms {
	by: AmountBy;
	amount: string;
	day: string;
}

export interface Size {
	byArea: boolean;
	length: string;
	width: string;
	area: string;
	height: string;
}

/** The first form, as it is kept; every figure as it was typed. */
export interface SetUp {
	name: string;
	species: string;
	trays: string[]; // names, from the bottom up
	size: Size;
	beddings: string[]; // catalogue ids, none for an empty tray
	bedding: string; // "" is our own reckoning
	wormsIn: boolean;
	worms: Worms;
	coolest: string;
	warmest: string;
	started: string;
}

const MM_PER_INCH = 25.4; // exactly (international yard and pound agreement, 1959)
const SMALLEST = 50; // mm, what the app takes of a tray
const LARGEST = 2000;

// A tray of the usual size, mm; the same that a plan takes.
export const TRAY_HIGH = 150;
const USUAL = { length: 400, width: 400, height: TRAY_HIGH };

export const mmPer = (mass: Mass): number => (mass === "oz" ? MM_PER_INCH : 10);

/** A length as it stands in a field. */
export const lengthTyped = (mm: number, mass: Mass): string => plainNumber(mm / mmPer(mass), 1);

/** A tray's inside in words: "40 × 40 × 15 cm". */
export function measures(
	inside: { width: number; depth: number; height: number },
	mass: Mass,
): string {
	const typed = (mm: number): string => lengthTyped(mm, mass);
	const unit = text.bins.lengthUnits[mass] ?? "";
	return text.bins.measures(typed(inside.width), typed(inside.depth), typed(inside.height), unit);
}

/** A surface as it stands in words: cm², or square inches. */
export const areaShown = (mm2: number, mass: Mass): number =>
	Math.round(mm2 / mmPer(mass) ** 2 / 10) * 10;

export const sizeOf = (
	tray: { width: number; depth: number; height: number } | undefined,
	mass: Mass,
): Size => ({
	byArea: false,
	length: lengthTyped(tray?.width ?? USUAL.length, mass),
	width: lengthTyped(tray?.depth ?? USUAL.width, mass),
	area: "",
	height: lengthTyped(tray?.height ?? USUAL.height, mass),
});

export const firstSetUp = (view: BinSheet, trayName: string): SetUp => ({
	name: "",
	species: "not-sure",
	trays: [trayName],
	size: sizeOf(undefined, view.mass as Mass),
	beddings: ["cardboard"],
	bedding: "",
	wormsIn: false,
	worms: { by: "weighed", amount: "", day: view.day },
	coolest: "",
	warmest: "",
	started: view.day,
});

/** The inside of a tray in mm, or what can't be read. */
export function sidesOf(
	size: Size,
	mass: Mass,
): { width: number; depth: number; height: number } | "size" | "area" {
	const mm = (typed: string): number => Math.round(decimal(typed) * mmPer(mass));
	const fits = (n: number): boolean => n >= SMALLEST && n <= LARGEST;
	const height = mm(size.height);
	if (size.byArea) {
		const side = Math.round(Math.sqrt(decimal(size.area)) * mmPer(mass));
		return fits(side) && fits(height) ? { width: side, depth: side, height } : "area";
	}
	const [width, depth] = [mm(size.length), mm(size.width)];
	return [width, depth, height].every(fits) ? { width, depth, height } : "size";
}

/** What new bedding of that inside takes, by our own reckoning: g and ml. */
export function freshBedding(
	inside: { width: number; depth: number },
	fresh: BinSheet["fresh"],
): { grams: number; water: number } {
	const m2 = (inside.width * inside.depth) / 1e6;
	const tens = (n: number): number => Math.max(10, Math.round((n * m2) / 10) * 10);
	return { grams: tens(fresh.gramsPerM2), water: tens(fresh.waterPerM2) };
}

/** Bedding of several kinds that weighs `grams` in all. */
export function beddingItems(kinds: string[], grams: number): Item[] {
	const each = Math.floor(grams / Math.max(1, kinds.length));
	return kinds.map((scrap, i) => ({
		scrap,
		g: i === 0 ? grams - each * (kinds.length - 1) : each,
	}));
}

/** g of what was typed in the household's unit; NaN if it is no amount. */
export const gramsTyped = (typed: string, mass: Mass): number =>
	parseAmount(typed, mass === "oz" ? "oz" : "g");

export const massTyped = (grams: number, mass: Mass): string =>
	mass === "oz" ? plainNumber(grams / GRAMS_PER_OUNCE, 1) : plainNumber(grams);

/** g that counted worms of a species come to. */
export const countedGrams = (count: number, species: string, view: BinSheet): number =>
	Math.round((count * eachMG(species, view)) / 1000);

export const eachMG = (species: string, view: BinSheet): number =>
	view.sizes.find((s) => s.species === species)?.mg ?? view.sizes[0]?.mg ?? 0;

/** What an amount of worms says: g, and whether it is a guess. */
export function wormsTyped(
	worms: Worms,
	species: string,
	view: BinSheet,
): { mass: number; wide: boolean } | "amount" | "day" {
	if (!worms.day || worms.day > view.day) return "day";
	const count = decimal(worms.amount);
	const mass =
		worms.by === "counted"
			? Number.isInteger(count)
				? countedGrams(count, species, view)
				: Number.NaN
			: gramsTyped(worms.amount, view.mass as Mass);
	// A hundred kilograms is a farm's: a slip of the key.
	if (!(mass > 0 && mass < 100_000)) return "amount";
	return { mass, wide: worms.by !== "weighed" };
}

/** The room's two months in 0.1 °C; undefined where nobody said. */
export function roomTyped(
	coolest: string,
	warmest: string,
	temp: Temp,
): { coolest: number; warmest: number } | undefined | "room" | "roomTurned" {
	if (coolest.trim() === "" && warmest.trim() === "") return undefined;
	const deci = (typed: string): number => {
		const at = decimal(typed);
		return Math.round(temp === "C" ? at * 10 : ((at - 32) * 50) / 9);
	};
	const room = { coolest: deci(coolest), warmest: deci(warmest) };
	const fits = (n: number): boolean => n >= -300 && n <= 500;
	if (!fits(room.coolest) || !fits(room.warmest)) return "room";
	return room.warmest < room.coolest ? "roomTurned" : room;
}

/** A first form that can be written down. */
export interface ReadySetUp {
	bin: Record<string, unknown>;
	trays: Record<string, unknown>[]; // from the bottom up
	bedding: Item[];
	started: string;
	worms: { mass: number; wide: boolean; day: string } | undefined;
}

/** The form as it can be written down, or its first fault. */
export function readySetUp(form: SetUp, view: BinSheet): ReadySetUp | Fault {
	const mass = view.mass as Mass;
	const name = form.name.trim();
	if (!name) return "name";
	if (!view.sizes.some((s) => s.species === form.species)) return "species";
	const names = form.trays.map((tray) => tray.trim());
	if (names.some((tray, i) => !tray || names.indexOf(tray) !== i)) return "tray";
	const inside = sidesOf(form.size, mass);
	if (typeof inside === "string") return inside;
	const ours = freshBedding(inside, view.fresh).grams;
	const grams = form.bedding.trim() === "" ? ours : gramsTyped(form.bedding, mass);
	if (form.beddings.length > 0 && !(grams > 0 && grams < 100_000)) return "bedding";
	if (!form.started || form.started > view.day) return "day";
	const worms = form.wormsIn ? wormsTyped(form.worms, form.species, view) : undefined;
	if (typeof worms === "string") return worms;
	const room = roomTyped(form.coolest, form.warmest, view.temp as Temp);
	if (typeof room === "string") return room;
	return {
		bin: { name, species: form.species, started: form.started, feedEvery: USUAL_EVERY, ...room },
		trays: names.map((tray) => ({ name: tray, ...inside })),
		bedding: form.beddings.length > 0 ? beddingItems(form.beddings, grams) : [],
		started: form.started,
		worms: worms && { ...worms, day: form.worms.day },
	};
}

/** Days between meals of a bin that nobody set otherwise. Common practice: twice a week. */
export const USUAL_EVERY = 3;

/** The settings of a bin, as its form holds them. */
export interface Settings {
	name: string;
	species: string;
	goal: string;
	placing: string;
	every: string;
	hot: string; // last day of a hot week, or ""
	coolest: string;
	warmest: string;
	started: string;
}

export function settingsOf(view: BinSheet): Settings {
	const temp = view.temp as Temp;
	return {
		name: view.name ?? "",
		species: view.species ?? "not-sure",
		goal: view.goal ?? "grow",
		placing: view.placing ?? "pocket",
		every: String(view.feedEvery || USUAL_EVERY),
		hot: view.hotUntil ?? "",
		coolest: view.room ? degrees(view.room.coolest, temp) : "",
		warmest: view.room ? degrees(view.room.warmest, temp) : "",
		started: view.started ?? view.day,
	};
}

/** The change of a bin's settings and what takes it back, undefined if nothing
 * was changed, or the first fault. Only what differs from `was`, the settings that
 * the form began with, is written: what another keeper changed meanwhile stays. */
export function settingsIntent(
	form: Settings,
	was: Settings,
	view: BinSheet,
): { intent: Intent; back: Intent } | undefined | Fault {
	if (!form.name.trim()) return "name";
	if (!view.sizes.some((s) => s.species === form.species)) return "species";
	const every = decimal(form.every);
	if (!(Number.isInteger(every) && every >= 1 && every <= 14)) return "every";
	if (!form.started || form.started > view.day) return "day";
	if (form.hot && form.hot < view.day) return "day";
	const room = roomTyped(form.coolest, form.warmest, view.temp as Temp);
	if (typeof room === "string") return room;
	const set: Record<string, unknown> = {};
	const before: Record<string, unknown> = {};
	const change = (field: string, from: unknown, to: unknown): void => {
		set[field] = to;
		before[field] = from;
	};
	if (form.name.trim() !== was.name) change("name", was.name, form.name.trim());
	for (const field of ["species", "goal", "placing", "started"] as const)
		if (form[field] !== was[field]) change(field, was[field], form[field]);
	if (form.every !== was.every) change("feedEvery", view.feedEvery, every);
	if (form.hot !== was.hot) change("hotUntil", was.hot || null, form.hot || null);
	if (form.coolest !== was.coolest || form.warmest !== was.warmest) {
		change("coolest", view.room?.coolest ?? 0, room?.coolest ?? 0);
		change("warmest", view.room?.warmest ?? 0, room?.warmest ?? 0);
	}
	if (Object.keys(set).length === 0) return undefined;
	const bin = view.id ?? "";
	return {
		intent: { do: "bin", entity: bin, set },
		back: { do: "edit", entity: bin, set: before },
	};
}

/** A tray that takes worms: the one that is fed, or bedded, the top one first. */
export const wormTray = (trays: SheetTray[]): SheetTray | undefined =>
	trays.find((t) => t.stage === "feeding") ?? trays.find((t) => t.stage === "bedded");
