// The whole bin as one tall section: heights drawn larger than widths, a
// millimetre scale at every tray that grows out of the screen's left edge, and
// labels on the right whose leaders end on the thing itself.

import { html, nothing, type SVGTemplateResult, svg, type TemplateResult } from "lit";
import { text } from "../strings.ts";
import type { BaseView, TierView } from "../types.gen.ts";
import type { Frame } from "./fit.ts";
import { placeLabels, textWidth, wrap } from "./labels.ts";
import type { Point } from "./pen.ts";
import { randFrom } from "./rand.ts";
import { labelsOf, mealWords, type SectionLook, stageWords, type Worded } from "./section-words.ts";
import { squeezeMark } from "./signs.ts";
import { type Anchors, lid, type TierDrawing, tierDrawing, tierHeight } from "./stack.ts";
import { freeLevels } from "./textures.ts";

/** Where everything goes, px. Heights are `rise` times widths, to scale. */
export interface Plan {
	left: number; // of the widest tray's rim
	scale: number; // px per mm, across
	rise: number;
	labels: number; // left end of the labels
	edge: number; // right end of the labels
	rims: number[]; // of each tray, from the top down
	base: number; // rim of the base
	height: number;
}

const MARGIN = 16; // px, the page's; the scale begins in the left one
const GAP = 14; // px between a floor and the rim under it
const LIP = 6;
const LEADER = 16;
const TALLEST = 640; // px: beyond this heights are drawn less exaggerated
const SMALL = 14; // px at usual text: captions
const NAME = 19;
const TERM = 15;
const LINE = 1.18;
export const LARGE_TEXT = 1.35; // from here on labels stand in the list below

/** Plans a section for a frame. */
export function planSection(
	stack: TierView[],
	frame: Frame,
	look: SectionLook,
	base: BaseView | undefined,
): Plan {
	const named = frame.text < LARGE_TEXT;
	const small = SMALL * frame.text;
	const left = LIP + small * 1.9;
	const edge = frame.width + MARGIN - 4;
	const room = named
		? Math.min(150, Math.max(104, frame.width * 0.3)) * Math.max(1, frame.text)
		: 0;
	const labels = named ? edge - room : edge;
	const widest = Math.max(1, ...stack.map((tier) => tier.widthMM));
	const right = named ? labels - LEADER : frame.width - LIP - 3;
	const scale = Math.min(1, (right - LIP - left) / widest);
	const tall = (rise: number): number =>
		stack.reduce((sum, tier) => sum + tierHeight(tier, scale * rise) + GAP, 0) +
		(base?.heightMM ?? 0) * scale * rise;
	const rise = [2, 1.5].find((r) => tall(r) <= TALLEST) ?? 1;
	const takes = stack.findIndex((tier) => tier.takes);
	const mark = isMarked(stack, look) ? small * 1.5 + 18 : 0;
	let y = 26 + (takes === 0 ? mark : 0);
	const rims = stack.map((tier, i) => {
		if (i > 0 && i === takes) y += mark;
		const rim = y;
		const least = named ? columnRoom(tier, look, edge - labels, frame.text) : 0;
		y += Math.max(tierHeight(tier, scale * rise) + GAP, least);
		return rim;
	});
	const foot = y;
	if (base) y += base.heightMM * scale * rise + GAP;
	return { left, scale, rise, labels, edge, rims, base: foot, height: Math.ceil(y) };
}

const isMarked = (stack: TierView[], look: SectionLook): boolean =>
	(look.meal?.grams ?? 0) > 0 && stack.some((tier) => tier.takes);

/** Height that a tray keeps free for its name and its labels, px; old scraps and
 * what any tray has get no room of their own. */
function columnRoom(tier: TierView, look: SectionLook, room: number, unit: number): number {
	const needed = labelsOf(tier, look).map((label) => {
		const { full, brief } = linesOf(label, room, unit);
		return label.rank <= 3 ? full : label.rank <= 5 ? brief : 0;
	});
	return headOf(tier, room, unit).height + needed.reduce((a, b) => a + b, 0) + 14 * unit;
}

