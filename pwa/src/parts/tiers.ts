// The stack on a tray's page: the large section, its scale bar and key, and the
// same in words. A tray is a link; tapping it opens its page.

import { html, nothing, type TemplateResult } from "lit";
import { dayBrief, type Mass, type Temp, volume, weight } from "../format.ts";
import { text } from "../strings.ts";
import type { BaseView, TierView } from "../types.gen.ts";
import { said } from "../words.ts";
import "./fit.ts";
import type { Frame } from "./fit.ts";
import { sectionKey } from "./key.ts";
import { Light } from "./light.ts";
import { type PlacedTier, type Plan, planSection, scaleBar, sectionDrawing } from "./section.ts";
import { type SectionLook, sectionLines } from "./section-words.ts";
import { type Meal, WORM_GRAMS } from "./stack.ts";

export interface StackLook {
	bin: string;
	open: string; // id of the tray whose page it is
	guess: boolean;
	meal: Meal | undefined;
	today: string;
	mass: Mass;
	temp?: Temp;
	base?: BaseView | undefined;
}

const MOVE_MS = 240; // how long a change is shown, see the look

/** The large section of a stack. It knows what it showed before, so that a
 * change explains itself: a meal that was fed drops in, leftovers that a look
 * corrected fade over. */
export class StackSection extends Light {
	static override properties = {
		stack: { attribute: false },
		look: { attribute: false },
		moving: { state: true },
		drawn: { state: true },
	};
	declare stack: TierView[];
	declare look: StackLook | undefined;
	declare moving: "" | "fed" | "looked";
	declare drawn: boolean; // false until the page has been shown once
	#timer = 0;

	constructor() {
		super();
		this.stack = [];
		this.moving = "";
		this.drawn = false;
	}

	/** What a person scanned for is the number. Textures take as long to draw as
	 * all the rest, so the first frame only keeps their room. */
	protected override firstUpdated(): void {
		requestAnimationFrame(() => {
			setTimeout(() => {
				this.drawn = true;
			});
		});
	}

	protected override willUpdate(changed: Map<string, unknown>): void {
		const before = changed.get("stack") as TierView[] | undefined;
		if (!before || before.length === 0) return;
		this.moving = change(before, this.stack) || this.moving;
		if (!this.moving) return;
		clearTimeout(this.#timer);
		// From the frame that shows it: a busy phone would else skip it.
		requestAnimationFrame(() => {
			clearTimeout(this.#timer);
			this.#timer = window.setTimeout(() => {
				this.moving = "";
			}, MOVE_MS);
		});
	}

	override disconnectedCallback(): void {
		clearTimeout(this.#timer);
		super.disconnectedCallback();
	}

	override render() {
		const { look, stack } = this;
		if (!look || stack.length === 0) return nothing;
		const drawn = sectionLook(look);
		const lines = sectionLines(stack, look.base, drawn);
		// At large text the drawing has no room for labels: the words stand open.
		return html`<figure class="stackfigure">
			<div class="vh" role="img" aria-label=${text.section.label(lines.join(" "))}></div>
			<fit-frame class="stackframe ${this.moving}" .draw=${(frame: Frame) => {
				if (!this.drawn) return room(planSection(stack, frame, drawn, look.base), frame);
				const { drawing, placed, plan } = sectionDrawing(stack, look.base, drawn, frame);
				return html`${drawing}${placed.map((p) => opener(p, plan, look))}${scaleBar(plan, frame)}`;
			}}></fit-frame>
			<details class="stackwords" ?open=${matchMedia("(max-width: 18em)").matches}><summary>${text.section.asText}</summary>
				<ul class="rows">${lines.map((line) => html`<li>${line}</li>`)}</ul></details>
			<details class="stackkey"><summary>${text.section.key}</summary>
				${sectionKey(weight(WORM_GRAMS.large, look.mass))}</details>
		</figure>`;
	}
}
customElements.define("stack-section", StackSection);

/** What changed between two stacks that a drawing should explain. */
export function change(before: TierView[], after: TierView[]): "" | "fed" | "looked" {
	const portions = (stack: TierView[]): Map<string, number> =>
		new Map(stack.flatMap((tier) => tier.scraps.map((p) => [p.feeding, p.left] as const)));
	const [old, now] = [portions(before), portions(after)];
	const sameTrays = before.map((t) => t.id).join() === after.map((t) => t.id).join();
	if (!sameTrays) return "";
	if ([...now.keys()].some((feeding) => !old.has(feeding))) return "fed";
	const other = [...old].some(([feeding, left]) => now.get(feeding) !== left);
	return other ? "looked" : "";
}

/** How a stack is told, from what its page knows. */
export const sectionLook = (look: StackLook): SectionLook => ({
	...look,
	temp: look.temp ?? "C",
	liquid: (base) => {
		const drained = text.section.drained(volume(base.drained), dayBrief(base.day, look.today));
		return base.liquidML > 0 ? text.section.liquidNow(volume(base.liquidML), drained) : drained;
	},
});

const room = (plan: Plan, frame: Frame): TemplateResult =>
	html`<svg aria-hidden="true" width=${frame.width} height=${plan.height}></svg>`;

/** A link over a tray and its name; the tray whose page it is has none. */
function opener(p: PlacedTier, plan: Plan, look: StackLook): TemplateResult | typeof nothing {
	if (p.tier.id === look.open) return nothing;
	const top = p.rim - 10;
	// As a property: the page's policy allows no style attribute.
	const css = `top:${top}px;left:${p.x - 6}px;width:${plan.edge - p.x + 6}px;height:${Math.max(48, p.floor - top + 4)}px`;
	return html`<a class="opener" href="/t/${encodeURIComponent(p.tier.code || p.tier.id)}"
		aria-label=${text.section.open(p.tier.name, said(text.stages, p.tier.stage))}
		.style=${css}></a>`;
}

export function tiers(stack: TierView[], look: StackLook): TemplateResult {
	return html`<stack-section .stack=${stack} .look=${look}></stack-section>`;
}

declare global {
	interface HTMLElementTagNameMap {
		"stack-section": StackSection;
	}
}
