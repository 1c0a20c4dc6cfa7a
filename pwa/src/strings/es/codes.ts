// Spanish for the engine's codes. Words about trays are feminine (bandeja);
// places are said so that they fit behind a verb ("ponlo al fondo a la izquierda").

import type { Text } from "../../strings.ts";

export const spots: Text["spots"] = {
	"back-left": "al fondo a la izquierda",
	"back-middle": "al fondo en medio",
	"back-right": "al fondo a la derecha",
	left: "a la izquierda",
	middle: "en medio",
	right: "a la derecha",
	"front-left": "delante a la izquierda",
	"front-middle": "delante en medio",
	"front-right": "delante a la derecha",
};

export const answers: Text["answers"] = {
	all: { brief: "todo aquí", big: "Todo aquí" },
	part: { brief: "ahora una parte", big: "Aquí una parte" },
	elsewhere: { brief: "en otra", big: "En otra bandeja" },
	freeze: { brief: "congelar", big: "Congelarlo" },
	cover: { brief: "cubrir, esperar", big: "Cubrir y esperar" },
	waste: { brief: "basura", big: "A la basura" },
};

export const stages: Text["stages"] = {
	bedded: "con lecho",
	feeding: "recibe comida",
	resting: "en reposo",
	ready: "lista",
	emptied: "vacía",
};

export const binds: Text["binds"] = {
	worms: () => "La fijan las lombrices que pueden llegar a la comida.",
	surface: () => "La fija la superficie de la bandeja.",
	warmth: (t) => `La limita la temperatura del lecho: ${t}.`,
	moisture: () => "La limita lo mojado, seco o ácido que está el lecho.",
	kitchen: () => "La fija lo que da la cocina; las lombrices podrían con más.",
	leftovers: () => "La limita lo que todavía queda ahí.",
	settling: () => "Poco al principio: las lombrices se están adaptando.",
	resting: () => "Esta bandeja reposa; no recibe comida.",
	trouble: () => "La limita el problema visto en una revisión.",
	days: () => "Limitada a lo que comen en unos pocos días.",
};

export const moves: Text["moves"] = {
	look: "Lo que más ayudaría a afinar es revisar las sobras.",
	"bed-next-tray": "Preparar encima la siguiente bandeja les da más superficie.",
	moisten: "Lo que más ayuda es humedecer el lecho hasta que un puñado apretado dé una gota.",
	"add-eggshell": "La cáscara de huevo molida y lecho nuevo, mezclados, bajan la acidez.",
	"log-worms": "Aquí no hay lombrices vivas anotadas: anota las que tiene.",
	"look-first":
		"Nadie la ha revisado todavía y la temperatura es solo la de la estación: revísala primero.",
	"warmer-place": "En un lugar más cálido comerían más.",
	"cooler-place": "Primero, un lugar más fresco.",
	"save-scraps": "Los restos guardados de otros días también se comerían.",
	"leave-alone": "Déjalas tranquilas por ahora; crece por sí sola.",
	"feed-open-tray": "Da de comer en la bandeja abierta.",
	"feed-oftener": "Con comidas más pequeñas y frecuentes comerían más.",
	"let-grow": "Sube a medida que crece la colonia.",
	"add-dry-bedding": "Lo que más ayuda es lecho seco encima.",
	"lift-out-food": "Lo que más ayuda es sacar lo que huele mal.",
};

export const holdCauses: Text["holdCauses"] = {
	"hot-bed": "El lecho está a 30 °C o más",
	ammonia: "Huele a amoníaco",
	sour: "Huele agrio",
	rot: "Huele a podrido",
};

export const holdReleases: Text["holdReleases"] = {
	"bed-below-28": "el lecho baje de 28 °C",
	"smells-earthy": "vuelva a oler a tierra",
};

export const holdSteps: Text["holdSteps"] = {
	"hot-bed":
		"Quita la tapa, extiende fina la capa de arriba y lleva la compostera a un lugar más fresco.",
	ammonia: "Dos puñados de lecho seco encima y la tapa entreabierta esta noche.",
	sour: "Saca lo que huele, dos puñados de lecho seco encima y la tapa entreabierta esta noche.",
	rot: "Saca lo podrido, dos puñados de lecho seco encima y la tapa entreabierta esta noche.",
};

