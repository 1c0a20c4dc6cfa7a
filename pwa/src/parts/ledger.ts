// The arithmetic behind a ration: rows that sum, the result under a double rule.

import { html, nothing, svg, type TemplateResult } from "lit";
import { type Mass, number, rough, roughTemperature, type Temp, weight } from "../format.ts";
import { text } from "../strings.ts";
import type { Reason } from "../types.gen.ts";
import { reasonWords } from "../words.ts";
import { randFrom } from "./rand.ts";
import { type Ground, heap, lumpsAt, wormPlaces, wormsAt } from "./textures.ts";

/** A ledger row ready to be set. */
export interface Row {
	code: string;
	sign: string; // operator in the margin
	words: string;
	value: string;
	kind: "row" | "part" | "beside" | "total";
}

/** Whether a row only stands beside the sum, to compare with. */
const beside = (r: Reason): boolean => r.op === "compare";

/** The value of a row in the unit it is meant in. */
export function reasonValue(r: Reason, mass: Mass, temp: Temp): string {
	if (beside(r)) {
		const end = (g = 0): string =>
			weight(rough(g, { low: r.from ?? 0, high: r.to ?? 0 }, mass), mass);
		return text.section.span(end(r.from), end(r.to));
	}
	if (r.unit === "g") return weight(r.milli / 1000, mass);
	if (r.unit === "°C") return roughTemperature(r.milli / 100, temp);
	return number(r.milli / 1000, 3);
}

/** Sets the reasons as rows: the last is the total, stated sums between are
 * partial ones. Rounding is said in the total's own row; what only stands beside
 * the sum carries no sign. */
export function ledgerRows(reasons: Reason[], mass: Mass, temp: Temp, today: string): Row[] {
	const last = reasons.length - 1;
	const rounding = reasons[last - 1];
	const isRounded = rounding?.code === "rounding";
	return reasons.flatMap((r, i): Row[] => {
		const value = reasonValue(r, mass, temp);
		if (i === last) {
			const exact = weight((r.milli - (isRounded ? rounding.milli : 0)) / 1000, mass);
			const words = isRounded
				? text.rounded(exact, rounding.milli > 0)
				: reasonWords(r, mass, today);
			return [{ code: r.code, sign: "", words, value, kind: "total" }];
		}
		if (isRounded && i === last - 1) return [];
		const kind = r.sum ? "part" : beside(r) ? "beside" : "row";
		return [
			{
				code: r.code,
				sign: beside(r) ? "" : (r.op ?? ""),
				words: reasonWords(r, mass, today),
				value,
				kind,
			},
		];
	});
}

const ground: Ground = { top: () => 0, bottom: () => 30, left: () => 0, right: () => 42 };

/** The swatch of the material a reason is about. */
function swatch(code: string): TemplateResult | undefined {
	const rand = randFrom(code);
	if (code === "worms") {
		const lines = wormsAt(rand, wormPlaces(rand, ground, 21, 6, [], []));
		return html`<svg class="swatch" viewBox="0 0 42 30" aria-hidden="true">${svg`<path class="halo" stroke-width="8" d=${lines}/><path class="worm" stroke-width="2.2" d=${lines}/>`}</svg>`;
	}
	if (code === "lying") {
		const drawn = lumpsAt(rand, heap(rand, ground, { x: 21, y: 15 }, 5, 4, []), "nearly", 9);
		return html`<svg class="swatch" viewBox="0 0 42 30" aria-hidden="true">${svg`<path class="lump nearly" d=${drawn.outline}/>`}</svg>`;
	}
	return undefined;
}

export function ledger(reasons: Reason[], mass: Mass, temp: Temp, today: string): TemplateResult {
	const rows = ledgerRows(reasons, mass, temp, today);
	return html`<table class="ledger"><tbody>${rows.map((row) => {
		const picture = swatch(row.code);
		const op = picture && row.sign === "−" ? "" : row.sign;
		return html`<tr class=${row.kind}>
			<td class="margin">${op ? html`<span class="op" aria-hidden="true">${op}</span><span class="vh">${text.parts.operators[op]}</span>` : picture ? html`${picture}<span class="vh">${text.parts.operators[row.sign] ?? ""}</span>` : nothing}</td>
			<th scope="row">${picture && row.sign === "−" ? "− " : ""}${row.words}</th><td class="figure">${row.value}</td></tr>`;
	})}</tbody></table>`;
}
