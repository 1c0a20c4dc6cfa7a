// The timeline: everything written down, by day, newest first; to undo, bring
// back, or mend.

import { html, nothing, type TemplateResult } from "lit";
import { clock, dateFull, list, type Mass, type Temp, weight } from "../format.ts";
import { header, section } from "../parts/header.ts";
import { Screen } from "../parts/screen.ts";
import { sign } from "../parts/signs.ts";
import { text } from "../strings.ts";
import type { Entry, Intent, TimelineDay, TimelineView } from "../types.gen.ts";
import { itemWords, lookWords, said, spotWords } from "../words.ts";
import { editForm, type Mending, mendIntent, mendingOf } from "./timeline-edit.ts";

/** Days of two pages as one list; a day cut in two is joined. */
export function joined(days: TimelineDay[], more: TimelineDay[]): TimelineDay[] {
	const last = days.at(-1);
	const [first, ...rest] = more;
	if (!last || !first || last.day !== first.day) return [...days, ...more];
	const known = new Set(last.entries.map((e) => e.entity));
	const entries = [...last.entries, ...first.entries.filter((e) => !known.has(e.entity))];
	return [...days.slice(0, -1), { ...last, entries }, ...rest];
}

/** The names of the bins that a day says were fed twice. */
export function binNames(d: TimelineDay): string[] {
	return (d.double ?? []).map((bin) => d.entries.find((e) => e.bin === bin)?.names[0] ?? bin);
}

export class TimelineScreen extends Screen<"timeline"> {
	static override properties = {
		...Screen.properties,
		older: { state: true },
		open: { state: true },
		mending: { state: true },
		fetching: { state: true },
	};
	declare older: TimelineDay[]; // pages after the first
	declare open: string; // entity whose row is unfolded
	declare mending: Mending | undefined;
	declare fetching: boolean;
	protected override readonly screen = "timeline";
	#pages = 0;
	#next: string | undefined;
	#watch: IntersectionObserver | undefined;

	constructor() {
		super();
		this.older = [];
		this.open = "";
		this.fetching = false;
	}

