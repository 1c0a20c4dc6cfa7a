// What is to be done about pictures, worked out afresh each time from what the
// record says, what this phone keeps and what the server keeps. There is no
// queue that could be lost: whatever was interrupted is simply still to be done.

import type { PhotoRow } from "./photo-store.ts";

/** What the household's record says of pictures. */
export interface Named {
	/** Hashes that entries have, newest first. */
	live: string[];
	/** Hashes of removed pictures that no entry names any more. */
	gone: string[];
}

/** What this phone can do by itself. */
export interface Home {
	/** Copies to delete here. */
	drop: string[];
	/** Whether the server has to be asked what it keeps. */
	ask: boolean;
}

/** What is to be done with the server. */
export interface Away {
	put: string[];
	remove: string[];
	fetch: string[];
	/** Kept here and found there: nothing to send. */
	shared: string[];
}

// A picture whose entry was never saved: nobody will see it (our choice).
const UNPLACED_MS = 24 * 60 * 60_000;

/** How many of the newest pictures a phone keeps for where there is no signal;
 * older ones are fetched when they are looked at (our choice: about 15 MB). */
export const NEWEST = 40;

/** Whether one of the newest is not here. */
export const lacks = (named: Named, here: Set<string>): boolean =>
	named.live.slice(0, NEWEST).some((hash) => !here.has(hash));

/** What follows from the record alone. `seen` are the gone ones that the server
 * is known not to keep. */
export function planHome(named: Named, kept: PhotoRow[], seen: Set<string>, now: number): Home {
	const live = new Set(named.live);
	const gone = new Set(named.gone);
	const drop = kept
		.filter((row) => gone.has(row.hash) || (!live.has(row.hash) && now - row.at > UNPLACED_MS))
		.map((row) => row.hash);
	const here = new Set(kept.map((row) => row.hash));
	const ask =
		named.gone.some((hash) => !seen.has(hash)) ||
		kept.some((row) => live.has(row.hash) && !row.shared && !row.refused) ||
		lacks(named, here);
	return { drop, ask };
}

/** What follows once the server has said what it keeps. A phone that may not
 * write only fetches. */
export function planAway(
	named: Named,
	kept: PhotoRow[],
	server: string[],
	mayWrite: boolean,
): Away {
	const there = new Set(server);
	const here = new Set(kept.map((row) => row.hash));
	const live = new Set(named.live);
	const ours = kept.filter((row) => live.has(row.hash));
	return {
		put: mayWrite
			? ours.filter((row) => !there.has(row.hash) && !row.refused).map((row) => row.hash)
			: [],
		remove: mayWrite ? named.gone.filter((hash) => there.has(hash)) : [],
		fetch: named.live.slice(0, NEWEST).filter((hash) => there.has(hash) && !here.has(hash)),
		shared: ours.filter((row) => there.has(row.hash) && !row.shared).map((row) => row.hash),
	};
}
