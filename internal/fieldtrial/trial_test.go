package fieldtrial

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// few keeps a small trial: households by policies for some days.
func few(seed uint64, households, days int) []Year {
	var years []Year
	for n := range households {
		var y Year
		for _, p := range Policies {
			y = append(y, Keep(Draw(Of(seed, n)), p, days))
		}
		years = append(years, y)
	}
	return years
}

func TestTheSameSeedGivesTheSameTrial(t *testing.T) {
	one, two := few(3, 2, 60), few(3, 2, 60)
	if !reflect.DeepEqual(one, two) || Table(3, 60, one) != Table(3, 60, two) {
		t.Error("two runs of one seed differ")
	}
	if reflect.DeepEqual(one, few(4, 2, 60)) {
		t.Error("two seeds give the same trial")
	}
}

func TestEachPolicyGoesItsOwnWay(t *testing.T) {
	years := few(3, 8, 60)
	mean := func(p Policy, of func(Outcome) float64) float64 { return Mean(years, p, of) }
	used := func(o Outcome) float64 { return o.Used }
	looks := func(o Outcome) float64 { return float64(o.Looks) }
	if fixed, half := mean(FixedRule, used), mean(HalfRule, used); half >= 0.8*fixed {
		t.Errorf("the fixed rule feeds %.0f g and half of it %.0f, want clearly less", fixed, half)
	}
	if mean(FixedRule, looks) != 0 || mean(HalfRule, looks) != 0 {
		t.Error("a fixed rule looks at nothing")
	}
	if advised, all := mean(Advised, looks), mean(LookingRule, looks); advised <= 0 || advised >= all {
		t.Errorf("%.1f looks by the advice and %.1f before every meal, want some and fewer", advised, all)
	}
	for i, p := range Policies {
		for _, q := range Policies[:i] {
			same := 0
			for _, y := range years {
				if y[i].Used == y[q].Used {
					same++
				}
			}
			if same > len(years)/4 {
				t.Errorf("%s and %s fed alike in %d of %d households", p, q, same, len(years))
			}
		}
	}
	for _, y := range years {
		if o := y[Advised]; len(o.Sights) == 0 || len(o.Promises) == 0 {
			t.Errorf("a household was advised on %d days and promised %d times, want some of both", len(o.Sights), len(o.Promises))
		}
	}
}

// Every gram that goes in is eaten, taken by microbes, carried out at a harvest, or
// lies there; whatever the household and its rule.
func TestScrapsAreKeptAccountOf(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := Draw(Of(rapid.Uint64().Draw(t, "seed"), 0))
		p := rapid.SampledFrom([]Policy{FixedRule, HalfRule, LookingRule}).Draw(t, "policy")
		k := newKeeper(h, p)
		for day := range 90 {
			k.today(day)
			b, lying := k.bin.books, k.bin.lying()
			if sum := b.eaten + b.rotted + b.out + lying; math.Abs(sum-b.fed) > 1e-6*(1+b.fed) {
				t.Fatalf("day %d: %.3f g went in, %.3f eaten + %.3f rotted + %.3f out + %.3f lying = %.3f", day, b.fed, b.eaten, b.rotted, b.out, lying, sum)
			}
			if mass := k.bin.mass(); !(mass >= 0 && mass < 1e5) || b.eaten < 0 || b.rotted < 0 || k.pantry < 0 {
				t.Fatalf("day %d: %.1f g of worms, %.1f g eaten, %.1f g rotted, %.1f g waiting", day, mass, b.eaten, b.rotted, k.pantry)
			}
		}
		o := k.done()
		if o.Used > o.Made+1e-6 || o.Used <= 0 {
			t.Fatalf("%.1f g of %.1f g that the kitchen made were used", o.Used, o.Made)
		}
	})
}

func TestAFullStackIsHarvestedFromBelow(t *testing.T) {
	h := Draw(Of(5, 0))
	k := newKeeper(h, Advised)
	for i := range mostTrays + 1 {
		k.bin.feed(i, 5000, 1)
		for range 3 {
			k.bin.hunger(20, 78)
			k.bin.night(20, 78)
		}
		before := len(k.bin.worms)
		k.openTray(10 * (i + 1))
		if after := len(k.bin.worms); after != before {
			t.Errorf("a harvest lost %d worms, want them put back", before-after)
		}
	}
	if n := len(k.bin.trays); n != mostTrays {
		t.Errorf("the stack has %d trays, want %d", n, mostTrays)
	}
	b := k.bin.books
	if sum := b.eaten + b.rotted + b.out + k.bin.lying(); b.out <= 0 || math.Abs(sum-b.fed) > 1e-6*b.fed {
		t.Errorf("of %.1f g fed %.1f went out with the harvests and %.1f are accounted for", b.fed, b.out, sum)
	}
	if k.tally.Castings <= 0 {
		t.Error("a harvest weighed nothing")
	}
	stack := k.log.rec.Bins[0].Stack
	for i, tray := range k.bin.trays {
		if stack[i] != trayID(tray.id) {
			t.Errorf("place %d holds %s by the log and tray %d in truth", i, stack[i], tray.id)
		}
	}
	top := k.log.rec.Batches[len(k.log.rec.Batches)-1]
	if top.Tray != k.log.top() || top.Emptied != nil || top.Resting != nil {
		t.Errorf("the top tray's batch is %+v, want it in use", top)
	}
}

