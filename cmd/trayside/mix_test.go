package main

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"
)

// tell runs a command that needs no household and returns what it wrote.
func tell(t *testing.T, args ...string) (stdout, stderr string, err error) {
	t.Helper()
	var out, log bytes.Buffer
	err = run(t.Context(), args, &out, &log)
	return out.String(), log.String(), err
}

// mixOf returns the one JSON object that mix prints.
func mixOf(t *testing.T, args ...string) mixAnswer {
	t.Helper()
	out, _, err := tell(t, append([]string{"mix", "--json"}, args...)...)
	if err != nil {
		t.Fatalf("mix %v: %v", args, err)
	}
	var a mixAnswer
	d := json.NewDecoder(strings.NewReader(out))
	d.DisallowUnknownFields()
	if err := d.Decode(&a); err != nil || d.More() {
		t.Fatalf("mix %v printed %q, want one object (%v)", args, out, err)
	}
	for _, key := range []string{"feasible", "reason", "bedding_g", "water_ml", "moisture_pct", "cn"} {
		if !strings.Contains(out, `"`+key+`":`) {
			t.Errorf("mix %v printed %q without %q", args, out, key)
		}
	}
	return a
}

// The published worked examples, and results of the catalogue's own values
// (worked out, not published).
func TestMixAnswersTheWorkedExamples(t *testing.T) {
	const grass, leaves = "77:2.4:18.75", "35:0.75:66.6667"
	for _, c := range []struct {
		name                      string
		args                      []string
		bedding, water, pct, cn   float64
		tolerance, waterTolerance float64
	}{
		{"leaves for grass at 60 % (Richard & Trautmann 1996: 6.8 kg)",
			[]string{"--scraps", grass + "=10000", "--bedding", leaves, "--moisture", "60"}, 6800, 0, 60, 36.73, 1, 0},
		{"leaves for grass at C:N 30 (same, from memory: 3.5 kg)",
			[]string{"--scraps", grass + "=10 kg", "--bedding", leaves, "--cn", "30"}, 3474, 0, 66.17, 30, 1, 0},
		{"sawdust for cow manure at C:N 30 (a textbook problem, worked out here)",
			[]string{"--scraps", "60:2.0:18=1000", "--bedding", "15:0.1:500", "--cn", "30"}, 240.3, 0, 51.3, 30, 0.1, 0},
		{"80 % scraps and cardboard at C:N 25", []string{"--scraps", "80:2.7:19=1000", "--bedding", "cardboard", "--cn", "25"}, 65, 0, 75.6, 25, 0.5, 0},
		{"80 % scraps and newsprint at C:N 30", []string{"--scraps", "80:2.7:19=1000", "--bedding", "newsprint", "--cn", "30"}, 105, 0, 72.9, 30, 0.5, 0},
		{"80 % scraps and dry leaves at C:N 25", []string{"--scraps", "80:2.7:19=1000", "--bedding", "leaves-dry", "--cn", "25"}, 200, 0, 73.0, 25, 0.5, 0},
		{"mixed vegetables and cardboard at C:N 30", []string{"--scraps", "veg-mixed=1000", "--cn", "30"}, 79, 0, 81.2, 30, 0.5, 0},
		{"kitchen scraps at both", []string{"--scraps", "kitchen-mixed=1000", "--bedding", "cardboard", "--moisture", "75", "--cn", "30"}, 220, 790, 75, 30, 0.5, 0.5},
		{"mixed vegetables at 75 %", []string{"--scraps", "veg-mixed=1000", "--moisture", "75"}, 179, 0, 75, 43.4, 0.5, 0},
		{"80 % scraps at 75 %", []string{"--scraps", "80:2.7:19=1000", "--moisture", "75%"}, 75, 0, 75, 25.8, 0.5, 0},
		{"two lots of the same scraps are their sum", []string{"--scraps", "veg-mixed=400,veg-mixed=600", "--moisture", "75"}, 179, 0, 75, 43.4, 0.5, 0},
		{"with no target, into the band", []string{"--scraps", "veg-mixed=1000"}, 179, 0, 75, 43.4, 0.5, 0},
	} {
		a := mixOf(t, c.args...)
		if !a.Feasible || a.Reason != "" || a.Bedding == nil || a.Water == nil || a.Moisture == nil || a.CN == nil {
			t.Errorf("%s: refused: %+v", c.name, a)
			continue
		}
		for _, v := range []struct {
			what                 string
			got, want, tolerance float64
		}{{"bedding_g", *a.Bedding, c.bedding, c.tolerance}, {"water_ml", *a.Water, c.water, c.waterTolerance}, {"moisture_pct", *a.Moisture, c.pct, 0.06}, {"cn", *a.CN, c.cn, 0.05}} {
			if math.Abs(v.got-v.want) > v.tolerance+1e-9 {
				t.Errorf("%s: %s is %g, want %g ± %g", c.name, v.what, v.got, v.want, v.tolerance)
			}
		}
	}
}

func TestMixRefusesWhatCannotBe(t *testing.T) {
	for _, c := range []struct {
		name string
		args []string
		says string
	}{
		{"grass for sludge at C:N 30, both being below it", []string{"--scraps", "80:5.0:6=1000", "--bedding", "80:6.0:15", "--cn", "30"}, "does not lie between"},
		{"wet vegetables at both, which only drying would reach", []string{"--scraps", "veg-mixed=1000", "--moisture", "75", "--cn", "30"}, "for the water alone 179 g"},
		{"drier than the bedding", []string{"--scraps", "veg-mixed=1000", "--moisture", "5"}, "does not lie between"},
		{"all water", []string{"--scraps", "veg-mixed=1000", "--moisture", "100"}, "100"},
		{"sawdust at 204 % carbon", []string{"--scraps", "46:3.6:10=1000", "--bedding", "42:0.43:475", "--cn", "30"}, "204 % carbon"},
	} {
		a := mixOf(t, c.args...)
		if a.Feasible || a.Bedding != nil || a.Water != nil || !strings.Contains(a.Reason, c.says) {
			t.Errorf("%s: got %+v, want a refusal that says %q", c.name, a, c.says)
		}
		out, _, err := tell(t, append([]string{"mix"}, c.args...)...)
		if err != nil || !strings.Contains(out, "This cannot be done: ") || !strings.Contains(out, c.says) {
			t.Errorf("%s: for people %q (%v), want the reason", c.name, out, err)
		}
	}
}

