// Who did it, apart from whose phone writes it down: a member, with or without
// a phone, or a guest by name.

import { html, nothing, type TemplateResult } from "lit";
import { text } from "../strings.ts";
import type { Person } from "../types.gen.ts";
import { memberName } from "../words.ts";

export interface Who {
	member: string; // "" for a guest
	guest: string;
}

/** The part of an intent that says who. A guest who gave no name is still a
 * guest: the meal must not be put down to the phone's owner. */
export function whoSays(who: Who): { member: string } | { guest: string } {
	return who.member ? { member: who.member } : { guest: who.guest.trim() || text.parts.guest };
}

export const whoName = (who: Who, members: Person[]): string =>
	who.member ? memberName(members, who.member) : who.guest.trim() || text.parts.guest;

/** A chooser that stays folded until somebody else fed. */
export function whoChooser(
	lead: string,
	who: Who,
	members: Person[],
	choose: (who: Who) => void,
): TemplateResult {
	return html`<details class="who">
		<summary><span>${lead} <b>${whoName(who, members)}</b></span><span class="change">${text.parts.change}</span></summary>
		<div class="picks" role="group" aria-label=${lead}>
			${members.map(
				(m) => html`<button type="button" aria-pressed=${who.member === m.id ? "true" : "false"}
				class="pickword ${who.member === m.id ? "on" : ""}" @click=${() => choose({ member: m.id, guest: "" })}>${m.name}</button>`,
			)}
			<button type="button" aria-pressed=${who.member === "" ? "true" : "false"}
				class="pickword ${who.member === "" ? "on" : ""}" @click=${() => choose({ member: "", guest: who.guest })}>${text.parts.guest}</button>
		</div>
		${
			who.member === ""
				? html`<label class="field">${text.parts.guestName}<input type="text" maxlength="60" autocomplete="off" .value=${who.guest}
				@input=${(e: InputEvent) => choose({ member: "", guest: (e.target as HTMLInputElement).value })}></label>`
				: nothing
		}
	</details>`;
}
