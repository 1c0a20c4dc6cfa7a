// Harvest: whether a tray is ready and what it should come to, then what came
// out of it. Nothing needs weighing; what is weighed teaches the forecast.

import { html, nothing, type TemplateResult } from "lit";
import type { ViewArgs } from "../app-api.ts";
import { bulk, dayName, GRAMS_PER_OUNCE, type Mass, number, volume } from "../format.ts";
import { header, section } from "../parts/header.ts";
import { Screen } from "../parts/screen.ts";
import { type Who, whoChooser, whoSays } from "../parts/who.ts";
import { text } from "../strings.ts";
import type { BatchView, HarvestLine, Intent } from "../types.gen.ts";
import { said, spanWords } from "../words.ts";
import { chooseTray, type Trays, traysOf } from "./choose-tray.ts";

type Figure = "castings" | "buckets" | "worms";

export class HarvestScreen extends Screen<"batch"> {
	static override properties = {
		...Screen.properties,
		method: { state: true },
		typed: { state: true },
		note: { state: true },
		bad: { state: true },
		taken: { state: true },
		who: { state: true },
		trays: { state: true },
	};
	declare method: string;
	declare typed: Record<Figure, string>;
	declare note: string;
	declare bad: Figure | "";
	declare taken: boolean; // a harvest was just written down
	declare who: Who;
	declare trays: Trays | undefined;
	protected override readonly screen = "batch";

	constructor() {
		super();
		this.#anew();
		this.who = { member: "", guest: "" };
	}

