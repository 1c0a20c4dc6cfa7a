package trouble_test

import (
	"slices"
	"testing"

	"trayside/internal/record"
	"trayside/internal/trouble"
)

func TestOnlyFourThingsHold(t *testing.T) {
	hot := trouble.Log{Bed: degrees(300)}
	for _, c := range []struct {
		name  string
		log   trouble.Log
		signs []trouble.Sign
		want  trouble.Feeding
	}{
		{"ammonia", trouble.Log{}, []trouble.Sign{trouble.AmmoniaSmell}, trouble.Feeding{Kind: "hold", Cause: "ammonia"}},
		{"a sour smell, whatever causes it", lying(trouble.Log{}, 0), []trouble.Sign{trouble.SourSmell}, trouble.Feeding{Kind: "hold", Cause: "sour"}},
		{"rot", trouble.Log{}, []trouble.Sign{trouble.RotSmell}, trouble.Feeding{Kind: "hold", Cause: "rot"}},
		{"a bed that feels hot and was not read", trouble.Log{}, []trouble.Sign{trouble.HotBed}, trouble.Feeding{Kind: "hold", Cause: "hot-bed"}},
		{"a bed at 30 °C, whatever the sign", hot, []trouble.Sign{trouble.Ants}, trouble.Feeding{Kind: "hold", Cause: "hot-bed"}},
		{"heat before smells", hot, []trouble.Sign{trouble.SourSmell, trouble.AmmoniaSmell}, trouble.Feeding{Kind: "hold", Cause: "hot-bed"}},
		{"ammonia before sour", trouble.Log{}, []trouble.Sign{trouble.SourSmell, trouble.AmmoniaSmell}, trouble.Feeding{Kind: "hold", Cause: "ammonia"}},
		{"a bed that feels hot and reads 29.9 °C", trouble.Log{Bed: degrees(299)}, []trouble.Sign{trouble.HotBed}, trouble.Feeding{Kind: "reduce", Milli: 500, Cause: "self-heating", OfRation: 1000}},
		{"a bed that feels hot and reads 22 °C", trouble.Log{Bed: degrees(220)}, []trouble.Sign{trouble.HotBed}, usualMeal},
		{"water that runs out", trouble.Log{Squeeze: "runs"}, []trouble.Sign{trouble.WetBed}, trouble.Feeding{Kind: "reduce", Milli: 500, Cause: "too-wet", OfRation: 500}},
		{"food that lies there, which the ration knows", trouble.Log{}, []trouble.Sign{trouble.FoodUneaten}, trouble.Feeding{Kind: "reduce", Milli: 500, Cause: "more-than-eaten", OfRation: 1000}},
		{"swollen worms", trouble.Log{}, []trouble.Sign{trouble.BeadedWorms}, trouble.Feeding{Kind: "reduce", Milli: 250, Cause: "fermenting-food", OfRation: 250}},
		{"a cold bed that is too wet besides, which the ration doesn't know", trouble.Log{Bed: degrees(80), Squeeze: "runs"}, []trouble.Sign{trouble.FewYoung, trouble.WetBed}, trouble.Feeding{Kind: "reduce", Milli: 250, Cause: "cold-place", OfRation: 500}},
		{"springtails", trouble.Log{}, []trouble.Sign{trouble.Springtails}, usualMeal},
		{"rodents", trouble.Log{}, []trouble.Sign{trouble.Rodents}, usualMeal},
	} {
		if got := diagnose(t, c.log, c.signs...).Feeding; got != c.want {
			t.Errorf("%s: got %+v, want %+v", c.name, got, c.want)
		}
	}
}

func TestStepsCarryQuantities(t *testing.T) {
	tray := func(l trouble.Log) trouble.Log { l.AreaCM2 = 1200; return l }
	for _, c := range []struct {
		name string
		log  trouble.Log
		sign trouble.Sign
		want trouble.Step
	}{
		// 20 mm of shredded card of 60 g/L on 1200 cm²: 2.4 L, 144 g.
		{"a layer of dry bedding", tray(trouble.Log{}), trouble.WetBed, trouble.Step{Code: trouble.AddDryBedding, Amount: 150, Unit: "g"}},
		{"handfuls where nobody measured the tray", trouble.Log{}, trouble.WetBed, trouble.Step{Code: trouble.AddDryBedding, Amount: 2, Unit: "handfuls"}},
		{"2 mm of water", tray(trouble.Log{}), trouble.DryBed, trouble.Step{Code: trouble.Mist, Amount: 250, Unit: "ml"}},
		{"a teaspoon of carbonate on a small tray", tray(trouble.Log{}), trouble.Potworms, trouble.Step{Code: trouble.Lime, Amount: 5, Unit: "g"}},
		{"more on a large one", trouble.Log{AreaCM2: 6000}, trouble.Potworms, trouble.Step{Code: trouble.Lime, Amount: 30, Unit: "g"}},
		{"a teaspoon where nobody measured the tray", trouble.Log{}, trouble.Potworms, trouble.Step{Code: trouble.Lime, Amount: 1, Unit: "teaspoons"}},
		{"what lies there beyond two days", trouble.Log{Lying: 800, Eats: 100}, trouble.FoodUneaten, trouble.Step{Code: trouble.LiftOutFood, Amount: 600, Unit: "g"}},
		{"what rots where nobody knows", trouble.Log{}, trouble.FoodUneaten, trouble.Step{Code: trouble.LiftOutFood}},
		{"ten seconds in the microwave", trouble.Log{}, trouble.FruitFlies, trouble.Step{Code: trouble.KillEggs, Amount: 10, Unit: "s"}},
		{"mesh of 6 mm", trouble.Log{}, trouble.Rodents, trouble.Step{Code: trouble.Screen, Amount: 6, Unit: "mm"}},
		{"below 28 °C", trouble.Log{}, trouble.HotBed, trouble.Step{Code: trouble.ToShade, Amount: 280, Unit: "0.1 °C"}},
	} {
		if r := diagnose(t, c.log, c.sign); !slices.Contains(r.Tonight, c.want) {
			t.Errorf("%s: %+v is not among %+v", c.name, c.want, r.Tonight)
		}
	}
}

