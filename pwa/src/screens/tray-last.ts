// The foot of a tray's page: one of its last feedings, who, where, what and how
// much; and where else a visit may lead.

import { html, nothing, type TemplateResult } from "lit";
import { clock, dateBrief, type Mass, weight } from "../format.ts";
import { text } from "../strings.ts";
import type { FeedLine, TrayView } from "../types.gen.ts";
import { itemWords, said, spotWords } from "../words.ts";

export function feedRow(f: FeedLine, view: TrayView): TemplateResult {
	const who = `${f.who || text.parts.someone}${f.guest ? ` (${text.tray.guestTag})` : ""}${f.logger ? `, ${text.tray.loggedOn(f.logger)}` : ""}`;
	const what = itemWords(f.items);
	const how = [
		f.spot ? text.tray.placed(spotWords(f.spot)) : "",
		f.how === "scale" ? "" : said(text.hows, f.how),
	]
		.filter(Boolean)
		.join(", ");
	return html`<li><span class="when">${view.day === f.day ? clock(f.at) : dateBrief(f.day)}</span>
		<span class="grow">${who}${how ? html`<span class="second">, ${how}</span>` : nothing}${what ? html`<span class="second line">${what}</span>` : nothing}</span>
		<b class="figure">${f.grams > 0 ? weight(f.grams, view.mass as Mass) : text.weigh.some}</b></li>`;
}

/** Where else a visit to a tray may lead, with the words for it. */
export function onward({ id = "", tier }: Pick<TrayView, "id" | "tier">): [string, string][] {
	const of = `?tray=${encodeURIComponent(id)}`;
	const done = tier?.stage === "resting" || tier?.stage === "ready";
	return [
		[`/trouble${of}`, text.trouble.title],
		...(done ? [[`/harvest${of}`, text.harvest.title] as [string, string]] : []),
	];
}

export const onwardRow = (view: TrayView): TemplateResult =>
	html`<div class="tools">${onward(view).map(([href, words]) => html`<a class="textlink" href=${href}>${words}</a>`)}</div>`;
