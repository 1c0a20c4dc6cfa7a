package plan

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/colony"
	"trayside/internal/units"
)

func TestMoreScrapsNeverTakeFewerOfAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.Float64Range(1, 50_000)
		mm := rapid.IntRange(0, 900)
		width, depth := units.Millimetres(mm.Draw(t, "width")), units.Millimetres(mm.Draw(t, "depth"))
		appetite := colony.RatesOf(rapid.SampledFrom(Species()).Draw(t, "species")).Appetite.Mid
		x := Plan{Scraps: Span{Mid: g.Draw(t, "scraps")}}
		y := Plan{Scraps: Span{Mid: x.Scraps.Mid + g.Draw(t, "more")}}
		x.size(appetite, width, depth)
		y.size(appetite, width, depth)
		if y.WormsG < x.WormsG || y.AreaM2 < x.AreaM2 || y.Trays.All < x.Trays.All || y.Trays.Stacks < x.Trays.Stacks ||
			y.Bedding.PaperG < x.Bedding.PaperG || y.Bedding.Water < x.Bedding.Water || y.Bedding.SoilG < x.Bedding.SoilG {
			t.Fatalf("%.0f g: %+v; %.0f g: %+v", x.Scraps.Mid, x, y.Scraps.Mid, y)
		}
		if x.WormsG/x.AreaM2 > densest*1.01 || x.WormsG < 450 || x.Trays.Fed < 1 || x.Trays.All <= x.Trays.Fed {
			t.Fatalf("%+v", x)
		}
	})
}

// Each trait's places are all used once, so that every range is covered evenly, and
// no two traits go together.
func TestTheMembersCoverEveryRangeEvenly(t *testing.T) {
	h := household{rates: colony.RatesOf("eisenia-fetida")}
	var logs [5][members]float64
	for k := range members {
		tr := h.traits(k)
		for i, f := range []float64{tr.Hunger, tr.Broad, tr.Fertile, tr.Frail, tr.Roomy} {
			logs[i][k] = math.Log(f)
		}
	}
	for i := range logs {
		low, high, seen := 0, 0, map[float64]bool{}
		for _, x := range logs[i] {
			seen[x] = true
			switch {
			case x < -1e-9:
				low++
			case x > 1e-9:
				high++
			}
		}
		if low != members/2 || high != members/2 || len(seen) != members {
			t.Errorf("trait %d: %d below and %d above the middle, %d different", i, low, high, len(seen))
		}
		for j := range i {
			var xy, xx, yy float64
			for k := range members {
				xy += logs[i][k] * logs[j][k]
				xx += logs[i][k] * logs[i][k]
				yy += logs[j][k] * logs[j][k]
			}
			if r := xy / math.Sqrt(xx*yy); math.Abs(r) > 0.4 {
				t.Errorf("traits %d and %d go together: r = %.2f", j, i, r)
			}
		}
	}
}
