// Where the screen of each place comes from. The two that a scan or a start
// opens are part of the first script; all others are a second one, so that a
// label's ration does not wait for forms it does not need. Both are among the
// kept files, and the second is fetched once the first screen has settled.

import type { Place } from "./router.ts";
import "./screens/today.ts";
import "./screens/tray.ts";

const first: Place[] = ["today", "tray", "lost"];
let brought = false;

/** Whether the element of a place is defined, so that it may be put into the page. */
export const here = (place: Place): boolean => brought || first.includes(place);

/** Brings the elements of all places. Rejects if their script can't be had. */
export async function bringRest(): Promise<void> {
	await import("./screens/rest.ts");
	brought = true;
}

/** The same when the page has nothing better to do. */
export function bringRestLater(): void {
	const bring = () => void bringRest().catch(() => {});
	if ("requestIdleCallback" in globalThis) requestIdleCallback(bring, { timeout: 5_000 });
	else setTimeout(bring, 2_000);
}
