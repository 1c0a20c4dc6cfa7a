package ration

import (
	"cmp"

	"trayside/internal/colony"
	"trayside/internal/record"
)

// binds names the cause that took most of the meal, and the cheapest move that
// would lift it.
func (l *ledger) binds(in Input, r Result) (string, string) {
	if r.Hold != nil {
		return r.Hold.binds(), r.Hold.move()
	}
	if empty(in.Estimate) {
		return ByWorms, "log-worms"
	}
	binds, least := ByWorms, int64(bindingMilli)
	if warmth := milli(in.Estimate.Warmth); warmth < least {
		binds, least = ByWarmth, warmth
	}
	if damp := milli(in.Estimate.Damp); damp < least {
		binds, least = ByMoisture, damp
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

// empty reports whether no live worms are known of in the bin: none were ever
// written down, or none are left.
func empty(e colony.Estimate) bool {
	for _, worms := range e.ByTray {
		if worms.Mid >= 0.5 {
			return false
		}
	}
	return true
}

func moveFor(binds string, in Input, r Result) string {
	damp := dampMove(in)
	switch binds {
	case ByMoisture:
		return cmp.Or(damp, "look")
	case BySurface, ByKitchen, ByDays, ByWorms:
		if damp == dryBedding {
			return damp // a bed from which water runs comes first
		}
	}
	switch binds {
	case BySurface:
		return "bed-next-tray"
	case ByWarmth:
		switch e := in.Estimate; {
		case e.Bed >= warmFrom || in.HotWeek:
			return "cooler-place"
		case e.Looks == 0 && !e.BedSeen:
			return "look-first" // it is only the season that says so
		}
		return "warmer-place"
	case ByKitchen:
		return "save-scraps"
	case ByLeftovers, ByTrouble:
		return "look"
	case BySettling:
		return "leave-alone"
	case ByResting:
		return "feed-open-tray"
	case ByDays:
		return "feed-oftener"
	}
	if r.Sure == Guess || r.Grams <= handful {
		return "look"
	}
	return "let-grow"
}

const dryBedding = "add-dry-bedding"

// dampMove is what helps a bed by the newest reading of its moisture or acidity,
// "" where that is well or nobody has read it.
func dampMove(in Input) string {
	for i := len(in.Looks) - 1; i >= 0; i-- {
		switch look := in.Looks[i]; {
		case look.Day > in.Today:
		case look.PH != nil && *look.PH < sourPH:
			return "add-eggshell"
		case look.Meter != nil && *look.Meter > wetMeter, look.Squeeze == "runs":
			return dryBedding
		case look.Meter != nil && *look.Meter < dryMeter, look.Squeeze == "crumbles":
			return "moisten"
		case look.PH != nil || look.Meter != nil || look.Squeeze != "":
			return ""
		}
	}
	return ""
}
