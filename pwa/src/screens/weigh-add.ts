// What stands between the Add key and the bowl: nothing to add, a scrap that
// should stay out, an amount that looks like a slip of the key. Apart from the
// screen, so that it can be tested.

import { type Mass, weight } from "../format.ts";
import { text } from "../strings.ts";
import type { SlipLimits, WeighView } from "../types.gen.ts";
import { faultWords, verdictWords } from "../words.ts";
import * as bowl from "./weigh-bowl.ts";

/** Why Add does nothing yet. With `ask`, pressing once more means it: what was
 * asked is remembered until something is added or picked. */
export interface Refusal {
	says: string;
	ask?: string;
	/** shown beside the figure, in place of the scrap's verdict */
	amount?: boolean;
}

/** Asked about once, an amount or a scrap is taken as meant. */
export function whyNot(
	d: bowl.Draft,
	view: WeighView,
	tray: string,
	meant: readonly string[],
): Refusal | undefined {
	if (!d.pick) return { says: text.weigh.emptyHint };
	if (Number.isNaN(bowl.addable(d, view))) {
		const tared = d.tare > 0 && d.typed !== "";
		return { says: tared ? text.weigh.belowTare : text.weigh.noAmount };
	}
	if (bowl.add(d, view) === d) return { says: text.weigh.full };
	const scrap = warned(d, view);
	if (scrap && !meant.includes(scrap.id)) {
		const { head, rest } = verdictWords(scrap);
		return { says: `${head} ${rest} ${text.weigh.pressAgain}`, ask: scrap.id };
	}
	const slip = slipOf(d, view, tray);
	if (slip && !(slip.ask && meant.includes(slip.ask))) return slip;
	return undefined;
}

function warned(d: bowl.Draft, view: WeighView) {
	const scrap = view.scraps.find((s) => s.id === d.pick?.scrap);
	return scrap?.verdict === "avoid" || scrap?.verdict === "never" ? scrap : undefined;
}

const amountAsk = (grams: number): string => `amount ${grams}`;

/** What is held against the limits: the bowl with what Add would put in. A bowl
 * whose size was confirmed once is asked about by what is added to it. */
const asked = (d: bowl.Draft, view: WeighView): number =>
	bowl.addable(d, view) + (d.meant ? 0 : bowl.total(d));

function slipOf(d: bowl.Draft, view: WeighView, tray: string): Refusal | undefined {
	const grams = asked(d, view);
	const limits = limitsOf(view, tray);
	if (!limits || !(grams > limits.ask)) return undefined;
	const kind = grams > limits.refuse ? "refuse" : "ask";
	const limit = limits[kind];
	const ration = view.rations.find((r) => r.tray === tray)?.grams ?? 0;
	const fault = { kind: "slip", slip: { kind, grams, limit } } as const;
	const says = faultWords(fault, view.mass as Mass, ration);
	return { says, amount: true, ...(kind === "ask" ? { ask: amountAsk(grams) } : {}) };
}

/** A view that was remembered by an older app knows none. */
const limitsOf = (view: WeighView, tray: string): SlipLimits | undefined =>
	view.limits?.find((l) => l.tray === tray) ?? view.limits?.find((l) => l.tray === "");

/** The draft with what is picked, and whether its size was confirmed. */
export function added(
	d: bowl.Draft,
	view: WeighView,
	tray: string,
	meant: readonly string[],
): bowl.Draft {
	const confirmed = slipOf(d, view, tray)?.ask;
	return {
		...bowl.add(d, view),
		cut: false,
		frozen: false,
		meant: d.meant || (confirmed !== undefined && meant.includes(confirmed)),
	};
}

/** What the Add key says: what pressing it again would mean, once it was asked. */
export function addWord(
	d: bowl.Draft,
	view: WeighView,
	tray: string,
	meant: readonly string[],
): string {
	const slip = slipOf(d, view, tray)?.ask;
	if (slip && meant.includes(slip))
		return text.faults.slipYes(weight(asked(d, view), view.mass as Mass));
	const scrap = warned(d, view);
	return scrap && meant.includes(scrap.id) ? text.weigh.surePress : text.weigh.keys.add;
}
