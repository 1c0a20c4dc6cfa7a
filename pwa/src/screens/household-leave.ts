// Leaving the household: what would be lost with this phone is said first, then
// the others are told, then the phone is emptied.

import { html, nothing, type TemplateResult } from "lit";
import { AuthRefused } from "../device/keys.ts";
import { NetFault } from "../device/net.ts";
import type { Phone } from "../device/phone.ts";
import { lastKeeper } from "../device/removing.ts";
import { Light } from "../parts/light.ts";
import { text } from "../strings.ts";
import type { HouseholdView } from "../types.gen.ts";

export class HouseholdLeave extends Light {
	static override properties = {
		phone: { attribute: false },
		household: { attribute: false },
		alone: { attribute: false },
		pictures: { attribute: false },
		asked: { state: true },
		busy: { state: true },
		fault: { state: true },
	};
	declare phone: Phone;
	declare household: HouseholdView;
	/** Entries that are on this phone alone. */
	declare alone: number;
	/** Pictures that are on this phone alone. */
	declare pictures: number;
	declare asked: boolean;
	declare busy: boolean;
	/** Why the household could not be told, "" if nobody tried. */
	declare fault: string;

	constructor() {
		super();
		this.alone = this.pictures = 0;
		this.asked = false;
		this.busy = false;
		this.fault = "";
	}

	async #ask(asked: boolean): Promise<void> {
		this.asked = asked;
		this.fault = "";
		await this.updateComplete;
		this.querySelector<HTMLElement>(asked ? "#leave-title" : "button")?.focus();
	}

	async #leave(untold: boolean): Promise<void> {
		if (this.busy) return;
		this.busy = true;
		try {
			await this.phone.leave(untold);
		} catch (why) {
			const words = text.household;
			const unheard = why instanceof NetFault || why instanceof AuthRefused;
			this.fault = unheard ? words.leaveUnheard : words.failed(String(why));
			this.busy = false;
		}
	}

	override render() {
		if (this.asked) return this.#question();
		return html`<button type="button" class="plain" @click=${() => void this.#ask(true)}>
			${text.household.leave}
		</button>`;
	}

	#question(): TemplateResult {
		const words = text.household;
		const { alone } = this;
		return html`<div role="group" aria-labelledby="leave-title">
			<h3 id="leave-title" tabindex="-1">${words.leaveTitle}</h3>
			<p>${words.leaveLead}</p>
			${lastKeeper(this.household.devices) ? html`<p class="fault">${words.leaveLastKeeper}</p>` : nothing}
			${alone > 0 ? html`<p class="fault">${words.leaveUnshared(alone)}</p>` : nothing}
			${this.pictures > 0 ? html`<p class="fault">${words.leavePictures(this.pictures)}</p>` : nothing}
			${this.fault ? html`<p class="fault" role="alert">${this.fault} ${words.leaveListed}</p>` : nothing}
			<div class="choices">
				<button type="button" class="plain" @click=${() => void this.#ask(false)}>
					${words.leaveStay}
				</button>
				<button
					type="button"
					class="plain"
					?disabled=${this.busy}
					@click=${() => void this.#leave(this.fault !== "")}
				>
					${this.fault ? words.leaveUntold : alone > 0 ? words.leaveDiscard(alone) : words.leaveNow}
				</button>
			</div>
		</div>`;
	}
}

customElements.define("household-leave", HouseholdLeave);
