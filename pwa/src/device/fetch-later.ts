// When the files that nobody needs on the first visit are fetched: in idle time
// after it. The words of other languages for every phone, so that a language can
// be chosen without a network; the reader of labels only where the browser can't
// read labels itself.

import { browserDetector } from "./decoder.ts";
import { keepLater } from "./later.ts";

/** Waits until the service worker has everything that every phone needs; what
 * could not be had is asked for again with the next connection. */
export async function fetchLater(detector: unknown): Promise<void> {
	if (!("caches" in globalThis)) return;
	const urls = (await browserDetector(detector)) ? [SPANISH_URL] : LATER;
	await navigator.serviceWorker.ready;
	const keep = (): void => {
		void keepLater(urls, caches).catch(() => {
			addEventListener("online", keep, { once: true });
		});
	};
	if ("requestIdleCallback" in globalThis) requestIdleCallback(keep);
	else setTimeout(keep, 2000);
}