func TestSpreadReadsOffTenthMiddleAndNinth(t *testing.T) {
	got := spreadOf([]float64{10, 0, 4, 7, 1, 8, 3, 6, 2, 9, 5})
	if want := (Spread{1, 5, 9}); got != want {
		t.Errorf("spreadOf 0…10 = %v, want %v", got, want)
	}
	if got := spreadOf(nil); got != (Spread{}) {
		t.Errorf("spreadOf nothing = %v, want nothing", got)
	}
}

func TestDaysAreCountedAsDefined(t *testing.T) {
	var y tally
	y.evening(0, 100, 100, 100, 299, 500) // within three days' appetite
	y.evening(1, 100, 100, 100, 301, 500) // beyond it
	y.evening(2, 100, 100, 90, 0, 500)    // wanted a tenth more and found nothing
	y.evening(3, 100, 100, 90, 20, 500)   // food is there, only not soft enough
	y.evening(4, 1, 1, 1, 20, 400)        // a trifle in the cold
	y.tipped = 5
	for day := 5; day < 20; day++ { // a caddy tipped in on the fifth day, and lying
		y.evening(day, 100, 100, 100, 400, 400)
	}
	if o := y.close(); o.Overfed != 16 || o.ByRule != 6 {
		t.Errorf("%d days overfed, %d by the rule; want 16, of which ten are explained", o.Overfed, o.ByRule)
	}
	if o := y.Outcome; o.Overfed != 16 || o.Hungry != 1 || o.EndG != 400 || o.Days != 20 {
		t.Errorf("%d days overfed, %d hungry, %.0f g after %d days; want 16, 1, 400, 20", o.Overfed, o.Hungry, o.EndG, o.Days)
	}
	var s tally
	for d := range Days {
		s.made[d] = 100
		s.evening(d, 100, 100, 10, 0, 1000-2*float64(d))
	}
	if o := s.close(); !o.Starved || o.Heaped {
		t.Error("a colony that shrinks while the kitchen throws food away is a starvation spiral")
	}
	var f tally
	for d := range Days {
		f.evening(d, 100, 100, 100, 700, 1000)
	}
	if o := f.close(); !o.Heaped || o.Starved {
		t.Error("a heap for a year is an overfeeding spiral")
	}
}

// A trial made up so that each wish is just granted, and just not.
func TestWishesAreGrantedAtTheirLimitsAndNotBeyond(t *testing.T) {
	sight := func(holds bool) Sight {
		return Sight{Live: Believed{Low: 1, High: 3, True: map[bool]float64{true: 2, false: 4}[holds]}}
	}
	granted := Year{
		{Overfed: 90, Used: 90, Made: 100},
		{Overfed: 60, Used: 50, Made: 100},
		{Overfed: 30, Used: 50, Made: 100, Looks: 50, Sights: []Sight{sight(true), sight(true), sight(true), sight(true), sight(false)}},
		{Overfed: 30, Used: 50, Made: 100, Looks: 100},
	}
	for _, v := range Wanted([]Year{granted}) {
		if !v.Yes {
			t.Errorf("%s: refused at its limit (%s)", v.Wanted, v.Got)
		}
	}
	refused := slices.Clone(granted)
	refused[Advised] = Outcome{Overfed: 31, Used: 49, Made: 100, Looks: 51, Starved: true, Sights: []Sight{sight(true)}}
	for _, v := range Wanted([]Year{refused}) {
		if v.Yes {
			t.Errorf("%s: granted beyond its limit (%s)", v.Wanted, v.Got)
		}
	}
}

func TestPromisesAreHeldAgainstTheChanceThatWasSaid(t *testing.T) {
	promise := func(chance int, kept bool) Promise { return Promise{Chance: chance, Kept: kept, Spread: true} }
	y := make(Year, len(Policies))
	y[Advised].Promises = []Promise{promise(70, true), promise(78, false), promise(80, true), promise(90, true), promise(95, true), promise(95, false)}
	got := wordsOf([]Year{y})
	want := []Band{{2, 74, 50}, {1, 80, 100}, {3, 280.0 / 3, 200.0 / 3}}
	if !slices.Equal(got.Bands, want) || got.Promises != 6 || got.Kept != 4.0/6 || got.Spread != 1 {
		t.Errorf("got %+v, want the bands %v, 4 of 6 by the day and all in their span", got, want)
	}
}
