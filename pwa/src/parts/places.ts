// The graduated strip of places at the foot of the app, an index over the one
// that is open.

import { html, svg, type TemplateResult } from "lit";
import { text } from "../strings.ts";

const places = [
	{ path: "/", word: text.places.today },
	{ path: "/weigh", word: text.places.weigh },
	{ path: "/scan", word: text.places.scan },
	{ path: "/look", word: text.places.look },
	{ path: "/more", word: text.places.more },
];

const behindMore = [
	...["/timeline", "/household", "/food", "/freezer"],
	...["/labels", "/card", "/trouble", "/harvest", "/bin", "/plan"],
];

/** The place a path belongs to. */
export function placeOf(path: string): string {
	if (path === "/t" || path.startsWith("/t/")) return "/scan";
	if (path === "/catch-up") return "/look";
	if (behindMore.includes(path)) return "/more";
	return places.some((p) => p.path === path) ? path : "/";
}

export function placesStrip(path: string): TemplateResult {
	const here = placeOf(path);
	return html`<nav class="places" aria-label=${text.app.places}>
		<svg class="ticks" aria-hidden="true" width="100%" height="7">
			${Array.from({ length: 26 }, (_, i) => svg`<line x1="${i * 4}%" x2="${i * 4}%" y1="0" y2="6"/>`)}
		</svg>
		${places.map((p) => {
			const on = p.path === here;
			return html`<a href=${p.path} class=${on ? "on" : ""} aria-current=${on ? "page" : "false"}>
				<svg class="mark" aria-hidden="true" width="18" height="13">${
					on ? svg`<path class="index" d="M0 0h18l-9 12Z"/>` : svg`<path class="tick" d="M9 0v11"/>`
				}</svg>${p.word}</a>`;
		})}
	</nav>`;
}
