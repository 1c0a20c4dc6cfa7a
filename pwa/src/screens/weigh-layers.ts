// The bowl as it lies, its running total, and the scraps to pick from.

import { html, type TemplateResult } from "lit";
import { type Mass, shortName, weight } from "../format.ts";
import { bowlDrawing, type Layer, scrapTexture } from "../parts/bowl.ts";
import "../parts/fit.ts";
import type { Frame } from "../parts/fit.ts";
import { text } from "../strings.ts";
import type { WeighView } from "../types.gen.ts";
import * as bowl from "./weigh-bowl.ts";
import { pickOf } from "./weigh-find.ts";

/** What the whole bowl weighs, as far as anybody weighed it. */
export function amountWords(d: bowl.Draft, mass: Mass): string {
	const grams = bowl.total(d);
	if (grams === 0) return text.weigh.some;
	const amount = weight(grams, mass);
	return bowl.someUnweighed(d) ? text.weigh.andSome(amount) : amount;
}

/** The layers, the newest on top; a tap takes one out. */
export function bowlPanel(
	d: bowl.Draft,
	mass: Mass,
	takeOut: (tap: number) => void,
): TemplateResult {
	if (d.parts.length === 0) return html`<p class="second inbowl empty">${text.weigh.empty}</p>`;
	const rows = bowl.rows(d);
	const layers = rows.map(
		(r): Layer => ({ grams: Math.max(r.grams, 1), texture: scrapTexture(r.of) }),
	);
	const label = text.weigh.drawing(rows.map((r) => r.label).join(", "));
	return html`<div class="inbowl">
		<fit-frame .draw=${(frame: Frame) => bowlDrawing(layers, "weigh", frame, label)}></fit-frame>
		<ul class="lay">${rows.map(
			(r) =>
				html`<li><button type="button" class="out" @click=${() => takeOut(r.tap)}>${shortName(r.label)}<b>${r.how === "unweighed" ? text.weigh.some : weight(r.grams, mass)}</b><span class="vh">, ${text.weigh.takeOut}</span></button></li>`,
		)}<li class="sum"><span>${text.weigh.inBowl}</span><b>${amountWords(d, mass)}</b></li></ul></div>`;
}

// Five scraps and "find" are two rows of three.
const MOST_PICKS = 5;

/** The usual mix, then what this household uses most; what was found takes the
 * last place, so that the number of rows stays. */
export function picks(d: bowl.Draft, view: WeighView): bowl.Pick[] {
	const usual: bowl.Pick[] =
		view.usual.length > 0 ? [{ scrap: "usual", name: text.weigh.usual, class: "", group: "" }] : [];
	const shown = [...usual, ...view.often.map(pickOf)].slice(0, MOST_PICKS);
	if (d.pick && !shown.some((p) => p.scrap === d.pick?.scrap)) {
		shown.splice(Math.min(shown.length, MOST_PICKS - 1), 1, d.pick);
	}
	return shown;
}
