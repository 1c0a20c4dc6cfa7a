// Mending an entry of any kind: its amount, place, person, day and what it says.
// Only what was changed is written, so that an edit never undoes what somebody
// else mended meanwhile.

import { html, nothing, type TemplateResult } from "lit";
import { GRAMS_PER_OUNCE, type Mass, parseAmount, plainNumber, type Temp } from "../format.ts";
import { type Who, whoChooser, whoSays } from "../parts/who.ts";
import { text } from "../strings.ts";
import type { Entry, Intent, Item, ItemView, Person } from "../types.gen.ts";
import { decimal, degrees } from "./look-seen.ts";

/** What of an entry can be mended; every value as it stands in its field. */
export type Part =
	| "weight"
	| "spot"
	| "leftovers"
	| "squeeze"
	| "temp"
	| "smell"
	| "ml"
	| "adults"
	| "young"
	| "cocoons"
	| "note"
	| "day"
	| "time";

const partsOf: Record<string, { parts: Part[]; who: boolean }> = {
	feeding: { parts: ["weight", "spot", "day", "time", "note"], who: true },
	look: {
		parts: ["leftovers", "squeeze", "temp", "smell", "spot", "day", "time", "note"],
		who: true,
	},
	bowl: { parts: ["weight", "day", "time"], who: true },
	freezing: { parts: ["weight", "day", "time"], who: false },
	discard: { parts: ["weight", "day", "time"], who: false },
	worms: { parts: ["weight", "day", "time"], who: false },
	harvest: { parts: ["weight", "ml", "day", "time", "note"], who: true },
	sample: { parts: ["adults", "young", "cocoons", "day", "time"], who: true },
	batch: { parts: ["day"], who: false },
};

export interface Units {
	mass: Mass;
	temp: Temp;
}

export interface Mending {
	values: Partial<Record<Part, string>>;
	before: Partial<Record<Part, string>>; // as they were shown
	who: Who | undefined; // undefined where nobody is written down
	whoBefore: Who | undefined;
	bad: Part | "";
}

export const canMend = (e: Entry): boolean => partsOf[e.kind] !== undefined;

/** A mass as it stands in its field, without thousands. */
function massTyped(grams: number, mass: Mass): string {
	const plain = mass === "g" ? String(grams) : plainNumber(grams / GRAMS_PER_OUNCE, 2);
	return mass === "g" ? plain : plain.replace(/[^\d.,]/g, "").replace(/,(?=\d{3}(\D|$))/g, "");
}

export function mendingOf(e: Entry, day: string, units: Units): Mending {
	const kind = partsOf[e.kind] ?? { parts: [], who: false };
	const grams = Math.abs(e.feed?.grams ?? e.grams ?? 0);
	const all: Record<Part, string> = {
		weight: massTyped(grams, units.mass),
		spot: e.spot ?? "",
		leftovers: e.look?.leftovers ?? "",
		squeeze: e.look?.squeeze ?? "",
		temp: e.look?.temp === undefined ? "" : degrees(e.look.temp, units.temp),
		smell: e.look?.smell ?? "",
		ml: e.ml ? String(e.ml) : "",
		adults: String(e.sample?.adults ?? 0),
		young: String(e.sample?.young ?? 0),
		cocoons: String(e.sample?.cocoons ?? 0),
		note: e.note ?? "",
		day,
		time: /T(\d\d:\d\d)/.exec(e.at)?.[1] ?? "",
	};
	// Worms that were lost are a share of the colony, and have no weight.
	const parts = kind.parts.filter((p) => p !== "weight" || !e.share);
	const values = Object.fromEntries(parts.map((p) => [p, all[p]]));
	const who = kind.who
		? { member: e.member ?? "", guest: e.guest ? (e.who ?? "") : "" }
		: undefined;
	return { values, before: values, who, whoBefore: who, bad: "" };
}

/** Items that weigh `grams` in all, each kind in proportion; what rounding
 * leaves over goes to the first. Kinds that were not weighed stay listed. */
export function scaled(items: ItemView[], grams: number): Item[] {
	const of = items.reduce((sum, i) => sum + i.grams, 0);
	const parts = items.map(
		(i): Item => ({
			scrap: i.scrap,
			g: of !== 0 ? Math.floor((i.grams * grams) / of) : 0,
			...(i.class ? { class: i.class } : {}),
			...(i.scrap === "other" ? { name: i.name } : {}),
			...(i.cut ? { cut: true } : {}),
			...(i.frozen ? { frozen: true } : {}),
		}),
	);
	const first = parts[0];
	if (first) first.g += grams - parts.reduce((sum, p) => sum + p.g, 0);
	return parts.filter((p, i) => p.g !== 0 || items[i]?.grams === 0);
}

const unsaid = [{ scrap: "kitchen-mixed", name: "", grams: 1 }];

