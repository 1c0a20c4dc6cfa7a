// One tray in section, to scale from the record: walls ruled, what lives in it
// drawn by hand. The small picture on Today and the tall one on a tray's page
// are the same drawing in two sizes.

import { html, nothing, type SVGTemplateResult, svg, type TemplateResult } from "lit";
import { daysBetween } from "../format.ts";
import type { Portion, TierView } from "../types.gen.ts";
import type { Disc, Point } from "./pen.ts";
import { randFrom } from "./rand.ts";
import {
	type Age,
	bedding,
	castings,
	cocoonsAt,
	type Ground,
	heap,
	heapOn,
	type Level,
	level,
	lumpsAt,
	wormPlaces,
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
	scale: number; // px per mm, across
	rise?: number; // how many times heights are drawn larger than widths
	mini?: boolean;
	guess?: boolean; // worms and contacts from a first guess: dotted
	meal?: Meal | undefined;
	stem?: number; // length of the plumb mark over today's meal, px
	today: string;
}

/** A point of the drawing that a leader may end at. */
export interface Anchors {
	worms?: Point;
	bedding?: Point;
	castings?: Point;
	cocoons?: Point;
	meal?: Point; // top of today's meal
	scraps: Map<string, Point>; // by feeding
}

export interface TierDrawing {
	drawing: SVGTemplateResult;
	anchors: Anchors;
}

// One stroke stands for so many grams of worms, one lump for so many of scraps.
export const WORM_GRAMS = { large: 20, mini: 100 };
const LUMP_GRAMS = { large: 20, mini: 45 };
const MOST_WORMS = { large: 60, mini: 12 };
const MOST_LUMPS = { large: 14, mini: 6 };
const MOST_COCOONS = { large: 9, mini: 0 };
const MOST_PORTIONS = { large: 5, mini: 2 };
const LUMP_SIZE = { large: 9, mini: 4.6 }; // px, radius of a fresh lump
const LEAST_HEIGHT = 14; // px, of a tray whose height nobody wrote down

/** Age of scraps for the eye: two days fresh, a quarter left nearly gone. */
export function ageOf(p: Portion, today: string): Age {
	if (p.left * 4 < p.fed) return "nearly";
	return daysBetween(p.day, today) <= 2 ? "fresh" : "some";
}

/** The scraps of a tray that a drawing of this size shows, newest first. */
export const shownScraps = (tier: TierView, kind: "large" | "mini" = "large"): Portion[] =>
	[...tier.scraps]
		.filter((p) => p.left > 0)
		.sort((a, b) => b.day.localeCompare(a.day))
		.slice(0, MOST_PORTIONS[kind]);

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

/** Height in px that a tier takes, rim to floor; `scale` is px per mm upwards. */
export const tierHeight = (tier: TierView, scale: number): number =>
	Math.max(LEAST_HEIGHT, tier.heightMM * scale);

/** Where things are in one tray. */
interface Room {
	whole: Ground;
	upper: Ground; // bedding
	deep: Ground; // castings
	surface: Level;
	contact: Level;
	fill: number; // px
	cast: number; // px
	middle: number;
}

function roomOf(tier: TierView, look: TierLook, rand: () => number): Room {
	const { x, y, scale, rise = 1, mini = false } = look;
	const width = tier.widthMM * scale;
	const height = tierHeight(tier, scale * rise);
	const lean = leanOf(width);
	const floor = y + height;
	const wall = {
		left: (v: number) => x + (lean * (v - y)) / height,
		right: (v: number) => x + width - (lean * (v - y)) / height,
	};
	const most = height * 0.94;
	const cast = Math.min(most, tier.castingsMM * scale * rise);
	const fill = Math.min(most, cast + tier.beddingMM * scale * rise);
	const line = (up: number, sway: number): Level =>
		level(rand, wall.left(floor - up), wall.right(floor - up), floor - up, sway);
	// A line sways less than what lies under it is high.
	const surface = line(fill, Math.min(mini ? 1 : 3, fill / 6));
	const contact = line(cast, Math.min(mini ? 0.8 : 2.5, cast / 6));
	return {
		whole: { ...wall, top: surface.y, bottom: () => floor },
		upper: { ...wall, top: surface.y, bottom: (at) => (cast > 3 ? contact.y(at) : floor) },
		deep: { ...wall, top: contact.y, bottom: () => floor },
		surface,
		contact,
		fill,
		cast,
		middle: x + width / 2,
	};
}

