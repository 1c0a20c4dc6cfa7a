// The head of a page: its name, what stands below it, and the way back.

import { html, nothing, type TemplateResult } from "lit";
import { text } from "../strings.ts";

export interface Head {
	title: string;
	sub?: unknown;
	right?: unknown;
	age?: string; // how old a remembered view is
	back?: string; // where the way back leads; none on the first page
}

export function header({ title, sub, right, age, back }: Head): TemplateResult {
	return html`<header class="top">
		${back ? html`<a class="back" href=${back} aria-label=${text.parts.back}><svg width="24" height="24" viewBox="0 0 24 24" aria-hidden="true"><path d="M15 4l-8 8 8 8"/></svg></a>` : nothing}
		<div class="name"><h1>${title}</h1>${sub ? html`<p class="second">${sub}</p>` : nothing}${age ? html`<p class="second">${age}</p>` : nothing}</div>
		${right ? html`<p class="second right">${right}</p>` : nothing}
	</header>`;
}

/** A section's heading on its levelled line. */
export const section = (words: unknown, more: unknown = nothing): TemplateResult =>
	html`<div class="section"><h2>${words}</h2>${more}</div>`;
