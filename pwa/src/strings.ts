// All words the app shows, in one place. Another language is another object of
// the same type, so keys are typed and never built from text.
//
// Rules: say what is so and what to do; sentences without blame; numbers with
// units; codes from the engine are looked up here and nowhere else. Each area
// of the app has its own block; add yours beside the others.

import { type Language, language } from "./language.ts";
import * as bin from "./strings/bin.ts";
import * as planning from "./strings/bin-plan.ts";
import * as keeping from "./strings/bin-setup.ts";
import * as codes from "./strings/codes.ts";
import * as feeding from "./strings/feeder.ts";
import * as eating from "./strings/food.ts";
import * as freezing from "./strings/freezer.ts";
import * as harvesting from "./strings/harvest.ts";
import * as printed from "./strings/labels.ts";
import * as looking from "./strings/look.ts";
import * as phone from "./strings/phone.ts";
import * as pictures from "./strings/photos.ts";
import * as scanning from "./strings/scan.ts";
import * as sections from "./strings/section.ts";
import * as telling from "./strings/timeline.ts";
import * as diagnosing from "./strings/trouble.ts";
import * as weighing from "./strings/weigh.ts";

const sentences = {
	/** "740 g, 610 to 900": a middle and its likely range. */
	span: (mid: string, low: string, high: string) => `${mid}, ${low} to ${high}`,
	/** Doings as one sentence: "Chop it, freeze and thaw it." */
	sentence: (doings: string[]) => {
		const joined = doings.join(", ");
		return `${joined.charAt(0).toUpperCase()}${joined.slice(1)}.`;
	},
} as const;

const english = {
	...sentences,
	...bin,
	...codes,
	...weighing,
	...feeding,
	...looking,
	...telling,
	...eating,
	...printed,
	...phone,
	...freezing,
	...sections,
	...pictures,
	...scanning,
	...diagnosing,
	...harvesting,
	...keeping,
	...planning,
} as const;

/** The shape of a language: the same keys, other words. */
type Words<T> = T extends string
	? string
	: T extends (...given: infer G) => infer R
		? (...given: G) => Words<R>
		: { readonly [K in keyof T]: Words<T[K]> };
export type Text = Words<typeof english>;

// Another language is a script of its own, so that nobody fetches words they
// don't read. Where it can't be had, English is better than no page.
const others: Record<Exclude<Language, "en">, () => Promise<Text>> = {
	es: async () => ((await import(SPANISH_URL)) as typeof import("./strings/es.ts")).spanish,
};

export const text: Text =
	language === "en" ? english : await others[language]().catch(() => english);
