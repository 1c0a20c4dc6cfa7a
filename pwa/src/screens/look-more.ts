// The folded part of a look: what takes a ruler, a scale, a strip or a count.

import { html, nothing, type TemplateResult } from "lit";
import { text } from "../strings.ts";
import type { Figure, Seen } from "./look-seen.ts";

export interface FigureDoes {
	type: (of: Figure, typed: string) => void;
	bad: Figure | ""; // the one to be mended
}

/** One field for a figure, with what is wrong with it below. */
export function figureField(
	seen: Seen,
	of: Figure,
	label: string,
	does: FigureDoes,
	why = text.look.badNumber,
): TemplateResult {
	const bad = does.bad === of;
	return html`<label class="field">${label}<input type="text" inputmode="decimal" maxlength="9" autocomplete="off" name=${of}
		.value=${seen.typed[of] ?? ""} aria-invalid=${bad ? "true" : "false"}
		@input=${(e: InputEvent) => does.type(of, (e.target as HTMLInputElement).value)}></label>
		${bad ? html`<p role="alert">${why}</p>` : nothing}`;
}

export function moreFigures(seen: Seen, mass: string, does: FigureDoes): TemplateResult {
	const words = text.look;
	const inside: Figure[] = ["fill", "weight", "meter", "ph", "scoop", "adults", "young", "cocoons"];
	const open = inside.some((of) => seen.typed[of] || does.bad === of);
	const needsScoop = does.bad === "scoop" && !seen.typed.scoop;
	return html`<details class="why closer" ?open=${open}>
		<summary>${words.more}</summary>
		${figureField(seen, "fill", words.fill, does)}
		${figureField(seen, "weight", words.weight[mass] ?? "", does)}
		${figureField(seen, "meter", words.meter, does)}
		${figureField(seen, "ph", words.ph, does)}
		<fieldset class="scoops"><legend>${words.sample}</legend>
			${figureField(seen, "scoop", words.scoop, does, needsScoop ? words.needScoop : words.badNumber)}
			${figureField(seen, "adults", words.adults, does)}
			${figureField(seen, "young", words.young, does)}
			${figureField(seen, "cocoons", words.cocoons, does)}
			<p class="second">${words.sampleHint}</p>
		</fieldset>
	</details>`;
}
