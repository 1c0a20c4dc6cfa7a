// Small signs, all drawn with one pen round one trough. A sign never stands
// alone: the word and the grams are beside it, so signs are hidden from screen
// readers.

import { html, type SVGTemplateResult, svg, type TemplateResult } from "lit";
import { hatch, type Point } from "./pen.ts";
import { between, randFrom } from "./rand.ts";
import { lump } from "./textures.ts";

const trough = (x: number, y: number, w: number, h: number): string =>
	`M${x - 3} ${y}h4l${w * 0.12} ${h}h${w - 2 - w * 0.24}l${w * 0.12} ${-h}h4`;

function pile(points: Point[], r: number): SVGTemplateResult {
	const rand = randFrom("sign");
	const d = points
		.map(
			(p) =>
				`M${lump(rand, p, r)
					.map((q) => `${q.x.toFixed(1)} ${q.y.toFixed(1)}`)
					.join("L")}Z`,
		)
		.join("");
	return svg`<path class="pile" d=${d}/>`;
}

const low: Point[] = [
	{ x: 17, y: 36 },
	{ x: 24, y: 36.5 },
	{ x: 31, y: 36 },
];
const full: Point[] = [
	...low,
	{ x: 14, y: 30 },
	{ x: 20.5, y: 29.5 },
	{ x: 27.5, y: 30 },
	{ x: 34, y: 30 },
];

const drawings: Record<string, () => SVGTemplateResult> = {
	all: () => svg`<path d=${trough(9, 23, 30, 18)}/>${pile(full, 3.6)}
		<path d="M24 4v12M20 12l4 5 4-5"/>`,
	part: () => svg`<path d=${trough(9, 24, 30, 17)}/>${pile(low, 3.6)}
		<path class="cut" d="M4 18h40"/>
		${pile(
			[
				{ x: 18, y: 12 },
				{ x: 25, y: 8 },
				{ x: 31, y: 12.5 },
			],
			3.6,
		)}`,
	elsewhere: () => svg`<path d=${trough(4, 27, 16, 14)}/><path d=${trough(28, 27, 16, 14)}/>
		${pile(
			[
				{ x: 33.5, y: 37 },
				{ x: 39, y: 37 },
			],
			3,
		)}
		<path d="M12 21C14 8 32 8 36 19M31.500 16.500l5 3.500 2.500-5.500"/>`,
	freeze: () => svg`<path d="M6 11h36M10 11v30h28V11"/>
		<path d="M15 12v9M20 12v6M25 12v11M30 12v6M34 12v8"/>
		${pile(
			[
				{ x: 19, y: 36 },
				{ x: 26, y: 36 },
				{ x: 32, y: 36 },
			],
			3.4,
		)}`,
	cover: () => svg`<path d=${trough(9, 27, 30, 15)}/>
		<path d="M7 25l9-5M15 25l9-6M24 25l9-6M33 25l8-5M12 20l8-3M22 18l8-3"/>
		${pile(
			[
				{ x: 19, y: 37 },
				{ x: 26, y: 37 },
				{ x: 32, y: 37 },
			],
			3,
		)}
		<path d="M10 8h28M10 4v8M19.500 5.500v5M28.500 5.500v5M38 4v8"/>`,
	waste: () => svg`<path d=${trough(5, 25, 22, 16)}/><path d="M3 20l26 24"/>
		<path d="M14 18C16 7 31 6 35 16M30 14l5.500 3 2-6"/>
		${pile(
			[
				{ x: 36, y: 26 },
				{ x: 41, y: 32 },
				{ x: 35, y: 34 },
			],
			3.4,
		)}`,
	// A lid on the trough, barred, and the lumps outside on it.
	never: () => svg`<path d=${trough(9, 24, 30, 17)}/><path d="M4 21h40M12 27l24 11M36 27L12 38"/>
		${pile(
			[
				{ x: 17, y: 15 },
				{ x: 24, y: 14.5 },
				{ x: 31, y: 15 },
			],
			3.6,
		)}`,
	// Two records, torn: this phone may not know of every feeding.
	missing: () => svg`<path d="M5 12h14M27 12h4M37 12h6M5 24h8M20 24h23M5 36h18M31 36h12"/>`,
};

/** The sign of an answer ("all", "part", …) or "missing". */
export function sign(name: string, large = false): TemplateResult {
	return html`<svg class="sign ${large ? "large" : ""}" viewBox="0 0 48 48" aria-hidden="true">
		${(drawings[name] ?? drawings.all)?.()}</svg>`;
}

/** Verdicts of food use the signs of what to do with a bowl. */
export const verdictSign = (verdict: string): TemplateResult =>
	sign({ good: "all", little: "part", avoid: "waste", never: "never" }[verdict] ?? "all");

