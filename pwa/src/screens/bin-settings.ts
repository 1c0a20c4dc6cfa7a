// How a bin is set up, folded until somebody changes it.

import { html, nothing, type TemplateResult } from "lit";
import type { App } from "../app-api.ts";
import { dayPlus, type Temp, tempParts } from "../format.ts";
import { section } from "../parts/header.ts";
import { Light } from "../parts/light.ts";
import { text } from "../strings.ts";
import type { BinSheet } from "../types.gen.ts";
import type { Write } from "./bin.ts";
import { faultAt, field, isJumping, jumping, picks, speciesPicks, toFault } from "./bin-fields.ts";
import { type Fault, type Settings, settingsIntent, settingsOf } from "./bin-form.ts";
import { roomFields } from "./bin-new.ts";

const LONGEST_HEAT = 60; // days that a hot week may be told ahead

export class BinSettings extends Light {
	static override properties = {
		app: { attribute: false },
		view: { attribute: false },
		write: { attribute: false },
		form: { state: true },
		bad: { state: true },
	};
	declare app: App;
	declare view: BinSheet;
	declare write: Write;
	/** What was typed, or undefined while it stands as it is written down. */
	declare form: Settings | undefined;
	/** What stood there when the typing began. */
	#was: Settings | undefined;
	declare bad: Fault | "";
	#asked = false;

	constructor() {
		super();
		this.bad = "";
	}

	#key(): string {
		return `bin-${this.view.id}`;
	}

	protected override willUpdate(): void {
		if (this.#asked || !this.view?.id) return;
		this.#asked = true;
		void this.app.draft(this.#key()).then(
			(kept) => {
				const { form, was } = (kept ?? {}) as { form?: Settings; was?: Settings };
				if (!form || !was || this.form) return;
				this.form = form;
				this.#was = was;
			},
			() => {},
		);
	}

	#set(change: Partial<Settings>): void {
		this.#was ??= settingsOf(this.view);
		this.form = { ...(this.form ?? this.#was), ...change };
		this.bad = "";
		this.app.keepDraft(this.#key(), { form: this.form, was: this.#was });
	}

	override render() {
		const { view } = this;
		const words = text.bins;
		const form = this.form ?? settingsOf(view);
		return html`<details class="why settings" ?open=${this.form !== undefined}><summary>${words.settings}</summary>
			<form novalidate @submit=${this.#save}>
				${field({ name: "name", label: words.name, value: form.name, bad: this.bad === "name", set: (name) => this.#set({ name }) })}${faultAt(this.bad, "name")}
				${section(words.goal)}${picks(words.goal, words.goals, form.goal, (goal) => this.#set({ goal }), words.goalsSay)}
				${section(words.placing)}${picks(words.placing, words.placings, form.placing, (placing) => this.#set({ placing }), words.placingsSay)}
				${this.#days(form)}
				${section(words.species)}${speciesPicks(form.species, (species) => this.#set({ species }))}${faultAt(this.bad, "species")}
				${isJumping(form.species) ? jumping() : nothing}
				${section(words.room)}${roomFields(form, tempParts(0, view.temp as Temp).unit, this.bad, (change) => this.#set(change))}
				${field({ name: "started", label: words.started, type: "date", latest: view.day, value: form.started, bad: this.bad === "day", set: (started) => this.#set({ started }) })}
				<div class="act"><button type="submit" class="go ink" ?disabled=${this.form === undefined}>${words.save}</button></div>
			</form></details>`;
	}

	#days(form: Settings): TemplateResult {
		const words = text.bins;
		const { day } = this.view;
		return html`<div class="sides">
				${field({ name: "every", label: words.every, value: form.every, figure: true, bad: this.bad === "every", set: (every) => this.#set({ every }) })}
				${field({ name: "hot", label: words.hot, type: "date", earliest: day, latest: dayPlus(day, LONGEST_HEAT), value: form.hot, bad: this.bad === "day", set: (hot) => this.#set({ hot }) })}
			</div>${faultAt(this.bad, "every", "day")}<p class="second">${words.hotHint}</p>`;
	}

	#save = async (event: Event): Promise<void> => {
		event.preventDefault();
		if (!this.form || !this.#was) return;
		const change = settingsIntent(this.form, this.#was, this.view);
		if (typeof change === "string") {
			this.bad = change;
			await this.updateComplete;
			toFault(this);
			return;
		}
		if (change) {
			const saved = await this.write(
				change.intent,
				text.bins.saved(this.form.name.trim()),
				change.back,
			);
			if (!saved.ok) return;
		}
		await this.app.dropDraft(this.#key());
		this.form = this.#was = undefined;
	};
}

customElements.define("bin-settings", BinSettings);
