// The household's phones, and how a keeper removes one: a first tap asks why,
// the second signs it.

import { html, nothing, type TemplateResult } from "lit";
import type { Phone } from "../device/phone.ts";
import type { Why } from "../device/removing.ts";
import { StoreFault } from "../device/store.ts";
import { Light } from "../parts/light.ts";
import { text } from "../strings.ts";
import type { DeviceView, HouseholdView } from "../types.gen.ts";

export class HouseholdPhones extends Light {
	static override properties = {
		phone: { attribute: false },
		household: { attribute: false },
		asked: { state: true },
		busy: { state: true },
		fault: { state: true },
		said: { state: true },
	};
	declare phone: Phone;
	declare household: HouseholdView;
	/** Device that is about to be removed, "" for none. */
	declare asked: string;
	declare busy: boolean;
	declare fault: string;
	/** What was done last, "" for nothing. */
	declare said: string;

	constructor() {
		super();
		this.asked = "";
		this.busy = false;
		this.fault = "";
		this.said = "";
	}

	async #ask(device: string): Promise<void> {
		this.asked = device;
		this.fault = "";
		await this.updateComplete;
		this.querySelector<HTMLElement>("#remove-title")?.focus();
	}

	async #keep(device: string): Promise<void> {
		this.asked = "";
		await this.updateComplete;
		this.querySelector<HTMLElement>(`[data-device="${device}"]`)?.focus();
	}

	async #remove({ id, name }: DeviceView, why: Why): Promise<void> {
		if (this.busy) return;
		this.busy = true;
		try {
			await this.phone.remove(id, why);
			this.asked = "";
			this.said = text.household.removed(name);
		} catch (fault) {
			this.fault =
				fault instanceof StoreFault
					? text.join.notSaved[fault.kind]
					: text.household.failed(String(fault));
		} finally {
			this.busy = false;
		}
	}

	override render() {
		return html`<ul class="rows">${this.household.devices.map((device) => this.#row(device))}</ul>
			<p role="status">${this.said}</p>`;
	}

	#row(device: DeviceView): TemplateResult {
		const words = text.household;
		const { id, name, who, member, role, mine, gone } = device;
		const state = gone ? (words.phoneGone[gone] ?? gone) : mine ? words.mine : "";
		const removable = this.household.role === "keeper" && member !== "" && !mine && !gone;
		return html`<li>
			<b>${name}</b>
			<span class="second"
				>${member ? words.phoneOf(who, words.member[role] ?? role) : words.console}${state ? html` · ${state}` : nothing}</span
			>
			${removable && this.asked !== id ? this.#removeButton(device) : nothing}
			${removable && this.asked === id ? this.#why(device) : nothing}
		</li>`;
	}

	#removeButton({ id, name }: DeviceView): TemplateResult {
		const words = text.household;
		return html`<button
			type="button"
			class="textlink"
			data-device=${id}
			aria-label=${`${words.remove}: ${name}`}
			@click=${() => void this.#ask(id)}
		>
			${words.remove}
		</button>`;
	}

	#why(device: DeviceView): TemplateResult {
		const words = text.household;
		const choice = (why: Why) => html`<p>${words.removeLead[why]}</p>
			<button
				type="button"
				class="plain"
				?disabled=${this.busy}
				@click=${() => void this.#remove(device, why)}
			>
				${words.removeWhy[why]}
			</button>`;
		return html`<div class="why" role="group" aria-labelledby="remove-title">
			<h3 id="remove-title" tabindex="-1">${words.removeTitle(device.name)}</h3>
			<p>${words.removeStays}</p>
			${choice("lost")} ${choice("removed")}
			${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
			<button type="button" class="textlink" @click=${() => void this.#keep(device.id)}>
				${words.removeNot}
			</button>
		</div>`;
	}
}

customElements.define("household-phones", HouseholdPhones);
