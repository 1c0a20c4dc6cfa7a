package colony

import (
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/record"
)

// What holds of any trial, and what warmth, moisture and room do to worms in one.

// How often rows are written changes nothing of what is there, and what was laid
// and eaten adds up to the same.
func TestHowOftenATrialIsReportedChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		trial := anyTrial(t)
		daily := *trial
		daily.Every = 1
		days := daily.Run()
		var laid, eaten float64
		from := 0
		for _, r := range trial.Run() {
			laid, eaten = 0, 0
			for _, d := range days[from:r.Day] {
				laid += d.Laid
				eaten += d.EatenG
			}
			from = r.Day
			want := days[r.Day-1]
			want.Laid, want.EatenG = r.Laid, r.EatenG
			if r != want {
				t.Fatalf("every %d days: %+v, daily %+v", trial.Every, r, want)
			}
			if off := max(laid-r.Laid, r.Laid-laid, eaten-r.EatenG, r.EatenG-eaten); off > 1e-9*(1+laid+eaten) {
				t.Fatalf("day %d: laid %v and eaten %v g since the last row, daily rows come to %v and %v", r.Day, r.Laid, r.EatenG, laid, eaten)
			}
		}
		if from != trial.Days {
			t.Fatalf("the last row is of day %d of %d", from, trial.Days)
		}
	})
}

// Two dishes side by side are one of twice the surface with twice the worms and
// food, as long as each worm has a mate.
func TestTwiceAsMuchOfEverythingGivesTwiceAsMuch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		trial := anyTrial(t)
		trial.Start.Adults += 50
		for i := range trial.Feed {
			trial.Feed[i].Grams += 20 // no crumbs, which count as gone
		}
		twice := *trial
		twice.AreaM2 *= 2
		twice.Start.Adults, twice.Start.Juveniles, twice.Start.Cocoons = 2*trial.Start.Adults, 2*trial.Start.Juveniles, 2*trial.Start.Cocoons
		twice.Feed, twice.Remove = append([]Dose(nil), trial.Feed...), append([]Take(nil), trial.Remove...)
		for i := range twice.Feed {
			twice.Feed[i].Grams *= 2
		}
		for i := range twice.Remove {
			twice.Remove[i].Grams *= 2
		}
		one, two := trial.Run(), twice.Run()
		for i := range one {
			if one[i].Adults < 1 {
				return // too few to find a mate: here the second dish counts
			}
			for what, v := range map[string][2]float64{
				"adults": {one[i].Adults, two[i].Adults}, "young": {one[i].Juveniles, two[i].Juveniles},
				"cocoons": {one[i].Cocoons, two[i].Cocoons}, "g live": {one[i].LiveG, two[i].LiveG}, "g left": {one[i].LeftG, two[i].LeftG},
			} {
				if off := v[1] - 2*v[0]; off > 0.02*v[1]+1 || off < -0.02*v[1]-1 {
					t.Fatalf("day %d: %s %.3f in one dish and %.3f in two", one[i].Day, what, v[0], v[1])
				}
			}
		}
	})
}

// afterDays is the last row of a dish that is kept well supplied for so many days.
func afterDays(s record.Species, days int, celsius, moist, areaM2 float64, start Stock, food string) Row {
	trial := aTrial(s, celsius, days, days, start, every(7, days, 20*(start.Adults+start.Juveniles)+1, fare(food)))
	trial.Moist, trial.AreaM2, trial.TakeCocoons = moist, areaM2, 0
	return trial.Run()[0]
}

// Edwards, Domínguez & Neuhauser 1998, Biol Fertil Soils 27:155-161: Perionyx grows
// fastest at 30 °C, lays best at 25, and its cocoons hatch the faster the warmer it
// is, 15 to 30 °C.
func TestPerionyxGrowsLaysAndHatchesByWarmthAsEdwardsSaw(t *testing.T) {
	var grown, laid, unhatched []float64
	for _, celsius := range []float64{15, 20, 25, 30} {
		grown = append(grown, afterDays(record.Perionyx, 15, celsius, 78, 0.1, Stock{Juveniles: 20, JuvenileMG: 10}, "cattle-manure").MeanMG)
		laid = append(laid, afterDays(record.Perionyx, 7, celsius, 78, 0.1, Stock{Adults: 20, AdultMG: 450}, "cattle-manure").Laid)
		unhatched = append(unhatched, afterDays(record.Perionyx, 20, celsius, 78, 0.1, Stock{Cocoons: 100}, "cattle-manure").Cocoons)
	}
	for i := range 3 {
		if grown[i] >= grown[i+1] || unhatched[i] <= unhatched[i+1] {
			t.Errorf("from 15 to 30 °C they grow to %.0f mg and leave %.0f cocoons; want more and fewer by the step", grown, unhatched)
		}
	}
	if laid[2] <= laid[1] || laid[2] <= laid[3] {
		t.Errorf("from 15 to 30 °C they lay %.0f in a week, want most at 25", laid)
	}
}

