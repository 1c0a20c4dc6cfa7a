// The pictures of one entry: small ones in a row, each opens large and can be
// removed; new ones are taken or chosen. Everything works without a network.
//
//   <photo-slot .app=${app} .of=${entity}></photo-slot>
//
// Before the entry is saved `of` is "": pictures wait in the slot until `attach`
// is given the saved entry. `lines`, where the screen has them already, spare
// the slot from asking for the view itself.

import { html, nothing, type PropertyValues, type TemplateResult } from "lit";
import type { App } from "../app-api.ts";
import type { Taken } from "../device/photos.ts";
import { dateBrief } from "../format.ts";
import { text } from "../strings.ts";
import type { PhotoLine } from "../types.gen.ts";
import { Light } from "./light.ts";

// A removed picture is gone for good, so the entry says so only when nobody has
// thought better of it for this long.
const UNDO_MS = 10_000;

export class PhotoSlot extends Light {
	static override properties = {
		app: { attribute: false },
		of: { type: String },
		lines: { attribute: false },
		shown: { state: true },
		waiting: { state: true },
		urls: { state: true },
		large: { state: true },
		removed: { state: true },
		fault: { state: true },
		busy: { state: true },
		onlyHere: { state: true },
	};
	declare app: App;
	declare of: string;
	declare lines: PhotoLine[] | undefined;
	declare shown: PhotoLine[];
	declare waiting: Taken[]; // taken before the entry was saved
	declare urls: ReadonlyMap<string, string>;
	declare large: { hash: string; line: PhotoLine | undefined } | undefined;
	declare removed: PhotoLine | undefined; // can still be undone
	declare fault: string;
	declare busy: boolean;
	declare onlyHere: ReadonlyMap<string, string>; // not shared: by hash, why the server refuses it, or ""
	#leave: (() => void)[] = [];
	#timer = 0;
	#hidden = new AbortController();

	constructor() {
		super();
		this.of = "";
		this.shown = [];
		this.waiting = [];
		this.urls = new Map();
		this.fault = "";
		this.busy = false;
		this.onlyHere = new Map();
	}

	override connectedCallback(): void {
		super.connectedCallback();
		this.#hidden = new AbortController();
		// A phone that is put away must not leave a removed picture behind.
		document.addEventListener("visibilitychange", () => document.hidden && this.#settle(), {
			signal: this.#hidden.signal,
		});
		queueMicrotask(() => {
			if (!this.isConnected || !this.app) return;
			this.#leave = [
				this.app.onChange(() => void this.#load()),
				this.app.photos.onChange(() => void this.#bring()),
			];
			void this.#load();
		});
	}

	override disconnectedCallback(): void {
		this.#settle();
		this.#hidden.abort();
		for (const leave of this.#leave) leave();
		this.#leave = [];
		super.disconnectedCallback();
	}

	protected override willUpdate(changed: PropertyValues): void {
		if ((changed.has("lines") || changed.has("of")) && this.app) void this.#load();
	}

	/** Whoever holds the slot hears how many pictures wait for their entry. */
	protected override updated(changed: PropertyValues): void {
		if (changed.has("waiting"))
			this.dispatchEvent(new CustomEvent<number>("waits", { detail: this.waiting.length }));
	}

	async #load(): Promise<void> {
		const of = this.of;
		if (this.lines) this.shown = this.lines;
		else if (of) {
			const { data } = await this.app.view("photos", { arg: of });
			if (of === this.of) this.shown = data.photos;
		}
		await this.#bring();
	}

