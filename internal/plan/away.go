package plan

import (
	"fmt"

	"trayside/internal/colony"
	"trayside/internal/record"
)

// Absence is what to do about going away: codes in the order of doing, and what
// the colony comes to without food, as the model has it.
type Absence struct {
	Days   int    `json:"days"`
	Before []Code `json:"before"`
	During []Code `json:"during"`
	After  []Code `json:"after"`
	// What an established colony comes to without any food, as shares of what it was:
	// live mass and heads. Lean worms regain their mass when they are fed again; the
	// model counts no bedding as food, so both err on the low side.
	Mass  float64 `json:"massLeft"`
	Heads float64 `json:"headsLeft"`
}

// The codes of an absence.
const (
	DoNothing   Code = "do-nothing"
	Moisten     Code = "moisten"      // until a squeeze gives a drop
	Cover       Code = "cover"        // moist newspaper on the bed
	NoHeap      Code = "do-not-heap"  // the last meal no bigger than usual: a heap heats and sours
	MoreBedding Code = "more-bedding" // food that cannot go sour
	CoolPlace   Code = "cool-place"   // the room gets hot meanwhile
	FrostFree   Code = "frost-free"   // or cold
	AskSomebody Code = "ask-somebody" // to moisten it and give a small meal
	NoCatchUp   Code = "no-catch-up"  // the first meal back is an ordinary one
	LookFirst   Code = "look-first"   // leftovers and moisture before feeding
	MostAway         = 365
)

// Away advises on leaving an established colony of a species alone from a day on.
func Away(species record.Species, room colony.Room, from record.Day, days int) (Absence, error) {
	if days < 1 || days > MostAway {
		return Absence{}, fmt.Errorf("%d days away: plan for 1 to %d", days, MostAway)
	}
	a := Absence{Days: days, Before: []Code{}, During: []Code{DoNothing}, After: []Code{LookFirst, NoCatchUp}}
	if days > leaveAlone {
		a.Before = append(a.Before, Moisten, Cover, MoreBedding)
	} else {
		a.Before = append(a.Before, Moisten)
	}
	a.Before = append(a.Before, NoHeap)
	low, high := room.Celsius(from), room.Celsius(from)
	for n := range days {
		c := room.Celsius(from + record.Day(n))
		low, high = min(low, c), max(high, c)
	}
	if high > travelHot {
		a.Before = append(a.Before, CoolPlace)
	}
	if low < bandOf(species).low {
		a.Before = append(a.Before, FrostFree)
	}
	if days > getHelp {
		a.During = []Code{AskSomebody}
	}
	a.Mass, a.Heads = unfed(species, room, from, days)
	return a, nil
}

// unfed follows a colony that has lived in the room for a year, fed all it can
// eat on a bed that is wide enough, through days without food.
func unfed(species record.Species, room colony.Room, from record.Day, days int) (mass, heads float64) {
	const year = 365
	h := household{rates: colony.RatesOf(species), room: room, areaM2: 1, kitchen: 700, start: from - year}
	b := h.bed(1000, h.usual())
	for n := range year {
		b.dawn(n)
		b.feed(1)
		b.night()
	}
	hadMass, hadHeads := b.state.Mass(h.rates), b.state.Youngs()+b.state.Adults()
	for n := range days {
		b.dawn(year + n)
		b.night()
	}
	if hadMass <= 0 || hadHeads <= 0 {
		return 0, 0
	}
	return hundredths(b.state.Mass(h.rates) / hadMass), hundredths((b.state.Youngs() + b.state.Adults()) / hadHeads)
}
