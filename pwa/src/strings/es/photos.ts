// Spanish words of an entry's pictures.

import type { Text } from "../../strings.ts";

export const photos: Text["photos"] = {
	title: "Fotos",
	take: "Hacer una foto",
	choose: "Elegir fotos",
	busy: "Reduciéndola…",
	coming: "aún no ha llegado",
	waiting: "Foto; queda con la anotación cuando se guarde",
	by: (who, day) => (who ? `Foto de ${who}, ${day}` : `Foto, ${day}`),
	close: "Cerrar",
	remove: "Quitar",
	removed: "Foto quitada, para todos",
	keep: "Conservarla",
	unshared: "de momento solo aquí",
	refused: "el servidor la rechaza",
	saved: "Foto guardada",
	notSaved: "La foto no se guardó. Inténtalo otra vez.",
	full: "No se guardó: el almacenamiento del teléfono está lleno. Libera espacio y repite la foto.",
	unreadable: "Este navegador no puede leer ese archivo como imagen. Prueba con otro.",
};
