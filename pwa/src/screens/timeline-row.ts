// One row of the timeline: what, where, who and whose phone, how much.

import { html, nothing, type TemplateResult } from "lit";
import { clock, type Mass, number, type Temp, weight } from "../format.ts";
import { text } from "../strings.ts";
import type { Entry } from "../types.gen.ts";
import { itemWords, lookWords, said, spotWords } from "../words.ts";

/** What happened and where, in a few words. */
function didWords(e: Entry): string {
	const names = [...e.names].reverse().join(", ");
	const what = said(text.timeline.kinds, e.kind);
	if (!names) return what;
	return `${what} ${e.kind === "feeding" ? text.timeline.into(names) : text.timeline.at(names)}`;
}

/** How much of a colony was lost. */
const shareWords = (share: number): string =>
	text.bins.lostShare(text.bins.shares[String(share)] ?? `${number(share)} %`);

function second(e: Entry, mass: Mass, temp: Temp): string {
	const words = text.timeline;
	const counted = e.sample;
	return [
		e.look ? lookWords(e.look, temp, mass) : e.code && !e.share ? said(words.codes, e.code) : "",
		e.share ? shareWords(e.share) : "",
		counted
			? words.counted(number(counted.adults), number(counted.young), number(counted.cocoons))
			: "",
		e.ml ? words.volumeOf(number(e.ml)) : "",
		e.who ? words.by(e.who) : "",
		e.logger ? words.onPhone(e.logger) : "",
		e.spot ? (e.feed ? text.tray.placed(spotWords(e.spot)) : spotWords(e.spot)) : "",
		e.feed && e.feed.how !== "scale" ? said(text.hows, e.feed.how) : "",
		e.about ? words.about : "",
	]
		.filter(Boolean)
		.join(", ");
}

function amount(e: Entry, mass: Mass): string {
	const grams = e.feed?.grams ?? e.grams ?? 0;
	if (grams !== 0) return weight(grams, mass);
	return e.kind === "feeding" || e.kind === "bowl" || e.kind === "freezing" ? text.weigh.some : "";
}

export function entryRow(
	e: Entry,
	mass: Mass,
	temp: Temp,
	open: boolean,
	unfold: () => void,
	tools: () => TemplateResult,
): TemplateResult {
	const gone = e.gone === true;
	const items = itemWords(e.feed?.items ?? e.items ?? []);
	const more = second(e, mass, temp);
	return html`<li class=${gone ? "gone" : ""}>
		<button type="button" class="entry" aria-expanded=${open ? "true" : "false"} @click=${unfold}>
			<span class="when">${clock(e.at)}</span>
			<span class="grow"><span class="did">${didWords(e)}</span>${gone ? html` <b class="tag">${text.timeline.undone}</b>` : e.edited ? html` <span class="tag">${text.timeline.edited}</span>` : nothing}${more ? html`<span class="second line">${more}</span>` : nothing}${items ? html`<span class="second line">${items}</span>` : nothing}${e.note ? html`<span class="second line">${e.note}</span>` : nothing}</span>
			<b class="figure did">${amount(e, mass)}</b>
		</button>
		${open ? tools() : nothing}
	</li>`;
}
