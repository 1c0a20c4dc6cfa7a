// Package colony says how many worms a bin holds, how hungry they are, and what
// is left of each meal: a stage-structured daily model (cocoons, juveniles,
// adults) driven by temperature, crowding and food.
//
// It takes values and returns values. Scraps arrive as numbers (Part), so that
// the package needs no catalogue; the advice package does the translating.
package colony

import (
	"trayside/internal/record"
	"trayside/internal/units"
)

// Part is one kind of scrap inside a meal, as the worms see it.
type Part struct {
	Grams  float64 // wet mass
	Appeal float64 // eaten relative to soft scraps; 0 for grit
	Soft   float64 // share that disappears; the rest is hard bits and does not count
	Rot    float64 // share of the soft part that microbes take per day at 20 °C
}

// Meal is one feeding of one tray.
type Meal struct {
	Feeding string
	Tray    string
	Spot    string
	Day     record.Day
	Parts   []Part
	Err     float64 // relative standard error of the amount: 0.02 by scale, more by vessel or unweighed
}

// Tray is one tier over the time that it held a batch.
type Tray struct {
	ID      string
	AreaM2  float64
	Bedded  record.Day
	Feeding *record.Day // worms are invited up from here
	Emptied *record.Day
	Height  int // position from the bottom, 0 first
}

// Input is everything the model needs to know of one bin, sorted by day.
type Input struct {
	Bin     string
	Species record.Species
	Today   record.Day
	Trays   []Tray
	Worms   []record.WormEvent
	Meals   []Meal
	Looks   []record.Look
	// Coolest and Warmest are the room's monthly means of the coldest and the
	// warmest month (northern seasons unless South); readings override them and
	// fade back over about three days.
	Coolest, Warmest units.DeciCelsius
	South            bool
}

// Span is a median with the ends of its 80 % interval.
type Span struct{ Mid, Low, High float64 }

// Left is what remains of one meal.
type Left struct {
	Feeding string
	Tray    string
	Spot    string
	Day     record.Day
	Fed     float64 // g, all parts
	Soft    float64 // g of the soft part still there
}

// Estimate is the state of a bin on one day.
type Estimate struct {
	Day      record.Day
	Live     Span            // g of live worms in the bin
	ByTray   map[string]Span // g of live worms in each tray
	Appetite Span            // g soft scraps per g worm and day, at today's bed and crowding
	Warmth   float64         // 0..1, what today's bed temperature leaves of the appetite
	Crowd    float64         // 0..1, what crowding leaves of it
	Bed      units.DeciCelsius
	BedSeen  bool // from a reading of the last three days
	Lefts    []Left
	Cocoons  float64
	Young    float64 // heads
	Adults   float64 // heads
	SoftEat  float64 // g eaten yesterday
	// CleanLooks counts the looks in a row, up to today, that found nothing left.
	CleanLooks int
	// Started is the first day worms were in the bin; Looks counts the looks with leftovers noted.
	Started record.Day
	Looks   int
}
