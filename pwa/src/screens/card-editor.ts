// One day of a paper card, opened: who, how much, what was left, how warm.

import { html, nothing, type TemplateResult } from "lit";
import {
	GRAMS_PER_OUNCE,
	type Mass,
	parseAmount,
	plainNumber,
	type Temp,
	tempParts,
	weight,
} from "../format.ts";
import { leftovers } from "../parts/signs.ts";
import { whoChooser } from "../parts/who.ts";
import { text } from "../strings.ts";
import type { CardDay, CardTray, CardView, VesselView } from "../types.gen.ts";
import { said } from "../words.ts";
import { type Row, withVessel } from "./card-rows.ts";
import { typedNumber } from "./labels-form.ts";

const LEFTS = ["none", "hard", "some", "half", "most"];
// Half a vessel a tap: cards say "1" and "1½".
const STEP = 2;

interface Editing {
	row: Row;
	trays: CardTray[];
	day: CardDay;
	view: CardView;
	change(row: Row): void;
	close(): void;
}

/** Quarters of a vessel as a figure: 1, ½, 2¼. */
export function quarterWords(quarters: number): string {
	const whole = Math.floor(quarters / 4);
	const part = ["", "¼", "½", "¾"][quarters % 4] ?? "";
	return `${whole > 0 ? whole : ""}${part}` || "0";
}

/** Tenths of a degree Celsius of what was typed in the household's unit; null
 * for nothing, NaN if it is no number. */
export function typedTemp(typed: string, temp: Temp): number | null {
	if (typed.trim() === "") return null;
	const value = typedNumber(typed);
	return Math.round(temp === "C" ? value * 10 : ((value - 32) * 50) / 9);
}

export function cardEditor({ row, trays, day, view, change, close }: Editing): TemplateResult {
	const words = text.card;
	const mass = view.mass as Mass;
	const temp = view.temp as Temp;
	const typedGrams = (e: InputEvent): void => {
		const field = e.target as HTMLInputElement;
		const grams = field.value.trim() === "" ? 0 : parseAmount(field.value, mass);
		field.setCustomValidity(Number.isNaN(grams) ? words.badAmount : "");
		field.reportValidity();
		if (Number.isNaN(grams)) return;
		change({ ...row, grams, vessel: "", quarters: 0, weighed: grams > 0, sure: false });
	};
	const typedBed = (e: InputEvent): void => {
		const field = e.target as HTMLInputElement;
		const deci = typedTemp(field.value, temp);
		field.setCustomValidity(Number.isNaN(deci) ? words.badTemp : "");
		field.reportValidity();
		if (!Number.isNaN(deci)) change({ ...row, temp: deci });
	};
	const grams = mass === "g" ? row.grams : row.grams / GRAMS_PER_OUNCE;
	return html`<div class="rowedit" @keydown=${(e: KeyboardEvent) => e.key === "Escape" && close()}>
		${view.vessels.map((v) => vesselRow(v, row, view, change))}
		<label class="field">${words.grams(mass)}<input type="text" inputmode="decimal" maxlength="7" autocomplete="off"
			.value=${row.weighed ? plainNumber(grams, mass === "g" ? 0 : 1) : ""} @change=${typedGrams}></label>
		<p class="second" id=${`left-${day.day}`}>${words.left}</p>
		<div class="picks even leftpicks" role="group" aria-labelledby=${`left-${day.day}`}>${LEFTS.map(
			(
				left,
			) => html`<button type="button" aria-pressed=${row.left === left ? "true" : "false"} class="pickword ${row.left === left ? "on" : ""}"
				@click=${() => change({ ...row, left: row.left === left ? "" : left })}>${leftovers(left)}<span>${said(text.leftovers, left)}</span></button>`,
		)}</div>
		<label class="field">${words.bed(tempParts(0, temp).unit)}<input type="text" inputmode="decimal" maxlength="6" autocomplete="off"
			.value=${row.temp === null ? "" : tempParts(row.temp, temp).value} @change=${typedBed}></label>
		${trays.length > 1 ? trayPicks(row, trays, day, change) : nothing}
		${whoChooser(words.who, row.who, view.members, (who) => change({ ...row, who }))}
		${
			row.grams > 0
				? html`<label class="check"><input type="checkbox" .checked=${row.about} @change=${() => change({ ...row, about: !row.about })}><span>${words.about}</span></label>`
				: nothing
		}
		<button type="button" class="plain wide" @click=${close}>${words.done}</button>
	</div>`;
}

/** Where the meal went, or what was looked at. */
function trayPicks(
	row: Row,
	trays: CardTray[],
	day: CardDay,
	change: (row: Row) => void,
): TemplateResult {
	const words = text.card;
	return html`<p class="second" id=${`tray-${day.day}`}>${words.tray}</p>
		<div class="picks" role="group" aria-labelledby=${`tray-${day.day}`}>${trays.map((t) => {
			const on = t.id === (row.tray || day.tray);
			return html`<button type="button" aria-pressed=${on ? "true" : "false"} class="pickword ${on ? "on" : ""}" @click=${() => change({ ...row, tray: t.id === day.tray ? "" : t.id })}>${t.name}</button>`;
		})}</div>`;
}

function vesselRow(
	v: VesselView,
	row: Row,
	view: CardView,
	change: (row: Row) => void,
): TemplateResult {
	const words = text.card;
	const count = row.vessel === v.id ? row.quarters : 0;
	return html`<div class="countrow"><span class="grow"><b>${v.name}</b> <span class="second">${weight(v.grams, view.mass as Mass)}</span></span>
		<button type="button" class="plain" aria-label=${words.less(v.name)} ?disabled=${count === 0} @click=${() => change(withVessel(row, view, v.id, count - STEP))}>−</button>
		<output class="figure">${quarterWords(count)}</output>
		<button type="button" class="plain" aria-label=${words.more(v.name)} @click=${() => change(withVessel(row, view, v.id, count + STEP))}>+</button></div>`;
}
