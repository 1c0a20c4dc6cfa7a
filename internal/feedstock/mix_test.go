package feedstock_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/feedstock"
)

type ing = feedstock.Ingredient

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.5g, want %.5g ± %g", what, got, want, tolerance)
	}
}

// Grass and leaves of the worked examples of Richard & Trautmann (1996), Cornell
// Waste Management Institute. The moisture pages were read in a copy; the
// composition (45 % C and 2.4 % N, 50 % C and 0.75 % N) is from memory.
func grass(g float64) ing  { return ing{g, 0.77, 0.024, 0.45 / 0.024} }
func leaves(g float64) ing { return ing{g, 0.35, 0.0075, 0.50 / 0.0075} }

func TestPublishedWorkedExamples(t *testing.T) {
	t.Run("a sample of grass dried in its container", func(t *testing.T) {
		const container = 4.0
		got, err := feedstock.WaterByDrying(14-container, 6.3-container)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "water", got, 0.77, 1e-9)
	})
	t.Run("leaves that bring 10 kg of grass to 60 % water", func(t *testing.T) {
		got, err := feedstock.ForWater(0.60, leaves(0), grass(10_000))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "leaves, g", got, 6800, 1e-6)
	})
	t.Run("leaves that bring 10 kg of grass to C:N 30", func(t *testing.T) {
		got, err := feedstock.ForCN(30, leaves(0), grass(10_000))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "leaves, g (published as 3.5 kg)", got, 3474, 1)
	})
	t.Run("C:N of 10 kg grass and 6.8 kg leaves", func(t *testing.T) {
		got, err := feedstock.MixCN(grass(10_000), leaves(6800))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "C:N (published as 37)", got, 36.73, 0.005)
	})
	t.Run("water and C:N of 10 kg grass and 3.5 kg leaves", func(t *testing.T) {
		mix := []ing{grass(10_000), leaves(3500)}
		water, err := feedstock.MixWater(mix...)
		if err != nil {
			t.Fatal(err)
		}
		cn, err := feedstock.MixCN(mix...)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "water (published as 66 %)", water, 0.661, 0.0005)
		near(t, "C:N", cn, 30.06, 0.005)
	})
	t.Run("sawdust that brings cow manure to C:N 30", func(t *testing.T) { // a textbook problem; its answer worked out here
		got, err := feedstock.ForCN(30, ing{Water: 0.15, N: 0.001, CN: 500}, ing{1000, 0.60, 0.020, 18})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "sawdust, g per kg", got, 240.30, 0.005)
	})
	t.Run("grass cannot bring sludge to C:N 30, both being below it", func(t *testing.T) { // a textbook problem
		got, err := feedstock.ForCN(30, ing{Water: 0.80, N: 0.060, CN: 15}, ing{1000, 0.80, 0.050, 6})
		if !errors.Is(err, feedstock.ErrCannot) {
			t.Errorf("got %.0f g and %v, want a refusal", got, err)
		}
	})
	t.Run("water content of 60 % for manure and sawdust", func(t *testing.T) { // inputs: British Columbia, Agricultural Composting Handbook (1998), appendix A; answer worked out here
		mix := []ing{{2854.5, 0.46, 0.036, 10}, {1000, 0.42, 0.0043, 475}}
		cn, _ := feedstock.MixCN(mix...)
		near(t, "C:N", cn, 30, 0.005)
		plain, err := feedstock.WaterFor(0.60, mix...)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "water, g", plain, 1449, 1)
	})
}

// Printed in school and county leaflets, and wrong: they average ratios by mass
// or volume. The right answers for plausible compositions lie elsewhere.
func TestRatiosAreNeverAveraged(t *testing.T) {
	for _, c := range []struct {
		name  string
		mix   []ing
		wrong float64
	}{
		{"two parts manure 15:1 and one of corn stalks 65:1, printed as about 30", []ing{{2, 0.72, 0.025, 15}, {1, 0.12, 0.007, 65}}, 31.7},
		{"one part leaves 60:1 and two of grass 20:1, printed as 33", []ing{{1, 0.38, 0.0075, 60}, {2, 0.82, 0.034, 20}}, 33},
		{"half grass 20:1 and half leaves 40:1 by volume, printed as 30", []ing{{204, 0.82, 0.034, 20}, {70, 0.38, 0.009, 40}}, 30},
	} {
		got, err := feedstock.MixCN(c.mix...)
		if err != nil || math.Abs(got-c.wrong) < 0.5 {
			t.Errorf("%s: got %.2f (%v), which is the averaged ratio", c.name, got, err)
		}
	}
}

