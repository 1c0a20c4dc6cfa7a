// When the reader of labels is fetched: in idle time after the first visit, and
// only where the browser can't read labels itself.

import { browserDetector } from "./decoder.ts";
import { keepLater } from "./later.ts";

/** Waits until the service worker has everything that every phone needs; what
 * could not be had is asked for again with the next connection. */
export async function keepReader(detector: unknown): Promise<void> {
	if (!("caches" in globalThis) || (await browserDetector(detector))) return;
	await navigator.serviceWorker.ready;
	const keep = (): void => {
		void keepLater(LATER, caches).catch(() => {
			addEventListener("online", keep, { once: true });
		});
	};
	if ("requestIdleCallback" in globalThis) requestIdleCallback(keep);
	else setTimeout(keep, 2000);
}
