// The one question of a visit, asked only when its answer could change the
// ration much. Skipping it is one tap and lowers nothing.

import { html, type TemplateResult } from "lit";
import { dayName } from "../format.ts";
import { section } from "../parts/header.ts";
import { leftovers } from "../parts/signs.ts";
import { text } from "../strings.ts";
import type { Ask, Intent, Leftovers } from "../types.gen.ts";

export interface AskDoes {
	answer: (intent: Intent) => void;
	skip: () => void;
}

export function askRow(ask: Ask, today: string, member: string, does: AskDoes): TemplateResult {
	const head = text.look.left(dayName(ask.day, today));
	const answer = (code: string): void =>
		does.answer({
			do: "look",
			tray: ask.tray,
			leftovers: code as Leftovers,
			...(member ? { member } : {}),
		});
	return html`<section class="ask">${section(head, html`<button type="button" class="textlink" @click=${does.skip}>${text.tray.askSkip}</button>`)}
		<div class="drawpicks" role="group" aria-label=${head}>${Object.entries(text.leftovers).map(
			([code, word]) =>
				html`<button type="button" @click=${() => answer(code)}>${leftovers(code)}<span>${word}</span></button>`,
		)}</div></section>`;
}
