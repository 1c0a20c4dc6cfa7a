package colony

import (
	"testing"

	"trayside/internal/record"
	"trayside/internal/units"
)

// How long worms take to follow food into a new tray is learned from what is found
// up there: few worms three weeks on are slow ones. One weighing teaches little of
// it, and many worms hardly more than was expected: they may also be a larger
// colony.
func TestTheClimbingLagIsLearned(t *testing.T) {
	slow := func(up units.Grams) float64 {
		in := roomy(81)
		in.Bin = "bin/climbs"
		open, rest := day0+60, day0+61
		in.Trays[0].Resting = &rest
		in.Trays = append(in.Trays, Tray{ID: "tray/top", AreaM2: 2, Bedded: day0 + 58, Feeding: &open, Height: 1})
		for d := day0; d < in.Today; d += 3 {
			tray := "tray/low"
			if d >= open {
				tray = "tray/top"
			}
			in.Meals = append(in.Meals, scraps("feeding/"+d.String(), d, tray, 150))
		}
		if up > 0 {
			in.Worms = append(in.Worms, record.WormEvent{ID: "worms/up", Move: record.WormsWeighed, Tray: "tray/top", Mass: up, Day: in.Today, At: "2"})
		}
		e := Follow(in)
		lags := make([]float64, len(e.particles))
		for i := range e.particles {
			lags[i] = e.particles[i].Slow
		}
		return e.spread(lags).Mid
	}
	unweighed, few, many := slow(0), slow(80), slow(500)
	if few < 1.1*unweighed || few < 1.1*many {
		t.Errorf("the lag is %.2f of the usual one unweighed, %.2f after few worms and %.2f after many", unweighed, few, many)
	}
}
