// Spanish words of the feeder's screen: short ones, for a child.

import type { Text } from "../../strings.ts";

export const feeder: Text["feeder"] = {
	which: "¿Qué compostera?",
	into: (tray) => (tray ? `La comida va en ${tray}` : ""),
	canHave: (amount, spot) => `Pueden comer unos ${amount}. Ponlo ${spot}.`,
	canHavePlain: (amount) => `Pueden comer unos ${amount}.`,
	notToday: "Hoy no.",
	notTodayWhy: "Todavía tienen comida. Congélala o pregunta.",
	howMuch: "¿Cuánto?",
	much: { less: "la mitad de eso", about: "eso mismo", more: "más" },
	muchPlain: { less: "un puñado", about: "una taza", more: "un bol grande" },
	from: "La comida es",
	noBowl: "de mis manos",
	fed: "Ya comieron",
	freeze: "Al congelador",
	frozen: "Al congelador",
	ask: "Preguntar a un adulto",
	asks: (name) => `${name} pregunta`,
	asked: "Queda a la espera; un adulto lo verá",
	bowlWaits: "El bol espera. Un adulto lo verá.",
	told: (who, amount, tray, ration) =>
		`${who} les dio ${amount} en ${tray}; se aconsejaban ${ration}.`,
	toldNone: (who, amount, tray) =>
		`${who} les dio ${amount} en ${tray}; no se aconsejaba dar nada.`,
	choice: "Pantalla sencilla para dar de comer, en este teléfono",
	choices: { child: "para niños", on: "siempre", off: "nunca" },
};
