// Labels for trays, blank ones, the paper card and the page that tells how far a
// printer is off its mark. The choosing works anywhere, the drawing is the
// server's.

import { html, nothing, svg, type TemplateResult } from "lit";
import { Refused } from "../device/invites.ts";
import { NetFault } from "../device/net.ts";
import type { Phone } from "../device/phone.ts";
import { type PrintRequest, print } from "../device/printing.ts";
import { number, plainNumber } from "../format.ts";
import { language } from "../language.ts";
import { header, section } from "../parts/header.ts";
import { Screen } from "../parts/screen.ts";
import { text } from "../strings.ts";
import type { LabelsView, LabelTray, Sheet } from "../types.gen.ts";
import { faultWords, problemWords, said } from "../words.ts";
import { groups } from "./labels-claim.ts";
import {
	cardsOf,
	counts,
	type Form,
	firstForm,
	labelCount,
	labelsOf,
	lengths,
	type Measure,
	shownMeasure,
	typedNumber,
	typedSheet,
	type What,
} from "./labels-form.ts";

const DRAFT = "labels";
const MOST_BLANK = 60;

export class LabelsScreen extends Screen<"labels"> {
	static override properties = {
		...Screen.properties,
		phone: { attribute: false },
		form: { state: true },
		begun: { state: true },
		busy: { state: true },
		made: { state: true },
		fault: { state: true },
		askAnyway: { state: true },
	};
	declare phone: Phone;
	declare form: Form;
	declare begun: boolean; // the kept draft was looked for: the form may be filled in
	declare busy: boolean;
	/** Address of the PDF, "" before there is one. */
	declare made: string;
	declare fault: string;
	/** The server asked whether question marks will do. */
	declare askAnyway: boolean;
	protected override readonly screen = "labels";

	constructor() {
		super();
		this.form = firstForm;
		this.begun = false;
		this.busy = false;
		this.made = "";
		this.fault = "";
		this.askAnyway = false;
	}

	protected override opened(): void {
		const found = (kept: unknown): void => {
			if (kept) this.form = { ...this.form, ...(kept as Partial<Form>) };
			this.begun = true;
		};
		void this.app.draft(DRAFT).then(found, () => found(undefined));
	}

	override disconnectedCallback(): void {
		this.#forget();
		super.disconnectedCallback();
	}

