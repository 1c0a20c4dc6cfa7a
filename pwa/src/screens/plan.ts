// Plan: what a kitchen and a room ask of a bin that does not exist yet, and what
// comes of it.

import { html, nothing, type TemplateResult } from "lit";
import type { ViewArgs } from "../app-api.ts";
import { type Mass, rough, type Temp, tempParts, weight } from "../format.ts";
import { header, section } from "../parts/header.ts";
import { Screen } from "../parts/screen.ts";
import { text } from "../strings.ts";
import type { Made, PlanAsk, PlanView } from "../types.gen.ts";
import { field, picks, toFault } from "./bin-fields.ts";
import { type Fault, gramsTyped, massTyped, roomTyped, sizeOf, TRAY_HIGH } from "./bin-form.ts";
import { roomFields } from "./bin-new.ts";
import { degrees } from "./look-seen.ts";
import { planRows } from "./plan-rows.ts";

const DRAFT = "plan";
const MOST_PEOPLE = 60;

interface Form {
	by: "people" | "week";
	people: string;
	week: string;
	coolest: string;
	warmest: string;
	species: string; // "best" for the one that suits
	asked?: PlanAsk; // what the plan below was made of
}

type Bad = Fault | "nothing" | "figure" | "";

export class PlanScreen extends Screen<"plan"> {
	static override properties = {
		...Screen.properties,
		form: { state: true },
		bad: { state: true },
	};
	declare form: Form | undefined;
	declare bad: Bad;
	protected override readonly screen = "plan";

	constructor() {
		super();
		this.bad = "";
	}

	protected override viewArgs(): ViewArgs {
		const asked = this.form?.asked;
		return asked ? { arg: JSON.stringify(asked) } : {};
	}

	/** The form begins with what was typed before, or with what the log knows. */
	protected override loaded(view: PlanView): void {
		if (!this.form) void this.#begin(view);
	}

	async #begin(view: PlanView): Promise<void> {
		const kept = await this.app.draft(DRAFT).catch(() => undefined);
		const { known } = view;
		const temp = view.temp as Temp;
		const week = plainWeek(known.week ?? 0, view.mass as Mass);
		const first: Form = {
			by: known.week ? "week" : "people",
			people: "2",
			week: week ? massTyped(week, view.mass as Mass) : "",
			coolest: known.room ? degrees(known.coolest ?? 0, temp) : "",
			warmest: known.room ? degrees(known.warmest ?? 0, temp) : "",
			species: "best",
		};
		if (this.form) return;
		this.form = { ...first, ...(kept as Partial<Form> | undefined) };
		if (this.form.asked) void this.load();
	}

	#set(change: Partial<Form>): void {
		if (!this.form) return;
		this.form = { ...this.form, ...change };
		this.bad = "";
		this.app.keepDraft(DRAFT, this.form);
	}

	/** What the form asks, or what of it can't be read. */
	#ask(form: Form, view: PlanView): PlanAsk | Exclude<Bad, ""> {
		const ask: PlanAsk = {};
		if (form.by === "people") {
			const people = Number(form.people.trim() || "0");
			if (!Number.isInteger(people) || people < 0 || people > MOST_PEOPLE) return "figure";
			ask.people = people;
		} else {
			const week = form.week.trim() ? gramsTyped(form.week, view.mass as Mass) : 0;
			if (Number.isNaN(week)) return "figure";
			ask.week = week;
		}
		if (!ask.people && !ask.week) return "nothing";
		const room = roomTyped(form.coolest, form.warmest, view.temp as Temp);
		if (typeof room === "string") return room;
		if (room) Object.assign(ask, { room: true, ...room });
		if (form.species !== "best") ask.species = form.species;
		return ask;
	}

	#make = async (event: Event): Promise<void> => {
		event.preventDefault();
		const view = this.shown?.data;
		if (!this.form || !view) return;
		const ask = this.#ask(this.form, view);
		if (typeof ask === "string") {
			this.bad = ask;
			await this.updateComplete;
			toFault(this);
			return;
		}
		this.#set({ asked: ask });
		await this.load();
		await this.updateComplete;
		const made = this.querySelector<HTMLElement>(".made");
		made?.focus({ preventScroll: true });
		made?.scrollIntoView();
	};

	override render() {
		const view = this.shown?.data;
		const words = text.plan;
		if (!view || !this.form) return this.waiting(words.title);
		const { form } = this;
		const made = form.asked ? view.made : undefined;
		return html`<main class="page binpage">
			${header({ title: words.title, back: view.known.room ? "/more" : "/" })}
			<p>${words.intro}</p>
			<form novalidate @submit=${this.#make}>
				${section(words.kitchen)}${this.#kitchen(form, view)}
				${section(words.room)}${roomFields(form, tempParts(0, view.temp as Temp).unit, this.bad as Fault | "", (change) => this.#set(change))}
				<details class="why"><summary>${words.species}</summary>${picks(
					words.species,
					{ best: words.best, ...this.#kinds() },
					form.species,
					(species) => this.#set({ species }),
					{ best: words.bestSay, ...text.bins.speciesSay },
				)}</details>
				<div class="act makeplan"><button type="submit" class=${made ? "plain wide" : "go ink"}>${words.make}</button></div>
			</form>
			${form.asked && view.why === "too-much" ? html`<p class="fault" role="alert">${words.bad["too-much"](weight(view.mostG, view.mass as Mass))}</p>` : nothing}
			${made ? this.#made(made, view) : nothing}
		</main>`;
	}

	#kinds(): Record<string, string> {
		return text.bins.speciesNames;
	}

	#kitchen(form: Form, view: PlanView): TemplateResult {
		const words = text.plan;
		const mass = view.mass as Mass;
		const bad = this.bad === "figure" || this.bad === "nothing";
		return html`${picks(words.kitchen, words.by, form.by, (by) => this.#set({ by: by as Form["by"] }))}
			${
				form.by === "people"
					? field({
							name: "people",
							label: words.people,
							value: form.people,
							figure: true,
							bad,
							set: (people) => this.#set({ people }),
						})
					: html`${field({ name: "week", label: words.week(mass), value: form.week, figure: true, bad, set: (week) => this.#set({ week }) })}
						<p class="second">${view.known.week ? words.known(weight(plainWeek(view.known.week, mass), mass)) : words.weekHint}</p>`
			}
			${this.bad === "figure" || this.bad === "nothing" ? html`<p id="bin-fault" class="fault" role="alert">${words.bad[this.bad]}</p>` : nothing}
`;
	}

	#made(made: Made, view: PlanView): TemplateResult {
		const keeper = this.app.me().role === "keeper";
		const plain = made.worms > 0;
		return html`<section class="made" tabindex="-1">${planRows(made, view)}</section>
			${keeper && plain ? html`<div class="foot"><div class="act"><button type="button" class="go ink" @click=${() => this.#setUp(made, view)}>${text.plan.setUp}</button></div></div>` : nothing}`;
	}

	/** The form for a new bin begins with the plan. */
	#setUp(made: Made, view: PlanView): void {
		const form = this.form;
		const mass = view.mass as Mass;
		const inside = { width: made.width, depth: made.depth, height: TRAY_HIGH };
		this.app.keepDraft("bin-new", {
			species: made.species,
			size: sizeOf(inside, mass),
			coolest: form?.coolest ?? "",
			warmest: form?.warmest ?? "",
		});
		this.app.go("/bin?new");
	}
}

/** A mean week of the log, as finely as anybody would say it. */
const plainWeek = (grams: number, mass: Mass): number =>
	rough(grams, { low: 0, high: grams }, mass);

customElements.define("plan-screen", PlanScreen);
