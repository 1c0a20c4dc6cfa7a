// Typing in what stands on a bin's paper card: a row for each day, one tap for a
// usual meal, everything else a tap on the day away. Nothing counts until the one
// button below is pressed; until then it is kept as a draft.

import { html, nothing, type TemplateResult } from "lit";
import { dateBrief, dayName, type Mass, weekdayBrief, weight } from "../format.ts";
import { header } from "../parts/header.ts";
import { Screen } from "../parts/screen.ts";
import { type Who, whoChooser, whoName } from "../parts/who.ts";
import { text } from "../strings.ts";
import type { CardBin, CardDay, CardView, Intent } from "../types.gen.ts";
import { faultWords, said } from "../words.ts";
import { cardEditor, quarterWords } from "./card-editor.ts";
import { emptyRow, intentsOf, isEmpty, type Row, type Rows, usualRow } from "./card-rows.ts";

const DAYS_FIRST = 14;

export class CardScreen extends Screen<"card"> {
	static override properties = {
		...Screen.properties,
		bin: { state: true },
		rows: { state: true },
		begun: { state: true },
		who: { state: true },
		open: { state: true },
		days: { state: true },
		doubt: { state: true },
		busy: { state: true },
	};
	/** Bin whose card it is, "" for the first. */
	declare bin: string;
	declare rows: Rows;
	declare begun: boolean; // the kept rows were looked for: more may be typed in
	declare who: Who;
	/** Day whose row is being changed, "" for none. */
	declare open: string;
	declare days: number;
	/** What a row may have wrong, by the engine's word. */
	declare doubt: { day: string; words: string; may: boolean } | undefined;
	declare busy: boolean;
	protected override readonly screen = "card";

	constructor() {
		super();
		this.bin = "";
		this.rows = {};
		this.begun = false;
		this.who = { member: "", guest: "" };
		this.open = "";
		this.days = DAYS_FIRST;
		this.busy = false;
	}

	protected override opened(): void {
		this.who = { member: this.app.me().member, guest: "" };
		this.bin = this.args.query.get("bin") ?? "";
	}

	/** The first bin's card, unless another was asked for; its rows come back. */
	protected override loaded(view: CardView): void {
		const bin = view.bins.find((b) => b.id === this.bin) ?? view.bins[0];
		if (bin && (!this.begun || bin.id !== this.bin)) void this.#restore(bin.id);
	}

