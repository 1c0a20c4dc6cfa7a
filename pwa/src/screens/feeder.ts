// The feeder's screen, made for a child: the drawing, how much, and three things
// to do. Any amount is taken; what was more than advised, Today tells the
// keepers. Food to ask about waits as a bowl, where they see it.

import { html, nothing, type TemplateResult } from "lit";
import { type Mass, massParts, weight } from "../format.ts";
import "../parts/fit.ts";
import type { Frame } from "../parts/fit.ts";
import { fold } from "../parts/fold.ts";
import { header } from "../parts/header.ts";
import { numeral } from "../parts/numeral.ts";
import { Screen } from "../parts/screen.ts";
import { sign, vessel } from "../parts/signs.ts";
import { miniStack } from "../parts/stack.ts";
import { type Who, whoChooser, whoSays } from "../parts/who.ts";
import { text } from "../strings.ts";
import type { BinView, Bowl, Intent, TodayView } from "../types.gen.ts";
import { bowlWords, said, spanWords, spotWords, vesselWords } from "../words.ts";

/** How much, said by a child: less than drawn, as drawn, more. */
export type Much = "less" | "about" | "more";

// What stands for the three where nothing is advised, g: a handful, a mug, a
// large bowl. From memory.
const PLAIN: Record<Much, number> = { less: 50, about: 150, more: 300 };

export function muchGrams(much: Much, ration: number): number {
	if (ration === 0) return PLAIN[much];
	const tens = (g: number): number => Math.max(10, Math.round(g / 10) * 10);
	return much === "about" ? ration : tens(much === "less" ? ration / 2 : ration * 2);
}

export interface Told {
	bin: BinView;
	much: Much;
	bowl: Bowl | undefined; // the waiting bowl it comes from
	who: Who;
}

const some = (grams: number) => [{ scrap: "kitchen-mixed", g: grams }];

const inBowl = (bowl: Bowl) =>
	bowl.items.map((i) => ({
		scrap: i.scrap,
		g: i.grams,
		...(i.class ? { class: i.class } : {}),
		...(i.scrap === "other" ? { name: i.name } : {}),
		...(i.cut ? { cut: true } : {}),
		...(i.frozen ? { frozen: true } : {}),
	}));

/** Fed: never refused, however much it is. */
export function fedIntent({ bin, much, bowl, who }: Told): Intent {
	const ration = bin.ration.hold ? 0 : bin.ration.grams;
	const spot = bin.ration.spot ? { spot: bin.ration.spot } : {};
	const grams = muchGrams(much, ration);
	const by = { inBin: true, ...whoSays(who) };
	if (bowl) {
		const share = { to: "tray", tray: bin.tray, ...spot, grams: Math.min(grams, bowl.grams) };
		return { do: "place", bowl: bowl.id, items: inBowl(bowl), shares: [share], ...by };
	}
	const advised = much === "about" && ration > 0;
	return {
		do: "feed",
		bin: bin.id,
		tray: bin.tray,
		...spot,
		items: some(grams),
		how: advised ? "as-advised" : "unweighed",
		...by,
	};
}

/** Into the freezer: the bowl, or some food that nobody weighed. */
export function freezeIntent({ bin, much, bowl, who }: Told): Intent {
	if (bowl)
		return {
			do: "place",
			bowl: bowl.id,
			items: inBowl(bowl),
			shares: [{ to: "freezer", grams: bowl.grams }],
			...whoSays(who),
		};
	const ration = bin.ration.hold ? 0 : bin.ration.grams;
	return { do: "freeze", items: some(muchGrams(much, ration)), how: "unweighed" };
}

/** Food to ask a grown-up about waits as a bowl with the child's name. */
export function askIntent(who: Who, name: string): Intent {
	return { do: "bowl", items: some(0), how: "unweighed", set: { name }, ...whoSays(who) };
}

export class FeederScreen extends Screen<"today"> {
	static override properties = {
		...Screen.properties,
		tray: { type: String },
		much: { state: true },
		bowl: { state: true },
		who: { state: true },
	};
	declare tray: string; // the tray whose label was read, "" on Today
	declare much: Much;
	declare bowl: string; // the waiting bowl the food comes from, "" for none
	declare who: Who;
	protected override readonly screen = "today";

	constructor() {
		super();
		this.tray = this.bowl = "";
		this.much = "about";
		this.who = { member: "", guest: "" };
	}

	protected override opened(): void {
		this.who = { member: this.app.me().member, guest: "" };
	}

	override render() {
		const view = this.shown?.data;
		if (!view) return this.waiting(text.app.tray);
		const here = this.tray
			? view.bins.find((b) => b.stack.some((t) => t.id === this.tray))
			: view.bins.length === 1
				? view.bins[0]
				: undefined;
		return here ? this.#bin(here, view) : this.#which(view);
	}