	protected override opened(): void {
		this.#watch = new IntersectionObserver(
			(seen) => {
				if (seen.some((s) => s.isIntersecting)) void this.#fetch();
			},
			{ rootMargin: "400px" },
		);
	}

	override disconnectedCallback(): void {
		this.#watch?.disconnect();
		super.disconnectedCallback();
	}

	/** A change may reach into any page: read on as far as was read before. */
	protected override loaded(view: TimelineView): void {
		this.#next = view.next;
		const pages = this.#pages;
		this.#pages = 0;
		this.older = [];
		void this.#again(pages);
	}

	async #again(pages: number): Promise<void> {
		for (let i = 0; i < pages && this.#next; i++) await this.#fetch();
	}

	async #fetch(): Promise<void> {
		if (!this.#next || this.fetching) return;
		this.fetching = true;
		try {
			const { data } = await this.app.view("timeline", { before: this.#next });
			this.older = joined(this.older, data.days);
			this.#next = data.next;
			this.#pages++;
		} catch {
			this.#next = undefined;
		}
		this.fetching = false;
	}

	protected override updated(): void {
		const end = this.querySelector(".more-days");
		this.#watch?.disconnect();
		if (end) this.#watch?.observe(end);
	}

	override render() {
		const view = this.shown?.data;
		if (!view) return this.waiting(text.timeline.title);
		const days = joined(view.days, this.older);
		return html`<main class="page timeline">
			${header({ title: text.timeline.title, sub: text.timeline.sub, age: this.age(), back: "/more" })}
			${days.length === 0 ? html`<p>${text.timeline.none}</p>` : nothing}
			${days.map((d) => this.#day(d, view))}
			${
				this.#next
					? html`<button type="button" class="plain wide more-days" @click=${() => void this.#fetch()}>${this.fetching ? text.timeline.loading : text.timeline.older}</button>`
					: days.length > 0
						? html`<p class="second start">${text.timeline.start}</p>`
						: nothing
			}
			<div class="foot">${this.savingRow(view.mass as Mass, (intent) => void this.#run(intent, text.timeline.saidEdited))}</div>
		</main>`;
	}

	#day(d: TimelineDay, view: TimelineView): TemplateResult {
		const heading = dateFull(d.day);
		return html`<section>${section(heading)}
			${d.double && d.double.length > 0 ? html`<div class="notice">${sign("missing")}<p><b>${list(binNames(d))}</b>. ${text.timeline.twice}</p></div>` : nothing}
			<ul class="entries">${d.entries.map((e) => this.#entry(e, view))}</ul></section>`;
	}

	#entry(e: Entry, view: TimelineView): TemplateResult {
		const mass = view.mass as Mass;
		const open = this.open === e.entity;
		const gone = e.gone === true;
		const grams = e.feed?.grams ?? e.grams ?? 0;
		const what = said(text.timeline.kinds, e.kind);
		const names = [...e.names].reverse().join(", ");
		const where = names
			? ` ${e.kind === "feeding" ? text.timeline.into(names) : text.timeline.at(names)}`
			: "";
		const code = e.look
			? lookWords(e.look, view.temp as Temp)
			: e.code
				? said(text.timeline.codes, e.code)
				: "";
		const who = e.who
			? `${text.timeline.by(e.who)}${e.logger ? `, ${text.timeline.onPhone(e.logger)}` : ""}`
			: "";
		const items = e.feed ? itemWords(e.feed.items) : "";
		const spot = e.feed?.spot ? spotWords(e.feed.spot) : "";
		const how = e.feed && e.feed.how !== "scale" ? said(text.hows, e.feed.how) : "";
		const second = [code, who, spot ? text.tray.placed(spot) : "", how].filter(Boolean).join(", ");
		return html`<li class=${gone ? "gone" : ""}>
			<button type="button" class="entry" aria-expanded=${open ? "true" : "false"} @click=${() => this.#unfold(e)}>
				<span class="when">${clock(e.at)}</span>
				<span class="grow"><span class="did">${what}${where}</span>${gone ? html` <b class="tag">${text.timeline.undone}</b>` : e.edited ? html` <span class="tag">${text.timeline.edited}</span>` : nothing}${second ? html`<span class="second line">${second}</span>` : nothing}${items ? html`<span class="second line">${items}</span>` : nothing}</span>
				<b class="figure did">${grams > 0 ? weight(grams, mass) : e.kind === "feeding" || e.kind === "bowl" ? text.weigh.some : ""}</b>
			</button>
			${open ? this.#tools(e, view) : nothing}
		</li>`;
	}

	#unfold(e: Entry): void {
		this.open = this.open === e.entity ? "" : e.entity;
		this.mending = undefined;
	}

	#tools(e: Entry, view: TimelineView): TemplateResult {
		const mass = view.mass as Mass;
		if (this.mending) {
			return editForm(this.mending, view.members, mass, {
				change: (m) => {
					this.mending = m;
				},
				save: () => void this.#mend(e, mass),
				close: () => {
					this.mending = undefined;
				},
			});
		}
		return html`<div class="choices tools">${
			e.gone
				? html`<button type="button" class="plain" @click=${() => void this.#run({ do: "redo", entity: e.entity }, text.timeline.saidBack)}>${text.timeline.redo}</button>`
				: html`<button type="button" class="plain" @click=${() => void this.#run({ do: "undo", entity: e.entity }, text.timeline.saidUndone)}>${text.timeline.undo}</button>
					${
						e.feed
							? html`<button type="button" class="plain" @click=${() => {
									this.mending = mendingOf(e, view.members, mass);
								}}>${text.timeline.edit}</button>`
							: nothing
					}`
		}</div>`;
	}

	async #mend(e: Entry, mass: Mass): Promise<void> {
		const m = this.mending;
		if (!m) return;
		const intent = mendIntent(e, m, mass);
		if (!intent) {
			this.mending = { ...m, bad: true };
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
customElements.define("timeline-screen", TimelineScreen);

declare global {
	interface HTMLElementTagNameMap {
		"timeline-screen": TimelineScreen;
	}
}
