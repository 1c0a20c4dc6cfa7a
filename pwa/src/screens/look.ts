// Look: the weekly check in twenty seconds. Everything can be skipped; what is
// answered teaches the model, and the page says at the end what it changed.

import { html, nothing, type TemplateResult } from "lit";
import { BluetoothFault, hasBluetooth, readTemperature } from "../device/bluetooth.ts";
import { dayName, type Mass, type Temp } from "../format.ts";
import { header, section } from "../parts/header.ts";
import { Screen } from "../parts/screen.ts";
import { leftovers, squeeze } from "../parts/signs.ts";
import { type Who, whoChooser } from "../parts/who.ts";
import { text } from "../strings.ts";
import type { TaughtView, TierView, TodayView } from "../types.gen.ts";
import { said, spotWords } from "../words.ts";
import { type FigureDoes, figureField, moreFigures } from "./look-more.ts";
import {
	badFigure,
	degrees,
	type Figure,
	lookIntents,
	nothingSeen,
	readSeen,
	type Seen,
	stepped,
	type Units,
} from "./look-seen.ts";
import { taughtRows } from "./taught-rows.ts";

/** What stands on the page once a look is saved. */
interface Done {
	tray: string;
	entities: string[];
	taught?: TaughtView;
}

const COMMON = ["fruit-flies", "mites", "springtails", "escaping-worms"];

export class LookScreen extends Screen<"today"> {
	static override properties = {
		...Screen.properties,
		seen: { state: true },
		who: { state: true },
		place: { state: true },
		bad: { state: true },
		thermometer: { state: true },
		done: { state: true },
		begun: { state: true },
		pictures: { state: true },
	};
	declare seen: Seen;
	declare who: Who;
	declare place: string; // whose leftovers are being chosen; "" is the whole tray
	declare bad: Figure | "";
	declare thermometer: string; // what the thermometer's row says
	declare done: Done | undefined;
	declare pictures: number; // taken during this look
	declare begun: boolean; // the kept draft was looked for: the form may be filled in
	protected override readonly screen = "today";

	constructor() {
		super();
		this.#anew();
		this.who = { member: "", guest: "" };
	}

