package tray_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/colony"
	"trayside/internal/record"
	"trayside/internal/tray"
)

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.5g, want %.5g ± %g", what, got, want, tolerance)
	}
}

// start is 1 March 2026; a room that stays at 20 °C all year.
var (
	start  = func() record.Day { d, _ := record.DayOf("2026-03-01"); return d }()
	steady = colony.Room{Coolest: 200, Warmest: 200}
)

// fresh is a new bin's first tray, 400 × 400 mm and 150 mm high, bedded with a
// kilogram of cardboard and its water, in a kitchen that gives 150 g a day.
func fresh() tray.Batch {
	return tray.Batch{
		AreaM2: 0.16, Height: 150, Bedded: start, First: true, Room: steady,
		Puts: []tray.Put{
			{Day: start, Grams: 1000, Water: 0.08, Bedding: true},
			{Day: start, Grams: 2070, Water: 1},
		},
		Kitchen: tray.Kitchen{Scraps: 150, Water: 0.85, Bedding: 15},
	}
}

// rested is a batch that got one load of everything and nothing since.
func rested(puts ...tray.Put) tray.Batch {
	return tray.Batch{AreaM2: 0.16, Height: 150, Bedded: start, Resting: &start, Room: steady, Puts: puts}
}

// Abbasi and others (preprint): half of the solids are left, 0.40 to 0.60.
func TestHalfOfTheDryMatterIsLeftAsCastings(t *testing.T) {
	b := rested(tray.Put{Day: start, Grams: 1000, Water: 0.85}, tray.Put{Day: start, Grams: 150, Water: 0.07, Bedding: true})
	const in = 150 + 139.5
	o := tray.Forecast(b, start+390)
	near(t, "dry matter after a year, share of what went in", o.Now.Dry/in, 0.50, 0.01)
	// What the same works out to wet, at 70 % water: 0.48 kg, 0.6 to 0.9 litres.
	near(t, "castings, g", o.Castings.Mid, 480, 12)
	if o.Litres.Mid < 600e-3 || o.Litres.Mid > 900e-3 {
		t.Errorf("castings are %.2f l, want 0.6 to 0.9", o.Litres.Mid)
	}
	if low, high := 0.40*in/0.35, 0.60*in/0.25; o.Castings.Low > 480*0.8 || o.Castings.High < 480*1.2 || o.Castings.Low < low*0.6 || o.Castings.High > high*1.2 {
		t.Errorf("castings %v g, want a range about 0.40 to 0.60 of the dry matter", o.Castings)
	}
}

// University of Illinois Extension: the bedding darkens and sinks at six weeks.
// City of Eugene, NYC Compost Project: a first harvest after 90 to 180 days;
// USDA: about 120.
func TestANewBinDarkensAtSixWeeksAndIsHarvestedAfterAboutFourMonths(t *testing.T) {
	o := tray.Forecast(fresh(), start)
	near(t, "days until the bedding is dark", float64(o.Darkens-start), 42, 42*0.2)
	near(t, "days until the first harvest", float64(o.Ready.Mid-start), 120, 120*0.2)
	if early, late := o.Ready.Early-start, o.Ready.Late-start; early < 90 || late > 200 || late < 150 {
		t.Errorf("the first harvest lies between day %d and day %d, want about 90 to 180", early, late)
	}
	if o.Ready.Early >= o.Ready.Mid || o.Ready.Late <= o.Ready.Mid {
		t.Errorf("the first harvest %+v has no interval about it", o.Ready)
	}
	if !o.Ready.Known {
		t.Error("the first harvest is not known")
	}
}

// University of Embu, Kenya: kitchen waste gave off next to no carbon dioxide in
// week 15, give or take three weeks.
func TestKitchenWasteIsQuietByWeekFifteen(t *testing.T) {
	at := func(day record.Day) float64 {
		return tray.Forecast(rested(tray.Put{Day: start, Grams: 1000, Water: 0.85}), start+day).Now.Undone
	}
	if before, after := at(12*7), at(18*7); before < 0.05 || after > 0.05 {
		t.Errorf("undecayed in week 12: %.3f, in week 18: %.3f; want a twentieth passed between", before, after)
	}
}

