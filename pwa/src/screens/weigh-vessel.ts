// Measuring by a vessel of the household's own: weighed once, filled to a line
// from then on.

import { html, nothing, type TemplateResult } from "lit";
import { type Mass, parseAmount, weight } from "../format.ts";
import { numeral } from "../parts/numeral.ts";
import { fillLines } from "../parts/vessel.ts";
import { text } from "../strings.ts";
import type { Intent, VesselView } from "../types.gen.ts";

/** The form that weighs a vessel; `id` is one that is weighed again. */
export interface VesselForm {
	id: string;
	name: string;
	typed: string;
	fault: string;
}

export const vesselForm = (again?: VesselView): VesselForm => ({
	id: again?.id ?? "",
	name: again?.name ?? "",
	typed: "",
	fault: "",
});

const unitOf = (mass: Mass): "g" | "oz" => (mass === "oz" ? "oz" : "g");

/** The entry that keeps the vessel, or what is wrong with the form. */
export function vesselIntent(form: VesselForm, mass: Mass): { intent: Intent } | { fault: string } {
	const grams = parseAmount(form.typed, unitOf(mass));
	const name = form.name.trim();
	if (!name || !(grams > 0)) return { fault: text.weigh.vesselBad(unitOf(mass)) };
	return {
		intent: { do: "vessel", set: { name, grams }, ...(form.id ? { entity: form.id } : {}) },
	};
}

export interface VesselDoes {
	choose: (id: string) => void;
	fill: (quarters: number) => void;
	form: (form: VesselForm | undefined) => void;
	keep: (form: VesselForm) => void;
	add: () => void;
}

export interface VesselState {
	vessels: VesselView[];
	chosen: VesselView | undefined;
	quarters: number;
	form: VesselForm | undefined;
	addWord: string;
	mass: Mass;
}

const MOST_QUARTERS = 40;

export function vesselPanel(s: VesselState, does: VesselDoes): TemplateResult {
	if (s.form) return formPanel(s.form, s.mass, does);
	const { chosen, mass } = s;
	if (!chosen) {
		return html`<p class="pad">${text.weigh.vesselNone}</p>
			<button type="button" class="plain wide" @click=${() => does.form(vesselForm())}>${text.weigh.vesselNew}</button>`;
	}
	const turn = (by: number): void =>
		does.fill(Math.min(MOST_QUARTERS, Math.max(1, s.quarters + by)));
	const count = text.weigh.fills(s.quarters);
	return html`<div class="picks pad" role="group" aria-label=${text.weigh.modes.vessel}>${s.vessels.map(
		(v) =>
			html`<button type="button" aria-pressed=${v.id === chosen.id ? "true" : "false"} class="pickword ${v.id === chosen.id ? "on" : ""}" @click=${() => does.choose(v.id)}>${v.name}, ${weight(v.grams, mass)}</button>`,
	)}<button type="button" class="pickword" @click=${() => does.form(vesselForm())}>${text.weigh.vesselNew}</button></div>
	<div class="stepper"><button type="button" aria-label=${text.weigh.vesselFewer} @click=${() => turn(-1)}>−</button>
		${fillLines({
			quarters: s.quarters,
			label: text.weigh.fillLabel(chosen.name),
			words: text.weigh.fill,
			brief: text.weigh.fillShort,
			to: does.fill,
		})}
		<button type="button" aria-label=${text.weigh.vesselMore} @click=${() => turn(1)}>+</button></div>
	<p class="vesselsum" aria-live="polite">${numeral({ value: count, unit: `× ${chosen.name}` }, { size: "keyed" })}<span class="second">${weight(Math.round((chosen.grams * s.quarters) / 4), mass)}</span></p>
	<div class="act"><button type="button" class="go ink" @click=${does.add}>${s.addWord}</button></div>
	<button type="button" class="textlink" @click=${() => does.form(vesselForm(chosen))}>${text.weigh.vesselAgain}</button>`;
}

function formPanel(form: VesselForm, mass: Mass, does: VesselDoes): TemplateResult {
	const unit = unitOf(mass);
	return html`<form class="subform" @submit=${(e: Event) => {
		e.preventDefault();
		does.keep(form);
	}}>
		<p>${text.weigh.vesselHow}</p>
		<label class="field">${text.weigh.vesselName}<input type="text" maxlength="40" autocomplete="off" .value=${form.name} @input=${(e: InputEvent) => does.form({ ...form, name: (e.target as HTMLInputElement).value })}></label>
		<label class="field">${text.weigh.vesselGrams(unit)}<input type="text" inputmode="decimal" autocomplete="off" .value=${form.typed} @input=${(e: InputEvent) => does.form({ ...form, typed: (e.target as HTMLInputElement).value })}></label>
		${form.fault ? html`<p role="alert">${form.fault}</p>` : nothing}
		<div class="choices"><button type="button" class="plain" @click=${() => does.form(undefined)}>${text.weigh.vesselCancel}</button>
			<button type="submit" class="plain grow">${text.weigh.vesselSave}</button></div>
	</form>`;
}
