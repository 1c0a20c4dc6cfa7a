// What a tray's page says about its ration: the number for people, why it is
// that much, and by when the meal should be gone.

import { html, nothing, type TemplateResult } from "lit";
import {
	dayName,
	type Mass,
	massParts,
	rough,
	roughTemperature,
	type Temp,
	weight,
} from "../format.ts";
import "../parts/fit.ts";
import type { Frame } from "../parts/fit.ts";
import { section } from "../parts/header.ts";
import { ledger } from "../parts/ledger.ts";
import { numeral } from "../parts/numeral.ts";
import { promiseDrawing, rationScale, scoreDrawing } from "../parts/scale.ts";
import { vessel } from "../parts/signs.ts";
import { text } from "../strings.ts";
import type { RationView, TrayView } from "../types.gen.ts";
import { rationWords } from "./tray-says.ts";

/** A tray that takes no food, whatever its worms could eat: no sums lead there. */
export const rests = (r: RationView): boolean =>
	r.grams === 0 && r.reasons.some(({ code }) => code === "resting");

/** The number, how sure it is, and what holds it down. `old` is remembered from
 * before the engine started; `day` is the household's now. */
export function rationSays(
	view: TrayView,
	r: RationView,
	{ old, day }: { old: boolean; day: string },
): TemplateResult | typeof nothing {
	if (rests(r)) return nothing;
	const says = rationWords(view, r);
	const fed = view.day === day ? says.fed : ""; // of another day, it is nothing of today's
	const lines = [says.binds, says.move, fed, says.bedding].filter(Boolean);
	if (r.grams === 0 && lines.length === 0) return nothing;
	const number = numeral(massParts(r.grams, view.mass as Mass), { size: "big", sure: r.sure, old });
	return html`<section class="big">
		${
			r.grams === 0
				? nothing
				: html`<div class="bigrow">${number}${says.vessel ? vessel(Math.min(4, r.vessels ?? 4)) : nothing}</div>
		<p>${says.about}<b>${says.vessel}</b>${says.likely}<b>${says.first}</b></p>`
		}
		${lines.map((line) => html`<p class="second">${line}</p>`)}
	</section>`;
}

/** The arithmetic, one tap away. */
export function rationWhy(view: TrayView, r: RationView): TemplateResult | typeof nothing {
	if (rests(r)) return nothing;
	const mass = view.mass as Mass;
	const temp = view.temp as Temp;
	const w = (g: number, of?: { low: number; high: number }): string =>
		weight(of ? rough(g, of, mass) : g, mass);
	const scale = text.tray.scaleLabel(
		w(r.grams),
		w(r.likely.low, r.likely),
		w(r.likely.high, r.likely),
		w(r.rule.low, r.rule),
		w(r.rule.high, r.rule),
	);
	return html`<details class="why">
		<summary>${text.tray.why(w(r.grams))}</summary>
		${ledger(r.reasons, mass, temp, view.day)}
		${r.bedSeen ? nothing : html`<p class="second">${text.tray.bedGuess(roughTemperature(r.bedTemp, temp))}</p>`}
		<fit-frame class="scaleframe" .draw=${(frame: Frame) => rationScale(r, mass, frame, scale)}></fit-frame>
		<p class="second">${text.tray.rule(w(r.rule.low, r.rule), w(r.rule.high, r.rule))}</p>
	</details>`;
}

/** By when the meal should be gone, and how such promises did before. */
export function promised(
	view: TrayView,
	r: RationView,
	p: NonNullable<RationView["promise"]>,
): TemplateResult {
	const name = (day: string): string => dayName(day, view.day);
	const label = text.tray.promiseLabel(name(p.day), name(p.first), name(p.last));
	const [right, kept, last, of] = text.tray.score(p.kept, p.of);
	return html`<section>${section(text.tray.promise(name(p.day)))}
		<fit-frame .draw=${(frame: Frame) => promiseDrawing(p, view.day, r.grams, frame, label)}></fit-frame>
		${
			p.of > 0
				? html`<div class="score"><p>${right}<b>${kept}</b>${last}<b>${of}</b></p><fit-frame .draw=${(frame: Frame) => scoreDrawing(p.kept, p.of, frame)}></fit-frame></div>`
				: html`<p class="second">${text.tray.noScore}</p>`
		}
	</section>`;
}
