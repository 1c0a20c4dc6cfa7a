package trouble_test

import (
	"slices"
	"testing"

	"trayside/internal/record"
	"trayside/internal/trouble"
	"trayside/internal/units"
)

const today record.Day = 20_600

func food(scrapGrams ...any) []record.Item {
	var out []record.Item
	for i := 0; i < len(scrapGrams); i += 2 {
		out = append(out, record.Item{Scrap: scrapGrams[i].(string), Grams: units.Grams(scrapGrams[i+1].(int))})
	}
	return out
}

func days(n int) *int { return &n }

func degrees(deci units.DeciCelsius) *units.DeciCelsius { return &deci }

// lying says that food for so many tenths of a day lies in the tray.
func lying(l trouble.Log, tenths int) trouble.Log {
	l.Eats, l.Lying = 100, units.Grams(10*tenths)
	return l
}

func diagnose(t *testing.T, log trouble.Log, signs ...trouble.Sign) trouble.Result {
	t.Helper()
	in := trouble.Input{Today: today, Signs: signs, Log: log}
	r := trouble.Diagnose(in)
	if err := sound(in, r); err != nil {
		t.Error(err)
	}
	return r
}

// first returns the cause on top, or "" if none fits best.
func first(r trouble.Result) trouble.Cause {
	if len(r.Findings) == 0 || r.Findings[0].Fit != trouble.Best {
		return ""
	}
	return r.Findings[0].Cause
}

// row is one sign of the published trouble tables with the cause they name first,
// and a log that must turn the answer.
type row struct {
	sign  trouble.Sign
	cause trouble.Cause
	but   string // what the log says then
	log   trouble.Log
	then  trouble.Cause
}

// sure are the rows that the published tables agree on.
var sure = []row{
	// Oregon Metro; San Mateo County RecycleWorks; Illinois Extension.
	{trouble.SourSmell, trouble.MoreThanEaten, "water runs out and the food is eaten", lying(trouble.Log{Squeeze: "runs"}, 5), trouble.TooWet},
	{trouble.RotSmell, trouble.MoreThanEaten, "meat went in", lying(trouble.Log{Foods: food("carrot", 400, "meat-raw", 150)}, 20), trouble.AnimalFood},
	// San Mateo County RecycleWorks.
	{trouble.WormsLeaving, trouble.TooWet, "the bed crumbles", trouble.Log{Squeeze: "crumbles"}, trouble.TooDry},
	// San Mateo County RecycleWorks; Oregon Metro; Illinois Extension.
	{trouble.WormsDying, trouble.AcidBed, "the bed is at 34 °C, food for nine days lies there", lying(trouble.Log{Bed: degrees(340)}, 90), trouble.SelfHeating},
	// Oregon Metro; San Mateo; NYC Department of Sanitation; Illinois Extension.
	{trouble.FruitFlies, trouble.UncoveredFood, "no fruit went in, and vegetables pile up", lying(trouble.Log{Foods: food("carrot", 600, "kale", 300)}, 90), trouble.MoreThanEaten},
	// San Mateo (barriers); dryness from memory.
	{trouble.Ants, trouble.TooDry, "the bed is moist and most of the food is fruit", trouble.Log{Squeeze: "few-drops", Foods: food("banana-flesh", 600, "carrot", 200)}, trouble.UncoveredFood},
	// Purdue University, Turpin 1998: harmless.
	{trouble.Springtails, trouble.OrdinaryLife, "water runs out and food piles up", lying(trouble.Log{Squeeze: "runs"}, 90), trouble.TooWet},
	// San Mateo County RecycleWorks: food not eaten yet.
	{trouble.Mould, trouble.MoreThanEaten, "hardly any food lies there", lying(trouble.Log{}, 5), trouble.OrdinaryLife},
	// City of Euless; Illinois; Missouri Extension.
	{trouble.WetBed, trouble.TooWet, "a handful holds together without a drop, and food piles up", lying(trouble.Log{Squeeze: "holds"}, 90), trouble.MoreThanEaten},
	// Illinois; San Mateo.
	{trouble.DryBed, trouble.TooDry, "a few drops come, and the bed is at 31 °C in summer", lying(trouble.Log{Squeeze: "few-drops", Bed: degrees(310), Season: trouble.Summer}, 20), trouble.HotPlace},
	// Oregon Metro; Texas A&M AgriLife 2014.
	{trouble.HotBed, trouble.SelfHeating, "it is summer and hardly any food lies there", lying(trouble.Log{Bed: degrees(310), Season: trouble.Summer}, 5), trouble.HotPlace},
	{trouble.ColdBed, trouble.ColdPlace, "the bed is at 18 °C and water runs out", trouble.Log{Bed: degrees(180), Squeeze: "runs"}, trouble.TooWet},
	// Illinois; NYC Compost Project.
	{trouble.FoodUneaten, trouble.MoreThanEaten, "the bed is at 8 °C", lying(trouble.Log{Bed: degrees(80)}, 80), trouble.ColdPlace},
	// Reeh 1992; Reinecke & Viljoen 1990.
	{trouble.FewYoung, trouble.Crowded, "hardly anything was fed for two weeks", lying(trouble.Log{Supply: days(10), Density: 3000}, 0), trouble.Starved},
}

