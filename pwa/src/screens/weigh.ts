// Weigh: a bowl filled scrap by scrap, by keypad, by one of the household's
// vessels, or not weighed at all. Every key is kept as a draft.

import { html, nothing, type TemplateResult } from "lit";
import { type Mass, number, shortName, weight } from "../format.ts";
import { bowlDrawing, type Layer, scrapTexture } from "../parts/bowl.ts";
import "../parts/fit.ts";
import type { Frame } from "../parts/fit.ts";
import { header } from "../parts/header.ts";
import { keypad } from "../parts/keypad.ts";
import { numeral } from "../parts/numeral.ts";
import { Screen } from "../parts/screen.ts";
import { verdictSign } from "../parts/signs.ts";
import { whoChooser } from "../parts/who.ts";
import { text } from "../strings.ts";
import type { Intent, ScrapView, WeighView } from "../types.gen.ts";
import { verdictWords } from "../words.ts";
import * as bowl from "./weigh-bowl.ts";
import { type Finding, findPanel } from "./weigh-find.ts";

export class WeighScreen extends Screen<"weigh"> {
	static override properties = {
		...Screen.properties,
		draft: { state: true },
		finding: { state: true },
		sureOf: { state: true },
		hint: { state: true },
	};
	declare draft: bowl.Draft | undefined;
	declare finding: Finding | undefined; // the search, while it is open
	declare sureOf: string; // scrap whose warning was tapped through
	declare hint: string;
	protected override readonly screen = "weigh";
	/** The kept draft once it was looked up; nothing begins before that. */
	#kept: { draft: unknown } | undefined;
	#tray: { id: string; name: string } | undefined;

	constructor() {
		super();
		this.sureOf = "";
		this.hint = "";
	}

