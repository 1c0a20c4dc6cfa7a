// What a pen can do: lines, closed outlines, hatching. Every function gives the
// data of an SVG path in CSS pixels; who draws decides the pen by a class.

export interface Point {
	x: number;
	y: number;
}

/** A round clearing: nothing else is drawn nearer to its middle than r. */
export interface Disc extends Point {
	r: number;
}

const short = (n: number): string => String(Math.round(n * 10) / 10);

export const at = (p: Point): string => `${short(p.x)} ${short(p.y)}`;

export const line = (a: Point, b: Point): string => `M${at(a)}L${at(b)}`;

export function outline(points: Point[]): string {
	return points.length === 0 ? "" : `M${points.map(at).join("L")}Z`;
}

/** A line drawn by hand through the points: curves between their middles. */
export function freehand(points: Point[]): string {
	const [first, ...rest] = points;
	if (!first) return "";
	let d = `M${at(first)}`;
	rest.forEach((p, i) => {
		const next = rest[i + 1];
		d += next ? `Q${at(p)} ${at({ x: (p.x + next.x) / 2, y: (p.y + next.y) / 2 })}` : `L${at(p)}`;
	});
	return d;
}

/** Parallel strokes across a convex outline, `gap` apart, leaning by `degrees`. */
export function hatch(points: Point[], degrees: number, gap: number): string {
	const angle = (degrees * Math.PI) / 180;
	const along = { x: Math.cos(angle), y: Math.sin(angle) };
	const across = (p: Point): number => p.y * along.x - p.x * along.y;
	const offsets = points.map(across);
	const top = Math.max(...offsets);
	let d = "";
	for (let o = Math.min(...offsets) + gap * 0.6; o < top; o += gap) {
		const cuts: Point[] = [];
		points.forEach((a, i) => {
			const b = points[(i + 1) % points.length] ?? a;
			const from = across(a) - o;
			const to = across(b) - o;
			if (from * to < 0) {
				const t = from / (from - to);
				cuts.push({ x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t });
			}
		});
		const [a, b] = cuts;
		if (a && b) d += line(a, b);
	}
	return d;
}

export const within = (p: Point, discs: Disc[], more = 0): boolean =>
	discs.some((d) => Math.hypot(p.x - d.x, p.y - d.y) < d.r + more);
