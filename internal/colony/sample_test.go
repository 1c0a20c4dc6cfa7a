package colony

import (
	"testing"

	"trayside/internal/record"
)

// Three scoops of a quarter litre out of a bed of 450 g of worms: what is counted
// moves the worms a little toward it, because worms lie in clumps.
func TestASampleMovesTheWormsALittle(t *testing.T) {
	live := func(adults, young int) float64 {
		in := roomy(20)
		in.Bin = "bin/sampled"
		in.Worms[0].Wide = true
		if adults >= 0 {
			in.Samples = []record.Sample{{ID: "sample/1", Tray: "tray/low", Scoops: 3, ML: 250, Adults: adults, Young: young, Day: in.Today, At: "2"}}
		}
		return Follow(in).Estimate().Live.Mid
	}
	none, few, many := live(-1, 0), live(1, 1), live(60, 60)
	if few >= none || many <= none {
		t.Errorf("%.0f g without a sample, %.0f g after few were counted and %.0f g after many", none, few, many)
	}
	if few < none/2 || many > 2*none {
		t.Errorf("three scoops moved %.0f g to %.0f and %.0f g, want less than half and double", none, few, many)
	}
}
