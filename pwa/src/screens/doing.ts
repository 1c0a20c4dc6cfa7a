// What one tap on Today writes, apart from the screen.

import type { Intent, Item, ItemView, Job } from "../types.gen.ts";

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
