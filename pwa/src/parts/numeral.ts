// A numeral and its line. The kind of line says how the number is known: whole
// = weighed or seen, broken = learned from this bin's log, dotted and hollow
// with a question mark = a first guess.

import { html, nothing, type TemplateResult } from "lit";
import type { Written } from "../format.ts";
import { text } from "../strings.ts";

export interface NumeralLook {
	size?: "row" | "big" | "keyed";
	sure?: string; // RationView.sure
	old?: boolean; // remembered from before the engine started
}

const lines: Record<string, string> = { weighed: "whole", guess: "dotted" };

/** Classes of a numeral: its size, the kind of its line, how old it is. */
export function shape(written: Written, look: NumeralLook): string {
	const { size = "row", sure = "weighed", old = false } = look;
	const long = written.value.length > 3 ? "long" : "";
	return `numeral ${size} ${lines[sure] ?? "broken"} ${long} ${old ? "old" : ""}`;
}

export function numeral(written: Written, look: NumeralLook = {}): TemplateResult {
	const { size = "row", sure = "weighed" } = look;
	return html`<span class=${shape(written, look)}>
		<span class="figures"><b>${written.value}</b><i>${written.unit}</i>${
			sure === "guess"
				? html`<u aria-hidden="true">?</u><span class="vh"> ${text.parts.firstGuess}</span>`
				: sure === "trial"
					? html`<u class="word">${text.parts.trial}</u>`
					: nothing
		}</span>${
			size === "keyed"
				? nothing
				: html`<svg class="underline" aria-hidden="true" height="4" width="100%">
						<line x1="2" x2="100%" y1="2" y2="2"/></svg>`
		}</span>`;
}
