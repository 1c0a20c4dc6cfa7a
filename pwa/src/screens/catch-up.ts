// Catch up: meals that nobody wrote down, one tap each. The usual amount on
// about the right day is worth more to the model than a gap.

import { html, nothing, type TemplateResult } from "lit";
import { dayName, dayPlus, type Mass, weight } from "../format.ts";
import { header, section } from "../parts/header.ts";
import { Screen } from "../parts/screen.ts";
import { type Who, whoChooser, whoSays } from "../parts/who.ts";
import { text } from "../strings.ts";
import type { CatchUpView, Intent, Missed } from "../types.gen.ts";

/** A usual meal of a bin on a past day. Its clock says noon, and that the day is
 * only about right. `offset` ends the instant, like "+01:00". */
export function mealOn(m: Missed, day: string, who: Who, offset: string): Intent {
	return {
		do: "feed",
		bin: m.bin,
		tray: m.tray,
		day,
		at: `${day}T12:00:00${offset}`,
		items: m.items.map((i) => ({
			scrap: i.scrap,
			g: i.grams,
			...(i.class ? { class: i.class } : {}),
			...(i.scrap === "other" ? { name: i.name } : {}),
		})),
		how: "unweighed",
		about: true,
		inBin: true,
		...whoSays(who),
	};
}

/** How far the wall clock is from UTC at an instant, as an entry writes it. */
export function offsetAt(ms: number): string {
	const minutes = -new Date(ms).getTimezoneOffset();
	const two = (n: number): string => String(n).padStart(2, "0");
	const size = Math.abs(minutes);
	return `${minutes < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

export class CatchUpScreen extends Screen<"catchup"> {
	static override properties = { ...Screen.properties, who: { state: true } };
	declare who: Who;
	protected override readonly screen = "catchup";

	constructor() {
		super();
		this.who = { member: "", guest: "" };
	}

	protected override opened(): void {
		this.who = { member: this.app.me().member, guest: "" };
	}

	override render() {
		const view = this.shown?.data;
		if (!view) return this.waiting(text.catchUp.title);
		const wanted = this.args.query.get("bin");
		const bins = view.bins.filter((m) => !wanted || m.bin === wanted);
		return html`<main class="page catchup">
			${header({ title: text.catchUp.title, sub: text.catchUp.sub, age: this.age(), back: "/look" })}
			${bins.length === 0 ? html`<p>${text.catchUp.none}</p>` : nothing}
			${bins.map((m) => this.#bin(m, view))}
			${
				bins.length === 0
					? nothing
					: html`<div class="whofed">${whoChooser(
							text.catchUp.fedBy,
							this.who,
							view.members,
							(who) => {
								this.who = who;
							},
						)}</div>
				<p class="second start">${text.catchUp.otherwise}</p>`
			}
			<div class="foot">${this.savingRow(view.mass as Mass)}</div>
		</main>`;
	}

	#bin(m: Missed, view: CatchUpView): TemplateResult {
		const words = text.catchUp;
		const usual = weight(m.usual, view.mass as Mass);
		const busy = this.saving.state === "saving";
		const key = (label: string, days: string[], says: string): TemplateResult =>
			html`<button type="button" class="plain wide" ?disabled=${busy} @click=${() => void this.#write(m, days, says)}>${label}</button>`;
		const day = (back: number): string => dayPlus(view.day, -back);
		// A day that has its meal is not offered a second one.
		const free = (back: number): boolean => m.last === undefined || m.last < day(back);
		const times = words.times[m.week.length] ?? "";
		return html`<section>${section(m.name)}
			<p>${m.last ? words.last(dayName(m.last, view.day), m.days) : words.never}. ${words.usual(usual, m.into)}</p>
			<div class="stackkeys">
				${free(1) ? key(words.yesterday(usual), [day(1)], words.saidDay(usual, m.into)) : html`<p class="second">${words.dayKnown}</p>`}
				${free(2) ? key(words.dayBefore(usual), [day(2)], words.saidDay(usual, m.into)) : nothing}
				${m.week.length > 1 ? key(words.week(times, usual), m.week, words.saidWeek(times, m.into)) : nothing}
			</div></section>`;
	}

	async #write(m: Missed, days: string[], says: string): Promise<void> {
		const offset = offsetAt(this.app.now());
		await this.saveAll(
			days.map((day) => mealOn(m, day, this.who, offset)),
			says,
		);
	}
}
customElements.define("catch-up-screen", CatchUpScreen);

declare global {
	interface HTMLElementTagNameMap {
		"catch-up-screen": CatchUpScreen;
	}
}
