// Spanish words of Harvest.

import type { Text } from "../../strings.ts";

export const harvest: Text["harvest"] = {
	title: "Cosecha",
	lead: "Sale el humus, vuelven las lombrices",
	choose: "¿Qué bandeja?",
	at: (tray, bin) => `${tray}, ${bin}`,
	empty: "Esta bandeja está vacía: no hay nada que cosechar.",
	fill: (fill, height) => `Llena hasta ${fill} de ${height} mm`,
	ready: (day, first, last) => `Lista hacia el ${day}, entre el ${first} y el ${last}`,
	readyNow: "Ya está lista",
	expect: (span) => `Humus probable: ${span}`,
	learned: (share, count) =>
		`Tus cosechas dieron el ${share} % del rendimiento publicado (contadas: ${count}).`,
	method: "Cómo",
	methods: {
		climb: "Subida: las lombrices pasaron a la bandeja de arriba",
		light: "Luz: montones a la luz, las lombrices bajan",
		side: "Lado: comida en un lado, humus del otro",
		dig: "Directa: sacado tal como estaba",
	},
	castings: "Humus",
	weighed: { g: "Pesado, g", oz: "Pesado, oz" },
	buckets: "O contado en cubos",
	bucketHint: (volume) => `En el cubo del hogar caben ${volume}.`,
	bucketNone:
		"Nadie ha dicho aún cuánto cabe en el cubo, así que los cubos no enseñan nada hasta que lo diga un responsable.",
	worms: { g: "Lombrices devueltas, g", oz: "Lombrices devueltas, oz" },
	wormsHint: "Déjalo vacío si nadie las pesó.",
	by: "Cosecha",
	note: "Nota",
	bad: "Eso no es una cifra. Corrígela o bórrala.",
	save: "Anotar la cosecha",
	saved: (tray) => `Cosecha de ${tray}`,
	emptied: (tray) => `${tray} queda vacía`,
	empties: "La bandeja queda vacía",
	before: "Cosechas hasta ahora",
	line: (day, amount, who) => (who ? `${day}: ${amount}, ${who}` : `${day}: ${amount}`),
	bucketCount: (count) => (count === "1" ? "1 cubo" : `${count} cubos`),
	unmeasured: "sin medir",
	mind: "El humus hecho así no está tratado contra gérmenes: guantes si tienes heridas, lávate las manos y no lo pongas en lo que se come crudo. No sueltes lombrices en la naturaleza.",
};
