// The list of trays that a screen shows when it was opened without one.

import { html, nothing, type TemplateResult } from "lit";
import { header } from "../parts/header.ts";
import { text } from "../strings.ts";
import type { TodayView } from "../types.gen.ts";
import { said } from "../words.ts";

export type Trays = { id: string; name: string; bin: string; stage: string }[];

export const traysOf = (view: TodayView): Trays =>
	view.bins.flatMap((bin) =>
		bin.stack.map((t) => ({ id: t.id, name: t.name, bin: bin.name, stage: t.stage })),
	);

export function chooseTray(
	title: string,
	ask: string,
	trays: Trays | undefined,
	path: string,
): TemplateResult {
	return html`<main class="page">${header({ title, sub: ask, back: "/more" })}
		${
			trays
				? html`<ul class="rows">${trays.map(
						(t) =>
							html`<li><a class="rowlink" href="${path}?tray=${encodeURIComponent(t.id)}"><b>${t.name}</b><span class="second">${t.bin}, ${said(text.stages, t.stage)}</span></a></li>`,
					)}</ul>`
				: nothing
		}</main>`;
}
