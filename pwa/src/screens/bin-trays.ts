// The trays of a bin, from the top down: what each is, what can be done with it,
// and one more on top.

import { html, nothing, type TemplateResult } from "lit";
import { type Mass, number, volume, weight } from "../format.ts";
import { Light } from "../parts/light.ts";
import { text } from "../strings.ts";
import type { BinSheet, Intent, SheetTray } from "../types.gen.ts";
import { said } from "../words.ts";
import type { Write } from "./bin.ts";
import { faultAt, field, picks, toFault } from "./bin-fields.ts";
import {
	beddingItems,
	type Fault,
	freshBedding,
	gramsTyped,
	massTyped,
	measures,
	type Size,
	sidesOf,
	sizeOf,
} from "./bin-form.ts";
import { sizeFields } from "./bin-new.ts";

interface Open {
	tray: string; // "" is a new one
	name: string;
	size: Size;
	beddings: string[];
	bedding: string;
	asksBedding: boolean; // its bedding is asked for
}

export class BinTrays extends Light {
	static override properties = {
		view: { attribute: false },
		write: { attribute: false },
		keeper: { type: Boolean },
		open: { state: true },
		bad: { state: true },
	};
	declare view: BinSheet;
	declare write: Write;
	declare keeper: boolean;
	declare open: Open | undefined;
	declare bad: Fault | "";

	constructor() {
		super();
		this.keeper = false;
		this.bad = "";
	}

	override render() {
		const words = text.bins;
		const { trays } = this.view;
		return html`${trays.length === 0 ? html`<p class="second">${words.noTrays}</p>` : nothing}
			${this.keeper ? this.#onTop() : nothing}
			<ul class="rows sheettrays">${trays.map((tray) => this.#row(tray))}</ul>`;
	}

