// A tray's page, what a scan opens: the ration and why, where in the tray, the
// last feedings, and one button that writes a feeding down.

import { html, nothing, type TemplateResult } from "lit";
import { type Mass, type Temp, weight } from "../format.ts";
import "../parts/amount-dial.ts";
import { header, section } from "../parts/header.ts";
import { Screen } from "../parts/screen.ts";
import { spotPlan } from "../parts/spots.ts";
import { stillPlease } from "../parts/still.ts";
import { tiers } from "../parts/tiers.ts";
import { type Who, whoChooser, whoName, whoSays } from "../parts/who.ts";
import { text } from "../strings.ts";
import type { Bowl, Intent, RationView, TaughtView, TrayView } from "../types.gen.ts";
import { spotWords } from "../words.ts";
import "./feeder.ts";
import { simple } from "./simple.ts";
import { taughtRows } from "./taught-rows.ts";
import { askKey, askRow } from "./tray-ask.ts";
import { bowlPick, chosenFirst } from "./tray-bowl.ts";
import { doubt } from "./tray-doubt.ts";
import { bowlDefault, type FromBowl, mealGrams, mealIntent } from "./tray-feed.ts";
import { holdPage, insteadAct } from "./tray-hold.ts";
import { feedRow, onwardRow } from "./tray-last.ts";
import { codeProblem } from "./tray-problem.ts";
import { promised, rationSays, rationWhy } from "./tray-ration.ts";
import { glanceWords, subWords } from "./tray-says.ts";

/** A meal that was just written: a place or a person tapped afterwards, with dry
 * hands, is told of it. */
interface Just {
	feeding: string;
	entities: string[];
	amount: string;
}

const TWICE_MS = 1200; // two taps in this time are one
const TYPED_MS = 900; // how long a name may rest before it counts as typed

export class TrayScreen extends Screen<"tray"> {
	static override properties = {
		...Screen.properties,
		dialled: { state: true },
		spot: { state: true },
		who: { state: true },
		choice: { state: true },
		anyway: { state: true },
		skipped: { state: true },
		bowl: { state: true },
		just: { state: true },
		helps: { state: true },
		taught: { state: true },
		resting: { state: true },
	};
	declare dialled: number | undefined; // g; the ration until the dial is moved
	declare spot: string | undefined; // the advice's place until another is tapped
	declare who: Who;
	declare choice: FromBowl | undefined;
	declare anyway: boolean; // fed against a hold: show the dial
	declare skipped: string; // the question that was skipped
	declare bowl: string | undefined; // the waiting bowl that was chosen
	declare just: Just | undefined; // the meal of this visit, still to be told more of
	declare helps: string | undefined; // what helps after a meal against advice
	declare taught: TaughtView | undefined;
	declare resting: boolean; // a meal was written this moment
	#guest = 0; // timer of a guest's name that is being typed
	protected override readonly screen = "tray";

	constructor() {
		super();
		this.who = { member: "", guest: "" };
		this.anyway = this.resting = false;
		this.skipped = "";
	}

	protected override opened(): void {
		this.who = { member: this.app.me().member, guest: "" };
	}

	protected override viewArgs() {
		return { arg: this.args.arg };
	}

	protected override willUpdate(changed: Map<string, unknown>): void {
		// Another label was opened while this page stood: begin anew.
		const before = changed.get("args") as TrayScreen["args"] | undefined;
		if (before && before.arg !== this.args.arg) {
			this.shown = undefined;
			this.dialled = this.spot = this.choice = this.bowl = undefined;
			this.just = this.helps = this.taught = undefined;
			this.anyway = false;
			this.calm();
			void this.load();
		}
	}

	protected override rationOf(): number {
		return this.shown?.data.ration?.grams ?? 0;
	}

