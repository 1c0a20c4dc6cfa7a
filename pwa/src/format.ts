// How numbers, weights, temperatures, days and times are written. Values come
// as the engine's integers (g, mm, 0.1 °C, thousandths) and are rounded here,
// once, half away from zero, as kitchen scales do.

import { locale } from "./language.ts";

/** How the household reads weights: grams, or pounds and ounces. */
export type Mass = "g" | "oz";
/** How the household reads temperatures. */
export type Temp = "C" | "F";

/** A number and its unit apart, because a numeral sets them in two sizes. */
export interface Written {
	value: string;
	unit: string;
}

// 1 oz (avoirdupois) = 28.349523125 g exactly (international yard and pound
// agreement, 1959; NIST Handbook 44, appendix C).
export const GRAMS_PER_OUNCE = 28.349523125;
const OUNCES_PER_POUND = 16;
// A space that doesn't break, so that a number never loses its unit.
const SPACE = "\u00a0";

const numberFormats = new Map<number, Intl.NumberFormat>();

function numberFormat(places: number): Intl.NumberFormat {
	let found = numberFormats.get(places);
	if (!found) {
		found = new Intl.NumberFormat(locale, { maximumFractionDigits: places });
		numberFormats.set(places, found);
	}
	return found;
}

/** Rounds half away from zero, and never gives −0. */
export function round(x: number): number {
	return Math.sign(x) * Math.round(Math.abs(x)) || 0;
}

/** Writes a number with at most `places` decimals and a true minus sign. */
export function number(x: number, places = 0): string {
	const scale = 10 ** places;
	return numberFormat(places)
		.format(round(x * scale) / scale)
		.replace("-", "−");
}

/** The sign between ones and tenths: a point or a comma. */
export const decimalSign: string =
	new Intl.NumberFormat(locale).formatToParts(0.5).find((part) => part.type === "decimal")?.value ??
	".";

/** A figure of the keypad as it is written here; inside it has a point. */
export const keyedFigure = (typed: string): string => typed.replace(".", decimalSign);

const plainFormats = [0, 1, 2].map(
	(maximumFractionDigits) =>
		new Intl.NumberFormat(locale, { maximumFractionDigits, useGrouping: false }),
);

/** A number as it is typed into a field, without a sign for thousands. */
export const plainNumber = (x: number, places: 0 | 1 | 2 = 0): string =>
	plainFormats[places]?.format(x) ?? String(x);

/** Writes a mass: whole grams up to 10 kg, or ounces in tenths. Pounds and
 * ounces are split after rounding, so that "16.0 oz" never appears. */
export function massParts(grams: number, mass: Mass): Written {
	if (mass === "g") {
		return Math.abs(grams) < 10000
			? { value: number(grams), unit: "g" }
			: { value: number(grams / 1000, 1), unit: "kg" };
	}
	const tenths = round((Math.abs(grams) * 10) / GRAMS_PER_OUNCE);
	const pounds = Math.floor(tenths / (OUNCES_PER_POUND * 10));
	const ounces = number((tenths % (OUNCES_PER_POUND * 10)) / 10, 1);
	const sign = grams < 0 && tenths > 0 ? "−" : "";
	if (tenths === 0 && grams !== 0) return { value: "<0.1", unit: "oz" };
	return pounds === 0
		? { value: `${sign}${ounces}`, unit: "oz" }
		: { value: `${sign}${pounds}${SPACE}lb${SPACE}${ounces}`, unit: "oz" };
}

/** A mass as running text, e.g. "175 g" or "1 lb 6.2 oz". */
export function weight(grams: number, mass: Mass): string {
	const { value, unit } = massParts(grams, mass);
	return value + SPACE + unit;
}

/** A mass that nobody weighs on a kitchen scale, castings for example: from a
 * kilogram on in tenths of one. */
export function bulk(grams: number, mass: Mass): string {
	if (mass === "oz" || grams < 1000) return weight(grams, mass);
	return `${number(grams / 1000, 1)}${SPACE}kg`;
}

/** How finely a worked-out mass is shown, g. */
const grainsOf: Record<Mass, number[]> = {
	g: [1, 5, 10, 25, 50, 100, 250, 500],
	oz: [0.1, 0.2, 0.5, 1, 2, 4, 8, 16].map((oz) => oz * GRAMS_PER_OUNCE),
};
const MOST_GRAINS = 30;

/** Rounds a worked-out mass, g, as coarsely as its likely range is wide, so that
 * no figure looks surer than it is: in at most 30 steps from end to end. `whole`
 * rounds a number of steps. */
export function rough(
	grams: number,
	range: { low: number; high: number },
	mass: Mass,
	whole: (steps: number) => number = round,
): number {
	const wide = Math.abs(range.high - range.low);
	const grains = grainsOf[mass];
	const grain = grains.find((g) => wide / g < MOST_GRAINS) ?? grains.at(-1) ?? 1;
	return whole(grams / grain) * grain;
}

/** Grams of an amount typed in a unit; NaN if it is no number. Comma and point
 * both count as the decimal sign, but for the one that could mean thousands here
 * ("1,500" in English, "1.500" in Spanish is refused). */
