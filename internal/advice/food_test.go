package advice_test

import (
	"testing"

	"trayside/internal/advice"
	"trayside/internal/record"
)

func speaking(h *record.Household, language string) *advice.Advice {
	return advice.New(h, today, advice.Phone{Device: phoneA, Member: ana, Language: language})
}

func TestFoodAnswersInTheLanguageOfThePhone(t *testing.T) {
	for _, row := range []struct{ language, typed, id, name string }{
		{"en", "can they eat oranges?", "orange-peel", "Orange peel"},
		{"es", "¿pueden comer naranjas?", "orange-peel", "Cáscara de naranja"},
		{"", "orange", "orange-peel", "Orange peel"},
	} {
		v := speaking(household(), row.language).Food(advice.FoodAsk{Typed: row.typed})
		if len(v.Found) == 0 {
			t.Errorf("%q in %q finds nothing", row.typed, row.language)
			continue
		}
		f := v.Found[0]
		if f.Scrap.ID != row.id || f.Scrap.Name != row.name || f.Scrap.Verdict != "little" || f.Differ == "" || len(f.Guides) < 5 {
			t.Errorf("%q in %q: got %+v", row.typed, row.language, f)
		}
	}
}

func TestFoodBeforeAnythingIsTyped(t *testing.T) {
	a := speaking(household(), "en")
	often := a.Food(advice.FoodAsk{})
	if len(often.Found) == 0 || often.Found[0].Scrap.ID != "carrot" {
		t.Errorf("what the household uses most does not come first: %+v", often.Found)
	}
	for _, f := range a.Food(advice.FoodAsk{Group: "animal"}).Found {
		if f.Scrap.Group != "animal" {
			t.Errorf("%s is no animal thing", f.Scrap.ID)
		}
	}
	shown := 0
	for _, group := range often.Groups {
		shown += len(a.Food(advice.FoodAsk{Group: group}).Found)
	}
	if shown != 199 {
		t.Errorf("the groups show %d entries of 199", shown)
	}
	if v := a.Food(advice.FoodAsk{Typed: "xyz"}); len(v.Found) != 0 || len(v.Classes) == 0 {
		t.Errorf("nothing of that name: %d found, %d kinds to choose from", len(v.Found), len(v.Classes))
	}
}

func TestABowlIsNamedInTheLanguageOfThePhone(t *testing.T) {
	v := speaking(household(), "es").Today()
	if got := v.Bowls[0].Items[0].Name; got != "Piel y hojas de zanahoria" {
		t.Errorf("got %q", got)
	}
}

func TestFillingSaysWhatGoesWithABowlAndWhatTheRationsBecome(t *testing.T) {
	a := speaking(household(), "en")
	wet := []record.Item{{Scrap: "lettuce", Grams: 300}}
	v := a.Filling(advice.FillAsk{Items: wet})
	if v.Bedding <= 0 || v.BeddingName == "" || v.Halves != 0 {
		t.Errorf("300 g of lettuce ask for dry bedding, in grams as no handful was weighed: %+v", v)
	}
	var out int64
	for _, s := range v.Shares {
		out += s.Share.Grams
		if s.Share.To == "tray" && (s.Ration <= 0 || s.Left != max(0, s.Ration-s.Share.Grams)) {
			t.Errorf("the ration of %s: %+v", s.Share.Name, s)
		}
	}
	if out != 300 {
		t.Errorf("%d g of 300 are placed", out)
	}
	seen := household()
	seen.Looks = append(seen.Looks, record.Look{ID: "look/shed", Bin: shed, Tray: alone, Leftovers: record.LeftNone, Day: today, At: clock(today, "07:00")})
	at := speaking(seen, "en").Filling(advice.FillAsk{Items: wet, Tray: alone})
	if len(at.Shares) == 0 || at.Shares[0].Share.Tray != alone {
		t.Errorf("weighed for the shed, its tray does not come first: %+v", at.Shares)
	}
	if v := a.Filling(advice.FillAsk{Items: []record.Item{{Scrap: "lettuce"}}}); len(v.Shares) != 0 || v.Bedding != 0 {
		t.Errorf("what nobody weighed is given a place: %+v", v)
	}
}