const leanOf = (width: number): number => Math.min(9, width * 0.035); // walls lean in towards the floor

/** One tray and the points its labels name. */
export function tierDrawing(tier: TierView, look: TierLook): TierDrawing {
	const { x, y, scale, rise = 1, mini = false, guess = false } = look;
	const meal = look.meal && look.meal.grams > 0 ? look.meal : undefined;
	const rand = randFrom(look.seed);
	const kind = mini ? "mini" : "large";
	const size = mini ? 0.62 : 1;
	const width = tier.widthMM * scale;
	const floor = y + tierHeight(tier, scale * rise);
	const room = roomOf(tier, look, rand);
	const { whole, surface, fill, cast, middle } = room;
	const anchors: Anchors = { scraps: new Map() };
	const dotted = guess ? "guess" : "";

	// Scraps lie where they were fed, the newest nearest the surface.
	const food: Disc[] = []; // what worms gather round
	const taken: Disc[] = [];
	const lay = (age: Age, grams: number, across: number, depth: number) => {
		const r = LUMP_SIZE[kind] * (age === "some" ? 0.74 : age === "nearly" ? 0.46 : 1);
		const count = Math.min(MOST_LUMPS[kind], Math.max(2, Math.round(grams / LUMP_GRAMS[kind])));
		const at: Point = { x: x + width * across, y: 0 };
		at.y = surface.y(at.x) + r * 1.5 + depth * Math.max(0, fill - r * 3);
		// In a thin bed food lies on it, not in it.
		const places =
			fill < r * 3.2
				? heapOn(rand, at.x, surface.y(at.x) - 1, count, r)
				: heap(rand, whole, at, count, r, taken);
		const drawn = lumpsAt(rand, places, age, LUMP_SIZE[kind]);
		taken.push(...drawn.clear);
		return { ...drawn, places };
	};
	const mealAt = x + width * across(meal?.spot);
	let mealLumps: SVGTemplateResult | typeof nothing = nothing;
	if (meal) {
		const drawn = lay("today", meal.grams, across(meal.spot), 0);
		const top = Math.min(surface.y(mealAt), ...drawn.places.map((p) => p.y - LUMP_SIZE[kind]));
		anchors.meal = { x: mealAt, y: top };
		mealLumps = svg`<g class="meal"><path class="lump today ${dotted}" d=${drawn.outline}/><path class="hatch today" d=${drawn.strokes}/></g>`;
	}
	const scraps = shownScraps(tier, kind).map((p, i) => {
		const age = ageOf(p, look.today);
		const drawn = lay(age, p.left, across(p.spot), Math.min(0.6, 0.1 + i * 0.16));
		food.push(...drawn.clear);
		const anchor = rightmost(drawn.places);
		if (anchor) anchors.scraps.set(p.feeding, anchor);
		return svg`<g class="portion ${p.day === look.today ? "new" : ""}"><path class="lump ${age} ${dotted}" d=${drawn.outline}/>
			<path class="hatch ${age}" d=${drawn.strokes}/></g>`;
	});

	const points = cast > 2.5 ? castings(rand, room.deep, middle, size) : { small: "", large: "" };
	const strokes = fill - cast > 3 ? bedding(rand, room.upper, middle, taken, size) : "";
	const many = Math.min(MOST_WORMS[kind], Math.ceil(tier.worms.mid / WORM_GRAMS[kind]));
	const places = wormPlaces(rand, whole, middle, many, food, taken, size);
	const { d: wormLines, middles } = worms(rand, places, size);
	const stroke = mini ? 1.8 : 2.2;
	const halo = haloWidth(tier.worms, stroke);
	markGround(anchors, room, middles, x + width);
	// Last, and with their own luck, so that a count moves nothing else.
	const own = randFrom(`${look.seed} cocoons`);
	const few = Math.min(MOST_COCOONS[kind], tier.cocoons?.count ?? 0);
	const lying =
		few > 0
			? wormPlaces(own, whole, middle, few, [], [...taken, ...places.map((p) => ({ ...p, r: 9 }))])
			: [];
	const nearest = rightmost(lying);
	if (nearest) anchors.cocoons = nearest;

	const lip = mini ? 4 : 6;
	const lean = leanOf(width);
	const stem = look.stem ?? 16;
	const drawing = svg`<path class="halo" d=${wormLines} stroke-width=${mini ? stroke + (halo - stroke) * 0.6 : halo}/>
		<path class="grain" d=${points.small}/><path class="grain large" d=${points.large}/>
		<path class="bedding" d=${strokes}/>${mealLumps}<g class="scraps">${scraps}</g>
		<path class="worm ${dotted}" d=${wormLines} stroke-width=${stroke}/>
		${lying.length > 0 ? svg`<path class="cocoon" d=${cocoonsAt(own, lying, size)}/>` : nothing}
		${cast > 2.5 ? svg`<path class="contact ${dotted}" d=${room.contact.d}/>` : nothing}
		${fill > 2 ? svg`<path class="surface" d=${surface.d}/>` : nothing}
		<path class="wall ${mini ? "mini" : ""}" d="M${x - lip} ${y}H${x}L${x + lean} ${floor}M${x + width + lip} ${y}H${x + width}L${x + width - lean} ${floor}"/>
		<path class="wall floor ${mini ? "mini" : ""}" d="M${x + lean} ${floor}H${x + width - lean}"/>
		${anchors.meal ? plumb(mealAt, anchors.meal.y - stem - 1, stem) : nothing}`;
	return { drawing, anchors };
}