func TestAFirstHarvestIsNeverPromisedForTheFirstMonth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBatch(t)
		b.First, b.Resting = true, nil
		if o := tray.Forecast(b, b.Bedded); o.Ready.Early-b.Bedded < 90 {
			t.Fatalf("ready on day %d, want 90 at the earliest", o.Ready.Early-b.Bedded)
		}
	})
}

func TestWhenCastingsMayBeHarvested(t *testing.T) {
	hot := fresh()
	hot.Room = colony.Room{Coolest: 300, Warmest: 300}
	hot.Kitchen = tray.Kitchen{}
	if o := tray.Forecast(hot, start); o.Ready.Early != start+90 {
		t.Errorf("in the heat a new bin is ready on day %d at the earliest, want 90", o.Ready.Early-start)
	}
	later := hot
	later.First, later.Resting = false, &start
	if o := tray.Forecast(later, start); o.Ready.Mid >= start+90 {
		t.Errorf("in the heat a later batch is ready on day %d, want before 90", o.Ready.Mid-start)
	}
	late := rested(tray.Put{Day: start, Grams: 1000, Water: 0.85}, tray.Put{Day: start + 300, Grams: 5, Water: 0.85})
	if o := tray.Forecast(late, start+300); o.Ready.Mid != start+314 {
		t.Errorf("with a last bite on day 300 the tray is ready on day %d, want two weeks on", o.Ready.Mid-start)
	}
}

func TestWhatEndsTheFeeding(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*tray.Batch)
		want   tray.Why
	}{
		{"a small kitchen never fills a tray, so it ends by age", func(b *tray.Batch) { b.Kitchen.Scraps, b.Kitchen.Bedding = 50, 5 }, tray.ByAge},
		{"a large one fills it", func(b *tray.Batch) { b.Kitchen.Scraps, b.Kitchen.Bedding = 600, 120 }, tray.ByFill},
		{"a tray without a size ends by age", func(b *tray.Batch) { b.Height = 0; b.Kitchen.Scraps = 600 }, tray.ByAge},
		{"somebody let it rest", func(b *tray.Batch) { b.Resting = &start }, tray.ByHand},
	} {
		b := fresh()
		c.change(&b)
		o := tray.Forecast(b, start)
		if o.Ends != c.want {
			t.Errorf("%s: ends by %q, want %q", c.name, o.Ends, c.want)
		}
		if o.Full.Known != (c.want == tray.ByFill) {
			t.Errorf("%s: full %+v", c.name, o.Full)
		}
		if (c.want == tray.ByHand) == o.NextTray.Known {
			t.Errorf("%s: the next tray is due %+v", c.name, o.NextTray)
		}
		if c.want == tray.ByAge && o.NextTray.Mid != start+1+68 {
			t.Errorf("%s: the next tray is due on day %d, want a week before its 75 days of food, from tomorrow on, are over", c.name, o.NextTray.Mid-start)
		}
		if c.want == tray.ByFill && (o.NextTray.Mid != o.Full.Mid-7 || o.Full.Early > o.Full.Mid || o.Full.Late < o.Full.Mid) {
			t.Errorf("%s: full %+v, next tray %+v; want it a week before", c.name, o.Full, o.NextTray)
		}
	}
}

func TestATrayThatWaitedBeddedIsFedNoShorter(t *testing.T) {
	b := fresh()
	b.Kitchen.Scraps, b.Kitchen.Bedding = 50, 5
	b.Puts = append(b.Puts, tray.Put{Day: start + 40, Grams: 100, Water: 0.85})
	if o := tray.Forecast(b, start+41); o.Ends != tray.ByAge || o.NextTray.Mid != start+40+68 {
		t.Errorf("fed from day 40 on, the next tray is due on day %d by %q, want a week before 75 days of food", o.NextTray.Mid-start, o.Ends)
	}
}

