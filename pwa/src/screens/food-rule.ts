// A house rule: a keeper is stricter than the guides with one scrap, for
// everyone. Never milder: what the guides keep out stays out.

import { html, type nothing, type TemplateResult } from "lit";
import { text } from "../strings.ts";
import type { Intent, RuleVerdict, ScrapView } from "../types.gen.ts";
import { said } from "../words.ts";

type Verdict = "good" | RuleVerdict;
const order: readonly Verdict[] = ["good", "little", "avoid", "never"];

export interface RuleChooser {
	scrap: ScrapView;
	keeper: boolean;
	note: string;
	change: (note: string) => void;
	save: (intent: Intent, words: string) => void;
	busy: boolean;
}

/** The guides' verdict and those that are stricter. */
export function choices(scrap: ScrapView): Verdict[] {
	const guides = scrap.house?.guides ?? scrap.verdict;
	return order.slice(Math.max(0, order.indexOf(guides as Verdict)));
}

/** What writes a choice down: a rule made, changed or taken back. */
export function ruleIntent(scrap: ScrapView, verdict: Verdict, note: string): Intent {
	const [guides] = choices(scrap);
	const rule = scrap.house?.rule;
	if (verdict === guides || verdict === "good") return { do: "undo", entity: rule ?? "" };
	return {
		do: "rule",
		scrap: scrap.id,
		verdict,
		note: note.trim(),
		...(rule ? { entity: rule } : {}),
	};
}

export function ruleChooser(r: RuleChooser): TemplateResult | typeof nothing {
	const { scrap } = r;
	const [guides, ...stricter] = choices(scrap);
	if (!r.keeper) return html`<p class="second">${text.food.keeperOnly}</p>`;
	if (!guides || stricter.length === 0) return html`<p class="second">${text.food.neverFixed}</p>`;
	const choose = (verdict: Verdict): void => {
		if (verdict === scrap.verdict) return;
		const words =
			verdict === guides
				? text.food.savedNoRule(scrap.name)
				: text.food.savedRule(scrap.name, said(text.verdicts, verdict));
		r.save(ruleIntent(scrap, verdict, r.note), words);
	};
	return html`<details class="who stricter" ?open=${scrap.house !== undefined}><summary><span>${text.food.stricter}</span><span class="change">${text.parts.change}</span></summary>
		<p class="second">${text.food.stricterLead}</p>
		<label class="field">${text.food.stricterNote}<input type="text" maxlength="120" autocomplete="off" .value=${r.note || (scrap.house?.note ?? "")} @input=${(e: InputEvent) => r.change((e.target as HTMLInputElement).value)}></label>
		<div class="picks" role="group" aria-label=${text.food.rules}>${[guides, ...stricter].map(
			(v) =>
				html`<button type="button" class="pickword ${v === scrap.verdict ? "on" : ""}" aria-pressed=${v === scrap.verdict ? "true" : "false"} ?disabled=${r.busy} @click=${() => choose(v)}>${v === guides ? text.food.asGuides : said(text.verdicts, v)}</button>`,
		)}</div></details>`;
}
