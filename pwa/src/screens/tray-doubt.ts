// What this phone may not know about a tray: a remembered view, a household that
// was not heard for long, two meals out of each other's sight.
//
// When another member's phone was last heard, nobody can tell: a phone that has
// written nothing and one that waits in a drawer look the same from here.

import { html, nothing, type TemplateResult } from "lit";
import { clock, dayName, type Mass, weight } from "../format.ts";
import { localInstant } from "../parts/screen.ts";
import { sign } from "../parts/signs.ts";
import { text } from "../strings.ts";
import type { DoubleView, TrayView } from "../types.gen.ts";

// Meals are a day or more apart, so a phone that heard all a few hours ago has
// probably heard of the last one. Judgement.
const LONG_MS = 3 * 60 * 60 * 1000;

export interface Knowing {
	remembered: boolean; // the engine still starts
	heard: number; // ms; 0 is never
	now: number;
}

/** Why a feeding may be missing, "" if nothing speaks for it. */
export function mayMiss({ remembered, heard, now }: Knowing, today: string): string {
	if (heard === 0) return text.tray.missNever;
	if (now - heard < LONG_MS) return remembered ? text.tray.mayMiss : "";
	const at = localInstant(heard);
	const day = at.slice(0, 10);
	return day === today
		? text.tray.missSince(clock(at))
		: text.tray.missSinceDay(dayName(day, today), clock(at));
}

export function doubt(view: TrayView, knowing: Knowing): TemplateResult | typeof nothing {
	const miss = mayMiss(knowing, view.day);
	if (!miss && !view.double) return nothing;
	return html`<div class="notice">${sign("missing")}<div>
		${miss ? html`<p>${miss}</p>` : nothing}
		${view.double ? double(view.double, view.mass as Mass) : nothing}</div></div>`;
}

const double = (d: DoubleView, mass: Mass): TemplateResult =>
	html`<p>${text.today.double(weight(d.grams, mass))}</p>
		${d.feedings.map((f) => html`<p>${text.today.doubleLine(weight(f.grams, mass), f.who || text.parts.someone, clock(f.at))}</p>`)}
		<p>${text.today.doubleEnd} <a href="/timeline">${text.timeline.title}</a></p>`;
