package colony

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/record"
)

// anyTrial draws a trial that a laboratory, or a fool, may set up.
func anyTrial(t *rapid.T) *Trial {
	days := rapid.IntRange(1, 300).Draw(t, "days")
	day := func(label string) int { return rapid.IntRange(0, days).Draw(t, label) }
	number := func(label string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, label) }
	trial := &Trial{
		Species: rapid.SampledFrom(allSpecies).Draw(t, "species"), AreaM2: number("m²", 1e-4, 1),
		Temps: []Setting{{C: number("°C", -5, 45)}, {Day: day("turn"), C: number("°C after", -5, 45)}},
		Moist: number("%", 0, 100),
		Start: Stock{
			Adults: number("adults", 0, 500), AdultMG: number("adult mg", 50, 4000),
			Juveniles: number("young", 0, 500), JuvenileMG: number("young mg", 1, 2000), Cocoons: number("cocoons", 0, 500),
		},
		TakeCocoons: rapid.IntRange(0, 20).Draw(t, "take cocoons"), Days: days, Every: rapid.IntRange(1, 40).Draw(t, "every"),
	}
	food := rapid.SampledFrom(append([]Fare{kitchenScraps}, fare("cattle-manure"), fare("horse-manure"), fare("activated-sludge"), fare("coffee-pulp")))
	for range rapid.IntRange(0, 12).Draw(t, "meals") {
		trial.Feed = append(trial.Feed, Dose{Day: day("fed on"), Grams: number("g", 0, 3000), Fare: food.Draw(t, "food")})
	}
	for range rapid.IntRange(0, 4).Draw(t, "removals") {
		trial.Remove = append(trial.Remove, Take{Day: day("taken on"), Grams: number("g", 0, 500), All: rapid.Bool().Draw(t, "all")})
	}
	return trial
}

// Loehr et al. 1984: 1000 g of volatile solids per m² and week go into 2 kg/m² of
// worms without a growing backlog. The stalks of that week's scraps rot away too,
// if slowly; grit stays.
func TestWhatWormsDoNotEatRotsAwayAndGritStays(t *testing.T) {
	week := 1000 / 0.15 / 0.95
	trial := aTrial(record.Eisenia, 22, 210, 7, Stock{Adults: 4444, AdultMG: 450}, every(7, 210, week, kitchenScraps))
	trial.AreaM2 = 1
	rows := byDay(trial)
	if late, later := rows[154].LeftG, rows[210].LeftG; later > late*1.02 || later > week/3 {
		t.Errorf("%.0f g lie there after 22 weeks and %.0f after 30, of %.0f g a week; want no growing backlog", late, later, week)
	}
	for celsius, want := range map[float64]float64{20: 100, -5: 100} {
		grit := aTrial(record.Eisenia, celsius, 60, 60, tenGrown, []Dose{{0, 100, Fare{Kitchen: true}}})
		near(t, "g of grit after 60 days", grit.Run()[0].LeftG, want, 1e-9)
	}
}

func TestNoTrialGivesLessThanNothingOrMoreFoodThanWasFed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		trial := anyTrial(t)
		var fed, eaten float64
		for _, d := range trial.Feed {
			fed += d.Grams
		}
		for _, r := range trial.Run() {
			eaten += r.EatenG
			for what, v := range map[string]float64{
				"adults": r.Adults, "juveniles": r.Juveniles, "cocoons": r.Cocoons, "laid": r.Laid,
				"mean": r.MeanMG, "live": r.LiveG, "eaten": r.EatenG, "left": r.LeftG,
			} {
				if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
					t.Fatalf("day %d: %s is %v", r.Day, what, v)
				}
			}
			if r.LeftG+eaten > fed+1e-6*(1+fed) {
				t.Fatalf("day %d: %.3f g left and %.3f eaten of %.3f fed", r.Day, r.LeftG, eaten, fed)
			}
		}
	})
}

