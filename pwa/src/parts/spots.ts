// The tray from above, its front edge at the bottom: nine places, each with the
// age of what lies there. Each place is a button; tapping says where the food went.

import { html, nothing, svg, type TemplateResult } from "lit";
import { dateBrief, daysBetween } from "../format.ts";
import { text } from "../strings.ts";
import type { SpotView } from "../types.gen.ts";
import { randFrom } from "./rand.ts";
import { plumb } from "./stack.ts";
import { type Age, bedding, type Ground, heap, lumpsAt } from "./textures.ts";

const SIZE = 64;

function picture(spot: SpotView, tray: string, today: string): TemplateResult {
	const rand = randFrom(tray + spot.spot);
	const ground: Ground = {
		top: () => 1,
		bottom: () => SIZE - 3,
		left: () => 2,
		right: () => SIZE + 18,
	};
	const middle = { x: SIZE / 2 + 10, y: SIZE / 2 };
	const days = spot.day ? daysBetween(spot.day, today) : 99;
	const age: Age = days <= 2 ? "fresh" : days <= 6 ? "some" : "nearly";
	const r = age === "fresh" ? 7 : age === "some" ? 5.2 : 3.2;
	const count = spot.left > 0 ? Math.min(11, Math.max(3, Math.round(spot.left / 12))) : 0;
	const drawn = lumpsAt(rand, heap(rand, ground, middle, count, r, []), age, 7);
	return html`<svg class="drawing" viewBox="0 0 84 64" aria-hidden="true">
		${
			spot.next
				? svg`<path class="bedding" d=${bedding(rand, { ...ground, top: () => 40 }, middle.x, [], 0.8)}/>
				<ellipse class="nextring" cx="42" cy="32" rx="39" ry="29"/>${plumb(42, 12, 30)}`
				: count === 0
					? svg`<path class="bedding" d=${bedding(rand, ground, middle.x, [], 0.8)}/>`
					: nothing
		}
		<g class="lumps"><path class="lump ${age}" d=${drawn.outline}/><path class="hatch ${age}" d=${drawn.strokes}/></g></svg>`;
}

export interface Plan {
	tray: string;
	today: string;
	chosen: string; // the place the food goes to, "" for none
	dropped: string; // the place of the meal just written down: it is seen to land there
	choose: (spot: string) => void;
}

export function spotPlan(
	spots: SpotView[],
	{ tray, today, chosen, dropped, choose }: Plan,
): TemplateResult {
	return html`<div class="spots" role="group" aria-label=${text.tray.spotsLabel}>
		${spots.map((s) => {
			const name = text.spots[s.spot as keyof typeof text.spots] ?? s.spot;
			const on = chosen === s.spot;
			return html`<button type="button" aria-pressed=${on ? "true" : "false"}
				class="spot ${on ? "on" : ""} ${s.next ? "next" : ""} ${s.spot === dropped && s.day === today ? "dropped" : ""}"
				aria-label=${text.tray.spotSays(name, s.next === true, s.day ? dateBrief(s.day) : "")}
				@click=${() => choose(on ? "" : s.spot)}>
				${picture(s, tray, today)}
				<span>${s.next ? text.tray.nextSpot : s.day ? dateBrief(s.day) : "–"}</span></button>`;
		})}
	</div><p class="caption front">${text.tray.front}</p>`;
}
