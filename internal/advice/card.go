package advice

import (
	"slices"

	"trayside/internal/feedstock"
	"trayside/internal/record"
	"trayside/internal/units"
)

// CardView is what somebody needs who types in what stands on a bin's paper
// card: for each day what is known already, and the usual amount.
type CardView struct {
	Day     string       `json:"day"`
	Mass    string       `json:"mass"`
	Temp    string       `json:"temp"`
	Bins    []CardBin    `json:"bins"`
	Members []Person     `json:"members"`
	Vessels []VesselView `json:"vessels"`
	Scrap   string       `json:"scrap"` // what the meals of a card are of: it does not say
}

// CardBin is one bin's card.
type CardBin struct {
	ID      string     `json:"id"`
	Name    string     `json:"name"`
	Usual   int64      `json:"usual"`             // g of a usual meal; 0 where nobody has weighed one
	Vessel  string     `json:"vessel,omitempty"`  // id of the vessel it fills nearly
	Called  string     `json:"called,omitempty"`  // what the household calls that
	Vessels int64      `json:"vessels,omitempty"` // how many of it, in quarters
	Trays   []CardTray `json:"trays"`             // those in it now, from the top down
	Days    []CardDay  `json:"days"`              // newest first
}

// CardTray is a tray that a meal on the card may have gone into: the card is of
// the bin and does not say which.
type CardTray struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

// CardDay is one day of a bin as it is known already.
type CardDay struct {
	Day    string `json:"day"`
	Tray   string `json:"tray"` // the tray that took food that day, "" if none did
	Name   string `json:"name"`
	Feeds  int    `json:"feeds"`
	Grams  int64  `json:"grams"`
	Looked bool   `json:"looked,omitempty"`
}

// How far back a card is typed in, and how many meals make a usual one: our
// choice, a card's rows and about a month of meals.
const (
	cardDays   = 42
	usualMeals = 12
)

// Card returns the days of every bin's card.
func (a *Advice) Card() CardView {
	v := CardView{
		Day: a.day.String(), Mass: a.mass(), Temp: a.temp(), Bins: []CardBin{},
		Members: a.people(), Vessels: a.vessels(), Scrap: feedstock.Mixed,
	}
	for _, bin := range a.open() {
		usual := a.usualMeal(bin.ID)
		b := CardBin{ID: bin.ID, Name: bin.Name, Usual: int64(usual), Trays: []CardTray{}, Days: make([]CardDay, cardDays)}
		for _, id := range slices.Backward(a.stackOf(bin)) {
			b.Trays = append(b.Trays, CardTray{ID: id, Name: a.trayName(id)})
		}
		b.Vessel, b.Vessels = a.vesselFor(usual)
		b.Called = a.vesselName(b.Vessel)
		for i := range b.Days {
			d := a.day - record.Day(i)
			tray := a.takes(bin, d)
			b.Days[i] = CardDay{Day: d.String(), Tray: tray, Name: a.trayName(tray)}
		}
		on := func(d record.Day) *CardDay {
			if d > a.day || d <= a.day-cardDays {
				return &CardDay{}
			}
			return &b.Days[a.day-d]
		}
		for i := range a.h.Feedings {
			if f := &a.h.Feedings[i]; f.Bin == bin.ID {
				day := on(f.Day)
				day.Feeds++
				day.Grams += int64(record.Total(f.Items))
			}
		}
		for i := range a.h.Looks {
			if l := &a.h.Looks[i]; l.Bin == bin.ID {
				on(l.Day).Looked = true
			}
		}
		v.Bins = append(v.Bins, b)
	}
	return v
}

// usualMeal is the middle one of the bin's last weighed meals.
func (a *Advice) usualMeal(bin string) units.Grams {
	var meals []units.Grams
	for i := range slices.Backward(a.h.Feedings) {
		f := &a.h.Feedings[i]
		if g := record.Total(f.Items); f.Bin == bin && f.Day <= a.day && g > 0 && len(meals) < usualMeals {
			meals = append(meals, g)
		}
	}
	if len(meals) == 0 {
		return 0
	}
	slices.Sort(meals)
	return meals[len(meals)/2]
}
