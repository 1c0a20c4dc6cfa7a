package colony

import (
	"fmt"
	"math"
	"testing"

	"trayside/internal/record"
)

// fedWell is a bin of 60 days in which some feedings may have gone unlogged.
func fedWell() *Input {
	in := roomy(60)
	in.Bin = "bin/heap"
	in.Trays[0].AreaM2, in.Trays[0].Bedding, in.Trays[0].Empty = 0.25, 700, 1200
	for d := day0; d < in.Today; d += 3 {
		in.Meals = append(in.Meals, scraps("feeding/"+d.String(), d, "tray/low", 300))
	}
	return in
}

// gone returns what went through the lower tray, as the ensemble sees it: the
// middle and the ends.
func gone(e *Ensemble) Span {
	values := make([]float64, len(e.particles))
	for i := range e.particles {
		values[i] = e.particles[i].Sums.ByTray[0]
	}
	return e.spread(values)
}

// forgets is the mean rate of feedings that nobody logs.
func forgets(e *Ensemble) float64 {
	var mean float64
	for i := range e.particles {
		mean += e.particles[i].weight * e.particles[i].unlogged
	}
	return mean
}

func TestWhatLiesInATrayTellsOfFeedingsNobodyLogged(t *testing.T) {
	number := func(n float64) *int64 { v := int64(n); return &v }
	look := func(change func(l *record.Look, times float64)) func(*Input, float64) {
		return func(in *Input, times float64) {
			l := record.Look{ID: "look/1", Tray: "tray/low", Day: in.Today, At: "1"}
			change(&l, times)
			in.Looks = []record.Look{l}
		}
	}
	plain := Follow(fedWell())
	b := &plain.in.Trays[0]
	usual := plain.matterOf(&plain.particles[0], 0, b, plain.day)
	for _, row := range []struct {
		name  string
		looks bool // by a look, which counts less than a harvest
		seen  func(in *Input, times float64)
	}{
		{"castings of a tray that was emptied", false, func(in *Input, times float64) {
			emptied := in.Today
			in.Trays[0].Emptied = &emptied
			in.Harvests = []Harvest{{ID: "harvest/1", Tray: "tray/low", Whole: true, Err: 0.15, Day: in.Today, At: "1", Grams: times * (usual.castings + usual.paper*paperDry/0.3)}}
		}},
		{"the whole tray's weight", true, look(func(l *record.Look, times float64) {
			l.Squeeze, l.Weight = "few-drops", number(1200+times*(450+usual.weighs(0.79, 0)))
		})},
		{"how high it stands", true, look(func(l *record.Look, times float64) { l.Fill = number(times * usual.litres(0) / b.AreaM2) })},
	} {
		t.Run(row.name, func(t *testing.T) {
			seen := func(times float64) *Ensemble {
				in := fedWell()
				row.seen(in, times)
				return Follow(in)
			}
			little, much := forgets(seen(0.5)), forgets(seen(2))
			if before := forgets(plain); little >= before || much <= before {
				t.Errorf("%.3f feedings unlogged for each that is logged, after half of what was expected %.3f and after double %.3f, want less and more", before, little, much)
			}
			if moved := gone(seen(2)); row.looks && moved.High/moved.Low < 0.7*gone(plain).High/gone(plain).Low {
				t.Errorf("one look leaves %v of %v, which is too sure", moved, gone(plain))
			}
			if absurd := seen(100); absurd.least < crowd/2 {
				t.Errorf("a number nobody can have seen leaves %.0f of %d particles, want it passed over", absurd.least, crowd)
			}
		})
	}
}

func TestAPartialHarvestSaysOnlyThatSoMuchWasThere(t *testing.T) {
	after := func(grams float64) *Ensemble {
		in := fedWell()
		in.Harvests = []Harvest{{ID: "harvest/1", Tray: "tray/low", Err: 0.15, Day: in.Today, At: "1", Grams: grams}}
		return Follow(in)
	}
	before := forgets(Follow(fedWell()))
	if few := forgets(after(100)); few != before {
		t.Errorf("a bucket out of a full tray moves the unlogged feedings from %.4f to %.4f", before, few)
	}
	if many := forgets(after(9000)); many <= before {
		t.Errorf("more than can be there leaves the unlogged feedings at %.4f of %.4f, want more", many, before)
	}
}

