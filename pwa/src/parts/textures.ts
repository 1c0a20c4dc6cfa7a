// Materials as pen strokes. Material is told by the stroke, never by colour:
// loose strokes are bedding, closed lumps are scraps, points are castings,
// short curves are worms.

import { at, type Disc, freehand, hatch, line, outline, type Point, within } from "./pen.ts";
import { between, type Rand } from "./rand.ts";

/** The ground a texture fills: between two lines that depend on x, and two
 * walls that depend on y. */
export interface Ground {
	top: (x: number) => number;
	bottom: (x: number) => number;
	left: (y: number) => number;
	right: (y: number) => number;
}

/** An uneven level line and its height at every x. */
export interface Level {
	d: string;
	y: (x: number) => number;
}

/** Draws a level line between two walls that wanders by at most `sway`. */
export function level(rand: Rand, left: number, right: number, y: number, sway: number): Level {
	const steps = Math.max(3, Math.round((right - left) / 18));
	const points: Point[] = [];
	let drift = 0;
	for (let i = 0; i <= steps; i++) {
		drift = drift * 0.7 + between(rand, -1, 1) * sway * 0.6;
		points.push({ x: left + ((right - left) * i) / steps, y: y + drift });
	}
	const height = (x: number): number => {
		const i = Math.min(steps - 1, Math.max(0, Math.floor(((x - left) / (right - left)) * steps)));
		const a = points[i];
		const b = points[i + 1];
		if (!a || !b) return y;
		const t = Math.min(1, Math.max(0, (x - a.x) / (b.x - a.x)));
		return a.y + (b.y - a.y) * t;
	};
	return { d: freehand(points), y: height };
}

const inside = (g: Ground, p: Point, margin: number): boolean =>
	p.y > g.top(p.x) + margin &&
	p.y < g.bottom(p.x) - margin &&
	p.x > g.left(p.y) + margin &&
	p.x < g.right(p.y) - margin;

/** A margin that leaves a thin layer something to draw in. */
const margin = (g: Ground, x: number, usual: number): number =>
	Math.min(usual, (g.bottom(x) - g.top(x)) * 0.18);

/** The middle of a ground and how far it reaches. */
function box(g: Ground, x: number): { top: number; bottom: number; left: number; right: number } {
	const top = g.top(x);
	const bottom = g.bottom(x);
	const y = (top + bottom) / 2;
	return { top: top - 6, bottom: bottom + 6, left: g.left(y), right: g.right(y) };
}

/** Bedding: loose strokes of 12 to 27 px within 20°, a little bowed, in rows. */
export function bedding(rand: Rand, g: Ground, middle: number, clear: Disc[], size = 1): string {
	const b = box(g, middle);
	const edge = margin(g, middle, 3);
	let d = "";
	for (let y = b.top + 3; y < b.bottom; y += 7 * Math.max(size, 0.62)) {
		let x = b.left + between(rand, 2, 26) * size;
		while (x < b.right) {
			const length = between(rand, 12, 27) * size;
			const lean = (between(rand, -20, 20) * Math.PI) / 180;
			const start = { x, y: y + between(rand, -1.5, 1.5) * size };
			const end = { x: x + length * Math.cos(lean), y: start.y + length * Math.sin(lean) };
			const bow = {
				x: (start.x + end.x) / 2,
				y: (start.y + end.y) / 2 + between(rand, -2.5, 2.5) * size,
			};
			const free = [start, bow, end].every((p) => inside(g, p, edge) && !within(p, clear));
			if (free && rand() < 0.85) d += `M${at(start)}Q${at(bow)} ${at(end)}`;
			x += length + between(rand, 2, 12) * size;
		}
	}
	return d;
}

/** Castings: points on a jittered grid of 4 px, about seven small to three large. */
export function castings(
	rand: Rand,
	g: Ground,
	middle: number,
	size = 1,
): { small: string; large: string } {
	const b = box(g, middle);
	const points = { small: "", large: "" };
	const edge = margin(g, middle, 2.2);
	const step = size < 1 ? 3.4 : 4;
	for (let y = b.top; y < b.bottom; y += step) {
		for (let x = b.left; x < b.right; x += step) {
			const p = { x: x + between(rand, -1.5, 1.5), y: y + between(rand, -1.5, 1.5) };
			const grain = rand() < (size < 1 ? 0.12 : 0.3) ? "large" : "small";
			if (rand() < 0.85 && inside(g, p, edge)) points[grain] += `M${at(p)}h0`;
		}
	}
	return points;
}