/** Fields of the log for one mended part; undefined if it can't be read. */
function written(
	e: Entry,
	part: Part,
	typed: string,
	units: Units,
): Record<string, unknown> | undefined {
	switch (part) {
		case "weight": {
			const grams = parseAmount(typed, units.mass);
			if (!(grams > 0)) return undefined;
			if (e.kind === "worms") return { mass: grams };
			if (e.kind === "harvest") return { grams };
			const items = e.feed?.items ?? e.items ?? [];
			const out = (e.grams ?? 0) < 0 ? -grams : grams; // taken out of the freezer
			const how = e.kind === "feeding" || e.kind === "bowl" ? { how: "scale" } : {};
			return { items: scaled(items.length > 0 ? items : unsaid, out), ...how };
		}
		case "temp": {
			if (typed.trim() === "") return { temp: null };
			const at = decimal(typed);
			const deci = Math.round(units.temp === "C" ? at * 10 : ((at - 32) * 50) / 9);
			return deci >= -300 && deci <= 700 ? { temp: deci } : undefined;
		}
		case "ml":
		case "adults":
		case "young":
		case "cocoons": {
			const n = decimal(typed || "0");
			return Number.isInteger(n) && n >= 0 ? { [part]: n } : undefined;
		}
		case "day":
		case "time":
			return {};
		default:
			return { [part]: typed.trim() };
	}
}

/** The edit as an entry, or the part that can't be read. */
export function mendIntent(e: Entry, m: Mending, units: Units): Intent | Part {
	const set: Record<string, unknown> = {};
	const changed = (Object.keys(m.values) as Part[]).filter((p) => m.values[p] !== m.before[p]);
	for (const part of changed) {
		const fields = written(e, part, m.values[part] ?? "", units);
		if (!fields) return part;
		Object.assign(set, fields);
	}
	if (m.who && (m.who.member !== m.whoBefore?.member || m.who.guest !== m.whoBefore?.guest)) {
		Object.assign(set, { member: "", guest: "" }, whoSays(m.who));
	}
	const intent: Intent = { do: "edit", entity: e.entity, set };
	if (!changed.includes("day") && !changed.includes("time")) return intent;
	const { day = "", time = "" } = m.values;
	if (!day) return "day";
	// A stage of a batch is a day of its own name.
	if (e.kind === "batch") return { ...intent, set: { [e.code ?? ""]: day } };
	if (!time) return "time";
	// Which day it was stays with the household; the zone with who wrote it.
	const zone = /(Z|[+-]\d\d:\d\d)$/.exec(e.at)?.[1] ?? "Z";
	return { ...intent, day, at: `${day}T${time}:00${zone}` };
}

export interface MendDoes {
	change: (m: Mending) => void;
	save: () => void;
	close: () => void;
}

const tables: Partial<Record<Part, () => Record<string, string>>> = {
	spot: () => text.spots,
	leftovers: () => text.leftovers,
	squeeze: () => text.squeezes,
	smell: () => text.smells,
};

function label(part: Part, units: Units): string {
	const words = text.timeline;
	switch (part) {
		case "weight":
			return words.gramsUnit(units.mass);
		case "temp":
			return words.tempField(units.temp === "C" ? "°C" : "°F");
		case "spot":
		case "note":
		case "day":
		case "time":
			return words[part];
		case "ml":
			return words.volume;
		case "leftovers":
			return text.look.leftPlain;
		case "squeeze":
		case "smell":
			return text.look[part];
		default:
			return words.figures[part] ?? "";
	}
}

function field(part: Part, m: Mending, units: Units, does: MendDoes): TemplateResult {
	const set = (value: string): void =>
		does.change({ ...m, values: { ...m.values, [part]: value }, bad: m.bad === part ? "" : m.bad });
	const value = m.values[part] ?? "";
	const bad = m.bad === part;
	const why =
		part === "weight"
			? text.timeline.badAmount(units.mass)
			: part === "day" || part === "time"
				? text.timeline.badDay
				: text.timeline.badValue;
	const table = tables[part]?.();
	const type = part === "day" ? "date" : part === "time" ? "time" : "text";
	const words = part === "note" || type !== "text" ? "text" : "decimal";
	return html`<label class="field">${label(part, units)}${
		table
			? html`<select @change=${(e: Event) => set((e.target as HTMLSelectElement).value)}>
				<option value="" ?selected=${value === ""}>${text.timeline.noSpot}</option>
				${Object.entries(table).map(([code, word]) => html`<option value=${code} ?selected=${value === code}>${word}</option>`)}</select>`
			: html`<input type=${type} inputmode=${words} autocomplete="off" maxlength=${part === "note" ? 500 : 12} .value=${value} aria-invalid=${bad ? "true" : "false"}
				@input=${(e: InputEvent) => set((e.target as HTMLInputElement).value)}>`
	}</label>${bad ? html`<p role="alert">${why}</p>` : nothing}`;
}

export function editForm(
	e: Entry,
	m: Mending,
	members: Person[],
	units: Units,
	does: MendDoes,
): TemplateResult {
	const submit = (event: SubmitEvent): void => {
		event.preventDefault();
		does.save();
	};
	const untouched =
		(Object.keys(m.values) as Part[]).every((p) => m.values[p] === m.before[p]) &&
		m.who?.member === m.whoBefore?.member &&
		m.who?.guest === m.whoBefore?.guest;
	const lead = e.kind === "feeding" ? text.parts.fedBy : text.parts.writtenBy;
	return html`<form class="tools" novalidate @submit=${submit}>
		${(Object.keys(m.values) as Part[]).map((part) => field(part, m, units, does))}
		${m.who ? whoChooser(lead, m.who, members, (who) => does.change({ ...m, who })) : nothing}
		<div class="choices"><button type="button" class="plain" @click=${does.close}>${text.timeline.close}</button>
			<button type="submit" class="go ink" ?disabled=${untouched}>${text.timeline.save}</button></div>
	</form>`;
}