func TestAWeightWithoutTheTraysOwnSaysNothing(t *testing.T) {
	in := fedWell()
	in.Trays[0].Empty = 0
	heavy := int64(30_000)
	in.Looks = []record.Look{{ID: "look/1", Tray: "tray/low", Day: in.Today, At: "1", Weight: &heavy}}
	if got, want := forgets(Follow(in)), forgets(Follow(fedWell())); got != want {
		t.Errorf("unlogged feedings went from %.4f to %.4f", want, got)
	}
}

// Liquid is a hint that the bed is too wet, never of the worms.
func TestDrainedLiquidMovesTheDampAlone(t *testing.T) {
	moist := func(liquid int64, squeeze string) float64 {
		in := fedWell()
		in.Looks = []record.Look{{ID: "look/1", Tray: "tray/low", Day: in.Today, At: "1", Liquid: &liquid, Squeeze: squeeze}}
		e := Follow(in)
		if got, want := e.Estimate().Live, Follow(fedWell()).Estimate().Live; got != want {
			t.Errorf("%d ml moved the worms from %v to %v", liquid, want, got)
		}
		return e.bed.moisture(in.Today)
	}
	if none, some := moist(0, ""), moist(200, ""); none != idealMoist || some != drips {
		t.Errorf("the bed is at %.0f %% after nothing was drained and at %.0f %% after 200 ml, want %.0f and %.0f", none, some, idealMoist, drips)
	}
	if felt := moist(200, "one-drop"); felt != 72 {
		t.Errorf("with a squeeze of one drop beside it the bed is at %.0f %%, want what was felt", felt)
	}
}

// Truth drawn from what the ensemble draws from, the rate of feedings that nobody
// logs among it: with a tray that was weighed and measured three times and then
// emptied, the 80 % intervals go on holding the truth in seven to nine cases of
// ten, and what has gone through the tray is known no worse.
func TestTheIntervalHoldsTheTruthWithTraysWeighedAndHarvested(t *testing.T) {
	var before, after held
	var fed, fedAfter tally
	for seed := range uint64(120) {
		d := roll(seed, day0, 0)
		forgets := unloggedUsual * math.Exp(unloggedErr*d.normal())
		h := newHome(7000+seed, 150, sloppy{unlogged: forgets / (1 + forgets), amount: 0.4, looks: 6})
		in, truth := h.in, h.truth.Sums.ByTray[0]
		in.Trays[0].Bedding, in.Trays[0].Empty = 700, 1200
		e := Follow(in)
		before.add(e, h)
		fed.add(gone(e), truth)
		off := func(sd float64) float64 { return math.Exp(sd * h.rng.NormFloat64()) }
		m := e.matterOf(&h.truth, 0, &in.Trays[0], h.today)
		for n := range 3 {
			weight := int64(1200 + off(wetErr)*(m.weighs(idealMoist/100, 0)+h.truth.Mass(e.rates)))
			fill := int64(off(fillErr) * m.litres(0) / in.Trays[0].AreaM2)
			in.Looks = append(in.Looks, record.Look{ID: fmt.Sprintf("look/weighed-%d", n), Tray: "tray/low", Day: h.today, At: "2", Weight: &weight, Fill: &fill})
		}
		in.Harvests = []Harvest{{
			ID: "harvest/1", Tray: "tray/low", Whole: true, Err: 0.05, Day: h.today, At: "3",
			Grams: off(math.Hypot(yieldErr, 0.05)) * (m.castings + m.paper*paperDry/(1-castingsWater)),
		}}
		e = Follow(in)
		after.add(e, h)
		fedAfter.add(gone(e), truth)
	}
	t.Logf("fed\n  without %v\n  with    %v", &fed, &fedAfter)
	if fedAfter.off > 1.02*fed.off {
		t.Errorf("what went through the tray is off by %.1f %% without and %.1f %% with weights and castings", 100*fed.off/fed.n, 100*fedAfter.off/fedAfter.n)
	}
	for _, row := range []struct {
		what          string
		without, with *tally
	}{
		{"g of worms", &before.worms, &after.worms},
		{"what they could eat", &before.eats, &after.eats},
		{"what then goes", &before.takes, &after.takes},
	} {
		t.Logf("%s\n  without %v\n  with    %v", row.what, row.without, row.with)
		if share := row.with.held / row.with.n; share < 0.7 || share > 0.9 {
			t.Errorf("%s: %v", row.what, row.with)
		}
	}
}
