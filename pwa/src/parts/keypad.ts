// The keypad: figures for a wet thumb, and beside them undo, tare and Add. The
// keyboard's own figures do the same.

import { html, type TemplateResult } from "lit";
import { decimalSign, type Mass } from "../format.ts";
import { text } from "../strings.ts";

export interface Keypad {
	unit: "g" | "kg" | "oz" | "lb";
	mass: Mass;
	addWord: string;
	press: (key: string) => void;
	unitTo: (unit: "g" | "kg" | "oz" | "lb") => void;
	undo: () => void;
	tare: () => void;
	add: () => void;
}

export function keypad(k: Keypad): TemplateResult {
	const words = text.weigh.keys;
	const other = k.mass === "oz" ? (k.unit === "oz" ? "lb" : "oz") : k.unit === "g" ? "kg" : "g";
	const figure = (key: string): TemplateResult =>
		html`<button type="button" @click=${() => k.press(key)}>${key === "." ? decimalSign : key}</button>`;
	const onKey = (e: KeyboardEvent): void => {
		if (/^[0-9.]$/.test(e.key)) k.press(e.key);
		else if (e.key === ",") k.press(".");
		else if (e.key === "Backspace") k.press("rub");
		else return;
		e.preventDefault();
	};
	return html`<div class="keys" role="group" aria-label=${text.weigh.keypadLabel} @keydown=${onKey}>
		${["7", "8", "9"].map(figure)}<button type="button" class="word" @click=${k.undo}>${words.undo}</button>
		${["4", "5", "6"].map(figure)}<button type="button" class="word" @click=${k.tare}>${words.tare}</button>
		${["1", "2", "3"].map(figure)}<button type="button" class="add" @click=${k.add}>${k.addWord}</button>
		${k.unit === "g" ? html`<button type="button" class="wide" @click=${() => k.press("0")}>0</button>` : html`${figure("0")}${figure(".")}`}
		<button type="button" class="word" @click=${() => k.unitTo(other)}>${other}</button>
	</div>`;
}