/** A tray's name and stage, broken into lines. */
function headOf(tier: TierView, room: number, unit: number) {
	const name = wrap(tier.name, room, NAME * unit, 2, true);
	const stage = wrap(stageWords(tier), room, SMALL * unit);
	return { name, stage, height: (name.length * NAME + stage.length * SMALL * LINE) * unit };
}

/** One tray where the plan puts it. */
export interface PlacedTier {
	tier: TierView;
	x: number;
	rim: number;
	width: number;
	floor: number;
	drawn: TierDrawing;
}

/** Draws the trays of a plan. */
export function placeTiers(stack: TierView[], look: SectionLook, plan: Plan): PlacedTier[] {
	const widest = Math.max(1, ...stack.map((tier) => tier.widthMM));
	return stack.map((tier, i) => {
		const rim = plan.rims[i] ?? 0;
		const width = tier.widthMM * plan.scale;
		const x = plan.left + ((widest - tier.widthMM) * plan.scale) / 2;
		const meal = tier.takes ? look.meal : undefined;
		const drawn = tierDrawing(tier, {
			seed: look.bin + tier.id,
			x,
			y: rim,
			scale: plan.scale,
			rise: plan.rise,
			guess: look.guess,
			meal,
			stem: 0,
			today: look.today,
		});
		return {
			tier,
			x,
			rim,
			width,
			floor: rim + tierHeight(tier, plan.scale * plan.rise),
			drawn,
		};
	});
}

/** The section, without what a screen reader says instead of it. */
export function sectionDrawing(
	stack: TierView[],
	base: BaseView | undefined,
	look: SectionLook,
	frame: Frame,
): { drawing: TemplateResult; placed: PlacedTier[]; plan: Plan } {
	const marked = isMarked(stack, look);
	const plan = planSection(stack, frame, look, base);
	const placed = placeTiers(stack, look, plan);
	const named = frame.text < LARGE_TEXT;
	const [top] = placed;
	const drawing = html`<svg class="drawing section-drawing" aria-hidden="true" width=${frame.width} height=${plan.height}
		viewBox="0 0 ${frame.width} ${plan.height}">
		${top ? lid(top.x, top.rim - 16, top.width) : nothing}
		${placed.map((p, i) => {
			const next = plan.rims[i + 1] ?? (base ? plan.base : plan.height);
			return svg`<g class="tier">${ruler(p, plan, frame, i === 0)}${p.drawn.drawing}
				${marked && p.drawn.anchors.meal ? mealMark(p, p.drawn.anchors.meal, look, plan, frame) : nothing}
				${named ? column(p, next, look, plan, frame) : nothing}</g>`;
		})}
		${base ? baseDrawing(base, look, plan, placed.at(-1), frame) : nothing}</svg>`;
	return { drawing, placed, plan };
}

/** The scale of one tray: zero on its floor, so that its fill can be read off. */
function ruler(p: PlacedTier, plan: Plan, frame: Frame, first: boolean): SVGTemplateResult {
	const px = plan.scale * plan.rise;
	const small = SMALL * frame.text;
	const every = px * 50 > small * 1.3 ? 50 : 100;
	const minor = px * 10 > 4 ? 10 : 50;
	const count = Math.floor(p.tier.heightMM / minor);
	let fine = "";
	let coarse = "";
	const figures: SVGTemplateResult[] = [];
	for (let i = 0; i <= count; i++) {
		const mm = i * minor;
		const y = p.floor - mm * px;
		if (mm % 50 === 0) coarse += `M${-MARGIN} ${y}h14`;
		else fine += `M${-MARGIN} ${y}h7`;
		if (mm % every === 0) {
			figures.push(svg`<text class="small" x="1" y=${y + small * 0.34}>${mm}</text>`);
		}
	}
	const unit = Math.min(p.rim - small * 0.5, p.floor - count * minor * px - small * 0.9);
	return svg`<path class="tick" d=${coarse}/><path class="tick minor" d=${fine}/>${figures}
		${first ? svg`<text class="small" x=${-MARGIN + 2} y=${unit}>mm</text>` : nothing}`;
}

