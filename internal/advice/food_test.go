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
	at := a.Filling(advice.FillAsk{Items: wet, Tray: alone})
	if len(at.Shares) == 0 || at.Shares[0].Share.Tray != alone {
		t.Errorf("weighed for the shed, its tray does not come first: %+v", at.Shares)
	}
	if v := a.Filling(advice.FillAsk{Items: []record.Item{{Scrap: "lettuce"}}}); len(v.Shares) != 0 || v.Bedding != 0 {
		t.Errorf("what nobody weighed is given a place: %+v", v)
	}
}