	/** Pictures that are here, or can be had now. */
	async #bring(): Promise<void> {
		this.onlyHere = await this.app.photos.onlyHere();
		for (const { hash } of [...this.shown, ...this.waiting]) {
			if (this.urls.has(hash)) continue;
			const url = await this.app.photos.url(hash);
			if (url) this.urls = new Map(this.urls).set(hash, url);
		}
	}

	/** Gives the waiting pictures to the entry that was saved now. */
	async attach(of: string): Promise<void> {
		const waiting = this.waiting;
		this.waiting = [];
		for (const taken of waiting) await this.#record(of, taken);
	}

	#chosen = async (event: Event): Promise<void> => {
		const input = event.currentTarget as HTMLInputElement;
		const files = [...(input.files ?? [])];
		input.value = ""; // the same picture can be chosen again
		this.busy = true;
		this.fault = "";
		try {
			for (const file of files) await this.#take(file);
		} finally {
			this.busy = false;
		}
	};

	async #take(file: File): Promise<void> {
		let taken: Taken;
		try {
			taken = await this.app.photos.take(file);
		} catch (why) {
			this.fault = faultWords(why);
			return;
		}
		if (this.of) await this.#record(this.of, taken);
		else {
			if (!this.waiting.some((one) => one.hash === taken.hash)) {
				this.waiting = [...this.waiting, taken];
			}
			await this.#bring();
		}
	}

	async #record(of: string, taken: Taken): Promise<void> {
		if (this.shown.some((one) => one.of === of && one.hash === taken.hash)) return;
		const answer = await this.app.record({ do: "photo", of, type: "image/jpeg", ...taken });
		if (answer.ok) this.app.say(text.photos.saved);
		else this.fault = text.photos.notSaved;
	}

	#open(hash: string, line: PhotoLine | undefined): void {
		this.large = { hash, line };
		void this.updateComplete.then(() => this.querySelector("dialog")?.showModal());
	}

	#close(): void {
		this.querySelector("dialog")?.close();
	}

	#remove(hash: string, line: PhotoLine | undefined): void {
		this.#close();
		if (!line) {
			this.waiting = this.waiting.filter((one) => one.hash !== hash);
			return;
		}
		this.#settle();
		this.removed = line;
		this.app.say(text.photos.removed);
		this.#timer = window.setTimeout(() => this.#settle(), UNDO_MS);
	}

	#undo(): void {
		clearTimeout(this.#timer);
		this.removed = undefined;
	}

	/** Nobody has thought better of it. */
	#settle(): void {
		clearTimeout(this.#timer);
		const { removed } = this;
		this.removed = undefined;
		if (!removed) return;
		this.shown = this.shown.filter((one) => one.entity !== removed.entity);
		void this.app.record({ do: "undo", entity: removed.entity });
	}

	override render(): TemplateResult {
		const words = text.photos;
		const seen = this.shown.filter((one) => one.entity !== this.removed?.entity);
		const none = seen.length + this.waiting.length === 0;
		return html`<div role="group" aria-label=${words.title}>
				${
					none
						? nothing
						: html`<div class="photos">${seen.map((line) => this.#thumb(line.hash, line))}${this.waiting.map(({ hash }) => this.#thumb(hash, undefined))}</div>`
				}
				${this.app?.me().role === "viewer" ? nothing : this.#ways()}
			</div>
			${
				this.removed
					? html`<div class="saverow"><p>${words.removed}</p><button type="button" class="plain" @click=${() => this.#undo()}>${words.keep}</button></div>`
					: nothing
			}
			${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
			${this.#dialog()}`;
	}

	#thumb(hash: string, line: PhotoLine | undefined): TemplateResult {
		const url = this.urls.get(hash);
		const refused = this.onlyHere.get(hash);
		const state =
			refused === undefined ? "" : refused === "" ? text.photos.unshared : text.photos.refused;
		return html`<div class="thumbed"><button type="button" class="thumb" aria-label=${altWords(line)} ?disabled=${!url} @click=${() => this.#open(hash, line)}>
			${url ? html`<img src=${url} alt="" width="88" height="88">` : html`<span class="caption">${text.photos.coming}</span>`}
		</button>${state && line ? html`<span class="caption">${state}</span>` : nothing}</div>`;
	}

	#ways(): TemplateResult {
		const words = text.photos;
		return html`<div class="choices photoways"><label class="plain"><input class="vh" type="file" accept="image/*" capture="environment" ?disabled=${this.busy} @change=${this.#chosen}>${this.busy ? words.busy : words.take}</label>
			<label class="plain"><input class="vh" type="file" accept="image/*" multiple ?disabled=${this.busy} @change=${this.#chosen}>${words.choose}</label></div>`;
	}

	#dialog(): TemplateResult | typeof nothing {
		if (!this.large) return nothing;
		const { hash, line } = this.large;
		const words = text.photos;
		return html`<dialog class="photo" aria-label=${altWords(line)} @close=${() => {
			this.large = undefined;
		}}>
			<img src=${this.urls.get(hash) ?? ""} alt=${altWords(line)}>
			<p class="second">${altWords(line)}</p>
			<div class="act">
				${
					this.app.me().role === "viewer"
						? nothing
						: html`<button type="button" class="plain" @click=${() => this.#remove(hash, line)}>${words.remove}</button>`
				}
				<button type="button" class="go ink" @click=${() => this.#close()}>${words.close}</button>
			</div>
		</dialog>`;
	}
}

function altWords(line: PhotoLine | undefined): string {
	return line ? text.photos.by(line.who ?? "", dateBrief(line.day)) : text.photos.waiting;
}

/** A full phone and a file that is no picture are told apart by their names. */
function faultWords(why: unknown): string {
	return (why as Error).name === "QuotaExceededError" ? text.photos.full : text.photos.unreadable;
}

customElements.define("photo-slot", PhotoSlot);

declare global {
	interface HTMLElementTagNameMap {
		"photo-slot": PhotoSlot;
	}
}