	/** One draft for each tray it is weighed for, and one for the bowl. */
	get #key(): string {
		return `weigh:${this.args?.query.get("tray") ?? ""}`;
	}

	protected override willUpdate(changed: Map<string, unknown>): void {
		// The same screen, opened for another tray: that one's draft.
		const before = changed.get("args") as WeighScreen["args"] | undefined;
		if (before && before.query.get("tray") !== this.args.query.get("tray")) {
			this.draft = this.#kept = undefined;
			this.finding = undefined;
			this.sureOf = this.hint = "";
			this.#tray = undefined;
			this.calm();
			this.opened();
		}
	}

	protected override opened(): void {
		const key = this.#key;
		const found = (draft: unknown): void => {
			if (key !== this.#key) return; // another tray was opened meanwhile
			this.#kept = { draft };
			this.#begin();
		};
		void this.app.draft(key).then(found, () => found(undefined));
		const tray = this.args.query.get("tray");
		if (tray) {
			void this.app.view("tray", { arg: tray }).then(
				({ data }) => {
					if (data.id) this.#tray = { id: data.id, name: data.name ?? "" };
					this.requestUpdate();
				},
				() => {}, // without the tray's name the bowl simply waits
			);
		}
	}

	protected override rationOf(intent: Intent | undefined): number {
		return this.shown?.data.rations.find((r) => r.tray === intent?.tray)?.grams ?? 0;
	}

	protected override loaded(): void {
		this.#begin();
	}

	#begin(): void {
		const view = this.shown?.data;
		if (!view || this.draft || !this.#kept) return;
		const restored = bowl.readDraft(this.#kept.draft);
		this.draft =
			restored ??
			bowl.freshDraft(
				view.mass as Mass,
				{ member: this.app.me().member, guest: "" },
				text.weigh.bowlDefault,
			);
		if (restored && restored.parts.length > 0) this.hint = text.weigh.restored;
	}

	#change(next: bowl.Draft, hint = ""): void {
		this.draft = next;
		this.hint = hint;
		this.app.keepDraft(this.#key, next);
	}

	override render() {
		const view = this.shown?.data;
		const d = this.draft;
		if (!view || !d) return this.waiting(text.weigh.title);
		const mass = view.mass as Mass;
		const right =
			d.tare > 0 ? html`${text.weigh.tareOf(weight(d.tare, mass))}<br>${d.name}` : d.name;
		return html`<main class="page weigh">
			${header({ title: text.weigh.title, sub: this.#tray ? text.weigh.into(this.#tray.name) : nothing, right, back: this.#tray ? `/t/${encodeURIComponent(this.#tray.id)}` : "/" })}
			<div class="words rule" role="group" aria-label=${text.weigh.modesLabel}>${(
				["keypad", "vessel", "unweighed"] as const
			).map(
				(
					mode,
				) => html`<button type="button" aria-pressed=${d.mode === mode ? "true" : "false"} class=${d.mode === mode ? "on" : ""}
					@click=${() => this.#change({ ...d, mode, typed: "" })}>${text.weigh.modes[mode]}</button>`,
			)}</div>
			${this.#picks(d, view)}
			${this.finding ? findPanel(this.finding, view, { change: (f) => this.#find(f), pick: (p) => this.#pick(d, p) }) : nothing}
			${this.#verdict(d, view)}
			<div class="prep">${(["cut", "frozen"] as const).map(
				(key) =>
					html`<button type="button" aria-pressed=${d[key] ? "true" : "false"} class="pickword ${d[key] ? "on" : ""}" @click=${() => this.#change({ ...d, [key]: !d[key] })}>${key === "cut" ? text.weigh.chopped : text.weigh.frozen}</button>`,
			)}${d.mode === "keypad" ? html`<span class="read" aria-live="polite">${numeral({ value: d.typed || "0", unit: d.unit }, { size: "keyed" })}</span>` : nothing}</div>
			${d.mode === "keypad" ? this.#keypad(d, view) : d.mode === "vessel" ? this.#vessel(d, view) : this.#unweighed(d, view)}
			<p class="second hint" role="status">${this.hint}</p>
			${this.#inBowl(d, mass)}
			<details class="who"><summary><span>${text.weigh.bowlIn} <b>${d.name || text.weigh.bowlName}</b></span><span class="change">${text.parts.change}</span></summary>
				<label class="field">${text.weigh.bowlName}<input type="text" maxlength="40" autocomplete="off" .value=${d.name} @input=${(e: InputEvent) => this.#change({ ...d, name: (e.target as HTMLInputElement).value })}></label></details>
			${whoChooser(text.parts.weighedBy, d.who, view.members, (who) => this.#change({ ...d, who }))}
			<div class="foot">${this.savingRow(mass, (intent) => void this.#again(intent, d))}${this.#actions(d, mass)}</div>
		</main>`;
	}

	#inBowl(d: bowl.Draft, mass: Mass): TemplateResult {
		if (d.parts.length === 0) return html`<p class="second inbowl empty">${text.weigh.empty}</p>`;
		const rows = bowl.rows(d);
		const layers = rows.map(
			(r): Layer => ({ grams: Math.max(r.grams, 1), texture: scrapTexture(r.of) }),
		);
		const label = text.weigh.drawing(rows.map((r) => r.label).join(", "));
		return html`<div class="inbowl">
			<fit-frame .draw=${(frame: Frame) => bowlDrawing(layers, "weigh", frame, label)}></fit-frame>
			<ul class="lay">${rows.map(
				(r) =>
					html`<li><button type="button" class="out" aria-label=${text.weigh.takeOut(r.label)} @click=${() => this.#change(bowl.takeOut(d, r.tap))}>${shortName(r.label)}<b>${r.how === "unweighed" ? text.weigh.some : weight(r.grams, mass)}</b></button></li>`,
			)}<li class="sum"><span>${text.weigh.inBowl}</span><b>${this.#amount(d, mass)}</b></li></ul></div>`;
	}

	#amount(d: bowl.Draft, mass: Mass): string {
		const grams = bowl.total(d);
		if (grams === 0) return text.weigh.some;
		return bowl.someUnweighed(d)
			? `${weight(grams, mass)} + ${text.weigh.some}`
			: weight(grams, mass);
	}

	/** The verdict of what is picked, in room that is kept for it, so that no key
	 * moves. Avoid and never need a second tap. */
	#verdict(d: bowl.Draft, view: WeighView): TemplateResult {
		const scrap = view.scraps.find((s) => s.id === d.pick?.scrap);
		if (!scrap)
			return html`<div class="notice" role="status"><p>${d.pick ? d.pick.name : text.weigh.emptyHint}</p></div>`;
		const words = verdictWords(scrap);
		return html`<div class="notice" role="status">${verdictSign(scrap.verdict)}<p><b>${words.head}</b> ${words.rest}</p></div>`;
	}

	#picks(d: bowl.Draft, view: WeighView): TemplateResult {
		const usual: bowl.Pick[] =
			view.usual.length > 0
				? [{ scrap: "usual", name: text.weigh.usual, class: "", group: "" }]
				: [];
		const often = view.often.slice(0, MOST_PICKS - usual.length).map(pickOf);
		// What was found takes the last place, so that the number of rows stays.
		const found = d.pick && ![...usual, ...often].some((p) => p.scrap === d.pick?.scrap);
		const picks = [...usual, ...often];
		if (found && d.pick) picks.splice(Math.min(picks.length, MOST_PICKS - 1), 1, d.pick);
		return html`<div class="picks even what" role="group">${picks.map((p) => {
			const on = p.scrap === d.pick?.scrap && p.name === d.pick.name;
			return html`<button type="button" aria-pressed=${on ? "true" : "false"} class="pickword ${on ? "on" : ""}" @click=${() => this.#pick(d, p)}>${shortName(p.name)}</button>`;
		})}<button type="button" class="pickword" aria-expanded=${this.finding ? "true" : "false"} @click=${() => this.#find(this.finding ? undefined : { typed: "", class: "" })}>${text.weigh.find}</button></div>`;
	}

	#find(finding: Finding | undefined): void {
		const opening = finding !== undefined && this.finding === undefined;
		this.finding = finding;
		if (opening)
			void this.updateComplete.then(() =>
				this.querySelector<HTMLInputElement>(".find input")?.focus(),
			);
	}

	#pick(d: bowl.Draft, pick: bowl.Pick): void {
		this.finding = undefined;
		this.sureOf = "";
		this.#change({ ...d, pick });
	}

	/** Puts in what is picked, or says what is missing. */
	#add(d: bowl.Draft, view: WeighView): void {
		const refused = this.#whyNot(d, view);
		if (refused) {
			this.#change(d, refused);
			return;
		}
		const next = bowl.add(d, view);
		this.sureOf = "";
		this.app.say(`${d.pick?.name}: ${this.#amount(next, view.mass as Mass)} ${text.weigh.inBowl}`);
		this.#change({ ...next, cut: false, frozen: false });
	}

	#whyNot(d: bowl.Draft, view: WeighView): string {
		if (!d.pick) return text.weigh.emptyHint;
		if (Number.isNaN(bowl.addable(d, view))) {
			return d.tare > 0 && d.typed !== "" ? text.weigh.belowTare : text.weigh.noAmount;
		}
		if (bowl.add(d, view) === d) return text.weigh.full;
		const scrap = view.scraps.find((s) => s.id === d.pick?.scrap);
		const warned = scrap?.verdict === "avoid" || scrap?.verdict === "never";
		if (!scrap || !warned || this.sureOf === scrap.id) return "";
		this.sureOf = scrap.id;
		const { head, rest } = verdictWords(scrap);
		const hint = `${head} ${rest} ${text.weigh.pressAgain}`;
		this.app.say(hint);
		return hint;
	}

	#addWord(d: bowl.Draft): string {
		return this.#sure(d) ? text.weigh.surePress : text.weigh.keys.add;
	}

	/** Its warning was tapped through. */
	#sure(d: bowl.Draft): boolean {
		return d.pick !== undefined && this.sureOf === d.pick.scrap;
	}

	#keypad(d: bowl.Draft, view: WeighView): TemplateResult {
		const mass = view.mass as Mass;
		// With a tare the key says what it would add; how that comes about stands below.
		const tared = d.tare > 0 && d.typed !== "" && bowl.net(d) > 0;
		const net = weight(bowl.net(d), mass);
		return html`${keypad({
			unit: d.unit,
			mass,
			addWord: tared && !this.#sure(d) ? text.weigh.addNet(net) : this.#addWord(d),
			press: (key) => this.#change(bowl.press(d, key)),
			unitTo: (unit) =>
				this.#change({ ...d, unit, typed: unit === "g" ? d.typed.replace(/\..*/, "") : d.typed }),
			undo: () => this.#change(bowl.undo(d)),
			tare: () =>
				this.#change(bowl.tare(d), Number.isNaN(bowl.reading(d)) ? text.weigh.zeroHint : ""),
			add: () => this.#add(d, view),
		})}
			${tared ? html`<p class="second hint">${text.weigh.tared(weight(d.tare, mass), weight(bowl.total(d), mass), net)}</p>` : nothing}`;
	}

	#vessel(d: bowl.Draft, view: WeighView): TemplateResult {
		const mass = view.mass as Mass;
		const chosen = view.vessels.find((v) => v.id === d.vessel) ?? view.vessels[0];
		if (!chosen) return html`<p class="pad">${text.weigh.vesselNone}</p>`;
		const turn = (by: number): void =>
			this.#change({
				...d,
				vessel: chosen.id,
				quarters: Math.min(40, Math.max(1, d.quarters + by)),
			});
		const count = number(d.quarters / 4, 2);
		return html`<div class="picks pad" role="group" aria-label=${text.weigh.modes.vessel}>${view.vessels.map(
			(
				v,
			) => html`<button type="button" aria-pressed=${v.id === chosen.id ? "true" : "false"} class="pickword ${v.id === chosen.id ? "on" : ""}"
				@click=${() => this.#change({ ...d, vessel: v.id })}>${v.name}, ${weight(v.grams, mass)}</button>`,
		)}</div>
		<div class="stepper"><button type="button" aria-label=${text.weigh.vesselFewer} @click=${() => turn(-1)}>−</button>
			<span aria-live="polite">${numeral({ value: count, unit: `× ${chosen.name}` }, { size: "keyed" })}<span class="second line">${weight(Math.round((chosen.grams * d.quarters) / 4), mass)}</span></span>
			<button type="button" aria-label=${text.weigh.vesselMore} @click=${() => turn(1)}>+</button></div>
		<div class="act"><button type="button" class="go ink" @click=${() => this.#add({ ...d, vessel: chosen.id }, view)}>${this.#addWord(d)}</button></div>`;
	}

	#unweighed(d: bowl.Draft, view: WeighView): TemplateResult {
		return html`<p class="pad second">${text.weigh.unweighedSays}</p>
			<div class="act"><button type="button" class="go ink" @click=${() => this.#add(d, view)}>${this.sureOf ? this.#addWord(d) : text.weigh.addSome}</button></div>`;
	}

	#actions(d: bowl.Draft, mass: Mass): TemplateResult {
		const amount = this.#amount(d, mass);
		const idle = d.parts.length === 0 || this.saving.state === "saving";
		const tray = this.#tray;
		return html`<div class="act">
			<button type="button" class="plain" ?disabled=${idle} @click=${() => void this.#freeze(d, mass)}>${text.weigh.freeze}</button>
			${tray ? html`<button type="button" class="plain" ?disabled=${idle} @click=${() => void this.#finish(bowl.bowlIntent(d), text.weigh.savedBowl(amount))}>${text.weigh.wait}</button>` : nothing}
			<button type="button" class="go" ?disabled=${idle} @click=${() => void (tray ? this.#finish(bowl.feedIntent(d, tray.id), text.weigh.savedFeed(amount, tray.name)) : this.#finish(bowl.bowlIntent(d), text.weigh.savedBowl(amount)))}>${
				d.parts.length === 0
					? tray
						? text.weigh.fed
						: text.weigh.wait
					: tray
						? text.weigh.feed(amount)
						: text.weigh.waits(amount)
			}</button></div>`;
	}

	/** Saves, and only then clears what was typed. */
	async #finish(intent: Intent, words: string): Promise<string | undefined> {
		const view = this.shown?.data;
		const answer = await this.save(intent, words);
		if (!answer.ok || !view) return undefined;
		await this.app.dropDraft(this.#key);
		this.draft = bowl.freshDraft(
			view.mass as Mass,
			this.draft?.who ?? { member: this.app.me().member, guest: "" },
			this.draft?.name ?? text.weigh.bowlDefault,
		);
		this.hint = "";
		return answer.entity;
	}

	async #freeze(d: bowl.Draft, mass: Mass): Promise<void> {
		const amount = this.#amount(d, mass);
		const entity = await this.#finish(bowl.bowlIntent(d), text.weigh.savedBowl(amount));
		if (!entity) return;
		const placed = await this.save(
			{
				do: "place",
				bowl: entity,
				items: bowl.itemsOf(d),
				shares: [{ to: "freezer", grams: bowl.total(d) }],
			},
			text.weigh.savedFreeze(amount),
		);
		if (!placed.ok) this.hint = text.weigh.freezeFailed;
	}

	async #again(intent: Intent, d: bowl.Draft): Promise<void> {
		const amount = this.#amount(d, (this.shown?.data.mass ?? "g") as Mass);
		await this.#finish(
			intent,
			intent.do === "feed" && this.#tray
				? text.weigh.savedFeed(amount, this.#tray.name)
				: text.weigh.savedBowl(amount),
		);
	}
}
customElements.define("weigh-screen", WeighScreen);

// Five scraps and "find" are two rows of three.
const MOST_PICKS = 5;

const pickOf = (s: ScrapView): bowl.Pick => ({
	scrap: s.id,
	name: s.name,
	class: s.class,
	group: s.group,
});

declare global {
	interface HTMLElementTagNameMap {
		"weigh-screen": WeighScreen;
	}
}
