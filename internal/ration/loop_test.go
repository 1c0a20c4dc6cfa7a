package ration_test

import (
	"testing"

	"trayside/internal/colony"
	"trayside/internal/feedstock"
	"trayside/internal/ration"
	"trayside/internal/record"
)

// year feeds a pound of worms on 2 ft² for a year what the ration says, every
// three days, and looks every six. The truth eats the model's own live mass and
// conditions times a factor, oldest meal first: a plain stand-in, so that it is
// the loop of ration, meal and look that is put to the test.
type year struct {
	eats       float64 // what the true worms eat relative to the model's first guess
	mostDays   float64 // most that ever lay there before a meal, in days of true appetite
	lastMonths float64 // g fed in the last half year
	rations    []ration.Result
}

func (y *year) run(t *testing.T) {
	const start, days, every = record.Day(20_000), 365, 3
	f := feedstock.FactorsOf(feedstock.Leafy, false, false)
	opened := start
	in := colony.Input{
		Bin: "b", Species: record.Eisenia, Coolest: 180, Warmest: 240,
		Trays: []colony.Tray{{ID: "top", AreaM2: 0.186, Bedded: start, Feeding: &opened}},
		Worms: []record.WormEvent{{ID: "w", Bin: "b", Tray: "top", Move: record.WormsAdded, Mass: 454, Day: start}},
	}
	var last ration.Last
	var kept *colony.Keep
	var lying, meal float64
	for d := start; d < start+days; d += every {
		in.Today = d
		if d > start && (d-start)%(2*every) == 0 {
			in.Looks = append(in.Looks, record.Look{ID: "look" + d.String(), Bin: "b", Tray: "top", Day: d, Leftovers: found(lying / max(meal, 1))})
		}
		course := colony.Resume(&in, kept, nil)
		kept = course.Kept()
		e := course.Estimate()
		r := checked(t, ration.Input{
			Today: d, Fed: ration.Tray{ID: "top", Stage: record.InUse}, FeedEvery: every,
			Goal: record.Grow, Estimate: e, Looks: in.Looks, Last: last,
		})
		y.rations = append(y.rations, r)
		last = ration.Last{Grams: r.Grams, Days: every}
		perDay := 0.5 * e.Warmth * e.Damp * e.Crowd * e.ByTray["top"].Mid * y.eats
		y.mostDays = max(y.mostDays, lying/perDay)
		if r.Grams > 0 {
			meal = float64(r.Grams) * f.Soft
			lying += meal
			in.Meals = append(in.Meals, colony.Meal{
				Feeding: d.String(), Tray: "top", Day: d, Err: 0.02,
				Parts: []colony.Part{{Grams: float64(r.Grams), Appeal: f.Appeal, Soft: f.Soft, Rot: f.Rot}},
			})
			if d >= start+days/2 {
				y.lastMonths += float64(r.Grams)
			}
		}
		lying = max(0, lying-every*perDay)
	}
}

func found(share float64) record.Leftovers {
	switch {
	case share > 0.7:
		return record.LeftMost
	case share > 0.35:
		return record.LeftHalf
	case share > 0.1:
		return record.LeftSome
	}
	return record.LeftNone
}

func TestAYearOfFeedingByTheRationNeitherPilesUpNorStarves(t *testing.T) {
	for _, c := range []struct {
		name         string
		eats         float64
		least, most  float64 // lb a week in the last half year
		sureAtTheEnd []string
	}{
		// 3.5 lb a week for 1 lb of settled worms, 1.75 to 5 counting as met: NYC
		// Compost Project, brochure (2012). This bin is 2 ft², to which the area rule
		// gives 2 lb a week (Nebraska Extension Lancaster County 2023).
		{"worms that eat what the model first believes", 1, 1.75, 5, []string{ration.Learned, ration.Trial}},
		{"worms that eat twice that", 2, 1.75, 5, []string{ration.Learned, ration.Trial}},
		{"worms that eat half that", 0.5, 1, 5, []string{ration.Learned, ration.Trial}},
		{"worms that eat a third of that", 0.33, 0.5, 5, []string{ration.Learned, ration.Trial}},
	} {
		t.Run(c.name, func(t *testing.T) {
			y := year{eats: c.eats}
			y.run(t)
			if y.mostDays > 4 {
				t.Errorf("%.1f days of food lay there before a meal, want at most 4", y.mostDays)
			}
			if perWeek := y.lastMonths / 453.6 / 26; perWeek < c.least || perWeek > c.most {
				t.Errorf("%.2f lb a week in the last half year, want %.2f to %.2f", perWeek, c.least, c.most)
			}
			first, end := y.rations[0], y.rations[len(y.rations)-1]
			if first.Sure != ration.Guess || (end.Sure != c.sureAtTheEnd[0] && end.Sure != c.sureAtTheEnd[1]) {
				t.Errorf("sure is %q on the first day and %q at the end", first.Sure, end.Sure)
			}
			for i := 1; i < len(y.rations); i++ {
				before, now := y.rations[i-1].Grams, y.rations[i].Grams
				if before >= 125 && now*5 > before*6+5*25 { // a fifth, or a step of rounding
					t.Errorf("meal %d leaps from %d g to %d g", i, before, now)
				}
			}
			t.Logf("most lying %.1f days, %.2f lb a week at the end, %s", y.mostDays, y.lastMonths/453.6/26, end.Sure)
		})
	}
}