	#show(tray: SheetTray | undefined, asksBedding = false): void {
		const { trays } = this.view;
		const mass = this.view.mass as Mass;
		this.bad = "";
		this.open = {
			tray: tray?.id ?? "",
			name: tray?.name ?? text.bins.trayNth(String(trays.length + 1)),
			size: sizeOf(tray ?? trays[0], mass),
			beddings: ["cardboard"],
			bedding: "",
			asksBedding,
		};
	}

	#close(): void {
		this.open = undefined;
		this.bad = "";
	}

	#onTop(): TemplateResult {
		const { open } = this;
		return open && open.tray === ""
			? this.#form(open, text.bins.add)
			: html`<div class="choices"><button type="button" class="plain" @click=${() => this.#show(undefined)}>${text.bins.onTop}</button></div>`;
	}

	#row(tray: SheetTray): TemplateResult {
		const words = text.bins;
		const mass = this.view.mass as Mass;
		const { open } = this;
		const stage = said(text.stages, tray.stage);
		const size = measures(tray, mass);
		const opened = open?.tray === tray.id ? open : undefined;
		return html`<li><a class="rowlink" href="/t/${encodeURIComponent(tray.code || tray.id)}"><b>${tray.name}</b>
				<span class="second">${tray.stageDay > 0 ? words.where(stage, number(tray.stageDay)) : stage}. ${size}</span></a>
			${
				this.keeper && !opened
					? html`<button type="button" class="plain" aria-label=${`${words.change}: ${tray.name}`} @click=${() => this.#show(tray)}>${words.change}</button>`
					: nothing
			}
			${opened ? (opened.asksBedding ? this.#bedForm(opened, tray) : this.#form(opened, words.save)) : nothing}</li>`;
	}

	/** What its stage lets one do, one tap each. */
	#stages(tray: SheetTray): TemplateResult {
		const words = text.bins;
		const tap = (label: string, run: () => void) =>
			html`<button type="button" class="plain" aria-label=${`${label}: ${tray.name}`} @click=${run}>${label}</button>`;
		const to = (stage: "resting" | "emptied", said: string) => (): void =>
			void this.#stage(tray, stage, said);
		if (tray.stage === "emptied") return tap(words.bed, () => this.#show(tray, true));
		if (!tray.batch) return html``; // only its feedings tell of what lies there
		if (tray.stage === "resting" || tray.stage === "ready")
			return html`<a class="plain" href="/harvest?tray=${encodeURIComponent(tray.id)}">${words.harvest}</a>${tap(words.wash, to("emptied", words.washed(tray.name)))}`;
		return tap(words.rest, to("resting", words.rested(tray.name)));
	}

	async #stage(tray: SheetTray, stage: string, said: string): Promise<void> {
		const batch = tray.batch ?? "";
		const back: Intent = { do: "edit", entity: batch, set: { [stage]: null } };
		const saved = await this.write({ do: "stage", entity: batch, set: { stage } }, said, back);
		if (saved.ok) this.#close();
	}

	#form(open: Open, act: string): TemplateResult {
		const words = text.bins;
		const set = (change: Partial<Open>): void => {
			this.bad = "";
			this.open = { ...open, ...change };
		};
		const submit = (e: SubmitEvent): void => {
			e.preventDefault();
			void this.#save(open);
		};
		const tray = this.view.trays.find((t) => t.id === open.tray);
		return html`<form class="rowedit" novalidate @submit=${submit}>
			${tray ? html`<div class="choices">${this.#stages(tray)}</div>` : nothing}
			${field({ name: "tray", label: words.trayName, value: open.name, bad: this.bad === "tray", set: (name) => set({ name }) })}${faultAt(this.bad, "tray")}
			${sizeFields(open.size, this.view.mass as Mass, this.bad, (size) => set({ size }))}
			<div class="act"><button type="button" class="plain" @click=${() => this.#close()}>${words.close}</button><button type="submit" class="go ink">${act}</button></div>
			${tray?.stage === "emptied" ? html`<button type="button" class="textlink" @click=${() => void this.#takeAway(tray)}>${words.away}</button>` : nothing}
		</form>`;
	}

	async #fault(bad: Fault): Promise<void> {
		this.bad = bad;
		await this.updateComplete;
		toFault(this);
	}

	async #save(open: Open): Promise<void> {
		const { view } = this;
		const name = open.name.trim();
		const others = view.trays.filter((t) => t.id !== open.tray);
		if (!name || others.some((t) => t.name === name)) return this.#fault("tray");
		const inside = sidesOf(open.size, view.mass as Mass);
		if (typeof inside === "string") return this.#fault(inside);
		const words = text.bins;
		const set = { name, ...inside };
		const tray = view.trays.find((t) => t.id === open.tray);
		const intent: Intent = tray
			? { do: "tray", entity: tray.id, set }
			: { do: "tray", bin: view.id ?? "", set };
		const before = tray && {
			name: tray.name,
			width: tray.width,
			depth: tray.depth,
			height: tray.height,
		};
		const saved = await (tray
			? this.write(intent, words.changed(name), { do: "edit", entity: tray.id, set: before ?? {} })
			: this.write(intent, words.added(name)));
		if (saved.ok) this.#close();
	}

	async #takeAway(tray: SheetTray): Promise<void> {
		const entity = tray.id;
		const saved = await this.write({ do: "undo", entity }, text.bins.gone(tray.name), {
			do: "redo",
			entity,
		});
		if (saved.ok) this.#close();
	}

	/** New bedding for a washed tray, as a plan would make it until somebody says otherwise. */
	#bedForm(open: Open, tray: SheetTray): TemplateResult {
		const words = text.bins;
		const mass = this.view.mass as Mass;
		const ours = freshBedding(tray, this.view.fresh);
		const set = (change: Partial<Open>): void => {
			this.bad = "";
			this.open = { ...open, ...change };
		};
		const turn = (kind: string): void =>
			set({
				beddings: open.beddings.includes(kind)
					? open.beddings.filter((other) => other !== kind)
					: [...open.beddings, kind],
			});
		const submit = (e: SubmitEvent): void => {
			e.preventDefault();
			void this.#bed(open, tray, ours.grams);
		};
		return html`<form class="rowedit" novalidate @submit=${submit}>
			${picks(words.bed, words.beddings, open.beddings, turn)}
			${field({ name: "bedding", label: words.beddingDry(mass), value: open.bedding, figure: true, ours: massTyped(ours.grams, mass), bad: this.bad === "bedding", set: (bedding) => set({ bedding }) })}${faultAt(this.bad, "bedding")}
			<p class="second">${words.beddingOurs(weight(ours.grams, mass), number(this.view.fresh.depthMM), volume(ours.water))}</p>
			<div class="act"><button type="button" class="plain" @click=${() => this.#close()}>${words.close}</button><button type="submit" class="go ink">${words.bed}</button></div>
		</form>`;
	}

	async #bed(open: Open, tray: SheetTray, ours: number): Promise<void> {
		const typed = open.bedding.trim();
		const grams = typed === "" ? ours : gramsTyped(typed, this.view.mass as Mass);
		if (!(grams > 0 && grams < 100_000) || open.beddings.length === 0)
			return this.#fault("bedding");
		const items = beddingItems(open.beddings, grams);
		const saved = await this.write(
			{ do: "batch", tray: tray.id, items },
			text.bins.bedded(tray.name),
		);
		if (saved.ok) this.#close();
	}
}

customElements.define("bin-trays", BinTrays);
