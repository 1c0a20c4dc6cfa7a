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

func TestTraysForASurface(t *testing.T) {
	for _, c := range []struct {
		areaM2             float64
		fed, all, inStacks int
	}{{0.09, 1, 3, 1}, {0.16, 1, 3, 1}, {0.165, 1, 3, 1}, {0.20, 2, 5, 1}, {0.37, 3, 7, 2}, {0.8, 5, 11, 3}} {
		if got, want := traysFor(c.areaM2, 0, 0), (Trays{400, 400, c.fed, c.all, c.inStacks}); got != want {
			t.Errorf("%.3f m²: %+v, want %+v", c.areaM2, got, want)
		}
	}
	var p Plan
	p.Scraps.Mid = 3000
	p.size(0.5, 0, 0)
	if math.Abs(p.Bedding.Litres-p.AreaM2*100) > 0.05 || p.Bedding.SoilG != float64(100*p.Trays.Fed) {
		t.Errorf("bedding %+v for %.3f m² and %d trays, want 100 mm and 100 g of soil a tray", p.Bedding, p.AreaM2, p.Trays.Fed)
	}
}

// A keeper who feeds to capacity leaves two days of it lying, and half as much while
// the worms settle in.
func TestTheKeeperFeedsToCapacity(t *testing.T) {
	h := household{rates: colony.RatesOf("eisenia-fetida"), room: colony.Room{Coolest: 200, Warmest: 200}, areaM2: 1, kitchen: 1e6}
	b := h.bed(1000, h.usual())
	b.dawn(0)
	capacity := b.capacity()
	full, half := h.bed(1000, h.usual()), h.bed(1000, h.usual())
	full.dawn(0)
	half.dawn(0)
	if put := full.feed(1) * scraps.Soft; math.Abs(put-2*capacity) > 1e-6 {
		t.Errorf("puts in %.0f g, want two days of %.0f g", put, capacity)
	}
	if put := half.feed(settlingShare) * scraps.Soft; math.Abs(put-capacity) > 1e-6 {
		t.Errorf("while they settle puts in %.0f g, want %.0f", put, capacity)
	}
	if again := full.feed(1); again > 1e-6 {
		t.Errorf("on top of a full bed puts in %.0f g, want none", again)
	}
	h.kitchen = 10
	small := h.bed(1000, h.usual())
	small.dawn(0)
	if put := small.feed(1); put != 10 {
		t.Errorf("puts in %g g of a kitchen's 10, though there is room for more", put)
	}
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
