package trouble

import (
	"cmp"
	"slices"

	"trayside/internal/colony"
	"trayside/internal/feedstock"
	"trayside/internal/record"
	"trayside/internal/units"
)

const (
	foodDays = 14 // scraps of the last days that may be behind it
	// lookDays is how long what a look noted still speaks for the bed: judgement; a
	// week is the usual time between looks.
	lookDays = 7
	// steadyRoom: a room whose coldest and warmest month lie no further apart has no
	// seasons, 0.1 K. Judgement.
	steadyRoom = 60
)

// LogOf draws from a household's record, and from the estimate of the tray's bin on
// the same day, what Diagnose needs to know. What lies after today is left out. A
// tray that is not in the record yields a Log that knows next to nothing. South
// says that the household lives where January is summer.
func LogOf(h *record.Household, tray string, today record.Day, south bool, est colony.Estimate) Log {
	var l Log
	i := slices.IndexFunc(h.Trays, func(t record.Tray) bool { return t.ID == tray })
	if i < 0 {
		return l
	}
	t := h.Trays[i]
	l.AreaCM2 = t.AreaCM2()
	for _, look := range looksAt(h.Looks, t, today) {
		l.Squeeze = cmp.Or(look.Squeeze, l.Squeeze)
	}
	l.Bedded = beddedOf(h.Batches, tray, today)
	l.Season = seasonOf(today, south)
	if b := slices.IndexFunc(h.Bins, func(b record.Bin) bool { return b.ID == t.Bin }); b >= 0 {
		bin := h.Bins[b]
		l.Species = bin.Species
		if bin.RoomWarmest != 0 && bin.RoomWarmest-bin.RoomCoolest <= steadyRoom {
			l.Season = ""
		}
	}
	if est.BedSeen {
		l.Bed = &est.Bed
	}
	if est.Started > 0 && est.Started <= today {
		days := int(today - est.Started)
		l.Age = &days
	}
	l.Eats = grams(est.Appetite.Mid * est.ByTray[tray].Mid)
	for _, left := range est.Lefts {
		if left.Tray == tray && left.Day <= today {
			l.Lying += grams(left.Soft)
		}
	}
	l.Density = densityOf(h.Trays, est)
	l.Foods = foodsOf(h.Feedings, t.Bin, today)
	l.Supply = supplyOf(l, h.Feedings, t.Bin, today, est)
	return l
}

// looksAt returns the looks of the last week that speak for a tray: its own, and
// those of its bin that name no tray.
func looksAt(looks []record.Look, t record.Tray, today record.Day) []record.Look {
	var out []record.Look
	for _, l := range looks {
		if (l.Tray == t.ID || l.Tray == "" && l.Bin == t.Bin) && fresh(l.Day, today, lookDays) {
			out = append(out, l)
		}
	}
	return out
}

// fresh reports whether a day is one of the last so many, today included.
func fresh(d, today record.Day, days int) bool { return d <= today && int(today-d) < days }

// beddedOf returns the days since the batch in a tray was bedded, nil if the tray
// stands empty or nobody said.
func beddedOf(batches []record.Batch, tray string, today record.Day) *int {
	var newest *record.Batch
	for i := range batches {
		b := &batches[i]
		if b.Tray == tray && b.Bedded <= today && (newest == nil || b.Bedded >= newest.Bedded) {
			newest = b
		}
	}
	if newest == nil || newest.StageOn(today) == record.Emptied {
		return nil
	}
	days := int(today - newest.Bedded)
	return &days
}

// seasonOf returns the season by the month: three months each of winter and of
// summer, and what lies between.
func seasonOf(today record.Day, south bool) Season {
	// Day 335 is the first of December, day 152 the first of June, give or take a day.
	day := today.YearDay()
	if south {
		day = (day+182)%365 + 1
	}
	switch {
	case day >= 335 || day < 60:
		return Winter
	case day >= 152 && day < 244:
		return Summer
	}
	return Between
}

// densityOf returns the live worms per surface of all trays that hold a batch.
func densityOf(trays []record.Tray, est colony.Estimate) int64 {
	var area int64
	for _, t := range trays {
		if _, ok := est.ByTray[t.ID]; ok {
			area += t.AreaCM2()
		}
	}
	if area <= 0 {
		return 0
	}
	return units.Round(int64(grams(est.Live.Mid))*cm2InM2, area)
}

