// Weigh: a bowl filled scrap by scrap, by keypad, by one of the household's
// vessels, or not weighed at all. Every key is kept as a draft.

import { html, nothing, type TemplateResult } from "lit";
import { hasBluetooth } from "../device/bluetooth.ts";
import { keyedFigure, type Mass, shortName, weight } from "../format.ts";
import { header } from "../parts/header.ts";
import { keypad } from "../parts/keypad.ts";
import { numeral } from "../parts/numeral.ts";
import { Screen } from "../parts/screen.ts";
import { sign, verdictSign } from "../parts/signs.ts";
import { whoChooser } from "../parts/who.ts";
import { text } from "../strings.ts";
import type { FillAsk, FillView, FoodAsk, Intent, WeighView } from "../types.gen.ts";
import { verdictWords } from "../words.ts";
import * as adding from "./weigh-add.ts";
import * as bowl from "./weigh-bowl.ts";
import { type Finding, findPanel, pickOf } from "./weigh-find.ts";
import { amountWords, bowlPanel, picks } from "./weigh-layers.ts";
import { figure, ScaleReader } from "./weigh-scale.ts";
import { type VesselForm, vesselIntent, vesselPanel } from "./weigh-vessel.ts";
import { type HandfulForm, handfulIntent, withPanel } from "./weigh-with.ts";

