// A plan in rows: what to buy, in which order, what comes of it.

import { html, nothing, type TemplateResult } from "lit";
import {
	bulk,
	dayName,
	list,
	type Mass,
	massParts,
	number,
	rough,
	roughTemperature,
	type Temp,
	volume,
	weight,
} from "../format.ts";
import { section } from "../parts/header.ts";
import { numeral } from "../parts/numeral.ts";
import { text } from "../strings.ts";
import type { Made, PlanOption, PlanReach, PlanStep, PlanView } from "../types.gen.ts";
import { said } from "../words.ts";
import { jumping } from "./bin-fields.ts";
import { areaShown, lengthTyped, measures, TRAY_HIGH } from "./bin-form.ts";
import { type Sketch, sketch } from "./bin-sketch.ts";

export function planRows(made: Made, view: PlanView): TemplateResult {
	const words = text.plan;
	const mass = view.mass as Mass;
	const temp = view.temp as Temp;
	if (made.worms === 0) return jumping();
	const degrees = (deci: number): string => roughTemperature(deci, temp);
	return html`${section(words.buy)}
		<p class="second">${scrapsWords(made, mass)}</p>
		<div class="bigrow">${numeral(massParts(made.worms, mass), { sure: "guess" })}</div>
		<p>${words.worms(said(text.bins.speciesNames, made.species))}. <b>${words.guess}</b></p>
		<p class="second">${said(words.wormsBy, made.wormsBy)}</p>
		<ul class="rows">${buyRows(made, mass).map((row) => html`<li>${row}</li>`)}</ul>
		${sketch(planSketch(made, view))}
		${section(words.order)}
		<ol class="rows">${made.steps.map((step) => html`<li><span class="grow">${said(words.steps, step.code)}<b class="line">${stepWords(step, view.day)}</b></span></li>`)}</ol>
		${section(words.whole)}
		${reachWords(made.whole).map((line) => html`<p>${line}</p>`)}
		${section(words.cheaper)}
		<ul class="rows">${made.cheaper.map((o) => html`<li><span class="grow">${said(words.options, o.code)}<span class="second line">${optionWords(o, mass)}</span></span></li>`)}</ul>
		${section(words.suits)}
		<ul class="rows">${made.suits.map(
			(s) =>
				html`<li><span class="grow"><b>${said(text.bins.speciesNames, s.species)}</b>: ${said(words.fits, s.fit)}<span class="second line">${list([...s.reasons.map((r) => said(words.reasons, r)), words.bed(degrees(s.low), degrees(s.high))])}</span></span></li>`,
		)}</ul>
		${section(words.care)}
		<ul class="rows">${made.caution.map((c) => html`<li>${said(words.cautions, c)}</li>`)}</ul>`;
}

/** The stack that is asked for, with what day 0 puts into it. */
function planSketch(made: Made, view: PlanView): Sketch {
	const inside = { width: made.width, depth: made.depth, height: TRAY_HIGH };
	const perStack = Math.ceil(made.all / Math.max(1, made.stacks));
	const names = Array.from({ length: perStack }, (_, i) => text.bins.trayNth(number(i + 1)));
	return {
		...{ names, width: made.width, height: TRAY_HIGH, bedding: 100, worms: made.worms },
		today: view.day,
		label: text.bins.sketch(list(names), measures(inside, view.mass as Mass)),
	};
}

function scrapsWords(made: Made, mass: Mass): string {
	const { mid, low, high } = made.scraps;
	return low === high
		? text.plan.scrapsPlain(bulk(mid, mass))
		: text.plan.scraps(bulk(mid, mass), bulk(low, mass), bulk(high, mass));
}

function buyRows(made: Made, mass: Mass): string[] {
	const words = text.plan;
	const unit = text.bins.areaUnits[mass] ?? "";
	const area = text.bins.areaOf(number(areaShown(made.areaCM2 * 100, mass)), unit);
	const size = `${lengthTyped(made.width, mass)} × ${lengthTyped(made.depth, mass)} ${text.bins.lengthUnits[mass] ?? ""}`;
	const near = (grams: number): string => bulk(rough(grams, { low: 0, high: grams }, mass), mass);
	return [
		words.surface(area),
		words.trays(number(made.fed), size),
		words.all(number(made.all), number(made.stacks)),
		words.bedding(volume(Math.round(made.bedML / 1000) * 1000), near(made.paper)),
		words.water(volume(made.water), weight(made.soil, mass)),
	];
}

function stepWords(step: PlanStep, today: string): string {
	const words = text.plan;
	if (!step.day) return words.noDay;
	const day = dayName(step.day, today);
	return step.late ? words.until(day, dayName(step.late, today)) : words.from(day);
}

function reachWords(r: PlanReach): string[] {
	const words = text.plan;
	if (r.lives < 50) return [words.kills(number(100 - r.lives))];
	const years = words.years(number(r.year1), number(r.year2));
	if (r.never) return [words.never, years];
	const high = r.late ? words.beyond : words.dayCount(r.days.high);
	return [words.days(words.dayCount(r.days.mid), words.dayCount(r.days.low), high), years];
}

function optionWords(o: PlanOption, mass: Mass): string | typeof nothing {
	const words = text.plan;
	const r = o.whole;
	if (!r) return o.week > 0 ? words.takes(bulk(o.week, mass)) : nothing;
	const amount = weight(o.worms, mass);
	if (r.never || r.lives < 50) return words.tooFew(amount);
	if (o.later < 1) return words.soon(amount);
	return words.later(amount, words.dayCount(o.later), number(r.year1));
}
