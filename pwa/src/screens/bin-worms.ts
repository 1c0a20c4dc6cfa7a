// The worms of a bin: how many live in it, and writing down how they came, went,
// were weighed or lost.

import { html, nothing, type TemplateResult } from "lit";
import type { App } from "../app-api.ts";
import { dayName, type Mass, weight } from "../format.ts";
import { Light } from "../parts/light.ts";
import { text } from "../strings.ts";
import type { BinSheet, Intent, TaughtView, WormLine, WormMove } from "../types.gen.ts";
import { said, spanWords } from "../words.ts";
import type { Write } from "./bin.ts";
import { amountFields } from "./bin-amount.ts";
import { faultAt, field, picks, toFault } from "./bin-fields.ts";
import { type AmountBy, type Fault, type Worms, wormsTyped, wormTray } from "./bin-form.ts";
import { taughtRows } from "./taught-rows.ts";

interface Draft extends Worms {
	move: WormMove;
	share: string; // per cent lost
	tray: string; // "" is the one that takes worms
}

const waysOf: Record<WormMove, AmountBy[]> = {
	added: ["weighed", "about", "counted"],
	removed: ["weighed", "about", "counted"],
	weighed: ["weighed"],
	lost: [],
};

/** The entry that a form of worms becomes, or its first fault. */
export function wormsIntent(draft: Draft, view: BinSheet): Intent | Fault {
	const bin = view.id ?? "";
	const { move, day } = draft;
	if (!day || day > view.day) return "day";
	if (move === "lost") return { do: "worms", bin, day, set: { move, share: Number(draft.share) } };
	const typed = wormsTyped(
		{ ...draft, by: move === "weighed" ? "weighed" : draft.by },
		view.species ?? "",
		view,
	);
	if (typeof typed === "string") return typed;
	const set = { move, mass: typed.mass, ...(typed.wide ? { wide: true } : {}) };
	// Worms that are weighed are those of the whole bin.
	const tray = move === "weighed" ? "" : draft.tray || (wormTray(view.trays)?.id ?? "");
	return { do: "worms", bin, day, set, ...(tray ? { tray } : {}) };
}

export class BinWorms extends Light {
	static override properties = {
		app: { attribute: false },
		view: { attribute: false },
		write: { attribute: false },
		keeper: { type: Boolean },
		draft: { state: true },
		bad: { state: true },
		taught: { state: true },
	};
	declare app: App;
	declare view: BinSheet;
	declare write: Write;
	declare keeper: boolean;
	declare draft: Draft | undefined;
	declare bad: Fault | "";
	declare taught: TaughtView | undefined;
	#asked = false;

	constructor() {
		super();
		this.keeper = false;
		this.bad = "";
	}

	#key(): string {
		return `worms-${this.view.id}`;
	}

	/** A form half filled stands open again. */
	protected override willUpdate(): void {
		if (this.#asked || !this.view?.id) return;
		this.#asked = true;
		void this.app.draft(this.#key()).then(
			(kept) => {
				if (kept && !this.draft) this.draft = kept as Draft;
			},
			() => {},
		);
	}

	#open(move: string): void {
		const was = this.draft;
		if (was?.move === move) {
			this.#close();
			return;
		}
		const first = { by: "weighed", amount: "", day: this.view.day, share: "50", tray: "" } as const;
		this.#set({ ...first, ...was, move: move as WormMove });
	}

	#set(draft: Draft): void {
		this.draft = draft;
		this.bad = "";
		this.taught = undefined;
		this.app.keepDraft(this.#key(), draft);
	}

	#close(): void {
		this.draft = undefined;
		this.bad = "";
		void this.app.dropDraft(this.#key());
	}

	override render() {
		const words = text.bins;
		const { view, draft } = this;
		const mass = view.mass as Mass;
		return html`<p>${view.worms ? words.now(spanWords(view.worms, mass)) : words.none}</p>
			${
				this.keeper
					? html`<p class="second" id="log-worms">${words.log}</p>
						${picks(words.log, words.moves, draft?.move ?? "", (move) => this.#open(move))}
						${draft ? this.#form(draft) : nothing}`
					: nothing
			}
			${this.taught?.known ? html`<h3>${text.taught.title}</h3>${taughtRows(this.taught)}` : nothing}
			${view.moves.length > 0 ? html`<ul class="rows">${view.moves.map((m) => this.#row(m))}</ul>` : nothing}`;
	}

	#form(draft: Draft): TemplateResult {
		const words = text.bins;
		const { view } = this;
		const set = (change: Partial<Draft>): void => this.#set({ ...draft, ...change });
		const submit = (e: SubmitEvent): void => {
			e.preventDefault();
			void this.#save(draft);
		};
		const trays = view.trays.filter((t) => t.stage !== "emptied");
		const names = Object.fromEntries(trays.map((t) => [t.id, t.name]));
		const asksTray = draft.move === "added" && trays.length > 1;
		return html`<form class="rowedit" novalidate @submit=${submit}>
			<p class="second">${words.movesSay[draft.move]}</p>
			${
				draft.move === "lost"
					? picks(words.share, words.shares, draft.share, (share) => set({ share }))
					: amountFields(draft, view.species ?? "", view, this.bad, set, waysOf[draft.move])
			}
			${asksTray ? html`<p class="second">${words.into}</p>${picks(words.into, names, draft.tray || (wormTray(trays)?.id ?? ""), (tray) => set({ tray }))}` : nothing}
			${field({ name: "day", label: words.day, type: "date", latest: view.day, value: draft.day, bad: this.bad === "day", set: (day) => set({ day }) })}
			${faultAt(this.bad, "day")}
			<div class="act"><button type="button" class="plain" @click=${() => this.#close()}>${words.close}</button><button type="submit" class="go ink">${words.write}</button></div>
		</form>`;
	}

	async #save(draft: Draft): Promise<void> {
		const intent = wormsIntent(draft, this.view);
		if (typeof intent === "string") {
			this.bad = intent;
			await this.updateComplete;
			toFault(this);
			return;
		}
		const saved = await this.write(intent, text.bins.wrote[draft.move] ?? draft.move);
		if (!saved.ok) return;
		this.#close();
		const tray = wormTray(this.view.trays)?.id;
		if (draft.move !== "weighed" || !tray) return;
		this.taught = (await this.app.view("taught", { arg: tray }).catch(() => undefined))?.data;
	}

	#row(m: WormLine): TemplateResult {
		const words = text.bins;
		const amount =
			m.move === "lost"
				? words.lostShare(words.shares[String(m.share ?? 0)] ?? `${m.share} %`)
				: weight(m.grams, this.view.mass as Mass);
		const what = m.move === "lost" ? amount : said(words.moves, m.move);
		const more = [m.wide ? words.about : "", m.tray ?? ""].filter(Boolean).join(", ");
		const undo = (): void =>
			void this.write({ do: "undo", entity: m.id }, words.undone, { do: "redo", entity: m.id });
		return html`<li><span class="grow">${dayName(m.day, this.view.day)}<span class="second line">${what}${more ? `, ${more}` : ""}</span></span>
			${m.move === "lost" ? nothing : html`<b class="figure">${amount}</b>`}
			${this.keeper ? html`<button type="button" class="textlink" aria-label=${`${words.undo}: ${what} ${amount}`} @click=${undo}>${words.undo}</button>` : nothing}</li>`;
	}
}

customElements.define("bin-worms", BinWorms);