/** Water under its surface: broken level lines, ever further apart. */
export function freeLevels(
	rand: Rand,
	left: number,
	right: number,
	top: number,
	bottom: number,
): string {
	let d = "";
	let step = 4;
	for (let y = top + step; y < bottom - 1.5; y += step) {
		let x = left + between(rand, 0, 14);
		while (x < right - 6) {
			const end = Math.min(right, x + between(rand, 16, 46));
			d += line({ x, y }, { x: end, y });
			x = end + between(rand, 7, 18);
		}
		step *= 1.35;
	}
	return d;
}

/** How old scraps look: fresh lumps shrink, lose their hatching, then their outline. */
export type Age = "today" | "fresh" | "some" | "nearly" | "freezer" | "waste";

const lumpSize: Record<Age, number> = {
	today: 1,
	fresh: 1,
	some: 0.74,
	nearly: 0.46,
	freezer: 0.95,
	waste: 0.9,
};

/** One lump of 5 to 7 corners. */
export function lump(rand: Rand, c: Point, r: number): Point[] {
	const corners = 5 + Math.floor(rand() * 3);
	const turn = rand() * Math.PI * 2;
	return Array.from({ length: corners }, (_, i) => {
		const angle = turn + ((i + between(rand, -0.22, 0.22)) / corners) * Math.PI * 2;
		const reach = r * between(rand, 0.8, 1.12);
		return { x: c.x + Math.cos(angle) * reach, y: c.y + Math.sin(angle) * reach * 0.88 };
	});
}

/** Outlines and the strokes in them, for two pens. */
export interface Lumps {
	outline: string;
	strokes: string;
	clear: Disc[];
}

function strokesOf(points: Point[], middle: Point, age: Age): string {
	switch (age) {
		case "today":
			return hatch(points, 52, 3);
		case "fresh":
			return hatch(points, -40, 3.4);
		case "some":
			return hatch(points, -40, 6.5);
		case "waste":
			return line({ x: middle.x - 5, y: middle.y + 4 }, { x: middle.x + 5, y: middle.y - 4 });
		case "freezer": // a tick inwards from every edge
			return points
				.map((a, i) => {
					const b = points[(i + 1) % points.length] ?? a;
					const edge = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
					return line(edge, {
						x: edge.x + (middle.x - edge.x) * 0.45,
						y: edge.y + (middle.y - edge.y) * 0.45,
					});
				})
				.join("");
		case "nearly":
			return "";
	}
}

/** Lumps of one age at the given middles. */
export function lumpsAt(rand: Rand, middles: Point[], age: Age, size = 9): Lumps {
	const r = size * lumpSize[age];
	const drawn: Lumps = { outline: "", strokes: "", clear: [] };
	for (const middle of middles) {
		const points = lump(rand, middle, r);
		drawn.outline += outline(points);
		drawn.strokes += strokesOf(points, middle, age);
		drawn.clear.push({ ...middle, r: r + 1 });
	}
	return drawn;
}

/** Places for `count` lumps round a middle, no two touching, inside the ground. */
export function heap(
	rand: Rand,
	g: Ground,
	middle: Point,
	count: number,
	r: number,
	taken: Disc[],
): Point[] {
	const places: Point[] = [];
	for (let tries = 0; places.length < count && tries < count * 40; tries++) {
		// The heap grows with every try, flat rather than high.
		const reach = r * 1.05 * Math.sqrt(count) * (0.4 + tries / (count * 20));
		const angle = rand() * Math.PI * 2;
		const far = Math.sqrt(rand()) * reach;
		const p = {
			x: middle.x + Math.cos(angle) * far * 1.5,
			y: middle.y + Math.sin(angle) * far * 0.8,
		};
		const apart = [...taken, ...places.map((q) => ({ ...q, r }))];
		if (inside(g, p, r * 0.95) && !within(p, apart, r * 0.9)) places.push(p);
	}
	return places;
}

