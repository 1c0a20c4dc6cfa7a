// Food check: "can they eat this?" over the catalogue, with nothing but the
// phone. The best answer stands open; a tap opens another. A keeper can be
// stricter than the guides here.

import { html, nothing, type TemplateResult } from "lit";
import type { ViewArgs } from "../app-api.ts";
import { number } from "../format.ts";
import { header, section } from "../parts/header.ts";
import { Screen } from "../parts/screen.ts";
import { verdictSign } from "../parts/signs.ts";
import { text } from "../strings.ts";
import type { Food, FoodAsk, FoodView, ScrapView } from "../types.gen.ts";
import { houseWords, said } from "../words.ts";
import { ruleChooser } from "./food-rule.ts";

export class FoodScreen extends Screen<"food"> {
	static override properties = {
		...Screen.properties,
		typed: { state: true },
		group: { state: true },
		open: { state: true },
		note: { state: true },
	};
	declare typed: string;
	declare group: string;
	declare open: string; // id of the scrap that stands open
	declare note: string; // why a house rule is made
	protected override readonly screen = "food";

	constructor() {
		super();
		this.typed = this.group = this.open = this.note = "";
	}

	protected override opened(): void {
		this.typed = this.args.query.get("q") ?? "";
	}

	protected override viewArgs(): ViewArgs {
		const ask: FoodAsk = { typed: this.typed, group: this.group };
		return { arg: JSON.stringify(ask) };
	}

	protected override loaded(view: FoodView): void {
		if (view.found.some((f) => f.scrap.id === this.open)) return;
		this.note = "";
		this.open = this.typed.trim() ? (view.found[0]?.scrap.id ?? "") : "";
	}

	#ask(typed: string, group = ""): void {
		this.typed = typed;
		this.group = group;
		this.open = "";
		void this.load();
	}

	override render() {
		const view = this.shown?.data;
		if (!view) return this.waiting(text.food.title);
		return html`<main class="page food">
			${header({ title: text.food.title, back: "/more" })}
			<label class="field">${text.food.label}<input type="search" autocomplete="off" autocapitalize="off" spellcheck="false" enterkeyhint="search"
				placeholder=${text.food.hint} .value=${this.typed} @input=${(e: InputEvent) => this.#ask((e.target as HTMLInputElement).value)}></label>
			${this.#groups(view)}
			${this.#answers(view)}
			${this.#rules(view)}
			<div class="foot">${this.savingRow("g")}</div>
		</main>`;
	}

	#groups(view: FoodView): TemplateResult | typeof nothing {
		if (this.typed.trim()) return nothing;
		return html`<div class="picks" role="group" aria-label=${text.food.groupsLabel}>${view.groups.map(
			(g) => {
				const on = g === this.group;
				return html`<button type="button" aria-pressed=${on ? "true" : "false"} class="pickword ${on ? "on" : ""}" @click=${() => this.#ask("", on ? "" : g)}>${said(text.food.groups, g)}</button>`;
			},
		)}</div>`;
	}

	#answers(view: FoodView): TemplateResult {
		const typed = this.typed.trim();
		if (typed && view.found.length === 0) return this.#noneFound(view, typed);
		const head = typed
			? nothing
			: section(this.group ? said(text.food.groups, this.group) : text.food.often);
		return html`${head}<p class="vh" role="status">${typed ? this.#spoken(view) : ""}</p>
			<ul class="rows answers">${view.found.map((f) => html`<li>${this.#answer(f)}</li>`)}</ul>`;
	}

	/** The best answer for those who don't see the list. */
	#spoken(view: FoodView): string {
		const best = view.found[0]?.scrap;
		if (!best) return "";
		return `${text.food.found(number(view.found.length))} ${best.name}: ${said(text.verdicts, best.verdict)}`;
	}

	#noneFound(view: FoodView, typed: string): TemplateResult {
		return html`<p class="second pad" role="status">${text.food.none(typed)}</p>
			<ul class="rows">${view.classes.map(
				(c) =>
					html`<li class="kindrow">${verdictSign(c.verdict)}<span class="grow"><span class="second line">${text.food.asKind(said(text.classes, c.class))}</span><b>${said(text.verdicts, c.verdict)}</b></span></li>`,
			)}</ul>`;
	}

	#answer({ scrap, differ, guides }: Food): TemplateResult {
		const open = scrap.id === this.open;
		const row = html`<button type="button" class="foundrow" aria-expanded=${open ? "true" : "false"}
			@click=${() => {
				this.open = open ? "" : scrap.id;
				this.note = "";
			}}>${verdictSign(scrap.verdict)}<span class="grow"><b>${scrap.name}</b><span class="line ${open ? "verdict" : "second"}">${said(text.verdicts, scrap.verdict)}</span></span></button>`;
		if (!open) return row;
		const part = (name: string, body: TemplateResult | string) =>
			html`<dt class="second">${name}</dt><dd>${body}</dd>`;
		const why = reasons(scrap);
		const prep = scrap.verdict === "never" ? [] : scrap.prep.map((c) => said(text.scrapPrep, c));
		return html`${row}<div class="answer">
			<dl class="facts">
				${scrap.house ? part(text.food.house, houseWords(scrap.house)) : nothing}
				${why ? part(text.food.why, why) : nothing}
				${prep.length > 0 ? part(text.food.prepare, text.sentence(prep)) : nothing}
				${differ ? part(text.food.differ, differ) : nothing}
			</dl>
			${
				guides.length > 0
					? html`<details class="who"><summary><span>${text.food.guides(number(guides.length))}</span><span class="change">${text.food.show}</span></summary>
						<ul class="sources">${guides.map((g) => html`<li lang="en">${g}</li>`)}</ul></details>`
					: html`<p class="second pad">${text.food.memory}</p>`
			}
			<div class="tools"><a class="textlink" href="/weigh?scrap=${scrap.id}">${text.food.weigh}</a></div>
			${ruleChooser({ scrap, keeper: this.app.me().role === "keeper", note: this.note, change: (note) => this.#write(note), save: (intent, words) => void this.save(intent, words), busy: this.saving.state === "saving" })}
		</div>`;
	}

	#write(note: string): void {
		this.note = note;
	}

	#rules(view: FoodView): TemplateResult | typeof nothing {
		if (this.typed.trim() || this.group) return nothing;
		return html`${section(text.food.rules)}${
			view.rules.length === 0
				? html`<p class="second pad">${text.food.rulesNone}</p>`
				: html`<ul class="rows answers">${view.rules.map(
						(s) =>
							html`<li><button type="button" class="foundrow" @click=${() => this.#ask(s.name)}>${verdictSign(s.verdict)}<span class="grow"><b>${s.name}</b><span class="second line">${said(text.verdicts, s.verdict)} ${s.house ? houseWords(s.house) : ""}</span></span></button></li>`,
					)}</ul>`
		}`;
	}
}

/** Why it is judged so, and what the verdict means in a meal. */
function reasons(scrap: ScrapView): string {
	const means: Record<string, string> = {
		little: text.food.little,
		avoid: text.food.avoid,
		never: text.food.never,
	};
	const cautions = [
		scrap.reasons.includes("pathogen") ? text.food.pathogen : "",
		scrap.reasons.includes("mould-ok") ? text.food.mould : "",
	];
	const why = scrap.reasons.map((code) => text.scrapReasons[code] ?? "");
	return [...why, means[scrap.verdict] ?? "", ...cautions].filter(Boolean).join(" ");
}

customElements.define("food-screen", FoodScreen);

declare global {
	interface HTMLElementTagNameMap {
		"food-screen": FoodScreen;
	}
}