func foodsOf(feedings []record.Feeding, bin string, today record.Day) []record.Item {
	var out []record.Item
	for i := range feedings {
		f := &feedings[i]
		if f.Bin != bin || !fresh(f.Day, today, foodDays) {
			continue
		}
		out = append(out, f.Items...)
		if len(f.Items) == 0 {
			out = append(out, record.Item{Scrap: feedstock.Mixed})
		}
	}
	return out
}

// supplyOf compares the soft scraps of the last days with what the bin's worms
// could have eaten in them. A log in which nothing was ever fed is no log of
// feedings, and says nothing.
func supplyOf(l Log, feedings []record.Feeding, bin string, today record.Day, est colony.Estimate) *int {
	eats := est.Appetite.Mid * est.Live.Mid
	known := slices.ContainsFunc(feedings, func(f record.Feeding) bool { return f.Bin == bin && f.Day <= today })
	if !(eats >= 1) || l.Age == nil || *l.Age < 1 || !known {
		return nil
	}
	var soft float64
	for _, it := range l.Foods {
		g := it.Grams
		if g <= 0 {
			g = unweighedItem
		}
		f := feedstock.Standard().FactorsOf(it.Scrap, feedstock.Class(it.Class), it.Cut, it.Frozen)
		soft += float64(float64(min(g, mostGrams)) * f.Soft)
	}
	percent := units.Nearest(100 * soft / (eats * float64(min(*l.Age, foodDays))))
	out := int(min(percent, 1000))
	return &out
}

// grams turns the model's mass into grams; what cannot be counts for nothing.
func grams(g float64) units.Grams { return units.Grams(min(max(0, units.Nearest(g)), mostGrams)) }

// SeenIn returns the signs that the looks of the last week have noted in a tray, so
// that a screen can offer them ticked. Of each kind the newest word counts: a smell
// of earth takes back a sour one.
func SeenIn(h *record.Household, tray string, today record.Day) []Sign {
	at := slices.IndexFunc(h.Trays, func(t record.Tray) bool { return t.ID == tray })
	if at < 0 {
		return nil
	}
	seen := map[Sign]bool{}
	looks := looksAt(h.Looks, h.Trays[at], today)
	for _, of := range noted {
		for _, look := range slices.Backward(looks) {
			if list, said := of(look); said {
				for _, s := range list {
					seen[s] = true
				}
				break
			}
		}
	}
	return slices.DeleteFunc(Signs(), func(s Sign) bool { return !seen[s] })
}

// noted says for each part of a look which signs it is of, if any, and whether the
// look has a word on it at all.
var noted = [...]func(record.Look) (list []Sign, said bool){
	func(l record.Look) ([]Sign, bool) {
		return signOf(l.Smell, map[string]Sign{"sour": SourSmell, "rot": RotSmell, "ammonia": AmmoniaSmell}), l.Smell != ""
	},
	func(l record.Look) ([]Sign, bool) {
		return signOf(l.Squeeze, map[string]Sign{"runs": WetBed, "crumbles": DryBed}), l.Squeeze != ""
	},
	func(l record.Look) ([]Sign, bool) {
		if l.Temp == nil || l.TempOf != "bed" {
			return nil, false
		}
		switch within(int64(*l.Temp), "", bedFrom[:]...).band {
		case bedFreezing, bedCold:
			return []Sign{ColdBed}, true
		case bedHot:
			return []Sign{HotBed}, true
		}
		return nil, true
	},
	func(l record.Look) ([]Sign, bool) {
		return signOf(string(l.Leftovers), map[string]Sign{string(record.LeftMost): FoodUneaten}), l.Leftovers != ""
	},
	func(l record.Look) ([]Sign, bool) {
		var list []Sign
		for _, v := range l.Visitors {
			list = append(list, signOf(v, visitors)...)
		}
		return list, len(l.Visitors) > 0
	},
	func(l record.Look) ([]Sign, bool) {
		var list []Sign
		for _, s := range l.Signs {
			list = append(list, Sign(s)) // one that is none is dropped with Signs
		}
		return list, len(l.Signs) > 0
	},
}

// visitors are the signs that what was met in a bed is of; slugs, beetles, and
// worms that ball up or are pale, point to no cause by themselves.
var visitors = map[string]Sign{
	"fruit-flies": FruitFlies, "mites": PaleMites, "springtails": Springtails, "white-worms": Potworms, "ants": Ants,
	"fly-larvae": Maggots, "rodents": Rodents, "escaping-worms": WormsLeaving, "dead-worms": WormsDying,
}

func signOf(word string, table map[string]Sign) []Sign {
	if s, ok := table[word]; ok {
		return []Sign{s}
	}
	return nil
}
