package advice

import (
	"testing"

	"trayside/internal/colony"
	"trayside/internal/ration"
	"trayside/internal/record"
	"trayside/internal/units"
)

// The causes that let a ration leap by more than a fifth over the last.
func TestALeapNeedsACauseWithAName(t *testing.T) {
	const last, now = record.Day(100), record.Day(103)
	before := past{known: true, day: last, tray: "tray/a", days: 3, bed: 200, result: ration.Result{Grams: 100, Binds: ration.ByLeftovers}}
	held := before
	held.result.Hold = &ration.Hold{Cause: "sour"}
	worms := before
	worms.result.Binds = ration.ByWorms
	clean := record.Look{Tray: "tray/a", Day: now, Leftovers: record.LeftNone}
	for _, row := range []struct {
		name  string
		last  past
		in    colony.Input
		tray  string
		bed   units.DeciCelsius
		cause string
	}{
		{"nothing changed", before, colony.Input{}, "tray/a", 200, ""},
		{"another tray", before, colony.Input{}, "tray/b", 200, "tray-changed"},
		{"a hold is over", held, colony.Input{}, "tray/a", 200, "released"},
		{"worms were added", before, colony.Input{Worms: []record.WormEvent{{Move: record.WormsAdded, Day: now}}}, "tray/a", 200, "worms-added"},
		{"worms were weighed", before, colony.Input{Worms: []record.WormEvent{{Move: record.WormsWeighed, Day: last + 1}}}, "tray/a", 200, "worms-weighed"},
		{"worms were added long ago", before, colony.Input{Worms: []record.WormEvent{{Move: record.WormsAdded, Day: 20}}}, "tray/a", 200, ""},
		{"worms will be added", before, colony.Input{Worms: []record.WormEvent{{Move: record.WormsAdded, Day: now + 1}}}, "tray/a", 200, ""},
		{"the leftovers that bound are gone", before, colony.Input{Looks: []record.Look{clean}}, "tray/a", 200, "leftovers-gone"},
		{"gone, but they did not bind", worms, colony.Input{Looks: []record.Look{clean}}, "tray/a", 200, ""},
		{"two degrees warmer", before, colony.Input{}, "tray/a", 220, "warmer"},
		{"a degree and a half warmer", before, colony.Input{}, "tray/a", 215, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			a := New(&record.Household{}, now, Phone{})
			r := &run{in: &row.in, last: row.last}
			if got := a.changed(r, row.tray, now, colony.Estimate{Bed: row.bed}); got != row.cause {
				t.Errorf("the cause is %q, want %q", got, row.cause)
			}
		})
	}
}

// fedOnce is one bin of one tray, fed 900 g on day 100 when far less was advised.
func fedOnce(more ...record.Look) *record.Household {
	open := record.Day(60)
	return &record.Household{
		Bins:     []record.Bin{{ID: "bin/a", Species: record.Eisenia, FeedEvery: 3, RoomCoolest: 200, RoomWarmest: 200, Stack: []string{"tray/a"}}},
		Trays:    []record.Tray{{ID: "tray/a", Bin: "bin/a", Width: 400, Depth: 400, Height: 150}},
		Batches:  []record.Batch{{ID: "batch/a", Tray: "tray/a", Bedded: 60, Feeding: &open}},
		Worms:    []record.WormEvent{{ID: "worms/a", Bin: "bin/a", Tray: "tray/a", Move: record.WormsAdded, Mass: 300, Day: 60}},
		Feedings: []record.Feeding{{ID: "feeding/a", Bin: "bin/a", Tray: "tray/a", How: record.ByScale, Day: 100, At: "18", Items: []record.Item{{Scrap: "kale", Grams: 900}}}},
		Looks:    more,
	}
}

func TestTheNextStepGoesOnFromWhatWasFedAndEaten(t *testing.T) {
	lastOn := func(h *record.Household, d record.Day) ration.Last {
		a := New(h, d, Phone{})
		r := a.run(&h.Bins[0])
		return a.rationInput(r, "tray/a", d, r.est).Last
	}
	eaten := fedOnce(record.Look{Bin: "bin/a", Tray: "tray/a", Day: 103, At: "08", Leftovers: record.LeftNone})
	if l := lastOn(eaten, 103); l.Grams != 900 || l.Days != 3 {
		t.Errorf("900 g were fed and are gone, the last ration counts as %+v, want 900 g for 3 days", l)
	}
	lying := fedOnce(record.Look{Bin: "bin/a", Tray: "tray/a", Day: 103, At: "08", Leftovers: record.LeftMost})
	if l := lastOn(lying, 103); l.Grams >= 900 || l.Grams <= 0 {
		t.Errorf("900 g were fed and lie there, the last ration counts as %+v, want what was advised", l)
	}
	if l := lastOn(eaten, 100+staleDays+1); l.Grams != 0 {
		t.Errorf("after more than four weeks the last ration still counts: %+v", l)
	}
	if l := lastOn(eaten, 100+staleDays); l.Grams == 0 {
		t.Error("after four weeks the last ration should still count")
	}
}

func TestAScoreLooksAtTheNewestThirty(t *testing.T) {
	h := fedOnce()
	h.Feedings = nil
	for n := range record.Day(45) {
		d := 100 + 4*n
		h.Feedings = append(h.Feedings, record.Feeding{ID: "feeding/" + d.String(), Bin: "bin/a", Tray: "tray/a", How: record.ByScale, Day: d, At: "18", Items: []record.Item{{Scrap: "kale", Grams: 60}}})
		left := record.LeftNone
		if n < 15 { // the first ones were all broken
			left = record.LeftMost
		}
		h.Looks = append(h.Looks, record.Look{Bin: "bin/a", Tray: "tray/a", Day: d + 1, At: "08", Leftovers: left})
	}
	a := New(h, 300, Phone{})
	if s := a.run(&h.Bins[0]).score; s.of != scored || s.kept != scored {
		t.Errorf("the score is %+v, want the newest %d promises, all kept", s, scored)
	}
}