	#anew(): void {
		this.method = this.note = this.bad = "";
		this.typed = { castings: "", buckets: "", worms: "" };
		this.taken = false;
	}

	protected override opened(): void {
		this.who = { member: this.app.me().member, guest: "" };
	}

	protected override viewArgs(): ViewArgs {
		return { arg: this.args.query.get("tray") ?? "" };
	}

	protected override willUpdate(changed: Map<string, unknown>): void {
		const before = changed.get("args") as HarvestScreen["args"] | undefined;
		if (!before || before.query.get("tray") === this.args.query.get("tray")) return;
		this.#anew();
		this.shown = undefined;
		this.calm();
		void this.load();
	}

	protected override loaded(view: BatchView): void {
		if (!view.name) void this.#list();
	}

	async #list(): Promise<void> {
		this.trays = traysOf((await this.app.view("today")).data);
	}

	override render() {
		const view = this.shown?.data;
		const words = text.harvest;
		if (!view) return this.waiting(words.title);
		if (!view.name) return chooseTray(words.title, words.choose, this.trays, "/harvest");
		return html`<main class="page">
			${header({ title: words.title, sub: words.at(view.name, view.binName), age: this.age(), back: `/t/${encodeURIComponent(view.tray)}` })}
			${view.found ? this.#outlook(view) : html`<p class="pad">${words.empty}</p>`}
			${view.found ? this.#form(view) : nothing}
			${view.harvests.length === 0 ? nothing : html`${section(words.before)}<ul class="rows">${view.harvests.map((x) => html`<li>${this.#line(x, view)}</li>`)}</ul>`}
			<p class="second pad">${words.mind}</p>
			<div class="foot">${this.savingRow(view.mass as Mass)}${
				view.found
					? html`<div class="act"><button type="button" class="go ink" ?disabled=${this.saving.state === "saving"} @click=${() => void this.#save(view)}>${words.save}</button>${this.#empty(view)}</div>`
					: nothing
			}</div>
		</main>`;
	}

	#outlook(view: BatchView): TemplateResult {
		const words = text.harvest;
		const day = (d: string): string => dayName(d, view.day);
		const ready = view.ready;
		return html`<ul class="rows">
			<li>${words.fill(number(view.fillMM), number(view.heightMM))}</li>
			${ready ? html`<li>${ready.day <= view.day ? words.readyNow : words.ready(day(ready.day), day(ready.first), day(ready.last))}</li>` : nothing}
			<li>${words.expect(spanWords(view.castings, view.mass as Mass))}</li>
			${view.yield.seen > 0 ? html`<li class="second">${words.learned(number(view.yield.milli / 10), number(view.yield.seen))}</li>` : nothing}
		</ul>`;
	}

	#form(view: BatchView): TemplateResult {
		const words = text.harvest;
		const bucket = view.bucketML ? words.bucketHint(volume(view.bucketML)) : words.bucketNone;
		return html`${section(words.method)}
			<div class="picks column" role="group" aria-label=${words.method}>${Object.entries(
				words.methods,
			).map(
				([code, name]) =>
					html`<button type="button" aria-pressed=${this.method === code ? "true" : "false"} class="pickword ${this.method === code ? "on" : ""}" @click=${() => {
						this.method = this.method === code ? "" : code;
					}}>${name}</button>`,
			)}</div>
			${section(words.castings)}
			${this.#field("castings", said(words.weighed, view.mass))}
			${this.#field("buckets", words.buckets)}<p class="second pad">${bucket}</p>
			${this.#field("worms", said(words.worms, view.mass))}<p class="second pad">${words.wormsHint}</p>
			<label class="field">${words.note}<textarea rows="2" maxlength="500" .value=${this.note} @input=${(
				e: InputEvent,
			) => {
				this.note = (e.target as HTMLTextAreaElement).value;
			}}></textarea></label>
			<div class="whofed">${whoChooser(text.harvest.by, this.who, view.members, (who) => {
				this.who = who;
			})}</div>`;
	}

	#field(of: Figure, label: string): TemplateResult {
		const bad = this.bad === of;
		return html`<label class="field">${label}<input type="text" inputmode="decimal" maxlength="9" autocomplete="off" name=${of}
			.value=${this.typed[of]} aria-invalid=${bad ? "true" : "false"} @input=${(e: InputEvent) => {
				if (bad) this.bad = "";
				this.typed = { ...this.typed, [of]: (e.target as HTMLInputElement).value };
			}}></label>${bad ? html`<p role="alert">${text.harvest.bad}</p>` : nothing}`;
	}

	async #save(view: BatchView): Promise<void> {
		const figures: Partial<Record<Figure, number>> = {};
		for (const of of ["castings", "buckets", "worms"] as const) {
			const typed = this.typed[of].trim().replace(",", ".");
			const value = Number(typed);
			if (typed && !(value >= 0 && value < 1e6)) {
				this.bad = of;
				return;
			}
			if (typed) figures[of] = value;
		}
		const per = view.mass === "oz" ? GRAMS_PER_OUNCE : 1;
		const grams = (n: number | undefined): number => Math.round((n ?? 0) * per);
		const intent: Intent = {
			do: "harvest",
			tray: view.tray,
			grams: grams(figures.castings),
			worms: grams(figures.worms),
			buckets: Math.round((figures.buckets ?? 0) * 10),
			note: this.note,
			...whoSays(this.who),
		};
		if (this.method) intent.method = this.method as Intent["method"] & string;
		if (view.batch) intent.batch = view.batch;
		const saved = await this.save(intent, text.harvest.saved(view.name));
		if (!saved.ok) return;
		this.#anew();
		this.taken = true;
	}

	/** After a harvest a keeper says in one tap that nothing is left in the tray. */
	#empty(view: BatchView): TemplateResult | typeof nothing {
		const batch = view.batch;
		if (!this.taken || !batch || this.app.me().role !== "keeper") return nothing;
		const empty = (): void => {
			this.taken = false;
			void this.save(
				{ do: "stage", entity: batch, set: { stage: "emptied" } },
				text.harvest.emptied(view.name),
				{ do: "edit", entity: batch, set: { emptied: null } },
			);
		};
		return html`<button type="button" class="plain" @click=${empty}>${text.harvest.empties}</button>`;
	}

	#line(x: HarvestLine, view: BatchView): string {
		const words = text.harvest;
		const amount = x.grams
			? bulk(x.grams, view.mass as Mass)
			: x.buckets
				? words.bucketCount(number(x.buckets / 10, 1))
				: x.ml
					? volume(x.ml)
					: words.unmeasured;
		return words.line(dayName(x.day, view.day), amount, x.who);
	}
}

customElements.define("harvest-screen", HarvestScreen);
