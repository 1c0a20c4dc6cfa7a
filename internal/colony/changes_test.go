package colony

import (
	"slices"
	"testing"

	"trayside/internal/record"
	"trayside/internal/units"
)

// Each observation of the last month names what it moved, from what to what; an
// older one, and one that agrees, name nothing.
func TestAnObservationSaysWhatItMoved(t *testing.T) {
	weighed := func(day record.Day, g int64) *Input {
		in := roomy(60)
		in.Bin = "bin/moved"
		in.Worms = append(in.Worms, record.WormEvent{ID: "worms/scale", Move: record.WormsWeighed, Mass: units.Grams(g), Day: day, At: "2"})
		return in
	}
	worms := func(e Estimate) (Change, bool) {
		i := slices.IndexFunc(e.Changes, func(c Change) bool { return c.Code == MovedWorms })
		if i < 0 {
			return Change{}, false
		}
		return e.Changes[i], true
	}
	in := weighed(day0+60, 1500)
	before := *in
	before.Worms = in.Worms[:1]
	had := Follow(&before).Estimate().Live.Mid
	after := Follow(in).Estimate()
	c, ok := worms(after)
	if !ok || c.Entry != "worms/scale" || c.Day != day0+60 {
		t.Fatalf("the weighing moved %+v", after.Changes)
	}
	near(t, "before it", c.Before, had, 1e-9)
	near(t, "after it", c.After, after.Live.Mid, 1e-9)

	if c, ok := worms(Follow(weighed(in.Today-newsDays-1, 1500)).Estimate()); ok {
		t.Errorf("a weighing of more than a month ago is news: %+v", c)
	}
	if c, ok := worms(Follow(weighed(day0+60, int64(had))).Estimate()); ok {
		t.Errorf("a weighing that agrees is news: %+v", c)
	}
}