	protected override loaded(view: TrayView): void {
		if (this.shown?.from === null) {
			const plain = simple(this.app.me(), view.members);
			this.app.keepGlance(this.args.arg, plain ? undefined : glanceWords(view, this.app.now()));
		}
		// A label that waits for its tray is rare: its page is a script of its own.
		if (view.found === "unclaimed" || view.found === "removed") void import("./labels-claim.ts");
		if (view.name) document.title = text.app.title(view.name);
		if (view.found === "tray" && this.shown?.from === null) void this.#learn(view.id ?? "");
	}

	/** What the last look changed comes after the ration, never before it. */
	async #learn(tray: string): Promise<void> {
		const shown = await this.app.view("taught", { arg: tray }).catch(() => undefined);
		if (this.shown?.data.id === tray) this.taught = shown?.data;
	}

	protected override undone(): void {
		this.just = this.helps = undefined;
	}

	override render() {
		const seen = this.shown?.data;
		if (!seen) return this.waiting(text.app.tray);
		if (seen.found === "unclaimed" || seen.found === "removed")
			return html`<labels-claim .app=${this.app} .args=${this.args} .view=${seen}></labels-claim>`;
		if (seen.found !== "tray")
			return codeProblem(seen, (code) => this.app.go(`/t/${encodeURIComponent(code)}`));
		if (simple(this.app.me(), seen.members))
			return html`<feeder-screen .app=${this.app} .args=${this.args} .tray=${seen.id ?? ""}></feeder-screen>`;
		const view = chosenFirst(seen, this.bowl);
		const r = view.ration;
		const hold = r?.hold && !this.anyway;
		// Nothing goes in today: what to do instead stands where the dial was.
		const shut = r !== undefined && (r.hold !== undefined || r.grams === 0) && !this.anyway;
		const low = this.#low();
		return html`<main class="page tray">
			${header({ title: view.name ?? "", sub: subWords(view), age: this.age(), back: "/" })}
			${r && (hold || r.grams === 0) ? holdPage(view, r, { place: (intent, words) => void this.save(intent, words), anyway: this.anyway ? undefined : () => this.#fedAnyway(), member: this.app.me().member }) : nothing}
			${this.helps ? html`<section>${section(text.tray.helpsNow)}<p>${this.helps}</p></section>` : nothing}
			${r && !hold ? rationSays(view, r, { old: this.shown?.from !== null, day: this.app.day() }) : nothing}
			${doubt(view, { remembered: this.age() !== "", heard: this.app.heard(), now: this.app.now() })}
			${shut ? nothing : this.#fromBowl(view)}
			${shut && !this.just ? nothing : this.#who(view)}
			${shut || !low ? nothing : this.#dial(view)}
			${this.#ask(view)}
			${shut && !this.just ? nothing : this.#where(view, r)}
			${r && !hold ? rationWhy(view, r) : nothing}
			${r?.promise && !hold ? promised(view, r, r.promise) : nothing}
			${this.taught?.known ? html`<section>${section(text.taught.titleLast)}${taughtRows(this.taught)}</section>` : nothing}
			${section(text.tray.stack, html`<a class="more" href="/bin?bin=${encodeURIComponent(view.bin ?? "")}">${view.binName}</a>`)}
			${tiers(view.stack, { bin: view.bin ?? "", open: view.id ?? "", guess: r?.sure === "guess", meal: r && !r.hold && this.shown?.from === null ? { grams: r.grams, spot: r.spot } : undefined, today: view.day, mass: view.mass as Mass, temp: view.temp as Temp, base: view.base })}
			${this.#last(view)}
			${onwardRow(view)}
			<div class="foot">${shut || low ? nothing : this.#dial(view)}${this.#foot(view, shut, low)}</div>
		</main>`;
	}

	#ask(view: TrayView): TemplateResult | typeof nothing {
		return askRow(view, this.skipped, {
			member: this.app.me().member,
			answer: (intent) => void this.#answer(view, intent),
			skip: () => {
				this.skipped = view.ask ? askKey(view.ask) : "";
			},
		});
	}

	/** Somebody did feed without a line in the log: the next page writes it. */
	async #answer(view: TrayView, intent: Intent): Promise<void> {
		const answer = await this.save(intent, text.look.saved(view.name ?? ""));
		if (answer.ok && intent.unlogged === "yes")
			this.app.go(`/catch-up?bin=${encodeURIComponent(view.bin ?? "")}`);
	}

	/** Low screen or large text: only the one action sticks, the dial stands in
	 * the page. */
	#low(): boolean {
		return matchMedia("(max-height: 36em)").matches;
	}

	#where(view: TrayView, r: RationView | undefined): TemplateResult | typeof nothing {
		if (view.spots.length === 0) return nothing;
		const next = spotWords(view.spots.find((s) => s.next)?.spot ?? r?.spot);
		const hint =
			this.just && this.spot
				? text.tray.spotWritten(spotWords(this.spot))
				: this.spot
					? text.tray.spotChosen(spotWords(this.spot))
					: next
						? text.tray.spotHint(next)
						: text.tray.spotHintPlain;
		return html`<section>${section(text.tray.where)}
			${spotPlan(view.spots, {
				tray: view.id ?? "",
				today: view.day,
				chosen: this.#spot(view),
				dropped: this.just ? (this.spot ?? "") : "",
				choose: (spot) => this.#went(spot, view),
			})}
			<p class="second" role="status">${hint}</p></section>`;
	}

	/** A place was tapped: for the meal to come, or for the one just written. */
	#went(spot: string, view: TrayView): void {
		this.spot = spot;
		if (this.just && spot)
			void this.#tell(
				{ spot },
				text.tray.fedAt(this.just.amount, view.name ?? "", spotWords(spot)),
			);
	}

	#fedWho(who: Who, view: TrayView): void {
		this.who = who;
		clearTimeout(this.#guest);
		if (!this.just) return;
		const says = { member: "", guest: "", ...whoSays(who) };
		const tell = (): void =>
			void this.#tell(
				says,
				text.tray.fedBy(this.just?.amount ?? "", view.name ?? "", whoName(who, view.members)),
			);
		if (who.member) tell();
		else this.#guest = window.setTimeout(tell, TYPED_MS);
	}

	/** Tells more of the meal just written. Undo still takes the meal itself back. */
	async #tell(set: Record<string, unknown>, words: string): Promise<void> {
		const just = this.just;
		if (!just) return;
		const answer = await this.save({ do: "edit", entity: just.feeding, set }, words);
		if (answer.ok) this.saving = { ...this.saving, entities: just.entities };
	}

	/** Where the meal goes: the tapped place, else the one the advice names. */
	#spot(view: TrayView): string {
		return this.spot ?? view.ration?.spot ?? view.spots.find((s) => s.next)?.spot ?? "";
	}

	#who(view: TrayView): TemplateResult {
		return html`<section class="whofed">${whoChooser(
			text.parts.fedBy,
			this.who,
			view.members,
			(who) => this.#fedWho(who, view),
		)}<a class="textlink" href="/weigh?tray=${encodeURIComponent(view.id ?? "")}">${text.tray.weighInstead}</a></section>`;
	}

	#last(view: TrayView): TemplateResult {
		return html`<section>${section(text.tray.last, html`<a class="more" href="/timeline">${text.timeline.title}</a>`)}
			${view.feeds.length === 0 ? html`<p class="second">${text.tray.noFeeds}</p>` : html`<ul class="rows feeds">${view.feeds.map((f) => feedRow(f, view))}</ul>`}</section>`;
	}

	#dial(view: TrayView): TemplateResult | typeof nothing {
		const bowl = view.bowls[0];
		if (bowl && this.#choice(view, bowl) === "all") return nothing;
		return html`<amount-dial .grams=${this.#dialled(view)} .mass=${view.mass as Mass} .label=${text.tray.amountLabel(view.name ?? "")}
			@turn=${(e: CustomEvent<number>) => {
				this.dialled = e.detail;
			}}></amount-dial>`;
	}

	#dialled(view: TrayView): number {
		return this.dialled ?? view.ration?.grams ?? 0;
	}

	#foot(view: TrayView, shut: boolean, low: boolean): TemplateResult {
		const mass = view.mass as Mass;
		const again = (intent: Intent): void => void this.save(intent, this.saving.words);
		const look = html`<a class="plain" href="/look?tray=${encodeURIComponent(view.id ?? "")}">${text.tray.look}</a>`;
		const row = this.savingRow(mass, again);
		if (shut)
			return html`${row}<div class="act">${look}${insteadAct(view, view.ration, (intent, words) => void this.save(intent, words), this.app.me().member)}</div>`;
		const bowl = view.bowls[0];
		const choice = bowl ? this.#choice(view, bowl) : "none";
		const dialled = this.#dialled(view);
		const grams = mealGrams(choice, bowl, dialled);
		const busy = this.saving.state === "saving" || this.resting;
		const index = !low && choice !== "all" ? "index" : "";
		return html`${row}<div class="act">${look}
				<button type="button" class="go ${index}" ?disabled=${busy || (grams === 0 && choice !== "all")} @click=${() => void this.#fed(view, bowl, choice, dialled)}>${grams > 0 ? text.tray.fed(weight(grams, mass)) : choice === "all" ? text.tray.fed(text.weigh.some) : text.weigh.fed}</button></div>`;
	}

	#choice(view: TrayView, bowl: Bowl): FromBowl {
		return this.choice ?? bowlDefault(bowl, view.id ?? "", view.ration?.grams ?? 0);
	}

	#fromBowl(view: TrayView): TemplateResult | typeof nothing {
		const bowl = view.bowls[0];
		return bowl
			? bowlPick(view, {
					choice: this.#choice(view, bowl),
					dialled: this.#dialled(view),
					choose: (choice) => {
						this.choice = choice;
					},
					take: (other) => {
						this.bowl = other.id;
						this.choice = undefined;
					},
				})
			: nothing;
	}

	async #fed(
		view: TrayView,
		bowl: Bowl | undefined,
		choice: FromBowl,
		dialled: number,
	): Promise<void> {
		const grams = mealGrams(choice, bowl, dialled);
		const amount = grams > 0 ? weight(grams, view.mass as Mass) : text.weigh.some;
		const intent = mealIntent({
			view,
			bowl,
			choice,
			dialled,
			spot: this.#spot(view),
			who: this.who,
			inBin: this.anyway,
		});
		const answer = await this.save(intent, text.tray.fedSaid(amount, view.name ?? ""));
		if (!answer.ok) return;
		if (this.anyway) this.#help(view);
		const entities = answer.entities ?? [answer.entity];
		const feeding = entities.find((e) => e.startsWith("feeding/"));
		this.just = feeding ? { feeding, entities, amount } : undefined;
		this.spot = intent.spot ?? intent.shares?.[0]?.spot;
		this.anyway = false;
		this.dialled = this.choice = this.bowl = undefined;
		this.#rest();
		await this.updateComplete;
		// Where it was written down is what may still be put right.
		const behavior = stillPlease() ? "instant" : "smooth";
		this.querySelector(".spots")?.scrollIntoView({ block: "nearest", behavior });
	}

	/** A thumb that taps twice feeds once. */
	#rest(): void {
		this.resting = true;
		setTimeout(() => {
			this.resting = false;
		}, TWICE_MS);
	}

	/** Fed against the advice: no word about that, only what helps. */
	#help(view: TrayView): void {
		this.helps = text.holdSteps[view.ration?.hold?.cause ?? ""] ?? text.tray.fedAnywayHelp;
		this.app.say(this.helps);
	}

	#fedAnyway(): void {
		this.anyway = true;
		void this.updateComplete.then(() =>
			this.querySelector("amount-dial")?.scrollIntoView({ block: "nearest" }),
		);
	}
}
customElements.define("tray-screen", TrayScreen);

declare global {
	interface HTMLElementTagNameMap {
		"tray-screen": TrayScreen;
	}
}
