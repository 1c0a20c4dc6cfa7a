// The ration on a graduated scale, with its likely span hatched and the rule
// of thumb as a bracket; and the promise on a level line.

import { html, nothing, svg, type TemplateResult } from "lit";
import { dayPlus, daysBetween, type Mass, massParts, weekdayBrief } from "../format.ts";
import { text } from "../strings.ts";
import type { Promise as Kept, RationView } from "../types.gen.ts";
import type { Frame } from "./fit.ts";
import { line } from "./pen.ts";
import { randFrom } from "./rand.ts";
import { plumb } from "./stack.ts";
import { heapOn, lumpsAt } from "./textures.ts";

const OUNCE = 28.349523125; // g, see format.ts

/** A step of the scale that gives four to eight numbered marks. */
export function stepFor(end: number, mass: Mass): number {
	const unit = mass === "g" ? 1 : OUNCE;
	const steps = mass === "g" ? [25, 50, 100, 200, 250, 500, 1000, 2000] : [1, 2, 4, 8, 16, 32, 64];
	return (steps.find((s) => end / (s * unit) <= 6) ?? 5000) * unit;
}

export function rationScale(
	r: RationView,
	mass: Mass,
	frame: Frame,
	label: string,
): TemplateResult {
	const most = Math.max(r.grams, r.likely.high, r.rule.high, 50);
	const step = stepFor(most, mass);
	const end = Math.ceil((most * 1.02) / step) * step;
	const small = 14 * frame.text;
	const [left, right] = [12, frame.width - 16];
	const y = small * 2.6 + 14;
	const at = (g: number): number => left + ((right - left) * g) / end;
	const marks = Array.from({ length: Math.round(end / step) + 1 }, (_, i) => i * step);
	// At large text every second figure would touch its neighbour.
	const every = (small * 3.2 * marks.length) / (right - left) > 1 ? 2 : 1;
	let hatching = "";
	for (let x = at(r.likely.low); x <= at(r.likely.high) - 4; x += 4.5) {
		hatching += line({ x, y: y - 1 }, { x: x + 5, y: y - 11 });
	}
	const mark = at(r.grams);
	const half = small * 2.9; // of the rule's words
	const over = Math.min(
		right - half,
		Math.max(left + half, (at(r.rule.low) + at(r.rule.high)) / 2),
	);
	// Where the plumb mark would stand in its words, they give way to one side.
	const crossed = Math.abs(mark - over) < half + 18;
	const after = mark + 18 + 2 * half < frame.width;
	const rule = crossed
		? { x: after ? mark + 18 : mark - 18, anchor: after ? "start" : "end" }
		: { x: over, anchor: "middle" };
	const bracketY = y - 14;
	return html`<svg class="drawing" role="img" aria-label=${label} width=${frame.width} height=${y + small * 1.9}>
		<path class="hatch plain" d=${hatching}/>
		<path class="datum" d="M${left} ${y}H${right}"/>
		${marks.map(
			(g, i) =>
				svg`<path class="tick" d="M${at(g)} ${y}v10"/>${
					i < marks.length - 1
						? svg`<path class="tick minor" d="M${at(g + step / 4)} ${y}v5M${at(g + step / 2)} ${y}v5M${at(g + (step * 3) / 4)} ${y}v5"/>`
						: nothing
				}${i % every === 0 ? svg`<text class="small" text-anchor="middle" x=${at(g)} y=${y + 12 + small}>${massParts(g, mass).value}</text>` : nothing}`,
		)}
		${
			r.rule.high > 0
				? svg`<path class="bracket" d="M${at(r.rule.low)} ${y - 4}V${bracketY}H${at(r.rule.high)}V${y - 4}"/>
				<text class="small" text-anchor=${rule.anchor} x=${rule.x} y=${bracketY - 5}>${text.parts.ruleOfThumb}</text>`
				: nothing
		}
		${plumb(mark, y - 25, 25)}
		<text class="today" text-anchor="middle" x=${Math.max(left + small, mark)} y=${y - 29}>${massParts(r.grams, mass).value}</text>
	</svg>`;
}