// Nothing runs off and, without a surface, nothing dries: what is in the tray is what
// went in and the water that burning half of the dry matter made.
func TestTheWaterBalanceCloses(t *testing.T) {
	b := rested(tray.Put{Day: start, Grams: 1000, Water: 0.40})
	b.AreaM2 = 0
	o := tray.Forecast(b, start+390)
	near(t, "water after a year, g", o.Now.Water, 400+0.6*(600-o.Now.Dry), 1e-6)
	b.AreaM2 = 0.01 // 1.5 g a day
	near(t, "after drying for a hundred days, g", tray.Forecast(b, start+100).Now.Water+150, 400+0.6*(600-tray.Forecast(b, start+100).Now.Dry), 1e-6)
	// Castings hold 80 % at most: four times their dry matter.
	b.AreaM2, b.Puts = 0, append(b.Puts, tray.Put{Day: start + 388, Grams: 5000, Water: 1})
	o = tray.Forecast(b, start+390)
	near(t, "water that castings hold, a gram", o.Now.Water/o.Now.Dry, 4, 0.05)
}

func TestAMeasuredFillMovesTheDayOfFull(t *testing.T) {
	b := fresh()
	b.Kitchen.Scraps, b.Kitchen.Bedding = 600, 120
	plain := tray.Forecast(b, start)
	b.Seen = []tray.Seen{{Day: start, Fill: plain.Now.Fill * 3 / 2}}
	high := tray.Forecast(b, start)
	if high.Now.Fill != plain.Now.Fill*3/2 || high.Full.Mid >= plain.Full.Mid {
		t.Errorf("measured half as high again: fill %d and full on %v; reckoned %d and %v", high.Now.Fill, high.Full.Mid, plain.Now.Fill, plain.Full.Mid)
	}
}

func TestWater(t *testing.T) {
	soaked := func(water float64, seen ...tray.Seen) tray.Bed {
		b := rested(tray.Put{Day: start, Grams: 1000, Water: 0.08, Bedding: true}, tray.Put{Day: start, Grams: water, Water: 1})
		b.Seen = seen
		return tray.Forecast(b, start+3).Now
	}
	for _, c := range []struct {
		name string
		bed  tray.Bed
		want string
	}{
		{"dry cardboard crumbles", soaked(0), "crumbles"},
		// Voyles & Honeyman 2006: paper holds about 2 g a gram, which is 69 %.
		{"soaked and dripped off, cardboard gives a drop or none", soaked(5000), "holds"},
		{"a squeeze that ran is believed", soaked(0, tray.Seen{Day: start + 3, Squeeze: "runs"}), "runs"},
		{"a meter is believed", soaked(0, tray.Seen{Day: start + 3, Meter: 0.73}), "one-drop"},
		{"a whole tray weighed tells its water", soaked(0, tray.Seen{Day: start + 3, Grams: 4200}), "few-drops"},
	} {
		if c.bed.Squeeze != c.want {
			t.Errorf("%s: got %q with %.0f g of water on %.0f g dry, want %q", c.name, c.bed.Squeeze, c.bed.Water, c.bed.Dry, c.want)
		}
	}
	for _, word := range []string{"crumbles", "holds", "one-drop", "few-drops", "runs"} {
		b := soaked(2000, tray.Seen{Day: start + 3, Squeeze: word})
		free := b.Water + b.Moisten
		if got := free / (b.Dry + b.Soak + free); (b.Moisten > 0 || b.Soak > 0) && math.Abs(got-0.75) > 1e-9 {
			t.Errorf("%s: %.0f ml or %.0f g of paper bring the bed to %.3f, want 0.75", word, b.Moisten, b.Soak, got)
		}
		if dry, wet := word == "crumbles" || word == "holds", word == "runs"; (b.Moisten > 0) != dry || (b.Soak > 0) != wet {
			t.Errorf("%s: asks for %.0f ml and %.0f g of paper", word, b.Moisten, b.Soak)
		}
	}
	if wet := soaked(5000); wet.Drips < 2500 {
		t.Errorf("of 5 l poured over 1 kg of cardboard %.0f g ran off, want about 3 kg", wet.Drips)
	}
	if weighed := soaked(0, tray.Seen{Day: start + 3, Grams: 4200}); math.Abs(weighed.Dry+weighed.Water-4200) > 1 {
		t.Errorf("weighed at 4200 g, reckoned at %.0f", weighed.Dry+weighed.Water)
	}
}

