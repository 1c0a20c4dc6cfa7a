// Narrowing the timeline to a bin, a kind, a person, or to what lies before a day.

import { html, type TemplateResult } from "lit";
import { dayName } from "../format.ts";
import { text } from "../strings.ts";
import type { TimelineView } from "../types.gen.ts";
import { memberName } from "../words.ts";

export interface Filter {
	bin: string;
	kind: string;
	who: string;
	upTo: string; // a day, "" for now
}

export const everything: Filter = { bin: "", kind: "", who: "", upTo: "" };

const kinds = [
	"feeding",
	"look",
	"bowl",
	"freezing",
	"discard",
	"worms",
	"sample",
	"harvest",
	"batch",
	"rule",
	"photo", // entries of any kind that have one
];

/** What is shown, in words. */
function shown(f: Filter, view: TimelineView): string {
	const parts = [
		view.bins.find((b) => b.id === f.bin)?.name ?? "",
		text.timeline.kinds[f.kind] ?? "",
		f.who ? memberName(view.members, f.who) : "",
		f.upTo ? dayName(f.upTo, view.day) : "",
	].filter(Boolean);
	return parts.length > 0 ? text.timeline.only(parts) : text.timeline.everything;
}

export function filterRow(
	f: Filter,
	view: TimelineView,
	change: (f: Filter) => void,
): TemplateResult {
	const words = text.timeline;
	const select = (label: string, of: "bin" | "kind" | "who", options: [string, string][]) =>
		html`<label class="field">${label}<select @change=${(e: Event) => change({ ...f, [of]: (e.target as HTMLSelectElement).value })}>
			<option value="" ?selected=${f[of] === ""}>${words.all}</option>
			${options.map(([value, name]) => html`<option value=${value} ?selected=${f[of] === value}>${name}</option>`)}</select></label>`;
	return html`<details class="who filter"><summary><span>${words.filter}: <b>${shown(f, view)}</b></span><span class="change">${text.parts.change}</span></summary>
		${select(
			words.ofBin,
			"bin",
			view.bins.map((b) => [b.id, b.name]),
		)}
		${select(
			words.ofKind,
			"kind",
			kinds.map((k) => [k, words.kinds[k] ?? k]),
		)}
		${select(
			words.ofWho,
			"who",
			view.members.map((m) => [m.id, m.name]),
		)}
		<label class="field">${words.upTo}<input type="date" max=${view.day} .value=${f.upTo} @change=${(e: Event) => change({ ...f, upTo: (e.target as HTMLInputElement).value })}></label>
	</details>`;
}