// The daily books of a bench: fed = eaten + rotted + taken out + left.
func TestATrialsFoodIsAllAccountedFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		trial := anyTrial(t)
		b := newBench(trial)
		for day := range trial.Days {
			b.morning(day)
			b.state.Step(&b.rates, &b.cond)
		}
		s := b.state.Sums
		if all := s.Eaten + s.Rotted + s.Out + b.state.softIn(0); math.Abs(all-s.Fed) > 1e-6*(1+s.Fed) {
			t.Fatalf("%.6f g fed, %.6f accounted for", s.Fed, all)
		}
	})
}

// Foods that go in together are one meal: which of them the file names first
// says nothing.
func TestTheOrderInWhichATrialListsADaysFoodsDoesNotMatter(t *testing.T) {
	run := func(a, b string) []Row {
		return aTrial(record.Eisenia, 20, 60, 10, tenGrown, []Dose{{5, 60, fare(a)}, {5, 30, fare(b)}, {20, 30, fare(a)}, {20, 60, fare(b)}}).Run()
	}
	first := run("cattle-manure", "coffee-pulp")
	second := aTrial(record.Eisenia, 20, 60, 10, tenGrown, []Dose{{20, 60, fare("coffee-pulp")}, {5, 30, fare("coffee-pulp")}, {5, 60, fare("cattle-manure")}, {20, 30, fare("cattle-manure")}}).Run()
	for i, r := range first {
		near(t, "young, whatever the order", second[i].Juveniles, r.Juveniles, 1e-9)
		near(t, "g left, whatever the order", second[i].LeftG, r.LeftG, 1e-9)
	}
	if other := run("coffee-pulp", "cattle-manure"); other[5].LiveG == first[5].LiveG {
		t.Error("other amounts give the same worms")
	}
}

// Monotone where biology says so, in dishes with food to spare: more worms stay
// smaller, warmer up to 25 °C grows faster, a week unfed is no gain.
func TestTrialsOrderAsBiologyDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(allSpecies).Draw(t, "species")
		mean := func(celsius, n float64, feed bool) float64 {
			trial := aTrial(s, celsius, 40, 40, Stock{Juveniles: n, JuvenileMG: 20}, nil)
			trial.TakeCocoons = 7
			if feed {
				trial.Feed = every(5, 40, 60*n, fare("cattle-manure"))
			}
			return trial.Run()[0].MeanMG
		}
		c, n := rapid.Float64Range(14, 24).Draw(t, "°C"), rapid.Float64Range(2, 20).Draw(t, "worms")
		// A pair with no mate lays less and weighs more; hence from two worms on.
		if few, many := mean(c, n, true), mean(c, 3*n, true); many > few*(1+1e-9) {
			t.Errorf("%.0f worms weigh %.1f mg and %.0f %.1f", n, few, 3*n, many)
		}
		if cool, warm := mean(c-3, 2, true), mean(c, 2, true); cool > warm*(1+0.02) {
			t.Errorf("at %.0f °C they weigh %.1f mg and at %.0f %.1f", c-3, cool, c, warm)
		}
		if fed, unfed := mean(c, n, true), mean(c, n, false); unfed > fed {
			t.Errorf("unfed they weigh %.1f mg, fed %.1f", unfed, fed)
		}
	})
}

// Shagoti, Amoji, Biradar & Biradar 2001, J Environ Biol 22:213-217: Eudrilus all
// dead within week 1 at 40 °C and by week 10 at 37.5 °C.
func TestEudrilusInADishDiesInHeatAsShagotiSaw(t *testing.T) {
	for celsius, days := range map[float64]int{40: 7, 37.5: 70} {
		for _, start := range []Stock{{Adults: 100, AdultMG: 1500}, {Juveniles: 100, JuvenileMG: 100}} {
			trial := aTrial(record.Eudrilus, celsius, days, days, start, every(7, days, 500, fare("cattle-manure")))
			trial.AreaM2 = 0.1
			if r := trial.Run()[0]; r.Adults+r.Juveniles >= 0.5 {
				t.Errorf("%.1f of 100 live after %d d at %.1f °C", r.Adults+r.Juveniles, days, celsius)
			}
		}
	}
}

