package units_test

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/units"
)

func TestExactSizesOfUnits(t *testing.T) {
	for _, c := range []struct {
		typed string
		want  units.Weight // picograms
	}{
		{"1 lb", 453_592_370_000_000},
		{"1 oz", 28_349_523_125_000},
		{"14 lb", 6_350_293_180_000_000},
		{"0.01 lb", 4_535_923_700_000},
		{"0.05 oz", 1_417_476_156_250},
		{"1 kg", 1_000_000_000_000_000},
		{"1 g", 1_000_000_000_000},
	} {
		got, err := units.ParseMass(c.typed, units.Gram)
		if err != nil || got != c.want {
			t.Errorf("%s is %d pg (%v), want %d", c.typed, got, err, c.want)
		}
	}
}

func TestWeightsAsPeopleTypeThem(t *testing.T) {
	for _, c := range []struct {
		name, typed string
		bare        units.MassUnit
		want        units.Grams
	}{
		{"a bare number in a household of grams", "250", units.Gram, 250},
		{"a bare number in a household of ounces", "10", units.Ounce, 283},
		{"grams with their unit", "250 g", units.Ounce, 250},
		{"kilograms with a point", "1.2 kg", units.Gram, 1200},
		{"kilograms with a comma and no space", "1,2kg", units.Gram, 1200},
		{"what a scale shows in kilograms", "1.250 kg", units.Gram, 1250},
		{"a fraction that cannot be thousands", "0,500 kg", units.Gram, 500},
		{"pounds and ounces", "2 lb 3.5 oz", units.Gram, 1006},
		{"pounds and ounces with a colon", "2:3.5", units.Gram, 1006},
		{"pounds without a space", "2lb", units.Gram, 907},
		{"pounds and ounces without spaces", "2lb3.5oz", units.Gram, 1006},
		{"ounces beyond a pound alone", "35.5oz", units.Gram, 1006},
		{"capitals and a hard space", "3\u00a0OZ", units.Gram, 85},
		{"half a gram goes up", "0.5 g", units.Gram, 1},
		{"a leading point", ".5 kg", units.Gram, 500},
		{"nothing at all", "0", units.Gram, 0},
		{"a tonne", "1000 kg", units.Gram, 1_000_000},
	} {
		got, err := units.ParseMass(c.typed, c.bare)
		if err != nil {
			t.Errorf("%s: %q is refused: %v", c.name, c.typed, err)
		} else if got.Grams() != c.want {
			t.Errorf("%s: %q is %d g, want %d", c.name, c.typed, got.Grams(), c.want)
		}
	}
}

func TestWeightsThatAreRefused(t *testing.T) {
	for _, c := range []struct{ name, typed, code string }{
		{"nothing typed", "  ", "empty"},
		{"a comma before three digits", "1,500", "ambiguous"},
		{"a comma before three digits, with a unit", "1,500 g", "ambiguous"},
		{"a point before three digits in grams", "1.500", "ambiguous"},
		{"two marks", "1,500.5", "ambiguous"},
		{"a minus", "-50", "negative"},
		{"a minus as a phone's keyboard writes it", "−50 g", "negative"},
		{"sixteen ounces beside pounds", "1 lb 16 oz", "ounces"},
		{"sixteen ounces after a colon", "1:16", "ounces"},
		{"half pounds beside ounces", "1.5 lb 2 oz", "ounces"},
		{"words", "some", "unknown-unit"},
		{"a word after a number", "3 cups", "unknown-unit"},
		{"a mark alone", ".", "not-a-number"},
		{"a mark at the end", "12.", "not-a-number"},
		{"a unit alone", "g", "not-a-number"},
		{"two weights", "2 kg 3 oz", "not-a-number"},
		{"three weights", "1 lb 2 oz 3", "not-a-number"},
		{"finer than a scale", "1.2345 kg", "decimals"},
		{"more than a tonne", "1001 kg", "too-much"},
		{"more than a number holds", "99999999999999999999", "too-much"},
	} {
		got, err := units.ParseMass(c.typed, units.Gram)
		var f *units.Fault
		if !errors.As(err, &f) {
			t.Errorf("%s: %q is taken for %d g, want code %s", c.name, c.typed, got.Grams(), c.code)
			continue
		}
		if f.Code != c.code || f.Typed != c.typed || !strings.HasSuffix(f.Say, ".") {
			t.Errorf("%s: %q gives %q %q %q, want code %s, what was typed and a sentence", c.name, c.typed, f.Code, f.Typed, f.Say, c.code)
		}
	}
}