	#anew(): void {
		this.seen = nothingSeen;
		this.place = this.bad = this.thermometer = "";
		this.done = undefined;
		this.begun = false;
		this.pictures = 0;
	}

	get #key(): string {
		return `look:${this.args.query.get("tray") ?? ""}`;
	}

	protected override opened(): void {
		this.who = { member: this.app.me().member, guest: "" };
		void this.#restore();
	}

	protected override willUpdate(changed: Map<string, unknown>): void {
		const before = changed.get("args") as LookScreen["args"] | undefined;
		if (before && before.query.get("tray") !== this.args.query.get("tray")) {
			this.#anew();
			this.calm();
			void this.#restore();
		}
	}

	/** Nothing can be tapped before the draft was looked for, so nothing it holds is
	 * written over. */
	async #restore(): Promise<void> {
		const key = this.#key;
		const kept = readSeen(await this.app.draft(key).catch(() => undefined));
		if (key !== this.#key) return;
		if (kept) this.seen = kept;
		this.begun = true;
	}

	#see(part: Partial<Seen>): void {
		this.seen = { ...this.seen, ...part };
		this.app.keepDraft(this.#key, this.seen);
	}

	#type(of: Figure, typed: string): void {
		if (this.bad === of) this.bad = "";
		this.#see({ typed: { ...this.seen.typed, [of]: typed } });
	}

	get #figures(): FigureDoes {
		return { type: (of, typed) => this.#type(of, typed), bad: this.bad };
	}

	/** What an undone look had changed is no longer so. */
	protected override undone(): void {
		this.done = undefined;
	}

	override render() {
		const view = this.shown?.data;
		if (!view) return this.waiting(text.look.title(""));
		const wanted = this.args.query.get("tray") ?? "";
		const tier = view.bins
			.flatMap((b) => b.stack)
			.find((t) => t.id === wanted || (wanted !== "" && t.code === wanted));
		if (!tier) return this.#choose(view);
		if (this.done) return this.#end(tier, view, this.done);
		return this.begun ? this.#form(tier, view) : this.waiting(text.look.title(tier.name));
	}

	#choose(view: TodayView): TemplateResult {
		return html`<main class="page">${header({ title: text.look.title(""), sub: text.look.choose })}
			<ul class="rows">${view.bins.flatMap((bin) =>
				bin.stack.map(
					(t) =>
						html`<li><span class="grow"><b>${t.name}</b><span class="second line">${bin.name}, ${said(text.stages, t.stage)}</span></span><a class="plain" href="/look?tray=${encodeURIComponent(t.id)}">${text.tray.look}</a></li>`,
				),
			)}</ul>
			<p class="start"><a class="textlink" href="/catch-up">${text.look.catchUp}</a></p></main>`;
	}

	#form(tier: TierView, view: TodayView): TemplateResult {
		const s = this.seen;
		const units = { mass: view.mass as Mass, temp: view.temp as Temp };
		const empty = badFigure(s, units) === "" && this.#intents(tier, units).length === 0;
		return html`<main class="page look">
			${header({ title: text.look.title(tier.name), sub: text.look.sub, back: this.#tray(tier) })}
			${this.#leftovers(tier, view)}
			${this.#pick(text.look.squeeze, text.squeezes, s.squeeze, squeeze, (v) => this.#see({ squeeze: v }))}
			${section(text.look.temp)}${this.#temp(units.temp)}
			${this.#words(text.look.smell, text.smells, [s.smell], (v) => this.#see({ smell: s.smell === v ? "" : v }))}
			${this.#visitors(s)}
			${this.#words(text.look.cover, text.look.covers, [s.cover], (v) => this.#see({ cover: s.cover === v ? "" : v }))}
			${section(text.look.liquid)}${figureField(s, "liquid", text.look.liquidField, this.#figures)}
			${section(text.look.note)}<label class="field">${text.look.noteField}<textarea rows="2" maxlength="500" .value=${s.note} @input=${(e: InputEvent) => this.#see({ note: (e.target as HTMLTextAreaElement).value })}></textarea></label>
			<photo-slot .app=${this.app} .of=${""} @waits=${(e: CustomEvent<number>) => {
				this.pictures = e.detail;
			}}></photo-slot>
			${moreFigures(s, view.mass, this.#figures)}
			<div class="whofed">${whoChooser(text.parts.lookedBy, this.who, view.members, (who) => {
				this.who = who;
			})}</div>
			<p class="second gloves">${text.look.gloves}</p>
			<div class="foot">${this.savingRow(view.mass as Mass)}
				${empty && this.pictures > 0 ? html`<p class="second" role="status">${text.look.pictureAlone}</p>` : nothing}
				<div class="act"><button type="button" class="go ink" ?disabled=${empty || this.saving.state === "saving"} @click=${() => void this.#save(tier, units)}>${text.look.save}</button></div></div>
		</main>`;
	}

	#tray(tier: TierView): string {
		return `/t/${encodeURIComponent(tier.code || tier.id)}`;
	}

	#intents(tier: TierView, units: Units) {
		return lookIntents(this.seen, tier.id, this.who, units);
	}

	/** Leftovers of the whole tray, or place by place where meals lie apart. */
	#leftovers(tier: TierView, view: TodayView): TemplateResult {
		const day = (d: string): string => dayName(d, view.day);
		const places = new Map<string, string>(); // place → day of its newest meal
		for (const p of tier.scraps)
			if (p.spot && (places.get(p.spot) ?? "") < p.day) places.set(p.spot, p.day);
		const meal = tier.scraps
			.map((p) => p.day)
			.sort()
			.at(-1);
		const at = this.place;
		const head = at
			? text.look.leftAt(text.look.placeOf(spotWords(at), day(places.get(at) ?? view.day)))
			: meal
				? text.look.left(day(meal))
				: text.look.leftPlain;
		const choose = (code: string): void => this.#see({ left: { ...this.seen.left, [at]: code } });
		const names: [string, string][] = [
			["", text.look.wholeTray],
			...[...places].map(([spot, d]): [string, string] => [
				spot,
				text.look.placeOf(spotWords(spot), day(d)),
			]),
		];
		return html`${this.#pick(head, text.leftovers, this.seen.left[at] ?? "", leftovers, choose)}
			${
				places.size === 0
					? nothing
					: html`<div class="picks" role="group" aria-label=${text.look.places}>${names.map(
							([spot, name]) => {
								const found = this.seen.left[spot];
								return html`<button type="button" aria-pressed=${spot === at ? "true" : "false"} class="pickword ${spot === at ? "on" : ""}" @click=${() => {
									this.place = spot;
								}}>${name}${found ? html`: <b>${said(text.leftovers, found)}</b>` : nothing}</button>`;
							},
						)}</div>`
			}`;
	}

	/** The four that people see most; the others are folded until one is meant. */
	#visitors(s: Seen): TemplateResult {
		const names = text.look.visitorNames;
		const tap = (v: string): void => this.#visitor(v);
		const rare = Object.keys(names).filter((v) => !COMMON.includes(v));
		const named = (codes: string[]): Record<string, string> =>
			Object.fromEntries(codes.map((v) => [v, names[v] ?? v]));
		const open = rare.some((v) => s.visitors.includes(v));
		return html`${this.#words(text.look.visitors, named(COMMON), s.visitors, tap)}
			<details class="why" ?open=${open}><summary>${text.look.otherVisitors}</summary>
				${this.#tapped(text.look.otherVisitors, named(rare), s.visitors, tap)}</details>`;
	}

	#visitor(code: string): void {
		const has = this.seen.visitors.includes(code);
		const others = this.seen.visitors.filter((v) => v !== code);
		this.#see({ visitors: has ? others : [...others, code] });
	}

	#words(
		head: string,
		table: Record<string, string>,
		chosen: string[],
		tap: (code: string) => void,
	): TemplateResult {
		return html`${section(head)}${this.#tapped(head, table, chosen, tap)}`;
	}

	#tapped(
		label: string,
		table: Record<string, string>,
		chosen: string[],
		tap: (code: string) => void,
	): TemplateResult {
		return html`<div class="picks even" role="group" aria-label=${label}>${Object.entries(
			table,
		).map(([code, word]) => {
			const on = chosen.includes(code);
			return html`<button type="button" aria-pressed=${on ? "true" : "false"} class="pickword ${on ? "on" : ""}" @click=${() => tap(code)}>${word}</button>`;
		})}</div>`;
	}

	#pick(
		head: string,
		table: Record<string, string>,
		chosen: string,
		draw: (code: string) => TemplateResult,
		choose: (code: string) => void,
	): TemplateResult {
		return html`${section(head)}<div class="drawpicks" role="group" aria-label=${head}>${Object.entries(
			table,
		).map(
			([
				code,
				word,
			]) => html`<button type="button" aria-pressed=${chosen === code ? "true" : "false"} class=${chosen === code ? "on" : ""}
				@click=${() => choose(chosen === code ? "" : code)}>${draw(code)}<span>${word}</span></button>`,
		)}</div>`;
	}

	#temp(temp: Temp): TemplateResult {
		const typed = this.seen.typed.temp ?? "";
		const bad = this.bad === "temp";
		const unit = temp === "C" ? "°C" : "°F";
		const step = (by: 1 | -1): void => this.#type("temp", stepped(typed, by, temp));
		return html`<div class="stepper"><button type="button" aria-label=${text.look.colder} @click=${() => step(-1)}>−</button>
			<label class="degrees"><input type="text" inputmode="decimal" maxlength="5" autocomplete="off" name="temp" aria-label=${text.look.tempField(unit)} .value=${typed} aria-invalid=${bad ? "true" : "false"}
				@input=${(e: InputEvent) => this.#type("temp", (e.target as HTMLInputElement).value)}><span aria-hidden="true">${unit}</span></label>
			<button type="button" aria-label=${text.look.warmer} @click=${() => step(1)}>+</button></div>
			${bad ? html`<p role="alert">${text.look.tempBad}</p>` : nothing}
			<div class="picks even" role="group" aria-label=${text.look.temp}>${(
				["bed", "room"] as const
			).map(
				(of) =>
					html`<button type="button" aria-pressed=${this.seen.tempOf === of ? "true" : "false"} class="pickword ${this.seen.tempOf === of ? "on" : ""}" @click=${() => this.#see({ tempOf: of })}>${text.look.tempOf[of]}</button>`,
			)}</div>
			${
				hasBluetooth()
					? html`<button type="button" class="plain" @click=${() => void this.#read(temp)}>${text.look.thermometer}</button>
					${this.thermometer ? html`<p class="second" role="status">${this.thermometer}</p>` : nothing}`
					: nothing
			}`;
	}

	async #read(temp: Temp): Promise<void> {
		const faults = text.look.thermometerFaults;
		this.thermometer = text.look.thermometerReads;
		try {
			const { name, deci } = await readTemperature();
			this.thermometer = typeof deci === "number" ? name : (faults[deci] ?? faults.unknown ?? "");
			if (typeof deci === "number") this.#type("temp", degrees(deci, temp));
		} catch (why) {
			this.thermometer = (why instanceof BluetoothFault && faults[why.why]) || (faults.lost ?? "");
		}
	}

	async #save(tier: TierView, units: Units): Promise<void> {
		this.bad = badFigure(this.seen, units);
		if (this.bad) {
			await this.updateComplete;
			this.querySelector<HTMLElement>("[aria-invalid=true]")?.focus();
			return;
		}
		const intents = this.#intents(tier, units);
		const written = await this.saveAll(intents, text.look.saved(tier.name));
		if (written < intents.length) return;
		// Pictures taken during the look belong to its first entry.
		await this.querySelector("photo-slot")?.attach(this.saving.entities[0] ?? "");
		this.seen = nothingSeen;
		this.place = "";
		await this.app.dropDraft(this.#key);
		this.done = { tray: tier.id, entities: this.saving.entities };
		scrollTo(0, 0);
		void this.#learn();
	}

	protected override loaded(): void {
		void this.#learn();
	}

	/** What the look changed, as soon as the engine has read the look. */
	async #learn(): Promise<void> {
		const done = this.done;
		if (!done || done.taught) return;
		const shown = await this.app.view("taught", { arg: done.tray }).catch(() => undefined);
		const ours = shown?.data.entity !== undefined && done.entities.includes(shown.data.entity);
		if (ours && this.done === done) this.done = { ...done, taught: shown.data };
	}

	#end(tier: TierView, view: TodayView, done: Done): TemplateResult {
		return html`<main class="page look">
			${header({ title: text.look.title(tier.name), back: this.#tray(tier) })}
			${section(text.taught.title)}
			${done.taught ? taughtRows(done.taught) : html`<p class="second" role="status">${text.parts.loading}</p>`}
			<photo-slot .app=${this.app} .of=${done.entities[0] ?? ""}></photo-slot>
			<div class="tools"><a class="textlink" href="/trouble?tray=${encodeURIComponent(tier.id)}">${text.trouble.title}</a></div>
			<p class="second gloves">${text.look.gloves}</p>
			<div class="foot">${this.savingRow(view.mass as Mass)}<div class="act">
				<a class="plain" href="/look">${text.look.another}</a>
				<a class="go ink" href=${this.#tray(tier)}>${text.look.toTray(tier.name)}</a></div></div>
		</main>`;
	}
}
customElements.define("look-screen", LookScreen);

declare global {
	interface HTMLElementTagNameMap {
		"look-screen": LookScreen;
	}
}
