// Look: the weekly check in twenty seconds. Everything can be skipped; what is
// answered teaches the model.

import { html, nothing, type TemplateResult } from "lit";
import { dayName, type Mass, type Temp, tempParts } from "../format.ts";
import { header, section } from "../parts/header.ts";
import { numeral } from "../parts/numeral.ts";
import { Screen } from "../parts/screen.ts";
import { leftovers, squeeze } from "../parts/signs.ts";
import { type Who, whoChooser, whoSays } from "../parts/who.ts";
import { text } from "../strings.ts";
import type { Intent, Leftovers, TierView, TodayView } from "../types.gen.ts";
import { said } from "../words.ts";

/** What was seen so far; "" and null are skipped. */
export interface Seen {
	leftovers: string;
	squeeze: string;
	temp: number | null; // 0.1 °C
	smell: string;
}

const nothingSeen: Seen = { leftovers: "", squeeze: "", temp: null, smell: "" };
// Where the stepper begins when the bed was never read: a cellar's warmth.
const USUAL_BED = 160;
const COLDEST = -50;
const WARMEST = 500;

/** The next whole degree of the household's unit, up or down, in 0.1 °C. */
export function warmer(deci: number, by: 1 | -1, temp: Temp): number {
	const next =
		temp === "C"
			? (Math.round(deci / 10) + by) * 10
			: Math.round(((Math.round((deci * 9) / 50 + 32) + by - 32) * 50) / 9);
	return Math.min(WARMEST, Math.max(COLDEST, next));
}

export function lookIntent(seen: Seen, tray: string, who: Who): Intent {
	return {
		do: "look",
		tray,
		...(seen.leftovers ? { leftovers: seen.leftovers as Leftovers } : {}),
		...(seen.squeeze ? { squeeze: seen.squeeze } : {}),
		...(seen.temp === null ? {} : { temp: seen.temp, tempOf: "bed" }),
		...(seen.smell ? { smell: seen.smell } : {}),
		...whoSays(who),
	};
}

export class LookScreen extends Screen<"today"> {
	static override properties = {
		...Screen.properties,
		seen: { state: true },
		who: { state: true },
	};
	declare seen: Seen;
	declare who: Who;
	protected override readonly screen = "today";

	constructor() {
		super();
		this.seen = nothingSeen;
		this.who = { member: "", guest: "" };
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
			this.seen = nothingSeen;
			this.calm();
			void this.#restore();
		}
	}

	async #restore(): Promise<void> {
		const kept = (await this.app.draft(this.#key)) as Seen | undefined;
		// What was tapped before the draft was found counts more.
		if (this.seen === nothingSeen && kept && typeof kept.leftovers === "string")
			this.seen = { ...nothingSeen, ...kept };
	}

	#see(part: Partial<Seen>): void {
		this.seen = { ...this.seen, ...part };
		this.app.keepDraft(this.#key, this.seen);
	}

	override render() {
		const view = this.shown?.data;
		if (!view) return this.waiting(text.look.title(""));
		const wanted = this.args.query.get("tray") ?? "";
		const tier = view.bins
			.flatMap((b) => b.stack)
			.find((t) => t.id === wanted || (wanted !== "" && t.code === wanted));
		return tier ? this.#form(tier, view) : this.#choose(view);
	}

	#choose(view: TodayView): TemplateResult {
		return html`<main class="page">${header({ title: text.look.title(""), sub: text.look.choose })}
			<ul class="rows">${view.bins.flatMap((bin) =>
				bin.stack.map(
					(t) =>
						html`<li><span class="grow"><b>${t.name}</b><span class="second line">${bin.name}, ${said(text.stages, t.stage)}</span></span><a class="plain" href="/look?tray=${encodeURIComponent(t.id)}">${text.tray.look}</a></li>`,
				),
			)}</ul></main>`;
	}

	#form(tier: TierView, view: TodayView): TemplateResult {
		const s = this.seen;
		const meal = tier.scraps
			.map((p) => p.day)
			.sort()
			.at(-1);
		const empty = !s.leftovers && !s.squeeze && s.temp === null && !s.smell;
		const back = `/t/${encodeURIComponent(tier.code || tier.id)}`;
		return html`<main class="page look">
			${header({ title: text.look.title(tier.name), sub: text.look.sub, back })}
			${this.#pick(meal ? text.look.left(dayName(meal, view.day)) : text.look.leftPlain, text.leftovers, s.leftovers, leftovers, (v) => this.#see({ leftovers: v }))}
			${this.#pick(text.look.squeeze, text.squeezes, s.squeeze, squeeze, (v) => this.#see({ squeeze: v }))}
			${section(text.look.temp)}${this.#temp(view.temp as Temp)}
			${section(text.look.smell)}
			<div class="picks even" role="group" aria-label=${text.look.smell}>${Object.entries(
				text.smells,
			).map(
				([code, word]) =>
					html`<button type="button" aria-pressed=${s.smell === code ? "true" : "false"} class="pickword ${s.smell === code ? "on" : ""}" @click=${() => this.#see({ smell: s.smell === code ? "" : code })}>${word}</button>`,
			)}</div>
			<div class="whofed">${whoChooser(text.parts.lookedBy, this.who, view.members, (who) => {
				this.who = who;
			})}</div>
			<p class="second gloves">${text.look.gloves}</p>
			<div class="foot">${this.savingRow(view.mass as Mass)}<div class="act">
				<button type="button" class="go ink" ?disabled=${empty || this.saving.state === "saving"} @click=${() => void this.#save(tier)}>${text.look.save}</button></div></div>
		</main>`;
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
		const deci = this.seen.temp;
		const turn = (by: 1 | -1): void =>
			this.#see({ temp: deci === null ? USUAL_BED : warmer(deci, by, temp) });
		const written = deci === null ? undefined : tempParts(deci, temp);
		return html`<div class="stepper"><button type="button" aria-label=${text.look.colder} @click=${() => turn(-1)}>−</button>
			<span role="status">${written ? numeral({ value: written.value, unit: written.unit }, { size: "keyed" }) : html`<span class="second">${text.look.tempNone}</span>`}</span>
			<button type="button" aria-label=${text.look.warmer} @click=${() => turn(1)}>+</button></div>
			${deci === null ? nothing : html`<button type="button" class="textlink" @click=${() => this.#see({ temp: null })}>${text.look.tempClear}</button>`}`;
	}

	async #save(tier: TierView): Promise<void> {
		const answer = await this.save(
			lookIntent(this.seen, tier.id, this.who),
			text.look.saved(tier.name),
		);
		if (!answer.ok) return;
		this.seen = nothingSeen;
		await this.app.dropDraft(this.#key);
	}
}
customElements.define("look-screen", LookScreen);

declare global {
	interface HTMLElementTagNameMap {
		"look-screen": LookScreen;
	}
}
