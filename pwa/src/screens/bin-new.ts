// A new bin, in one calm form: its name, its worms, its trays and their bedding.
// Whatever stands there already is our suggestion. Fires `made` with the bin and
// everything that was written.

import { html, nothing, type TemplateResult } from "lit";
import type { App, RecordFault } from "../app-api.ts";
import { list, type Mass, number, type Temp, tempParts, volume, weight } from "../format.ts";
import { section } from "../parts/header.ts";
import { Light } from "../parts/light.ts";
import { text } from "../strings.ts";
import type { BinSheet, Intent } from "../types.gen.ts";
import { faultWords } from "../words.ts";
import { amountFields } from "./bin-amount.ts";
import { faultAt, field, isJumping, jumping, picks, speciesPicks, toFault } from "./bin-fields.ts";
import {
	areaShown,
	type Fault,
	firstSetUp,
	freshBedding,
	massTyped,
	measures,
	type ReadySetUp,
	readySetUp,
	type SetUp,
	type Size,
	sidesOf,
	type Worms,
	wormsTyped,
} from "./bin-form.ts";

import { sketch } from "./bin-sketch.ts";

const DRAFT = "bin-new";

export interface MadeBin {
	bin: string;
	name: string;
	entities: string[]; // all that was written, the newest first
}

export class BinNew extends Light {
	static override properties = {
		app: { attribute: false },
		view: { attribute: false },
		form: { state: true },
		bad: { state: true },
		fault: { state: true },
		busy: { state: true },
	};
	declare app: App;
	declare view: BinSheet;
	declare form: SetUp | undefined;
	declare bad: Fault | "";
	declare fault: RecordFault | undefined;
	declare busy: boolean;

	constructor() {
		super();
		this.bad = "";
		this.busy = false;
	}

	override connectedCallback(): void {
		super.connectedCallback();
		void this.#begin();
	}

