package colony

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/record"
	"trayside/internal/units"
)

// A particle that is nothing but its species' middle lives exactly as the one
// state of the model does: there is no second, lighter model.
func TestAMiddlingParticleIsTheFullModel(t *testing.T) {
	e := newEnsemble(stackOf(fiveYears()))
	p := &e.particles[0]
	p.hidden = [hiddenCount]float64{}
	p.settle(e.rates)
	p.Sparing = 0
	s := NewState(e.rates, 1)
	p.join(0, 0, 450)
	p.Add(e.rates, 450)
	s.join(0, 0, 450)
	s.Add(e.rates, 450)
	for n := range 400 {
		parts := []Part{{Grams: 200, Appeal: 1, Soft: 0.9, Rot: 0.03}, {Grams: 50, Appeal: 0.4, Soft: 0.7, Rot: 0.02}}
		p.lay(n, 0, parts, 1)
		for k, m := range parts {
			g := float64(m.Grams * m.Soft)
			s.Food = append(s.Food, Morsel{Meal: n, Part: k, Appeal: m.Appeal, Rot: m.Rot, Fed: g, Left: g})
			s.Sums.Fed += g
		}
		c := &Conditions{BedC: 15 + float64(n%10), Moist: idealMoist, Tiers: e.tiers(day0)}
		w := e.rates.weather(c.BedC, c.Moist, c.PH)
		p.step(e.rates, &w, c.Tiers)
		s.Step(e.rates, c)
	}
	if !reflect.DeepEqual(p.State, s) {
		t.Errorf("after 400 days the particle has %.6f g of worms and the model %.6f", p.Mass(e.rates), s.Mass(e.rates))
	}
}

func TestBeforeAnyLookTheMiddleIsTheHandbooks(t *testing.T) {
	in := roomy(0)
	in.Bin = "bin/one"
	e := Follow(in).Estimate()
	near(t, "worms", e.Live.Mid, 450, 0.01)
	near(t, "their lower end", e.Live.Low, 450/math.Exp(1.2816*addedErr), 0.02)
	near(t, "their upper end", e.Live.High, 450*math.Exp(1.2816*addedErr), 0.02)
	near(t, "appetite", e.Base, eisenia.Appetite.Mid, 0.02)
	if e.Knows.Appetite || e.Knows.Surface {
		t.Errorf("nobody has looked, yet it knows %+v", e.Knows)
	}
}

// looked runs a roomy bin that gets grams every third day and is looked at
// before each meal.
func looked(days record.Day, grams float64, word record.Leftovers) *Ensemble {
	in := roomy(days)
	in.Bin = "bin/looked"
	for d := day0; d <= in.Today; d += 3 {
		in.Meals = append(in.Meals, scraps("feeding/"+d.String(), d, "tray/low", grams))
		if word != "" && d > day0 {
			l := aLook(d, "tray/low", word)
			l.ID = "look/" + d.String()
			in.Looks = append(in.Looks, l)
		}
	}
	return Follow(in)
}

// Nothing left of a small meal proves nothing; nothing left of a large one
// proves that they could eat at least that.
func TestNothingLeftSaysAtLeast(t *testing.T) {
	for _, grams := range []float64{60, 600} {
		blind, seen := looked(30, grams, "").Estimate(), looked(30, grams, record.LeftNone).Estimate()
		b, s := blind.Eats["tray/low"], seen.Eats["tray/low"]
		t.Logf("%.0f g: could eat %.0f (%.0f–%.0f) g a day, after looks %.0f (%.0f–%.0f)", grams, b.Mid, b.Low, b.High, s.Mid, s.Low, s.High)
		if grams == 60 {
			near(t, "a small meal moves the middle", s.Mid, b.Mid, 0.15)
			near(t, "and the upper end", s.High, b.High, 0.15)
			continue
		}
		if s.Low < b.Low*1.25 {
			t.Errorf("clean looks at %.0f g lift the lower end from %.0f to %.0f g only", grams, b.Low, s.Low)
		}
	}
	if s := looked(30, 600, record.LeftMost).Estimate().Eats["tray/low"]; s.Mid > looked(30, 600, "").Estimate().Eats["tray/low"].Mid*0.8 {
		t.Errorf("most is left time after time, and still they could eat %.0f g a day", s.Mid)
	}
}

func TestAfterALookWhatLiesIsWhatWasSeen(t *testing.T) {
	for word, b := range bands {
		e := looked(31, 400, word)
		in := *e.in
		in.Today -= 1 // the last look's own day
		in.Looks = slices.Clone(in.Looks)
		e = Follow(&in)
		left, fed := 0.0, 0.0
		for _, l := range e.Estimate().Lefts {
			if l.Day < in.Today { // not what was put in after the look
				left, fed = left+l.Soft, fed+l.Fed
			}
		}
		if b.low == 0 && left > 0 {
			t.Errorf("%s: %.0f g are said to lie there", word, left)
		}
		if b.low > 0 && (left < b.low*400*0.6 || left > b.high*fed*1.4+1) {
			t.Errorf("%s: %.0f of %.0f g are said to lie there", word, left, fed)
		}
	}
}