// Viljoen & Reinecke 1989, S Afr J Zool 24:27: Eudrilus mature 40–50 d after
// hatching at 25 °C. Hallatt, Reinecke & Viljoen 1990, S Afr J Zool: Perionyx
// after 21 d, 1.1 cocoons a day, ± 5 %. Viljoen, Reinecke & Hartman 1991, S Afr J
// Zool 26:43-48: Dendrobaena 65 d on the mean (Domínguez 2004), 0.28 a day.
func TestSpeciesMatureAndLayInDishesAsMeasured(t *testing.T) {
	for _, row := range []struct {
		species     record.Species
		mg          float64
		early, late int
		adultMG     float64
		laid, share float64 // a worm and day
	}{
		{record.Eisenia, 11, 30, 45, 500, 0.386, 0.20},
		{record.Dendrobaena, 18, 50, 70, 1500, 0.28, 0.20},
		{record.Eudrilus, 20, 40, 50, 1500, 0.50, 0.20},
		{record.Perionyx, 10, 20, 25, 450, 1.1, 0.05},
	} {
		trial := aTrial(row.species, 25, 90, 1, Stock{Juveniles: 10, JuvenileMG: row.mg}, every(7, 90, 300, fare("cattle-manure")))
		trial.AreaM2, trial.TakeCocoons = 0.1, 7
		day, rows := 1, byDay(trial)
		for rows[day].Adults < rows[day].Juveniles {
			day++
		}
		if day < row.early || day > row.late {
			t.Errorf("half of %s are mature on day %d, want %d to %d", row.species, day, row.early, row.late)
		}
		trial = aTrial(row.species, 25, 14, 14, Stock{Adults: 10, AdultMG: row.adultMG}, every(7, 14, 300, fare("cattle-manure")))
		trial.AreaM2 = 0.1
		near(t, string(row.species)+", cocoons a worm and day", trial.Run()[0].Laid/140, row.laid, row.share)
	}
}

// Viljoen et al. 1992: Dendrobaena mature 77 d after hatching at 15 °C.
func TestDendrobaenaMaturesInTheCoolAsViljoenMeasured(t *testing.T) {
	trial := aTrial(record.Dendrobaena, 15, 120, 1, Stock{Juveniles: 10, JuvenileMG: 18}, every(7, 120, 200, fare("cattle-manure")))
	trial.AreaM2 = 0.1
	day, rows := 1, byDay(trial)
	for rows[day].Adults < rows[day].Juveniles {
		day++
	}
	near(t, "half are mature at 15 °C, d", float64(day), 77, 0.10)
}

// A trial of every species, its numbers with their bits; written anew as the
// other frozen runs are.
func TestTheFrozenTrialsHaveTheSameBitsEverywhere(t *testing.T) {
	var lines []string
	for _, species := range allSpecies {
		trial := aTrial(species, 18, 150, 50, Stock{Adults: 8, AdultMG: 700, Juveniles: 5, JuvenileMG: 90, Cocoons: 20}, every(20, 120, 90, fare("horse-manure")))
		trial.Temps = append(trial.Temps, Setting{Day: 60, C: 24})
		trial.Feed = append(trial.Feed, Dose{Day: 70, Grams: 60, Fare: kitchenScraps})
		trial.Remove, trial.TakeCocoons = []Take{{Day: 30, Grams: 40}, {Day: 130, All: true}}, 0
		for _, r := range trial.Run() {
			for _, v := range []float64{r.Adults, r.Juveniles, r.Cocoons, r.Laid, r.MeanMG, r.LiveG, r.EatenG, r.LeftG} {
				lines = append(lines, fmt.Sprintf("%s day %d %016x  %.6g", species, r.Day, math.Float64bits(v), v))
			}
		}
	}
	compareFrozen(t, "testdata/trials.txt", lines)
}
