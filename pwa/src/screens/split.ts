// Splitting a bowl by hand: the sums, apart from the screen.

import type { BinView, Bowl, Share } from "../types.gen.ts";

/** What is offered when somebody splits a bowl: every bin's open tray, the
 * freezer and the waste, beginning with what the advice drew. */
export function evenSplit(bowl: Bowl, bins: BinView[]): Share[] {
	const drawn = (to: string, tray?: string): number =>
		bowl.split
			.filter((s) => s.to === to && (!tray || s.tray === tray))
			.reduce((sum, s) => sum + s.grams, 0);
	const trays = bins.flatMap((bin): Share[] => {
		const tier = bin.stack.find((t) => t.id === bin.tray);
		return tier
			? [
					{
						to: "tray",
						bin: bin.id,
						tray: tier.id,
						name: `${bin.name}, ${tier.name}`,
						grams: drawn("tray", tier.id),
					},
				]
			: [];
	});
	return [
		...trays,
		{ to: "freezer", grams: drawn("freezer") },
		{ to: "waste", grams: drawn("waste") },
	];
}

/** What stays in the bowl, g; negative when more is given than it holds. */
export const splitLeft = (grams: number, shares: Share[]): number =>
	grams - shares.reduce((sum, s) => sum + s.grams, 0);

/** The shares that an entry names: those that get something. */
export function splitSteps(shares: Share[]): { to: string; tray?: string; grams: number }[] {
	return shares
		.filter((s) => s.grams > 0)
		.map((s) => ({ to: s.to, ...(s.tray ? { tray: s.tray } : {}), grams: s.grams }));
}
