// Files that a phone may need in the cellar but not on its first visit: the
// reader of labels, for browsers without one. They are fetched when nothing
// else is to do and kept for use without a network; the service worker answers
// from the same cache.

/** The cache that page and service worker share. */
export const LATER_CACHE = "trayside-later";

/** Fetches what is missing, then drops what this version no longer uses.
 * Rejects when something can't be had. */
export async function keepLater(urls: string[], caches: CacheStorage): Promise<void> {
	const cache = await caches.open(LATER_CACHE);
	for (const url of urls) {
		if (!(await cache.match(url))) await cache.add(url);
	}
	for (const request of await cache.keys()) {
		if (!urls.includes(new URL(request.url).pathname)) await cache.delete(request);
	}
}
