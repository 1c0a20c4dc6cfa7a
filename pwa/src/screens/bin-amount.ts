// How much worms there were: weighed, about, or counted.

import { html, nothing, type TemplateResult } from "lit";
import { type Mass, number, weight } from "../format.ts";
import { text } from "../strings.ts";
import type { BinSheet } from "../types.gen.ts";
import { faultAt, field, picks } from "./bin-fields.ts";
import { type AmountBy, countedGrams, eachMG, type Fault, type Worms } from "./bin-form.ts";
import { decimal } from "./look-seen.ts";

export function amountFields(
	worms: Worms,
	species: string,
	view: BinSheet,
	bad: Fault | "",
	set: (change: Partial<Worms>) => void,
	ways: AmountBy[] = ["weighed", "about", "counted"],
): TemplateResult {
	const words = text.bins;
	const mass = view.mass as Mass;
	const counted = worms.by === "counted";
	const names = Object.fromEntries(ways.map((by) => [by, words.amountBy[by] ?? by]));
	const grams = counted ? countedGrams(decimal(worms.amount), species, view) : 0;
	return html`${ways.length > 1 ? picks(words.amountHow, names, worms.by, (by) => set({ by: by as AmountBy })) : nothing}
		${field({
			name: "amount",
			label: counted ? words.count : words.amount(mass),
			value: worms.amount,
			figure: true,
			bad: bad === "amount",
			set: (amount) => set({ amount }),
		})}
		${faultAt(bad, "amount")}
		${grams > 0 ? html`<p class="second">${words.countOurs(weight(grams, mass), number(eachMG(species, view) / 1000, 2))}</p>` : nothing}
		${worms.by === "about" ? html`<p class="second">${words.aboutHint}</p>` : nothing}`;
}