export class WeighScreen extends Screen<"weigh"> {
	static override properties = {
		...Screen.properties,
		draft: { state: true },
		finding: { state: true },
		meant: { state: true },
		notYet: { state: true },
		hint: { state: true },
		fill: { state: true },
		vesselForm: { state: true },
		handfulForm: { state: true },
	};
	declare draft: bowl.Draft | undefined;
	declare finding: Finding | undefined; // the search, while it is open
	declare meant: readonly string[]; // what Add asked about: pressing again means it
	declare notYet: adding.Refusal | undefined; // why Add did nothing, until the next key
	declare hint: string;
	declare fill: FillView | undefined; // what goes with the bowl, once the engine said so
	declare vesselForm: VesselForm | undefined; // while a vessel is weighed
	declare handfulForm: HandfulForm | undefined; // while a handful is weighed
	protected override readonly screen = "weigh";
	/** The kept draft once it was looked up; nothing begins before that. */
	#kept: { draft: unknown } | undefined;
	#tray: { id: string; name: string } | undefined;
	/** What a Bluetooth scale stands still at is typed, never added. */
	readonly #scale = new ScaleReader(this, (is) => {
		const d = this.draft;
		if (d?.mode !== "scale") return;
		const { typed, unit } = figure(is, (this.shown?.data.mass ?? "g") as Mass);
		this.#change({ ...d, unit, typed: is.grams === 0 ? "" : typed });
	});

	constructor() {
		super();
		this.meant = [];
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
			this.#forget();
			this.hint = "";
			this.#tray = this.fill = undefined;
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
		void this.#askFill();
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
		const asked = view.scraps.find((s) => s.id === this.args.query.get("scrap"));
		if (asked) this.draft = { ...this.draft, pick: pickOf(asked) };
		void this.#askFill();
	}

	#change(next: bowl.Draft, hint = ""): void {
		const refilled = next.parts !== this.draft?.parts;
		this.draft = next;
		this.hint = hint;
		this.notYet = undefined;
		this.app.keepDraft(this.#key, next);
		if (refilled) void this.#askFill();
	}

	/** Asks what goes with the bowl as it is now. */
	async #askFill(): Promise<void> {
		const d = this.draft;
		if (!d || d.parts.length === 0) {
			this.fill = undefined;
			return;
		}
		const ask: FillAsk = { items: bowl.itemsOf(d), tray: this.args.query.get("tray") ?? "" };
		const fill = await this.app
			.view("filling", { arg: JSON.stringify(ask) })
			.catch(() => undefined);
		if (d.parts === this.draft?.parts) this.fill = fill?.data;
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
				["keypad", ...(hasBluetooth() ? (["scale"] as const) : []), "vessel", "unweighed"] as const
			).map(
				(
					mode,
				) => html`<button type="button" aria-pressed=${d.mode === mode ? "true" : "false"} class=${d.mode === mode ? "on" : ""}
					@click=${() => this.#mode(d, mode)}>${text.weigh.modes[mode]}</button>`,
			)}</div>
			${this.#picks(d, view)}
			${this.finding ? findPanel(this.finding, view, { type: (typed) => void this.#search(typed), pick: (p) => this.#pick(d, p) }) : nothing}
			${this.#verdict(d, view)}
			<div class="prep">${(["cut", "frozen"] as const).map(
				(key) =>
					html`<button type="button" aria-pressed=${d[key] ? "true" : "false"} class="pickword ${d[key] ? "on" : ""}" @click=${() => this.#change({ ...d, [key]: !d[key] })}>${key === "cut" ? text.weigh.chopped : text.weigh.frozen}</button>`,
			)}${keyed(d) ? html`<span class="read" aria-live="polite">${numeral({ value: keyedFigure(d.typed) || "0", unit: d.unit }, { size: "keyed" })}</span>` : nothing}</div>
			${d.mode === "scale" ? this.#scale.row(mass) : nothing}
			${keyed(d) ? this.#keypad(d, view) : d.mode === "vessel" ? this.#vessel(d, view) : this.#unweighed(d, view)}
			<p class="second hint" role="status">${this.hint}</p>
			${bowlPanel(d, mass, (tap) => this.#change(bowl.takeOut(d, tap)))}
			${this.#with(d, view)}
			<details class="who"><summary><span>${text.weigh.bowlIn} <b>${d.name || text.weigh.bowlName}</b></span><span class="change">${text.parts.change}</span></summary>
				<label class="field">${text.weigh.bowlName}<input type="text" maxlength="40" autocomplete="off" .value=${d.name} @input=${(e: InputEvent) => this.#change({ ...d, name: (e.target as HTMLInputElement).value })}></label></details>
			${whoChooser(text.parts.weighedBy, d.who, view.members, (who) => this.#change({ ...d, who }))}
			<div class="foot ${d.parts.length === 0 && this.saving.state === "idle" ? "idle" : ""}">${this.savingRow(mass, (intent) => void this.#finish(intent, d, mass))}${this.#actions(d, mass)}</div>
		</main>`;
	}

	#with(d: bowl.Draft, view: WeighView): TemplateResult | typeof nothing {
		if (d.parts.length === 0 || !this.fill) return nothing;
		if (bowl.total(d) === 0) return html`<p class="second pad">${text.weigh.with.unweighed}</p>`;
		return withPanel(
			{
				fill: this.fill,
				mass: view.mass as Mass,
				keeper: this.app.me().role === "keeper",
				beddings: view.scraps.filter((s) => s.group === "bedding" && s.verdict === "good"),
				form: this.handfulForm,
			},
			{
				form: (form) => {
					this.handfulForm = form;
				},
				keep: (form) => void this.#keepHandful(form, view.mass as Mass),
			},
		);
	}

	async #keepHandful(form: HandfulForm, mass: Mass): Promise<void> {
		const next = handfulIntent(form, mass);
		if ("fault" in next) {
			this.handfulForm = { ...form, fault: next.fault };
			return;
		}
		const answer = await this.save(next.intent, text.weigh.with.saved(weight(next.grams, mass)));
		if (answer.ok) this.handfulForm = undefined;
	}

	async #keepVessel(form: VesselForm, mass: Mass): Promise<void> {
		const next = vesselIntent(form, mass);
		if ("fault" in next) {
			this.vesselForm = { ...form, fault: next.fault };
			return;
		}
		const { name, grams } = next.intent.set as { name: string; grams: number };
		const answer = await this.save(next.intent, text.weigh.vesselSaved(name, weight(grams, mass)));
		if (!answer.ok) return;
		this.vesselForm = undefined;
		if (this.draft) this.#change({ ...this.draft, vessel: form.id || answer.entity, quarters: 4 });
	}

	/** The verdict of what is picked, or what is odd about its amount, in room that
	 * is kept for it, so that no key moves. Both may need a second tap. */
	#verdict(d: bowl.Draft, view: WeighView): TemplateResult {
		const slip = this.notYet?.amount ? this.notYet.says : "";
		if (slip) return html`<div class="notice">${sign("missing")}<p><b>${slip}</b></p></div>`;
		const scrap = view.scraps.find((s) => s.id === d.pick?.scrap);
		if (!scrap)
			return html`<div class="notice" role="status"><p>${d.pick ? d.pick.name : text.weigh.emptyHint}</p></div>`;
		const words = verdictWords(scrap);
		return html`<div class="notice" role="status">${verdictSign(scrap.verdict)}<p><b>${words.head}</b> ${words.rest} <a href="/food?q=${encodeURIComponent(scrap.name)}">${text.weigh.more}</a></p></div>`;
	}

	#picks(d: bowl.Draft, view: WeighView): TemplateResult {
		return html`<div class="picks even what" role="group">${picks(d, view).map((p) => {
			const on = p.scrap === d.pick?.scrap && p.name === d.pick.name;
			return html`<button type="button" aria-pressed=${on ? "true" : "false"} class="pickword ${on ? "on" : ""}" @click=${() => this.#pick(d, p)}>${shortName(p.name)}</button>`;
		})}<button type="button" class="pickword" aria-expanded=${this.finding ? "true" : "false"} @click=${() => this.#openFind()}>${text.weigh.find}</button></div>`;
	}

	#mode(d: bowl.Draft, mode: bowl.Mode): void {
		this.vesselForm = this.handfulForm = undefined;
		this.#change({ ...d, mode, typed: "" });
	}

	#openFind(): void {
		if (this.finding) {
			this.finding = undefined;
			return;
		}
		void this.#search("");
		void this.updateComplete.then(() =>
			this.querySelector<HTMLInputElement>(".find input")?.focus(),
		);
	}

	async #search(typed: string): Promise<void> {
		const before = this.finding ?? { found: [], searched: "" };
		this.finding = { ...before, typed };
		const ask: FoodAsk = { typed };
		const { data } = await this.app.view("food", { arg: JSON.stringify(ask) });
		if (this.finding?.typed !== typed) return; // more was typed meanwhile, or it was closed
		this.finding = { typed, found: data.found.map((f) => f.scrap), searched: typed };
	}

	#pick(d: bowl.Draft, pick: bowl.Pick): void {
		this.finding = undefined;
		this.#forget();
		this.#change({ ...d, pick });
	}

	/** Puts in what is picked, or says what is missing. */
	#add(d: bowl.Draft, view: WeighView): void {
		const tray = this.#tray?.id ?? "";
		const not = adding.whyNot(d, view, tray, this.meant);
		if (not) {
			this.#change(d, not.amount ? "" : not.says);
			this.notYet = not;
			if (not.ask) this.meant = [...this.meant, not.ask];
			if (not.ask || not.amount) this.app.say(not.says);
			return;
		}
		const next = adding.added(d, view, tray, this.meant);
		this.#forget();
		this.app.say(`${d.pick?.name}: ${amountWords(next, view.mass as Mass)} ${text.weigh.inBowl}`);
		this.#change(next);
	}

	#forget(): void {
		this.meant = [];
		this.notYet = undefined;
	}

	#addWord(d: bowl.Draft, view: WeighView): string {
		return adding.addWord(d, view, this.#tray?.id ?? "", this.meant);
	}

	#keypad(d: bowl.Draft, view: WeighView): TemplateResult {
		const mass = view.mass as Mass;
		// With a tare the key says what it would add; how that comes about stands below.
		const tared = d.tare > 0 && d.typed !== "" && bowl.net(d) > 0;
		const net = weight(bowl.net(d), mass);
		return html`${keypad({
			unit: d.unit,
			mass,
			addWord: tared && this.meant.length === 0 ? text.weigh.addNet(net) : this.#addWord(d, view),
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
		return vesselPanel(
			{
				vessels: view.vessels,
				chosen,
				quarters: d.quarters,
				form: this.vesselForm,
				addWord: this.#addWord(d, view),
				mass,
			},
			{
				choose: (vessel) => this.#change({ ...d, vessel }),
				fill: (quarters) => this.#change({ ...d, quarters, vessel: chosen?.id ?? "" }),
				form: (form) => {
					this.vesselForm = form;
				},
				keep: (form) => void this.#keepVessel(form, mass),
				add: () => this.#add({ ...d, vessel: chosen?.id ?? "" }, view),
			},
		);
	}

	#unweighed(d: bowl.Draft, view: WeighView): TemplateResult {
		return html`<p class="pad second">${text.weigh.unweighedSays}</p>
			<div class="act"><button type="button" class="go ink" @click=${() => this.#add(d, view)}>${this.meant.length > 0 ? this.#addWord(d, view) : text.weigh.addSome}</button></div>`;
	}

	#actions(d: bowl.Draft, mass: Mass): TemplateResult {
		const idle = d.parts.length === 0 || this.saving.state === "saving";
		const tray = this.#tray;
		const does = (intent: Intent) => () => void this.#finish(intent, d, mass);
		return html`<div class="act">
			<button type="button" class="plain" ?disabled=${idle} @click=${does(bowl.freezeIntent(d))}>${text.weigh.freeze}</button>
			${tray ? html`<button type="button" class="plain" ?disabled=${idle} @click=${does(bowl.bowlIntent(d))}>${text.weigh.wait}</button>` : nothing}
			<button type="button" class="go" ?disabled=${idle} @click=${does(tray ? bowl.feedIntent(d, tray.id) : bowl.bowlIntent(d))}>${this.#goWords(d, amountWords(d, mass))}</button></div>`;
	}

	/** What the main action does; at large text without the amount, which stands
	 * in the bowl above. */
	#goWords(d: bowl.Draft, amount: string): TemplateResult | string {
		const [bare, whole] = this.#tray
			? [text.weigh.fed, text.weigh.feed(amount)]
			: [text.weigh.wait, text.weigh.waits(amount)];
		if (d.parts.length === 0) return bare;
		return html`<span class="roomy">${whole}</span><span class="tight">${bare}</span>`;
	}

	/** Saves, and only then clears what was typed. */
	async #finish(intent: Intent, d: bowl.Draft, mass: Mass): Promise<void> {
		const amount = amountWords(d, mass);
		const words: Record<string, string> = {
			feed: text.weigh.savedFeed(amount, this.#tray?.name ?? ""),
			freeze: text.weigh.savedFreeze(amount),
		};
		const answer = await this.save(intent, words[intent.do] ?? text.weigh.savedBowl(amount));
		if (!answer.ok) return;
		await this.app.dropDraft(this.#key);
		this.draft = bowl.freshDraft(mass, d.who, d.name);
		this.fill = undefined;
		this.hint = "";
	}
}
customElements.define("weigh-screen", WeighScreen);

/** The figure comes from keys or a scale. */
const keyed = (d: bowl.Draft): boolean => d.mode === "keypad" || d.mode === "scale";

declare global {
	interface HTMLElementTagNameMap {
		"weigh-screen": WeighScreen;
	}
}