// Edwards & Arancon 2004, fig. 18.2: E. fetida's growth over 80 days is ordered
// 25 > 20 > 15 > 10 °C. Kaplan et al. 1980: best from 20 to 29 °C.
func TestEiseniaGrowsByWarmthAsEdwardsAndAranconDrew(t *testing.T) {
	mass := func(celsius float64) float64 {
		trial := aTrial(record.Eisenia, celsius, 80, 80, Stock{Juveniles: 1, JuvenileMG: 11}, every(7, 80, 30, fare("cattle-manure")))
		return trial.Run()[0].MeanMG
	}
	for c := 10.0; c < 25; c += 5 {
		if cool, warm := mass(c), mass(c+5); cool >= warm {
			t.Errorf("after 80 days at %.0f °C they weigh %.0f mg and at %.0f %.0f", c, cool, c+5, warm)
		}
	}
	if best, hot := mass(25), mass(31); hot >= best {
		t.Errorf("at 31 °C they weigh %.0f mg, at 25 %.0f", hot, best)
	}
}

// Reinecke & Venter 1987: laying is best at 65–70 % moisture; Kaplan et al. 1980:
// growth at 70–85.
func TestEiseniaLaysWellWhereItIsTooDryToGrowWell(t *testing.T) {
	laid := func(moist float64) float64 {
		return afterDays(record.Eisenia, 7, 25, moist, 0.1, Stock{Adults: 20, AdultMG: 500}, "cattle-manure").Laid
	}
	grown := func(moist float64) float64 {
		return afterDays(record.Eisenia, 28, 25, moist, 0.1, Stock{Juveniles: 20, JuvenileMG: 11}, "cattle-manure").MeanMG
	}
	if laid(66) < 0.95*laid(78) || grown(66) > 0.95*grown(78) {
		t.Errorf("at 66 %% they lay %.1f and grow to %.0f mg, at 78 %% %.1f and %.0f", laid(66), grown(66), laid(78), grown(78))
	}
	for _, moist := range []float64{52, 91} {
		if laid(moist) > 0.5*laid(78) || grown(moist) > 0.7*grown(78) {
			t.Errorf("at %.0f %% they lay %.1f and grow to %.0f mg, want far less than at 78", moist, laid(moist), grown(moist))
		}
	}
}

// Reeh 1992, Soil Biol Biochem 24:1327-1331: in a full dish worms lay less, stay
// smaller, die sooner when young, and eat less.
func TestAFullDishActsOnLayingGrowthSurvivalAndAppetite(t *testing.T) {
	const full, wide = 0.02, 1.0
	grown := Stock{Adults: 300, AdultMG: 500}
	crowded, roomy := afterDays(record.Eisenia, 7, 22, 78, full, grown, "cattle-manure"), afterDays(record.Eisenia, 7, 22, 78, wide, grown, "cattle-manure")
	if crowded.Laid > 0.6*roomy.Laid || crowded.EatenG > 0.8*roomy.EatenG {
		t.Errorf("in a full dish they lay %.0f and eat %.0f g, with room %.0f and %.0f", crowded.Laid, crowded.EatenG, roomy.Laid, roomy.EatenG)
	}
	young := Stock{Juveniles: 1000, JuvenileMG: 150}
	crowded, roomy = afterDays(record.Eisenia, 20, 22, 78, full, young, "cattle-manure"), afterDays(record.Eisenia, 20, 22, 78, wide, young, "cattle-manure")
	if crowded.MeanMG > 0.9*roomy.MeanMG || crowded.Adults+crowded.Juveniles > roomy.Adults+roomy.Juveniles-10 {
		t.Errorf("in a full dish %.0f of %.0f mg are left, with room %.0f of %.0f", crowded.Adults+crowded.Juveniles, crowded.MeanMG, roomy.Adults+roomy.Juveniles, roomy.MeanMG)
	}
}