export function parseAmount(
	typed: string,
	unit: "g" | "kg" | "oz" | "lb",
	sign: string = decimalSign,
): number {
	const plain = typed.trim();
	const thousands = sign === "," ? /^\d+\.\d{3}$/ : /^\d+,\d{3}$/;
	if (!/^\d+([.,]\d{1,3})?$|^[.,]\d{1,3}$/.test(plain) || thousands.test(plain)) {
		return Number.NaN;
	}
	const amount = Number(plain.replace(",", "."));
	const grams = {
		g: 1,
		kg: 1000,
		oz: GRAMS_PER_OUNCE,
		lb: GRAMS_PER_OUNCE * OUNCES_PER_POUND,
	}[unit];
	return round(amount * grams);
}

/** Degrees from tenths of a degree Celsius. */
export function tempParts(deci: number, temp: Temp): Written {
	return temp === "C"
		? { value: number(deci / 10, 1), unit: "°C" }
		: { value: number((deci * 9) / 50 + 32, 0), unit: "°F" };
}

/** A temperature that was worked out, not read: in whole degrees. */
export function roughTemperature(deci: number, temp: Temp): string {
	return temperature(temp === "C" ? round(deci / 10) * 10 : deci, temp);
}

export function temperature(deci: number, temp: Temp): string {
	const { value, unit } = tempParts(deci, temp);
	return value + SPACE + unit;
}

/** A volume of liquid, ml in: "300 ml", "1.5 l". */
export function volume(ml: number): string {
	const [value, unit] =
		ml < 1000 ? [number(round(ml / 10) * 10), "ml"] : [number(ml / 1000, 1), "l"];
	return value + SPACE + unit;
}

// A household's day and the clock on its wall are read as they were written, in
// no zone: "18:40" stays 18:40 on a phone that travels.
const dayFormat = (options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat =>
	new Intl.DateTimeFormat(locale, { timeZone: "UTC", ...options });
const weekdayLong = dayFormat({ weekday: "long" });
const weekdayShort = dayFormat({ weekday: "short" });
const dayAndMonth = dayFormat({ day: "numeric", month: "long" });
const dayAndMonthShort = dayFormat({ day: "numeric", month: "short" });
const dayMonthYear = dayFormat({ day: "numeric", month: "long", year: "numeric" });
const fullDay = dayFormat({ weekday: "long", day: "numeric", month: "long" });
const wallClock = dayFormat({ hour: "numeric", minute: "2-digit" });

// Of this phone's own zone.
const DAY_MS = 86_400_000;
const phoneTime = new Intl.DateTimeFormat(locale, { hour: "numeric", minute: "2-digit" });
const phoneDay = new Intl.DateTimeFormat(locale, { day: "numeric", month: "short" });

const dateOf = (day: string): Date => new Date(`${day.slice(0, 10)}T00:00:00Z`);

/** Days from `from` to `to`, both like "2026-11-25". */
export function daysBetween(from: string, to: string): number {
	return round((dateOf(to).getTime() - dateOf(from).getTime()) / DAY_MS);
}

/** The day `n` days later. */
export function dayPlus(day: string, n: number): string {
	return new Date(dateOf(day).getTime() + n * DAY_MS).toISOString().slice(0, 10);
}

export const weekday = (day: string): string => weekdayLong.format(dateOf(day));
export const weekdayBrief = (day: string): string => weekdayShort.format(dateOf(day));
/** A day keeps its month on its line. */
const whole = (words: string): string => words.replaceAll(" ", "\u00a0");
export const date = (day: string): string => whole(dayAndMonth.format(dateOf(day)));
/** Headings begin with a capital even where days don't ("miércoles"). */
const heading = (words: string): string =>
	words.charAt(0).toLocaleUpperCase(locale) + words.slice(1);

/** The weekday as a heading. */
export const weekdayHeading = (day: string): string => heading(weekday(day));
/** Weekday and date: "Wednesday, November 25". */
export const dayFull = (day: string): string => fullDay.format(dateOf(day));
/** The same as a heading. */
export const dateFull = (day: string): string => heading(dayFull(day));
export const dateBrief = (day: string): string => whole(dayAndMonthShort.format(dateOf(day)));

/** A day as people say it: the weekday within six days either way, else the
 * date, with the year when it is another one. */
export function dayName(day: string, today: string): string {
	const away = Math.abs(daysBetween(today, day));
	if (away < 7) return weekday(day);
	return day.slice(0, 4) === today.slice(0, 4)
		? date(day)
		: whole(dayMonthYear.format(dateOf(day)));
}

/** The same in brief: "Sat", "12 Nov". */
export const dayBrief = (day: string, today: string): string =>
	Math.abs(daysBetween(today, day)) < 7 ? weekdayBrief(day) : dateBrief(day);

/** The wall clock of an instant as it was written, e.g. "18:40". */
export function clock(at: string): string {
	const local = /T(\d\d):(\d\d)/.exec(at);
	return local ? wallClock.format(new Date(`1970-01-01T${local[1]}:${local[2]}:00Z`)) : "";
}

/** An instant of this phone's clock, ms since 1970: "18:52" within a day of
 * `now`, else with its date. */
export function clockTime(ms: number, now: number): string {
	return Math.abs(now - ms) < DAY_MS
		? phoneTime.format(ms)
		: `${phoneDay.format(ms)} ${phoneTime.format(ms)}`;
}

/** A scrap's name as people say it, without what the catalogue adds behind a
 * comma or in brackets: "Potato peel" of "Potato peel, raw". */
export function shortName(name: string): string {
	return name.replace(/(, | \().*$/u, "");
}

/** Joins names as a sentence does: "a, b and c". */
export function list(names: string[]): string {
	return new Intl.ListFormat(locale, { style: "long", type: "conjunction" }).format(names);
}
