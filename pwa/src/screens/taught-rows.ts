// What an observation changed, in words and figures: shown at the end of a look
// and on the tray's page.

import { html, nothing, type TemplateResult } from "lit";
import { dayName, type Mass, rough, type Temp, weight } from "../format.ts";
import { text } from "../strings.ts";
import type { Change, TaughtView } from "../types.gen.ts";
import { lookWords } from "../words.ts";

/** Worms are worked out, and shown only as finely as that goes: a hundredth of a
 * colony is no change. */
const coarse = (grams: number, mass: Mass): number => rough(grams, { low: 0, high: grams }, mass);

/** The figures that moved, as they are shown. */
export function moved(
	view: TaughtView,
): { code: "ration" | "worms" | "lying"; before: string; after: string }[] {
	const mass = view.mass as Mass;
	const written = (c: Change, grams: (g: number) => number): [string, string] => [
		weight(grams(c.before), mass),
		weight(grams(c.after), mass),
	];
	const worms = (g: number): number => coarse(g, mass);
	const rows = [
		{ code: "ration" as const, of: written(view.ration, (g) => g) },
		{ code: "worms" as const, of: written(view.worms, worms) },
		{ code: "lying" as const, of: written(view.lying, worms) },
	];
	return rows.flatMap(({ code, of: [before, after] }) =>
		before === after ? [] : [{ code, before, after }],
	);
}

/** Whose observation it was and what it found. */
function by(view: TaughtView): string {
	const found =
		view.kind === "worms"
			? text.taught.weighed(weight(view.grams ?? 0, view.mass as Mass))
			: view.kind === "sample"
				? text.taught.counted
				: view.look
					? lookWords(view.look, view.temp as Temp)
					: "";
	return text.taught.by(view.who ?? "", dayName(view.day ?? "", view.today), found);
}

/** The rows below a heading, or nothing if nobody observed anything lately. */
export function taughtRows(view: TaughtView | undefined): TemplateResult | typeof nothing {
	if (!view?.known) return nothing;
	const rows = moved(view);
	const names = {
		ration: text.taught.ration(view.name),
		worms: text.taught.worms,
		lying: text.taught.lying,
	};
	return html`<p class="second">${by(view)}</p>
		${view.held ? html`<p><b>${text.taught.held}</b></p>` : nothing}
		${view.freed ? html`<p><b>${text.taught.freed}</b></p>` : nothing}
		${
			rows.length === 0
				? html`<p>${text.taught.same}</p>`
				: html`<ul class="rows taught">${rows.map(
						(r) => html`<li><span class="grow">${names[r.code]}</span>
						<span class="vh">${text.taught.from(r.before, r.after)}</span><s class="figure" aria-hidden="true">${r.before}</s><b class="figure" aria-hidden="true">${r.after}</b></li>`,
					)}</ul>`
		}`;
}
