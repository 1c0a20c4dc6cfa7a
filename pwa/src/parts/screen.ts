// What every screen is: a view that is asked for again whenever it may have
// changed, and entries that count as saved only when the phone says so.

import { html, nothing, type TemplateResult } from "lit";
import type {
	App,
	Recorded,
	RecordFault,
	ScreenArgs,
	ScreenName,
	Shown,
	ViewArgs,
	Views,
} from "../app-api.ts";
import { clock, dayFull, type Mass, weight } from "../format.ts";
import { text } from "../strings.ts";
import type { Intent } from "../types.gen.ts";
import { faultWords } from "../words.ts";
import { Light } from "./light.ts";

const UNDO_MS = 30_000;

/** What just happened to an entry, for the row that says so. */
export interface Saving {
	state: "idle" | "saving" | "saved" | "fault";
	words: string;
	entities: string[];
	back?: Intent | undefined; // takes it back, where that is more than undoing entries
	fault?: RecordFault | undefined;
	intent?: Intent | undefined;
}

const idle: Saving = { state: "idle", words: "", entities: [] };

export abstract class Screen<S extends ScreenName> extends Light {
	static override properties = {
		app: { attribute: false },
		args: { attribute: false },
		shown: { state: true },
		lost: { state: true },
		saving: { state: true },
	};
	declare app: App;
	declare args: ScreenArgs;
	declare shown: Shown<Views[S]> | undefined;
	declare lost: boolean; // the view could not be worked out
	declare saving: Saving;
	protected abstract readonly screen: S;
	#leave: (() => void) | undefined;
	#timer = 0;
	#asked = 0;

	constructor() {
		super();
		this.lost = false;
		this.saving = idle;
	}

	override connectedCallback(): void {
		super.connectedCallback();
		queueMicrotask(() => {
			if (!this.isConnected || !this.app) return;
			this.#leave = this.app.onChange(() => void this.load());
			this.opened();
			void this.load();
		});
	}