	/** A drawn PDF no longer says what the form says. */
	#forget(): void {
		if (this.made) URL.revokeObjectURL(this.made);
		this.made = this.fault = "";
		this.askAnyway = false;
	}

	#set(change: Partial<Form>): void {
		this.#forget();
		this.form = { ...this.form, ...change };
		this.app.keepDraft(DRAFT, this.form);
	}

	override render() {
		const view = this.shown?.data;
		const words = text.labels;
		if (!view || !this.begun) return this.waiting(words.title);
		const { what } = this.form;
		return html`<main class="page labels">
			${header({ title: words.title, sub: words.sub, back: "/more" })}
			${this.#picks(
				words.what,
				Object.keys(words.whats).map((key) => [key, said(words.whats, key)]),
				what,
				(key) => this.#set({ what: key as What }),
			)}
			${what === "cards" ? html`<p class="second">${words.cardsLead}</p>` : nothing}
			${what === "calibration" ? html`<p class="second">${words.calibrationLead}</p>` : nothing}
			${what === "labels" ? this.#labels(view) : nothing}
			${section(words.on)}
			${what === "cards" ? this.#paper() : this.#sheet(view)}
			${this.#foot(view)}
		</main>`;
	}

	#picks(
		label: string,
		options: [string, string][],
		chosen: string,
		choose: (key: string) => void,
	): TemplateResult {
		return html`<div class="picks" role="group" aria-label=${label}>${options.map(
			([key, word]) =>
				html`<button type="button" aria-pressed=${key === chosen ? "true" : "false"} class="pickword ${key === chosen ? "on" : ""}" @click=${() => choose(key)}>${word}</button>`,
		)}</div>`;
	}

	#labels(view: LabelsView): TemplateResult {
		const words = text.labels;
		const { blank, copies } = this.form;
		const trays = view.bins.some((bin) => bin.trays.length > 0);
		return html`${section(words.trays)}
			${trays ? view.bins.map((bin) => html`<ul class="rows">${bin.trays.map((t) => this.#tray(bin.name, t))}</ul>`) : html`<p class="second">${words.noTrays}</p>`}
			<div class="countrow"><span class="grow"><b>${words.blank}</b><span class="second line">${words.blankLead}</span></span>
				<button type="button" class="plain" aria-label=${words.fewer} ?disabled=${blank === 0} @click=${() => this.#set({ blank: blank - 1 })}>−</button>
				<output class="figure">${blank}</output>
				<button type="button" class="plain" aria-label=${words.more} ?disabled=${blank >= MOST_BLANK} @click=${() => this.#set({ blank: blank + 1 })}>+</button></div>
			<p class="second">${words.faces}</p>
			${this.#picks(
				words.faces,
				[2, 1].map((n) => [String(n), words.face[n] ?? ""]),
				String(copies),
				(n) => this.#set({ copies: Number(n) }),
			)}`;
	}

	#tray(bin: string, tray: LabelTray): TemplateResult {
		const inside = !this.form.out.includes(tray.id);
		// A feeder's phone may print labels, but not put a new one on a tray.
		const bare = !tray.code && this.app.me().role !== "keeper";
		const turn = (): void =>
			this.#set({
				out: inside
					? [...this.form.out, tray.id]
					: this.form.out.filter((other) => other !== tray.id),
			});
		return html`<li><label class="check"><input type="checkbox" .checked=${inside && !bare} ?disabled=${bare} @change=${turn}>
			<span><b>${tray.name}</b> <span class="second">${bin}, ${tray.code ? html`<span class="figure">${groups(tray.code)}</span>` : bare ? text.claim.bare : text.labels.noCode}</span></span></label></li>`;
	}

	#paper(): TemplateResult {
		const words = text.labels;
		return this.#picks(
			words.paper,
			Object.keys(words.papers).map((key) => [key, said(words.papers, key)]),
			this.form.paper,
			(paper) => this.#set({ paper }),
		);
	}

	#preset(view: LabelsView): Sheet {
		const found = view.sheets.find((s) => s.name === this.form.sheet) ?? view.sheets[0];
		if (!found) throw new Error("labels: the engine has no sheets");
		return found;
	}

	#sheet(view: LabelsView): TemplateResult {
		const words = text.labels;
		const preset = this.#preset(view);
		const mm = (um: number): string => plainNumber(um / 1000, 1);
		const field = (label: string, value: string, typed: (v: string) => void) =>
			html`<label class="field">${label}<input type="text" inputmode="decimal" maxlength="8" autocomplete="off" .value=${value}
				@input=${(e: InputEvent) => typed((e.target as HTMLInputElement).value)}></label>`;
		return html`<label class="field">${words.sheet}<select @change=${(e: Event) => this.#set({ sheet: (e.target as HTMLSelectElement).value, own: {}, start: "1" })}>
			${view.sheets.map((s) => html`<option value=${s.name} ?selected=${s.name === preset.name}>${words.option(words.sheets[s.name] ?? words.roll, mm(s.cellW), mm(s.cellH))}</option>`)}
		</select></label>
		<details class="who"><summary><span>${words.measures}</span><span class="change">${text.parts.change}</span></summary>
			<p class="second">${words.measuresLead}</p>
			<div class="fields">${[...lengths, ...counts].map((m: Measure) =>
				field(said(words.fields, m), shownMeasure(this.form, preset, m), (v) =>
					this.#set({ own: { ...this.form.own, [m]: v } }),
				),
			)}</div>
			<button type="button" class="plain measures" @click=${() => this.#set({ own: {} })}>${words.reset}</button>
		</details>
		${
			this.form.what === "labels"
				? html`<details class="who"><summary><span>${words.started}</span><span class="change">${text.parts.change}</span></summary>
			${this.#drawing(view, preset)}
			<div class="fields">
				${field(words.start, this.form.start, (start) => this.#set({ start }))}
				${field(words.offsetX, this.form.offsetX, (offsetX) => this.#set({ offsetX }))}
				${field(words.offsetY, this.form.offsetY, (offsetY) => this.#set({ offsetY }))}
			</div>
		</details>`
				: nothing
		}`;
	}

	/** The sheet from above: used labels empty, those to be printed hatched. */
	#drawing(view: LabelsView, preset: Sheet): TemplateResult | typeof nothing {
		const sheet = typedSheet(this.form, preset);
		if (typeof sheet === "string" || sheet.columns * sheet.rows > 400) return nothing;
		const first = Math.max(1, Math.round(typedNumber(this.form.start)) || 1);
		const count = labelCount(this.form, view);
		const cells = Array.from({ length: sheet.columns * sheet.rows }, (_, i) => i);
		return html`<svg class="sheetplan" viewBox="0 0 ${sheet.pageW / 1000} ${sheet.pageH / 1000}" role="img" aria-label=${text.labels.drawing(number(count), number(first))}>
			<rect class="paper" x="0.5" y="0.5" width=${sheet.pageW / 1000 - 1} height=${sheet.pageH / 1000 - 1}></rect>
			${cells.map((i) => {
				const x = (sheet.left + (i % sheet.columns) * sheet.pitchX) / 1000;
				const y = (sheet.top + Math.floor(i / sheet.columns) * sheet.pitchY) / 1000;
				const [w, h] = [sheet.cellW / 1000, sheet.cellH / 1000];
				const on = i >= first - 1 && i < first - 1 + count;
				return svg`<rect class=${on ? "on" : ""} x=${x + 1} y=${y + 1} width=${w - 2} height=${h - 2}></rect>${
					on
						? svg`<path d=${`M${x + 6} ${y + 6}h${h / 2}v${h / 2}h${-h / 2}zM${x + h / 2 + 12} ${y + h / 3}h${w - h / 2 - 20}M${x + h / 2 + 12} ${y + (2 * h) / 3}h${(w - h / 2) / 2}`}></path>`
						: ""
				}`;
			})}</svg>`;
	}

	#foot(view: LabelsView): TemplateResult {
		const words = text.labels;
		const count = labelCount(this.form, view);
		const go =
			this.form.what === "labels"
				? count === 1
					? words.makeOne
					: words.make(number(count))
				: words.makeOther;
		return html`<div class="foot">
			${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
			${this.askAnyway ? html`<button type="button" class="plain wide" @click=${() => void this.#make(view, true)}>${words.anyway}</button>` : nothing}
			${
				this.made
					? html`<p role="status"><b>${words.ready}</b> ${words.actual}</p>
				<div class="act"><a class="go ink" href=${this.made} download=${`trayside-${this.form.what}.pdf`}>${words.open}</a></div>`
					: html`<div class="act"><button type="button" class="go ink" ?disabled=${this.busy} @click=${() => void this.#make(view, false)}>${this.busy ? words.making : go}</button></div>`
			}
		</div>`;
	}

	async #make(view: LabelsView, anyway: boolean): Promise<void> {
		if (this.busy) return;
		this.#forget();
		const request = await this.#request(view);
		if (!request) return;
		this.busy = true;
		try {
			const file = await print(
				{ ...request, language, ...(anyway ? { anyway } : {}) },
				(path, body) => this.phone.post(path, body),
			);
			this.made = URL.createObjectURL(file);
			this.app.say(text.labels.ready);
			await this.updateComplete;
			this.querySelector<HTMLElement>(".foot a.go")?.focus();
		} catch (why) {
			this.askAnyway = why instanceof Refused && why.code === "letters";
			this.fault =
				why instanceof NetFault
					? text.labels.offline
					: text.labels.failed(why instanceof Refused ? problemWords(why) : (why as Error).message);
		} finally {
			this.busy = false;
		}
	}

	/** What to ask of the server, or undefined with what is wrong shown. */
	async #request(view: LabelsView): Promise<Omit<PrintRequest, "language"> | undefined> {
		const { what, paper, copies, blank } = this.form;
		const words = text.labels;
		if (what === "cards") return { what, paper, cards: cardsOf(view) ?? [] };
		const sheet = typedSheet(this.form, this.#preset(view));
		if (typeof sheet === "string") return this.#wrong(said(words.fields, sheet));
		if (what === "calibration") return { what, sheet };
		const start = typedNumber(this.form.start);
		const [offsetX, offsetY] = [typedNumber(this.form.offsetX), typedNumber(this.form.offsetY)];
		if (!Number.isInteger(start)) return this.#wrong(words.start);
		if (Number.isNaN(offsetX)) return this.#wrong(words.offsetX);
		if (Number.isNaN(offsetY)) return this.#wrong(words.offsetY);
		const current = await this.#labelled(view);
		if (!current) return undefined;
		const labels = labelsOf(this.form, current) ?? [];
		if (labels.length + blank === 0) {
			this.fault = words.nothing;
			return undefined;
		}
		return {
			what,
			sheet,
			labels,
			blank,
			copies,
			start: start - 1,
			offsetX: Math.round(offsetX * 1000),
			offsetY: Math.round(offsetY * 1000),
		};
	}

	#wrong(field: string): undefined {
		this.fault = text.labels.number(field);
		return undefined;
	}

	/** Trays that are in and have no label yet get one; the view after that. */
	async #labelled(view: LabelsView): Promise<LabelsView | undefined> {
		const keeper = this.app.me().role === "keeper";
		const bare = view.bins
			.flatMap((bin) => bin.trays)
			.filter((t) => keeper && !t.code && !this.form.out.includes(t.id));
		for (const tray of bare) {
			const answer = await this.app.record({ do: "claim", tray: tray.id, set: { code: "new" } });
			if (!answer.ok) {
				this.fault = faultWords(answer.fault, "g", 0);
				return undefined;
			}
		}
		return bare.length > 0 ? (await this.app.view("labels")).data : view;
	}
}

customElements.define("labels-screen", LabelsScreen);