	/** The form is shown only once its draft was looked for, or a letter typed
	 * before that would be lost. */
	async #begin(): Promise<void> {
		const kept = (await this.app.draft(DRAFT).catch(() => undefined)) as Partial<SetUp> | undefined;
		const first = firstSetUp(this.view, text.bins.trayNth("1"));
		this.form = { ...first, ...kept };
	}

	#set(change: Partial<SetUp>): void {
		if (!this.form) return;
		this.form = { ...this.form, ...change };
		this.bad = "";
		this.app.keepDraft(DRAFT, this.form);
	}

	override render() {
		const { form, view } = this;
		const words = text.bins;
		if (!form) return html`<p class="second" role="status">${text.parts.loading}</p>`;
		const name = field({
			name: "name",
			label: words.name,
			value: form.name,
			bad: this.bad === "name",
			set: (value) => this.#set({ name: value }),
		});
		return html`<form novalidate @submit=${this.#save}>
			${name}${faultAt(this.bad, "name")}<p class="second">${words.nameHint}</p>
			${section(words.species)}${speciesPicks(form.species, (species) => this.#set({ species }))}${faultAt(this.bad, "species")}
			${isJumping(form.species) ? jumping() : this.#rest(form, view)}
		</form>`;
	}

	#rest(form: SetUp, view: BinSheet): TemplateResult {
		const words = text.bins;
		return html`${section(words.trays)}${this.#trays(form, view)}
			${section(words.bedding)}${this.#bedding(form, view)}
			${section(words.worms)}${this.#worms(form, view)}
			${section(words.room)}${this.#room(form, view)}
			${field({
				name: "started",
				label: words.started,
				type: "date",
				latest: view.day,
				value: form.started,
				bad: this.bad === "day",
				set: (started) => this.#set({ started }),
			})}${form.wormsIn ? nothing : faultAt(this.bad, "day")}
			<div class="foot">
				${this.fault ? html`<div class="saverow fault" role="alert"><p>${faultWords(this.fault, view.mass as Mass, 0)}</p></div>` : nothing}
				<div class="act"><button type="submit" class="go ink" ?disabled=${this.busy}>${words.set}</button></div>
			</div>`;
	}

	#trays(form: SetUp, view: BinSheet): TemplateResult {
		const words = text.bins;
		const rename = (at: number, name: string): void =>
			this.#set({ trays: form.trays.map((tray, i) => (i === at ? name : tray)) });
		return html`${form.trays.map((tray, i) =>
			field({
				name: `tray${i}`,
				label: i === 0 ? words.trayName : words.upper,
				value: tray,
				bad: this.bad === "tray",
				set: (name) => rename(i, name),
			}),
		)}${faultAt(this.bad, "tray")}
			<div class="choices">
				<button type="button" class="plain" @click=${() => this.#set({ trays: [...form.trays, words.trayNth(String(form.trays.length + 1))] })}>${words.moreTrays}</button>
				${form.trays.length > 1 ? html`<button type="button" class="plain" @click=${() => this.#set({ trays: form.trays.slice(0, -1) })}>${words.fewerTrays}</button>` : nothing}
			</div>
			${sizeFields(form.size, view.mass as Mass, this.bad, (size) => this.#set({ size }))}
			${this.#sketch(form, view)}`;
	}

	/** The bin as it is described so far. */
	#sketch(form: SetUp, view: BinSheet): TemplateResult | typeof nothing {
		const inside = sidesOf(form.size, view.mass as Mass);
		if (typeof inside === "string") return nothing;
		const worms = form.wormsIn ? wormsTyped(form.worms, form.species, view) : "amount";
		return sketch({
			names: form.trays,
			width: inside.width,
			height: inside.height,
			bedding: form.beddings.length > 0 ? view.fresh.depthMM : 0,
			worms: typeof worms === "string" ? 0 : worms.mass,
			today: view.day,
			label: text.bins.sketch(list(form.trays), measures(inside, view.mass as Mass)),
		});
	}

	#bedding(form: SetUp, view: BinSheet): TemplateResult {
		const words = text.bins;
		const mass = view.mass as Mass;
		const inside = sidesOf(form.size, mass);
		const ours = typeof inside === "string" ? undefined : freshBedding(inside, view.fresh);
		const turn = (kind: string): void =>
			this.#set({
				beddings:
					kind === "none"
						? []
						: form.beddings.includes(kind)
							? form.beddings.filter((other) => other !== kind)
							: [...form.beddings, kind],
			});
		const kinds = { ...words.beddings, none: words.noBedding };
		return html`${picks(words.bedding, kinds, form.beddings.length > 0 ? form.beddings : ["none"], turn)}
			${
				form.beddings.length === 0
					? nothing
					: html`${field({
							name: "bedding",
							label: words.beddingDry(mass),
							value: form.bedding,
							figure: true,
							ours: ours ? massTyped(ours.grams, mass) : "",
							bad: this.bad === "bedding",
							set: (bedding) => this.#set({ bedding }),
						})}${faultAt(this.bad, "bedding")}
						${ours ? html`<p class="second">${words.beddingOurs(weight(ours.grams, mass), number(view.fresh.depthMM), volume(ours.water))}</p>` : nothing}`
			}`;
	}

	#worms(form: SetUp, view: BinSheet): TemplateResult {
		const words = text.bins;
		const set = (change: Partial<Worms>): void =>
			this.#set({ worms: { ...form.worms, ...change } });
		return html`${picks(words.worms, words.wormsWhen, form.wormsIn ? "in" : "later", (when) => this.#set({ wormsIn: when === "in" }))}
			${
				form.wormsIn
					? html`${amountFields(form.worms, form.species, view, this.bad, set)}
						${field({ name: "wormsDay", label: words.wormsDay, type: "date", latest: view.day, value: form.worms.day, bad: this.bad === "day", set: (day) => set({ day }) })}
						${faultAt(this.bad, "day")}`
					: html`<p class="second">${words.wormsLater}</p>`
			}`;
	}

	#room(form: SetUp, view: BinSheet): TemplateResult {
		const unit = tempParts(0, view.temp as Temp).unit;
		return roomFields(form, unit, this.bad, (change) => this.#set(change));
	}

	#save = async (event: Event): Promise<void> => {
		event.preventDefault();
		if (!this.form || this.busy) return;
		const ready = readySetUp(this.form, this.view);
		if (typeof ready === "string") {
			this.bad = ready;
			await this.updateComplete;
			toFault(this);
			return;
		}
		this.busy = true;
		this.fault = undefined;
		const made = await this.#write(ready);
		this.busy = false;
		if (!made) return;
		await this.app.dropDraft(DRAFT);
		this.form = undefined;
		this.dispatchEvent(new CustomEvent<MadeBin>("made", { detail: made }));
	};

	/** Writes the bin and what stands in it, one after the other. When one of them
	 * fails, those before it are taken back. */
	async #write(ready: ReadySetUp): Promise<MadeBin | undefined> {
		const entities: string[] = [];
		const write = async (intent: Intent): Promise<string> => {
			const answer = await this.app.record(intent);
			if (!answer.ok) throw answer.fault;
			entities.unshift(answer.entity);
			return answer.entity;
		};
		try {
			const day = ready.started;
			const bin = await write({ do: "bin", set: ready.bin });
			const trays: string[] = [];
			for (const set of ready.trays) trays.push(await write({ do: "tray", bin, set }));
			await write({ do: "stack", bin, set: { trays } });
			const lowest = trays[0] ?? "";
			if (ready.bedding.length > 0)
				await write({ do: "batch", tray: lowest, items: ready.bedding, day });
			const { worms } = ready;
			if (worms) {
				const set = { move: "added", mass: worms.mass, wide: worms.wide };
				await write({ do: "worms", bin, tray: lowest, day: worms.day, set });
			}
			return { bin, name: String(ready.bin.name), entities };
		} catch (why) {
			for (const entity of entities) await this.app.record({ do: "undo", entity });
			this.fault = why as RecordFault;
			return undefined;
		}
	}
}

