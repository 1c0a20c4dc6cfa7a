// On a phone that was removed or has left: the entries that are still on it, to
// be exported or given up. Some may be nowhere else.

import { html, type TemplateResult } from "lit";
import type { App } from "../app-api.ts";
import { exportLog } from "../device/export.ts";
import type { Phone } from "../device/phone.ts";
import { Light } from "../parts/light.ts";
import { text } from "../strings.ts";

export class KeptEntries extends Light {
	static override properties = {
		app: { attribute: false },
		phone: { attribute: false },
		asked: { state: true },
	};
	declare app: App;
	declare phone: Phone;
	declare asked: boolean;

	constructor() {
		super();
		this.asked = false;
	}

	#export = async (): Promise<void> => {
		await exportLog(this.phone.store, this.app.day());
		this.app.say(text.household.exported);
	};

	override render(): TemplateResult {
		const words = text.join;
		const { kept } = this.phone.state;
		return html`<section aria-labelledby="kept-title">
			<h2 class="section" id="kept-title">${words.keptTitle}</h2>
			<p>${words.kept(kept)}</p>
			<div class="choices">
				<button type="button" class="plain" @click=${this.#export}>${text.household.exportAll}</button>
				${
					this.asked
						? html`<button type="button" class="plain" @click=${() => void this.phone.forgetKept()}>
								${words.keptForgetSure(kept)}
							</button>`
						: html`<button
								type="button"
								class="plain"
								@click=${() => {
									this.asked = true;
								}}
							>
								${words.keptForget}
							</button>`
				}
			</div>
		</section>`;
	}
}

customElements.define("kept-entries", KeptEntries);
