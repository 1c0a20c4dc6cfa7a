package trouble_test

import (
	"fmt"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/record"
	"trayside/internal/trouble"
	"trayside/internal/units"
)

// sound says what is wrong with a result, whatever the input was.
func sound(in trouble.Input, r trouble.Result) error {
	seen := slices.DeleteFunc(slices.Clone(in.Signs), func(s trouble.Sign) bool { return !slices.Contains(trouble.Signs(), s) })
	if r.Findings == nil || r.Unexplained == nil || r.Tonight == nil || r.Stop == nil || r.Cautions == nil {
		return fmt.Errorf("a list is nil: %+v", r)
	}
	if len(seen) == 0 {
		empty := trouble.Result{
			Findings: []trouble.Finding{}, Unexplained: []trouble.Sign{}, Tonight: []trouble.Step{},
			Stop: []string{}, Cautions: []string{}, Feeding: usualMeal,
		}
		if !reflect.DeepEqual(r, empty) {
			return fmt.Errorf("something is diagnosed from nothing: %+v", r)
		}
		return nil
	}
	if r.Look <= in.Today || r.Look > in.Today+7 || r.Urgent && r.Look != in.Today+1 {
		return fmt.Errorf("look again in %d days, urgent %v", r.Look-in.Today, r.Urgent)
	}
	for _, c := range []string{trouble.WashHands, trouble.LocalRules, trouble.NoLaboratory} {
		if !slices.Contains(r.Cautions, c) {
			return fmt.Errorf("caution %s is missing", c)
		}
	}
	if err := soundFindings(seen, r); err != nil {
		return err
	}
	return soundSteps(r)
}

func soundFindings(seen []trouble.Sign, r trouble.Result) error {
	rank := []string{trouble.Best, trouble.Could, trouble.Not}
	var explained []trouble.Sign
	for i, f := range r.Findings {
		if f.Likely < 0 || f.Likely > 970 || !slices.Contains(rank, f.Fit) || f.Fit == trouble.Best && f.Likely < 200 {
			return fmt.Errorf("%s %s at %d", f.Cause, f.Fit, f.Likely)
		}
		pointed, against := false, false
		for j, reason := range f.Reasons {
			if reason.Times <= 0 || reason.Times > 800 && reason.Times < 1250 {
				return fmt.Errorf("%s: %+v is no reason", f.Cause, reason)
			}
			if j > 0 && weight(reason) > weight(f.Reasons[j-1])+1e-9 {
				return fmt.Errorf("%s: reason %d weighs more than the one before", f.Cause, j+1)
			}
			if reason.Of == "sign" {
				pointed = true
				if !slices.Contains(seen, trouble.Sign(reason.Code)) || reason.Times < 1250 {
					return fmt.Errorf("%s: %+v, but the signs are %v", f.Cause, reason, seen)
				}
				if f.Fit == trouble.Best {
					explained = append(explained, trouble.Sign(reason.Code))
				}
			}
			against = against || reason.Times <= 800
		}
		if !pointed {
			return fmt.Errorf("%s is named without a sign", f.Cause)
		}
		if f.Fit == trouble.Not && !against {
			return fmt.Errorf("%s does not fit, and nothing speaks against it", f.Cause)
		}
		if i > 0 {
			before := r.Findings[i-1]
			a, b := slices.Index(rank, before.Fit), slices.Index(rank, f.Fit)
			if a > b || a == b && before.Likely < f.Likely {
				return fmt.Errorf("%s stands after %s", f.Cause, before.Cause)
			}
		}
	}
	for _, s := range seen {
		if slices.Contains(explained, s) == slices.Contains(r.Unexplained, s) {
			return fmt.Errorf("%s must be either explained or not: %v, %v", s, explained, r.Unexplained)
		}
	}
	return nil
}

// usualMeal is feeding that nothing changes.
var usualMeal = trouble.Feeding{Milli: 1000, OfRation: 1000}

func weight(r trouble.Reason) float64 {
	return max(float64(r.Times)/1000, 1000/float64(r.Times))
}

func soundSteps(r trouble.Result) error {
	var codes []string
	for _, s := range r.Tonight {
		if slices.Contains(codes, s.Code) || s.Amount < 0 || (s.Unit == "") != (s.Amount == 0) {
			return fmt.Errorf("step %+v among %v", s, codes)
		}
		codes = append(codes, s.Code)
	}
	for _, pair := range [][2]string{
		{trouble.Mist, trouble.AddDryBedding}, {trouble.Uncover, trouble.CoverSheet},
		{trouble.ToShade, trouble.ToWarmth}, {trouble.LidAjar, trouble.CloseLid},
	} {
		if slices.Contains(codes, pair[0]) && slices.Contains(codes, pair[1]) {
			return fmt.Errorf("%s and %s undo each other", pair[0], pair[1])
		}
	}
	if slices.Contains(codes, trouble.Nothing) && len(codes) > 1 {
		return fmt.Errorf("nothing to do, and yet %v", codes)
	}
	if slices.Contains(codes, trouble.Lime) && !slices.Contains(r.Cautions, trouble.OnlyCarbonate) {
		return fmt.Errorf("lime without its caution")
	}
	f := r.Feeding
	switch f.Kind {
	case "hold":
		if f.Milli != 0 || f.OfRation != 0 || !slices.Contains([]string{"hot-bed", "ammonia", "sour", "rot"}, f.Cause) {
			return fmt.Errorf("hold %+v", f)
		}
	case "reduce":
		if f.Milli <= 0 || f.Milli >= 1000 || f.OfRation < f.Milli || f.OfRation > 1000 || !slices.Contains(trouble.Causes(), trouble.Cause(f.Cause)) {
			return fmt.Errorf("reduce %+v", f)
		}
	default:
		if f != (usualMeal) {
			return fmt.Errorf("feeding %+v", f)
		}
	}
	if slices.Contains(r.Stop, trouble.StopFeeding) != (f.Kind == "hold") {
		return fmt.Errorf("stop %v with feeding %+v", r.Stop, f)
	}
	return nil
}