/** The inside of a tray, by its sides or by its surface. */
export function sizeFields(
	size: Size,
	mass: Mass,
	bad: Fault | "",
	set: (size: Size) => void,
): TemplateResult {
	const words = text.bins;
	const inside = sidesOf(size, mass);
	const unit = words.areaUnits[mass] ?? "";
	const one = (name: "length" | "width" | "area" | "height", label: string, fault: Fault) =>
		field({
			name,
			label,
			value: size[name],
			figure: true,
			bad: bad === fault,
			set: (value) => set({ ...size, [name]: value }),
		});
	return html`<fieldset class="inside"><legend>${words.size(words.lengthUnits[mass] ?? "")}</legend>
		<div class="sides">${
			size.byArea
				? html`${one("area", words.area(unit), "area")}${one("height", words.height, "area")}`
				: html`${one("length", words.length, "size")}${one("width", words.width, "size")}${one("height", words.height, "size")}`
		}</div>
		${faultAt(bad, "size", "area")}
		${size.byArea ? html`<p class="second">${words.areaHint}</p>` : typeof inside === "string" ? nothing : html`<p class="second">${words.surface(words.areaOf(number(areaShown(inside.width * inside.depth, mass)), unit))}</p>`}
		<button type="button" class="textlink" @click=${() => set({ ...size, byArea: !size.byArea })}>${size.byArea ? words.bySides : words.byArea}</button>
	</fieldset>`;
}

/** The room's two months. */
export function roomFields(
	form: { coolest: string; warmest: string },
	unit: string,
	bad: Fault | "",
	set: (change: { coolest?: string; warmest?: string }) => void,
): TemplateResult {
	const words = text.bins;
	const wrong = bad === "room" || bad === "roomTurned";
	return html`<div class="sides">
			${field({ name: "coolest", label: words.coolest(unit), value: form.coolest, figure: true, bad: wrong, set: (coolest) => set({ coolest }) })}
			${field({ name: "warmest", label: words.warmest(unit), value: form.warmest, figure: true, bad: wrong, set: (warmest) => set({ warmest }) })}
		</div>${faultAt(bad, "room", "roomTurned")}
		<p class="second">${words.roomHint}</p>`;
}

customElements.define("bin-new", BinNew);
