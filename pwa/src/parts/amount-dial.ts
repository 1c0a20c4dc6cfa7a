// <amount-dial>: a graduated strip that is dragged past its index, with a key
// on either side that does the same by one step. Emits "turn" with the grams.

import { html, svg } from "lit";
import { type Mass, massParts, weight } from "../format.ts";
import { text } from "../strings.ts";
import { DIAL_END, dialStep, keyTurn, turned } from "./dial-steps.ts";
import { Light } from "./light.ts";
import { stillPlease } from "./still.ts";

const SLIDE_MS = 120;
const PER_STEP = 40; // px that the strip is dragged for one step

export class AmountDial extends Light {
	static override properties = {
		grams: { type: Number },
		mass: { type: String },
		label: { type: String },
	};
	declare grams: number;
	declare mass: Mass;
	declare label: string;
	#drag: { x: number; grams: number } | undefined;
	#from: number | undefined; // g, where the strip stood when it was last shown

	constructor() {
		super();
		this.grams = 0;
		this.mass = "g";
		this.label = text.parts.amount;
	}

	#set(grams: number): void {
		if (grams === this.grams) return;
		this.grams = grams;
		this.dispatchEvent(new CustomEvent<number>("turn", { detail: grams, bubbles: true }));
	}

	#down(e: PointerEvent): void {
		this.#drag = { x: e.clientX, grams: this.grams };
		(e.currentTarget as Element).setPointerCapture(e.pointerId);
	}

	#move(e: PointerEvent): void {
		if (!this.#drag) return;
		const steps = Math.round((this.#drag.x - e.clientX) / PER_STEP);
		this.#set(steps === 0 ? this.#drag.grams : turned(this.#drag.grams, steps, this.mass));
	}

	#up(): void {
		this.#drag = undefined;
	}

	#key(e: KeyboardEvent): void {
		const turn = keyTurn(e.key);
		if (!turn) return;
		e.preventDefault();
		this.#set(turn.to ?? turned(this.grams, turn.by ?? 0, this.mass));
	}

	/** The strip slides by whole steps; a jump to another ration does not. */
	protected override updated(): void {
		const from = this.#from;
		this.#from = this.grams;
		if (from === undefined || from === this.grams) return;
		const by = [-1, 1].find((step) => turned(from, step, this.mass) === this.grams);
		if (!by || stillPlease()) return;
		for (const figure of this.querySelectorAll(".strip span")) {
			const start = { transform: `translateX(${by * 100}%)` };
			figure.animate([start, { transform: "none" }], { duration: SLIDE_MS, easing: "ease-out" });
		}
	}

	override render() {
		const step = weight(dialStep(this.mass), this.mass);
		const around = [-2, -1, 0, 1, 2].map((by) => ({
			by,
			grams: by === 0 ? this.grams : turned(this.grams, by, this.mass),
		}));
		const brief = massParts(dialStep(this.mass), this.mass).value;
		const shown = (grams: number): string =>
			this.mass === "g" ? massParts(grams, this.mass).value : weight(grams, this.mass);
		return html`<div class="dial" role="group" aria-label=${this.label}>
			<button type="button" aria-label=${text.parts.less(step)} @click=${() => this.#set(turned(this.grams, -1, this.mass))}>−${brief}</button>
			<div class="strip" role="slider" tabindex="0" aria-label=${this.label} aria-orientation="horizontal"
				aria-valuemin="0" aria-valuemax=${DIAL_END} aria-valuenow=${this.grams}
				aria-valuetext=${weight(this.grams, this.mass)} @keydown=${this.#key}
				@pointerdown=${this.#down} @pointermove=${this.#move} @pointerup=${this.#up} @pointercancel=${this.#up}>
				<svg class="ticks" aria-hidden="true" width="100%" height="13">${Array.from(
					{ length: 25 },
					(_, i) => {
						const major = i % 5 === 2;
						return svg`<line class=${major ? "major" : ""} x1="${i * 4 + 2}%" x2="${i * 4 + 2}%" y1="0" y2=${major ? 12 : 7}/>`;
					},
				)}</svg>
				${around.map(({ by, grams }) => {
					// Nothing lies below nothing or beyond the end.
					const there =
						by === 0 ||
						(grams !== this.grams &&
							Math.sign(grams - this.grams) === Math.sign(by) &&
							!(by === -2 && grams === turned(this.grams, -1, this.mass)) &&
							!(by === 2 && grams === turned(this.grams, 1, this.mass)));
					return html`<span class="${by === 0 ? "on" : ""} ${Math.abs(by) === 2 ? "outer" : ""}">${there ? shown(grams) : ""}</span>`;
				})}
			</div>
			<button type="button" aria-label=${text.parts.more(step)} @click=${() => this.#set(turned(this.grams, 1, this.mass))}>+${brief}</button>
		</div>`;
	}
}
customElements.define("amount-dial", AmountDial);

declare global {
	interface HTMLElementTagNameMap {
		"amount-dial": AmountDial;
	}
}
