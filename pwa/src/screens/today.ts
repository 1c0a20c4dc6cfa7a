// Today: every bin by urgency, the bowls that wait with the split the advice
// draws, what else is due.

import { html, nothing, type TemplateResult } from "lit";
import {
	clock,
	date,
	dayName,
	list,
	type Mass,
	massParts,
	type Temp,
	weekdayHeading,
	weight,
} from "../format.ts";
import "../parts/amount-dial.ts";
import { bowlDrawing, type Layer } from "../parts/bowl.ts";
import "../parts/fit.ts";
import type { Frame } from "../parts/fit.ts";
import { header, section } from "../parts/header.ts";
import { numeral } from "../parts/numeral.ts";
import { Screen } from "../parts/screen.ts";
import { sectionLines } from "../parts/section-words.ts";
import { sign } from "../parts/signs.ts";
import { miniStack } from "../parts/stack.ts";
import { sectionLook } from "../parts/tiers.ts";
import { text } from "../strings.ts";
import type { BinView, Bowl, Job, RationView, Share, ThawView, TodayView } from "../types.gen.ts";
import { bowlWords, itemWords, said, spotWords, vesselWords } from "../words.ts";
import { itemsOf, jobIntents, jobPage, toldWords } from "./doing.ts";
import "./feeder.ts";
import { takeIntents } from "./freezing.ts";
import { simple } from "./simple.ts";
import { evenSplit, splitLeft, splitSteps } from "./split.ts";

export class TodayScreen extends Screen<"today"> {
	static override properties = { ...Screen.properties, splitting: { state: true } };
	/** The bowl somebody splits by hand, and the shares so far. */
	declare splitting: { bowl: string; shares: Share[] } | undefined;
	protected override readonly screen = "today";

	override render() {
		const view = this.shown?.data;
		if (!view) return this.waiting(text.app.today);
		if (simple(this.app.me(), view.members))
			return html`<feeder-screen .app=${this.app} .args=${this.args}></feeder-screen>`;
		const mass = view.mass as Mass;
		const [first, ...others] = view.bowls;
		return html`<main class="page today">
			${header({ title: weekdayHeading(view.day), sub: `${date(view.day)}${view.home ? `, ${view.home}` : ""}`, age: this.age() })}
			${view.bins.length === 0 ? this.#begin() : nothing}
			<ul class="bins">${view.bins.map((bin) => this.#bin(bin, view))}</ul>
			${this.#told(view)}
			${first ? this.#bowl(first, view) : nothing}
			${others.map((bowl) => this.#bowl(bowl, view))}
			${this.#due(view)}
			<div class="foot">${this.savingRow(mass, (intent) => void this.save(intent, this.saving.words))}
				${first ? this.#act(first, view) : nothing}</div>
		</main>`;
	}

