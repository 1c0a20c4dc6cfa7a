package ration

import (
	"trayside/internal/record"
)

// Hold stops feeding here: what causes it, what releases it, and the day on
// which it ends or changes at the latest. Nothing else stops feeding; everything
// else reduces it.
type Hold struct {
	Cause string // "hot-bed", "ammonia", "sour", "rot"
	Until string // "bed-below-28" or "smells-earthy"
	Look  record.Day
	End   record.Day
	Entry string // id of the look that shows it, "" if it was worked out
}

// holdOf finds what stops feeding in this tray: a hot bed first, since it kills
// within days, then the newest smell that was noted. A later look that smells of
// earth or of nothing releases it.
func holdOf(in Input) *Hold {
	if in.Estimate.Bed >= hotFrom {
		h := &Hold{Cause: "hot-bed", Until: "bed-below-28", Look: in.Today + 1, End: in.Today + heatDays}
		for _, look := range in.Looks {
			if look.Temp != nil && look.TempOf == "bed" && *look.Temp >= hotFrom && look.Day <= in.Today && in.Today-look.Day <= heatDays {
				h.Entry, h.End = look.ID, max(look.Day+heatDays, in.Today+1)
			}
		}
		return h
	}
	var h *Hold
	for _, look := range in.Looks {
		if look.Smell == "" || look.Day > in.Today || in.Today-look.Day >= smellDays || (look.Tray != "" && look.Tray != in.Fed.ID) {
			continue
		}
		switch look.Smell {
		case "ammonia", "sour", "rot":
			h = &Hold{Cause: look.Smell, Until: "smells-earthy", Look: min(max(look.Day+2, in.Today+1), look.Day+smellDays), End: look.Day + smellDays, Entry: look.ID}
		default:
			h = nil
		}
	}
	return h
}

func (h *Hold) binds() string {
	if h.Cause == "hot-bed" {
		return ByWarmth
	}
	return ByLeftovers
}

func (h *Hold) move() string {
	switch h.Cause {
	case "hot-bed":
		return "cooler-place"
	case "ammonia":
		return "add-dry-bedding"
	}
	return "lift-out-food"
}
