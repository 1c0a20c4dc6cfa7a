package colony

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/record"
	"trayside/internal/units"
)

// aLog draws a bin's log of up to half a year, sloppy enough to try the books:
// two trays, meals of any kind, looks that agree and that do not, worms added,
// weighed and lost, trays weighed and harvested, one tray emptied.
func aLog(t *rapid.T) *Input {
	const first = record.Day(20000)
	length := rapid.IntRange(1, 180).Draw(t, "days")
	day := func(label string) record.Day { return first + record.Day(rapid.IntRange(0, length).Draw(t, label)) }
	open, next, emptied := first, day("next tray"), day("emptied")
	in := &Input{
		Species: rapid.SampledFrom(allSpecies).Draw(t, "species"),
		Today:   first + record.Day(length),
		Coolest: units.DeciCelsius(rapid.IntRange(-50, 200).Draw(t, "coolest")),
		Warmest: units.DeciCelsius(rapid.IntRange(150, 400).Draw(t, "warmest")),
		Trays: []Tray{
			{ID: "tray/a", AreaM2: 0.12, Bedded: first, Feeding: &open, Height: 0, Bedding: 600, Empty: 1100},
			{ID: "tray/b", AreaM2: 0.12, Bedded: next, Feeding: &next, Height: 1},
		},
	}
	if rapid.Bool().Draw(t, "empty one") {
		in.Trays[0].Emptied = &emptied
	}
	tray := rapid.SampledFrom([]string{"tray/a", "tray/b", "tray/unknown"})
	in.Worms = append(in.Worms, record.WormEvent{Move: record.WormsAdded, Mass: 450, Day: first})
	for range rapid.IntRange(0, 4).Draw(t, "worm entries") {
		in.Worms = append(in.Worms, record.WormEvent{
			Move: rapid.SampledFrom([]record.WormMove{record.WormsAdded, record.WormsRemoved, record.WormsWeighed, record.WormsLost}).Draw(t, "move"),
			Mass: units.Grams(rapid.IntRange(0, 2000).Draw(t, "mass")), Share: rapid.IntRange(0, 100).Draw(t, "share"),
			Tray: tray.Draw(t, "tray"), Day: day("day"),
		})
	}
	for d := first; d <= in.Today; d += record.Day(rapid.IntRange(1, 9).Draw(t, "pause")) {
		in.Meals = append(in.Meals, Meal{Feeding: d.String(), Tray: tray.Draw(t, "tray"), Day: d, At: "12", Parts: []Part{
			{Grams: float64(rapid.IntRange(0, 900).Draw(t, "g")), Appeal: 1, Soft: 0.95, Rot: 0.04},
			{Grams: float64(rapid.IntRange(0, 200).Draw(t, "g")), Appeal: 0.4, Soft: 0.8, Rot: 0.02},
			{Grams: 20, Appeal: 0, Soft: 0},
		}})
	}
	for range rapid.IntRange(0, 15).Draw(t, "looks") {
		temp := units.DeciCelsius(rapid.IntRange(0, 420).Draw(t, "°C"))
		measured := func(what string, most int64) *int64 {
			if n := rapid.Int64Range(-most, most).Draw(t, what); n >= 0 {
				return &n
			}
			return nil
		}
		in.Looks = append(in.Looks, record.Look{
			Tray: tray.Draw(t, "tray"), Day: day("day"), At: rapid.SampledFrom([]string{"08", "20"}).Draw(t, "at"), Temp: &temp, TempOf: "bed",
			Leftovers: rapid.SampledFrom([]record.Leftovers{"", record.LeftNone, record.LeftHard, record.LeftSome, record.LeftHalf, record.LeftMost}).Draw(t, "leftovers"),
			Weight:    measured("weight", 30_000), Fill: measured("fill", 300), Liquid: measured("liquid", 2000),
		})
	}
	for range rapid.IntRange(0, 3).Draw(t, "harvests") {
		in.Harvests = append(in.Harvests, Harvest{
			Tray: tray.Draw(t, "tray"), Day: day("day"), At: "19", Whole: rapid.Bool().Draw(t, "whole"),
			Grams: rapid.Float64Range(0, 20_000).Draw(t, "castings"), Err: 0.05,
		})
	}
	return in
}

func TestTheSameLogGivesTheSameNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := aLog(t)
		if a, b := Follow(in).Estimate(), Follow(in).Estimate(); !reflect.DeepEqual(a, b) {
			t.Fatalf("two runs of one log differ: %+v and %+v", a, b)
		}
	})
}

// What is written on a day never changes what was known before it.
func TestLaterEntriesDoNotChangeWhatWasSaid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := aLog(t)
		whole := Follow(in)
		cut := *in
		cut.Today = in.Meals[rapid.IntRange(0, len(in.Meals)-1).Draw(t, "meal")].Day
		part := Follow(&cut)
		for _, m := range in.Meals {
			before, ok := part.Said(m.Feeding)
			if after, _ := whole.Said(m.Feeding); ok && before != after {
				t.Fatalf("%s: said %v on its day and %v with hindsight", m.Feeding, before, after)
			}
		}
	})
}

// More food never gives less of worms and what went into their cocoons. The mass of
// worms alone can be up to 4 % less for some weeks: an adult does not grow what it
// lays, and a colony that is fed enough to lay at once is lighter until its young
// hatch than one that is only fed enough to grow. Heads are no measure: in a crowd
// of heavy, well-fed worms fewer young grow up, by design.
func TestMoreFoodNeverGivesFewerWorms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := RatesOf(rapid.SampledFrom(allSpecies).Draw(t, "species"))
		bedC := rapid.Float64Range(12, 28).Draw(t, "°C")
		meal, more := rapid.Float64Range(5, 400).Draw(t, "g"), rapid.Float64Range(1, 3).Draw(t, "times")
		little, much := newDish(r, 1000, 0.2, bedC), newDish(r, 1000, 0.2, bedC)
		for day := range rapid.IntRange(1, 250).Draw(t, "days") {
			little.feed(day, meal)
			much.feed(day, meal*more)
			little.step()
			much.step()
		}
		// A cocoon costs layCost of the size whose cube is an adult's mass. What has
		// gone into one is reckoned by the size of today's adult, hence the half of a hundredth.
		whole := func(d *dish) float64 {
			s := &d.state
			return d.mass() + s.Cocoons()*3*s.AdultSize*s.AdultSize*r.layCost*s.Flesh
		}
		if a, b := whole(little), whole(much); b < a*(1-5e-3) {
			t.Fatalf("%.0f g a day gives %.2f g of worms and cocoons, %.0f g only %.2f", meal, a, meal*more, b)
		}
	})
}

func TestWarmerUpToTheOptimumEatsMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := RatesOf(rapid.SampledFrom(allSpecies).Draw(t, "species"))
		a, b := rapid.Float64Range(0, 25).Draw(t, "°C"), rapid.Float64Range(0, 25).Draw(t, "°C")
		cool, warm := newDish(uncapped(*r), 1000, 0.5, min(a, b)), newDish(uncapped(*r), 1000, 0.5, max(a, b))
		cool.fill()
		warm.fill()
		cool.step()
		warm.step()
		if cool.state.Sums.Night > warm.state.Sums.Night+1e-9 {
			t.Fatalf("%.1f °C eats %.3f g, %.1f °C only %.3f", min(a, b), cool.state.Sums.Night, max(a, b), warm.state.Sums.Night)
		}
	})
}