// A kilogram of cardboard that holds twice its weight, bedded with less.
func TestWhatWasPouredAwaySetsTheWaterRight(t *testing.T) {
	day := func(on record.Day, ml float64) tray.Seen { return tray.Seen{Day: start + on, Drained: &ml} }
	bed := func(water float64, today record.Day, seen ...tray.Seen) tray.Bed {
		b := rested(tray.Put{Day: start, Grams: 1000, Water: 0.08, Bedding: true}, tray.Put{Day: start, Grams: water, Water: 1})
		b.Seen = seen
		return tray.Forecast(b, start+today).Now
	}
	moist := bed(1000, 4)
	if wet := bed(1000, 4, day(4, 300)); wet.Water < moist.Water+500 || wet.Drips < 299 || wet.Drips > 301 {
		t.Errorf("300 ml ran out of a bed reckoned to drip nothing: %.0f g of water (%.0f reckoned), %.0f g of drips; want it soaked and 300", wet.Water, moist.Water, wet.Drips)
	}
	if same := bed(1000, 4, day(4, 0)); same.Water != moist.Water {
		t.Errorf("nothing ran out, as reckoned: %.1f g of water, want %.1f", same.Water, moist.Water)
	}
	soaked := bed(5000, 4)
	if less := bed(5000, 4, day(4, 100)); less.Water != soaked.Water || less.Drips > 101 || soaked.Drips < 2000 {
		t.Errorf("100 ml poured away where %.0f g were reckoned: %.0f g of water (want %.0f), %.0f g of drips (want 100)", soaked.Drips, less.Water, soaked.Water, less.Drips)
	}
	// 700 ml gathered in 14 days, half of them in the last week; then 50 in two.
	if got := bed(5000, 14, day(14, 700)).Drips; math.Abs(got-350) > 1e-6 {
		t.Errorf("of 700 ml in two weeks %.1f g ran off in the last one, want 350", got)
	}
	if got := bed(5000, 14, day(12, 600), day(14, 40), day(14, 10)).Drips; math.Abs(got-(5*50+50)) > 1e-6 {
		t.Errorf("50 ml a day, then 25: %.1f g in the week, want 300", got)
	}
}

func TestColdSlowsATrayDown(t *testing.T) {
	warm, cold := fresh(), fresh()
	cold.Room = colony.Room{Coolest: 130, Warmest: 130}
	w, c := tray.Forecast(warm, start), tray.Forecast(cold, start)
	if c.Ready.Mid <= w.Ready.Mid || c.Darkens <= w.Darkens {
		t.Errorf("at 13 °C dark on %v and ready on %v, at 20 °C %v and %v; want later", c.Darkens, c.Ready.Mid, w.Darkens, w.Ready.Mid)
	}
}

// anyBatch draws a batch with a log.
func anyBatch(t *rapid.T) tray.Batch {
	day := func(name string) record.Day { return start + record.Day(rapid.IntRange(0, 120).Draw(t, name)) }
	g := func(name string, most float64) float64 { return rapid.Float64Range(0, most).Draw(t, name) }
	b := fresh()
	b.Room = colony.Room{Coolest: 50, Warmest: 250}
	b.First = rapid.Bool().Draw(t, "first")
	b.Kitchen = tray.Kitchen{Scraps: g("scraps", 800), Water: g("water", 0.95), Bedding: g("bedding", 100)}
	for range rapid.IntRange(0, 20).Draw(t, "puts") {
		b.Puts = append(b.Puts, tray.Put{Day: day("put"), Grams: g("g", 1500), Water: g("share", 1), Bedding: rapid.Bool().Draw(t, "is bedding")})
	}
	for range rapid.IntRange(0, 5).Draw(t, "looks") {
		b.Seen = append(b.Seen, tray.Seen{Day: day("seen"), Squeeze: rapid.SampledFrom([]string{"", "holds", "runs"}).Draw(t, "squeeze"), Meter: g("meter", 0.9)})
		if drained := g("drained", 500); rapid.Bool().Draw(t, "is drained") {
			b.Seen[len(b.Seen)-1].Drained = &drained
		}
	}
	if rapid.Bool().Draw(t, "is resting") {
		d := day("resting")
		b.Resting = &d
	}
	return b
}

func TestEveryForecastIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBatch(t)
		today := start + record.Day(rapid.IntRange(0, 200).Draw(t, "today"))
		o := tray.Forecast(b, today)
		var in float64
		for _, p := range b.Puts {
			if p.Day <= today {
				in += p.Grams * (1 - p.Water)
			}
		}
		if o.Now.Dry > in+1e-6 || o.Now.Dry < in/2-1e-6 || math.IsNaN(o.Now.Dry) {
			t.Fatalf("%.3f g dry of %.3f put in: want between half and all", o.Now.Dry, in)
		}
		if o.Now.Water < 0 || o.Now.Volume < 0 || o.Now.Drips < 0 || o.Now.Moisten < 0 || o.Now.Soak < 0 || o.Now.Undone < 0 || o.Now.Undone > 1 {
			t.Fatalf("bed %+v", o.Now)
		}
		for name, w := range map[string]tray.When{"full": o.Full, "next": o.NextTray, "ready": o.Ready} {
			if w.Early > w.Mid || w.Mid > w.Late || w.Early < today || w.Late > today+400 {
				t.Fatalf("%s %+v is out of order on day %v", name, w, today)
			}
		}
		if c := o.Castings; !(c.Low > 0 && c.Low < c.Mid && c.Mid < c.High) {
			t.Fatalf("castings %+v", c)
		}
	})
}

func TestMoreScrapsNeverMakeFewerCastingsNorFillLater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := fresh()
		b.Resting = &start
		b.Puts = append(b.Puts, tray.Put{Day: start, Grams: rapid.Float64Range(0, 3000).Draw(t, "scraps"), Water: 0.85})
		more := b
		more.Puts = append(append([]tray.Put(nil), b.Puts...), tray.Put{Day: start, Grams: rapid.Float64Range(1, 3000).Draw(t, "more"), Water: 0.85})
		x, y := tray.Forecast(b, start+390), tray.Forecast(more, start+390)
		if y.Castings.Mid <= x.Castings.Mid || y.Now.Volume <= x.Now.Volume {
			t.Fatalf("more scraps: castings %.1f → %.1f g, volume %.0f → %.0f ml", x.Castings.Mid, y.Castings.Mid, x.Now.Volume, y.Now.Volume)
		}
		full := fresh()
		full.Kitchen = tray.Kitchen{Scraps: rapid.Float64Range(300, 900).Draw(t, "kitchen"), Water: 0.85, Bedding: 100}
		fuller := full
		fuller.Kitchen.Scraps *= 1.5
		if a, b := tray.Forecast(full, start).NextTray.Mid, tray.Forecast(fuller, start).NextTray.Mid; b > a {
			t.Fatalf("half as much again: the next tray is due on %v instead of %v", b, a)
		}
	})
}

func TestABatchFromBeforeTheCalendarBeginsIsForecastToo(t *testing.T) {
	b := fresh()
	b.Bedded, b.Puts = -5, []tray.Put{{Day: -5, Grams: 1000, Bedding: true}} // a slip of a year is no reason to stop
	if o := tray.Forecast(b, 2); o.Now.Dry <= 0 || o.Ready.Mid < 0 {
		t.Errorf("forecast %+v", o)
	}
	b.Bedded = 30 // bedded after today
	if o := tray.Forecast(b, 2); o.Ready.Early < 2 {
		t.Errorf("bedded tomorrow: %+v", o)
	}
}

func TestAForecastDoesNotChangeItsBatch(t *testing.T) {
	b := fresh()
	b.Puts = []tray.Put{{Day: start + 5, Grams: 100, Water: 0.8}, {Day: start, Grams: 500, Bedding: true}}
	first := tray.Forecast(b, start+10)
	if b.Puts[0].Day != start+5 {
		t.Error("the puts were put in another order")
	}
	if again := tray.Forecast(b, start+10); again != first {
		t.Errorf("twice the same batch: %+v and %+v", first, again)
	}
}
