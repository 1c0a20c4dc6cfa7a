package trouble_test

import (
	"slices"
	"testing"

	"trayside/internal/record"
	"trayside/internal/trouble"
)

// causes lists what fits so well.
func causes(r trouble.Result, fit string) []trouble.Cause {
	var out []trouble.Cause
	for _, f := range r.Findings {
		if f.Fit == fit {
			out = append(out, f.Cause)
		}
	}
	return out
}

func TestTwoTroublesAreBothFound(t *testing.T) {
	for _, c := range []struct {
		name  string
		log   trouble.Log
		signs []trouble.Sign
		best  []trouble.Cause
		left  []trouble.Sign
	}{
		{"one cause that explains both signs", trouble.Log{}, []trouble.Sign{trouble.WetBed, trouble.SourSmell}, []trouble.Cause{trouble.TooWet}, nil},
		{"a wet bed, and ants that came from elsewhere", trouble.Log{Squeeze: "runs"}, []trouble.Sign{trouble.WetBed, trouble.Ants, trouble.FruitFlies},
			[]trouble.Cause{trouble.TooWet, trouble.UncoveredFood}, nil},
		{"ammonia and centipedes", trouble.Log{}, []trouble.Sign{trouble.AmmoniaSmell, trouble.Centipedes},
			[]trouble.Cause{trouble.MuchNitrogen, trouble.SoilVisitors}, nil},
		{"a bed that feels hot and reads 20 °C, with springtails", trouble.Log{Bed: degrees(200)}, []trouble.Sign{trouble.HotBed, trouble.Springtails},
			[]trouble.Cause{trouble.OrdinaryLife}, []trouble.Sign{trouble.HotBed}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := diagnose(t, c.log, c.signs...)
			if got := causes(r, trouble.Best); !slices.Equal(got, c.best) || !slices.Equal(r.Unexplained, append([]trouble.Sign{}, c.left...)) {
				t.Errorf("best %v, unexplained %v; want %v, %v", got, r.Unexplained, c.best, c.left)
			}
		})
	}
}

func TestASignThatIsMissingSpeaksAgainst(t *testing.T) {
	in := trouble.Input{Today: today, Signs: []trouble.Sign{trouble.SourSmell}}
	in.Absent = []trouble.Sign{trouble.FoodUneaten, trouble.Mould}
	r := trouble.Diagnose(in)
	if err := sound(in, r); err != nil {
		t.Fatal(err)
	}
	if first(r) != trouble.TooWet {
		t.Errorf("sour, but no food lies there and no mould: %v first", first(r))
	}
	in.Absent = append(in.Absent, trouble.WetBed, trouble.MuchLiquid)
	if r = trouble.Diagnose(in); first(r) != trouble.NoAir {
		t.Errorf("and the bed is not wet: %v first", first(r))
	}
	in.Signs = append(in.Signs, trouble.WetBed)
	if r = trouble.Diagnose(in); first(r) != trouble.TooWet {
		t.Errorf("a sign both seen and absent counts as seen; %v first", first(r))
	}
}

func TestReasonsNameWhatTheLogSays(t *testing.T) {
	log := lying(trouble.Log{Squeeze: "one-drop", Bed: degrees(215)}, 64)
	r := diagnose(t, log, trouble.SourSmell, trouble.ColdBed)
	if i := slices.IndexFunc(r.Findings, func(f trouble.Finding) bool { return f.Cause == trouble.MoreThanEaten }); i < 0 ||
		!slices.Contains(r.Findings[i].Reasons, trouble.Reason{Of: "log", Code: "backlog", Band: "behind", Value: 64, Unit: "0.1 d", Times: 2000}) ||
		!slices.Contains(r.Findings[i].Reasons, trouble.Reason{Of: "sign", Code: "sour-smell", Times: 4167}) {
		t.Errorf("6.4 days of food: %+v", r.Findings)
	}
	if i := slices.IndexFunc(r.Findings, func(f trouble.Finding) bool { return f.Cause == trouble.TooWet }); i < 0 ||
		!slices.Contains(r.Findings[i].Reasons, trouble.Reason{Of: "log", Code: "moisture", Band: "one-drop", Times: 314}) {
		t.Errorf("one drop: %+v", r.Findings)
	}
	if got := causes(diagnose(t, lying(trouble.Log{Squeeze: "crumbles"}, 90), trouble.SourSmell), trouble.Not); !slices.Contains(got, trouble.TooWet) {
		t.Errorf("a crumbling bed is not too wet; what doesn't fit is %v", got)
	}
}

func TestWhatToMeasureNext(t *testing.T) {
	for _, c := range []struct {
		name  string
		log   trouble.Log
		signs []trouble.Sign
		want  string
	}{
		{"too much food or too wet", trouble.Log{}, []trouble.Sign{trouble.SourSmell}, "squeeze"},
		{"the same, squeezed already", trouble.Log{Squeeze: "few-drops"}, []trouble.Sign{trouble.SourSmell}, ""},
		{"a fermenting heap or a hot room", trouble.Log{}, []trouble.Sign{trouble.HotBed}, "leftovers"},
		{"too cold or too wet", trouble.Log{Squeeze: "few-drops"}, []trouble.Sign{trouble.ColdBed}, "bed-temperature"},
		{"many causes of death, heat among them", trouble.Log{}, []trouble.Sign{trouble.WormsDying}, "bed-temperature"},
		{"only one cause", trouble.Log{}, []trouble.Sign{trouble.BeadedWorms, trouble.BeadedWorms}, ""},
	} {
		if got := diagnose(t, c.log, c.signs...).Check; got != c.want {
			t.Errorf("%s: check %q, want %q", c.name, got, c.want)
		}
	}
}

func TestTheSameBinAWeekLater(t *testing.T) {
	// Diagnosis has no memory: the same words on another day differ in the day alone.
	in := trouble.Input{Today: today, Signs: []trouble.Sign{trouble.FruitFlies}}
	now := trouble.Diagnose(in)
	in.Today += 7
	then := trouble.Diagnose(in)
	if then.Look != now.Look+7 || first(then) != first(now) {
		t.Errorf("got %v on day %d, want %v on day %d", first(then), then.Look, first(now), now.Look+7)
	}
	if in.Today != today+record.Day(7) {
		t.Errorf("the input was changed: %+v", in)
	}
}

func TestFoodThatIsSeenGoesBeforeFoodThatIsReckoned(t *testing.T) {
	// Meals that nobody logged: the model believes that all is eaten.
	eaten := lying(trouble.Log{}, 2)
	r := diagnose(t, eaten, trouble.FoodUneaten)
	if first(r) != trouble.MoreThanEaten || slices.ContainsFunc(r.Findings[0].Reasons, func(r trouble.Reason) bool { return r.Code == "backlog" }) {
		t.Errorf("food lies there, whatever the log says: %+v", r.Findings)
	}
	if r := diagnose(t, lying(trouble.Log{}, 90), trouble.FoodUneaten); !slices.ContainsFunc(r.Findings[0].Reasons, func(r trouble.Reason) bool { return r.Code == "backlog" }) {
		t.Errorf("food lies there, and the log knows it: %+v", r.Findings)
	}
}
