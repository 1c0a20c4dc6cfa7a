// Spanish words of Plan.

import type { Text } from "../../strings.ts";

export const plan: Text["plan"] = {
	title: "Planear una compostera",
	lead: "Cuántas lombrices, cuánta superficie, qué comprar y cuándo",
	intro: "Deciden dos cosas: lo que da tu cocina y el calor del lugar a lo largo del año.",
	kitchen: "Tu cocina",
	known: (week) => `Según el registro, unos ${week} por semana.`,
	by: { people: "Por personas", week: "Por peso" },
	people: "Para cuántas personas se cocina",
	week: (unit) => `Restos que pueden comer, ${unit} por semana`,
	weekHint: "Recortes de verdura y fruta, café, té; si puedes, pesa los de una semana.",
	room: "El lugar",
	species: "Qué lombrices",
	best: "Las que van bien con el lugar",
	bestSay: "Elegidas por su mes más frío y su mes más cálido",
	make: "Calcular",
	bad: {
		nothing: "Di cuántas personas, o cuánto por semana.",
		"too-much": (most) => `Más de ${most} por semana es de una granja, con otras reglas.`,
		figure: "Escríbelo como un número.",
	},
	buy: "Qué comprar",
	worms: (kind) => `de lombrices: ${kind}`,
	wormsBy: {
		"by-appetite": "Se comen tus restos cuando están instaladas y no pasan frío.",
		"least-stock": "Con menos de una libra se empieza despacio: es la costumbre.",
	},
	guess: "Una primera estimación, según las guías. Decide tu compostera.",
	scraps: (mid, low, high) =>
		`Para unos ${mid} de restos por semana (de ${low} a ${high}: cada casa es distinta).`,
	scrapsPlain: (mid) => `Para ${mid} de restos por semana.`,
	surface: (area) => `${area} de superficie con comida`,
	trays: (fed, size) =>
		fed === "1"
			? `una bandeja de ${size} con comida a la vez`
			: `${fed} bandejas de ${size} con comida a la vez`,
	all: (all, stacks) =>
		stacks === "1"
			? `${all} bandejas en total, con las que maduran y una de reserva`
			: `${all} bandejas en total, en ${stacks} pilas, con las que maduran y una de reserva`,
	bedding: (litres, paper) =>
		`${litres} de lecho suelto: ${paper} de periódico en tiras o cartón sin imprimir`,
	water: (water, soil) => `unos ${water} de agua para remojarlo, y ${soil} de tierra`,
	order: "En este orden",
	steps: {
		"bin-and-bedding": "La compostera, con el lecho húmedo y la tierra. Tapa puesta, y a reposar.",
		worms: "Las lombrices, cuando en el camino no amenacen ni heladas ni calor.",
		settle:
			"Ponlas sobre el lecho, una luz encendida una o dos noches, y después déjalas tranquilas.",
		"first-meal": "La primera comida: la mitad de lo que podrían comer, bajo el lecho.",
		"full-meals": "Desde aquí, lo que vayan acabando: nada nuevo hasta que no quede lo anterior.",
	},
	from: (day) => `desde el ${day}`,
	until: (day, late) => `del ${day} al ${late}`,
	noDay: "no conviene ningún día del año que viene",
	whole: "Cuándo se lo come todo",
	kills: (share) =>
		`Este lugar las mata: en ${share} de 100 pruebas del modelo están muertas a los dos años.`,
	never: "Quizá nunca: en dos años casi ninguna prueba del modelo llega.",
	days: (mid, low, high) =>
		`Unos ${mid} después de llegar las lombrices (de ${low} a ${high} en 8 de 10 pruebas del modelo).`,
	dayCount: (count) => (count < 60 ? `${count} días` : `${Math.round(count / 30.4)} meses`),
	beyond: "más de dos años",
	years: (first, second) =>
		`Toma cerca del ${first} % de los restos el primer año y del ${second} % el segundo.`,
	cheaper: "Qué cuesta menos",
	options: {
		"half-stock": "La mitad de las lombrices",
		"quarter-stock": "La cuarta parte de las lombrices",
		"one-tray": "Una sola bandeja, y el resto al congelador o a la basura",
		"any-box":
			"Cualquier caja de esa superficie, de 20 a 30 cm de hondo, con agujeros abajo y en la tapa",
		"own-paper": "Lecho del reciclaje: periódico, hueveras, cartón sin cinta",
		"from-friend": "Lombrices de alguien que tiene demasiadas",
	},
	soon: (amount) => `${amount}: se lo comen todo igual de pronto`,
	later: (amount, days, share) => `${amount}: unos ${days} más tarde, el ${share} % el primer año`,
	tooFew: (amount) => `${amount}: quizá nunca basten`,
	takes: (week) => `toma unos ${week} por semana`,
	suits: "Qué lombrices, en este lugar",
	fits: { suits: "va bien", copes: "aguanta", no: "no sobrevive al año" },
	reasons: {
		"eats-all-year": "a gusto todo el año",
		"slow-in-winter": "lenta en los meses más fríos",
		"slow-in-summer": "sufre en los meses más cálidos",
		"too-cold": "demasiado frío para ella",
		"too-hot": "demasiado calor para ella",
		"easy-to-get": "fácil de conseguir",
		"breeds-fast": "cría deprisa",
		"breeds-slowly": "cría despacio",
		big: "grande",
		"needs-warmth": "necesita calor",
		wanders: "se escapa con facilidad",
	},
	bed: (low, high) => `lecho de ${low} a ${high}`,
	care: "Cuidado",
	cautions: {
		"jumping-worms": "No hay números para las lombrices saltarinas.",
		"check-name":
			"Los nombres comerciales no son especies: mira lo que te han vendido y, en la duda, elige «no se sabe».",
		"no-release":
			"No sueltes lombrices en bosques ni en la naturaleza. Algunas clases están restringidas: deciden las normas del lugar.",
		"another-room":
			"Ninguna lombriz sobrevive al año en este lugar. Busca uno entre 4 y 30 °C, o aísla la compostera.",
		"wrong-species":
			"Estas lombrices no sobreviven al año en este lugar; las primeras de la lista, sí.",
		"hot-days":
			"La media de un mes esconde días más cálidos: que el lecho no pase de 28 °C, y actúa a los 30.",
		"cold-days":
			"La media de un mes esconde días más fríos: da menos comida si hace frío, y no la pongas en el suelo.",
		"more-than-a-bin":
			"Es mucho para bandejas: una caja ancha y baja da la misma superficie con menos trabajo.",
	},
	setUp: "Montar esta compostera",
};
