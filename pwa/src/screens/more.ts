// More: the places that don't stand on the strip.

import { html, nothing } from "lit";
import { type Language, language, languages, speak } from "../language.ts";
import { Light } from "../parts/light.ts";
import { text } from "../strings.ts";
import { simpleChoice } from "./simple.ts";

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
				${row("/food", text.food.title, text.food.lead)}
				${row("/trouble", text.trouble.title, text.trouble.lead)}
				${row("/harvest", text.harvest.title, text.harvest.lead)}
				${row("/bin", text.bins.title, text.bins.lead)}
				${row("/plan", text.plan.title, text.plan.lead)}
				${row("/timeline", words.timeline, words.timelineLead)}
				${row("/card", text.card.title, text.card.lead)}
				${row("/labels", text.labels.title, text.labels.lead)}
				${row("/freezer", text.freezer.title, text.freezer.lead)}
				${row("/household", words.household, words.householdLead)}
			</ul>
			${this.#languages()}
			${simpleChoice()}
		</main>`;
	}

	/** Each language by its own name, so that whoever cannot read this one finds theirs. */
	#languages() {
		const known = Object.entries(languages) as [Language, string][];
		if (known.length < 2) return nothing;
		return html`<fieldset class="choice">
			<legend>${text.app.language}</legend>
			${known.map(
				([tag, name]) => html`<label lang=${tag}>
					<input type="radio" name="language" .checked=${tag === language} @change=${() => speak(tag)} />
					${name}
				</label>`,
			)}
		</fieldset>`;
	}
}

customElements.define("more-screen", MoreScreen);
