// Codes and numbers of the engine as sentences. The only file that turns a
// code into words; the words themselves stand in strings.ts.

import type { RecordFault } from "./app-api.ts";
import {
	clock,
	dayName,
	list,
	type Mass,
	number,
	rough,
	roughTemperature,
	shortName,
	type Temp,
	temperature,
	weight,
} from "./format.ts";
import { text } from "./strings.ts";
import type {
	Bowl,
	House,
	ItemView,
	LookLine,
	Person,
	RationView,
	Reason,
	ScrapView,
	Span,
} from "./types.gen.ts";

/** Words for a code, or the code itself with its hyphens as spaces. */
export function said(table: Record<string, string>, code: string): string {
	return table[code] ?? code.replaceAll("-", " ");
}

export const spotWords = (spot: string | undefined): string => (spot ? said(text.spots, spot) : "");

/** "740 g, 610 to 900": a middle and its likely range, as finely as it is wide. */
export function spanWords(s: Span, mass: Mass): string {
	const near = (grams: number): number => rough(grams, s, mass);
	const brief = (grams: number): string =>
		mass === "g" ? number(near(grams)) : weight(near(grams), mass);
	return text.span(weight(near(s.mid), mass), brief(s.low), brief(s.high));
}

/** A row of the ledger. */
export function reasonWords(r: Reason, mass: Mass, today: string): string {
	const words = text.reasons[r.code];
	// Outward, so that the row's own figure lies within.
	const end = (grams: number | undefined, whole: (steps: number) => number): string =>
		grams ? weight(rough(grams, { low: r.from ?? 0, high: r.to ?? 0 }, mass, whole), mass) : "";
	return words
		? words({
				from: end(r.from, Math.floor),
				to: end(r.to, Math.ceil),
				day: r.day ? dayName(r.day, today) : "",
			})
		: said({}, r.code);
}

/** What holds the ration down, in a sentence. */
export function bindWords(r: RationView, temp: Temp): string {
	return text.binds[r.binds]?.(roughTemperature(r.bedTemp, temp)) ?? "";
}

/** The household's vessel nearest to the ration: "a full mug", "2 × mug". */
export function vesselWords(r: RationView): string {
	if (!r.vessel || !r.vessels) return "";
	if (r.vessels <= 4) return (text.tray.quarters[r.vessels] ?? "") + r.vessel;
	return text.tray.manyVessels(number(r.vessels / 4, 2), r.vessel);
}

/** A house rule beside what the guides say. */
export const houseWords = (house: House): string =>
	[
		text.food.houseOver(said(text.verdicts, house.guides)),
		house.note ? text.food.houseWhy(house.note) : "",
	]
		.filter(Boolean)
		.join(" ");

/** What a scrap's verdict says: the verdict, its reasons, what to do with it. */
export function verdictWords(s: ScrapView): { head: string; rest: string } {
	const house = s.house ? [text.food.house] : [];
	const reasons = s.reasons.flatMap((code) => text.scrapReasons[code] ?? []);
	const prep = s.verdict === "never" ? [] : s.prep.map((code) => said(text.scrapPrep, code));
	const doing = prep.length > 0 ? [text.sentence(prep)] : [];
	const shown = s.verdict === "good" ? doing : [...house, ...reasons.slice(0, 2), ...doing];
	return { head: said(text.verdicts, s.verdict), rest: shown.join(" ") };
}

/** What was fed: "Onion skins; carrot peel". */
export function itemWords(items: ItemView[]): string {
	return items
		.map((i) => shortName(i.name) || said(text.classes, i.class ?? i.scrap))
		.slice(0, 4)
		.join("; ");
}

/** What a look found: "some left, squeeze: a few, bed 21 °C, smell: earthy". */
export function lookWords(look: LookLine, temp: Temp, mass: Mass = "g"): string {
	const words = text.timeline;
	const tenth = (n: number): string => number(n / 10, 1);
	const told = (n: number | undefined, tell: (n: number) => string): string =>
		n === undefined ? "" : tell(n);
	const found = [
		look.leftovers ? said(words.left, look.leftovers) : "",
		look.squeeze ? words.squeeze(said(text.squeezes, look.squeeze)) : "",
		told(look.temp, (n) =>
			words.read[look.tempOf === "room" ? "room" : "bed"](temperature(n, temp)),
		),
		look.smell ? words.smell(said(text.smells, look.smell)) : "",
		look.visitors?.length
			? words.visitors(list(look.visitors.map((v) => said(text.look.visitorNames, v))))
			: "",
		look.cover ? said(words.covers, look.cover) : "",
		look.covered ? words.covered : "",
		told(look.liquid, (n) => words.liquid(number(n))),
		told(look.fill, (n) => words.fill(number(n))),
		told(look.weight, (n) => words.trayWeight(weight(n, mass))),
		told(look.meter, (n) => words.meter(tenth(n))),
		told(look.ph, (n) => words.ph(tenth(n))),
		look.unlogged ? said(words.unlogged, look.unlogged) : "",
	];
	return found.filter(Boolean).join(", ");
}

/** Why something was not saved, and how to mend it. `ration` is what the tray
 * may get, g, or 0 where no single tray is meant. */
export function faultWords(fault: RecordFault, mass: Mass, ration: number): string {
	switch (fault.kind) {
		case "slip": {
			const { grams, limit, kind } = fault.slip;
			const amount = weight(grams, mass);
			if (kind === "refuse") return text.faults.slipRefuse(amount, weight(limit, mass));
			return ration > 0
				? text.faults.slipAsk(amount, weight(ration, mass))
				: text.faults.slipAskPlain(amount, weight(limit, mass));
		}
		case "refused":
			return text.faults.codes[fault.code] ?? text.faults.refused(fault.detail);
		case "full":
			return text.faults.full;
		case "locked":
			return text.faults.locked;
		case "broken":
			return text.faults.broken(fault.detail);
	}
}

/** What the server refused, in the household's language where its code is known. */
export const problemWords = (refused: {
	code: string;
	message: string;
	letters?: string;
}): string =>
	text.problems[refused.code]?.(refused.message, refused.letters ?? "") ?? refused.message;

/** The name of a member, or "someone". */
export const memberName = (members: Person[], id: string): string =>
	members.find((m) => m.id === id)?.name ?? text.parts.someone;

/** "640 g in the kitchen bowl, weighed by Odell at 18:40". */
export function bowlWords(bowl: Bowl, mass: Mass, today: string): string {
	const amount = bowl.grams > 0 ? weight(bowl.grams, mass) : text.today.unweighedBowl;
	const day = bowl.at.slice(0, 10);
	const other = day === today ? "" : dayName(day, today);
	const who = bowl.who ? text.today.bowlBy(bowl.who, clock(bowl.at), other) : "";
	return amount + text.today.bowl(bowl.name) + who;
}
