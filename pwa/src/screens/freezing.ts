// What is taken out of the freezer and where it goes, apart from the screen.

import type { FreezerView, Intent, Item, StockView } from "../types.gen.ts";
import { itemsOf } from "./doing.ts";

/** Where what is taken out goes: a bowl, a tray's id, or the waste. */
export type Where = "bowl" | "waste" | { tray: string };

/** Items of `grams` in all, the oldest kinds first; only the picked ones, if any. */
export function takeItems(kinds: StockView[], picked: Set<string>, grams: number): Item[] {
	let rest = grams;
	const taken = chosen(kinds, picked).flatMap(({ item }) => {
		const out = Math.min(rest, item.grams);
		rest -= out;
		return out > 0 ? [{ ...item, grams: out, frozen: true }] : [];
	});
	return itemsOf(taken);
}

/** A kind's name within the view. */
export const kindOf = ({ item }: StockView): string =>
	[item.scrap, item.class ?? "", item.name].join("\n");

export const chosen = (kinds: StockView[], picked: Set<string>): StockView[] =>
	picked.size === 0 ? kinds : kinds.filter((kind) => picked.has(kindOf(kind)));

export const stockOf = (kinds: StockView[], picked: Set<string>): number =>
	chosen(kinds, picked).reduce((sum, kind) => sum + kind.item.grams, 0);

/** What today's rations have room for, g. */
export const roomOf = (view: FreezerView): number =>
	view.room.reduce((sum, share) => sum + share.grams, 0);

/** The entries of one tap: where the scraps go, and that they left the freezer. */
export function takeIntents(
	items: Item[],
	where: Where,
	given: { bowlName: string; member: string },
): [Intent, Intent] {
	const who = given.member ? { member: given.member } : {};
	const out: Intent = {
		do: "freeze",
		items: items.map(({ frozen: _, ...item }) => ({ ...item, g: -item.g })),
	};
	if (where === "bowl") {
		return [{ do: "bowl", items, how: "scale", set: { name: given.bowlName }, ...who }, out];
	}
	if (where === "waste") return [{ do: "discard", items }, out];
	return [{ do: "feed", tray: where.tray, items, how: "scale", ...who }, out];
}
