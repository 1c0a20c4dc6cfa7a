// What a tray's page says about its ration, as plain words: for the page itself,
// and for the glance that the next scan shows before the app stands (glance.ts).

import { type Mass, massParts, rough, type Temp, weight } from "../format.ts";
import type { Words } from "../glance.ts";
import { shape } from "../parts/numeral.ts";
import { ages } from "../parts/screen.ts";
import { text } from "../strings.ts";
import type { RationView, TrayView } from "../types.gen.ts";
import { bindWords, said, vesselWords } from "../words.ts";

/** The tray's bin, its stage and since when, below its name. */
export function subWords(view: TrayView): string {
	const stage = said(text.stages, view.tier?.stage ?? "");
	const bin = view.binName ?? "";
	return view.tier && view.tier.stageDay > 0
		? text.tray.sub(bin, stage, view.tier.stageDay)
		: text.tray.subPlain(bin, stage);
}

/** The lines below a ration's numeral; "" for what there is nothing to say of. */
export function rationWords(view: TrayView, r: RationView) {
	const mass = view.mass as Mass;
	const near = (g: number): string => weight(rough(g, r.likely, mass), mass);
	const vessel = vesselWords(r);
	const bedding = rough(r.beddingG, { low: 0, high: 2 * r.beddingG }, mass);
	return {
		about: vessel ? text.tray.aboutVessel : "",
		vessel,
		likely: (vessel ? "; " : "") + text.tray.likely(near(r.likely.low), near(r.likely.high)),
		first: r.sure === "guess" ? `, ${text.parts.firstGuess}` : "",
		binds: bindWords(r, view.temp as Temp),
		move: r.move ? (text.moves[r.move] ?? "") : "",
		fed: r.feeds > 0 ? text.today.fedToday(weight(r.feeds, mass)) : "",
		bedding: r.beddingG > 0 && r.grams > 0 ? text.tray.bedding(weight(bedding, mass)) : "",
	};
}

/** The glance at a tray whose view was worked out at `at`, ms; none for a tray
 * that has no ration. */
export function glanceWords(view: TrayView, at: number): Words | undefined {
	const r = view.ration;
	if (!r) return undefined;
	const age = ages(at);
	const amount = r.hold || r.grams === 0 ? undefined : massParts(r.grams, view.mass as Mass);
	const { fed, ...lines } = rationWords(view, r);
	return {
		shape: amount ? shape(amount, { size: "big", sure: r.sure, old: true }) : "",
		says: {
			back: text.parts.back,
			starting: text.app.starting,
			name: view.name ?? "",
			sub: subWords(view),
			miss: text.tray.mayMiss,
			...(amount
				? {
						...amount,
						...lines,
						question: r.sure === "guess" ? "?" : "",
						guess: r.sure === "guess" ? ` ${text.parts.firstGuess}` : "",
						trial: r.sure === "trial" ? text.parts.trial : "",
					}
				: { hold: text.answers[r.answer]?.big ?? "" }),
		},
		onDay: { age: age.onDay, fed },
		later: { age: age.later },
	};
}
