// A vessel of the household's own with its fill lines: it is tapped at the line
// it is filled to. Lines are ruled, lumps are drawn by hand.

import { html, type SVGTemplateResult, svg, type TemplateResult } from "lit";
import { hatch } from "./pen.ts";
import { between, randFrom } from "./rand.ts";
import { lump } from "./textures.ts";

const WIDTH = 132;
const LINE = 48; // px between fill lines: each is a thumb's target
const LINES = [4, 3, 2, 1] as const;

/** What is in it, lumps packed from the foot to the line. */
function filling(quarters: number, foot: number): SVGTemplateResult {
	const rand = randFrom("vessel");
	const r = 8;
	let outline = "";
	let strokes = "";
	for (let y = foot - r - 2; y > foot - quarters * LINE + r * 0.4; y -= r * 1.9) {
		const lean = ((foot - y) / (LINE * 4)) * 8;
		for (let x = 30 - lean + r; x < WIDTH - 30 + lean - r * 0.6; x += r * 2.1) {
			const p = { x: x + between(rand, -1.5, 1.5), y: y + between(rand, -1.5, 1.5) };
			const points = lump(rand, p, r);
			outline += `M${points.map((q) => `${q.x.toFixed(1)} ${q.y.toFixed(1)}`).join("L")}Z`;
			strokes += hatch(points, -40, 3.4);
		}
	}
	return svg`<path class="lump fresh" d=${outline}/><path class="hatch fresh" d=${strokes}/>`;
}

export interface FillLines {
	quarters: number; // up to which line; above 4 it was filled more than once
	label: string;
	words: readonly string[]; // by quarters, for those who don't see it
	brief: readonly string[]; // by quarters, beside the line
	to: (quarters: number) => void;
}

/** The vessel with a button on each of its four lines. */
export function fillLines(f: FillLines): TemplateResult {
	const foot = LINE * 4 + 22;
	const at = Math.min(4, f.quarters);
	return html`<div class="filllines" role="group" aria-label=${f.label}>
		<svg class="drawing" width=${WIDTH} height=${foot + 4} aria-hidden="true">
			${filling(at, foot)}
			<path class="wall" d="M14 10h5L29 ${foot}H${WIDTH - 29}L${WIDTH - 19} 10h5"/>
			${LINES.map((q) => {
				const y = foot - q * LINE;
				const lean = (q / 4) * 8;
				return svg`<path class=${q === at ? "datum" : "contact"} d="M${29 - lean} ${y}H${WIDTH - 29 + lean}"/>`;
			})}
		</svg>
		<div class="lines">${LINES.map(
			(q) =>
				html`<button type="button" aria-pressed=${q === at ? "true" : "false"} aria-label=${f.words[q] ?? ""} class=${q === at ? "on" : ""} @click=${() => f.to(q)}>${f.brief[q] ?? ""}</button>`,
		)}</div></div>`;
}
