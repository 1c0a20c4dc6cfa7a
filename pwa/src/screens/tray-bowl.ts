// What of a waiting bowl goes into this tray, and of which one where several
// wait.

import { html, nothing, type TemplateResult } from "lit";
import { type Mass, weight } from "../format.ts";
import { fold } from "../parts/fold.ts";
import { text } from "../strings.ts";
import type { Bowl, TrayView } from "../types.gen.ts";
import { bowlWords } from "../words.ts";
import type { FromBowl } from "./tray-feed.ts";

/** The view with the chosen bowl in front, where everything looks for it. */
export function chosenFirst(view: TrayView, bowl: string | undefined): TrayView {
	const front = view.bowls.filter((b) => b.id === bowl);
	return front.length === 0
		? view
		: { ...view, bowls: [...front, ...view.bowls.filter((b) => b.id !== bowl)] };
}

export interface BowlPick {
	choice: FromBowl;
	dialled: number;
	choose: (choice: FromBowl) => void;
	take: (bowl: Bowl) => void; // another of the bowls
}

export function bowlPick(view: TrayView, pick: BowlPick): TemplateResult | typeof nothing {
	const bowl = view.bowls[0];
	if (!bowl) return nothing;
	const mass = view.mass as Mass;
	const here = Math.min(pick.dialled, bowl.grams);
	const rest = weight(bowl.grams - here, mass);
	const words: [FromBowl, string][] = [
		["all", text.tray.bowlAll(bowl.grams > 0 ? weight(bowl.grams, mass) : text.weigh.some)],
	];
	if (bowl.grams > here && here > 0) {
		words.push(
			["freeze-rest", text.tray.bowlRest(weight(here, mass), rest)],
			["part", text.tray.bowlPart(weight(here, mass), rest)],
		);
	}
	words.push(["none", text.tray.bowlNone]);
	return html`<details class="who bowlpick"><summary><span><b>${words.find(([c]) => c === pick.choice)?.[1] ?? ""}</b><span class="second line">${bowlWords(bowl, mass, view.day)}</span></span><span class="change">${text.parts.change}</span></summary>
		${
			view.bowls.length > 1
				? html`<div class="picks" role="group" aria-label=${text.tray.bowlWhich}>${[...view.bowls]
						.sort((a, b) => a.at.localeCompare(b.at))
						.map(
							(b) =>
								html`<button type="button" aria-pressed=${b === bowl ? "true" : "false"} class="pickword ${b === bowl ? "on" : ""}" @click=${() => pick.take(b)}>${bowlWords(b, mass, view.day)}</button>`,
						)}</div>`
				: nothing
		}
		<div class="picks" role="group" aria-label=${text.tray.bowlChoice}>${words.map(
			([c, label]) =>
				html`<button type="button" aria-pressed=${c === pick.choice ? "true" : "false"} class="pickword ${c === pick.choice ? "on" : ""}" @click=${(
					e: Event,
				) => {
					pick.choose(c);
					fold(e);
				}}>${label}</button>`,
		)}</div></details>`;
}
