// The steps of the dial: how far one press goes, and what a pressed key means.

import type { Mass } from "../format.ts";

const OUNCE = 28.349523125; // g, see format.ts
/** The most a dial goes to, g; more than a tray takes in one meal is typed in Weigh. */
export const DIAL_END = 5000;

/** One step in g: 25 g, or one ounce. */
export const dialStep = (mass: Mass): number => (mass === "g" ? 25 : OUNCE);

/** The value `steps` further, on a whole step, between nothing and the end. A
 * value between two steps goes to the next one in that direction. */
export function turned(grams: number, steps: number, mass: Mass): number {
	const step = dialStep(mass);
	const at = grams / step;
	const near = Math.abs(at - Math.round(at)) * step < 0.6; // grams are whole, ounces aren't
	const base = near ? Math.round(at) : steps > 0 ? Math.floor(at) : Math.ceil(at);
	return Math.min(DIAL_END, Math.max(0, Math.round((base + steps) * step)));
}

/** Steps that a key turns the dial, or where it goes outright. */
export function keyTurn(key: string): { by?: number; to?: number } | undefined {
	switch (key) {
		case "ArrowRight":
		case "ArrowUp":
			return { by: 1 };
		case "ArrowLeft":
		case "ArrowDown":
			return { by: -1 };
		case "PageUp":
			return { by: 4 };
		case "PageDown":
			return { by: -4 };
		case "Home":
			return { to: 0 };
		case "End":
			return { to: DIAL_END };
		default:
			return undefined;
	}
}