// Worked out from the catalogue's own values, not published.
func TestReferenceResultsPerKilogramOfScraps(t *testing.T) {
	c := feedstock.Standard()
	bedding := func(id string) ing {
		i, err := c.Ingredient(id, 0)
		if err != nil {
			t.Fatal(err)
		}
		return i
	}
	wet80 := ing{1000, 0.80, 0.027, 19}
	wet87, err := c.Ingredient("veg-mixed", 1000)
	if err != nil {
		t.Fatal(err)
	}
	wet70, err := c.Ingredient("kitchen-mixed", 1000)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		name   string
		scraps ing
		add    string
		cn     float64
		grams  float64
		water  float64
	}{
		{"80 % water with cardboard", wet80, "cardboard", 25, 65, 75.6},
		{"80 % water with cardboard", wet80, "cardboard", 30, 121, 72.2},
		{"80 % water with newsprint", wet80, "newsprint", 25, 57, 76.0},
		{"80 % water with newsprint", wet80, "newsprint", 30, 105, 72.9},
		{"80 % water with dry leaves", wet80, "leaves-dry", 25, 200, 73.0},
		{"80 % water with dry leaves", wet80, "leaves-dry", 30, 444, 67.1},
		{"mixed vegetables with cardboard", wet87, "cardboard", 25, 43, 83.8},
		{"mixed vegetables with cardboard", wet87, "cardboard", 30, 79, 81.2},
		{"mixed kitchen scraps with cardboard", wet70, "cardboard", 25, 145, 62.1},
		{"mixed kitchen scraps with cardboard", wet70, "cardboard", 30, 220, 58.8},
	} {
		add := bedding(row.add)
		grams, err := feedstock.ForCN(row.cn, add, row.scraps)
		if err != nil {
			t.Errorf("%s to C:N %.0f: %v", row.name, row.cn, err)
			continue
		}
		add.Grams = grams
		water, _ := feedstock.MixWater(row.scraps, add)
		near(t, row.name+", bedding g", grams, row.grams, 0.5)
		near(t, row.name+", water %", water*100, row.water, 0.06)
	}
	t.Run("C:N 30 and 75 % water at once", func(t *testing.T) {
		_, plain, err := feedstock.ForBoth(30, 0.75, bedding("cardboard"), wet70)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "water, g", plain, 790, 0.5)
	})
	t.Run("wet vegetables are refused, since only drying would help", func(t *testing.T) {
		_, plain, err := feedstock.ForBoth(30, 0.75, bedding("cardboard"), wet87)
		if !errors.Is(err, feedstock.ErrCannot) {
			t.Errorf("got %.0f g and %v, want a refusal", plain, err)
		}
	})
	t.Run("cardboard that brings scraps to 75 % water", func(t *testing.T) {
		for _, row := range []struct {
			scraps ing
			want   float64
		}{{wet87, 179}, {wet80, 75}} {
			got, err := feedstock.ForWater(0.75, bedding("cardboard"), row.scraps)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "cardboard, g", got, row.want, 0.5)
		}
	})
	t.Run("soaked straw", func(t *testing.T) { // Deherain, quoted by Whisenand (1918), Journal of Agricultural Research 14(4):187
		near(t, "water %", feedstock.Holds(0.08, 2.20)*100, 71, 0.5)
	})
}

func TestTargetsThatCannotBeReachedAreRefused(t *testing.T) {
	mix := ing{1000, 0.80, 0.027, 19}
	for name, err := range map[string]error{
		"drier than both":       second(feedstock.ForWater(0.05, ing{Water: 0.08}, mix)),
		"wetter than both":      second(feedstock.ForWater(0.90, ing{Water: 0.08}, mix)),
		"as dry as the bedding": second(feedstock.ForWater(0.08, ing{Water: 0.08}, mix)),
		"water for a wet mix":   second(feedstock.WaterFor(0.70, mix)),
		"pure water":            second(feedstock.WaterFor(1, mix)),
		"an empty mix":          second(feedstock.MixWater()),
		"C:N of sand":           second(feedstock.MixCN(ing{Grams: 10})),
		"C:N with sand":         second(feedstock.ForCN(25, ing{Water: 0.03}, mix)),
		"heavier when dry":      second(feedstock.WaterByDrying(5, 6)),
	} {
		if !errors.Is(err, feedstock.ErrCannot) {
			t.Errorf("%s: got %v, want a refusal", name, err)
		}
	}
	if got, err := feedstock.ForWater(0.80, ing{Water: 0.08}, mix); got != 0 || err != nil {
		t.Errorf("a mix that is right already asks for %g g (%v), want 0", got, err)
	}
}

func second(_ float64, err error) error { return err }

func TestWhatIsAddedBringsTheMixToItsTarget(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		share := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		mix := ing{share("g", 1, 5000), share("water", 0.02, 0.98), share("n", 0.001, 0.1), share("cn", 4, 600)}
		add := ing{0, share("added water", 0.02, 0.98), share("added n", 0.001, 0.1), share("added cn", 4, 600)}
		target := share("target", 0.01, 0.99)
		if g, err := feedstock.ForWater(target, add, mix); err == nil {
			with := add
			with.Grams = g
			if got, _ := feedstock.MixWater(mix, with); g < 0 || math.Abs(got-target) > 1e-9 {
				t.Fatalf("%g g brings %.6f water, want %.6f", g, got, target)
			}
		} else if target > min(mix.Water, add.Water) && target < max(mix.Water, add.Water) {
			t.Fatalf("a target between the two is refused: %v", err)
		}
		cn := share("target cn", 4, 600)
		if g, err := feedstock.ForCN(cn, add, mix); err == nil {
			with := add
			with.Grams = g
			if got, _ := feedstock.MixCN(mix, with); g < 0 || math.Abs(got-cn) > 1e-6*cn {
				t.Fatalf("%g g brings C:N %.6f, want %.6f", g, got, cn)
			}
		}
	})
}