// So much left so soon that hardly any colony would leave it: somebody has fed
// without logging it, and the worms are not written down for it.
func TestAnImplausibleLookAsksBeforeItBlamesTheWorms(t *testing.T) {
	in := roomy(60)
	in.Bin = "bin/asks"
	for d := day0; d <= in.Today-6; d += 3 {
		in.Meals = append(in.Meals, scraps("feeding/"+d.String(), d, "tray/low", 150))
		l := aLook(d+2, "tray/low", record.LeftNone)
		l.ID = "look/" + d.String()
		in.Looks = append(in.Looks, l)
	}
	before := Follow(in).Estimate()
	l := aLook(in.Today, "tray/low", record.LeftMost)
	l.ID = "look/last"
	in.Looks = append(in.Looks, l)
	after := Follow(in).Estimate()
	if before.Ask != nil {
		t.Errorf("asks %+v of plausible looks", before.Ask)
	}
	if after.Ask == nil || after.Ask.Code != AskUnlogged || after.Ask.Look != "look/last" {
		t.Fatalf("asks %+v, want whether somebody fed without logging it", after.Ask)
	}
	if after.Live.Mid < before.Live.Mid*0.85 || after.Base < before.Base*0.85 {
		t.Errorf("worms went from %.0f to %.0f g and appetite from %.2f to %.2f for one odd look", before.Live.Mid, after.Live.Mid, before.Base, after.Base)
	}
	if len(after.Lefts) == 0 {
		t.Error("and what was seen is not said to lie there")
	}
	for answer, asked := range map[string]bool{"yes": false, "no": false, "": true} {
		told := *in
		told.Looks = append(slices.Clone(in.Looks), record.Look{ID: "look/answer", Tray: "tray/low", Day: in.Today, At: l.At + "9", Unlogged: answer})
		e := Follow(&told).Estimate()
		if (e.Ask != nil) != asked {
			t.Errorf("answered %q, and it asks %+v", answer, e.Ask)
		}
		if answer == "no" && e.Eats["tray/low"].Mid >= after.Eats["tray/low"].Mid {
			t.Errorf("nobody else fed, and still they could eat %.0f g a day (%.0f before the answer)", e.Eats["tray/low"].Mid, after.Eats["tray/low"].Mid)
		}
	}
	in.Meals = append(in.Meals, scraps("feeding/late", in.Today-1, "tray/low", 600))
	if again := Follow(in).Estimate(); again.Ask != nil {
		t.Errorf("the feeding has been logged, and it still asks %+v", again.Ask)
	}
}

func TestAWeighingIsBelieved(t *testing.T) {
	for _, g := range []units.Grams{450, 1500, 90} {
		in := roomy(30)
		in.Bin = "bin/weighed"
		in.Worms = append(in.Worms, record.WormEvent{ID: "worms/2", Move: record.WormsWeighed, Mass: g, Day: in.Today, At: "2"})
		e := Follow(in)
		s := e.Estimate().Live
		near(t, "weighed", s.Mid, float64(g), 0.12)
		if s.Low > float64(g) || s.High < float64(g) || s.High/s.Low > 1.5 {
			t.Errorf("%d g were weighed, the span is %.0f to %.0f", g, s.Low, s.High)
		}
		if e.least < 0.2*crowd {
			t.Errorf("%d g: the effective sample size fell to %.0f of %d", g, e.least, crowd)
		}
	}
}

func TestTheSampleNeverCollapses(t *testing.T) {
	e := Follow(twoTrays())
	e5 := Follow(fiveYears())
	for _, e := range []*Ensemble{e, e5} {
		t.Logf("effective sample size %.0f of %d now, %.0f at the least, drawn anew %d times in %d looks", e.size, crowd, e.least, e.drawn, e.known.looks)
		if e.least < 0.15*crowd {
			t.Errorf("the effective sample size fell to %.1f of %d", e.least, crowd)
		}
		if e.drawn == 0 {
			t.Error("the particles were never drawn anew, so this shows nothing")
		}
		hunger := map[float64]bool{}
		for i := range e.particles {
			hunger[e.particles[i].Hunger] = true
		}
		if len(hunger) < crowd*9/10 {
			t.Errorf("%d particles share %d appetites", crowd, len(hunger))
		}
	}
}

