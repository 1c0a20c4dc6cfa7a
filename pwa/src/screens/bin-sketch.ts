// A bin that is only thought of, drawn to scale: its trays as they are described,
// bedding in the lowest, worms as dots because nobody has weighed them there.

import { html, type TemplateResult } from "lit";
import "../parts/fit.ts";
import type { Frame } from "../parts/fit.ts";
import { miniStack } from "../parts/stack.ts";
import type { TierView } from "../types.gen.ts";

export interface Sketch {
	names: string[]; // of the trays, from the bottom up
	width: number; // mm inside
	height: number;
	bedding: number; // mm in the lowest
	worms: number; // g
	today: string;
	label: string;
}

export function sketchTiers(s: Sketch): TierView[] {
	return s.names
		.map((name, i): TierView => {
			const lowest = i === 0;
			const grams = lowest ? s.worms : 0;
			const bedding = lowest ? Math.min(s.bedding, s.height * 0.8) : 0;
			return {
				...{ id: `sketch/${i}`, name, code: "", takes: false, scraps: [] },
				...{ stage: bedding > 0 ? "bedded" : "emptied", stageDay: 0 },
				...{ widthMM: s.width, heightMM: s.height, beddingMM: bedding },
				...{ castingsMM: 0, castingsG: 0 },
				worms: { mid: grams, low: grams * 0.7, high: grams * 1.4 },
			};
		})
		.reverse();
}

export const sketch = (s: Sketch): TemplateResult =>
	html`<fit-frame class="sketch" .draw=${(frame: Frame) =>
		miniStack(sketchTiers(s), {
			...{ bin: "sketch", width: frame.width, guess: true, meal: undefined },
			...{ today: s.today, label: s.label },
		})}></fit-frame>`;