/** Today's meal: its amount over the plumb mark that points at it. */
function mealMark(
	p: PlacedTier,
	at: Point,
	look: SectionLook,
	plan: Plan,
	frame: Frame,
): SVGTemplateResult {
	const size = TERM * frame.text;
	const words = mealWords(look);
	const half = textWidth(words, size, true) / 2;
	const under = p.rim - 16 - 8 - SMALL * frame.text * 0.6;
	const x = Math.min(plan.edge - half, Math.max(half - MARGIN + 4, at.x));
	const stem = at.y - 2 - (under + 6);
	return svg`<text class="today" text-anchor="middle" x=${x} y=${under}>${words}</text>
		<path class="plumb stem" d="M${at.x} ${under + 6}v${Math.max(2, stem - 8)}"/>
		<path class="plumb" d="M${at.x - 6} ${at.y - 11}h12l-6 9Z"/>`;
}

/** Name, stage and labels beside one tray. */
function column(
	p: PlacedTier,
	next: number,
	look: SectionLook,
	plan: Plan,
	frame: Frame,
): SVGTemplateResult {
	const room = plan.edge - plan.labels;
	const unit = frame.text;
	const link = p.tier.id === look.open ? "" : "link";
	const { name, stage } = headOf(p.tier, room, unit);
	let y = p.rim - 6;
	const head = [
		...name.map((line) => {
			y += NAME * unit;
			return svg`<text class="name ${link}" x=${plan.labels} y=${y}>${line}</text>`;
		}),
		...stage.map((line) => {
			y += SMALL * unit * LINE;
			return svg`<text class="small" x=${plan.labels} y=${y}>${line}</text>`;
		}),
	];
	const lined = labelsOf(p.tier, look).flatMap((label): Lined[] => {
		const at = anchorOf(p.drawn.anchors, label.of);
		return at ? [{ at, label, ...linesOf(label, room, unit) }] : [];
	});
	const standing = placeLabels(
		lined.map((l) => ({ at: l.at.y, full: l.full, brief: l.brief, rank: l.label.rank })),
		y + 6 * unit,
		Math.max(p.floor, next - 8),
	);
	return svg`${head}${standing.map((s) => {
		const found = lined[s.index];
		return found ? labelDrawing(found, s.top, s.brief, plan, unit) : nothing;
	})}`;
}

function anchorOf(anchors: Anchors, of: string): Point | undefined {
	if (of === "worms" || of === "castings" || of === "cocoons") return anchors[of];
	// In a bed that is all castings, what was read of it stands at those.
	if (of === "bedding") return anchors.bedding ?? anchors.castings;
	return anchors.scraps.get(of);
}

/** A label broken into lines, with where its leader ends. */
interface Lined {
	label: Worded;
	at: Point;
	lines: string[];
	details: string[];
	icon: "beside" | "below" | "";
	full: number;
	brief: number;
}

const ICON = 26; // px
const ITALIC = 0.92; // how wide italics are to the regular face

function linesOf(label: Worded, room: number, unit: number): Omit<Lined, "label" | "at"> {
	const size = TERM * unit;
	const lines = wrap(label.words, room, size);
	const details = label.detail ? wrap(label.detail, room, SMALL * unit, 3) : [];
	const last = lines.at(-1) ?? "";
	const icon = label.squeeze
		? textWidth(last, size) * ITALIC + ICON + 7 <= room
			? "beside"
			: "below"
		: "";
	const text = (more: number): number => lines.length * size * LINE + more * SMALL * unit * LINE;
	const least = icon === "beside" ? ICON + 2 : 0; // the mark stands beside both kinds of line
	const below = (icon === "below" ? ICON : 0) + 3 * unit;
	return {
		lines,
		details,
		icon,
		brief: Math.max(least, text(0)) + below,
		full: Math.max(least, text(details.length)) + below,
	};
}

