// What somebody chose on the Labels screen, and the request that it makes.

import type { PrintRequest } from "../device/printing.ts";
import { type Mass, plainNumber, weight } from "../format.ts";
import type { LabelsView, Sheet } from "../types.gen.ts";

export type What = PrintRequest["what"];

/** The form as it is kept between visits. Measures are text until they are used,
 * so that nothing half-typed is lost. */
export interface Form {
	what: What;
	/** Trays left out, by id: a new tray is in until somebody leaves it out. */
	out: string[];
	blank: number;
	copies: number;
	sheet: string;
	/** Measures that are other than the preset's, mm as typed. */
	own: Record<string, string>;
	start: string;
	offsetX: string;
	offsetY: string;
	paper: string;
}

export const firstForm: Form = {
	what: "labels",
	out: [],
	blank: 0,
	copies: 2,
	sheet: "",
	own: {},
	start: "1",
	offsetX: "0",
	offsetY: "0",
	paper: "a4",
};

/** Measures that can be changed, in the order they are asked for. Lengths are
 * micrometres in a sheet and millimetres on the screen. */
export const lengths = [
	"pageW",
	"pageH",
	"left",
	"top",
	"pitchX",
	"pitchY",
	"cellW",
	"cellH",
	"margin",
] as const;
export const counts = ["columns", "rows", "dpi"] as const;
export type Measure = (typeof lengths)[number] | (typeof counts)[number];

/** A number as people type one, with a comma or a point; NaN if it is none. */
export function typedNumber(typed: string): number {
	const plain = typed.trim().replace(",", ".").replace("−", "-");
	return /^-?\d+(\.\d+)?$/.test(plain) ? Number(plain) : Number.NaN;
}

export const isLength = (measure: Measure): measure is (typeof lengths)[number] =>
	lengths.some((length) => length === measure);

/** What the field of a measure shows. */
export function shownMeasure(form: Form, preset: Sheet, measure: Measure): string {
	const own = form.own[measure];
	if (own !== undefined) return own;
	const value = preset[measure] ?? 0;
	return plainNumber(isLength(measure) ? value / 1000 : value, 2);
}

/** The sheet with the measures typed, or the first field that is no number. */
export function typedSheet(form: Form, preset: Sheet): Sheet | Measure {
	const sheet: Sheet = { ...preset };
	for (const measure of [...lengths, ...counts]) {
		const own = form.own[measure];
		if (own === undefined) continue;
		const value = typedNumber(own);
		if (Number.isNaN(value) || (!isLength(measure) && !Number.isInteger(value))) return measure;
		sheet[measure] = isLength(measure) ? Math.round(value * 1000) : value;
	}
	return sheet;
}

/** How many labels the form asks for, faces counted. */
export function labelCount(form: Form, view: LabelsView): number {
	const trays = view.bins.flatMap((bin) => bin.trays).filter((t) => !form.out.includes(t.id));
	return (trays.length + form.blank) * form.copies;
}

/** The paper cards of all bins. */
export function cardsOf(view: LabelsView): PrintRequest["cards"] {
	return view.bins.map((bin) => ({
		bin: bin.name,
		trays: bin.trays.map((t) => t.name),
		vessels: view.vessels.map((v) => ({
			name: v.name,
			amount: weight(v.grams, view.mass as Mass),
		})),
		mass: view.mass,
		temp: view.temp,
	}));
}

/** The labels of the trays that are in, in the order of the list. */
export function labelsOf(form: Form, view: LabelsView): PrintRequest["labels"] {
	return view.bins.flatMap((bin) =>
		bin.trays
			.filter((t) => t.code && !form.out.includes(t.id))
			.map((t) => ({ code: t.code ?? "", tray: t.name, bin: bin.name })),
	);
}
