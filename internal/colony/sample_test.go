package colony

import (
	"testing"

	"trayside/internal/record"
)

// Three scoops of a quarter litre out of a bed of 450 g of worms: what is counted
// moves the worms a little toward it, because worms lie in clumps.
func TestASampleMovesTheWormsALittle(t *testing.T) {
	live := func(adults, young int) Span {
		in := roomy(20)
		in.Bin = "bin/sampled"
		in.Worms[0].Wide = true
		if adults >= 0 {
			in.Samples = []record.Sample{{ID: "sample/1", Tray: "tray/low", Scoops: 3, ML: 250, Adults: adults, Young: young, Day: in.Today, At: "2"}}
		}
		return Follow(in).Estimate().Live
	}
	// Five worms are to be expected in them.
	none, few, many := live(-1, 0).Mid, live(1, 1).Mid, live(20, 20).Mid
	if few >= none || many <= none {
		t.Errorf("%.0f g without a sample, %.0f g after few were counted and %.0f g after many", none, few, many)
	}
	if few < none/2 || many > 2*none {
		t.Errorf("three scoops moved %.0f g to %.0f and %.0f g, want less than half and double", none, few, many)
	}
}

// Fifty worms are to be expected: a count that hardly any particle holds possible
// is believed, but leaves the doubt that three scoops leave.
func TestASampleThatSurprisesLeavesDoubt(t *testing.T) {
	for name, n := range map[string]int{"nobody": 0, "a crowd": 300} {
		in := roomy(20)
		in.Bin = "bin/sampled"
		in.Trays[0].AreaM2 = 0.2
		before := Follow(in).Estimate().Live
		in.Samples = []record.Sample{{ID: "sample/1", Tray: "tray/low", Scoops: 3, ML: 250, Adults: n, Young: n, Day: in.Today, At: "2"}}
		e := Follow(in)
		after := e.Estimate().Live
		if n == 0 && after.Mid > 0.8*before.Mid || n > 0 && after.Mid < 1.2*before.Mid {
			t.Errorf("%s: %.0f g before and %.0f g after", name, before.Mid, after.Mid)
		}
		if after.High < 1.5*after.Low {
			t.Errorf("%s: %.0f to %.0f g is too sure", name, after.Low, after.High)
		}
		if e.least < 0.15*crowd {
			t.Errorf("%s: the effective sample size fell to %.0f of %d", name, e.least, crowd)
		}
	}
}
