// What one tap on a tray's page writes down: a meal as the dial says it, from
// the bowl that waits or not. Apart from the screen, so that it can be tested.

import { type Who, whoSays } from "../parts/who.ts";
import type { Bowl, Intent, TrayView } from "../types.gen.ts";

/** What of a waiting bowl goes in: all of it, the dialled part with the rest
 * frozen or left waiting, or nothing of it. */
export type FromBowl = "all" | "freeze-rest" | "part" | "none";

/** What the advice's own split would do with the bowl at this tray. */
export function bowlDefault(bowl: Bowl, tray: string, ration: number): FromBowl {
	if (ration === 0) return "none";
	if (bowl.grams > 0 && bowl.grams <= ration) return "all";
	const here = bowl.split.some((s) => s.to === "tray" && s.tray === tray);
	if (!here) return bowl.grams > 0 ? "part" : "all";
	const elsewhere = bowl.split.some((s) => s.to === "tray" && s.tray !== tray);
	// What other trays are to get must not be frozen away from them.
	return !elsewhere && bowl.split.some((s) => s.to === "freezer") ? "freeze-rest" : "part";
}

/** Grams that go in, given the choice and the dial. */
export const mealGrams = (choice: FromBowl, bowl: Bowl | undefined, dialled: number): number =>
	!bowl || choice === "none"
		? dialled
		: choice === "all"
			? bowl.grams
			: Math.min(dialled, bowl.grams);

export interface Meal {
	view: TrayView;
	bowl: Bowl | undefined;
	choice: FromBowl;
	dialled: number;
	spot: string;
	who: Who;
	/** Feeding against the advice: the amount is what people say, not a ration. */
	inBin?: boolean;
}

export function mealIntent({
	view,
	bowl,
	choice,
	dialled,
	spot,
	who,
	inBin = false,
}: Meal): Intent {
	const tray = view.id ?? "";
	const place = spot ? { spot } : {};
	const sure = inBin ? { inBin } : {};
	if (bowl && choice !== "none") {
		const grams = mealGrams(choice, bowl, dialled);
		const rest = bowl.grams - grams;
		const shares = [{ to: "tray", tray, ...place, grams }];
		if (choice === "freeze-rest" && rest > 0) shares.push({ to: "freezer", tray: "", grams: rest });
		return {
			do: "place",
			bowl: bowl.id,
			items: bowl.items.map((i) => ({
				scrap: i.scrap,
				...(i.class ? { class: i.class } : {}),
				...(i.scrap === "other" ? { name: i.name } : {}),
				g: i.grams,
				...(i.cut ? { cut: true } : {}),
				...(i.frozen ? { frozen: true } : {}),
			})),
			shares: shares.map(({ tray: to, ...s }) => (to ? { ...s, tray: to } : s)),
			...whoSays(who),
			...sure,
		};
	}
	const advised = view.ration !== undefined && !view.ration.hold && view.ration.grams === dialled;
	return {
		do: "feed",
		...(view.bin ? { bin: view.bin } : {}),
		tray,
		...place,
		// Nobody said what it was: the catalogue has an entry for a kitchen's mix.
		items: [{ scrap: "kitchen-mixed", g: dialled }],
		how: advised ? "as-advised" : "unweighed",
		...whoSays(who),
		...sure,
	};
}