/** The meal shrinking day by day, a plumb mark on the promised day. */
export function promiseDrawing(
	p: Kept,
	today: string,
	grams: number,
	frame: Frame,
	label: string,
): TemplateResult {
	const ahead = Math.max(daysBetween(today, p.last), daysBetween(today, p.day)) + 1;
	const stride = Math.max(1, Math.ceil(ahead / (frame.text > 1.4 ? 4 : 6)));
	const cells = Math.max(2, Math.ceil((ahead + 1) / stride));
	const small = 14 * frame.text;
	const cell = (frame.width - 2) / cells;
	const y = small * 1.4 + 62;
	const at = (day: string): number => 1 + cell * (daysBetween(today, day) / stride + 0.5);
	const rand = randFrom(`${today}${p.day}`);
	const gone = Math.max(1, daysBetween(today, p.day));
	const days = Array.from({ length: cells }, (_, i) => dayPlus(today, i * stride));
	return html`<svg class="drawing" role="img" aria-label=${label} width=${frame.width} height=${y + small * 1.9}>
		${days.map((day, i) => {
			const share = 1 - (i * stride) / gone;
			const age = i === 0 ? "today" : share > 0.6 ? "fresh" : share > 0.25 ? "some" : "nearly";
			const count =
				share < -0.05 ? 0 : Math.max(2, Math.round(Math.min(8, grams / 25) * Math.max(share, 0.3)));
			const full = Math.min(7.5, cell / 8.5);
			const r = full * (age === "today" || age === "fresh" ? 1 : age === "some" ? 0.74 : 0.46);
			const drawn =
				count > 0
					? lumpsAt(rand, heapOn(rand, 1 + cell * (i + 0.5), y - 1, count, r), age, full)
					: undefined;
			return svg`${drawn ? svg`<path class="lump ${age}" d=${drawn.outline}/><path class="hatch ${age}" d=${drawn.strokes}/>` : nothing}
				<path class="tick" d="M${1 + cell * i} ${y}v8"/>
				<text class="small ${day === p.day || i === 0 ? "strong" : ""}" text-anchor="middle" x=${1 + cell * (i + 0.5)} y=${y + 6 + small}>${weekdayBrief(day)}</text>`;
		})}
		<path class="datum" d="M1 ${y}H${frame.width - 1}"/><path class="tick" d="M${frame.width - 1} ${y}v8"/>
		<path class="bracket" d="M${at(p.first) - 8} ${small + 14}V${small + 7}H${at(p.last) + 8}V${small + 14}"/>
		<text class="small" text-anchor="end" x=${frame.width - 1} y=${small}>${text.parts.likelyGone}</text>
		${plumb(at(p.day), small + 16, 32)}
	</svg>`;
}

/** Past promises: kept ones stand on the line, missed ones hang below it. */
export function scoreDrawing(kept: number, of: number, frame: Frame): TemplateResult {
	const step = Math.min(20, (frame.width - 8) / Math.max(1, of));
	// The view counts promises and doesn't order them: spread the misses evenly.
	const missed = of - kept;
	const hangs = new Set(
		Array.from({ length: missed }, (_, i) => Math.floor(((i + 0.5) * of) / missed)),
	);
	return html`<svg class="drawing" aria-hidden="true" width=${frame.width} height="40">
		<path class="datum" d="M0 22H${Math.min(frame.width, step * of + 8)}"/>
		${Array.from({ length: of }, (_, i) => {
			const x = 4 + step * (i + 0.5);
			return hangs.has(i)
				? svg`<path class="tick" d="M${x} 22v5"/><circle class="ring" cx=${x} cy="31" r="3.600"/>`
				: svg`<path class="post" d="M${x} 21v-13"/>`;
		})}</svg>`;
}
