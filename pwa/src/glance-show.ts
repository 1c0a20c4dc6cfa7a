// The shell's own script, which runs while the page is being read: shows the
// glance at the tray whose label was opened (glance.ts), or takes its place away.
// It is a bundle of its own, so that it waits for nothing.

import { dayIn } from "./device/clock.ts";
import { endGlance, type Glance, glanceAt } from "./glance.ts";
import { language } from "./language.ts";
import { read } from "./router.ts";

function show(page: HTMLElement, { at, zone, shape, ...held }: Glance): void {
	const sameDay = dayIn(zone, at) === dayIn(zone, Date.now());
	const says = { ...held.says, ...(sameDay ? held.onDay : held.later) };
	for (const each of page.querySelectorAll<HTMLElement>("[data-say]")) {
		const words = says[each.dataset.say ?? ""] ?? "";
		if (words) each.textContent = words;
		else each.remove();
	}
	for (const each of page.querySelectorAll<HTMLElement>("[data-with]")) {
		if (!says[each.dataset.with ?? ""]) each.remove();
	}
	page.querySelector(".numeral")?.setAttribute("class", shape);
	document.documentElement.lang = language;
	page.hidden = false;
}

const { place, args } = read(new URL(location.href));
const held = place === "tray" ? glanceAt(args.arg) : undefined;
const page = document.getElementById("glance");
if (held && page) show(page, held);
else endGlance();
