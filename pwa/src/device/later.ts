// Files that a phone may need in the cellar but not on its first visit: words of
// other languages, and the reader of labels for browsers without one. The page
// fetches them when nothing else is to do; the service worker answers from the
// same cache, and sees to it that a new version brings its own along.

/** The cache that page and service worker share. */
export const LATER_CACHE = "trayside-later";

/** Fetches what is missing. Rejects when something can't be had. */
export async function keepLater(urls: readonly string[], caches: CacheStorage): Promise<void> {
	const cache = await caches.open(LATER_CACHE);
	for (const url of urls) {
		if (!(await cache.match(url))) await cache.add(url);
	}
}

// "/assets/es-0a1b2c3d4e.js" without its hash.
const nameOf = (path: string): string => path.replace(/-[0-9a-f]+(?=\.\w+$)/, "");
const pathOf = (request: { url: string }): string => new URL(request.url).pathname;

/** Fetches the new versions of what is kept, before the version with these files
 * takes over: it may do so without a network. */
export async function renewLater(urls: readonly string[], caches: CacheStorage): Promise<void> {
	const cache = await caches.open(LATER_CACHE);
	const kept = new Set((await cache.keys()).map((request) => nameOf(pathOf(request))));
	await keepLater(
		urls.filter((url) => kept.has(nameOf(url))),
		caches,
	);
}

/** Drops what the version with these files no longer uses. */
export async function dropLater(urls: readonly string[], caches: CacheStorage): Promise<void> {
	const cache = await caches.open(LATER_CACHE);
	for (const request of await cache.keys()) {
		if (!urls.includes(pathOf(request))) await cache.delete(request);
	}
}