function labelDrawing(
	{ label, at, lines, details, icon }: Lined,
	top: number,
	brief: boolean,
	plan: Plan,
	unit: number,
): SVGTemplateResult {
	const size = TERM * unit;
	const x = plan.labels;
	const mid = top + (size * LINE) / 2;
	let y = top + size * 0.85;
	const drawn: SVGTemplateResult[] = [
		svg`<path class="leader" d="M${at.x} ${at.y}L${x - 9} ${mid}H${x - 4}"/>
			<circle class="dot" cx=${at.x} cy=${at.y} r="2.600"/>`,
	];
	for (const line of lines) {
		drawn.push(svg`<text class="term" x=${x} y=${y}>${line}</text>`);
		y += size * LINE;
	}
	if (icon && label.squeeze) {
		const beside = icon === "beside";
		const left = beside ? x + textWidth(lines.at(-1) ?? "", size) * ITALIC + 7 : x;
		const up = beside ? size * (LINE + 0.95) : size * 0.85;
		drawn.push(squeezeMark(label.squeeze, left, y - up, ICON));
		if (!beside) y += ICON;
	}
	if (!brief) {
		for (const line of details) {
			drawn.push(svg`<text class="small" x=${x} y=${y - 1}>${line}</text>`);
			y += SMALL * unit * LINE;
		}
	}
	return svg`${drawn}`;
}

/** The base under the lowest tray, with the liquid that stands in it. */
function baseDrawing(
	base: BaseView,
	look: SectionLook,
	plan: Plan,
	above: PlacedTier | undefined,
	frame: Frame,
): SVGTemplateResult {
	if (!above) return svg``;
	const { x, width } = above;
	const px = plan.scale * plan.rise;
	const rim = plan.base;
	const floor = rim + base.heightMM * px;
	const lean = 6;
	const liquid = Math.min(base.liquidMM * px, (floor - rim) * 0.9);
	const top = floor - liquid;
	const rand = randFrom(`${look.bin} base`);
	const words = text.section.liquid;
	const named = frame.text < LARGE_TEXT;
	const at = { x: x + width - 24, y: (top + floor) / 2 };
	const size = TERM * frame.text;
	const label: Worded = { of: "liquid", words, detail: look.liquid(base), rank: 1 };
	const lined = { label, at, ...linesOf(label, plan.edge - plan.labels, frame.text) };
	return svg`${
		liquid > 1
			? svg`<path class="contact" d="M${x + lean} ${top}H${x + width - lean}"/>
			<path class="waterline" d=${freeLevels(rand, x + lean + 4, x + width - lean - 4, top, floor)}/>`
			: nothing
	}
		<path class="wall" d="M${x - LIP} ${rim}H${x}L${x + lean} ${floor}H${x + width - lean}L${x + width} ${rim}h${LIP}M${x + width - lean + 1} ${floor - 7}h9v6"/>
		${named ? labelDrawing(lined, Math.min(at.y - size * 0.6, plan.height - lined.full), false, plan, frame.text) : nothing}`;
}

/** The bar that says how wide 100 mm are, and by how much heights are drawn larger. */
export function scaleBar(plan: Plan, frame: Frame): TemplateResult {
	const small = SMALL * frame.text;
	const length = 100 * plan.scale;
	const y = small * 0.7;
	const words = text.section.scale(plan.rise);
	const beside = length + 10 + textWidth(words, small) < frame.width;
	return html`<svg class="drawing" aria-hidden="true" width=${frame.width} height=${small * (beside ? 1.5 : 2.6)}>
		<path class="tick" d="M1 ${y - 5}v10M1 ${y}h${length}m0 -5v10M${1 + length / 2} ${y - 3}v6"/>
		<text class="small" x=${beside ? length + 10 : 0} y=${beside ? y + small * 0.35 : y + small * 1.6}>${words}</text></svg>`;
}
