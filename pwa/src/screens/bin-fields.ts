// What the forms of a bin are made of: fields with what is wrong with them just
// below, and choices with a second line.

import { html, nothing, type TemplateResult } from "lit";
import { text } from "../strings.ts";
import type { Fault } from "./bin-form.ts";

export interface Field {
	name: string;
	label: string;
	value: string;
	set: (value: string) => void;
	type?: "text" | "date";
	figure?: boolean; // typed with the keys for numbers
	bad?: boolean; // this is the one to be mended
	latest?: string; // day
	earliest?: string;
	ours?: string; // our own value, shown where nothing is typed
}

export const field = (f: Field): TemplateResult =>
	html`<label class="field">${f.label}<input type=${f.type ?? "text"} name=${f.name}
		inputmode=${f.figure ? "decimal" : "text"} maxlength=${f.figure ? 9 : 60} autocomplete="off"
		max=${f.latest || nothing} min=${f.earliest || nothing} placeholder=${f.ours || nothing}
		aria-invalid=${f.bad ? "true" : "false"} aria-describedby=${f.bad ? FAULT : nothing}
		.value=${f.value} @input=${(e: InputEvent) => f.set((e.target as HTMLInputElement).value)}></label>`;

const FAULT = "bin-fault";

/** What is wrong, where it is one of these. */
export const faultAt = (bad: Fault | "", ...here: Fault[]): TemplateResult | typeof nothing =>
	bad && here.includes(bad)
		? html`<p id=${FAULT} class="fault" role="alert">${text.bins.bad[bad]}</p>`
		: nothing;

/** Brings the field that is to be mended to the thumb. */
export function toFault(screen: HTMLElement): void {
	const fault = screen.querySelector<HTMLElement>(`#${FAULT}`);
	const at =
		screen.querySelector<HTMLElement>("[aria-invalid=true]") ??
		fault?.previousElementSibling?.querySelector<HTMLElement>("button");
	at?.focus();
	fault?.scrollIntoView({ block: "center" });
}

/** Choices by key. With second lines they stand in a column. */
export function picks(
	label: string,
	names: Record<string, string>,
	chosen: string | string[],
	choose: (key: string) => void,
	say: Record<string, string> = {},
): TemplateResult {
	const column = Object.keys(say).length > 0;
	return html`<div class="picks ${column ? "column" : "even"}" role="group" aria-label=${label}>${Object.entries(
		names,
	).map(([key, name]) => {
		const on = Array.isArray(chosen) ? chosen.includes(key) : chosen === key;
		return html`<button type="button" aria-pressed=${on ? "true" : "false"} class="pickword ${on ? "on" : ""}" @click=${() => choose(key)}>${name}${say[key] ? html`<span class="second line">${say[key]}</span>` : nothing}</button>`;
	})}</div>`;
}

/** The caution that stands where jumping worms were chosen. */
export function jumping(): TemplateResult {
	const words = text.bins.jumping;
	return html`<section class="caution" role="status"><h3>${words.title}</h3>
		<p>${words.law}</p><p>${words.looks}</p><p>${words.doing}</p><p class="second">${words.other}</p></section>`;
}

export const isJumping = (species: string): boolean => species === "jumping-worms";

/** The kinds of worms, each with what to know of it. */
export const speciesPicks = (chosen: string, choose: (key: string) => void): TemplateResult =>
	html`${picks(text.bins.species, text.bins.speciesNames, chosen, choose, text.bins.speciesSay)}
		<p class="second">${text.bins.speciesHint}</p>`;
