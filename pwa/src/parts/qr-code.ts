// A square code drawn from its rows of 0 and 1, black on white in every theme:
// scanners want the contrast.

import { html, svg } from "lit";
import { Light } from "./light.ts";

export class QrCode extends Light {
	static override properties = { rows: { attribute: false }, label: {} };
	declare rows: string[];
	declare label: string;

	override render() {
		const size = this.rows.length;
		// One path of unit-high runs: a thousand rectangles would be slow to draw.
		const path = this.rows
			.flatMap((row, y) =>
				[...row.matchAll(/1+/g)].map(
					(run) => `M${run.index} ${y}h${run[0].length}v1h-${run[0].length}z`,
				),
			)
			.join("");
		return html`<svg
			class="qr"
			viewBox="0 0 ${size} ${size}"
			role="img"
			aria-label=${this.label}
			shape-rendering="crispEdges"
		>
			${svg`<rect width=${size} height=${size} fill="#fff"></rect><path d=${path} fill="#000"></path>`}
		</svg>`;
	}
}

customElements.define("qr-code", QrCode);