func TestNoWaterIntoAWetBedAndNoDryBeddingIntoADryOne(t *testing.T) {
	has := func(r trouble.Result, code string) bool {
		return slices.ContainsFunc(r.Tonight, func(s trouble.Step) bool { return s.Code == code })
	}
	summer := lying(trouble.Log{Season: trouble.Summer}, 5)
	if r := diagnose(t, summer, trouble.HotBed); first(r) != trouble.HotPlace || !has(r, trouble.Mist) {
		t.Errorf("a hot place without a squeeze: %+v", r.Tonight)
	}
	summer.Squeeze = "few-drops"
	if r := diagnose(t, summer, trouble.HotBed); first(r) != trouble.HotPlace || has(r, trouble.Mist) {
		t.Errorf("a hot place where drops come: %+v", r.Tonight)
	}
	piled := lying(trouble.Log{Squeeze: "crumbles"}, 90)
	if r := diagnose(t, piled, trouble.FoodUneaten); first(r) != trouble.MoreThanEaten || has(r, trouble.AddDryBedding) {
		t.Errorf("food piles up where the bed crumbles: %+v", r.Tonight)
	}
}

func TestCautionsStandWhereSomebodyCanBeHurt(t *testing.T) {
	for _, c := range []struct {
		sign trouble.Sign
		want []string
	}{
		{trouble.Mould, []string{trouble.MouldAsthma}},
		{trouble.DryBed, []string{trouble.MouldAsthma}},
		{trouble.PaleMites, []string{trouble.MouldAsthma, trouble.NoPoison}},
		{trouble.WormsLeaving, []string{trouble.NoRelease}},
		{trouble.FewYoung, []string{trouble.NoRelease}},
		{trouble.DarkCrumbly, []string{trouble.NoRelease, trouble.Pathogens}},
		{trouble.Maggots, []string{trouble.Pathogens}},
		{trouble.Rodents, []string{trouble.DroppingsIll, trouble.NoPoison}},
		{trouble.Ants, []string{trouble.NoPoison}},
		{trouble.AmmoniaSmell, []string{trouble.AmmoniaFumes}},
		{trouble.MuchLiquid, []string{trouble.LiquidOutdoors}},
		{trouble.WormsDying, []string{trouble.OnlyCarbonate}},
		{trouble.Thrashing, []string{trouble.JumpingLaw, trouble.JumpingLooks, trouble.NoRelease}},
	} {
		r := diagnose(t, trouble.Log{}, c.sign)
		for _, w := range c.want {
			if !slices.Contains(r.Cautions, w) {
				t.Errorf("%s: caution %s is not among %v", c.sign, w, r.Cautions)
			}
		}
	}
	if r := diagnose(t, trouble.Log{}, trouble.Springtails); len(r.Cautions) != 3 {
		t.Errorf("springtails frighten with %v", r.Cautions)
	}
}

func TestHasteAndTheDayToLookAgain(t *testing.T) {
	for _, c := range []struct {
		name   string
		log    trouble.Log
		sign   trouble.Sign
		urgent bool
		in     record.Day
	}{
		{"dying worms", trouble.Log{}, trouble.WormsDying, true, 1},
		{"ammonia", trouble.Log{}, trouble.AmmoniaSmell, true, 1},
		{"a hot bed", trouble.Log{}, trouble.HotBed, true, 1},
		{"a bed that freezes", trouble.Log{Bed: degrees(20)}, trouble.ColdBed, true, 1},
		{"a cold bed", trouble.Log{Bed: degrees(80)}, trouble.ColdBed, false, 7},
		{"a sour smell", trouble.Log{}, trouble.SourSmell, false, 3},
		{"springtails", trouble.Log{}, trouble.Springtails, false, 7},
	} {
		if r := diagnose(t, c.log, c.sign); r.Urgent != c.urgent || r.Look != today+c.in {
			t.Errorf("%s: urgent %v, look in %d days; want %v, %d", c.name, r.Urgent, r.Look-today, c.urgent, c.in)
		}
	}
}
