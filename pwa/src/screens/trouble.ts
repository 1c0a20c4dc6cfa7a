// What's wrong: signs in, causes and steps out, with nothing but the phone.
// The causes change with every tap; written down, the signs count in the ration.

import { html, nothing, type TemplateResult } from "lit";
import type { ViewArgs } from "../app-api.ts";
import { dayName, list, type Mass } from "../format.ts";
import { header, section } from "../parts/header.ts";
import { Screen } from "../parts/screen.ts";
import { text } from "../strings.ts";
import type { FindingView, TroubleView } from "../types.gen.ts";
import { said } from "../words.ts";
import { chooseTray, type Trays, traysOf } from "./choose-tray.ts";
import { clueWords, feedingWords, stepWords } from "./trouble-words.ts";

export class TroubleScreen extends Screen<"trouble"> {
	static override properties = {
		...Screen.properties,
		chosen: { state: true },
		trays: { state: true },
	};
	declare chosen: string[] | undefined; // undefined until the week's looks were asked
	declare trays: Trays | undefined;
	protected override readonly screen = "trouble";

	get #tray(): string {
		return this.args.query.get("tray") ?? "";
	}

	protected override viewArgs(): ViewArgs {
		return { arg: [this.#tray, ...(this.chosen ?? [])].join(",") };
	}

	protected override willUpdate(changed: Map<string, unknown>): void {
		const before = changed.get("args") as TroubleScreen["args"] | undefined;
		if (!before || before.query.get("tray") === this.args.query.get("tray")) return;
		this.chosen = undefined;
		this.shown = undefined;
		this.calm();
		void this.load();
	}

	protected override loaded(view: TroubleView): void {
		if (!view.found) void this.#list();
		else if (this.chosen === undefined) {
			this.chosen = view.seen;
			if (view.seen.length > 0) void this.load();
		}
	}

	async #list(): Promise<void> {
		this.trays = traysOf((await this.app.view("today")).data);
	}

	#tap(sign: string): void {
		const chosen = this.chosen ?? [];
		this.chosen = chosen.includes(sign) ? chosen.filter((s) => s !== sign) : [...chosen, sign];
		void this.load();
	}

	override render() {
		const view = this.shown?.data;
		const words = text.trouble;
		if (!view) return this.waiting(words.title);
		if (!view.found) return chooseTray(words.title, words.choose, this.trays, "/trouble");
		const chosen = this.chosen ?? [];
		return html`<main class="page">
			${header({ title: words.title, sub: words.at(view.name, view.binName), age: this.age(), back: `/t/${encodeURIComponent(view.tray)}` })}
			${section(words.signs)}<p class="second pad">${words.signsHint}</p>
			<div class="picks" role="group" aria-label=${words.signs}>${view.signs.map((sign) => {
				const on = chosen.includes(sign);
				return html`<button type="button" aria-pressed=${on ? "true" : "false"} class="pickword ${on ? "on" : ""}" @click=${() => this.#tap(sign)}>${said(text.troubleSigns, sign)}</button>`;
			})}</div>
			<div aria-live="polite">${view.findings.length === 0 ? html`<p class="second pad">${words.none}</p>` : this.#found(view)}</div>
			<div class="foot">${this.savingRow(view.mass as Mass)}${chosen.length === 0 ? nothing : this.#act(view, chosen)}</div>
		</main>`;
	}

	#found(view: TroubleView): TemplateResult {
		const words = text.trouble;
		const signs = (codes: string[]): string => list(codes.map((c) => said(text.troubleSigns, c)));
		const stops = view.stop.filter((c) => c !== "feeding").map((c) => said(text.troubleStops, c));
		return html`${["best", "could", "not"].map((fit) => {
			const of = view.findings.filter((f) => f.fit === fit);
			return of.length === 0
				? nothing
				: html`${section(said(words.fits, fit))}<ul class="rows">${of.map((f) => this.#finding(f, view))}</ul>`;
		})}
		${view.unexplained.length > 0 ? html`<p class="second pad">${words.unexplained(signs(view.unexplained))}</p>` : nothing}
		${view.check ? html`<p class="second pad">${said(words.check, view.check)}</p>` : nothing}
		${section(words.tonight)}
		${view.urgent ? html`<p class="pad"><b>${words.urgent}</b></p>` : nothing}
		${view.tonight.length > 0 ? html`<ol class="rows steps">${view.tonight.map((s) => html`<li>${stepWords(s, view)}</li>`)}</ol>` : nothing}
		<p class="pad">${feedingWords(view)}</p>
		${stops.length > 0 ? html`${section(words.stop)}<p class="pad">${list(stops)}</p>` : nothing}
		${view.look ? html`<p class="pad"><b>${words.again(dayName(view.look, view.day))}</b></p>` : nothing}
		${section(words.cautions)}<ul class="rows">${view.cautions.map((c) => html`<li class="second">${said(text.troubleCautions, c)}</li>`)}</ul>`;
	}

	#finding(f: FindingView, view: TroubleView): TemplateResult {
		return html`<li><span class="grow"><b>${said(text.troubleCauses, f.cause)}</b><span class="second line">${f.reasons.map((r) => clueWords(r, view)).join("; ")}</span></span></li>`;
	}

	#act(view: TroubleView, signs: string[]): TemplateResult {
		const save = (): void =>
			void this.save(
				{ do: "look", tray: view.tray, signs, member: this.app.me().member },
				text.trouble.saved(view.name),
			);
		return html`<p class="second">${text.trouble.savedHint}</p><div class="act"><button type="button" class="go ink" ?disabled=${this.saving.state === "saving"} @click=${save}>${text.trouble.save}</button></div>`;
	}
}

customElements.define("trouble-screen", TroubleScreen);
