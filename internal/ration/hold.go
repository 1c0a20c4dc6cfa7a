package ration

import (
	"cmp"

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
// within days, then smells, then signs of either that somebody chose.
func holdOf(in Input) *Hold {
	if h := heatOf(in); h != nil {
		return h
	}
	if look := badSmell(in, smellDays); look != nil {
		end := look.Day + smellDays
		return &Hold{Cause: look.Smell, Until: "smells-earthy", Look: min(max(look.Day+2, in.Today+1), end), End: end, Entry: look.ID}
	}
	return troubleOf(in)
}

// heatOf is the hold of a bed at 30 °C or more, read or worked out. One that was
// read lasts until the same tray reads below 28 °C or the reading has faded.
func heatOf(in Input) *Hold {
	h := &Hold{Cause: "hot-bed", Until: "bed-below-28", Look: in.Today + 1, End: in.Today + heatDays}
	cooled := map[string]bool{}
	for i := len(in.Looks) - 1; i >= 0; i-- {
		look := in.Looks[i]
		if look.Day > in.Today || in.Today-look.Day >= heatDays || look.Temp == nil || look.TempOf != "bed" {
			continue
		}
		switch {
		case *look.Temp < warmFrom:
			cooled[look.Tray] = true
		case *look.Temp >= hotFrom && !cooled[look.Tray]:
			h.Entry, h.End = look.ID, look.Day+heatDays
			return h
		}
	}
	if in.Estimate.Bed < hotFrom {
		return nil
	}
	return h
}

// badSmell returns the look of the last days whose smell stops feeding. The newest
// smell noted in a tray is the one that counts for it, so a look that smells of
// earth or of nothing releases a hold. Any smell in this tray holds it, ammonia in
// any tray.
func badSmell(in Input, days record.Day) *record.Look {
	answered := map[string]bool{}
	for i := len(in.Looks) - 1; i >= 0; i-- {
		look := &in.Looks[i]
		tray := cmp.Or(look.Tray, in.Fed.ID)
		if look.Smell == "" || look.Day > in.Today || in.Today-look.Day >= days || answered[tray] {
			continue
		}
		answered[tray] = true
		if look.Smell == "ammonia" || tray == in.Fed.ID && (look.Smell == "sour" || look.Smell == "rot") {
			return look
		}
	}
	return nil
}

// troubleOf is the hold that noted signs ask for, unless a smell or a reading
// since says otherwise.
func troubleOf(in Input) *Hold {
	t := in.Trouble
	if t.Hold == "" || t.End <= in.Today {
		return nil
	}
	until := "smells-earthy"
	if t.Hold == "hot-bed" {
		until = "bed-below-28"
	}
	after := false
	for _, look := range in.Looks { // in the order in which they were made
		after = after || look.ID == t.Entry
		switch {
		case !after || look.Tray != in.Fed.ID || look.Day > in.Today || look.ID == t.Entry:
		case t.Hold == "hot-bed" && look.Temp != nil && look.TempOf == "bed" && *look.Temp < warmFrom:
			return nil
		case t.Hold != "hot-bed" && (look.Smell == "earthy" || look.Smell == "none"):
			return nil
		}
	}
	return &Hold{Cause: t.Hold, Until: until, Look: min(max(t.Look, in.Today+1), t.End), End: t.End, Entry: t.Entry}
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
