// A label's code by hand, for a label that can't be scanned.

import { html, nothing } from "lit";
import type { App, ScreenArgs } from "../app-api.ts";
import { header } from "../parts/header.ts";
import { Light } from "../parts/light.ts";
import { text } from "../strings.ts";

export class CodeScreen extends Light {
	static override properties = {
		app: { attribute: false },
		args: { attribute: false },
		empty: { state: true },
	};
	declare app: App;
	declare args: ScreenArgs;
	declare empty: boolean;

	constructor() {
		super();
		this.empty = false;
	}

	#open = (event: Event): void => {
		event.preventDefault();
		const input = this.querySelector<HTMLInputElement>("#label-code");
		const typed = input?.value.trim() ?? "";
		this.empty = typed === "";
		if (this.empty) input?.focus();
		else this.app.go(`/t/${encodeURIComponent(typed)}`);
	};

	override render() {
		const words = text.code;
		return html`<main class="page">
			${header({ title: words.title, back: "/scan" })}
			<form class="form" novalidate @submit=${this.#open}>
				<label for="label-code">${words.label}</label>
				<input
					id="label-code"
					class="code"
					name="code"
					maxlength="40"
					autocomplete="off"
					autocapitalize="characters"
					spellcheck="false"
					aria-describedby="label-code-hint"
				/>
				<p class="second" id="label-code-hint">${words.hint}</p>
				${this.empty ? html`<p class="fault" role="alert">${words.empty}</p>` : nothing}
				<button type="submit" class="go ink">${words.open}</button>
			</form>
		</main>`;
	}
}

customElements.define("code-screen", CodeScreen);
