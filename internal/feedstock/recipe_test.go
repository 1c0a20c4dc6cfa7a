package feedstock_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/feedstock"
)

func TestCompositionsFromTables(t *testing.T) {
	t.Run("carbon from ash", func(t *testing.T) { // banana peel: 9.56 % ash (proximate composition of banana and plantain peels, abstract)
		got, err := feedstock.CarbonFromAsh(0.0956)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "carbon", got, 0.5024, 0.0001)
	})
	t.Run("nitrogen from protein", func(t *testing.T) { // worked out here: 1.25 g protein in 100 g of a food with 92 % water
		got, err := feedstock.NitrogenFromProtein(0.0125, 6.25, 0.92)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "nitrogen", got, 0.025, 1e-12)
	})
	for name, err := range map[string]error{
		"more ash than everything":        second(feedstock.CarbonFromAsh(1.2)),
		"protein without a factor":        second(feedstock.NitrogenFromProtein(0.01, 0, 0.9)),
		"protein in nothing but water":    second(feedstock.NitrogenFromProtein(0, 6.25, 1)),
		"more protein than dry matter":    second(feedstock.NitrogenFromProtein(0.2, 6.25, 0.9)),
		"sawdust at 204 % carbon":         ing{Water: 0.42, N: 0.0043, CN: 475}.Check(),
		"sawdust at 106 % carbon":         ing{Water: 0.39, N: 0.0024, CN: 442}.Check(),
		"nothing but water":               ing{Water: 1}.Check(),
		"less nitrogen than none":         ing{N: -0.01}.Check(),
		"a C:N below nothing":             ing{N: 0.01, CN: -3}.Check(),
		"a nitrogen that is not a number": ing{N: math.NaN()}.Check(),
	} {
		if err == nil {
			t.Errorf("%s is taken for true", name)
		}
	}
	if err := (ing{Water: 0.05, N: 0.001, CN: 625}).Check(); err != nil {
		t.Errorf("newsprint at 62.5 %% carbon (Richard, Cornell spreadsheet) is refused: %v", err)
	}
}

func TestTwoSolidsReachBothTargets(t *testing.T) {
	mix := ing{1000, 0.87, 0.027, 19} // mixed vegetables, which cardboard and water alone cannot bring to both
	card, wet := ing{Water: 0.08, N: 0.001, CN: 563}, ing{Water: 0.72, N: 0.016, CN: 30}
	x, y, err := feedstock.ForBothWithTwo(30, 0.75, card, wet, mix)
	if err != nil {
		t.Fatal(err)
	}
	card.Grams, wet.Grams = x, y
	water, _ := feedstock.MixWater(mix, card, wet)
	cn, _ := feedstock.MixCN(mix, card, wet)
	near(t, "water", water, 0.75, 1e-12)
	near(t, "C:N", cn, 30, 1e-9)
	for _, c := range []struct {
		name      string
		cn, water float64
		x, y      ing
	}{
		{"two additions alike", 30, 0.75, card, card},
		{"both on the same side", 30, 0.75, ing{Water: 0.8, N: 0.06, CN: 15}, ing{Water: 0.9, N: 0.05, CN: 6}},
		{"water that only drying would bring", 30, 0.05, card, wet},
	} {
		if x, y, err := feedstock.ForBothWithTwo(c.cn, c.water, c.x, c.y, mix); !errors.Is(err, feedstock.ErrCannot) {
			t.Errorf("%s: got %.0f g, %.0f g and %v, want a refusal", c.name, x, y, err)
		}
	}
}

// With plain water as the second addition, two solids are bedding and water.
func TestBeddingAndWaterAreACaseOfTwoSolids(t *testing.T) {
	mix, card := ing{1000, 0.70, 0.024, 15}, ing{Water: 0.08, N: 0.001, CN: 563}
	bed, plain, err := feedstock.ForBoth(30, 0.75, card, mix)
	if err != nil {
		t.Fatal(err)
	}
	x, y, err := feedstock.ForBothWithTwo(30, 0.75, card, ing{Water: 1}, mix)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "bedding, g", x, bed, 1e-6)
	near(t, "water, g", y, plain, 1e-6)
}

