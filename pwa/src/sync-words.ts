// What the sync line says. It never says more than is known: what waits here,
// when the household was last heard in full, and why not if not.

import type { SyncStatus } from "./device/border.ts";
import { clockTime } from "./format.ts";
import { text } from "./strings.ts";

/** The part of the phone's state that these sentences tell. */
export interface Told {
	sync: SyncStatus;
	waiting: number;
	pictures: number;
	refused: number;
}

/** What stands in the way of hearing the household, "" if nothing does. */
export function trouble({ sync }: Told): string {
	const words = text.sync;
	const [detail = "", ...rest] = (sync.detail ?? "").split(" ");
	switch (sync.state) {
		case "idle":
		case "busy":
			return "";
		case "offline":
			return words.noAnswer[detail as keyof typeof words.noAnswer] ?? words.offline;
		case "portal":
		case "auth":
		case "revoked":
			return words[sync.state];
		case "problem": {
			const known = words.details[detail];
			return known ? [`${words.problem}: ${known}`, ...rest].join(" ") : words.problem;
		}
		default:
			sync.state satisfies never;
			return "";
	}
}

/** Whether what the household wrote is still on its way here for the first time:
 * what the engine makes of a part of it would not be a ration. Where the exchange
 * has trouble of its own, a part is better than nothing, and the line says why. */
export const arriving = ({ sync }: Told): boolean => sync.heard === 0 && sync.state !== "problem";

/** The line's sentences, in order. */
export function sentences(state: Told, now: number): string[] {
	const said: string[] = [];
	const stuck = trouble(state);
	if (stuck) said.push(stuck);
	const { heard, fetched } = state.sync;
	const { waiting, pictures } = state;
	if (waiting > 0 || pictures === 0) {
		const shared = waiting === 0 && heard > 0 && fetched === 0;
		said.push(shared ? text.sync.shared : text.sync.waiting(waiting));
	}
	if (pictures > 0) said.push(text.sync.pictures(pictures));
	if (state.refused > 0) said.push(text.sync.refused(state.refused));
	if (fetched > 0) said.push(text.sync.fetching(fetched));
	else said.push(heard > 0 ? text.sync.heard(clockTime(heard, now)) : text.sync.neverHeard);
	return said;
}