// anyInput draws signs and a log, among them what only a broken record could hold.
func anyInput(t *rapid.T) trouble.Input {
	sign := rapid.SampledFrom(append(trouble.Signs(), "", "two-headed-worm"))
	number := rapid.SampledFrom([]int{-3, 0, 1, 5, 9, 30, 45, 100, 130, 200, 1 << 40})
	some := func(name string) *int {
		if rapid.Bool().Draw(t, name+" unknown") {
			return nil
		}
		n := number.Draw(t, name)
		return &n
	}
	mass := rapid.SampledFrom([]units.Grams{-1 << 62, -5, 0, 1, 40, 300, 1800, 1 << 62})
	in := trouble.Input{
		Today:  today,
		Signs:  rapid.SliceOfN(sign, 0, 6).Draw(t, "signs"),
		Absent: rapid.SliceOfN(sign, 0, 4).Draw(t, "absent"),
		Log: trouble.Log{
			Species: rapid.SampledFrom([]record.Species{record.Eisenia, record.Perionyx, record.NotSure, ""}).Draw(t, "species"),
			Squeeze: rapid.SampledFrom([]string{"", "crumbles", "holds", "one-drop", "few-drops", "runs", "howls"}).Draw(t, "squeeze"),
			Lying:   mass.Draw(t, "lying"), Eats: mass.Draw(t, "eats"),
			Season: rapid.SampledFrom([]trouble.Season{"", trouble.Winter, trouble.Between, trouble.Summer, "monsoon"}).Draw(t, "season"),
			Age:    some("age"), Bedded: some("bedded"), Supply: some("supply"),
			Density: rapid.SampledFrom([]int64{-1, 0, 400, 3000, 6000, 9000, 1 << 62}).Draw(t, "density"),
			AreaCM2: rapid.SampledFrom([]int64{-1, 0, 1, 1200, 1 << 62}).Draw(t, "area"),
		},
	}
	if rapid.Bool().Draw(t, "bed read") {
		in.Log.Bed = degrees(rapid.SampledFrom([]units.DeciCelsius{-1 << 62, 20, 80, 180, 290, 300, 350, 1 << 62}).Draw(t, "bed"))
	}
	for range rapid.IntRange(0, 4).Draw(t, "foods") {
		in.Log.Foods = append(in.Log.Foods, record.Item{
			Scrap: rapid.SampledFrom([]string{"kale", "orange-peel", "bread", "meat-raw", "onion", "pickle", "eggshell", "cardboard", "other", "unheard-of"}).Draw(t, "scrap"),
			Class: rapid.SampledFrom([]string{"", "rich", "manure", "nonsense"}).Draw(t, "class"), Grams: mass.Draw(t, "g"),
		})
	}
	return in
}

func TestWhateverIsSaidTheAnswerIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t)
		if err := sound(in, trouble.Diagnose(in)); err != nil {
			t.Fatal(err)
		}
	})
}

func TestOrderAndRepeatsDoNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t)
		want := trouble.Diagnose(in)
		other := in
		other.Signs = rapid.Permutation(append(slices.Clone(in.Signs), in.Signs...)).Draw(t, "signs again")
		other.Absent = rapid.Permutation(in.Absent).Draw(t, "absent again")
		other.Log.Foods = rapid.Permutation(in.Log.Foods).Draw(t, "foods again")
		if got := trouble.Diagnose(other); !reflect.DeepEqual(got, want) {
			t.Fatalf("got %+v, want %+v", got, want)
		}
	})
}

func TestNothingIsDiagnosedFromNothing(t *testing.T) {
	log := lying(trouble.Log{Squeeze: "runs", Bed: degrees(350), Foods: food("meat-raw", 900)}, 200)
	for _, in := range []trouble.Input{
		{},
		{Today: today, Log: log},
		{Today: today, Log: log, Absent: trouble.Signs()},
		{Today: today, Log: log, Signs: []trouble.Sign{"two-headed-worm", ""}},
	} {
		if err := sound(in, trouble.Diagnose(in)); err != nil {
			t.Error(err)
		}
	}
}

func TestASignNeverMakesItsCausesLessLikely(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t)
		in.Absent = nil
		before := trouble.Diagnose(in)
		sign := rapid.SampledFrom(trouble.Signs()).Draw(t, "one more")
		in.Signs = append(slices.Clone(in.Signs), sign)
		after := trouble.Diagnose(in)
		for _, f := range before.Findings {
			i := slices.IndexFunc(after.Findings, func(g trouble.Finding) bool { return g.Cause == f.Cause })
			if i < 0 {
				continue // others have left it far behind
			}
			g := after.Findings[i]
			points := slices.ContainsFunc(g.Reasons, func(r trouble.Reason) bool { return r.Of == "sign" && r.Code == string(sign) })
			// Food that is seen to lie there takes back what the model said of it.
			apart := !points && sign != trouble.FoodUneaten
			if points && g.Likely < f.Likely || apart && g.Likely != f.Likely {
				t.Fatalf("%s goes from %d to %d by %s, which points to it: %v", f.Cause, f.Likely, g.Likely, sign, points)
			}
		}
	})
}
