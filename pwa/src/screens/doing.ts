// What one tap on Today writes, apart from the screen.

import { type Mass, weight } from "../format.ts";
import { text } from "../strings.ts";
import type { Intent, Item, ItemView, Job, TierView, Told } from "../types.gen.ts";

/** The items of a view as an entry names them: only what the catalogue lacks
 * brings its own class and name. */
export const itemsOf = (views: ItemView[]): Item[] =>
	views.map((item) => ({
		scrap: item.scrap,
		g: item.grams,
		...(item.scrap === "other" ? { class: item.class ?? "", name: item.name } : {}),
		...(item.cut ? { cut: true } : {}),
		...(item.frozen ? { frozen: true } : {}),
	}));

/** The tap that does a job, and what takes it back if that is more than undoing
 * an entry; nothing for a job that takes more than a tap. */
export function jobIntents(job: Job): { intent: Intent; back?: Intent } | undefined {
	if (job.kind === "rest" && job.batch) {
		return {
			intent: { do: "stage", entity: job.batch, set: { stage: "resting" } },
			back: { do: "edit", entity: job.batch, set: { resting: null } },
		};
	}
	if (job.kind === "bed-next" && job.next && job.items?.length) {
		return { intent: { do: "batch", tray: job.next, items: itemsOf(job.items) } };
	}
	return undefined;
}

/** The page on which a job is done that takes more than a tap. */
export function jobPage(job: Job, stack: TierView[]): string {
	const of = `?tray=${encodeURIComponent(job.tray ?? "")}`;
	if (job.kind === "harvest") return `/harvest${of}`;
	if (job.kind === "look" || job.kind === "look-again" || job.kind === "temp") return `/look${of}`;
	const tray = stack.find((t) => t.id === job.tray);
	return tray ? `/t/${encodeURIComponent(tray.code || tray.id)}` : "/";
}

/** A child's meal that was more than advised, as the keepers are told of it. */
export function toldWords({ feed, name, ration }: Told, mass: Mass): string {
	const who = feed.who || text.parts.someone;
	const amount = weight(feed.grams, mass);
	return ration > 0
		? text.feeder.told(who, amount, name, weight(ration, mass))
		: text.feeder.toldNone(who, amount, name);
}
