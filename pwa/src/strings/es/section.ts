// Spanish words of the section: the drawing of a stack, and the same in sentences.

import type { Text } from "../../strings.ts";

export const section: Text["section"] = {
	meal: (amount) => `hoy ${amount}`,
	mealAt: (amount, spot) => `hoy ${amount}, ${spot}`,
	stage: (stage, day) => `${stage}, día ${day}`,
	worms: (amount) => `lombrices ${amount}`,
	span: (low, high) => `de ${low} a ${high}`,
	scraps: (day) => `restos, ${day}`,
	left: (amount) => `quedan ${amount}`,
	cocoons: (count) => `capullos: ${count}`,
	counted: (day) => `contados el ${day}`,
	cocoonsSay: (count, day) => `Capullos contados el ${day}: ${count}.`,
	bedding: "lecho",
	bedAt: (temperature) => `lecho a ${temperature}`,
	castings: "humus",
	about: (amount) => `unos ${amount}`,
	liquid: "líquido",
	drained: (amount, day) => `${amount} drenados el ${day}`,
	liquidNow: (now, drained) => `unos ${now}; ${drained}`,
	scale: (rise) =>
		rise > 1 ? `100 mm; alturas dibujadas ×${rise}` : "100 mm; alturas a la misma escala",
	mm: (millimetres) => `${millimetres} mm`,
	open: (name, stage) => `Abrir ${name}, ${stage}`,
	asText: "En palabras",
	key: "Leyenda",
	tray: (name, stage) => `${name}, ${stage}.`,
	takes: (meal) => `Recibe comida: ${meal}.`,
	takesFood: "Es la bandeja que recibe comida.",
	fill: (bedding, castings, weight, height) =>
		`${bedding} de lecho sobre ${castings} de humus${weight ? ` (unos ${weight})` : ""}, en una bandeja de ${height} de alto.`,
	wormsSay: (span) => `Lombrices: ${span}.`,
	wormsGuessed: (span) => `Lombrices: ${span}, primera estimación.`,
	noWorms: "Aquí no hay lombrices anotadas.",
	scrapsSay: (amount, day, spot) =>
		spot
			? `Quedan ${amount} de los restos del ${day}, ${spot}.`
			: `Quedan ${amount} de los restos del ${day}.`,
	bedSays: (temperature, day) => `Lecho a ${temperature} el ${day}.`,
	squeezeSays: (drops, day) => `Apretado el ${day}: ${drops}.`,
	baseSays: (liquid) => `En la base: ${liquid}.`,
	label: (lines) => `Las bandejas en corte, de arriba abajo. ${lines}`,
	wormKey: (amount) => `Lombrices: un trazo son ${amount}. Cuanto más ancho su halo, menos seguro.`,
	wormKeyGuess: "lombrices, primera estimación",
	linesKey: "Línea entera: visto. Línea quebrada: calculado a partir del registro.",
	materials: {
		today: "la comida de hoy",
		fresh: "restos, frescos",
		some: "restos, de unos días",
		nearly: "restos, casi acabados",
		bedding: "lecho",
		castings: "humus",
		liquid: "líquido",
		cocoons: "capullos",
	},
};
