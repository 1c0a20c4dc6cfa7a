package record

import "trayside/internal/units"

// Leftovers is what a look found of the last meals.
type Leftovers string

// The answers of a look. Hard bits are not food: stalks, stones and shells.
const (
	LeftNone Leftovers = "none"
	LeftHard Leftovers = "hard"
	LeftSome Leftovers = "some"
	LeftHalf Leftovers = "half"
	LeftMost Leftovers = "most"
)

// Visitors are what else a look can find in a bed: other animals, and worms
// that are not as they should be.
var Visitors = []string{
	"fruit-flies", "mites", "springtails", "white-worms", "ants", "slugs", "fly-larvae", "beetles", "rodents",
	"escaping-worms", "dead-worms", "balled-worms", "pale-worms",
}

// Look is a quick check of a tray; every part may be missing.
type Look struct {
	ID        string
	Bin       string
	Tray      string
	Spot      string
	Leftovers Leftovers // "" if not looked at
	Squeeze   string    // "", "crumbles", "holds", "one-drop", "few-drops", "runs"
	Temp      *units.DeciCelsius
	TempOf    string // "bed" or "room"
	Smell     string // "", "earthy", "none", "sour", "ammonia", "rot"
	Visitors  []string
	Cover     string   // "", "on", "dry", "missing": what lies on the bed
	Covered   bool     // the bed was covered as told; says nothing of the bed itself
	Liquid    *int64   // ml drained; 0 is "nothing came", nil is "nobody looked"
	Fill      *int64   // mm, height of the material
	Weight    *int64   // g, the tray with all that is in it
	Meter     *int64   // 0.1 % moisture, by a meter
	PH        *int64   // 0.1 pH
	Signs     []string // what somebody chose under "what's wrong": codes of internal/trouble
	Unlogged  string   // "", "yes", "no": did someone feed without logging?
	Note      string
	Who       Who
	Logger    string // member whose phone logged it
	Edited    bool
	At        string
	Day       Day
}

// Says reports whether the look tells anything of the bed. One that only tells
// that the bed was covered as told is no observation, and not the weekly look.
func (l *Look) Says() bool {
	return l.Leftovers != "" || l.Squeeze != "" || l.Temp != nil || l.Smell != "" || len(l.Visitors) > 0 || l.Cover != "" ||
		l.Liquid != nil || l.Fill != nil || l.Weight != nil || l.Meter != nil || l.PH != nil || len(l.Signs) > 0 ||
		l.Unlogged != "" || l.Note != ""
}