// likelyRows are those of medium or low confidence: the first cause leads too.
var likelyRows = []row{
	{trouble.AmmoniaSmell, trouble.MuchNitrogen, "meat went in, and no greens or manure", trouble.Log{Foods: food("carrot", 900, "cheese", 50)}, trouble.AnimalFood},
	{trouble.BeadedWorms, trouble.FermentingFood, "much citrus and no starch went in", trouble.Log{Foods: food("orange-peel", 500, "carrot", 500)}, trouble.AcidBed},
	{trouble.PaleMites, trouble.TooWet, "the bed holds without a drop and hardly any food lies there", lying(trouble.Log{Squeeze: "holds"}, 5), trouble.OrdinaryLife},
	{trouble.RedMites, trouble.ParasiticMites, "a drop comes and much of the food is citrus", trouble.Log{Squeeze: "one-drop", Foods: food("orange-peel", 500, "carrot", 500)}, trouble.AcidBed},
	{trouble.SoldierLarvae, trouble.UncoveredFood, "no fruit went in but cheese", trouble.Log{Foods: food("carrot", 800, "cheese", 100)}, trouble.AnimalFood},
	{trouble.Centipedes, trouble.SoilVisitors, "", trouble.Log{}, ""},
	{trouble.Potworms, trouble.AcidBed, "water runs out and the food is plain", trouble.Log{Squeeze: "runs", Foods: food("carrot", 800)}, trouble.TooWet},
	{trouble.WormsInSump, trouble.TooWet, "a drop comes and little food lies there", lying(trouble.Log{Squeeze: "one-drop"}, 20), trouble.OrdinaryLife},
	{trouble.Maggots, trouble.AnimalFood, "only vegetables went in, and food piles up", lying(trouble.Log{Foods: food("carrot", 800, "banana-flesh", 900)}, 90), trouble.UncoveredFood},
	{trouble.Rodents, trouble.OpenBin, "meat went in", trouble.Log{Foods: food("carrot", 800, "meat-raw", 100)}, trouble.AnimalFood},
	{trouble.DarkCrumbly, trouble.Finished, "bedded a month ago, and little was fed", lying(trouble.Log{Bedded: days(30), Supply: days(10)}, 0), trouble.Starved},
	{trouble.Packed, trouble.NoAir, "water runs out", trouble.Log{Squeeze: "runs", Bedded: days(60)}, trouble.TooWet},
	{trouble.MuchLiquid, trouble.TooWet, "a handful holds without a drop, and food piles up", lying(trouble.Log{Squeeze: "holds"}, 90), trouble.MoreThanEaten},
	{trouble.Thrashing, trouble.JumpingWorms, "these are Perionyx, which twitch too", trouble.Log{Species: record.Perionyx}, trouble.OrdinaryLife},
}

func TestEverySignHasTheCauseThatGuidesNameFirst(t *testing.T) {
	for _, c := range slices.Concat(sure, likelyRows) {
		t.Run(string(c.sign), func(t *testing.T) {
			if got := first(diagnose(t, trouble.Log{}, c.sign)); got != c.cause {
				t.Errorf("with a log that says nothing %q comes first, want %q", got, c.cause)
			}
		})
	}
}

func TestTheLogOverturnsWhatASignSuggests(t *testing.T) {
	for _, c := range slices.Concat(sure, likelyRows) {
		if c.but == "" {
			continue
		}
		t.Run(string(c.sign)+", but "+c.but, func(t *testing.T) {
			r := diagnose(t, c.log, c.sign)
			if got := first(r); got != c.then {
				t.Errorf("%q comes first, want %q\n%+v", got, c.then, r.Findings)
			}
			if i := slices.IndexFunc(r.Findings, func(f trouble.Finding) bool { return f.Cause == c.cause }); i == 0 {
				t.Errorf("%q still stands first", c.cause)
			}
		})
	}
}

func TestEverySignOfTheTablesHasARow(t *testing.T) {
	rows := slices.Concat(sure, likelyRows)
	for _, s := range trouble.Signs() {
		if n := len(slices.DeleteFunc(slices.Clone(rows), func(r row) bool { return r.sign != s })); n != 1 {
			t.Errorf("%s has %d rows, want one", s, n)
		}
	}
	if len(sure) < 13 || len(trouble.Signs()) < 20 || len(trouble.Causes()) < 16 {
		t.Errorf("%d sure rows, %d signs, %d causes", len(sure), len(trouble.Signs()), len(trouble.Causes()))
	}
}