	/** A household without a bin: the first thing to do in it. */
	#begin(): TemplateResult {
		if (this.app.me().role !== "keeper") return html`<p>${text.today.noBins}</p>`;
		return html`<p>${text.today.noBinsYet}</p>
			<p class="act"><a class="go ink" href="/bin?new">${text.bins.set}</a></p>
			<p><a class="textlink" href="/plan">${text.bins.planFirst}</a></p>`;
	}

	#bin(bin: BinView, view: TodayView): TemplateResult {
		const mass = view.mass as Mass;
		const r = bin.ration;
		const tier = bin.stack.find((t) => t.id === bin.tray);
		const href = tier
			? `/t/${encodeURIComponent(tier.code || tier.id)}`
			: `/bin?bin=${encodeURIComponent(bin.id)}`;
		const answer = text.answers[r.answer];
		const old = this.shown?.from !== null;
		const meal = r.hold || old ? undefined : { grams: r.grams, spot: r.spot };
		const look = sectionLook({
			...{ bin: bin.id, open: bin.tray, guess: r.sure === "guess", meal, today: view.day },
			...{ mass, temp: view.temp as Temp, base: bin.base },
		});
		return html`<li class="bin">
			<fit-frame .draw=${(frame: Frame) =>
				miniStack(bin.stack, {
					bin: bin.id,
					width: frame.width,
					guess: r.sure === "guess",
					meal,
					today: view.day,
					label: text.today.stackLabel(bin.name, sectionLines(bin.stack, bin.base, look).join(" ")),
				})}></fit-frame>
			<div class="say">
				<div class="binhead"><h2 class="binname"><a href=${href}>${bin.name}</a></h2>
					<span class="answered second">${answer?.brief}${sign(r.answer)}</span></div>
				${this.#amount(r, view, tier?.name ?? "")}
				${r.feeds > 0 ? html`<p class="second">${text.today.fedToday(weight(r.feeds, mass))}</p>` : nothing}
			</div>
			${
				bin.double
					? html`<div class="notice wide">${sign("missing")}<div><p>${text.today.double(weight(bin.double.grams, mass))}</p>
					${bin.double.feedings.map((f) => html`<p>${text.today.doubleLine(weight(f.grams, mass), f.who || text.parts.someone, clock(f.at))}</p>`)}
					<p>${text.today.doubleEnd} <a href="/timeline">${text.timeline.title}</a></p></div></div>`
					: nothing
			}
		</li>`;
	}

	/** The ration, or what to do where none goes in. */
	#amount(r: RationView, view: TodayView, tray: string): TemplateResult {
		const mass = view.mass as Mass;
		const spot = spotWords(r.spot);
		const held = vesselWords(r);
		if (r.hold) {
			return html`<p class="inplace">${text.answers[r.answer]?.big}</p><p>${said(text.holdCauses, r.hold.cause)}</p>
				<p class="second">${text.tray.holdUntil} ${said(text.holdReleases, r.hold.until)}</p>`;
		}
		if (r.grams === 0) {
			return html`<p class="inplace">${text.answers[r.answer]?.big}</p>
				<p>${text.today.nextMeal(dayName(r.nextDay, view.day))}</p>`;
		}
		return html`${numeral(massParts(r.grams, mass), { sure: r.sure, old: this.shown?.from !== null })}
			<p>${text.today.into}<b>${tray}</b>${spot ? `, ${spot}` : ""}${r.binds === "settling" ? text.today.smallAtFirst : ""}</p>
			<p class="second">${r.sure === "guess" ? text.today.firstGuess : held ? text.today.about(held) : ""}</p>`;
	}

	/** What children fed beyond the advice: one calm line each, for keepers. */
	#told(view: TodayView): TemplateResult | typeof nothing {
		if (view.told.length === 0 || this.app.me().role !== "keeper") return nothing;
		return html`<ul class="rows">${view.told.map(
			(t) =>
				html`<li><span class="grow">${toldWords(t, view.mass as Mass)}<span class="second line">${dayName(t.feed.day, view.day)}</span></span><a class="plain" href="/look?tray=${encodeURIComponent(t.feed.tray)}">${text.tray.look}</a></li>`,
		)}</ul>`;
	}

	#bowl(bowl: Bowl, view: TodayView): TemplateResult {
		const mass = view.mass as Mass;
		const splitting = this.splitting?.bowl === bowl.id ? this.splitting : undefined;
		const shares = splitting?.shares ?? bowl.split;
		const layers = shares.filter((s) => s.grams > 0).map((s) => layerOf(s, mass));
		return html`<section>
			${section(text.today.waiting)}
			<p class="lead">${bowlWords(bowl, mass, view.day)}</p>
			${
				layers.length > 0
					? html`<fit-frame class="bowlframe" .draw=${(frame: Frame) => bowlDrawing(layers, bowl.id, frame, text.today.bowlLabel(layers.map((l) => l.label).join("; ")))}></fit-frame>`
					: nothing
			}
			${
				splitting
					? html`<div class="split rows">${splitting.shares.map(
							(s, i) => html`<div><span class="grow">${shareName(s)}</span>
						<amount-dial class="grow" .grams=${s.grams} .mass=${mass} .label=${shareName(s)}
							@turn=${(e: CustomEvent<number>) => this.#share(i, e.detail)}></amount-dial></div>`,
						)}</div><p role="status">${
							splitLeft(bowl.grams, splitting.shares) < 0
								? text.today.splitOver(weight(-splitLeft(bowl.grams, splitting.shares), mass))
								: text.today.splitLeft(weight(splitLeft(bowl.grams, splitting.shares), mass))
						}</p>`
					: html`<ul class="sharelist">${layers.map((l) => html`<li>${l.label}</li>`)}</ul>`
			}
			${bowl.id === view.bowls[0]?.id ? nothing : html`<div class="choices">${this.#buttons(bowl, view)}</div>`}
		</section>`;
	}

	#act(bowl: Bowl, view: TodayView): TemplateResult {
		return html`<div class="act">${this.#buttons(bowl, view)}</div>`;
	}

	#buttons(bowl: Bowl, view: TodayView): TemplateResult {
		const splitting = this.splitting?.bowl === bowl.id ? this.splitting : undefined;
		const shares = splitting?.shares ?? bowl.split;
		const bad = shares.every((s) => s.grams <= 0) || splitLeft(bowl.grams, shares) < 0;
		const busy = this.saving.state === "saving";
		return html`<button type="button" class="plain" @click=${() => this.#toggle(bowl, view)}>${splitting ? text.today.keepDrawn : text.today.splitMyself}</button>
			<button type="button" class="go" ?disabled=${busy || bad} @click=${() => void this.#place(bowl, shares, view)}>${
				splitting ? text.today.placeSplit : text.today.placeAsDrawn
			}</button>`;
	}

	#toggle(bowl: Bowl, view: TodayView): void {
		if (this.splitting?.bowl === bowl.id) this.splitting = undefined;
		else this.splitting = { bowl: bowl.id, shares: evenSplit(bowl, view.bins) };
	}

	#share(i: number, grams: number): void {
		if (!this.splitting) return;
		this.splitting = {
			...this.splitting,
			shares: this.splitting.shares.map((s, at) => (at === i ? { ...s, grams } : s)),
		};
	}

	async #place(bowl: Bowl, shares: Share[], view: TodayView): Promise<void> {
		const given = splitSteps(shares);
		const grams = given.reduce((sum, s) => sum + s.grams, 0);
		const member = this.app.me().member;
		const words = text.today.placed(grams > 0 ? weight(grams, view.mass as Mass) : text.weigh.some);
		const answer = await this.save(
			{ do: "place", bowl: bowl.id, shares: given, ...(member ? { member } : {}) },
			words,
		);
		if (answer.ok) this.splitting = undefined;
	}

	#due(view: TodayView): TemplateResult | typeof nothing {
		const rows = [
			...view.jobs.map((job) => this.#job(job, view)),
			...(view.freezer > 0 ? [this.#freezer(view)] : []),
		];
		if (view.asides > 0)
			rows.push(
				html`<li><span class="grow">${text.today.asides(view.asides)}</span><a class="plain" href="/household">${text.today.job.act}</a></li>`,
			);
		if (view.unread > 0)
			rows.push(html`<li><span class="grow">${text.today.unread(view.unread)}</span></li>`);
		return rows.length === 0
			? nothing
			: html`<section>${section(text.today.due)}<ul class="rows">${rows}</ul></section>`;
	}

	/** The freezer, and one tap for what today has room for. */
	#freezer(view: TodayView): TemplateResult {
		const mass = view.mass as Mass;
		const { thaw } = view;
		const hint = thaw
			? text.freezer.thawNow(weight(thaw.grams, mass), list(thaw.shares.map((s) => s.name ?? "")))
			: text.freezer.stays;
		return html`<li><span class="grow"><a class="rowtitle" href="/freezer">${text.today.freezerStock(weight(view.freezer, mass))}</a><span class="second line">${hint}</span></span>
			${
				thaw
					? html`<button type="button" class="plain" ?disabled=${this.saving.state === "saving"} @click=${() => void this.#thaw(thaw, mass)}>${text.freezer.take(weight(thaw.grams, mass))}</button>`
					: html`<a class="plain" href="/freezer">${text.freezer.open}</a>`
			}</li>`;
	}

	async #thaw(thaw: ThawView, mass: Mass): Promise<void> {
		const intents = takeIntents(itemsOf(thaw.items), "bowl", {
			bowlName: text.freezer.bowlName,
			member: this.app.me().member,
		});
		await this.save(intents, text.freezer.took(weight(thaw.grams, mass)));
	}

	#job(job: Job, view: TodayView): TemplateResult {
		const words = text.today.jobs[job.kind];
		const after = job.day
			? text.today.jobBy(dayName(job.day, view.day))
			: words && job.days
				? words.after(job.days)
				: "";
		const hint = job.nextName
			? text.today.bedsNext(job.nextName, itemWords(job.items ?? []))
			: after;
		return html`<li><span class="grow">${words?.words ?? `${said({}, job.kind)}: `}<b>${job.name}</b>${hint ? html`<span class="second line">${hint}</span>` : nothing}</span>
			${this.#does(job, view)}</li>`;
	}

	/** One tap that does a job, or the page on which it is done. */
	#does(job: Job, view: TodayView): TemplateResult {
		const words = text.today.jobs[job.kind];
		const tap = jobIntents(job);
		if (tap) {
			const done = text.today.jobDone[job.kind]?.(job.nextName ?? job.name) ?? job.name;
			return html`<button type="button" class="plain" ?disabled=${this.saving.state === "saving"} @click=${() => void this.save(tap.intent, done, tap.back)}>${text.today.jobAct[job.kind] ?? text.today.job.act}</button>`;
		}
		const href = jobPage(
			job,
			view.bins.flatMap((b) => b.stack),
		);
		return html`<a class="plain" href=${href}>${words?.act ?? text.today.job.act}</a>`;
	}
}
customElements.define("today-screen", TodayScreen);

function shareName(s: Share): string {
	if (s.to === "tray") return s.name ?? "";
	return s.to === "freezer" ? text.today.freezer : text.today.waste;
}

/** A share as a layer of the bowl, named. */
function layerOf(s: Share, mass: Mass): Layer & { label: string } {
	const amount = weight(s.grams, mass);
	if (s.to === "tray")
		return {
			grams: s.grams,
			texture: "today",
			label: text.today.toTray(amount, s.name ?? ""),
			strong: true,
		};
	return s.to === "freezer"
		? { grams: s.grams, texture: "freezer", label: text.today.toFreezer(amount) }
		: { grams: s.grams, texture: "waste", label: text.today.toWaste(amount) };
}

declare global {
	interface HTMLElementTagNameMap {
		"today-screen": TodayScreen;
	}
}
