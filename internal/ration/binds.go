package ration

import "trayside/internal/record"

// binds names the cause that took most of the meal, and the cheapest move that
// would lift it.
func (l *ledger) binds(in Input, r Result) (string, string) {
	if r.Hold != nil {
		return r.Hold.binds(), r.Hold.move()
	}
	binds, least := ByWorms, int64(bindingMilli)
	if warmth := milli(in.Estimate.Warmth); in.Estimate.Warmth > 0 && warmth < least {
		binds, least = ByWarmth, warmth
	}
	for _, c := range l.cuts {
		if c.left < least {
			binds, least = c.cause, c.left
		}
	}
	if hand := record.Total(in.InHand); binds == ByWorms && hand > 0 && hand < r.Grams {
		binds = ByKitchen
	}
	return binds, moveFor(binds, in, r)
}

func moveFor(binds string, in Input, r Result) string {
	switch binds {
	case BySurface:
		return "bed-next-tray"
	case ByWarmth:
		if in.Estimate.Bed >= warmFrom {
			return "cooler-place"
		}
		return "warmer-place"
	case ByKitchen:
		return "save-scraps"
	case ByLeftovers:
		return "look"
	case BySettling:
		return "leave-alone"
	case ByResting:
		return "feed-open-tray"
	case ByDays:
		return "feed-oftener"
	}
	if r.Sure == Guess {
		return "look"
	}
	return "let-grow"
}
