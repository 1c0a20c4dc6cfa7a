// The freezer: what lies in it by kind, taking it out into a bowl or straight
// into a tray, throwing it out, and putting something in without a bowl.

import { html, nothing, type TemplateResult } from "lit";
import { dayName, type Mass, shortName, weight } from "../format.ts";
import "../parts/amount-dial.ts";
import { bowlDrawing } from "../parts/bowl.ts";
import "../parts/fit.ts";
import type { Frame } from "../parts/fit.ts";
import { header, section } from "../parts/header.ts";
import { wrap } from "../parts/labels.ts";
import { Screen } from "../parts/screen.ts";
import { text } from "../strings.ts";
import type { FreezerView, Intent, StockView } from "../types.gen.ts";
import { kindOf, roomOf, stockOf, takeIntents, takeItems, type Where } from "./freezing.ts";

const USUAL_TAKE = 200; // g on the dial where no ration has room
const USUAL_PUT = 250;
const MOST_LAYERS = 6; // that the drawing has room for
const MIXED = { id: "kitchen-mixed", name: text.freezer.mixed };

export class FreezerScreen extends Screen<"freezer"> {
	static override properties = {
		...Screen.properties,
		picked: { state: true },
		dialled: { state: true },
		where: { state: true },
		scrap: { state: true },
		putting: { state: true },
		filling: { state: true },
	};
	declare picked: Set<string>; // kinds to take out; none picked means the oldest
	declare dialled: number | undefined; // g to take out
	declare where: Where;
	declare scrap: string; // what is put in
	declare putting: number; // g
	declare filling: boolean; // something is put in; else taken out
	protected override readonly screen = "freezer";
	/** Intents that follow the one a fault is about. */
	#rest: Intent[] = [];

	constructor() {
		super();
		this.picked = new Set();
		this.where = "bowl";
		this.scrap = MIXED.id;
		this.putting = USUAL_PUT;
		this.filling = false;
	}

	override render() {
		const view = this.shown?.data;
		if (!view) return this.waiting(text.freezer.title);
		const mass = view.mass as Mass;
		const [oldest] = view.kinds;
		const sub = oldest
			? text.freezer.sub(weight(view.grams, mass), dayName(oldest.day, view.day))
			: text.freezer.lead;
		const filling = this.filling || !oldest;
		return html`<main class="page freezer">
			${header({ title: text.freezer.title, sub, age: this.age(), back: "/" })}
			${oldest ? this.#inside(view) : html`<p>${text.freezer.empty}</p>`}
			${oldest ? this.#ways() : nothing}
			${filling ? this.#put(view) : this.#out(view)}
			<div class="foot">${this.savingRow(mass, (intent) => void this.save([intent, ...this.#rest], this.saving.words))}
				${filling ? this.#freezeAct(mass) : this.#act(view)}</div>
		</main>`;
	}

