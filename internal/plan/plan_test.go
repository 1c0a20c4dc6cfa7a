package plan_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"trayside/internal/colony"
	"trayside/internal/plan"
	"trayside/internal/record"
	"trayside/internal/units"
)

const pound = 453.59237 // g

var start = func() record.Day { d, _ := record.DayOf("2026-04-10"); return d }()

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.5g, want %.5g ± %g", what, got, want, tolerance)
	}
}

// room is one with these means of the coldest and the warmest month, °C.
func room(coolest, warmest float64) colony.Room {
	return colony.Room{Coolest: units.DeciCelsius(coolest * 10), Warmest: units.DeciCelsius(warmest * 10)}
}

func make1(t testing.TB, a plan.Ask) plan.Plan {
	t.Helper()
	if a.Start == 0 {
		a.Start = start
	}
	p, err := plan.Make(a)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Wisconsin Natural Resources magazine 1998: 4 lb of scraps a week want a bin of
// 2 × 2 ft, 0.37 m².
func TestFourPoundsAWeekWantFourSquareFeet(t *testing.T) {
	p := make1(t, plan.Ask{ScrapsWeek: 1814, Room: room(20, 20)})
	near(t, "surface, m²", p.AreaM2, 0.3716, 0.001)
	// NYC Compost Project 2012: a pound of worms for 3.5 lb a week.
	near(t, "worms, lb", p.WormsG/pound, 4/3.5, 0.1)
}

// Grand Traverse County, Michigan: a bin of 2 cubic feet takes 5 lb of newspaper.
func TestTwoCubicFeetTakeFivePoundsOfNewspaper(t *testing.T) {
	b := plan.BeddingFor(2*28.316846592, 1)
	near(t, "newspaper, lb", b.PaperG/pound, 5, 0.01)
	// Worked out here: 2.17 g of water a gram bring paper of 5 % to 70 %.
	near(t, "water a gram", b.Water/b.PaperG, 2.17, 0.01)
}

func TestASmallKitchenStillBeginsWithAPound(t *testing.T) { // common practice
	p := make1(t, plan.Ask{ScrapsWeek: 300, Room: room(20, 20)})
	if p.WormsG != 450 || p.WormsBy != plan.LeastStock {
		t.Errorf("%.0f g by %s, want a pound as the least stock", p.WormsG, p.WormsBy)
	}
	if p.AreaM2 < 450/(pound/0.0929) {
		t.Errorf("%.3f m² is denser than a pound a square foot", p.AreaM2)
	}
}

func TestPeopleStandForScraps(t *testing.T) {
	p := make1(t, plan.Ask{People: 2, Room: room(18, 22)})
	if p.Scraps != (plan.Span{Mid: 1500, Low: 1000, High: 2000}) {
		t.Errorf("two people make %+v g a week, want 1000 to 2000", p.Scraps)
	}
	if same := make1(t, plan.Ask{ScrapsWeek: 1500, People: 9, Room: room(18, 22)}); same.WormsG != p.WormsG || same.AreaM2 != p.AreaM2 {
		t.Errorf("weighed scraps lead to %.0f g and %.3f m², people to %.0f and %.3f", same.WormsG, same.AreaM2, p.WormsG, p.AreaM2)
	}
}

func TestSpeciesByRoom(t *testing.T) {
	for _, c := range []struct {
		name             string
		coolest, warmest float64
		want             record.Species
		fit              plan.Fit
		unfit            []record.Species
	}{
		{"a heated room suits the common worm", 18, 23, record.Eisenia, plan.Suited, nil},
		{"a cellar slows it down in winter", 8, 18, record.Eisenia, plan.Copes, []record.Species{record.Eudrilus}},
		{"a warm country suits the African one", 23, 29, record.Eudrilus, plan.Suited, nil},
		{"a balcony with frost suits none", -5, 22, record.Eisenia, plan.Unfit, []record.Species{record.Eisenia, record.Dendrobaena, record.Eudrilus, record.Perionyx}},
		{"an oven suits none", 20, 36, record.Eisenia, plan.Unfit, []record.Species{record.Eisenia, record.Dendrobaena, record.Eudrilus, record.Perionyx}},
	} {
		p := make1(t, plan.Ask{ScrapsWeek: 1000, Room: room(c.coolest, c.warmest)})
		if p.Species != c.want || p.Suits[0].Species != c.want || p.Suits[0].Fit != c.fit {
			t.Errorf("%s: got %s, %+v; want %s that %s", c.name, p.Species, p.Suits[0], c.want, c.fit)
		}
		if got := slices.Contains(p.Cautions, plan.AnotherRoom); got != (c.fit == plan.Unfit) {
			t.Errorf("%s: cautions %v", c.name, p.Cautions)
		}
		for _, s := range p.Suits {
			if slices.Contains(c.unfit, s.Species) && s.Fit != plan.Unfit {
				t.Errorf("%s: %s is said to be %s", c.name, s.Species, s.Fit)
			}
			cold, hot := slices.Contains(s.Reasons, plan.TooCold), slices.Contains(s.Reasons, plan.TooHot)
			if len(s.Reasons) == 0 || (s.Fit == plan.Unfit) != (cold || hot) {
				t.Errorf("%s: %s is %s because %v", c.name, s.Species, s.Fit, s.Reasons)
			}
		}
	}
}

func TestJumpingWormsGetACautionAndNoNumbers(t *testing.T) {
	for _, name := range []record.Species{"jumping-worms", "amynthas", "metaphire", "Amynthas agrestis", "metaphire-hilgendorfi"} {
		p := make1(t, plan.Ask{ScrapsWeek: 1000, Room: room(18, 22), Species: name})
		if p.WormsG != 0 || p.AreaM2 != 0 || len(p.Steps) > 0 || len(p.Suits) > 0 || p.Whole != (plan.Reach{}) || !slices.Contains(p.Cautions, plan.JumpingCaution) {
			t.Errorf("%s: got %+v, want the caution alone", name, p)
		}
	}
}

func TestTheOrderOfBuying(t *testing.T) {
	day := func(s string) record.Day {
		d, err := record.DayOf(s)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	for _, c := range []struct {
		name         string
		room         colony.Room
		start, worms string
	}{
		{"worms come a week after the bedding", room(18, 22), "2026-04-10", "2026-04-17"},
		{"in a cold cellar they wait for spring", room(2, 20), "2026-11-25", "2027-04-14"},
		{"in the south summer is in January", colony.Room{Coolest: 20, Warmest: 200, South: true}, "2026-11-25", "2026-12-02"},
		{"none are sent in the heat", room(20, 34), "2026-07-01", "2026-10-11"},
		{"nobody sends worms into frost that lasts", room(-5, 8), "2026-07-01", ""},
	} {
		p := make1(t, plan.Ask{ScrapsWeek: 1000, Room: c.room, Start: day(c.start)})
		if p.Steps[0].Code != plan.BinAndBedding || p.Steps[0].Day != day(c.start) || p.Steps[1].Code != plan.BuyWorms {
			t.Errorf("%s: steps %+v, want the bedding first and the worms next", c.name, p.Steps)
		}
		if c.worms == "" {
			if len(p.Steps) != 2 || p.Steps[1].Day != 0 {
				t.Errorf("%s: steps %+v, want no day", c.name, p.Steps)
			}
			continue
		}
		if got := p.Steps[1].Day - day(c.worms); got < -3 || got > 3 {
			t.Errorf("%s: worms on %v, want about %s", c.name, p.Steps[1].Day, c.worms)
		}
		for code, days := range map[plan.Code]record.Day{plan.SettleIn: 0, plan.FirstMeal: 3, plan.FullMeals: 14} {
			if !slices.ContainsFunc(p.Steps, func(s plan.Step) bool { return s.Code == code && s.Day == p.Steps[1].Day+days }) {
				t.Errorf("%s: %+v lacks %s %d days after the worms", c.name, p.Steps, code, days)
			}
		}
		for i := 1; i < len(p.Steps); i++ {
			if p.Steps[i].Day < p.Steps[i-1].Day {
				t.Errorf("%s: %+v comes after %+v", c.name, p.Steps[i], p.Steps[i-1])
			}
		}
	}
}

// NYC Compost Project 2012: an established pound at 20–25 °C eats 3.5 lb a week,
// 1.75 to 5 lb by what other guides say.
func TestTheStockComesToEatTheKitchensScrapsWithinMonths(t *testing.T) {
	p := make1(t, plan.Ask{ScrapsWeek: 1814, Room: room(20, 24)})
	if d := p.Whole.Days; d.Mid > 120 || d.Low > d.Mid || d.High < d.Mid || d.High == d.Low {
		t.Errorf("everything is eaten from day %+v, want within four months and with an interval", d)
	}
	if p.Whole.Chance < 0.8 || p.Whole.Year2 < 0.9 || p.Whole.Lives < 0.9 {
		t.Errorf("reach %+v, want most to get there and to live", p.Whole)
	}
	cold := make1(t, plan.Ask{ScrapsWeek: 1814, Room: room(10, 18)})
	if cold.Whole.Days.Mid <= p.Whole.Days.Mid || cold.Whole.Year2 >= p.Whole.Year2 {
		t.Errorf("a cellar: %+v, a warm room: %+v; want the cellar slower", cold.Whole, p.Whole)
	}
}

func TestHalfTheStockWorksSlower(t *testing.T) {
	p := make1(t, plan.Ask{ScrapsWeek: 2500, Room: room(18, 22)})
	half, quarter := p.Cheaper[0], p.Cheaper[1]
	if half.Code != plan.HalfStock || half.WormsG != p.WormsG/2 || quarter.Code != plan.QuarterStock {
		t.Fatalf("cheaper ways %+v", p.Cheaper)
	}
	if !(half.Later > 0 && quarter.Later > half.Later) || half.Later > 180 {
		t.Errorf("half the stock is %.0f days later, a quarter %.0f; want both later, half by weeks or months", half.Later, quarter.Later)
	}
	if half.Whole.Days.Mid != p.Whole.Days.Mid+half.Later {
		t.Errorf("%v + %v days are not %v", p.Whole.Days.Mid, half.Later, half.Whole.Days.Mid)
	}
	if half.Whole.Year1 > p.Whole.Year1 {
		t.Errorf("half the stock eats %.2f in the first year, all of it %.2f", half.Whole.Year1, p.Whole.Year1)
	}
}

func TestWhatCannotBePlannedIsRefused(t *testing.T) {
	for _, c := range []struct {
		name string
		ask  plan.Ask
		says string
	}{
		{"nothing to eat", plan.Ask{Room: room(18, 22)}, "how many people"},
		{"less than nothing", plan.Ask{ScrapsWeek: -5, Room: room(18, 22)}, "how many people"},
		{"a canteen", plan.Ask{People: 500, Room: room(18, 22)}, "100 kg or less"},
		{"a summer colder than the winter", plan.Ask{People: 2, Room: room(22, 10)}, "swap the two"},
		{"a species nobody has numbers for", plan.Ask{People: 2, Room: room(18, 22), Species: "lumbricus"}, "eisenia-fetida"},
	} {
		if _, err := plan.Make(c.ask); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: got %v, want an error with %q", c.name, err, c.says)
		}
	}
	if _, err := plan.Make(plan.Ask{}); !errors.Is(err, plan.ErrNothing) {
		t.Errorf("an empty ask: %v", err)
	}
}

// A plan takes a tenth of a second, so this draws by hand; sizes alone are drawn in
// property_test.go.
func TestEveryReachIsSound(t *testing.T) {
	for _, r := range []colony.Room{room(-10, 20), room(3, 26), room(12, 16), room(20, 20), room(24, 33), {Coolest: 80, Warmest: 240, South: true}} {
		for _, species := range []record.Species{record.Eisenia, record.Dendrobaena, record.Perionyx} {
			p := make1(t, plan.Ask{ScrapsWeek: 3000, Room: r, Species: species})
			for _, reach := range []plan.Reach{p.Whole, *p.Cheaper[0].Whole, *p.Cheaper[1].Whole} {
				if d := reach.Days; !(d.Low >= 0 && d.Low <= d.Mid && d.Mid <= d.High && d.High <= plan.Horizon) {
					t.Errorf("%s at %+v: days %+v", species, r, d)
				}
				for _, share := range []float64{reach.Chance, reach.Lives, reach.Year1, reach.Year2} {
					if !(share >= 0 && share <= 1) {
						t.Errorf("%s at %+v: reach %+v", species, r, reach)
					}
				}
			}
			if p.Cheaper[0].Later < 0 || p.Cheaper[1].Later < p.Cheaper[0].Later {
				t.Errorf("%s at %+v: half the stock %.0f days later, a quarter %.0f", species, r, p.Cheaper[0].Later, p.Cheaper[1].Later)
			}
		}
	}
}