func TestAHouseRuleCanOnlyBeStricter(t *testing.T) {
	h := household()
	h.Rules = []record.HouseRule{
		{ID: "rule/1", Scrap: "bread", Verdict: record.RuleNever, Note: "rats in the yard"},
		{ID: "rule/2", Scrap: "onion", Verdict: record.RuleLittle},    // the guides avoid it
		{ID: "rule/3", Scrap: "meat-raw", Verdict: record.RuleLittle}, // the guides never allow it
		{ID: "rule/4", Scrap: "orange-peel", Verdict: record.RuleAvoid},
		{ID: "rule/5", Scrap: "orange-peel", Verdict: record.RuleNever}, // two keepers: the stricter
		{ID: "rule/6", Scrap: "no-such-thing", Verdict: record.RuleNever},
	}
	a := speaking(h, "en")
	for _, row := range []struct{ typed, verdict, rule string }{
		{"bread", "never", "rule/1"},
		{"onion", "avoid", ""},
		{"meat", "never", ""},
		{"orange", "never", "rule/5"},
		{"carrot", "good", ""},
	} {
		s := a.Food(advice.FoodAsk{Typed: row.typed}).Found[0].Scrap
		rule := ""
		if s.House != nil {
			rule = s.House.Rule
		}
		if s.Verdict != row.verdict || rule != row.rule {
			t.Errorf("%s: %s by %q, want %s by %q", row.typed, s.Verdict, rule, row.verdict, row.rule)
		}
	}
	if rules := a.Food(advice.FoodAsk{}).Rules; len(rules) != 2 {
		t.Errorf("%d rules are shown, want the two that count", len(rules))
	}
	if s := a.Food(advice.FoodAsk{Typed: "bread"}).Found[0].Scrap; s.House.Guides != "little" || s.House.Note != "rats in the yard" {
		t.Errorf("what the guides say, and why the keeper differs, is lost: %+v", s.House)
	}
}

func TestABowlIsSplitByTheHouseRules(t *testing.T) {
	bowl := []record.Item{{Scrap: "carrot", Grams: 100}, {Scrap: "bread", Grams: 40}}
	out := func(shares []advice.After) (waste, all int64) {
		for _, s := range shares {
			all += s.Share.Grams
			if s.Share.To == "waste" {
				waste += s.Share.Grams
			}
		}
		return waste, all
	}
	for _, row := range []struct {
		name  string
		rules []record.HouseRule
		waste int64
	}{
		{"without a rule", nil, 0},
		{"bread is kept out", []record.HouseRule{{ID: "rule/1", Scrap: "bread", Verdict: record.RuleNever}}, 40},
		{"bread is better not fed", []record.HouseRule{{ID: "rule/1", Scrap: "bread", Verdict: record.RuleAvoid}}, 40},
	} {
		h := household()
		h.Rules = row.rules
		for _, tray := range []string{"", upper} {
			waste, all := out(speaking(h, "en").Filling(advice.FillAsk{Items: bowl, Tray: tray}).Shares)
			if waste != row.waste || all != 140 {
				t.Errorf("%s, at %q: %d g out of %d, want %d of 140", row.name, tray, waste, all, row.waste)
			}
		}
	}
}

func TestBeddingIsSaidInTheHouseholdsHandfuls(t *testing.T) {
	h := household()
	h.Measures = record.Measures{Handful: 20, HandfulOf: "newsprint"}
	v := speaking(h, "en").Filling(advice.FillAsk{Items: []record.Item{{Scrap: "lettuce", Grams: 300}}})
	if want := (2*v.Bedding + 10) / 20; v.Halves != want || v.Bedding == 0 || v.BeddingName != "Newspaper, shredded, black ink" {
		t.Errorf("%d g of %s in %d half handfuls of 20 g, want %d", v.Bedding, v.BeddingName, v.Halves, want)
	}
}