	/** Taking out and putting in are two ways to turn the one dial. */
	#ways(): TemplateResult {
		const ways = [
			[false, text.freezer.takeOut],
			[true, text.freezer.putIn],
		] as const;
		return html`<div class="words rule ways" role="group" aria-label=${text.freezer.ways}>${ways.map(
			([way, words]) =>
				html`<button type="button" aria-pressed=${way === this.filling ? "true" : "false"} class=${way === this.filling ? "on" : ""} @click=${() => {
					this.filling = way;
				}}>${words}</button>`,
		)}</div>`;
	}

	#inside(view: FreezerView): TemplateResult {
		const mass = view.mass as Mass;
		const all = view.kinds.map(({ item }) =>
			text.freezer.layer(weight(item.grams, mass), shortName(item.name)),
		);
		// The newest lies on top.
		const layers = [...view.kinds].reverse().slice(0, MOST_LAYERS);
		return html`<fit-frame class="bowlframe" .draw=${(frame: Frame) =>
			bowlDrawing(
				layers.map((kind) => ({
					grams: kind.item.grams,
					texture: "freezer" as const,
					label: wrap(shortName(kind.item.name), frame.width * 0.46, 15 * frame.text, 1)[0] ?? "",
					strong: this.picked.has(kindOf(kind)),
				})),
				"freezer",
				frame,
				text.freezer.label(all.join("; ")),
				"box",
			)}></fit-frame>
			<section>${section(text.freezer.inIt)}
			<ul class="rows stock">${view.kinds.map((kind) => this.#kind(kind, view))}</ul>
			<p class="second">${text.freezer.pickHint}</p></section>`;
	}

	#kind(kind: StockView, view: FreezerView): TemplateResult {
		const key = kindOf(kind);
		const on = this.picked.has(key);
		return html`<li><button type="button" class="stockrow ${on ? "on" : ""}" aria-pressed=${on ? "true" : "false"} @click=${() => this.#pick(key)}>
			<span class="grow">${kind.item.name}<span class="second line">${text.freezer.since(dayName(kind.day, view.day))}</span></span>
			<span class="figure">${weight(kind.item.grams, view.mass as Mass)}</span></button></li>`;
	}

	#pick(key: string): void {
		const picked = new Set(this.picked);
		if (!picked.delete(key)) picked.add(key);
		this.picked = picked;
		this.dialled = undefined;
	}

	/** What the dial stands at: what today has room for, else a usual amount. */
	#grams(view: FreezerView): number {
		const stock = stockOf(view.kinds, this.picked);
		return Math.min(stock, this.dialled ?? (roomOf(view) || USUAL_TAKE));
	}

	#out(view: FreezerView): TemplateResult {
		const mass = view.mass as Mass;
		const room = roomOf(view);
		const rooms =
			room > 0
				? text.freezer.room(weight(room, mass))
				: view.next
					? text.freezer.noRoom(dayName(view.next, view.day))
					: text.freezer.noRoomPlain;
		const choices: [Where, string][] = [
			["bowl", text.freezer.toBowl],
			...view.room.map((s): [Where, string] => [
				{ tray: s.tray ?? "" },
				text.freezer.toTray(s.name ?? "", weight(s.grams, mass)),
			]),
			["waste", text.freezer.toWaste],
		];
		const same = (a: Where, b: Where): boolean =>
			typeof a === "string" || typeof b === "string" ? a === b : a.tray === b.tray;
		return html`<section><p>${rooms}</p>
			<amount-dial .grams=${this.#grams(view)} .mass=${mass} .label=${text.freezer.amount}
				@turn=${(e: CustomEvent<number>) => {
					this.dialled = e.detail;
				}}></amount-dial>
			<div class="picks" role="group" aria-label=${text.freezer.where}>${choices.map(
				([where, words]) => {
					const on = same(where, this.where);
					return html`<button type="button" class="pickword ${on ? "on" : ""}" aria-pressed=${on ? "true" : "false"} @click=${() => {
						this.where = where;
					}}>${words}</button>`;
				},
			)}</div>
			<p class="second">${text.freezer.thawFirst}</p></section>`;
	}

	#act(view: FreezerView): TemplateResult {
		const grams = this.#grams(view);
		const amount = weight(grams, view.mass as Mass);
		const words =
			this.where === "bowl"
				? text.freezer.take(amount)
				: this.where === "waste"
					? text.freezer.throwOut(amount)
					: text.freezer.feed(amount);
		const busy = this.saving.state === "saving" || grams <= 0;
		return html`<div class="act"><button type="button" class="go ${typeof this.where === "string" ? "ink" : ""}" ?disabled=${busy} @click=${() => void this.#take(view, grams)}>${words}</button></div>`;
	}

	async #take(view: FreezerView, grams: number): Promise<void> {
		const amount = weight(grams, view.mass as Mass);
		const { where } = this;
		const tray = typeof where === "string" ? "" : where.tray;
		const words = tray
			? text.tray.fedSaid(amount, view.room.find((s) => s.tray === tray)?.name ?? "")
			: where === "bowl"
				? text.freezer.took(amount)
				: text.freezer.threw(amount);
		const intents = takeIntents(takeItems(view.kinds, this.picked, grams), where, {
			bowlName: text.freezer.bowlName,
			member: this.app.me().member,
		});
		this.#rest = intents.slice(1);
		const answer = await this.save(intents, words);
		if (!answer.ok) return;
		this.picked = new Set();
		this.dialled = undefined;
		this.where = "bowl";
	}

	/** Into the freezer without a bowl. */
	#put(view: FreezerView): TemplateResult {
		const mass = view.mass as Mass;
		const scraps = [MIXED, ...view.often.filter((s) => s.id !== MIXED.id && s.verdict !== "never")];
		return html`<section>${view.kinds.length === 0 ? section(text.freezer.putIn) : nothing}
			<div class="picks" role="group" aria-label=${text.freezer.putWhat}>${scraps.map((s) => {
				const on = s.id === this.scrap;
				return html`<button type="button" class="pickword ${on ? "on" : ""}" aria-pressed=${on ? "true" : "false"} @click=${() => {
					this.scrap = s.id;
				}}>${shortName(s.name)}</button>`;
			})}</div>
			<amount-dial .grams=${this.putting} .mass=${mass} .label=${text.freezer.putAmount}
				@turn=${(e: CustomEvent<number>) => {
					this.putting = e.detail;
				}}></amount-dial>
			<a class="textlink" href="/weigh">${text.freezer.weighIt}</a></section>`;
	}

	#freezeAct(mass: Mass): TemplateResult {
		const amount = weight(this.putting, mass);
		const busy = this.saving.state === "saving" || this.putting <= 0;
		return html`<div class="act"><button type="button" class="go ink" ?disabled=${busy} @click=${() => void this.#freeze(amount)}>${text.freezer.put(amount)}</button></div>`;
	}

	async #freeze(amount: string): Promise<void> {
		this.#rest = [];
		await this.save(
			{ do: "freeze", items: [{ scrap: this.scrap, g: this.putting }], how: "scale" },
			text.freezer.putSaid(amount),
		);
	}
}
customElements.define("freezer-screen", FreezerScreen);

declare global {
	interface HTMLElementTagNameMap {
		"freezer-screen": FreezerScreen;
	}
}