const rightmost = (points: Point[]): Point | undefined =>
	points.reduce<Point | undefined>((best, p) => (best && best.x >= p.x ? best : p), undefined);

/** Points in bedding, castings and worms that lie nearest the labels. */
function markGround(anchors: Anchors, room: Room, wormsAre: Point[], right: number): void {
	const { fill, cast, surface, contact, whole } = room;
	const nearest = rightmost(wormsAre);
	if (nearest) anchors.worms = nearest;
	const at = right - 22;
	const deep = (share: number, top: number, bottom: number): Point => ({
		x: at,
		y: top + (bottom - top) * share,
	});
	// High in the bedding, clear of leaders that come up from worms below.
	if (fill - cast > 3) anchors.bedding = deep(0.3, surface.y(at), contact.y(at));
	if (cast > 2.5) anchors.castings = deep(0.5, contact.y(at), whole.bottom(at));
}

/** The one pointer: a stem and a triangle that ends at the thing itself. */
export function plumb(x: number, y: number, length: number): SVGTemplateResult {
	return svg`<path class="plumb stem" d="M${x} ${y}v${length - 6}"/>
		<path class="plumb" d="M${x - 6} ${y + length - 9}h12l-6 9Z"/>`;
}

/** A lid on the rim, and how far it stands out on either side. */
export function lid(x: number, y: number, width: number, mini = false): SVGTemplateResult {
	const [out, down] = mini ? [6, 4] : [9, 7];
	return svg`<path class="wall ${mini ? "mini" : ""}" d="M${x - out} ${y + down}v${-down}H${x + width + out}v${down}"/>`;
}

/** The whole stack as one small picture, to scale, lid on. */
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
	const scale = (options.width - 16) / widest;
	const gap = 7;
	const takesAt = tiers.findIndex((t) => t.takes);
	const marked = options.meal !== undefined && options.meal.grams > 0;
	let y = marked && takesAt === 0 ? 26 : 12; // room for plumb mark and lid
	const [top] = tiers;
	const lidDrawn = top
		? lid(8 + ((widest - top.widthMM) * scale) / 2, y - 8, top.widthMM * scale, true)
		: nothing;
	const drawn = tiers.map((tier, i) => {
		if (marked && i === takesAt && i > 0) y += 12;
		const { drawing } = tierDrawing(tier, {
			seed: options.bin + tier.id,
			x: 8 + ((widest - tier.widthMM) * scale) / 2,
			y,
			scale,
			mini: true,
			guess: options.guess,
			meal: tier.takes ? options.meal : undefined,
			stem: 20,
			today: options.today,
		});
		y += tierHeight(tier, scale) + gap;
		return drawing;
	});
	return html`<svg class="drawing" role="img" aria-label=${options.label} width=${options.width} height=${Math.ceil(y)}
		viewBox="0 0 ${options.width} ${Math.ceil(y)}">${lidDrawn}${drawn}</svg>`;
}