func TestAnAmbiguousWeightNamesTwoWaysThatAreTaken(t *testing.T) {
	for typed, want := range map[string]string{
		"1,500": `"1,500" can be read in two ways: type 1500 for thousands or 1.5 for a fraction.`,
		"1,125": `"1,125" can be read in two ways: type 1125 for thousands or 1.13 for a fraction.`,
		"2,000": `"2,000" can be read in two ways: type 2000 for thousands or 2 for a fraction.`,
	} {
		if _, err := units.ParseMass(typed, units.Gram); err == nil || err.Error() != want {
			t.Errorf("%q gives %v, want %s", typed, err, want)
		}
	}
}

func TestSixteenOuncesAndAPoundAreTwoPoundsExactly(t *testing.T) {
	sum, err := units.ParseMass("1 lb", units.Gram)
	if err != nil {
		t.Fatal(err)
	}
	for range 16 {
		oz, err := units.ParseMass("1 oz", units.Gram)
		if err != nil {
			t.Fatal(err)
		}
		sum += oz
	}
	if two, _ := units.ParseMass("2 lb", units.Gram); sum != two {
		t.Errorf("1 lb and 16 times 1 oz make %d pg, want %d", sum, two)
	}
}

func TestPoundsAndOuncesAreRoundedBeforeTheyAreSplit(t *testing.T) {
	for _, c := range []struct {
		milligrams int64
		want       string
	}{
		{453_000, "1 lb 0.0 oz"},
		{907_000, "2 lb 0.0 oz"},
		{2_267_000, "5 lb 0.0 oz"},
		{28_000, "0 lb 1.0 oz"},
		{400, "< 0.1 oz"},
		{0, "0 lb 0.0 oz"},
		{-536_000, "-1 lb 2.9 oz"},
		{-400, "< 0.1 oz"},
	} {
		w := units.Weight(c.milligrams) * (units.OneGram / 1000)
		if got := w.PoundsOunces(); got != c.want {
			t.Errorf("%d mg shows as %q, want %q", c.milligrams, got, c.want)
		}
	}
}

func TestMetricDisplay(t *testing.T) {
	for _, c := range []struct {
		grams units.Grams
		want  string
	}{{0, "0 g"}, {465, "465 g"}, {999, "999 g"}, {1000, "1 kg"}, {1100, "1.1 kg"}, {1254, "1.25 kg"}, {1255, "1.26 kg"}, {-30, "-30 g"}} {
		if got := c.grams.Weight().Metric(); got != c.want {
			t.Errorf("%d g shows as %q, want %q", c.grams, got, c.want)
		}
	}
	if got := (units.OneGram * 2 / 5).Metric(); got != "< 1 g" {
		t.Errorf("0.4 g shows as %q, want \"< 1 g\"", got)
	}
}

func TestTemperatures(t *testing.T) {
	for _, c := range []struct {
		centi int64
		want  int64 // tenths of °F
	}{{-4000, -400}, {0, 320}, {3700, 986}, {2506, 771}} {
		if got := units.FahrenheitTenths(c.centi, 100); got != c.want {
			t.Errorf("%d hundredths of °C is %d tenths of °F, want %d", c.centi, got, c.want)
		}
	}
	for _, c := range []struct {
		typed string
		bare  units.TempUnit
		want  units.DeciCelsius
		shown string
	}{
		{"16", units.Celsius, 160, "16 °C"},
		{"16,5 °C", units.Fahrenheit, 165, "61.7 °F"},
		{"61 F", units.Celsius, 161, "16.1 °C"},
		{"61°F", units.Celsius, 161, "16.1 °C"},
		{"98.6", units.Fahrenheit, 370, "98.6 °F"},
		{"-40 F", units.Celsius, -400, "-40 °C"},
		{"−3", units.Celsius, -30, "-3 °C"},
		{"-0.5 c", units.Celsius, -5, "-0.5 °C"},
	} {
		got, err := units.ParseTemp(c.typed, c.bare)
		if err != nil || got != c.want || got.Show(c.bare) != c.shown {
			t.Errorf("%q is %d tenths (%v), shown %q, want %d, %q", c.typed, got, err, got.Show(c.bare), c.want, c.shown)
		}
	}
	for typed, code := range map[string]string{"": "empty", "warm": "unknown-unit", "16 K": "unknown-unit", "160 C": "out-of-range", "1-2": "unknown-unit"} {
		_, err := units.ParseTemp(typed, units.Celsius)
		var f *units.Fault
		if !errors.As(err, &f) || f.Code != code {
			t.Errorf("%q gives %v, want code %s", typed, err, code)
		}
	}
}