/** A measure filled with lumps, `quarters` of it. */
export function vessel(quarters: number): TemplateResult {
	const rand = randFrom("vessel");
	const share = Math.max(1, Math.min(4, quarters)) / 4;
	const rows = Math.max(1, Math.round(5 * share));
	let lumps = "";
	let strokes = "";
	for (let row = 0; row < rows; row++) {
		for (let col = 0; col < 4; col++) {
			const p = { x: 21 + col * 12.4 + (row % 2 ? 2 : 0) + between(rand, -1, 1), y: 77 - row * 13 };
			if (p.x > 62) continue;
			const points = lump(rand, p, 6.2);
			lumps += `M${points.map((q) => `${q.x.toFixed(1)} ${q.y.toFixed(1)}`).join("L")}Z`;
			strokes += hatch(points, 52, 3);
		}
	}
	return html`<svg class="vessel" viewBox="0 0 96 92" aria-hidden="true">
		<path class="lump today" d=${lumps}/><path class="hatch today" d=${strokes}/>
		<path class="wall" d="M8 8l4 80h52l4-80"/>
		<path class="wall thin" d="M66 28c24-6 26 36-1 34M8.500 24h7M9.500 42h6M10.500 60h6"/></svg>`;
}

const clump = "M10 20c-2-8 6-13 14-11 7-4 17-2 18 5 5 6-1 12-8 11-6 4-21 4-24-5Z";
const drop = (x: number, y: number): string =>
	`M${x} ${y}c-2.500 4-4 6-4 8a4 4 0 0 0 8 0c0-2-1.500-4-4-8Z`;

const squeezed: Record<string, () => SVGTemplateResult> = {
	crumbles: () =>
		svg`<path d="M8 14l8-3M22 8l9 3M36 14l8-2M12 24l7 2M26 22l8-3M38 28l7 2M10 36l8-2M24 36l7 3M36 42l6-2M18 46l5 1"/>`,
	holds: () => svg`<path d=${clump}/><path d="M18 17l7-2M27 20l8-1"/>`,
	"one-drop": () => svg`<path d=${clump}/><path class="full" d=${drop(25, 34)}/>`,
	"few-drops": () =>
		svg`<path d=${clump}/><path class="full" d=${drop(15, 33) + drop(36, 33) + drop(25.5, 39)}/>`,
	runs: () =>
		svg`<path d=${clump}/><path d="M16 31c-2 4 2 6 0 12M23 31c-2 4 2 6 0 12M30 31c-2 4 2 6 0 12M37 31c-2 4 2 6 0 12M12 47h29"/>`,
};

/** A squeezed handful: what comes out, never a percentage. */
export const squeeze = (name: string): TemplateResult =>
	html`<svg class="pic" viewBox="0 0 52 54" aria-hidden="true">${squeezed[name]?.()}</svg>`;

/** The same as a mark within a drawing, `size` px wide. */
export const squeezeMark = (name: string, x: number, y: number, size: number): SVGTemplateResult =>
	svg`<svg class="pic" x=${x} y=${y} width=${size} height=${size} viewBox="0 0 52 54">${squeezed[name]?.()}</svg>`;

const left: Record<string, Point[]> = {
	none: [],
	hard: [],
	some: [
		{ x: 24, y: 31 },
		{ x: 32, y: 34 },
		{ x: 40, y: 31 },
	],
	half: [
		{ x: 17, y: 33 },
		{ x: 25, y: 29 },
		{ x: 33, y: 34 },
		{ x: 41, y: 28 },
		{ x: 47, y: 34 },
		{ x: 30, y: 23 },
	],
	most: [
		{ x: 15, y: 33 },
		{ x: 23, y: 34 },
		{ x: 31, y: 33 },
		{ x: 39, y: 34 },
		{ x: 47, y: 33 },
		{ x: 18, y: 25 },
		{ x: 27, y: 25 },
		{ x: 36, y: 26 },
		{ x: 45, y: 25 },
		{ x: 24, y: 17 },
		{ x: 33, y: 17 },
	],
};

/** What may be left of a meal, drawn in its tray. */
export function leftovers(name: string): TemplateResult {
	const hard =
		name === "hard"
			? svg`<path class="hard" d="M20 22l9 9M40 21l-7 7M24 36h13M43 33a5 5 0 1 0 .1 0"/>`
			: "";
	return html`<svg class="pic" viewBox="0 0 64 52" aria-hidden="true">
		<path d="M5 6h3l5 39h38l5-39h3"/><path class="soft" d="M14 38l9 2M28 39l9-2M41 40l8-2M20 43l9 0M35 43l9 0"/>
		${pile(left[name] ?? [], 4.4)}${hard}</svg>`;
}
