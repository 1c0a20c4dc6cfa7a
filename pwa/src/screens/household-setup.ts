// The first keeper's form: the names, the zone and the units that everything
// else is told in.

import { html, nothing } from "lit";
import type { App, RecordFault } from "../app-api.ts";
import { Light } from "../parts/light.ts";
import { text } from "../strings.ts";

const DRAFT = "household-setup";

interface Form {
	home: string;
	own: string;
	zone: string;
	mass: "g" | "oz";
	temp: "C" | "F";
}

/** What the phone's own settings suggest. */
function suggestion(): Form {
	const zone = new Intl.DateTimeFormat().resolvedOptions().timeZone;
	// The United States and its neighbours in custom weigh in ounces and read °F.
	const us = /-(US|LR|FM|MH|PW)$/.test(navigator.language);
	return { home: "", own: "", zone, mass: us ? "oz" : "g", temp: us ? "F" : "C" };
}

/** Why an entry was not saved, in words. */
export function notSaved(fault: RecordFault): string {
	const words = text.join.notSaved;
	if (fault.kind !== "refused") return words[fault.kind];
	return words.refused(fault.detail || fault.code);
}

/** Fires `done` when both entries are durable. */
export class HouseholdSetup extends Light {
	static override properties = {
		app: { attribute: false },
		form: { state: true },
		begun: { state: true },
		fault: { state: true },
	};
	declare app: App;
	declare form: Form;
	declare begun: boolean; // the kept draft was looked for: the form may be filled in
	declare fault: string;

	constructor() {
		super();
		this.form = suggestion();
		this.begun = false;
		this.fault = "";
	}

	override async connectedCallback(): Promise<void> {
		super.connectedCallback();
		const draft = (await this.app.draft(DRAFT).catch(() => undefined)) as Form | undefined;
		if (draft) this.form = { ...this.form, ...draft };
		this.begun = true;
	}

	#typed = (event: Event): void => {
		const field = event.target as HTMLInputElement | HTMLSelectElement;
		this.form = { ...this.form, [field.name]: field.value };
		this.app.keepDraft(DRAFT, this.form);
	};

	#save = async (event: Event): Promise<void> => {
		event.preventDefault();
		const { home, own, zone, mass, temp } = this.form;
		if (!home.trim() || !own.trim()) {
			this.fault = text.join.needName;
			const empty = home.trim() ? "own" : "home";
			this.querySelector<HTMLInputElement>(`[name=${empty}]`)?.focus();
			return;
		}
		const { member } = this.app.me();
		for (const intent of [
			{ do: "member", entity: member, set: { name: own.trim() } },
			{ do: "household", set: { name: home.trim(), zone, mass, temp } },
		]) {
			const recorded = await this.app.record(intent);
			if (!recorded.ok) {
				this.fault = notSaved(recorded.fault);
				return;
			}
		}
		await this.app.dropDraft(DRAFT);
		this.dispatchEvent(new CustomEvent("done", { bubbles: true }));
	};

	override render() {
		if (!this.begun) return nothing;
		const words = text.join;
		const zones = Intl.supportedValuesOf?.("timeZone") ?? [];
		const { form } = this;
		return html`
			<h1>${words.setupTitle}</h1>
			<p>${words.setupLead}</p>
			<form class="form" novalidate @input=${this.#typed} @submit=${this.#save}>
				<label for="setup-home">${words.householdName}</label>
				<input id="setup-home" name="home" maxlength="60" autocomplete="off" required .value=${form.home} />
				<label for="setup-own">${words.ownName}</label>
				<input id="setup-own" name="own" maxlength="60" autocomplete="given-name" required .value=${form.own} />
				<label for="setup-zone">${words.zone}</label>
				<input
					id="setup-zone"
					name="zone"
					list="setup-zones"
					autocomplete="off"
					aria-describedby="setup-zone-hint"
					.value=${form.zone}
				/>
				<datalist id="setup-zones">${zones.map((zone) => html`<option value=${zone}></option>`)}</datalist>
				<p class="second" id="setup-zone-hint">${words.zoneHint}</p>
				${this.#choice("mass", words.mass, [
					["g", words.massG],
					["oz", words.massOz],
				])}
				${this.#choice("temp", words.temp, [
					["C", words.tempC],
					["F", words.tempF],
				])}
				${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
				<button type="submit" class="go ink">${words.setupSave}</button>
			</form>
		`;
	}

	#choice(name: "mass" | "temp", legend: string, options: [string, string][]) {
		return html`<fieldset class="choice">
			<legend>${legend}</legend>
			${options.map(
				([value, word]) => html`<label
					><input type="radio" name=${name} value=${value} .checked=${this.form[name] === value} />
					<span>${word}</span></label
				>`,
			)}
		</fieldset>`;
	}
}

customElements.define("household-setup", HouseholdSetup);