func TestRoundingIsHalfAwayFromZero(t *testing.T) {
	for _, c := range []struct{ num, den, want int64 }{
		{5, 10, 1}, {4, 10, 0}, {-5, 10, -1}, {-4, 10, 0}, {15, 10, 2}, {25, 10, 3}, {-25, 10, -3}, {7, 7, 1}, {3, 7, 0}, {4, 7, 1},
	} {
		if got := units.Round(c.num, c.den); got != c.want {
			t.Errorf("%d/%d rounds to %d, want %d", c.num, c.den, got, c.want)
		}
	}
	for _, c := range []struct {
		x    float64
		want int64
	}{{0.5, 1}, {-0.5, -1}, {2.5, 3}, {0.49999999999999994, 0}, {1e300, 0}, {-1e300, 0}} {
		if got := units.Nearest(c.x); got != c.want {
			t.Errorf("%v rounds to %d, want %d", c.x, got, c.want)
		}
	}
}

func TestScaleStepsOfATwentiethOunceSurviveWholeGrams(t *testing.T) {
	const step = int64(units.OneOunce) / 20
	for n := int64(0); n <= 4000; n++ {
		g := units.Weight(n * step).Grams()
		if back := units.Round(int64(g.Weight()), step); back != n {
			t.Fatalf("%d steps of 0.05 oz come back from %d g as %d", n, g, back)
		}
	}
	lossy := 0
	for g := units.Grams(1); g <= 5000; g++ {
		if units.Weight(units.Round(int64(g.Weight()), step)*step).Grams() != g {
			lossy++
		}
	}
	if lossy != 1473 {
		t.Errorf("%d of 5000 whole grams change through ounces, want the known 1473: a change of unit must never be written back", lossy)
	}
}

func TestRoundingForPeople(t *testing.T) {
	for _, c := range []struct {
		name        string
		g, interval units.Grams
		want        units.Grams
	}{
		{"steps of 25 g to 250 g", 184, 0, 175},
		{"steps of 50 g to a kilogram", 474, 0, 450},
		{"half a step goes up", 475, 0, 500},
		{"steps of 100 g above", 1249, 0, 1200},
		{"never finer than a quarter of the interval", 184, 300, 200},
		{"a quarter of the interval that is the step itself", 184, 100, 175},
		{"a wide interval", 640, 1500, 800},
		{"a quarter of the interval between two steps", 400, 450, 450},
		{"nothing stays nothing", 0, 0, 0},
	} {
		if got := units.RoundForPeople(c.g, c.interval); got != c.want {
			t.Errorf("%s: %d g known to %d g rounds to %d, want %d", c.name, c.g, c.interval, got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		g := units.Grams(rapid.Int64Range(0, 200_000).Draw(t, "g"))
		interval := units.Grams(rapid.Int64Range(0, 400_000).Draw(t, "interval"))
		step, got := units.StepForPeople(g, interval), units.RoundForPeople(g, interval)
		if step*4 < interval || got%step != 0 || 2*max(got-g, g-got) > step {
			t.Fatalf("%d g known to %d g gives %d in steps of %d", g, interval, got, step)
		}
	})
}

func TestWhatIsParsedAndShownInGramsIsTheSameAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := units.Grams(rapid.Int64Range(0, 999).Draw(t, "g"))
		back, err := units.ParseMass(g.Weight().Show(units.Gram), units.Ounce)
		if err != nil || back.Grams() != g {
			t.Fatalf("%d g comes back as %d (%v)", g, back.Grams(), err)
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		typed := rapid.String().Draw(t, "typed")
		if w, err := units.ParseMass(typed, units.Gram); err == nil && (w < 0 || w > units.MostTyped) {
			t.Fatalf("%q is taken for %d pg", typed, w)
		}
	})
}
