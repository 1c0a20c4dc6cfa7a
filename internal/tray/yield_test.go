package tray_test

import (
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/tray"
)

func TestAHouseholdLearnsItsOwnYield(t *testing.T) {
	harvest := func(n int, h tray.Harvest) (hs []tray.Harvest) {
		for range n {
			hs = append(hs, h)
		}
		return hs
	}
	weighed, buckets := tray.Harvest{Expected: 5000, Grams: 2500}, tray.Harvest{Expected: 5000, Litres: 2500 / 650.0}
	none, one, many := tray.Learn(nil), tray.Learn(harvest(1, weighed)), tray.Learn(harvest(20, weighed))
	if none != (tray.Yield{}) {
		t.Errorf("without a harvest: %+v, want nothing learned", none)
	}
	if one.Factor <= 0.5 || one.Factor >= 0.75 {
		t.Errorf("one harvest of half: factor %.2f, want part of the way from 1 to 0.5", one.Factor)
	}
	near(t, "twenty harvests of half", many.Factor, 0.5, 0.02)
	if many.Err >= one.Err || one.Err >= 0.28 {
		t.Errorf("standard errors 0.28, %.3f, %.3f: want each harvest to make it surer", one.Err, many.Err)
	}
	if many.Err < 0.12 {
		t.Errorf("twenty harvests leave an error of %.3f: batches differ by more", many.Err)
	}
	if b := tray.Learn(harvest(1, buckets)); b.Factor <= one.Factor || b.Err <= one.Err {
		t.Errorf("buckets teach %+v, weighing %+v: want buckets to teach less", b, one)
	}
	both := tray.Learn(harvest(1, tray.Harvest{Expected: 5000, Grams: 1250, Litres: 1250 / 650.0}))
	if b := tray.Learn(harvest(1, buckets)); both.Factor <= one.Factor || both.Factor >= b.Factor || both.Err <= one.Err || both.Err >= b.Err {
		t.Errorf("half weighed and half in buckets teach %+v; want it between weighing (%+v) and buckets (%+v)", both, one, b)
	}
	if y := tray.Learn([]tray.Harvest{{Expected: 5000}, {Grams: 300}}); y.Seen != 0 {
		t.Errorf("harvests without an amount or a forecast count as %d", y.Seen)
	}

	b := fresh()
	before := tray.Forecast(b, start)
	b.Yield = many
	after := tray.Forecast(b, start)
	near(t, "castings after learning", after.Castings.Mid, before.Castings.Mid*many.Factor, 1e-6)
	if before.Castings.High/before.Castings.Low <= after.Castings.High/after.Castings.Low {
		t.Errorf("the range is %v before and %v after learning, want it narrower", before.Castings, after.Castings)
	}
	if after.Ready != before.Ready {
		t.Error("the yield moved the day")
	}
}

func TestABiggerHarvestNeverTeachesLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.Float64Range(10, 20000)
		h := tray.Harvest{Expected: g.Draw(t, "expected"), Grams: g.Draw(t, "grams")}
		more := h
		more.Grams += g.Draw(t, "more")
		other := tray.Harvest{Expected: g.Draw(t, "other expected"), Litres: g.Draw(t, "litres") / 1000}
		x, y := tray.Learn([]tray.Harvest{h, other}), tray.Learn([]tray.Harvest{more, other})
		if y.Factor <= x.Factor || y.Err != x.Err {
			t.Fatalf("%+v teaches %+v, %+v teaches %+v", h, x, more, y)
		}
	})
}
