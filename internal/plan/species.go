package plan

import (
	"trayside/internal/colony"
	"trayside/internal/order"
	"trayside/internal/record"
)

// Fit is how a species gets on in a room.
type Fit string

// The fits, best first.
const (
	Suited Fit = "suits" // comfortable all year
	Copes  Fit = "copes" // lives through the year, slow in part of it
	Unfit  Fit = "no"
)

// Reasons for and against a species.
const (
	EatsAllYear  Code = "eats-all-year"
	SlowInWinter Code = "slow-in-winter"
	SlowInSummer Code = "slow-in-summer"
	TooCold      Code = "too-cold"
	TooHot       Code = "too-hot"
	EasyToGet    Code = "easy-to-get"
	BreedsFast   Code = "breeds-fast"
	BreedsSlowly Code = "breeds-slowly"
	Big          Code = "big"
	NeedsWarmth  Code = "needs-warmth"
	Wanders      Code = "wanders"
)

// Suit is one species with what speaks for and against it here.
type Suit struct {
	Species record.Species `json:"species"`
	Fit     Fit            `json:"fit"`
	Reasons []Code         `json:"reasons"`
	LowC    float64        `json:"lowC"` // limits of the bed, °C
	HighC   float64        `json:"highC"`
	Coolest float64        `json:"coolestAppetite"` // share of the best appetite in the coldest month
	Warmest float64        `json:"warmestAppetite"` // and in the warmest
}

// extremes returns the coldest and the warmest of a room's year, °C, by its
// monthly means.
func extremes(room colony.Room) (low, high float64) {
	january, july := record.Day(20473), record.Day(20655) // 20 January and 21 July 2026, where the season turns
	low, high = room.Celsius(january), room.Celsius(july)
	return min(low, high), max(low, high)
}

// suits judges every species for a room, the best first; those that fit alike in
// the order of bands.
func suits(room colony.Room) []Suit {
	low, high := extremes(room)
	list := make([]Suit, 0, len(bands))
	for _, b := range bands {
		s := Suit{Species: b.species, Fit: Suited, LowC: b.low, HighC: b.high, Coolest: appetite(b.species, low), Warmest: appetite(b.species, high)}
		say := func(f Fit, c Code) {
			if f == Unfit || s.Fit == Suited {
				s.Fit = f
			}
			s.Reasons = append(s.Reasons, c)
		}
		switch {
		case low < b.low:
			say(Unfit, TooCold)
		case low < b.from:
			say(Copes, SlowInWinter)
		}
		switch {
		case high > b.high:
			say(Unfit, TooHot)
		case high > b.to:
			say(Copes, SlowInSummer)
		}
		if s.Fit == Suited {
			s.Reasons = append(s.Reasons, EatsAllYear)
		}
		s.Reasons = append(s.Reasons, b.because...)
		list = append(list, s)
	}
	rank := map[Fit]int{Suited: 0, Copes: 1, Unfit: 2}
	order.By(list, func(a, b Suit) int { return rank[a.Fit] - rank[b.Fit] })
	return list
}

// appetite returns what a bed at c °C leaves of a species' appetite, 0 to 1.
func appetite(species record.Species, c float64) float64 {
	r := colony.RatesOf(species)
	s := colony.NewState(r, 1)
	return hundredths(s.Factors(r, &colony.Conditions{BedC: c, Moist: bedMoist, Tiers: []colony.Tier{{AreaM2: 1}}}).Warmth)
}
