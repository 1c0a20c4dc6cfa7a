// Finding a scrap by its name, or saying that it is another, with its class.

import { html, nothing, type TemplateResult } from "lit";
import { verdictSign } from "../parts/signs.ts";
import { text } from "../strings.ts";
import type { ScrapView, WeighView } from "../types.gen.ts";
import { said } from "../words.ts";
import type { Pick } from "./weigh-bowl.ts";

export interface Finding {
	typed: string;
	class: string; // for "other"
}

const MOST_FOUND = 8;
const plain = (s: string): string => s.toLocaleLowerCase().normalize("NFD").replace(/\p{M}/gu, "");

/** The scraps whose names hold every typed word; those that begin with the
 * first word come first. */
export function find(scraps: ScrapView[], typed: string): ScrapView[] {
	const words = plain(typed).split(/\s+/).filter(Boolean);
	const first = words[0];
	if (!first) return [];
	const hits = scraps.filter((s) => words.every((w) => plain(`${s.name} ${s.group}`).includes(w)));
	return [
		...hits.filter((s) => plain(s.name).startsWith(first)),
		...hits.filter((s) => !plain(s.name).startsWith(first)),
	].slice(0, MOST_FOUND);
}

export interface FindDoes {
	change: (finding: Finding) => void;
	pick: (pick: Pick) => void;
}

export function findPanel(finding: Finding, view: WeighView, does: FindDoes): TemplateResult {
	const found = find(view.scraps, finding.typed);
	const name = finding.typed.trim();
	return html`<div class="find">
		<label class="field">${text.weigh.findLabel}<input type="search" autocomplete="off" spellcheck="false" .value=${finding.typed}
			@input=${(e: InputEvent) => does.change({ ...finding, typed: (e.target as HTMLInputElement).value })}></label>
		<ul class="rows">${found.map(
			(s) =>
				html`<li><button type="button" class="foundrow" @click=${() => does.pick({ scrap: s.id, name: s.name, class: s.class, group: s.group })}>${verdictSign(s.verdict)}<span class="grow"><b>${s.name}</b><span class="second line">${said(text.verdicts, s.verdict)}</span></span></button></li>`,
		)}</ul>
		${name && found.length === 0 ? html`<p class="second" role="status">${text.weigh.findNone(name)}</p>` : nothing}
		${
			name
				? html`<p class="second">${text.weigh.otherIs(name)}</p><div class="picks" role="group" aria-label=${text.weigh.otherClass}>${view.classes.map(
						(c) =>
							html`<button type="button" class="pickword" @click=${() => does.pick({ scrap: "other", name, class: c, group: "other" })}>${said(text.classes, c)}</button>`,
					)}</div>`
				: nothing
		}
	</div>`;
}
