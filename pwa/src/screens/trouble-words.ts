// What a diagnosis says, from its codes and numbers.

import { type Mass, number, type Temp, temperature, weight } from "../format.ts";
import { text } from "../strings.ts";
import type { ClueView, StepView, TroubleView } from "../types.gen.ts";
import { said } from "../words.ts";

type Units = Pick<TroubleView, "mass" | "temp">;

/** A value of the log in its unit; tenths and hundredths as decimals. */
function valueWords(value: number, unit: string, units: Units): string {
	switch (unit) {
		case "0.1 °C":
			return temperature(value, units.temp as Temp);
		case "0.1 d":
			return number(value / 10, 1);
		case "0.01 %":
			return number(value / 100, 2);
		default:
			return number(value);
	}
}

/** One piece of evidence: a sign that is seen or missing, or what the log says. */
export function clueWords(clue: ClueView, units: Units): string {
	const words = text.trouble;
	const sign = said(text.troubleSigns, clue.code);
	const value = valueWords(clue.value ?? 0, clue.unit ?? "", units);
	const says =
		clue.of === "sign"
			? sign
			: clue.of === "absent"
				? words.absent(sign)
				: ((clue.value ? undefined : words.logNone[clue.code]) ??
					words.log[clue.code]?.(value) ??
					said({}, clue.code));
	return clue.for ? says : words.against(says);
}

export function stepWords(step: StepView, units: Units): string {
	const words = text.troubleSteps[step.code];
	return words ? words(amount(step, units)) : said({}, step.code);
}

function amount({ amount, unit }: StepView, units: Units): string {
	if (!unit || !amount) return "";
	if (unit === "g") return weight(amount, units.mass as Mass);
	if (unit === "0.1 °C") return temperature(amount, units.temp as Temp);
	return text.troubleUnits[unit]?.(number(amount)) ?? `${number(amount)} ${unit}`;
}

/** What it means for feeding. */
export function feedingWords({ feeding }: TroubleView): string {
	const words = text.trouble;
	const why = said(text.troubleCauses, feeding.cause ?? "");
	if (feeding.kind === "hold") return words.hold(why);
	if (feeding.kind !== "reduce") return words.asUsual;
	return words.reduce(words.shares[feeding.milli] ?? `${number(feeding.milli / 10)} %`, why);
}
