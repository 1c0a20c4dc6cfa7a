// A glance: what the shell can say of a tray before any of the app's scripts have
// run. When a tray's view is shown fresh, its page leaves the words it has just
// said; the next scan shows them with their age, by glance-show.ts, until the
// page stands. They lie in localStorage, because that can be read at once.

import { language, locale } from "./language.ts";

/** Words by the places of index.html that say them; an empty one has no place. */
export type Says = Readonly<Record<string, string>>;

export interface Words {
	/** The numeral's classes, which say how its amount is known; "" for no amount. */
	shape: string;
	says: Says;
	/** What else holds on the day it was said and no longer. */
	onDay: Says;
	/** The same places on a later day. */
	later: Says;
}

export interface Glance extends Words {
	/** When it was worked out, ms, and the zone of the household's days. */
	at: number;
	zone: string;
	/** The language and country its words are written for, and the form of all this. */
	spoken: string;
}

const KEY = "trayside-glance";
const FORM = 1; // another number once a Glance or index.html has other places
const spoken = `${FORM} ${language} ${locale}`;

/** One tray, however its code was typed. */
const name = (arg: string): string => arg.toUpperCase().replace(/[\s-]/g, "");

// Storage may be forbidden, and tests have none.
function all(): Record<string, Glance> {
	try {
		return JSON.parse(globalThis.localStorage?.getItem(KEY) ?? "{}");
	} catch {
		return {};
	}
}

/** The glance at a tray, in the words of this page's language. */
export function glanceAt(arg: string): Glance | undefined {
	const held = all()[name(arg)];
	return held?.spoken === spoken ? held : undefined;
}

/** Keeps the glance at a tray, or forgets it. */
export function keepGlance(arg: string, held: Omit<Glance, "spoken"> | undefined): void {
	const { [name(arg)]: _before, ...others } = all();
	const now = held ? { ...others, [name(arg)]: { ...held, spoken } } : others;
	try {
		localStorage.setItem(KEY, JSON.stringify(now));
	} catch {
		// Then the next scan waits for the app.
	}
}

/** Forgets all of them: this phone has left its household. */
export function forgetGlances(): void {
	try {
		globalThis.localStorage?.removeItem(KEY);
	} catch {
		// Then nothing was kept.
	}
}

/** Gives the place up to the page that has the app's own view. */
export function endGlance(): void {
	document.getElementById("glance")?.remove();
}
