// A bin's own page: its worms, its trays, how it is set up. Without a bin it is
// the form for a new one, or the list to choose from.

import { html, nothing, type TemplateResult } from "lit";
import type { Recorded, ViewArgs } from "../app-api.ts";
import { dayName, daysBetween, type Mass } from "../format.ts";
import { header, section } from "../parts/header.ts";
import { Screen } from "../parts/screen.ts";
import { text } from "../strings.ts";
import type { BinSheet, Intent } from "../types.gen.ts";
import { said } from "../words.ts";
import "./bin-new.ts";
import type { MadeBin } from "./bin-new.ts";
import "./bin-settings.ts";
import "./bin-trays.ts";
import "./bin-worms.ts";

/** How a part of the page writes: `back` undoes a change that is no entry. */
export type Write = (
	intent: Intent | [Intent, ...Intent[]],
	words: string,
	back?: Intent,
) => Promise<Recorded>;

const NEW_DAYS = 21; // how long the first steps are shown

export class BinScreen extends Screen<"bin"> {
	protected override readonly screen = "bin";

	protected override viewArgs(): ViewArgs {
		return { arg: this.args.query.get("bin") ?? "" };
	}

	protected override willUpdate(changed: Map<string, unknown>): void {
		const before = changed.get("args") as BinScreen["args"] | undefined;
		if (!before || before.query.get("bin") === this.args.query.get("bin")) return;
		this.shown = undefined;
		void this.load();
	}

	protected override loaded(view: BinSheet): void {
		if (view.name) document.title = text.app.title(view.name);
	}

	/** The bin that was just set up was taken back: its page is gone. */
	protected override undone(): void {
		if (this.shown?.data.found) void this.load();
	}

	readonly write: Write = (intent, words, back) => this.save(intent, words, back);

	override render() {
		const view = this.shown?.data;
		if (!view) return this.waiting(text.bins.title);
		if (view.found) return this.#page(view);
		const fresh = this.args.query.has("new") || view.bins.length === 0;
		return fresh ? this.#new(view) : this.#list(view);
	}

	#keeper(): boolean {
		return this.app.me().role === "keeper";
	}

	#new(view: BinSheet): TemplateResult {
		const words = text.bins;
		const back = view.bins.length > 0 ? "/bin" : "/";
		if (!this.#keeper())
			return html`<main class="page">${header({ title: words.newTitle, back })}<p>${words.keeperOnly}</p></main>`;
		return html`<main class="page binpage">${header({ title: words.newTitle, back })}
			<p>${words.newLead}</p>
			<p><a class="textlink" href="/plan">${words.planFirst}</a></p>
			<bin-new .app=${this.app} .view=${view} @made=${(e: CustomEvent<MadeBin>) => this.#made(e.detail)}></bin-new>
			<div class="foot">${this.savingRow(view.mass as Mass)}</div>
		</main>`;
	}

	/** What was written goes back whole by the one Undo of the row. */
	#made(made: MadeBin): void {
		const words = text.bins.setUp(made.name);
		this.savedAs(words, made.entities);
		this.app.go(`/bin?bin=${encodeURIComponent(made.bin)}`);
	}

	#list(view: BinSheet): TemplateResult {
		const words = text.bins;
		return html`<main class="page">${header({ title: words.title, sub: words.list, back: "/more" })}
			<ul class="rows">${view.bins.map((bin) => html`<li><a class="rowlink" href="/bin?bin=${encodeURIComponent(bin.id)}"><b>${bin.name}</b></a></li>`)}</ul>
			${
				this.#keeper()
					? html`<div class="choices"><a class="plain" href="/bin?new">${words.another}</a><a class="plain" href="/plan">${text.plan.title}</a></div>`
					: nothing
			}
			<div class="foot">${this.savingRow(view.mass as Mass)}</div>
		</main>`;
	}

	#page(view: BinSheet): TemplateResult {
		const words = text.bins;
		const keeper = this.#keeper();
		const species = said(words.speciesNames, view.species ?? "");
		const since = view.started ? dayName(view.started, view.day) : "";
		return html`<main class="page binpage">
			${header({ title: view.name ?? "", sub: words.since(species, since), age: this.age(), back: "/" })}
			${keeper ? nothing : html`<p class="second">${words.keeperOnly}</p>`}
			${keeper ? this.#next(view) : nothing}
			${section(words.worms, html`<a class="more" href="/timeline">${text.timeline.title}</a>`)}
			<bin-worms .app=${this.app} .view=${view} .write=${this.write} ?keeper=${keeper}></bin-worms>
			${section(words.trays)}
			<bin-trays .view=${view} .write=${this.write} ?keeper=${keeper}></bin-trays>
			${keeper ? html`<bin-settings .app=${this.app} .view=${view} .write=${this.write}></bin-settings>` : nothing}
			<div class="foot">${this.savingRow(view.mass as Mass)}</div>
		</main>`;
	}

	/** What a new bin needs next, in the order in which it is done. */
	#next(view: BinSheet): TemplateResult | typeof nothing {
		const words = text.bins;
		const added = view.moves.filter((m) => m.move === "added");
		const first = added.at(-1)?.day ?? "";
		if (first && daysBetween(first, view.day) > NEW_DAYS) return nothing;
		const { steps } = words;
		const bedded = view.trays.some((t) => t.stage !== "emptied");
		const rows = [
			...(bedded ? [] : [steps.bed]),
			...(first ? [] : [steps.buy]),
			steps.light,
			steps.alone,
			steps.ration,
			...(view.trays.every((t) => t.code) ? [] : [steps.labels]),
		];
		return html`${section(words.next)}<ol class="steps">${rows.map((step) => html`<li>${step}</li>`)}</ol>
			<div class="choices"><a class="plain" href="/">${words.toToday}</a><a class="plain" href="/labels">${words.toLabels}</a></div>`;
	}
}

customElements.define("bin-screen", BinScreen);
