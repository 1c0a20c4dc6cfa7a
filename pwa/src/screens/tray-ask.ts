// The one question of a visit, asked only when its answer could change the
// ration much. Skipping it is one tap and lowers nothing.

import { html, nothing, type TemplateResult } from "lit";
import { dayName } from "../format.ts";
import { section } from "../parts/header.ts";
import { leftovers } from "../parts/signs.ts";
import { text } from "../strings.ts";
import type { Ask, Intent, Leftovers, TrayView } from "../types.gen.ts";

export interface AskDoes {
	answer: (intent: Intent) => void;
	skip: () => void;
	member: string; // the phone's own
}

/** The visit's question, or the offer to write down what a long gap hides. */
export function askRow(
	view: TrayView,
	skipped: string,
	does: AskDoes,
): TemplateResult | typeof nothing {
	const ask = view.ask;
	if (ask && askKey(ask) === skipped) return nothing;
	if (ask?.kind === "unlogged") return unlogged(ask, does);
	if (ask) return left(ask, view.day, does);
	if (!view.gap) return nothing;
	return html`<div class="gap"><p>${text.catchUp.gap(view.gap)}</p>
		<a class="plain" href="/catch-up?bin=${encodeURIComponent(view.bin ?? "")}">${text.catchUp.gapAct}</a></div>`;
}

export const askKey = (ask: Ask): string => `${ask.kind} ${ask.day}`;

const skipKey = (does: AskDoes): TemplateResult =>
	html`<button type="button" class="textlink" @click=${does.skip}>${text.tray.askSkip}</button>`;

const by = (does: AskDoes) => (does.member ? { member: does.member } : {});

function left(ask: Ask, today: string, does: AskDoes): TemplateResult {
	const head = text.look.left(dayName(ask.day, today));
	const answer = (code: string): void =>
		does.answer({ do: "look", tray: ask.tray, leftovers: code as Leftovers, ...by(does) });
	return html`<section class="ask">${section(head, skipKey(does))}
		<div class="drawpicks" role="group" aria-label=${head}>${Object.entries(text.leftovers).map(
			([code, word]) =>
				html`<button type="button" @click=${() => answer(code)}>${leftovers(code)}<span>${word}</span></button>`,
		)}</div></section>`;
}

function unlogged(ask: Ask, does: AskDoes): TemplateResult {
	const head = text.tray.unlogged;
	const answer = (says: string): void =>
		does.answer({ do: "look", tray: ask.tray, unlogged: says, ...by(does) });
	return html`<section class="ask">${section(head, skipKey(does))}
		<p class="second">${text.tray.unloggedWhy}</p>
		<div class="picks even" role="group" aria-label=${head}>${Object.entries(
			text.tray.unloggedAnswers,
		).map(
			([says, word]) =>
				html`<button type="button" class="pickword" @click=${() => answer(says)}>${word}</button>`,
		)}</div></section>`;
}
