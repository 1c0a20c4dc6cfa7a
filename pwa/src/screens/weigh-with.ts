// What goes with the bowl and what becomes of it: bedding in handfuls, and
// today's rations after it.

import { html, nothing, type TemplateResult } from "lit";
import { type Mass, parseAmount, shortName, weight } from "../format.ts";
import { section } from "../parts/header.ts";
import { sign } from "../parts/signs.ts";
import { text } from "../strings.ts";
import type { After, FillView, Intent, ScrapView } from "../types.gen.ts";

/** The form that weighs ten handfuls of bedding. */
export interface HandfulForm {
	bedding: string; // catalogue id
	typed: string;
	fault: string;
}

const HANDFULS = 10; // one alone is too light for a kitchen scale

const unitOf = (mass: Mass): "g" | "oz" => (mass === "oz" ? "oz" : "g");

/** The entry that keeps the handful, or what is wrong with the form. */
export function handfulIntent(
	form: HandfulForm,
	mass: Mass,
): { intent: Intent; grams: number } | { fault: string } {
	const grams = Math.round(parseAmount(form.typed, unitOf(mass)) / HANDFULS);
	if (!(grams > 0)) return { fault: text.weigh.with.bad(unitOf(mass)) };
	return {
		intent: { do: "household", set: { handful: grams, handfulOf: form.bedding } },
		grams,
	};
}

export interface WithState {
	fill: FillView;
	mass: Mass;
	keeper: boolean;
	beddings: ScrapView[];
	form: HandfulForm | undefined;
}

export interface WithDoes {
	form: (form: HandfulForm | undefined) => void;
	keep: (form: HandfulForm) => void;
}

export function withPanel(s: WithState, does: WithDoes): TemplateResult {
	return html`${beddingRow(s, does)}${becomes(s.fill, s.mass)}`;
}

function beddingRow(s: WithState, does: WithDoes): TemplateResult {
	const words = text.weigh.with;
	const { fill, mass } = s;
	if (s.form) return formPanel(s.form, s, does);
	if (fill.bedding === 0) return html`<p class="second pad">${words.dry}</p>`;
	const grams = weight(fill.bedding, mass);
	const amount =
		fill.halves > 0 ? words.handfuls(words.handful(fill.halves), grams) : words.about(grams);
	return html`<div class="withrow"><p><b>${words.bedding(amount)}</b><span class="second line">${words.dryOf(shortName(fill.beddingName))}</span></p>${
		s.keeper
			? html`<button type="button" class="textlink" @click=${() => does.form({ bedding: "cardboard", typed: "", fault: "" })}>${fill.handful > 0 ? words.again : words.calibrate}</button>`
			: nothing
	}</div>`;
}

function formPanel(form: HandfulForm, s: WithState, does: WithDoes): TemplateResult {
	const words = text.weigh.with;
	return html`<form class="subform" @submit=${(e: Event) => {
		e.preventDefault();
		does.keep(form);
	}}>
		<p>${words.how}</p>
		<label class="field">${words.which}<select @change=${(e: Event) => does.form({ ...form, bedding: (e.target as HTMLSelectElement).value })}>${s.beddings.map(
			(b) => html`<option value=${b.id} ?selected=${b.id === form.bedding}>${b.name}</option>`,
		)}</select></label>
		<label class="field">${words.ten(unitOf(s.mass))}<input type="text" inputmode="decimal" autocomplete="off" .value=${form.typed} @input=${(e: InputEvent) => does.form({ ...form, typed: (e.target as HTMLInputElement).value })}></label>
		${form.fault ? html`<p role="alert">${form.fault}</p>` : nothing}
		<div class="choices"><button type="button" class="plain" @click=${() => does.form(undefined)}>${words.leave}</button>
			<button type="submit" class="plain grow">${words.save}</button></div>
	</form>`;
}

function becomes(fill: FillView, mass: Mass): TemplateResult | typeof nothing {
	if (fill.shares.length === 0) return nothing;
	return html`${section(text.weigh.with.rations)}<ul class="rows becomes">${fill.shares.map(
		(after) => html`<li>${becomesRow(after, mass)}</li>`,
	)}</ul>`;
}

function becomesRow({ share, ration, left }: After, mass: Mass): TemplateResult {
	const words = text.weigh.with;
	const amount = weight(share.grams, mass);
	const row = (drawn: string, head: string, rest: string) =>
		html`${sign(drawn)}<span class="grow"><b>${head}</b><span class="second line">${rest}</span></span>`;
	switch (share.to) {
		case "tray":
			return row(
				left > 0 ? "part" : "all",
				words.into(share.name ?? "", amount),
				left > 0
					? words.left(weight(left, mass))
					: ration < share.grams
						? words.over(weight(ration, mass))
						: words.full,
			);
		case "freezer":
			return row("freeze", words.freezer(amount), words.later);
		default:
			return row("waste", words.waste(amount), words.notFood);
	}
}
