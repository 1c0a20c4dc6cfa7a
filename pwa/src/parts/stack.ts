// The bin as a section, to scale from the record: walls ruled, what lives in
// them drawn by hand. One tray is one function, so that the small picture on
// Today and the tall one on a tray's page are the same drawing in two sizes.

import { html, nothing, type SVGTemplateResult, svg, type TemplateResult } from "lit";
import type { Portion, TierView } from "../types.gen.ts";
import type { Disc, Point } from "./pen.ts";
import { randFrom } from "./rand.ts";
import {
	type Age,
	bedding,
	castings,
	type Ground,
	heap,
	heapOn,
	level,
	lumpsAt,
	worms,
} from "./textures.ts";

/** Today's meal as the drawing shows it. */
export interface Meal {
	grams: number;
	spot?: string | undefined;
}

export interface TierLook {
	seed: string; // bin and tray
	x: number; // left end of the rim, px
	y: number; // rim, px
	scale: number; // px per mm
	mini?: boolean;
	guess?: boolean; // worms and contacts from a first guess: dotted
	meal?: Meal | undefined;
	today: string;
}

// One stroke stands for so many grams of worms, one lump for so many of scraps.
const WORM_GRAMS = { large: 20, mini: 100 };
const LUMP_GRAMS = { large: 20, mini: 45 };
const MOST_WORMS = { large: 60, mini: 12 };
const MOST_LUMPS = { large: 14, mini: 6 };

/** Age of scraps for the eye: two days fresh, a quarter left nearly gone. */
export function ageOf(p: Portion, today: string): Age {
	if (p.left * 4 < p.fed) return "nearly";
	const days = (Date.parse(today) - Date.parse(p.day)) / 86_400_000;
	return days <= 2 ? "fresh" : "some";
}

/** How far across the tray a place is, 0 to 1, seen from the front. */
export function across(spot: string | undefined): number {
	if (spot?.includes("left")) return 0.22;
	if (spot?.includes("right")) return 0.78;
	return 0.5;
}

/** Width of the pale border round a worm's stroke, in px: as wide as the
 * colony's range is to its middle, at most 11 more than the stroke. */
export function haloWidth(
	worms: { mid: number; low: number; high: number },
	stroke: number,
): number {
	if (worms.mid <= 0) return stroke;
	const half = (worms.high - worms.low) / 2;
	return Math.round((stroke + Math.min(11, 2 + (14 * half) / worms.mid)) * 10) / 10;
}

/** Height in px that a tier takes, its rim and floor included. */
export const tierHeight = (tier: TierView, scale: number): number =>
	Math.max(14, tier.heightMM * scale);

