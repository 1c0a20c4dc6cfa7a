// Join: from an invite's code to a phone of the household.

import { html, nothing, type TemplateResult } from "lit";
import type { App, ScreenArgs } from "../app-api.ts";
import { type Code, codeOf, Joining, type JoinState, mustInstallFirst } from "../device/join.ts";
import { deviceKey } from "../device/keys.ts";
import type { Phone } from "../device/phone.ts";
import { Light } from "../parts/light.ts";
import { text } from "../strings.ts";
import "./household-setup.ts";
import "./kept-entries.ts";

const DRAFT = "join";

interface Draft {
	/** From a link; goes before what was typed. */
	code: string;
	short: string;
	name: string;
}

// How long a phone that just joined waits for the household's log before it
// goes on without it.
const FIRST_PULL_MS = 10_000;

function isInstalled(): boolean {
	const apple = (navigator as { standalone?: boolean }).standalone === true;
	return apple || matchMedia("(display-mode: standalone)").matches;
}

export class JoinScreen extends Light {
	static override properties = {
		app: { attribute: false },
		args: { attribute: false },
		phone: { attribute: false },
		draft: { state: true },
		joining: { state: true },
		demo: { state: true },
		inBrowser: { state: true },
		setup: { state: true },
	};
	declare app: App;
	declare args: ScreenArgs;
	declare phone: Phone;
	declare draft: Draft;
	declare joining: JoinState;
	declare demo: boolean;
	/** The person chose to join in the browser of an iPhone. */
	declare inBrowser: boolean;
	/** Nobody has named the household yet. */
	declare setup: boolean;
	/** What was typed while the storage still opened: it goes before a kept draft. */
	#early: Partial<Draft> = {};
	#machine: Joining | undefined;

	constructor() {
		super();
		this.draft = { code: "", short: "", name: "" };
		this.joining = { at: "ask", fault: null, detail: "" };
		this.demo = false;
		this.inBrowser = false;
		this.setup = false;
	}

	override connectedCallback(): void {
		super.connectedCallback();
		// The code must not stay in the address, in the history or in a bookmark.
		const code = codeOf(location.hash);
		if (location.hash) history.replaceState(null, "", location.pathname + location.search);
		void this.#begin(code);
	}

	async #begin(code: string): Promise<void> {
		await this.#storageOpen();
		if (this.phone.state.phase === "joined") {
			await this.#next();
			return;
		}
		if (this.phone.state.storage !== "fine") return;
		const { store, net } = this.phone;
		const kept = (await this.app.draft(DRAFT)) as Draft | undefined;
		this.draft = { ...this.draft, ...kept, ...this.#early, ...(code ? { code } : {}) };
		if (code || Object.keys(this.#early).length > 0) this.app.keepDraft(DRAFT, this.draft);
		this.#machine = new Joining({
			key: () => deviceKey(store),
			post: (path, body) => net.post(path, body),
			get: (path) => net.get(path),
			pending: async () => (await store.meta()).joining as never,
			keepPending: (joining) => store.setMeta({ joining }),
			joined: (meta, roster) => store.joined(meta, roster),
			changed: (state) => {
				this.joining = state;
				if (state.at === "joined") void this.#joined();
			},
			sleep: (ms) => new Promise((resolve) => setTimeout(resolve, ms)),
		});
		void this.#machine.resume();
		const about = await net.get("/api/v1/about").catch(() => undefined);
		this.demo = (about?.data as { demo?: boolean } | undefined)?.demo === true;
	}

