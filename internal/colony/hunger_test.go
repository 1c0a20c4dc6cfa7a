package colony

import (
	"testing"

	"trayside/internal/record"
)

// UF/IFAS Extension Sarasota 2023: several weeks without food are tolerated;
// Reinecke & Viljoen 1990: unfed adults shrink for weeks before they die.
func TestUnfedWormsShrinkForWeeksBeforeTheyDie(t *testing.T) {
	d := newDish(&eisenia, 1000, 0.5, 22)
	unfed := func(days int) {
		for range days {
			d.step()
		}
	}
	unfed(35)
	if n := d.state.Adults(); n < 900 {
		t.Errorf("after five weeks without food %.0f of 1000 adults live, want nearly all", n)
	}
	if d.state.Flesh > 0.85 || d.state.Flesh < 0.5 {
		t.Errorf("after five weeks without food they weigh %.2f of what they did, want clearly less and not half", d.state.Flesh)
	}
	unfed(85)
	if n := d.state.Adults(); n > 500 || n < 1 {
		t.Errorf("after four months without food %.0f of 1000 adults live, want few", n)
	}
	alive, lean := d.state.Adults(), d.state.Flesh
	for range 45 {
		d.fill()
		d.step()
	}
	if d.state.Flesh < 0.95 {
		t.Errorf("fed again for 45 days they weigh %.2f (from %.2f) of a well-fed worm, want nearly all of it", d.state.Flesh, lean)
	}
	if d.state.Adults() < alive/2 {
		t.Errorf("fed again, %.0f adults of %.0f live on", d.state.Adults(), alive)
	}
}

// Edwards & Arancon 2004, table 18.3: E. fetida lives between 60 and 90 % moisture.
// Beyond, worms eat nothing, shrink and die, the sooner the farther.
func TestWormsShrinkAndDieInABedTooDryOrTooWet(t *testing.T) {
	after := func(moist float64, days int) (alive, flesh float64) {
		d := newDish(&eisenia, 1000, 0.5, 22)
		d.cond.Moist = moist
		for range days {
			d.fill()
			d.step()
		}
		return d.state.Adults(), d.state.Flesh
	}
	for _, row := range []struct {
		moist            float64
		days             int
		least, most      float64 // of 1000
		leanest, fattest float64
	}{
		{78, 60, 850, 1000, 1, 1},
		{62, 60, 850, 1000, 1, 1}, // they eat less and need no more
		{93, 30, 900, 1000, 0.6, 0.9},
		{50, 30, 900, 1000, 0.6, 0.9},
		{98, 60, 1, 100, 0, 1},
		{30, 60, 1, 100, 0, 1},
		{0, 21, 0, 20, 0, 1},
	} {
		if n, flesh := after(row.moist, row.days); n < row.least || n > row.most || flesh < row.leanest || flesh > row.fattest {
			t.Errorf("after %d days at %.0f %% moisture %.0f of 1000 live at %.2f of their weight, want %.0f to %.0f at %.2f to %.2f",
				row.days, row.moist, n, flesh, row.least, row.most, row.leanest, row.fattest)
		}
	}
}

func TestAMetersOddReadingKillsNoWorms(t *testing.T) {
	for _, species := range allSpecies {
		for _, read := range []int64{1, 100, 999} {
			in := aBin(1)
			in.Species = species
			in.Looks = []record.Look{{Tray: "tray/low", Day: day0, At: "08", Meter: &read}}
			e := Follow(in)
			for _, w := range e.weathers(day0) {
				if w.kill > RatesOf(species).Kill.at(w.bedC) {
					t.Errorf("%s: a meter that reads %.1f %% kills %.3f a day", species, float64(read)/10, w.kill)
				}
			}
		}
	}
}

// Without worms a meal goes to the microbes: 4 % a day at 20 °C, half of that at
// 10 °C, nothing in the frost.
func TestWithoutWormsAMealRots(t *testing.T) {
	left := func(bedC float64) float64 {
		s := NewState(&eisenia, 1)
		s.Food = []Morsel{{Fed: 1000, Left: 1000, Appeal: 1, Rot: 0.04}}
		s.Sums.Fed = 1000
		s.Step(&eisenia, &Conditions{BedC: bedC, Moist: idealMoist, Tiers: []Tier{{AreaM2: 1, InUse: true}}})
		return s.Food[0].Left
	}
	near(t, "g left at 20 °C", left(20), 960, 1e-9)
	near(t, "g left at 10 °C", left(10), 980, 1e-9)
	near(t, "g left at 30 °C", left(30), 920, 1e-9)
	near(t, "g left at -2 °C", left(-2), 1000, 1e-9)
}

// A squeeze that runs or crumbles lowers the appetite, and less so from day to
// day: ten days on about a third of the difference in moisture is left.
func TestASqueezeSpeaksForSomeDays(t *testing.T) {
	damp := func(squeeze string, after record.Day) float64 {
		in := aBin(after)
		in.Looks = []record.Look{{Tray: "tray/low", Day: day0, At: "08", Squeeze: squeeze}}
		return Follow(in).Estimate().Damp
	}
	near(t, "runs, the same day", damp("runs", 0), 0.58, 0.01)          // 88 %
	near(t, "crumbles, the same day", damp("crumbles", 0), 0.25, 1e-9)  // 55 %
	near(t, "crumbles, ten days on", damp("crumbles", 10), 0.977, 0.01) // 78 − 23/e = 69.5 %
	near(t, "a few drops", damp("few-drops", 0), 1, 1e-9)
	near(t, "nobody squeezed", damp("", 0), 1, 1e-9)
}

func TestEmptyingATrayTakesItsFoodAndLeavesTheWorms(t *testing.T) {
	in := aBin(40)
	open, emptied := day0+20, day0+40
	in.Trays[0].Emptied = &emptied
	in.Trays = append(in.Trays, Tray{ID: "tray/top", AreaM2: 0.1225, Bedded: open, Feeding: &open, Height: 1})
	in.Meals = []Meal{scraps("feeding/1", day0+21, "tray/top", 300), scraps("feeding/2", day0+39, "tray/low", 900)}
	in.Today = emptied - 1
	before := Follow(in)
	in.Today = emptied
	after := Follow(in)
	e := after.Estimate()
	if _, there := e.ByTray["tray/low"]; there {
		t.Error("an emptied tray still holds worms")
	}
	near(t, "g in the tray that stays, against the bin's", e.ByTray["tray/top"].Mid, e.Live.Mid, 1e-9)
	near(t, "g in the bin, against the day before", e.Live.Mid, before.Estimate().Live.Mid, 0.03)
	if after.books().Out <= 0 || len(e.Lefts) != 0 {
		t.Errorf("%.0f g went out with the tray and %+v is left, want some and nothing", after.books().Out, e.Lefts)
	}
}

// books returns the food's sums of the first particle.
func (c *Ensemble) books() Sums { return c.particles[0].Sums }
