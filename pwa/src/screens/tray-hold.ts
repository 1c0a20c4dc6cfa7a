// A tray on hold: the sign and what to do stand where the number was, then why,
// until when, and what to do with the grams in hand. Never a bare no.

import { html, nothing, type TemplateResult } from "lit";
import { dayName, type Mass, weight } from "../format.ts";
import { section } from "../parts/header.ts";
import { sign } from "../parts/signs.ts";
import { text } from "../strings.ts";
import type { Intent, RationView, Share, TrayView } from "../types.gen.ts";
import { said } from "../words.ts";

export interface HoldDoes {
	place: (intent: Intent, words: string) => void;
	anyway: () => void;
	members: string; // the phone's member
}

export function holdPage(view: TrayView, r: RationView, does: HoldDoes): TemplateResult {
	const hold = r.hold;
	if (!hold) return html``;
	const mass = view.mass as Mass;
	const bowl = view.bowls[0];
	const shares: Share[] = bowl ? bowl.split.filter((s) => s.tray !== view.id) : view.other;
	const waste = shares.some((s) => s.to === "waste") ? [] : [{ to: "waste", grams: 0 }];
	return html`<section class="hold">
		<div class="holdhead">${sign(r.answer, true)}<p class="holdsays">${text.answers[r.answer]?.big ?? ""}</p></div>
		${text.holdSteps[hold.cause] ? html`<p>${text.holdSteps[hold.cause]}</p>` : nothing}
		<dl class="facts">
			<div class="fact"><dt>${text.tray.holdWhy}</dt><dd>${said(text.holdCauses, hold.cause)}</dd></div>
			<div class="fact"><dt>${text.tray.holdUntil}</dt><dd>${said(text.holdReleases, hold.until)}</dd></div>
			<div class="fact"><dt>${text.tray.holdLook}</dt><dd>${text.tray.holdLookDay(dayName(hold.end, view.day))}</dd></div>
		</dl>
		${section(bowl && bowl.grams > 0 ? text.tray.instead(weight(bowl.grams, mass)) : text.tray.insteadPlain)}
		<ul class="rows alts">${[...shares, ...waste].map((s) => alternative(s, view, does))}</ul>
		<button type="button" class="textlink" @click=${does.anyway}>${text.tray.fedAnyway}</button>
	</section>`;
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
				...(does.members ? { member: does.members } : {}),
			},
			text.today.placed(weight(grams, mass)),
		);
	return html`<li>${sign(answer)}<span class="grow"><b>${says}</b>${why ? html`<span class="second line">${why}</span>` : nothing}</span>
		${bowl ? html`<button type="button" class="plain" @click=${run}>${act}</button>` : nothing}</li>`;
}
