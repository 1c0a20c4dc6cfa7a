// The stack on a tray's page: each tray's section with its name, stage and
// worms beside it. A tray is a link; tapping opens it.

import { html, nothing, type TemplateResult } from "lit";
import type { Mass } from "../format.ts";
import { text } from "../strings.ts";
import type { TierView } from "../types.gen.ts";
import { said, spanWords } from "../words.ts";
import type { Frame } from "./fit.ts";
import { type Meal, tierDrawing, tierHeight } from "./stack.ts";

export interface StackLook {
	bin: string;
	open: string; // id of the tray whose page it is
	guess: boolean;
	meal: Meal | undefined;
	today: string;
	mass: Mass;
}

const PLUMB_ROOM = 36; // px above the tray that takes food

function one(tier: TierView, widest: number, look: StackLook, frame: Frame): TemplateResult {
	const scale = (frame.width - 16) / widest;
	const meal = tier.takes ? look.meal : undefined;
	const top = meal ? PLUMB_ROOM : 4;
	const height = Math.ceil(top + tierHeight(tier, scale) + 3);
	return html`<svg class="drawing" aria-hidden="true" width=${frame.width} height=${height}>${tierDrawing(
		tier,
		{
			seed: look.bin + tier.id,
			x: 8 + ((widest - tier.widthMM) * scale) / 2,
			y: top,
			scale,
			guess: look.guess,
			meal,
			today: look.today,
		},
	)}</svg>`;
}

export function tiers(stack: TierView[], look: StackLook): TemplateResult {
	const widest = Math.max(1, ...stack.map((t) => t.widthMM));
	return html`<ol class="tiers">${stack.map((tier) => {
		const here = tier.id === look.open;
		const name = html`<b>${tier.name}</b>`;
		return html`<li>
			<fit-frame .draw=${(frame: Frame) => one(tier, widest, look, frame)}></fit-frame>
			<div>${here ? name : html`<a href="/t/${encodeURIComponent(tier.code || tier.id)}">${name}</a>`}
				<p class="second">${tier.takes ? text.tray.takes : said(text.stages, tier.stage)}</p>
				<p class="second">${tier.worms.mid > 0 ? text.tray.worms(spanWords(tier.worms, look.mass)) : text.tray.noWorms}</p>
				${tier.worms.mid > 0 && look.guess && here ? html`<p class="second">${text.parts.firstGuess}</p>` : nothing}
			</div></li>`;
	})}</ol>`;
}
