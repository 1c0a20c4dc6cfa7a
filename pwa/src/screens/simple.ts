// Whether this phone shows the feeder's screen: three things to do and the
// drawing. By itself on a child's phone; by choice, under More, on any other
// that may write, or never.

import { html, type TemplateResult } from "lit";
import type { App } from "../app-api.ts";
import { text } from "../strings.ts";
import type { Person } from "../types.gen.ts";

const KEY = "trayside-simple";
const choices = ["child", "on", "off"] as const;
export type SimpleChoice = (typeof choices)[number];

// Storage may be forbidden, and tests have none.
function chosen(): SimpleChoice {
	try {
		const kept = globalThis.localStorage?.getItem(KEY);
		return choices.find((c) => c === kept) ?? "child";
	} catch {
		return "child";
	}
}

export function simple(
	me: ReturnType<App["me"]>,
	members: Person[],
	choice: SimpleChoice = chosen(),
): boolean {
	if (choice === "off" || me.role === "viewer" || me.role === "") return false;
	if (choice === "on") return true;
	return me.role === "feeder" && members.some((m) => m.id === me.member && m.child === true);
}

/** The choice, for the page More. */
export function simpleChoice(): TemplateResult {
	const now = chosen();
	return html`<fieldset class="choice"><legend>${text.feeder.choice}</legend>
		${choices.map(
			(c) =>
				html`<label><input type="radio" name="simple" .checked=${c === now} @change=${() => {
					try {
						localStorage.setItem(KEY, c);
					} catch {
						// Then it stays by the person, which is the default.
					}
				}}>${text.feeder.choices[c]}</label>`,
		)}
	</fieldset>`;
}
