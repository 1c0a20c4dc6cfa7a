// Household: who belongs to it, which phones, how the exchange stands, and what
// is on this phone alone.

import { html, nothing, type TemplateResult } from "lit";
import type { App } from "../app-api.ts";
import { download, exportLog } from "../device/export.ts";
import type { RefusedRow } from "../device/layout.ts";
import type { Phone } from "../device/phone.ts";
import { Light } from "../parts/light.ts";
import { text } from "../strings.ts";
import { sentences } from "../sync-words.ts";
import type { HouseholdView } from "../types.gen.ts";
import "./add-phone.ts";
import "./household-leave.ts";
import "./household-phones.ts";
import "./household-setup.ts";

export class HouseholdScreen extends Light {
	static override properties = {
		app: { attribute: false },
		phone: { attribute: false },
		household: { state: true },
		refused: { state: true },
	};
	declare app: App;
	declare phone: Phone;
	declare household: HouseholdView | null;
	declare refused: RefusedRow[];
	#stop: (() => void)[] = [];

	constructor() {
		super();
		this.household = null;
		this.refused = [];
	}

	override connectedCallback(): void {
		super.connectedCallback();
		this.#stop = [
			this.app.onChange(() => void this.#load()),
			this.phone.watch(() => void this.#count()),
		];
		void this.#load();
		void this.#count();
	}

	override disconnectedCallback(): void {
		for (const stop of this.#stop) stop();
		super.disconnectedCallback();
	}

	#load = async (): Promise<void> => {
		this.household = (await this.app.view("household")).data;
	};

	async #count(): Promise<void> {
		this.requestUpdate();
		if (this.phone.state.refused !== this.refused.length) {
			this.refused = await this.phone.refusedEntries();
		}
	}

	#export = async (): Promise<void> => {
		await exportLog(this.phone.store, this.app.day());
		this.app.say(text.household.exported);
	};

	#exportRefused = (): void => {
		download(
			`trayside-not-accepted-${this.app.day()}.jsonl`,
			this.refused.map((row) => row.text),
		);
	};

	override render() {
		const words = text.household;
		const { household } = this;
		if (!household) return html`<main class="page"><h1>${words.title}</h1></main>`;
		const keeper = this.app.me().role === "keeper";
		if (!household.home && keeper && this.phone.state.sync.heard > 0) {
			return html`<main class="page">
				<household-setup .app=${this.app} @done=${this.#load}></household-setup>
			</main>`;
		}
		return html`<main class="page">
			<h1>${household.home || words.unnamed}</h1>
			<section>
				<h2 class="section">${words.members}</h2>
				<ul class="rows">
					${household.members.map(
						({ name, child, role }) =>
							html`<li>
								<b>${name}</b>
								<span class="second">${child ? `${words.child} · ` : ""}${words.member[role] ?? role}</span>
							</li>`,
					)}
				</ul>
			</section>
			<section>
				<h2 class="section">${words.phones}</h2>
				<household-phones .phone=${this.phone} .household=${household}></household-phones>
				${
					keeper
						? html`<h2 class="section" id="add">${words.addPhone}</h2>
								<add-phone
									.app=${this.app}
									.phone=${this.phone}
									.household=${household}
								></add-phone>`
						: html`<p class="second">${words.keeperOnly}</p>`
				}
			</section>
			${this.#exchange(household)} ${this.#drawer()} ${this.#thisPhone(household)}
		</main>`;
	}

	#exchange(household: HouseholdView): TemplateResult {
		const words = text.household;
		const { state } = this.phone;
		return html`<section id="exchange" tabindex="-1">
			<h2 class="section">${text.sync.title}</h2>
			<ul class="rows" aria-live="polite">
				${sentences(state, this.app.now()).map((sentence) => html`<li>${sentence}</li>`)}
				${household.asides.length > 0 ? html`<li>${words.attention(household.asides.length)}</li>` : nothing}
				${household.unread > 0 ? html`<li>${words.unread(household.unread)}</li>` : nothing}
			</ul>
			${state.sync.state === "idle" ? nothing : html`<p>${text.sync.mayMiss}</p>`}
			<button type="button" class="plain" @click=${() => this.phone.tap()}>${text.sync.now}</button>
		</section>`;
	}

	#drawer(): TemplateResult | typeof nothing {
		const words = text.household;
		if (this.refused.length === 0) return nothing;
		return html`<section id="drawer">
			<h2 class="section">${words.drawer}</h2>
			<p>${words.drawerLead}</p>
			<ul class="rows">
				${this.refused.map(
					(row) =>
						html`<li>
							<span>${words.drawerWhy[row.why] ?? row.why}</span>
							<code>${row.text}</code>
							<button type="button" class="plain" @click=${() => this.phone.discardRefused(row.id)}>
								${words.drawerDiscard}
							</button>
						</li>`,
				)}
			</ul>
			<button type="button" class="plain" @click=${this.#exportRefused}>${words.drawerExport}</button>
		</section>`;
	}

	#thisPhone(household: HouseholdView): TemplateResult {
		const words = text.household;
		const kept = this.phone.meta().persisted === true;
		return html`<section id="phone">
			<h2 class="section">${words.thisPhone}</h2>
			<p>${kept ? words.storageKept : words.storageLoose}</p>
			<div class="choices">
				<button type="button" class="plain" @click=${this.#export}>${words.exportAll}</button>
			</div>
			<household-leave
				.phone=${this.phone}
				.household=${household}
				.alone=${this.phone.state.waiting + this.phone.state.refused}
				.pictures=${this.phone.state.pictures}
			></household-leave>
		</section>`;
	}
}

customElements.define("household-screen", HouseholdScreen);