export const scrapReasons: Text["scrapReasons"] = {
	acid: "Acidifica el lecho.",
	alcohol: "El alcohol daña a las lombrices.",
	alkaline: "Vuelve alcalino el lecho.",
	allium: "Las lombrices lo evitan mientras está fresco.",
	ammonia: "Desprende amoníaco.",
	chem: "Puede llevar productos químicos.",
	"citrus-oil": "El aceite de su piel daña a las lombrices.",
	dairy: "Los lácteos se enrancian y atraen moscas.",
	dense: "Se apelmaza y no deja pasar el aire.",
	dust: "Su polvo es malo de respirar.",
	heat: "En montón se calienta.",
	"hot-spice": "El picante irrita a las lombrices.",
	mats: "Forma una capa que no deja pasar el aire.",
	meat: "La carne se pudre, huele y atrae ratas.",
	odour: "Huele fuerte.",
	oily: "La grasa deja sin aire a las lombrices.",
	pathogen: "Puede transmitir enfermedades.",
	pest: "Atrae plagas.",
	plastic: "Deja restos de plástico.",
	resin: "Su resina daña a las lombrices.",
	salty: "La sal daña a las lombrices.",
	seeds: "Sus semillas germinan.",
	sprouts: "Rebrota.",
	starchy: "En grumos fermenta.",
	sugary: "Atrae moscas de la fruta.",
	tough: "Tarda mucho.",
	wet: "Aporta mucha agua.",
};

export const scrapPrep: Text["scrapPrep"] = {
	age: "dejar madurar antes",
	bury: "enterrar",
	chop: "trocear",
	cook: "cocer antes",
	crush: "machacar",
	dry: "secar antes",
	"dust-thinly": "espolvorear en capa fina",
	"empty-contents": "vaciar antes",
	"freeze-thaw": "congelar y descongelar",
	mix: "mezclar",
	"mix-with-bedding": "mezclar con lecho",
	moisten: "humedecer",
	"remove-staples": "quitar las grapas",
	"remove-stickers": "quitar las pegatinas",
	"remove-tape": "quitar la cinta adhesiva",
	rinse: "enjuagar",
	shred: "hacer tiras",
	soak: "remojar",
	tear: "romper en trozos pequeños",
	"tease-apart": "deshilachar",
	"thin-layer": "poner en capa fina",
	wilt: "dejar marchitar antes",
};

export const verdicts: Text["verdicts"] = {
	good: "Buen alimento.",
	little: "Con medida.",
	avoid: "Mejor no.",
	never: "No lo eches.",
};

export const classes: Text["classes"] = {
	"soft-fruit": "fruta blanda",
	leafy: "hojas y recortes",
	root: "raíces y pieles",
	grounds: "café y té",
	starch: "pan, arroz, pasta",
	citrus: "cítricos",
	allium: "cebolla y ajo",
	rich: "carne, lácteos, aceite",
	garden: "poda del jardín",
	manure: "estiércol",
	hard: "trozos duros",
	paper: "papel y cartón",
	grit: "arenilla y cáscara de huevo",
	foreign: "no es comida",
};

export const hows: Text["hows"] = {
	scale: "con balanza",
	vessel: "por recipiente",
	unweighed: "sin pesar",
	"as-advised": "como se aconseja",
};

export const leftovers: Text["leftovers"] = {
	none: "nada",
	hard: "solo lo duro",
	some: "algo",
	half: "la mitad",
	most: "casi todo",
};

export const squeezes: Text["squeezes"] = {
	crumbles: "se deshace",
	holds: "firme, seco",
	"one-drop": "una gota",
	"few-drops": "unas gotas",
	runs: "chorrea",
};

export const smells: Text["smells"] = {
	earthy: "a tierra",
	none: "a nada",
	sour: "agrio",
	ammonia: "fuerte, pica en la nariz",
	rot: "a podrido",
};