/** One tray. */
export function tierDrawing(tier: TierView, look: TierLook): SVGTemplateResult {
	const { x, y, scale, mini = false, guess = false, meal } = look;
	const rand = randFrom(look.seed);
	const size = mini ? 0.62 : 1;
	const kind = mini ? "mini" : "large";
	const width = tier.widthMM * scale;
	const height = tierHeight(tier, scale);
	const lean = Math.min(9, width * 0.035); // walls lean in towards the floor
	const floor = y + height;
	const wall = {
		left: (v: number) => x + (lean * (v - y)) / height,
		right: (v: number) => x + width - (lean * (v - y)) / height,
	};
	const room = height * 0.94;
	const cast = Math.min(room, tier.castingsMM * scale);
	const fill = Math.min(room, cast + tier.beddingMM * scale);
	const middle = x + width / 2;

	const surface = level(
		rand,
		wall.left(floor - fill),
		wall.right(floor - fill),
		floor - fill,
		mini ? 1 : 3,
	);
	const contact = level(
		rand,
		wall.left(floor - cast),
		wall.right(floor - cast),
		floor - cast,
		mini ? 0.8 : 2.5,
	);
	const deep: Ground = { ...wall, top: contact.y, bottom: () => floor };
	const upper: Ground = {
		...wall,
		top: surface.y,
		bottom: (at) => (cast > 3 ? contact.y(at) : floor),
	};
	const whole: Ground = { ...wall, top: surface.y, bottom: () => floor };

	// Scraps lie where they were fed, the newest nearest the surface.
	const taken: Disc[] = [];
	const lumps: SVGTemplateResult[] = [];
	let mealTop = 0;
	const lay = (age: Age, grams: number, across: number, depth: number): void => {
		const r = (mini ? 5 : 9) * (age === "some" ? 0.74 : age === "nearly" ? 0.46 : 1);
		const count = Math.min(MOST_LUMPS[kind], Math.max(2, Math.round(grams / LUMP_GRAMS[kind])));
		const at: Point = { x: x + width * across, y: 0 };
		at.y = surface.y(at.x) + r * 1.5 + depth * Math.max(0, fill - r * 3);
		// In a thin bed food lies on it, not in it.
		const places =
			fill < r * 3.2
				? heapOn(rand, at.x, surface.y(at.x) - 1, count, r)
				: heap(rand, whole, at, count, r, taken);
		if (age === "today") mealTop = Math.min(...places.map((p) => p.y - r), surface.y(at.x));
		const drawn = lumpsAt(rand, places, age, mini ? 5 : 9);
		taken.push(...drawn.clear);
		lumps.push(svg`<path class="lump ${age} ${guess ? "guess" : ""}" d=${drawn.outline}/>
			<path class="hatch ${age}" d=${drawn.strokes}/>`);
	};
	const mealAt = across(meal?.spot);
	if (meal && meal.grams > 0) lay("today", meal.grams, mealAt, 0);
	[...tier.scraps]
		.sort((a, b) => b.day.localeCompare(a.day))
		.slice(0, mini ? 2 : 5)
		.forEach((p, i) => {
			if (p.left > 0)
				lay(ageOf(p, look.today), p.left, across(p.spot), Math.min(0.6, 0.1 + i * 0.16));
		});

	const points = cast > 3 ? castings(rand, deep, middle) : { small: "", large: "" };
	const strokes = fill - cast > 5 ? bedding(rand, upper, middle, taken, size) : "";
	const wormCount = Math.min(MOST_WORMS[kind], Math.round(tier.worms.mid / WORM_GRAMS[kind]));
	const wormLines = wormCount > 0 ? worms(rand, whole, middle, wormCount, taken, size) : "";
	const stroke = mini ? 1.8 : 2.2;
	const lip = mini ? 4 : 6;
	const stem = mini ? 16 : 30;
	const markAt = x + width * mealAt;
	return svg`<path class="halo" d=${wormLines} stroke-width=${haloWidth(tier.worms, stroke)}/>
		<path class="grain" d=${points.small}/><path class="grain large" d=${points.large}/>
		<path class="bedding" d=${strokes}/>${lumps}
		<path class="worm ${guess ? "guess" : ""}" d=${wormLines} stroke-width=${stroke}/>
		${cast > 3 ? svg`<path class="contact ${guess ? "guess" : ""}" d=${contact.d}/>` : nothing}
		${fill > 2 ? svg`<path class="surface" d=${surface.d}/>` : nothing}
		<path class="wall ${mini ? "mini" : ""}" d="M${x - lip} ${y}H${x}L${x + lean} ${floor}M${x + width + lip} ${y}H${x + width}L${x + width - lean} ${floor}"/>
		<path class="wall floor ${mini ? "mini" : ""}" d="M${x + lean} ${floor}H${x + width - lean}"/>
		${meal && meal.grams > 0 ? plumb(markAt, Math.min(mealTop, surface.y(markAt)) - stem - 1, stem) : nothing}`;
}

/** The one pointer: a stem and a triangle that ends at the thing itself. */
export function plumb(x: number, y: number, length: number): SVGTemplateResult {
	return svg`<path class="plumb stem" d="M${x} ${y}v${length - 6}"/>
		<path class="plumb" d="M${x - 6} ${y + length - 9}h12l-6 9Z"/>`;
}

/** The whole stack as one small picture, to scale. */
export function miniStack(
	tiers: TierView[],
	options: {
		bin: string;
		width: number;
		guess: boolean;
		meal: Meal | undefined;
		today: string;
		label: string;
	},
): TemplateResult {
	const widest = Math.max(1, ...tiers.map((t) => t.widthMM));
	const scale = (options.width - 14) / widest;
	const gap = 7;
	let y = 30; // room for the plumb mark
	const drawn = tiers.map((tier) => {
		const x = 7 + ((widest - tier.widthMM) * scale) / 2;
		const group = tierDrawing(tier, {
			seed: options.bin + tier.id,
			x,
			y,
			scale,
			mini: true,
			guess: options.guess,
			meal: tier.takes ? options.meal : undefined,
			today: options.today,
		});
		y += tierHeight(tier, scale) + gap;
		return group;
	});
	return html`<svg class="drawing" role="img" aria-label=${options.label} width=${options.width} height=${Math.ceil(y)}
		viewBox="0 0 ${options.width} ${Math.ceil(y)}">${drawn}</svg>`;
}