	#key(): string {
		return `card:${this.bin}`;
	}

	/** Turns to a bin's card. Nothing can be typed in before its rows are back, so
	 * nothing of them is written over. */
	async #restore(bin: string): Promise<void> {
		this.bin = bin;
		this.rows = {};
		this.begun = false;
		const kept = await this.app.draft(this.#key()).catch(() => undefined);
		if (this.bin !== bin) return; // another card was turned to meanwhile
		this.rows = (kept as Rows | undefined) ?? {};
		this.begun = true;
	}

	#put(day: string, row: Row | undefined): void {
		const rows = { ...this.rows };
		if (row) rows[day] = row;
		else delete rows[day];
		this.rows = rows;
		this.doubt = undefined;
		if (this.saving.state !== "idle") this.calm();
		this.app.keepDraft(this.#key(), rows);
	}

	#switch(bin: string): void {
		this.open = "";
		this.doubt = undefined;
		void this.#restore(bin);
	}

	override render() {
		const view = this.shown?.data;
		const words = text.card;
		if (!view) return this.waiting(words.title);
		const bin = view.bins.find((b) => b.id === this.bin) ?? view.bins[0];
		if (!bin) {
			return html`<main class="page">${header({ title: words.title, back: "/more" })}<p>${text.today.noBins}</p></main>`;
		}
		const mass = view.mass as Mass;
		return html`<main class="page card">
			${header({ title: words.title, sub: words.sub, back: "/more", age: this.age() })}
			${
				view.bins.length > 1
					? html`<div class="picks" role="group" aria-label=${words.bin}>${view.bins.map(
							(b) =>
								html`<button type="button" aria-pressed=${b === bin ? "true" : "false"} class="pickword ${b === bin ? "on" : ""}" @click=${() => this.#switch(b.id)}>${b.name}</button>`,
						)}</div>`
					: nothing
			}
			${whoChooser(words.by, this.who, view.members, (who) => {
				this.who = who;
			})}
			<p class="second">${bin.usual > 0 ? words.usualIs(this.#amount(usualRow(bin, this.who), view)) : words.noUsual}</p>
			<ul class="rows cardrows">${!this.begun ? nothing : bin.days.slice(0, this.days).map((day) => this.#day(day, bin, view))}</ul>
			${
				this.days < bin.days.length
					? html`<button type="button" class="plain wide" @click=${() => {
							this.days += DAYS_FIRST;
						}}>${words.earlier}</button>`
					: nothing
			}
			<div class="foot">${this.savingRow(mass)}${this.#doubted()}
				<div class="act">${this.#go(bin, view)}</div></div>
		</main>`;
	}

	/** "1 × full mug, 300 g" */
	#amount(row: Row, view: CardView): string {
		const mass = view.mass as Mass;
		const vessel = view.vessels.find((v) => v.id === row.vessel);
		const grams = weight(row.grams, mass);
		return vessel && row.quarters > 0
			? text.card.vessel(text.card.times(quarterWords(row.quarters), vessel.name), grams)
			: grams;
	}

	#day(day: CardDay, bin: CardBin, view: CardView): TemplateResult {
		const words = text.card;
		const row = this.rows[day.day];
		const name = dayName(day.day, view.day);
		const open = this.open === day.day;
		return html`<li class=${row ? "filled" : ""}>
			<button type="button" class="dayname" aria-expanded=${open ? "true" : "false"} ?disabled=${!day.tray}
				@click=${() => this.#turn(day.day)}><b>${weekdayBrief(day.day)}</b> ${dateBrief(day.day)}</button>
			<span class="grow">${row ? this.#says(row, bin, view) : this.#known(day, view)}</span>
			${
				row
					? html`<button type="button" class="plain" aria-label=${words.takeOutOn(name)} @click=${() => this.#put(day.day, undefined)}>${words.takeOut}</button>`
					: bin.usual > 0 && day.tray
						? html`<button type="button" class=${day.feeds > 0 ? "textlink" : "plain"} aria-label=${words.usualOn(name, weight(bin.usual, view.mass as Mass))} @click=${() => this.#put(day.day, usualRow(bin, this.who))}>${words.usual}</button>`
						: nothing
			}
			${open ? this.#editor(day, bin, view) : nothing}
		</li>`;
	}

	#turn(day: string): void {
		this.open = this.open === day ? "" : day;
	}

	#editor(day: CardDay, bin: CardBin, view: CardView): TemplateResult {
		return cardEditor({
			row: this.rows[day.day] ?? emptyRow(this.who),
			trays: bin.trays,
			day,
			view,
			change: (row) => this.#put(day.day, isEmpty(row) ? undefined : row),
			close: () => {
				this.open = "";
			},
		});
	}

	/** What the row says, briefly. */
	#says(row: Row, bin: CardBin, view: CardView): TemplateResult {
		const parts = [
			whoName(row.who, view.members),
			bin.trays.find((t) => t.id === row.tray)?.name ?? "",
			row.left ? said(text.leftovers, row.left) : "",
			row.about ? text.card.about : "",
		].filter(Boolean);
		return html`<b>${row.grams > 0 ? this.#amount(row, view) : text.card.noAmount}</b>
			<span class="second line">${parts.join(", ")}</span>`;
	}

	/** What is known of the day already, so that nothing is typed in twice. */
	#known(day: CardDay, view: CardView): TemplateResult {
		const words = text.card;
		const fed =
			day.feeds === 0
				? ""
				: day.grams > 0
					? words.known(day.feeds, weight(day.grams, view.mass as Mass))
					: words.knownSome;
		const parts = [day.tray ? "" : words.noTray, fed, day.looked ? words.looked : ""];
		return html`<span class="second">${parts.filter(Boolean).join(", ")}</span>`;
	}

	#doubted(): TemplateResult | typeof nothing {
		const doubt = this.doubt;
		if (!doubt) return nothing;
		const row = this.rows[doubt.day];
		return html`<div class="saverow fault" role="alert"><p>${doubt.words}</p>${
			doubt.may && row
				? html`<div class="choices">
				<button type="button" class="plain" @click=${() => this.#put(doubt.day, { ...row, sure: true })}>${text.card.itWas}</button>
				<button type="button" class="plain" @click=${() => {
					this.open = doubt.day;
				}}>${text.faults.slipMend}</button></div>`
				: nothing
		}</div>`;
	}

	#go(bin: CardBin, view: CardView): TemplateResult {
		const count = Object.keys(this.rows).length;
		return html`<button type="button" class="go ink" ?disabled=${count === 0 || this.busy} @click=${() => void this.#write(bin, view)}>
			${count === 0 ? text.card.nothing : text.card.save(count)}</button>`;
	}

	/** Writes the rows down, the oldest first; a day leaves the draft when all of
	 * it is durable, so that nothing is lost or written twice. */
	async #write(bin: CardBin, view: CardView): Promise<void> {
		if (this.busy) return;
		this.busy = true;
		this.open = "";
		const entities: string[] = [];
		let days = 0;
		for (const day of [...bin.days].reverse()) {
			const row = this.rows[day.day];
			if (!row) continue;
			const done = await this.#record(intentsOf(row, day, bin, view), day, view, entities);
			if (!done) break;
			days++;
			this.#put(day.day, undefined);
		}
		this.busy = false;
		if (days === 0) return;
		const words = text.card.saved(days);
		this.saving = { state: "saved", words, entities };
		this.app.say(`${words}, ${text.parts.saved}. ${text.card.wipe}`);
	}

	/** Records a day's entries; false with the doubt shown if one was not taken. */
	async #record(
		intents: Intent[],
		day: CardDay,
		view: CardView,
		entities: string[],
	): Promise<boolean> {
		const before = entities.length;
		for (const intent of intents) {
			const answer = await this.app.record(intent);
			if (answer.ok) {
				entities.push(...(answer.entities ?? [answer.entity]));
				continue;
			}
			// The day's look went in before its meal was doubted: take it back, the
			// whole day is written again later.
			for (const entity of entities.splice(before)) await this.app.record({ do: "undo", entity });
			const name = dayName(day.day, view.day);
			const slip = answer.fault.kind === "slip";
			const mass = view.mass as Mass;
			this.doubt = {
				day: day.day,
				may: slip,
				words:
					answer.fault.kind === "slip"
						? text.card.slip(name, weight(answer.fault.slip.grams, mass))
						: faultWords(answer.fault, mass, 0),
			};
			return false;
		}
		return true;
	}
}

customElements.define("card-screen", CardScreen);
