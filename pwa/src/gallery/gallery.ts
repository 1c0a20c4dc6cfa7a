// The gallery: every screen with invented views and no phone behind it. The
// address's hash names the view, e.g. #tray-hold.

import "../styles/tokens.css";
import "../styles/base.css";
import "../styles/pens.css";
import "../styles/parts.css";
import "../styles/screens.css";
import "../styles/section.css";
import "../styles/tasks.css";
import "../styles/visit.css";
import "../styles/phone.css";
import "../screens/freezer.ts";
import "../screens/today.ts";
import "../screens/tray.ts";
import "../screens/weigh.ts";
import "../screens/look.ts";
import "../screens/timeline.ts";
import "../screens/code.ts";
import "../screens/more.ts";
import { html, render } from "lit";
import type { App, Views } from "../app-api.ts";
import { fixtureApp } from "../app-fixture.ts";
import { placesStrip } from "../parts/places.ts";
import * as views from "./fixtures.ts";

interface Exhibit {
	tag: "today" | "freezer" | "tray" | "weigh" | "look" | "timeline" | "code" | "more";
	views: Partial<Views>;
	query?: string;
}

const exhibits: Record<string, Exhibit> = {
	today: { tag: "today", views: { today: views.todayView } },
	"today-double": { tag: "today", views: { today: views.todayDouble } },
	"today-hold": { tag: "today", views: { today: views.todayHold } },
	tray: { tag: "tray", views: { tray: views.trayView } },
	"tray-tall": { tag: "tray", views: { tray: views.trayTall } },
	"tray-bowl": { tag: "tray", views: { tray: views.trayBowl } },
	"tray-hold": { tag: "tray", views: { tray: views.trayHold } },
	"tray-zero": { tag: "tray", views: { tray: views.trayZero } },
	"tray-guess": { tag: "tray", views: { tray: views.trayGuess } },
	"tray-unclaimed": { tag: "tray", views: { tray: views.trayUnclaimed } },
	"tray-malformed": { tag: "tray", views: { tray: views.trayMalformed } },
	"tray-removed": { tag: "tray", views: { tray: views.trayRemoved } },
	weigh: { tag: "weigh", views: { weigh: views.weighView } },
	"weigh-tray": {
		tag: "weigh",
		views: { weigh: views.weighView, tray: views.trayView },
		query: "tray=tray/fern",
	},
	look: {
		tag: "look",
		views: { tray: views.trayView, today: views.todayView },
		query: "tray=tray/fern",
	},
	"look-choose": { tag: "look", views: { today: views.todayView } },
	timeline: { tag: "timeline", views: { timeline: views.timelineView, today: views.todayView } },
	code: { tag: "code", views: { today: views.todayView } },
	more: { tag: "more", views: {} },
	freezer: { tag: "freezer", views: { freezer: views.freezerView } },
};

const paths = {
	today: "/",
	tray: "/t/x",
	weigh: "/weigh",
	look: "/look",
	timeline: "/timeline",
	code: "/t",
	more: "/more",
	freezer: "/freezer",
};

function screen(exhibit: Exhibit, app: App) {
	const args = {
		arg: exhibit.tag === "tray" ? "FERN-2345" : "",
		query: new URLSearchParams(exhibit.query),
	};
	switch (exhibit.tag) {
		case "today":
			return html`<today-screen .app=${app} .args=${args}></today-screen>`;
		case "freezer":
			return html`<freezer-screen .app=${app} .args=${args}></freezer-screen>`;
		case "tray":
			return html`<tray-screen .app=${app} .args=${args}></tray-screen>`;
		case "weigh":
			return html`<weigh-screen .app=${app} .args=${args}></weigh-screen>`;
		case "look":
			return html`<look-screen .app=${app} .args=${args}></look-screen>`;
		case "timeline":
			return html`<timeline-screen .app=${app} .args=${args}></timeline-screen>`;
		case "code":
			return html`<code-screen .app=${app} .args=${args}></code-screen>`;
		case "more":
			return html`<more-screen .app=${app} .args=${args}></more-screen>`;
	}
}

const name = location.hash.slice(1) || "today";
const exhibit = exhibits[name];
const app = fixtureApp(exhibit?.views ?? {});
app.me = () => ({ member: "member/tamsin", role: "keeper", device: "0".repeat(32) });
Object.assign(globalThis, { galleryApp: app });
render(
	html`<div class="shell">${
		exhibit
			? screen(exhibit, app)
			: Object.keys(exhibits).map((key) => html`<p><a href="#${key}">${key}</a></p>`)
	}</div>${exhibit && exhibit.tag !== "weigh" ? placesStrip(paths[exhibit.tag]) : ""}`,
	document.body,
);
addEventListener("hashchange", () => location.reload());