	override disconnectedCallback(): void {
		this.#leave?.();
		clearTimeout(this.#timer);
		super.disconnectedCallback();
	}

	/** The screen has its app and address. */
	protected opened(): void {}
	protected viewArgs(): ViewArgs {
		return {};
	}
	/** What the tray of an entry may get today, g; 0 if that isn't known. */
	protected rationOf(_intent: Intent | undefined): number {
		return 0;
	}
	/** A view arrived. */
	protected loaded(_data: Views[S]): void {}

	async load(): Promise<void> {
		const asked = ++this.#asked;
		try {
			const shown = await this.app.view(this.screen, this.viewArgs());
			if (asked !== this.#asked) return; // a later answer is on its way
			this.shown = shown;
			this.lost = false;
			this.loaded(shown.data);
		} catch {
			if (asked === this.#asked) this.lost = this.shown === undefined;
		}
	}

	/** Writes an entry and shows how that goes. `words` say what was done. One tap
	 * may be several intents: if a later one fails, those before it go back.
	 * `back` undoes a change that is no entry of its own. */
	protected async save(
		intent: Intent | [Intent, ...Intent[]],
		words: string,
		back?: Intent,
	): Promise<Recorded> {
		if (this.saving.state === "saving") {
			return { ok: false, fault: { kind: "broken", detail: text.parts.saving } };
		}
		clearTimeout(this.#timer);
		this.saving = { state: "saving", words, entities: [] };
		const entities: string[] = [];
		const reverts: Intent[] = [];
		let answer: Recorded = { ok: false, fault: { kind: "broken", detail: "" } };
		for (const each of Array.isArray(intent) ? intent : [intent]) {
			answer = await this.app.record(each);
			if (!answer.ok) {
				for (const revert of reverts) await this.app.record(revert);
				this.saving = { state: "fault", words, entities: [], fault: answer.fault, intent: each };
				return answer;
			}
			for (const entity of answer.entities ?? [answer.entity]) {
				entities.push(entity);
				reverts.push({ do: each.do === "undo" ? "redo" : "undo", entity });
			}
		}
		this.saving = { state: "saved", words, entities: back ? [] : entities, back };
		this.app.say(`${words}, ${text.parts.saved}`);
		this.#timer = window.setTimeout(() => {
			this.saving = idle;
		}, UNDO_MS);
		return answer;
	}

	/** Writes entries that belong together, one after the other; Undo takes all of
	 * them back. Returns how many were written: fewer than were given when the
	 * next one failed, and the row then says why. */
	protected async saveAll(intents: Intent[], words: string): Promise<number> {
		const entities: string[] = [];
		for (const [written, intent] of intents.entries()) {
			const answer = await this.save(intent, words);
			if (!answer.ok) return written;
			entities.push(...(answer.entities ?? [answer.entity]));
			this.saving = { ...this.saving, entities: [...entities] };
		}
		return intents.length;
	}

	/** Says that entries were written by a part of the page; Undo takes them back in
	 * the order they are given. */
	protected savedAs(words: string, entities: string[]): void {
		clearTimeout(this.#timer);
		this.saving = { state: "saved", words, entities };
		this.app.say(`${words}, ${text.parts.saved}`);
		this.#timer = window.setTimeout(() => {
			this.saving = idle;
		}, UNDO_MS);
	}

	/** Everything the row spoke of was taken back. */
	protected undone(): void {}

	protected calm(): void {
		clearTimeout(this.#timer);
		this.saving = idle;
	}

	async #undo(): Promise<void> {
		// A placed bowl is several entries: all of them go back, or none.
		const { back, entities } = this.saving;
		const [first, ...rest] = back
			? [back]
			: entities.map((entity): Intent => ({ do: "undo", entity }));
		if (!first) return;
		const answer = await this.save([first, ...rest], text.timeline.saidUndone);
		if (!answer.ok) return;
		this.calm();
		this.undone();
	}

	/** "saving…", "saved" with 30 s of undo, or what went wrong. `again` saves
	 * the same entry after a likely slip was confirmed. */
	protected savingRow(
		mass: Mass,
		again?: (intent: Intent) => void,
	): TemplateResult | typeof nothing {
		const { state, words, fault, intent, entities, back } = this.saving;
		if (state === "idle") return nothing;
		if (state === "saving") return html`<p class="saverow" role="status">${text.parts.saving}</p>`;
		if (state === "saved") {
			return html`<div class="saverow"><p>${words}, <b>${text.parts.saved}</b></p>${
				entities.length > 0 || back
					? html`<button type="button" class="plain" @click=${() => void this.#undo()}>${text.parts.undo}</button>`
					: nothing
			}</div>`;
		}
		const asks = fault?.kind === "slip" && intent && again;
		return html`<div class="saverow fault" role="alert"><p>${fault ? faultWords(fault, mass, this.rationOf(intent)) : ""}</p>${
			asks
				? html`<div class="choices">
					${fault.slip.kind === "refuse" ? nothing : html`<button type="button" class="plain" @click=${() => again({ ...intent, sure: true })}>${text.faults.slipYes(weight(fault.slip.grams, mass))}</button>`}
					<button type="button" class="plain" @click=${() => this.calm()}>${text.faults.slipMend}</button>
					${intent.do === "bowl" ? nothing : html`<button type="button" class="plain" @click=${() => again({ ...intent, inBin: true })}>${text.faults.slipInBin}</button>`}
				</div>`
				: nothing
		}</div>`;
	}

	/** What stands there until a view has come. */
	protected waiting(title: string): TemplateResult {
		return html`<main class="page"><header class="top"><h1>${title}</h1></header>${
			this.lost
				? html`<p role="alert">${text.parts.noView}</p><button type="button" class="plain" @click=${() => void this.load()}>${text.parts.tryAgain}</button>`
				: html`<p class="second" role="status">${text.parts.loading}</p>`
		}</main>`;
	}

	/** The age of a remembered view, or nothing. */
	protected age(): string {
		const from = this.shown?.from;
		if (from === undefined || from === null) return "";
		const { onDay, later } = ages(from);
		return this.app.day(from) === this.app.day() ? onDay : later;
	}
}

/** How old what was worked out at `at`, ms, is: said on that day, and later. */
export function ages(at: number): { onDay: string; later: string } {
	const local = localInstant(at);
	const time = clock(local);
	return {
		onDay: text.parts.remembered(time),
		later: text.parts.rememberedDay(dayFull(local), time),
	};
}

/** The phone's wall clock at an instant, written like an entry's. */
export function localInstant(ms: number): string {
	const offset = new Date(ms).getTimezoneOffset() * 60_000;
	return new Date(ms - offset).toISOString();
}
