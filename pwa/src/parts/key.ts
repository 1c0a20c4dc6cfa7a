// The key of the section: one swatch for every material, and what the kinds of
// line say.

import { html, type SVGTemplateResult, svg, type TemplateResult } from "lit";
import { text } from "../strings.ts";
import { randFrom } from "./rand.ts";
import {
	type Age,
	bedding,
	castings,
	cocoonsAt,
	freeLevels,
	type Ground,
	heap,
	lumpsAt,
	wormPlaces,
	wormsAt,
} from "./textures.ts";

const WIDE = 64;
const HIGH = 40;
const ground: Ground = {
	top: () => 0,
	bottom: () => HIGH,
	left: () => 0,
	right: () => WIDE,
};
const middle = { x: WIDE / 2, y: HIGH / 2 };
const rand = () => randFrom("key");

function lumps(age: Age): SVGTemplateResult {
	const r = { today: 7, fresh: 7, some: 5.2, nearly: 3.4 }[age as string] ?? 7;
	const drawn = lumpsAt(rand(), heap(rand(), ground, middle, 6, r, []), age, 7);
	return svg`<path class="lump ${age}" d=${drawn.outline}/><path class="hatch ${age}" d=${drawn.strokes}/>`;
}

function worms(guess: boolean): SVGTemplateResult {
	const lines = wormsAt(rand(), wormPlaces(rand(), ground, middle.x, 6, [], []));
	return svg`<path class="halo" d=${lines} stroke-width=${guess ? 11 : 6}/><path class="worm ${guess ? "guess" : ""}" d=${lines} stroke-width="2.200"/>`;
}

function grains(): SVGTemplateResult {
	const points = castings(rand(), ground, middle.x);
	return svg`<path class="grain" d=${points.small}/><path class="grain large" d=${points.large}/>`;
}

const swatch = (drawing: SVGTemplateResult, words: string): TemplateResult =>
	html`<li><svg class="drawing" aria-hidden="true" width=${WIDE} height=${HIGH} viewBox="0 0 ${WIDE} ${HIGH}">${drawing}</svg><span>${words}</span></li>`;

/** The whole key; `stroke` is what one stroke of worms stands for. */
export function sectionKey(stroke: string): TemplateResult {
	const words = text.section.materials;
	return html`<ul class="keyrows">
		${swatch(lumps("today"), words.today)}${swatch(lumps("fresh"), words.fresh)}
		${swatch(lumps("some"), words.some)}${swatch(lumps("nearly"), words.nearly)}
		${swatch(svg`<path class="bedding" d=${bedding(rand(), ground, middle.x, [])}/>`, words.bedding)}
		${swatch(grains(), words.castings)}
		${swatch(svg`<path class="surface" d="M1 8H${WIDE - 1}"/><path class="waterline" d=${freeLevels(rand(), 2, WIDE - 2, 8, HIGH)}/>`, words.liquid)}
		${swatch(svg`<path class="cocoon" d=${cocoonsAt(rand(), wormPlaces(rand(), ground, middle.x, 5, [], []))}/>`, words.cocoons)}
		${swatch(worms(true), text.section.wormKeyGuess)}
		</ul><ul class="keyrows wide">
		${swatch(worms(false), text.section.wormKey(stroke))}
		${swatch(svg`<path class="surface" d="M2 14H${WIDE - 2}"/><path class="contact" d="M2 27H${WIDE - 2}"/>`, text.section.linesKey)}</ul>`;
}
