// Mending a feeding: its weight and who fed. Only what was changed is written,
// so that an edit never undoes what somebody else mended meanwhile.

import { html, nothing, type TemplateResult } from "lit";
import { GRAMS_PER_OUNCE, type Mass, number, parseAmount } from "../format.ts";
import { type Who, whoChooser, whoSays } from "../parts/who.ts";
import { text } from "../strings.ts";
import type { Entry, Intent, Item, ItemView, Person } from "../types.gen.ts";

export interface Mending {
	typed: string;
	before: string; // as it was shown
	who: Who;
	whoBefore: Who;
	bad: boolean;
}

export function mendingOf(e: Entry, members: Person[], mass: Mass): Mending {
	const grams = e.feed?.grams ?? 0;
	const typed = mass === "g" ? String(grams) : number(grams / GRAMS_PER_OUNCE, 2).replace(/,/g, "");
	const member = members.find((m) => m.name === e.feed?.who && !e.feed.guest)?.id ?? "";
	const who = { member, guest: member ? "" : (e.feed?.who ?? "") };
	return { typed, before: typed, who, whoBefore: who, bad: false };
}

/** Items that weigh `grams` in all, each kind in proportion; what rounding
 * leaves over goes to the first. Kinds that were not weighed stay listed. */
export function scaled(items: ItemView[], grams: number): Item[] {
	const of = items.reduce((sum, i) => sum + i.grams, 0);
	const parts = items.map(
		(i): Item => ({
			scrap: i.scrap,
			g: of > 0 ? Math.floor((i.grams * grams) / of) : 0,
			...(i.class ? { class: i.class } : {}),
			...(i.scrap === "other" ? { name: i.name } : {}),
			...(i.cut ? { cut: true } : {}),
			...(i.frozen ? { frozen: true } : {}),
		}),
	);
	const first = parts[0];
	if (first) first.g += grams - parts.reduce((sum, p) => sum + p.g, 0);
	return parts.filter((p, i) => p.g > 0 || items[i]?.grams === 0);
}

/** The edit as an entry, or undefined if the weight can't be read. */
export function mendIntent(e: Entry, m: Mending, mass: Mass): Intent | undefined {
	const set: Record<string, unknown> = {};
	if (m.typed !== m.before) {
		const grams = parseAmount(m.typed, mass);
		if (!(grams > 0)) return undefined;
		const items = e.feed?.items ?? [];
		set.items = scaled(
			items.length > 0 ? items : [{ scrap: "kitchen-mixed", name: "", grams: 1 }],
			grams,
		);
		set.how = "scale";
	}
	if (m.who.member !== m.whoBefore.member || m.who.guest !== m.whoBefore.guest) {
		Object.assign(set, { member: "", guest: "" }, whoSays(m.who));
	}
	return { do: "edit", entity: e.entity, set };
}

export interface MendDoes {
	change: (m: Mending) => void;
	save: () => void;
	close: () => void;
}

export function editForm(
	m: Mending,
	members: Person[],
	mass: Mass,
	does: MendDoes,
): TemplateResult {
	const submit = (event: SubmitEvent): void => {
		event.preventDefault();
		does.save();
	};
	const same =
		m.typed === m.before &&
		m.who.member === m.whoBefore.member &&
		m.who.guest === m.whoBefore.guest;
	return html`<form class="tools" novalidate @submit=${submit}>
		<label class="field">${text.timeline.gramsUnit(mass)}<input type="text" inputmode="decimal" autocomplete="off" .value=${m.typed} aria-invalid=${m.bad ? "true" : "false"}
			@input=${(e: InputEvent) => does.change({ ...m, typed: (e.target as HTMLInputElement).value, bad: false })}></label>
		${m.bad ? html`<p role="alert">${text.timeline.badAmount(mass)}</p>` : nothing}
		${whoChooser(text.parts.fedBy, m.who, members, (who) => does.change({ ...m, who }))}
		<div class="choices"><button type="button" class="plain" @click=${does.close}>${text.timeline.close}</button>
			<button type="submit" class="go ink" ?disabled=${same}>${text.timeline.save}</button></div>
	</form>`;
}
