// A code that opens no tray: what is wrong with it and what to do, with the
// code typed again below.

import { html, nothing, type TemplateResult } from "lit";
import { header } from "../parts/header.ts";
import { text } from "../strings.ts";
import type { TrayView } from "../types.gen.ts";

export function codeProblem(view: TrayView, open: (code: string) => void): TemplateResult {
	const known =
		text.tray.problem[view.found as keyof typeof text.tray.problem] ?? text.tray.problem.malformed;
	const submit = (e: SubmitEvent): void => {
		e.preventDefault();
		const field = (e.currentTarget as HTMLFormElement).elements.namedItem(
			"code",
		) as HTMLInputElement;
		if (field.value.trim()) open(field.value.trim());
		else field.focus();
	};
	return html`<main class="page">
		${header({ title: view.found === "removed" && view.name ? view.name : known.title, sub: view.found === "removed" ? known.title : nothing, back: "/" })}
		<p>${known.words}</p>
		<form @submit=${submit}>
			<label class="field">${text.tray.codeLabel}<input class="code" name="code" type="text" maxlength="40" autocomplete="off" autocapitalize="characters" spellcheck="false" .value=${view.code ?? ""}></label>
			<div class="act"><button type="submit" class="go ink">${text.tray.codeOpen}</button></div>
		</form>
	</main>`;
}