/** Places for `count` lumps heaped on a level line: a row, and shorter rows on it. */
export function heapOn(rand: Rand, x: number, y: number, count: number, r: number): Point[] {
	const rows = count > 5 ? 3 : count > 2 ? 2 : 1;
	let wide = Math.ceil(count / rows + (rows - 1) / 2);
	const places: Point[] = [];
	for (let row = 0; places.length < count; row++, wide = Math.max(1, wide - 1)) {
		const many = Math.min(wide, count - places.length);
		for (let i = 0; i < many; i++) {
			places.push({
				x: x + (i - (many - 1) / 2) * r * 2.05 + between(rand, -0.8, 0.8),
				y: y - r * 0.9 - row * r * 1.65 + between(rand, -0.5, 0.5),
			});
		}
	}
	return places;
}

/** Places for worms, 11 px apart, thickest round food, clear of what is taken. */
export function wormPlaces(
	rand: Rand,
	g: Ground,
	middle: number,
	count: number,
	food: Disc[],
	taken: Disc[],
	size = 1,
): Point[] {
	const b = box(g, middle);
	const edge = Math.min(6 * size, (b.bottom - b.top - 12) * 0.25);
	const places: Disc[] = [];
	for (let tries = 0; places.length < count && tries < count * 60; tries++) {
		const near =
			food.length > 0 && rand() < 0.7 ? food[Math.floor(rand() * food.length)] : undefined;
		const spread = (near?.r ?? 0) + 16 * size;
		const p = near
			? { x: near.x + between(rand, -spread, spread), y: near.y + between(rand, -spread, spread) }
			: { x: between(rand, b.left, b.right), y: between(rand, b.top, b.bottom) };
		const free = !within(p, places, 11 * size) && !within(p, taken, 2);
		if (free && inside(g, p, edge)) places.push({ ...p, r: 0 });
	}
	return places;
}

/** Worms at their places: curves of 9 to 13 px, and the middle of each, where a
 * leader may end on it. */
export function worms(rand: Rand, places: Point[], size = 1): { d: string; middles: Point[] } {
	const drawn = places.map((p) => wormAt(rand, p, size));
	return { d: drawn.map(({ d }) => d).join(""), middles: drawn.map(({ middle }) => middle) };
}

export const wormsAt = (rand: Rand, places: Point[], size = 1): string =>
	worms(rand, places, size).d;

function wormAt(rand: Rand, p: Point, size: number): { d: string; middle: Point } {
	const half = between(rand, 4.5, 6.5) * size;
	const lean = rand() * Math.PI;
	const bend = between(rand, 2.5, 4.5) * size * (rand() < 0.5 ? -1 : 1);
	const other = rand() < 0.5 ? bend : -bend; // C or S
	const turn = (x: number, y: number): Point => ({
		x: p.x + x * Math.cos(lean) - y * Math.sin(lean),
		y: p.y + x * Math.sin(lean) + y * Math.cos(lean),
	});
	return {
		d: `M${at(turn(-half, 0))}C${at(turn(-half / 3, bend))} ${at(turn(half / 3, other))} ${at(turn(half, 0))}`,
		middle: turn(0, (bend + other) * 0.375), // of the curve, which keeps inside its handles
	};
}

/** Cocoons: lemons of 9 px, pointed at both ends. */
export function cocoonsAt(rand: Rand, places: Point[], size = 1): string {
	return places
		.map((p) => {
			const lean = rand() * Math.PI;
			const turn = (x: number, y: number): string =>
				at({
					x: p.x + (x * Math.cos(lean) - y * Math.sin(lean)) * size,
					y: p.y + (x * Math.sin(lean) + y * Math.cos(lean)) * size,
				});
			return `M${turn(-4.5, 0)}Q${turn(-2.6, -3.2)} ${turn(0, -3)}Q${turn(2.6, -3.2)} ${turn(4.5, 0)}Q${turn(2.6, 3.2)} ${turn(0, 3)}Q${turn(-2.6, 3.2)} ${turn(-4.5, 0)}Z`;
		})
		.join("");
}
