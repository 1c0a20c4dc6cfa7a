// More: the places that don't stand on the strip.

import { html } from "lit";
import { Light } from "../parts/light.ts";
import { text } from "../strings.ts";

export class MoreScreen extends Light {
	override render() {
		const words = text.app;
		const row = (path: string, name: string, lead: string) =>
			html`<li>
				<a class="rowlink" href=${path}><b>${name}</b><span class="second">${lead}</span></a>
			</li>`;
		return html`<main class="page">
			<h1>${words.more}</h1>
			<ul class="rows">
				${row("/timeline", words.timeline, words.timelineLead)}
				${row("/household", words.household, words.householdLead)}
			</ul>
		</main>`;
	}
}

customElements.define("more-screen", MoreScreen);
