// Finding a scrap by what people call it, or saying that it is another, with
// its class. The engine searches; see advice.Food.

import { html, nothing, type TemplateResult } from "lit";
import { verdictSign } from "../parts/signs.ts";
import { text } from "../strings.ts";
import type { ScrapView, WeighView } from "../types.gen.ts";
import { said } from "../words.ts";
import type { Pick } from "./weigh-bowl.ts";

export interface Finding {
	typed: string;
	found: ScrapView[]; // the best first
	searched: string; // what `found` answers
}

const MOST_FOUND = 8;

export interface FindDoes {
	type: (typed: string) => void;
	pick: (pick: Pick) => void;
}

export const pickOf = (s: ScrapView): Pick => ({
	scrap: s.id,
	name: s.name,
	class: s.class,
	group: s.group,
});

export function findPanel(finding: Finding, view: WeighView, does: FindDoes): TemplateResult {
	const name = finding.typed.trim();
	const found = finding.found.slice(0, MOST_FOUND);
	const none = name !== "" && finding.searched === finding.typed && found.length === 0;
	const first = found[0];
	return html`<form class="find" @submit=${(e: Event) => {
		e.preventDefault();
		// What stands there may still answer to fewer letters.
		if (first && finding.searched === finding.typed) does.pick(pickOf(first));
	}}>
		<label class="field">${text.weigh.findLabel}<input type="search" autocomplete="off" autocapitalize="off" spellcheck="false" enterkeyhint="search" .value=${finding.typed}
			@input=${(e: InputEvent) => does.type((e.target as HTMLInputElement).value)}></label>
		<ul class="rows">${found.map(
			(s) =>
				html`<li><button type="button" class="foundrow" @click=${() => does.pick(pickOf(s))}>${verdictSign(s.verdict)}<span class="grow"><b>${s.name}</b><span class="second line">${said(text.verdicts, s.verdict)}</span></span></button></li>`,
		)}</ul>
		${none ? html`<p class="second" role="status">${text.weigh.findNone(name)}</p>` : nothing}
		${
			name
				? html`<p class="second">${text.weigh.otherIs(name)}</p><div class="picks" role="group" aria-label=${text.weigh.otherClass}>${view.classes.map(
						(c) =>
							html`<button type="button" class="pickword" @click=${() => does.pick({ scrap: "other", name, class: c, group: "other" })}>${said(text.classes, c)}</button>`,
					)}</div>`
				: nothing
		}
	</form>`;
}
