// Addresses of the app. They are few and for ever: labels on trays carry one.

import type { ScreenArgs } from "./app-api.ts";

export type Place =
	| "today"
	| "tray"
	| "code"
	| "scan"
	| "weigh"
	| "bin"
	| "plan"
	| "food"
	| "timeline"
	| "freezer"
	| "household"
	| "labels"
	| "card"
	| "look"
	| "trouble"
	| "harvest"
	| "catch-up"
	| "more"
	| "join"
	| "lost";

export interface Route {
	place: Place;
	args: ScreenArgs;
}

/** Reads an address. A label's code is taken as it stands: the engine knows
 * which letters, cases and hyphens mean the same. */
export function read(url: URL): Route {
	const path = url.pathname.replace(/\/+$/, "") || "/";
	const route = (place: Place, arg = ""): Route => ({
		place,
		args: { arg, query: url.searchParams },
	});
	const label = /^\/t\/([^/]+)$/i.exec(path)?.[1];
	if (label !== undefined) return route("tray", decoded(label));
	switch (path.toLowerCase()) {
		case "/":
		case "/index.html":
			return route("today");
		case "/t":
			return route("code");
		case "/scan":
			return route("scan");
		case "/weigh":
			return route("weigh");
		case "/bin":
			return route("bin");
		case "/plan":
			return route("plan");
		case "/food":
			return route("food");
		case "/timeline":
			return route("timeline");
		case "/freezer":
			return route("freezer");
		case "/household":
			return route("household");
		case "/labels":
			return route("labels");
		case "/card":
			return route("card");
		case "/look":
			return route("look");
		case "/trouble":
			return route("trouble");
		case "/harvest":
			return route("harvest");
		case "/catch-up":
			return route("catch-up");
		case "/more":
			return route("more");
		case "/join":
			return route("join");
		default:
			return route("lost");
	}
}

function decoded(part: string): string {
	try {
		return decodeURIComponent(part);
	} catch {
		return part;
	}
}

/** The address of a link that stays inside the app, else null: another origin,
 * a download, a new window or the server's own pages are the browser's. */
export function inside(event: MouseEvent, origin: string): URL | null {
	if (event.defaultPrevented || event.button !== 0) return null;
	if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return null;
	for (const node of event.composedPath()) {
		if (!(node instanceof HTMLAnchorElement)) continue;
		if (node.target || node.hasAttribute("download")) return null;
		const url = new URL(node.href);
		return url.origin === origin && !url.pathname.startsWith("/api/") ? url : null;
	}
	return null;
}
