// The timeline: everything written down, by day, newest first; to undo, bring
// back, or mend. It comes in pages from the engine. A page that is out of sight
// costs nothing to lay out (content-visibility) and is drawn anew only when it
// changed, so that years scroll like a week.

import { html, nothing, type TemplateResult } from "lit";
import { guard } from "lit/directives/guard.js";
import { dateFull, dayName, dayPlus, list, type Mass, type Temp } from "../format.ts";
import { header, section } from "../parts/header.ts";
import { Screen } from "../parts/screen.ts";
import { sign } from "../parts/signs.ts";
import { text } from "../strings.ts";
import type { Entry, Intent, TimelineDay, TimelineView } from "../types.gen.ts";
import { canMend, editForm, type Mending, mendIntent, mendingOf } from "./timeline-edit.ts";
import { everything, type Filter, filterRow } from "./timeline-filter.ts";
import { entryRow } from "./timeline-row.ts";

/** Whole days, from `before` (not included) down to `next`. */
export interface DayPage {
	before: string;
	days: TimelineDay[];
	next: string; // "" on the last page
	stale: boolean; // asked for again when it comes into sight
}

/** A fresh page in its place; the others may have changed too. */
export function turned(pages: DayPage[], at: number, fresh: DayPage): DayPage[] {
	return pages.map((p, i) => (i === at ? fresh : p));
}

/** The names of the bins that a day says were fed twice. */
export function binNames(d: TimelineDay): string[] {
	return (d.double ?? []).map((bin) => d.entries.find((e) => e.bin === bin)?.names[0] ?? bin);
}

// Kinds that only a keeper's phone may change.
const keepers = ["worms", "batch", "rule"];

export class TimelineScreen extends Screen<"timeline"> {
	static override properties = {
		...Screen.properties,
		pages: { state: true },
		open: { state: true },
		mending: { state: true },
		fetching: { state: true },
		filter: { state: true },
	};
	declare pages: DayPage[];
	declare open: string; // row that is unfolded: entity and stage
	declare mending: Mending | undefined;
	declare fetching: boolean;
	declare filter: Filter;
	protected override readonly screen = "timeline";
	#watch: IntersectionObserver | undefined;
	#watched = new WeakSet<Element>();
	#seen = new Set<number>(); // pages in sight
	#asked = 0; // counts what makes answers on their way worthless

	constructor() {
		super();
		this.pages = [];
		this.open = "";
		this.fetching = false;
		this.filter = everything;
	}

	protected override opened(): void {
		this.#watch = new IntersectionObserver((seen) => this.#sight(seen), { rootMargin: "1200px" });
	}

	override disconnectedCallback(): void {
		this.#watch?.disconnect();
		super.disconnectedCallback();
	}

