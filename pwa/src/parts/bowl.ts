// A bowl as strata, in the order they lie: by scrap while it is filled, by
// where each part goes once it waits.

import { html, type SVGTemplateResult, svg, type TemplateResult } from "lit";
import type { Frame } from "./fit.ts";
import type { Point } from "./pen.ts";
import { randFrom } from "./rand.ts";
import { type Age, bedding, castings, type Ground, level, lumpsAt } from "./textures.ts";

/** One layer. `age` picks lumps; "grains" and "strokes" are the other textures. */
export interface Layer {
	grams: number;
	texture: Age | "grains" | "strokes";
	label?: string;
	strong?: boolean;
}

const THINNEST = 15; // px: a thinner layer could not be told apart

/** Heights that sum to `room`, none thinner than THINNEST while there is room. */
export function layerHeights(grams: number[], room: number): number[] {
	const least = Math.min(THINNEST, room / Math.max(1, grams.length));
	const total = grams.reduce((a, b) => a + b, 0);
	const wanted = grams.map((g) => (total > 0 ? (room * g) / total : room / grams.length));
	const missing = wanted.reduce((sum, h) => sum + Math.max(0, least - h), 0);
	const spare = wanted.reduce((sum, h) => sum + Math.max(0, h - least), 0);
	return wanted.map((h) =>
		h < least ? least : h - (spare > 0 ? (missing * (h - least)) / spare : 0),
	);
}

function packed(g: Ground, top: number, bottom: number, r: number, rand: () => number): Point[] {
	const points: Point[] = [];
	const rows = Math.max(1, Math.floor((bottom - top) / (r * 2)));
	for (let row = 0; row < rows; row++) {
		const y = top + ((bottom - top) * (row + 0.5)) / rows;
		const [left, right] = [g.left(y) + r + 2, g.right(y) - r - 1];
		const many = Math.max(1, Math.floor((right - left) / (r * 2.15)) + 1);
		for (let i = 0; i < many; i++) {
			const x = many === 1 ? (left + right) / 2 : left + ((right - left) * i) / (many - 1);
			points.push({ x: x + (rand() - 0.5) * 2, y: y + (rand() - 0.5) * 2 });
		}
	}
	return points;
}

/** The bowl and, beside it, its layers' labels on leaders; at large text the
 * labels are left to the list below. */
export function bowlDrawing(
	layers: Layer[],
	seed: string,
	frame: Frame,
	label: string,
	shape: "bowl" | "box" = "bowl",
): TemplateResult {
	const named = layers.some((l) => l.label) && frame.text < 1.35;
	const width = named ? Math.min(172, frame.width * 0.46) : Math.min(172, frame.width);
	const height = Math.max(112, width * 0.78);
	const rand = randFrom(seed);
	const rim = 6;
	const foot = height - 10;
	const lean = shape === "box" ? 0 : width * 0.24;
	const edge = (y: number): number => 8 + (lean * (y - rim)) / (foot - rim);
	const g: Ground = { top: () => 0, bottom: () => foot, left: edge, right: (y) => width - edge(y) };
	const heights = layerHeights(
		layers.map((l) => l.grams),
		foot - rim - 9,
	);
	let y = rim + 7;
	const small = 14 * frame.text;
	let lastLabel = -small;
	const drawn: SVGTemplateResult[] = layers.map((layer, i) => {
		const top = y;
		const bottom = y + (heights[i] ?? 0);
		y = bottom;
		const line = level(rand, g.left(top), g.right(top), top, 1.2);
		const band: Ground = { ...g, top: () => top, bottom: () => bottom };
		const middle = (top + bottom) / 2;
		const labelY = Math.max(middle + small * 0.35, lastLabel + small * 1.25);
		lastLabel = labelY;
		return svg`<path class="surface thin" d=${line.d}/>${filling(layer, band, top, bottom, width / 2, rand)}
			${
				named && layer.label
					? svg`<circle class="dot" cx=${g.right(middle) - 9} cy=${middle} r="2"/>
					<path class="leader" d="M${g.right(middle) - 9} ${middle}L${width + 4} ${labelY - small * 0.35}h6"/>
					<text class=${layer.strong ? "today" : ""} x=${width + 15} y=${labelY}>${layer.label}</text>`
					: ""
			}`;
	});
	return html`<svg class="drawing bowl" role="img" aria-label=${label} width=${named ? frame.width : width} height=${height + 2}>
		${drawn}
		<path class="wall" d=${shape === "box" ? box(width, rim, foot) : `M2 ${rim}h7L${8 + lean} ${foot}H${width - 8 - lean}L${width - 9} ${rim}h7M${width * 0.38} ${foot + 6}H${width * 0.62}`}/>
	</svg>`;
}

/** A freezer's drawer: straight walls, a lid on top. */
const box = (width: number, rim: number, foot: number): string =>
	`M2 ${rim - 3}H${width - 2}M7 ${rim - 3}V${foot}H${width - 7}V${rim - 3}`;

function filling(
	layer: Layer,
	g: Ground,
	top: number,
	bottom: number,
	middle: number,
	rand: () => number,
): SVGTemplateResult {
	switch (layer.texture) {
		case "grains": {
			const points = castings(rand, g, middle);
			return svg`<path class="grain" d=${points.small}/><path class="grain large" d=${points.large}/>`;
		}
		case "strokes":
			return svg`<path class="bedding dark" d=${bedding(rand, g, middle, [], 0.75)}/>`;
		default: {
			const r = Math.min(7.5, (bottom - top) / 2 - 1.5);
			const drawn = lumpsAt(rand, packed(g, top + 1, bottom, r, rand), layer.texture, r);
			return svg`<path class="lump ${layer.texture}" d=${drawn.outline}/><path class="hatch ${layer.texture}" d=${drawn.strokes}/>`;
		}
	}
}

/** Which texture a scrap is drawn with, by its class. */
export function scrapTexture(of: string): Layer["texture"] {
	switch (of) {
		case "grounds":
		case "grit":
			return "grains";
		case "allium":
		case "leafy":
		case "garden":
		case "paper":
			return "strokes";
		case "starch":
		case "hard":
			return "some";
		default:
			return "fresh";
	}
}
