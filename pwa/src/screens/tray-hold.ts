// A tray on hold: the sign and what to do stand where the number was, then why,
// until when, and what to do with the grams in hand. Never a bare no.

import { html, nothing, type TemplateResult } from "lit";
import { dayName, type Mass, type Temp, weight } from "../format.ts";
import { section } from "../parts/header.ts";
import { sign } from "../parts/signs.ts";
import { text } from "../strings.ts";
import type { Hold, Intent, RationView, Share, TrayView } from "../types.gen.ts";
import { bindWords, said } from "../words.ts";
import { rests } from "./tray-ration.ts";

export interface HoldDoes {
	place: (intent: Intent, words: string) => void;
	anyway: (() => void) | undefined; // none once it was said
	member: string; // the phone's own
}

const ONE_LINE = 14; // letters; longer words are set smaller, on one line

/** The page's head on hold, and on a day when nothing more goes in. */
export function holdPage(view: TrayView, r: RationView, does: HoldDoes): TemplateResult {
	const says = text.answers[r.answer]?.big ?? "";
	return html`<section class="hold">
		<div class="holdhead">${sign(r.answer, true)}<p class="holdsays ${says.length > ONE_LINE ? "long" : ""}">${says}</p></div>
		${r.hold ? holdFacts(r.hold, view) : rests(r) ? resting(r, view) : html`<p>${text.tray.zero(dayName(r.nextDay, view.day))}</p>`}
		${instead(view, does)}
		${does.anyway ? html`<button type="button" class="textlink" @click=${does.anyway}>${text.tray.fedAnyway}</button>` : nothing}
	</section>`;
}

const resting = (r: RationView, view: TrayView): TemplateResult =>
	html`<p>${bindWords(r, view.temp as Temp)}</p>${r.move ? html`<p>${text.moves[r.move]}</p>` : nothing}`;

function holdFacts(hold: Hold, view: TrayView): TemplateResult {
	return html`${text.holdSteps[hold.cause] ? html`<p>${text.holdSteps[hold.cause]}</p>` : nothing}
		<dl class="facts">
			<div class="fact"><dt>${text.tray.holdWhy}</dt><dd>${said(text.holdCauses, hold.cause)}</dd></div>
			<div class="fact"><dt>${text.tray.holdUntil}</dt><dd>${said(text.holdReleases, hold.until)}</dd></div>
			<div class="fact"><dt>${text.tray.holdLook}</dt><dd>${text.tray.holdLookDay(dayName(hold.end, view.day))}</dd></div>
		</dl>`;
}

/** The main action of a tray that takes nothing: covering it where that is what
 * to do, else the first way out. */
export function insteadAct(
	view: TrayView,
	r: RationView | undefined,
	place: HoldDoes["place"],
	member: string,
): TemplateResult {
	const bowl = view.bowls[0];
	if (r?.hold || r?.answer === "cover") {
		const covered: Intent = {
			do: "look",
			tray: view.id ?? "",
			covered: true,
			...(member ? { member } : {}),
		};
		return html`<button type="button" class="go" @click=${() => place(covered, text.tray.coveredSaid(view.name ?? ""))}>${text.tray.covered}</button>`;
	}
	const first = waysOut(view)[0];
	if (first?.to === "tray" && first.tray)
		return html`<a class="go ink" href="/t/${encodeURIComponent(first.tray)}">${text.tray.openInstead(first.name ?? "")}</a>`;
	if (first?.to === "freezer" && bowl && bowl.grams > 0) {
		const amount = weight(bowl.grams, view.mass as Mass);
		return html`<button type="button" class="go" @click=${() =>
			place(
				{ do: "place", bowl: bowl.id, shares: [{ to: "freezer", grams: bowl.grams }] },
				text.weigh.savedFreeze(amount),
			)}>${text.tray.freezeSays(amount)}</button>`;
	}
	return html`<a class="go ink" href="/weigh">${text.tray.weigh}</a>`;
}

/** Where the grams in hand, or of a bowl that would come, could go instead. */
const waysOut = (view: TrayView): Share[] =>
	view.bowls[0] ? view.bowls[0].split.filter((s) => s.tray !== view.id) : view.other;

/** What to do with the grams in hand, or with a bowl that would come. */
function instead(view: TrayView, does: HoldDoes): TemplateResult {
	const bowl = view.bowls[0];
	const shares = waysOut(view);
	const waste = shares.some((s) => s.to === "waste") ? [] : [{ to: "waste", grams: 0 }];
	return html`${section(bowl && bowl.grams > 0 ? text.tray.instead(weight(bowl.grams, view.mass as Mass)) : text.tray.insteadPlain)}
		<ul class="rows alts">${[...shares, ...waste].map((s) => alternative(s, view, does))}</ul>`;
}

/** One way out. With a bowl waiting it is a tap; without one it is only said. */
function alternative(s: Share, view: TrayView, does: HoldDoes): TemplateResult {
	const mass = view.mass as Mass;
	const amount = s.grams > 0 ? weight(s.grams, mass) : "";
	const bowl = view.bowls[0];
	const answer = s.to === "tray" ? "elsewhere" : s.to === "freezer" ? "freeze" : "waste";
	const says =
		s.to === "tray"
			? amount
				? text.tray.carrySays(amount, s.name ?? "")
				: (s.name ?? "")
			: s.to === "freezer"
				? amount
					? text.tray.freezeSays(amount)
					: text.answers.freeze?.big
				: text.tray.wasteSays;
	const why = s.to === "freezer" ? text.tray.freezeWhy : s.to === "waste" ? text.tray.wasteWhy : "";
	const act =
		s.to === "tray"
			? text.tray.carryAct
			: s.to === "freezer"
				? text.tray.freezeAct
				: text.tray.wasteAct;
	const grams = s.grams > 0 ? s.grams : (bowl?.grams ?? 0);
	const run = (): void =>
		does.place(
			{
				do: "place",
				bowl: bowl?.id ?? "",
				shares: [{ to: s.to, grams, ...(s.tray ? { tray: s.tray } : {}) }],
				...(does.member ? { member: does.member } : {}),
			},
			text.today.placed(weight(grams, mass)),
		);
	return html`<li>${sign(answer)}<span class="grow"><b>${says}</b>${why ? html`<span class="second line">${why}</span>` : nothing}</span>
		${bowl ? html`<button type="button" class="plain" @click=${run}>${act}</button>` : nothing}</li>`;
}
