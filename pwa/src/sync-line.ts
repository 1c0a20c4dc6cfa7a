// The sync line: what this phone knows and what it doesn't, on every screen.
// It never says more than is known: what waits here, when the household was
// last heard in full, and why not if not.

import { html, nothing } from "lit";
import type { PhoneState } from "./device/phone.ts";
import { Light } from "./parts/light.ts";
import { text } from "./strings.ts";

const DAY_MS = 24 * 60 * 60 * 1000;

/** "18:52" within a day, else with its date. */
export function clockTime(ms: number, now: number): string {
	const time = new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit" });
	if (Math.abs(now - ms) < DAY_MS) return time.format(ms);
	const day = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short" });
	return `${day.format(ms)} ${time.format(ms)}`;
}

/** What stands in the way of hearing the household, "" if nothing does. */
export function trouble({ sync }: PhoneState): string {
	const words = text.sync;
	const [detail = "", ...rest] = (sync.detail ?? "").split(" ");
	switch (sync.state) {
		case "idle":
		case "busy":
			return "";
		case "offline":
			return words.noAnswer[detail as keyof typeof words.noAnswer] ?? words.offline;
		case "portal":
		case "auth":
		case "revoked":
			return words[sync.state];
		case "problem": {
			const known = words.details[detail];
			return known ? [`${words.problem}: ${known}`, ...rest].join(" ") : words.problem;
		}
		default:
			sync.state satisfies never;
			return "";
	}
}

/** The line's sentences, in order. */
export function sentences(state: PhoneState, now: number): string[] {
	const said: string[] = [];
	const stuck = trouble(state);
	if (stuck) said.push(stuck);
	said.push(
		state.waiting === 0 && state.sync.heard > 0
			? text.sync.shared
			: text.sync.waiting(state.waiting),
	);
	if (state.refused > 0) said.push(text.sync.refused(state.refused));
	said.push(
		state.sync.heard > 0 ? text.sync.heard(clockTime(state.sync.heard, now)) : text.sync.neverHeard,
	);
	return said;
}

export class SyncLine extends Light {
	static override properties = { state: { attribute: false }, now: { attribute: false } };
	declare state: PhoneState | undefined;
	declare now: number;

	override render() {
		if (this.state?.phase !== "joined") return nothing;
		const said = sentences(this.state, this.now).join(" · ");
		return html`<a class="sync-line" href="/household#exchange" data-state=${this.state.sync.state}
			>${said}</a
		>`;
	}
}

customElements.define("sync-line", SyncLine);