	#storageOpen(): Promise<void> {
		return new Promise((resolve) => {
			const settled = () =>
				this.phone.state.phase !== "starting" || this.phone.state.storage === "broken";
			if (settled()) {
				resolve();
				return;
			}
			const stop = this.phone.watch(() => {
				if (!settled()) return;
				stop();
				resolve();
			});
		});
	}

	async #joined(): Promise<void> {
		await this.app.dropDraft(DRAFT);
		await this.phone.begin();
		await this.#firstPull();
		await this.#next();
	}

	/** Waits until the household was heard once, or for a while. */
	#firstPull(): Promise<void> {
		return new Promise((resolve) => {
			const done = () => {
				stop();
				clearTimeout(timer);
				resolve();
			};
			const timer = setTimeout(done, FIRST_PULL_MS);
			const stop = this.phone.watch(() => {
				const { sync } = this.phone.state;
				if (sync.heard > 0 && sync.state === "idle") done();
			});
		});
	}

	/** To the form of the first keeper, to the label that was opened, or home. */
	async #next(): Promise<void> {
		const { data } = await this.app.view("household");
		// Without a name because nobody has given one, not because it is on its way.
		const { heard } = this.phone.state.sync;
		if (!data.home && heard > 0 && this.app.me().role === "keeper") {
			this.setup = true;
			return;
		}
		this.#leave();
	}

	#leave = (): void => {
		if (!this.isConnected) return; // the person has gone elsewhere meanwhile
		const label = this.args.query.get("label");
		this.app.go(label ? `/t/${encodeURIComponent(label)}` : "/");
	};

	#typed = (event: Event): void => {
		const field = event.target as HTMLInputElement;
		this.#early = { ...this.#early, [field.name]: field.value };
		this.draft = { ...this.draft, ...this.#early };
		this.app.keepDraft(DRAFT, this.draft);
	};

	#submit = (event: Event): void => {
		event.preventDefault();
		const { code, short } = this.draft;
		const typed = short.replaceAll(/[\s-]/g, "").toUpperCase();
		if (code) this.#send({ code });
		else if (typed) this.#send({ short: typed });
		else this.querySelector<HTMLInputElement>("#join-short")?.focus();
	};

	#send(code: Code): void {
		void this.#machine?.send(code, this.draft.name.trim() || text.join.defaultPhone);
	}

	#otherCode = (): void => {
		this.draft = { ...this.draft, code: "" };
		this.app.keepDraft(DRAFT, this.draft);
	};

	override render() {
		const words = text.join;
		if (this.setup) {
			return html`<main class="page">
				<household-setup .app=${this.app} @done=${this.#leave}></household-setup>
			</main>`;
		}
		if (this.phone.state.phase === "joined") {
			return html`<main class="page">
				<h1>${words.title}</h1>
				<p role="status">${text.app.starting}</p>
			</main>`;
		}
		const label = this.args.query.get("label");
		const { wiped, kept } = this.phone.state;
		return html`<main class="page">
			<h1>${words.title}</h1>
			${wiped ? html`<p class="note">${words.wiped[wiped] ?? words.wiped.removed}${kept ? "" : ` ${words.wipedEmpty}`}</p>` : nothing}
			${kept ? html`<kept-entries .app=${this.app} .phone=${this.phone}></kept-entries>` : nothing}
			${label ? html`<p class="note">${words.label(label)}</p>` : nothing}
			${this.#body()}
		</main>`;
	}

	#body(): TemplateResult {
		const { joining } = this;
		const nav = {
			userAgent: navigator.userAgent,
			maxTouchPoints: navigator.maxTouchPoints,
			standalone: isInstalled(),
		};
		if (joining.at === "waiting") return this.#waiting(joining);
		if (mustInstallFirst(nav) && !this.inBrowser) return this.#install();
		return this.#ask();
	}

	#ask(): TemplateResult {
		const words = text.join;
		const { joining, draft } = this;
		const sending = joining.at === "sending";
		return html`
			${this.demo ? this.#demo(sending) : nothing}
			<p>${words.lead}</p>
			<form class="form" novalidate @input=${this.#typed} @submit=${this.#submit}>
				${
					draft.code
						? html`<p class="note">
								${words.fromLink}
								<button type="button" class="textlink" @click=${this.#otherCode}>${words.otherCode}</button>
							</p>`
						: html`<label for="join-short">${words.code}</label>
								<input
									id="join-short"
									name="short"
									class="code"
									autocomplete="off"
									autocapitalize="characters"
									spellcheck="false"
									maxlength="16"
									aria-describedby="join-short-hint"
									.value=${draft.short}
								/>
								<p class="second" id="join-short-hint">${words.codeHint}</p>`
				}
				<label for="join-name">${words.phoneName}</label>
				<input
					id="join-name"
					name="name"
					maxlength="60"
					autocomplete="off"
					aria-describedby="join-name-hint"
					.value=${draft.name}
				/>
				<p class="second" id="join-name-hint">${words.phoneNameHint}</p>
				${
					joining.at === "ask" && joining.fault
						? html`<p class="fault" role="alert">${words.faults[joining.fault]}</p>`
						: nothing
				}
				<button type="submit" class="go ink" ?disabled=${sending}>
					${sending ? words.sending : words.submit}
				</button>
			</form>
		`;
	}

	#demo(sending: boolean): TemplateResult {
		const words = text.join;
		return html`<section class="demo">
			<p>${words.demoLead}</p>
			<button
				type="button"
				class="go ink"
				?disabled=${sending}
				@click=${() => this.#send({ code: "demo" })}
			>
				${words.demo}
			</button>
		</section>`;
	}

	#waiting({ match, fault }: Extract<JoinState, { at: "waiting" }>): TemplateResult {
		const words = text.join;
		return html`<section aria-live="polite">
			<h2 class="section">${words.waitTitle}</h2>
			<p>${words.waitLead}</p>
			<p class="match"><span class="second">${words.waitNumber}</span> <strong>${match}</strong></p>
			${fault ? html`<p class="fault">${words.faults[fault]}</p>` : nothing}
			<button type="button" class="plain" @click=${() => void this.#machine?.cancel()}>${words.cancel}</button>
		</section>`;
	}

	#install(): TemplateResult {
		const words = text.join;
		return html`<section>
			<h2 class="section">${words.installTitle}</h2>
			<p>${words.installLead}</p>
			<ol>
				${words.installSteps.map((step) => html`<li>${step}</li>`)}
			</ol>
			<button
				type="button"
				class="plain"
				@click=${() => {
					this.inBrowser = true;
				}}
			>
				${words.installBrowser}
			</button>
		</section>`;
	}
}

customElements.define("join-screen", JoinScreen);
