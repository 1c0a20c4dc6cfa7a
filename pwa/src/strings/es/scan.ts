// Spanish words of the scanner.

import type { Text } from "../../strings.ts";

export const scan: Text["scan"] = {
	title: "Escanear una etiqueta",
	starting: "Encendiendo la cámara…",
	picture: "Lo que ve la cámara",
	hold: "Mantén el cuadrado de la etiqueta dentro del marco.",
	light: "Luz",
	type: "Escribir el código",
	again: "Reintentar",
	read: "Etiqueta leída",
	troubles: {
		denied: {
			title: "La cámara no está permitida",
			words:
				"Permítela para este sitio en los ajustes del navegador (el signo junto a la dirección, o los permisos de la app) y reinténtalo.",
		},
		none: {
			title: "No se encontró ninguna cámara",
			words: "Conecta una, o escribe el código que está bajo el cuadrado.",
		},
		busy: {
			title: "La cámara está en uso",
			words: "La tiene otra app o pestaña, o no arrancó. Ciérrala y reinténtalo.",
		},
		insecure: {
			title: "Sin cámara por esta conexión",
			words:
				"Los navegadores solo dan la cámara a páginas con dirección segura (https). Escribe el código; quien lleva el servidor puede arreglarlo.",
		},
		reader: {
			title: "El lector de etiquetas aún no ha llegado",
			words:
				"A este navegador le falta una parte que todavía no se ha descargado. Llegará sola con la próxima conexión. Entretanto, escribe el código.",
		},
	},
	not: {
		elsewhere: (host) =>
			`Una etiqueta de otro hogar: lleva a ${host}. Ninguna bandeja de aquí tiene su código.`,
		invite: "Una invitación para unirse a un hogar. Es para la cámara del teléfono que se une.",
		web: (host) => `No es una etiqueta: es una dirección web de ${host}. No se abrió.`,
		wifi: "No es una etiqueta: es el acceso a una red wifi.",
		contact: "No es una etiqueta: es una tarjeta de contacto.",
		phone: "No es una etiqueta: es un número de teléfono.",
		mail: "No es una etiqueta: es una dirección de correo.",
		text: "No es una etiqueta: es texto sin más.",
	},
	notHint: "Las etiquetas de bandeja tienen un cuadrado y nueve signos en tres grupos.",
};
