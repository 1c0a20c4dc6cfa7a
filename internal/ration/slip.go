package ration

import "trayside/internal/units"

// Slipped says what to do with an amount that may be a slip of the finger.
type Slipped struct {
	Kind  string      // "" take it, "ask" whether it is meant, "refuse"
	Why   string      // "negative", "too-much" or "far-over-ration"
	Limit units.Grams // the amount from which on it asks or refuses
}

// Slip looks at an amount before it is saved. It asks above both 2 kg and four
// times the ration, and refuses more than 200 kg and less than nothing. What is
// already in the bin is in the bin: it is accepted, however much.
func Slip(amount, ration units.Grams, inBin bool) Slipped {
	limit := max(slipAbove, slipTimes*max(ration, 0))
	switch {
	case amount < 0:
		return Slipped{"refuse", "negative", 0}
	case inBin:
		return Slipped{Limit: limit}
	case amount > slipRefuse:
		return Slipped{"refuse", "too-much", slipRefuse}
	case amount > limit:
		return Slipped{"ask", "far-over-ration", limit}
	}
	return Slipped{Limit: limit}
}