func TestFitReachesItsTargetOrSaysWhyNot(t *testing.T) {
	card := ing{Water: 0.08, N: 0.001, CN: 563}
	veg := ing{1000, 0.87, 0.027, 19}
	for _, c := range []struct {
		name       string
		to         feedstock.Target
		mix        ing
		bed, plain float64
	}{
		{"wet vegetables to 75 % water take bedding", feedstock.Target{Water: 0.75}, veg, 179, 0},
		{"dry scraps to 75 % water take water alone", feedstock.Target{Water: 0.75}, ing{1000, 0.40, 0.02, 20}, 0, 1400},
		{"C:N alone takes no water", feedstock.Target{CN: 30}, veg, 79, 0},
		{"both", feedstock.Target{Water: 0.75, CN: 30}, ing{1000, 0.70, 0.024, 15}, 220, 790},
		{"both, wetter by one in ten thousand", feedstock.Target{Water: 0.75, CN: 25}, ing{1000, 0.795, 0.027, 19}, 67, 0},
		{"nothing asked, nothing added", feedstock.Target{}, veg, 0, 0},
	} {
		r, err := feedstock.Fit(c.to, card, c.mix)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		near(t, c.name+", bedding", r.Bedding, c.bed, 0.5)
		near(t, c.name+", water", r.Plain, c.plain, 0.5)
	}
	for _, c := range []struct {
		name string
		to   feedstock.Target
		says string
	}{
		{"wet vegetables at both", feedstock.Target{Water: 0.75, CN: 30}, "for the water alone 179 g of this bedding would do, at C:N 43"},
		{"no water at all", feedstock.Target{Water: 0.05}, "does not lie between"},
		{"pure water", feedstock.Target{Water: 1}, "no mix comes to 100.0 % water"},
		{"a water that is no number", feedstock.Target{Water: math.NaN()}, "no mix comes to"},
		{"a C:N below nothing", feedstock.Target{CN: -3}, "no mix has a C:N of -3"},
		{"a C:N below the scraps'", feedstock.Target{CN: 10}, "does not lie between"},
	} {
		if r, err := feedstock.Fit(c.to, card, veg); !errors.Is(err, feedstock.ErrCannot) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: got %+v and %v, want a refusal that says %q", c.name, r, err, c.says)
		}
	}
}

func TestTheBandIsReachedWithTheLeast(t *testing.T) {
	card := ing{Water: 0.08, N: 0.001, CN: 563}
	for _, c := range []struct {
		name       string
		mix        ing
		bed, plain float64
	}{
		{"water sets the bedding of wet vegetables", ing{1000, 0.87, 0.027, 19}, 179, 0},
		{"C:N sets the bedding of rich scraps, and then they are too dry", ing{1000, 0.70, 0.024, 15}, 72.1, 148.9},
		{"scraps that are right take nothing", ing{1000, 0.72, 0.02, 25}, 0, 0},
		{"dry bread takes water", ing{1000, 0.36, 0.02, 22}, 0, 1133},
	} {
		r, err := feedstock.FitBand(card, c.mix)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		near(t, c.name+", bedding", r.Bedding, c.bed, 1)
		near(t, c.name+", water", r.Plain, c.plain, 1)
	}
	if r, err := feedstock.FitBand(ing{Water: 0.9, N: 0.01, CN: 30}, ing{1000, 0.87, 0.027, 19}); !errors.Is(err, feedstock.ErrCannot) {
		t.Errorf("bedding wetter than the band: got %+v and %v, want a refusal", r, err)
	}
	rapid.Check(t, func(t *rapid.T) {
		share := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		mix := ing{share("g", 1, 5000), share("water", 0.02, 0.97), share("n", 0.005, 0.06), share("cn", 5, 60)}
		r, err := feedstock.FitBand(card, mix)
		if err != nil {
			t.Fatalf("cardboard and water do not bring %+v into the band: %v", mix, err)
		}
		if r.Bedding < 0 || r.Plain < 0 || r.Water < feedstock.BandDry-1e-9 || r.Water > feedstock.BandWet+1e-9 || r.CN < min(feedstock.BandLowCN, 560)-1e-6 {
			t.Fatalf("%+v comes to %+v, outside the band", mix, r)
		}
		more := mix
		more.Grams *= 2
		if twice, err := feedstock.FitBand(card, more); err != nil || math.Abs(twice.Bedding-2*r.Bedding) > 1e-6*(1+r.Bedding) {
			t.Fatalf("twice the scraps take %+v (%v), want twice %+v", twice, err, r)
		}
	})
}
