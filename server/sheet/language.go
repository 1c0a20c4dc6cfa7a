package sheet

// printed are the words that stand on paper, in one language.
type printed struct {
	date, who, amount, grams, temp       string
	left                                 [5]string // the answers of a look, as record.Leftovers orders them
	leftovers, fill, scan, caution, full string
	check, bar, edge, roll               string
}

var languages = map[string]printed{
	"en": {
		date: "Date", who: "Who", amount: "Vessels", grams: "or", temp: "Bed",
		leftovers: "Left of the last meal", left: [5]string{"none", "hard", "some", "half", "most"},
		fill:    "Write with a wipe-off pen on the covered card; wipe it when it is typed in.",
		scan:    "type it in",
		caution: "No meat, dairy or pet waste. Wash your hands afterwards.",
		full:    "1 %s = %s",
		check:   "Print at actual size, not “fit to page”. Hold this page behind a label sheet, against the light.",
		bar:     "This bar is 100 mm long. If it is not, the printer scales: turn that off first.",
		edge:    "Enter the numbers that the label's left and upper edges fall on (mm). They should be the same at both rulers.",
		roll:    "Edges fall on these mm: enter them.",
	},
	"es": {
		date: "Fecha", who: "Quién", amount: "Recipientes", grams: "o", temp: "Cama",
		leftovers: "Queda de la última comida", left: [5]string{"nada", "duro", "algo", "mitad", "casi todo"},
		fill:    "Escribe con rotulador borrable sobre la ficha plastificada; bórrala cuando esté pasada.",
		scan:    "pasarla",
		caution: "Ni carne, ni lácteos, ni restos de mascotas. Lávate las manos después.",
		full:    "1 %s = %s",
		check:   "Imprime a tamaño real, no «ajustar a la página». Pon esta hoja detrás de una de etiquetas, a contraluz.",
		bar:     "Esta barra mide 100 mm. Si no es así, la impresora cambia la escala: desactívalo primero.",
		edge:    "Escribe los números en los que caen los bordes izquierdo y superior de la etiqueta (mm). Deben ser los mismos en las dos reglas.",
		roll:    "Escribe los mm en los que caen los bordes.",
	},
}

// wordsIn returns the words of a language, English where it is not known.
func wordsIn(language string) printed {
	if w, ok := languages[language]; ok {
		return w
	}
	return languages["en"]
}