	get #start(): string {
		return this.filter.upTo ? dayPlus(this.filter.upTo, 1) : "";
	}

	#ask(until = ""): string {
		const { bin, kind, who } = this.filter;
		return JSON.stringify({ bin, kind, who, until });
	}

	protected override viewArgs() {
		const second = this.pages[1]?.before;
		return { before: this.#start, arg: this.#ask(second) };
	}

	/** A change may reach into any page. The first one is here; those in sight
	 * follow at once, the others when somebody scrolls there. */
	protected override loaded(view: TimelineView): void {
		const first = { before: this.#start, days: view.days, next: view.next ?? "", stale: false };
		this.#asked++;
		this.fetching = false;
		this.pages = [first, ...this.pages.slice(1).map((p) => ({ ...p, stale: true }))];
		for (const i of this.#seen) void this.#refresh(i);
	}

	async #refresh(i: number): Promise<void> {
		const page = this.pages[i];
		if (!page?.stale) return;
		const asked = this.#asked;
		const shown = await this.app
			.view("timeline", { before: page.before, arg: this.#ask(this.pages[i + 1]?.before) })
			.catch(() => undefined);
		if (!shown || asked !== this.#asked) return;
		const { days, next = "" } = shown.data;
		this.pages = turned(this.pages, i, { before: page.before, days, next, stale: false });
	}

	async #older(): Promise<void> {
		const before = this.pages.at(-1)?.next;
		if (!before || this.fetching) return;
		this.fetching = true;
		const asked = this.#asked;
		const shown = await this.app
			.view("timeline", { before, arg: this.#ask() })
			.catch(() => undefined);
		if (asked !== this.#asked) return;
		this.fetching = false;
		if (!shown) return;
		const { days, next = "" } = shown.data;
		this.pages = [...this.pages, { before, days, next, stale: false }];
	}

	#sight(entries: IntersectionObserverEntry[]): void {
		for (const { target, isIntersecting } of entries) {
			const at = (target as HTMLElement).dataset.page;
			if (at === undefined) {
				if (isIntersecting) void this.#older();
			} else if (isIntersecting) {
				this.#seen.add(Number(at));
				void this.#refresh(Number(at));
			} else {
				this.#seen.delete(Number(at));
			}
		}
	}

	protected override updated(changed: Map<string, unknown>): void {
		if (!changed.has("pages") && !changed.has("shown")) return;
		for (const part of this.querySelectorAll(".daypage, .more-days")) {
			if (part.matches(".daypage") && this.#watched.has(part)) continue;
			// The end is asked about anew: it may have stayed in sight.
			this.#watch?.unobserve(part);
			this.#watch?.observe(part);
			this.#watched.add(part);
		}
	}

	#narrow(filter: Filter): void {
		this.filter = filter;
		this.pages = [];
		this.open = "";
		this.mending = undefined;
		this.#asked++;
		this.#seen.clear();
		void this.load();
	}

	override render() {
		const view = this.shown?.data;
		if (!view) return this.waiting(text.timeline.title);
		const empty = this.pages.every((p) => p.days.length === 0);
		const whole = Object.values(this.filter).every((v) => v === "");
		const more = this.pages.at(-1)?.next;
		return html`<main class="page timeline">
			${header({ title: text.timeline.title, sub: text.timeline.sub, age: this.age(), back: "/more" })}
			${filterRow(this.filter, view, (f) => this.#narrow(f))}
			${empty && this.pages.length > 0 ? html`<p>${whole ? text.timeline.none : text.timeline.filterNone}</p>` : nothing}
			${this.pages.map((p, i) => {
				const mine =
					this.open !== "" && p.days.some((d) => d.entries.some((e) => rowOf(e) === this.open));
				return html`<div class="daypage" data-page=${i}>${guard(
					[p.days, mine ? this.open : "", mine ? this.mending : undefined, view.mass, view.temp],
					() => p.days.map((d) => this.#day(d, view)),
				)}</div>`;
			})}
			${
				more
					? html`<button type="button" class="plain wide more-days" @click=${() => void this.#older()}>${this.fetching ? text.timeline.loading : text.timeline.older}</button>`
					: empty
						? nothing
						: html`<p class="second start">${text.timeline.start}</p>`
			}
			<div class="foot">${this.savingRow(view.mass as Mass, (intent) => void this.#run(intent, text.timeline.saidEdited))}</div>
		</main>`;
	}

	#day(d: TimelineDay, view: TimelineView): TemplateResult {
		const sameYear = d.day.slice(0, 4) === view.day.slice(0, 4);
		return html`<section>${section(sameYear ? dateFull(d.day) : dayName(d.day, view.day))}
			${d.double && d.double.length > 0 ? html`<div class="notice">${sign("missing")}<p><b>${list(binNames(d))}</b>. ${text.timeline.twice}</p></div>` : nothing}
			<ul class="entries">${d.entries.map((e) =>
				entryRow(
					e,
					view.mass as Mass,
					view.temp as Temp,
					this.open === rowOf(e),
					() => this.#unfold(e),
					() => this.#tools(e, d.day, view),
				),
			)}</ul></section>`;
	}

	#unfold(e: Entry): void {
		this.open = this.open === rowOf(e) ? "" : rowOf(e);
		this.mending = undefined;
	}

	#may(e: Entry): boolean {
		const { role } = this.app.me();
		return role === "keeper" || (role === "feeder" && !keepers.includes(e.kind));
	}

	#tools(e: Entry, day: string, view: TimelineView): TemplateResult {
		const units = { mass: view.mass as Mass, temp: view.temp as Temp };
		if (this.mending) {
			return editForm(e, this.mending, view.members, units, {
				change: (m) => {
					this.mending = m;
				},
				save: () => void this.#mend(e, units),
				close: () => {
					this.mending = undefined;
				},
			});
		}
		const key = (words: string, run: () => void): TemplateResult =>
			html`<button type="button" class="plain" @click=${run}>${words}</button>`;
		const redo = { do: "redo", entity: e.entity };
		return html`<photo-slot .app=${this.app} .of=${e.entity}></photo-slot>
			${
				this.#may(e)
					? html`<div class="choices tools">${
							e.gone
								? key(text.timeline.redo, () => void this.#run(redo, text.timeline.saidBack))
								: html`${key(this.#undoWords(e), () => void this.#run(undoOf(e), text.timeline.saidUndone))}
							${
								canMend(e)
									? key(text.timeline.edit, () => {
											this.mending = mendingOf(e, day, units);
										})
									: nothing
							}`
						}</div>`
					: nothing
			}`;
	}

	#undoWords(e: Entry): string {
		return e.kind === "batch" ? text.timeline.undoStage : text.timeline.undo;
	}

	async #mend(e: Entry, units: { mass: Mass; temp: Temp }): Promise<void> {
		const m = this.mending;
		if (!m) return;
		const intent = mendIntent(e, m, units);
		if (typeof intent === "string") {
			this.mending = { ...m, bad: intent };
			return;
		}
		await this.#run(intent, text.timeline.saidEdited);
	}

	/** Undoing can itself be undone from the row, so its own undo is left out. */
	async #run(intent: Intent, words: string): Promise<void> {
		const answer = await this.save(intent, words);
		if (!answer.ok) return;
		this.saving = { ...this.saving, entities: [] };
		this.mending = undefined;
	}
}

/** A batch has a row for each of its stages. */
const rowOf = (e: Entry): string => `${e.entity} ${e.kind === "batch" ? (e.code ?? "") : ""}`;

/** A stage is taken back by itself; that of bedding takes the batch along. */
export function undoOf(e: Entry): Intent {
	if (e.kind === "batch" && e.code && e.code !== "bedded")
		return { do: "edit", entity: e.entity, set: { [e.code]: null } };
	return { do: "undo", entity: e.entity };
}
customElements.define("timeline-screen", TimelineScreen);

declare global {
	interface HTMLElementTagNameMap {
		"timeline-screen": TimelineScreen;
	}
}