func TestAKeepGoesOnAsTheWholeLogDoes(t *testing.T) {
	in := twoTrays()
	in.Bin = "bin/kept"
	kept := Follow(in).Kept()
	if kept == nil {
		t.Fatal("a year and a half leave nothing to keep")
	}
	later := *in
	later.Today += 5
	l := aLook(in.Today+2, "tray/top", record.LeftHalf)
	l.ID = "look/later"
	later.Looks = append(slices.Clone(in.Looks), l)
	later.Meals = append(slices.Clone(in.Meals), scraps("feeding/later", in.Today+3, "tray/top", 200))
	same(t, "with new entries", Resume(&later, kept, nil), Follow(&later))
	same(t, "once more, the keep being untouched", Resume(&later, kept, nil), Follow(&later))

	old := later
	old.Meals = slices.Clone(later.Meals)
	old.Meals[3].Parts = []Part{{Grams: 900, Appeal: 1, Soft: 1}}
	same(t, "an old meal was put right", Resume(&old, kept, nil), Follow(&old))
	old = later
	emptied := in.Today - 200
	old.Trays = slices.Clone(in.Trays)
	old.Trays[0].Emptied = &emptied
	same(t, "a tray was emptied long ago", Resume(&old, kept, nil), Follow(&old))
}

func same(t *testing.T, what string, a, b *Ensemble) {
	t.Helper()
	if !reflect.DeepEqual(a.Estimate(), b.Estimate()) {
		t.Errorf("%s: from the keep %v, from the beginning %v", what, a.Estimate().Live, b.Estimate().Live)
	}
	for _, m := range b.in.Meals {
		if b.in.Today-m.Day > remembered {
			continue
		}
		x, _ := a.Said(m.Feeding)
		if y, _ := b.Said(m.Feeding); x != y {
			t.Errorf("%s: %s was said to be gone %v from the keep, %v from the beginning", what, m.Feeding, x, y)
		}
	}
}

// Two phones may hold the entries of one day in another order.
func TestTheOrderInWhichADaysEntriesArriveIsNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := named(aLog(t))
		turned := *in
		turned.Looks, turned.Worms = slices.Clone(in.Looks), slices.Clone(in.Worms)
		slices.Reverse(turned.Looks)
		slices.Reverse(turned.Worms)
		if a, b := Follow(in).Estimate(), Follow(&turned).Estimate(); !reflect.DeepEqual(a, b) {
			t.Fatalf("in order %v %v, reversed %v %v", a.Live, a.Appetite, b.Live, b.Appetite)
		}
	})
}

func TestWildLogsKeepTheEnsembleInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := Follow(named(aLog(t)))
		var weights float64
		for i := range e.particles {
			p := &e.particles[i]
			weights += p.weight
			left := 0.0
			for _, m := range p.Food {
				left += m.Left
				if !(m.Left >= 0 && m.Left <= m.Fed+1e-9) {
					t.Fatalf("particle %d: %.4f g are left of %.4f", i, m.Left, m.Fed)
				}
			}
			b := &p.Sums
			if got := b.Eaten + b.Rotted + b.Out + b.Corrected + left; math.Abs(got-b.Fed) > 1e-6*max(1, b.Fed) {
				t.Fatalf("particle %d: fed %.6f g, but the parts come to %.6f", i, b.Fed, got)
			}
			if m := p.Mass(e.rates); !(m >= 0) || math.IsInf(m, 0) || !(p.weight >= 0) || !(p.Fed >= 0 && p.Fed <= 1+1e-9) {
				t.Fatalf("particle %d holds %v g, weighs %v, is fed %v", i, m, p.weight, p.Fed)
			}
			if shares := sum(p.Share); p.Mass(e.rates) > crumb && math.Abs(shares-1) > 1e-9 {
				t.Fatalf("particle %d: the trays' shares come to %v", i, shares)
			}
		}
		if math.Abs(weights-1) > 1e-9 {
			t.Fatalf("the weights come to %v", weights)
		}
		est := e.Estimate()
		for what, s := range map[string]Span{"live": est.Live, "appetite": est.Appetite, "eats": est.Eats["tray/a"], "tray": est.ByTray["tray/b"]} {
			if !(s.Low >= 0 && s.Low <= s.Mid && s.Mid <= s.High) || math.IsInf(s.High, 0) {
				t.Fatalf("%s: the span %v is out of order", what, s)
			}
		}
		if got := float64(est.Base*est.Warmth) * float64(est.Damp*est.Crowd); got != est.Appetite.Mid {
			t.Fatalf("the parts of the appetite multiply to %v, not %v", got, est.Appetite.Mid)
		}
	})
}

// named gives the entries of a log the ids that a real one has.
func named(in *Input) *Input {
	for i := range in.Looks {
		in.Looks[i].ID = "look/" + record.Day(i).String()
	}
	for i := range in.Worms {
		in.Worms[i].ID = "worms/" + record.Day(i).String()
	}
	in.Bin = "bin/wild"
	return in
}

func BenchmarkOneNewEntryOnAKeep(b *testing.B) {
	in := fiveYears()
	kept := Follow(in).Kept()
	in.Looks = append(in.Looks, aLook(in.Today, "tray/low", "none"))
	for b.Loop() {
		Resume(in, kept, nil).Estimate()
	}
}