// Leaflets print these, and they are wrong: they average ratios by mass or
// volume. Each has no target in the flags but the printed answer as one, which
// takes bedding or is refused; it is never there already.
func TestMixDoesNotAverageRatios(t *testing.T) {
	for _, c := range []struct{ name, scraps, printed string }{
		{"manure 15:1 and corn stalks 65:1, printed as about 30", "72:2.5:15=2000,12:0.7:65=1000", "31.7"},
		{"leaves 60:1 and grass 20:1, printed as 33", "38:0.75:60=1000,82:3:20=2000", "33"},
		{"grass 20:1 and leaves 40:1 by volume, printed as 30", "82:3:20=204,38:0.9:40=70", "30"},
	} {
		a := mixOf(t, "--scraps", c.scraps, "--cn", c.printed)
		if a.Feasible && *a.Bedding < 1 {
			t.Errorf("%s: is taken as reached, which is the averaged ratio", c.name)
		}
	}
}

func TestMixSaysWhichFlagIsWrongAndHowToMendIt(t *testing.T) {
	for _, c := range []struct {
		name string
		args []string
		says []string
	}{
		{"nothing to mix", nil, []string{"--scraps apple-core-peel=300"}},
		{"no amount", []string{"--scraps", "carrot"}, []string{"--scraps", "ID=GRAMS"}},
		{"a slip in an id", []string{"--scraps", "carot=100"}, []string{"--scraps", `"carot"`, "did you mean carrot"}},
		{"an amount in words", []string{"--scraps", "carrot=some"}, []string{"--scraps", "carrot=some"}},
		{"an amount that reads two ways", []string{"--scraps", "carrot=1.500"}, []string{"1500", "1.5"}},
		{"a volume in words", []string{"--scraps", "carrot=fistful"}, []string{"no volume", "500ml"}},
		{"a volume of nobody knows what", []string{"--scraps", "80:2.7:19=2l"}, []string{"weigh it"}},
		{"nothing at all", []string{"--scraps", "carrot=0"}, []string{"come to nothing"}},
		{"two numbers for three", []string{"--scraps", "80:2.7=100"}, []string{"--scraps", "MOISTURE:NITROGEN:CN"}},
		{"a word for a number", []string{"--scraps", "wet:2.7:19=100"}, []string{`"wet"`, "80:2.7:19"}},
		{"more water than everything", []string{"--scraps", "120:2.7:19=100"}, []string{"below 100 %"}},
		{"unknown bedding", []string{"--scraps", "carrot=100", "--bedding", "newspaper"}, []string{"--bedding", "newsprint"}},
		{"bedding of unknown make", []string{"--scraps", "carrot=100", "--bedding", "hessian"}, []string{"--bedding", "MOISTURE:NITROGEN:CN"}},
		{"too wet a target", []string{"--scraps", "carrot=100", "--moisture", "120"}, []string{"--moisture", "up to 100"}},
		{"a C:N of nothing", []string{"--scraps", "carrot=100", "--cn", "0"}, []string{"--cn", "above 0"}},
	} {
		out, _, err := tell(t, append([]string{"mix", "--json"}, c.args...)...)
		if err == nil || exitCode(err, &bytes.Buffer{}) != 2 || out != "" {
			t.Errorf("%s: got %v and %q, want a usage error and no answer", c.name, err, out)
			continue
		}
		for _, want := range c.says {
			if !strings.Contains(err.Error(), want) {
				t.Errorf("%s: says %q, want %q in it", c.name, err, want)
			}
		}
	}
}

func TestMixTakesVolumes(t *testing.T) {
	// A caddy of mixed scraps weighs 0.45 kg a litre.
	litres, grams := mixOf(t, "--scraps", "kitchen-mixed=2l"), mixOf(t, "--scraps", "kitchen-mixed=900")
	if *litres.Bedding != *grams.Bedding || *litres.Bedding == 0 {
		t.Errorf("2 l take %g g of bedding, 900 g take %g", *litres.Bedding, *grams.Bedding)
	}
	if ml := mixOf(t, "--scraps", "kitchen-mixed=2000 ml"); *ml.Bedding != *litres.Bedding {
		t.Errorf("2000 ml take %g g, 2 l %g", *ml.Bedding, *litres.Bedding)
	}
}

func TestMixCautionsAgainstWhatDoesNotBelongInABin(t *testing.T) {
	out, log, err := tell(t, "mix", "--scraps", "carrot=400,meat-raw=10,onion=5", "--json")
	if err != nil || !strings.Contains(log, "keep this out") || !strings.Contains(log, "not advised") {
		t.Errorf("stderr %q (%v), want cautions for the meat and the onion", log, err)
	}
	if strings.Count(strings.TrimSpace(out), "\n") != 0 {
		t.Errorf("stdout %q, want the answer alone", out)
	}
	words, _, err := tell(t, "mix", "--scraps", "kitchen-mixed=1000")
	if err != nil || !strings.Contains(words, "of cardboard, torn up, and") || !strings.Contains(words, "70 % water and C:N 20") {
		t.Errorf("for people: %q (%v)", words, err)
	}
}
