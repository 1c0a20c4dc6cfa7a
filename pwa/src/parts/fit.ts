// A frame that knows its width. Textures are redrawn for the size at hand and
// never scaled, so a drawing is a function of its frame.

import { nothing, type TemplateResult } from "lit";
import { Light } from "./light.ts";

/** The room a drawing has. `text` is how much larger than usual the person's
 * text is (1 = 16 px root). */
export interface Frame {
	width: number;
	text: number;
}

export class FitFrame extends Light {
	static override properties = { draw: { attribute: false }, width: { state: true } };
	declare draw: ((frame: Frame) => TemplateResult) | undefined;
	declare width: number;
	#watch: ResizeObserver | undefined;

	constructor() {
		super();
		this.width = 0;
	}

	override connectedCallback(): void {
		super.connectedCallback();
		this.width = Math.floor(this.clientWidth);
		this.#watch = new ResizeObserver(() => {
			this.width = Math.floor(this.clientWidth);
		});
		this.#watch.observe(this);
	}

	override disconnectedCallback(): void {
		this.#watch?.disconnect();
		super.disconnectedCallback();
	}

	override render() {
		if (!this.draw || this.width === 0) return nothing;
		const root = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
		return this.draw({ width: this.width, text: root / 16 });
	}
}
customElements.define("fit-frame", FitFrame);

declare global {
	interface HTMLElementTagNameMap {
		"fit-frame": FitFrame;
	}
}
