package plan_test

import (
	"slices"
	"testing"

	"trayside/internal/colony"
	"trayside/internal/plan"
	"trayside/internal/record"
)

func TestGoingAway(t *testing.T) {
	july, _ := record.DayOf("2027-07-01")
	january, _ := record.DayOf("2027-01-10")
	for _, c := range []struct {
		name     string
		room     colony.Room
		from     record.Day
		days     int
		has, not []plan.Code
	}{
		{"a week: nothing", room(18, 22), start, 7, []plan.Code{plan.DoNothing, plan.NoHeap, plan.NoCatchUp}, []plan.Code{plan.AskSomebody, plan.MoreBedding, plan.CoolPlace}},
		// UF/IFAS Extension Sarasota 2023: several weeks without food are tolerated.
		{"four weeks: nothing but bedding and a cover", room(18, 22), start, 28, []plan.Code{plan.DoNothing, plan.Moisten, plan.Cover, plan.MoreBedding, plan.NoCatchUp}, []plan.Code{plan.AskSomebody}},
		{"three months: somebody looks", room(18, 22), start, 90, []plan.Code{plan.AskSomebody, plan.NoCatchUp}, []plan.Code{plan.DoNothing}},
		{"in a hot July a cool place", room(15, 32), july, 14, []plan.Code{plan.CoolPlace}, []plan.Code{plan.FrostFree}},
		{"the same room in January none", room(15, 32), january, 14, nil, []plan.Code{plan.CoolPlace}},
		{"in frost a place without", room(-2, 20), january, 14, []plan.Code{plan.FrostFree}, []plan.Code{plan.CoolPlace}},
	} {
		a, err := plan.Away(record.Eisenia, c.room, c.from, c.days)
		if err != nil {
			t.Fatal(err)
		}
		all := slices.Concat(a.Before, a.During, a.After)
		for _, code := range c.has {
			if !slices.Contains(all, code) {
				t.Errorf("%s: %v lacks %s", c.name, all, code)
			}
		}
		for _, code := range c.not {
			if slices.Contains(all, code) {
				t.Errorf("%s: %v has %s", c.name, all, code)
			}
		}
	}
	for _, days := range []int{0, -3, 1000} {
		if _, err := plan.Away(record.Eisenia, room(18, 22), start, days); err == nil {
			t.Errorf("%d days away are taken", days)
		}
	}
}

// Reinecke & Viljoen 1990, variable-feeding series: worms shrink for weeks before
// they die.
func TestHungryWormsShrinkBeforeTheyDie(t *testing.T) {
	last := 1.0
	for _, days := range []int{7, 14, 28, 42, 90} {
		a, err := plan.Away(record.Eisenia, room(18, 22), start, days)
		if err != nil {
			t.Fatal(err)
		}
		if a.Mass >= last {
			t.Errorf("%d days away leave %.2f of the mass, fewer leave %.2f", days, a.Mass, last)
		}
		if a.Heads < a.Mass {
			t.Errorf("%d days away leave %.2f of the worms and %.2f of their mass: want lean ones", days, a.Heads, a.Mass)
		}
		if days <= 28 && a.Heads < 0.8 {
			t.Errorf("%d days away leave %.2f of the worms; several weeks are tolerated", days, a.Heads)
		}
		last = a.Mass
	}
}