	#drawing(bin: BinView, view: TodayView): TemplateResult {
		const r = bin.ration;
		const tiers = bin.stack.map((t) =>
			text.today.tierSays(
				t.name,
				said(text.stages, t.stage),
				spanWords(t.worms, view.mass as Mass),
			),
		);
		return html`<fit-frame .draw=${(frame: Frame) =>
			miniStack(bin.stack, {
				bin: bin.id,
				width: frame.width,
				guess: r.sure === "guess",
				meal: r.hold || this.shown?.from !== null ? undefined : { grams: r.grams, spot: r.spot },
				today: view.day,
				label: text.today.stackLabel(bin.name, tiers.join("; ")),
			})}></fit-frame>`;
	}

	#which(view: TodayView): TemplateResult {
		return html`<main class="page feeder">${header({ title: text.feeder.which, age: this.age() })}
			${view.bins.length === 0 ? html`<p>${text.today.noBins}</p>` : nothing}
			<ul class="feederbins">${view.bins.map((bin) => {
				const tier = bin.stack.find((t) => t.id === bin.tray);
				return html`<li><a class="plain" href="/t/${encodeURIComponent(tier?.code || bin.tray)}">${this.#drawing(bin, view)}<b>${bin.name}</b></a></li>`;
			})}</ul></main>`;
	}

	#bin(bin: BinView, view: TodayView): TemplateResult {
		const r = bin.ration;
		const mass = view.mass as Mass;
		const into = bin.stack.find((t) => t.id === bin.tray)?.name ?? "";
		const some = r.hold || r.grams === 0 ? 0 : r.grams;
		const held = vesselWords(r);
		const spot = spotWords(r.spot);
		const bowl = view.bowls.find((b) => b.id === this.bowl);
		const told: Told = { bin, much: this.much, bowl, who: this.who };
		const busy = this.saving.state === "saving";
		const amount = weight(muchGrams(this.much, some), mass);
		return html`<main class="page feeder">
			${header({ title: bin.name, sub: text.feeder.into(into), age: this.age(), back: this.tray ? "/" : "" })}
			<div class="feederdrawing">${this.#drawing(bin, view)}</div>
			${
				some > 0
					? html`<div class="bigrow">${numeral(massParts(some, mass), { size: "row", sure: r.sure, old: this.shown?.from !== null })}${held ? vessel(Math.min(4, r.vessels ?? 4)) : nothing}</div>
				<p class="lead">${spot ? text.feeder.canHave(held || weight(some, mass), spot) : text.feeder.canHavePlain(held || weight(some, mass))}</p>`
					: html`<p class="lead"><b>${text.feeder.notToday}</b> ${text.feeder.notTodayWhy}</p>`
			}
			<div class="picks even" role="group" aria-label=${text.feeder.howMuch}>${(
				["less", "about", "more"] as const
			).map(
				(m) =>
					html`<button type="button" aria-pressed=${m === this.much ? "true" : "false"} class="pickword ${m === this.much ? "on" : ""}" @click=${() => {
						this.much = m;
					}}>${some > 0 ? text.feeder.much[m] : text.feeder.muchPlain[m]}</button>`,
			)}</div>
			<div class="whofed">${view.bowls.length > 0 ? this.#from(view) : nothing}${whoChooser(
				text.parts.fedBy,
				this.who,
				view.members,
				(who) => {
					this.who = who;
				},
			)}</div>
			<div class="foot">${this.savingRow(mass, (intent) => void this.save(intent, this.saving.words))}
				<div class="threeways">
				<button type="button" class="go ink" ?disabled=${busy || !bin.tray} @click=${() => void this.#do(fedIntent(told), text.tray.fedSaid(amount, into))}>${sign("all")}${text.feeder.fed}</button>
				<button type="button" class="plain" ?disabled=${busy} @click=${() => void this.#do(freezeIntent(told), text.feeder.frozen)}>${sign("freeze")}${text.feeder.freeze}</button>
				<button type="button" class="plain" ?disabled=${busy} @click=${() => void this.#ask(bowl, view)}>${sign("missing")}${text.feeder.ask}</button>
				</div></div>
		</main>`;
	}

	/** Folded, so that how much is the one row of choices. */
	#from(view: TodayView): TemplateResult {
		const words = (b: Bowl): string => bowlWords(b, view.mass as Mass, view.day);
		const from = view.bowls.find((b) => b.id === this.bowl);
		const pick = (id: string, says: string): TemplateResult =>
			html`<button type="button" aria-pressed=${id === this.bowl ? "true" : "false"} class="pickword ${id === this.bowl ? "on" : ""}" @click=${(
				e: Event,
			) => {
				this.bowl = id;
				fold(e);
			}}>${says}</button>`;
		return html`<details class="who"><summary><span>${text.feeder.from} <b>${from ? words(from) : text.feeder.noBowl}</b></span><span class="change">${text.parts.change}</span></summary>
			<div class="picks" role="group" aria-label=${text.feeder.from}>
			${pick("", text.feeder.noBowl)}
			${view.bowls.map((b) => pick(b.id, words(b)))}</div></details>`;
	}

	async #do(intent: Intent, words: string): Promise<void> {
		const answer = await this.save(intent, words);
		if (!answer.ok) return;
		this.much = "about";
		this.bowl = "";
	}

	/** A bowl that waits is seen by the grown-ups already. */
	async #ask(bowl: Bowl | undefined, view: TodayView): Promise<void> {
		if (bowl) {
			this.app.say(text.feeder.bowlWaits);
			return;
		}
		const me = view.members.find((m) => m.id === this.who.member)?.name ?? text.parts.someone;
		await this.#do(askIntent(this.who, text.feeder.asks(me)), text.feeder.asked);
	}
}
customElements.define("feeder-screen", FeederScreen);

declare global {
	interface HTMLElementTagNameMap {
		"feeder-screen": FeederScreen;
	}
}
