// The service worker: the shell of the app, without a network. It keeps what
// the build lists, answers every navigation with the one page, and never sees
// an answer of the API. A new version waits until a page says SKIP_WAITING.
//
// To switch it off for good, serve in its place a script that calls
// registration.unregister() on activate and keep serving it for years: phones
// look for a new version only when they are opened.

import { cleanupOutdatedCaches, matchPrecache, precacheAndRoute } from "workbox-precaching";
import { dropLater, LATER_CACHE, renewLater } from "./device/later.ts";

declare const self: ServiceWorkerGlobalScope;

const PAGE = "/index.html";

// Before the precache's own route, which would answer "/" too.
self.addEventListener("fetch", (event) => {
	const url = new URL(event.request.url);
	if (event.request.mode !== "navigate" || url.origin !== self.location.origin) return;
	if (/^\/(api|livez|readyz|metrics)(\/|$)/.test(url.pathname)) return;
	event.stopImmediatePropagation();
	event.respondWith(matchPrecache(PAGE).then((page) => page ?? fetch(event.request)));
});

// What pages put aside after the first visit (device/later.ts).
self.addEventListener("fetch", (event) => {
	const { origin, pathname } = new URL(event.request.url);
	if (origin !== self.location.origin || !LATER.includes(pathname)) return;
	event.respondWith(
		caches
			.open(LATER_CACHE)
			.then((cache) => cache.match(pathname))
			.then((kept) => kept ?? fetch(event.request)),
	);
});

self.addEventListener("install", (event) => event.waitUntil(renewLater(LATER, caches)));
self.addEventListener("activate", (event) => event.waitUntil(dropLater(LATER, caches)));

self.addEventListener("message", (event) => {
	if ((event.data as { type?: unknown } | null)?.type === "SKIP_WAITING") void self.skipWaiting();
});

precacheAndRoute(PRECACHE);
cleanupOutdatedCaches();
