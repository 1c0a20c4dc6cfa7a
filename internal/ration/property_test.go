package ration_test

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/colony"
	"trayside/internal/ration"
	"trayside/internal/record"
	"trayside/internal/units"
)

// pinch is the step of what a few hungry worms get, g.
const pinch = 5

// sound says what is wrong with a result, whatever the input was.
func sound(in ration.Input, r ration.Result) error {
	sum, err := ration.Check(r.Reasons)
	switch {
	case err != nil:
		return err
	case sum != int64(r.Grams)*1000:
		return fmt.Errorf("the ledger makes %d thousandths, the ration is %d g", sum, r.Grams)
	case r.Grams < 0:
		return fmt.Errorf("a ration of %d g", r.Grams)
	case r.Likely.Low < 0 || r.Likely.Low > r.Likely.Mid || r.Likely.Mid > r.Likely.High || r.Likely.Low > r.Grams || r.Likely.High < r.Grams:
		return fmt.Errorf("a likely range of %+v around %d g", r.Likely, r.Grams)
	case r.Hold != nil && (r.Grams != 0 || r.Hold.Cause == "" || r.Hold.Until == "" || r.Hold.End <= in.Today):
		return fmt.Errorf("%d g under a hold %+v on %s", r.Grams, *r.Hold, in.Today)
	case !slices.Contains([]string{ration.All, ration.Part, ration.Elsewhere, ration.Freeze, ration.Cover, ration.Waste}, r.Answer):
		return fmt.Errorf("answer %q", r.Answer)
	case !slices.Contains([]string{ration.Guess, ration.Learned, ration.Trial}, r.Sure):
		return fmt.Errorf("sure %q", r.Sure)
	case !slices.Contains([]string{ration.ByWorms, ration.BySurface, ration.ByWarmth, ration.ByKitchen, ration.ByLeftovers, ration.BySettling, ration.ByResting, ration.ByDays, ration.ByTrouble, ration.ByMoisture}, r.Binds):
		return fmt.Errorf("binds %q", r.Binds)
	case r.Move == "":
		return fmt.Errorf("no move")
	}
	rule := slices.IndexFunc(r.Reasons, func(row ration.Reason) bool { return row.Code == ration.RuleOfThumb })
	if rule < 0 || r.Reasons[rule].From != r.Rule.Low || r.Reasons[rule].To != r.Rule.High {
		return fmt.Errorf("the rule of thumb, %+v, does not stand in the reasons", r.Rule)
	}
	var shared, hand units.Grams
	for _, s := range r.Shares {
		if s.Grams <= 0 {
			return fmt.Errorf("an empty share %+v", s)
		}
		shared += s.Grams
	}
	for _, it := range in.InHand {
		hand += max(it.Grams, 0)
	}
	if shared != hand {
		return fmt.Errorf("shares of %d g for %d g in hand: %+v", shared, hand, r.Shares)
	}
	return nil
}

// weird draws a quantity that a broken log or model could hand over.
func weird(most float64) *rapid.Generator[float64] {
	return rapid.OneOf(
		rapid.Float64Range(0, most),
		rapid.SampledFrom([]float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1), 1e12, 1e300}),
	)
}

func spanOf(most float64) *rapid.Generator[colony.Span] {
	return rapid.Custom(func(t *rapid.T) colony.Span {
		if rapid.IntRange(0, 9).Draw(t, "broken") == 0 {
			return colony.Span{Mid: weird(most).Draw(t, "mid"), Low: weird(most).Draw(t, "low"), High: weird(most).Draw(t, "high")}
		}
		three := []float64{rapid.Float64Range(0, most).Draw(t, "a"), rapid.Float64Range(0, most).Draw(t, "b"), rapid.Float64Range(0, most).Draw(t, "c")}
		slices.Sort(three)
		return colony.Span{Low: three[0], Mid: three[1], High: three[2]}
	})
}

func inputs() *rapid.Generator[ration.Input] {
	return rapid.Custom(func(t *rapid.T) ration.Input {
		tray := rapid.SampledFrom([]string{"top", "old"})
		in := ration.Input{
			Today:     today,
			FeedEvery: rapid.IntRange(-1, 16).Draw(t, "every"),
			Goal:      rapid.SampledFrom([]record.Goal{record.Grow, record.Hold, record.SlowDown, ""}).Draw(t, "goal"),
			Open:      rapid.Bool().Draw(t, "open"),
			FedToday:  units.Grams(rapid.Int64Range(-10, 3000).Draw(t, "fed")),
			NoFreezer: rapid.Bool().Draw(t, "no freezer"),
			HotWeek:   rapid.Bool().Draw(t, "hot week"),
			Placing:   rapid.SampledFrom([]record.Placing{record.Pocket, record.Layer, ""}).Draw(t, "placing"),
			AreaM2:    weird(0.5).Draw(t, "area"),
			Trouble: ration.Trouble{
				Milli: rapid.Int64Range(-200, 1500).Draw(t, "trouble"), Hold: rapid.SampledFrom([]string{"", "", "sour", "hot-bed"}).Draw(t, "trouble holds"),
				Look: today + record.Day(rapid.IntRange(-3, 5).Draw(t, "look again")), End: today + record.Day(rapid.IntRange(-3, 9).Draw(t, "trouble ends")),
				Entry: rapid.SampledFrom([]string{"", "0", "1", "lost"}).Draw(t, "trouble from"),
			},
			Fed: ration.Tray{
				ID: "top", Below: rapid.SampledFrom([]string{"", "old"}).Draw(t, "below"),
				Stage: rapid.SampledFrom([]record.Stage{record.Bedded, record.InUse, record.Resting, record.Ready, record.Emptied, ""}).Draw(t, "stage"),
			},
			Last: ration.Last{
				Grams: units.Grams(rapid.Int64Range(0, 3000).Draw(t, "last")), Days: rapid.IntRange(0, 14).Draw(t, "last days"),
				Cause: rapid.SampledFrom([]string{"", "warmer"}).Draw(t, "cause"),
				Fed:   units.Grams(rapid.Int64Range(-5, 3000).Draw(t, "fed last")), Day: today - record.Day(rapid.IntRange(-1, 9).Draw(t, "last day")),
			},
			Estimate: colony.Estimate{
				ByTray:     map[string]colony.Span{"top": spanOf(6000).Draw(t, "top"), "old": spanOf(6000).Draw(t, "old")},
				Appetite:   spanOf(1.5).Draw(t, "appetite"),
				Damp:       rapid.Float64Range(0, 1).Draw(t, "damp"),
				Warmth:     rapid.Float64Range(0, 1).Draw(t, "warmth"),
				Surface:    map[string]float64{"top": weird(500).Draw(t, "surface")},
				Bed:        units.DeciCelsius(rapid.Int64Range(-50, 350).Draw(t, "bed")),
				Started:    today - record.Day(rapid.IntRange(-3, 200).Draw(t, "age")),
				CleanLooks: rapid.IntRange(0, 4).Draw(t, "clean"),
				Learned:    rapid.IntRange(0, 4).Draw(t, "learned"),
			},
		}
		if rapid.Bool().Draw(t, "an ensemble") {
			in.Estimate.Eats = map[string]colony.Span{"top": spanOf(2000).Draw(t, "eats")}
			in.Estimate.Takes = map[string]colony.Span{"top": spanOf(2000).Draw(t, "takes")}
			in.Estimate.Lying = map[string]float64{"top": weird(800).Draw(t, "lying")}
		}
		for range rapid.IntRange(0, 3).Draw(t, "meals") {
			in.Estimate.Lefts = append(in.Estimate.Lefts, colony.Left{
				Tray: tray.Draw(t, "left in"), Day: today - record.Day(rapid.IntRange(0, 9).Draw(t, "ago")), Soft: weird(800).Draw(t, "soft"),
			})
		}
		for i := range rapid.IntRange(0, 2).Draw(t, "looks") {
			look := record.Look{
				ID: fmt.Sprint(i), Tray: tray.Draw(t, "looked at"), Day: today - record.Day(rapid.IntRange(0, 30).Draw(t, "looked"))/record.Day(i+1),
				Smell:     rapid.SampledFrom([]string{"", "earthy", "none", "sour", "rot", "ammonia"}).Draw(t, "smell"),
				Leftovers: rapid.SampledFrom([]record.Leftovers{"", record.LeftNone, record.LeftHard, record.LeftSome, record.LeftHalf, record.LeftMost}).Draw(t, "found"),
				TempOf:    rapid.SampledFrom([]string{"bed", "room"}).Draw(t, "of"),
			}
			if rapid.Bool().Draw(t, "read") {
				temp := units.DeciCelsius(rapid.Int64Range(-50, 400).Draw(t, "reading"))
				look.Temp = &temp
			}
			in.Looks = append(in.Looks, look)
		}
		for range rapid.IntRange(0, 3).Draw(t, "scraps") {
			in.InHand = append(in.InHand, record.Item{
				Scrap: rapid.SampledFrom([]string{"carrot", "onion", "meat-raw", "other", "no such scrap"}).Draw(t, "scrap"),
				Grams: units.Grams(rapid.Int64Range(-5, 2500).Draw(t, "g")),
			})
		}
		for i := range rapid.IntRange(0, 3).Draw(t, "others") {
			in.Others = append(in.Others, ration.Need{Bin: fmt.Sprint("bin", i), Tray: fmt.Sprint("tray", i), Grams: units.Grams(rapid.Int64Range(-5, 900).Draw(t, "need"))})
		}
		return in
	})
}

func TestEveryRationAddsUpAndHasAnAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := inputs().Draw(t, "in")
		if err := sound(in, ration.Compute(in)); err != nil {
			t.Fatal(err)
		}
	})
}

func TestNoRationPassesItsLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := inputs().Draw(t, "in")
		r := ration.Compute(in)
		var surface float64
		for _, takes := range []float64{math.Round(in.Estimate.Surface["top"]), in.Estimate.Takes["top"].Low} {
			if takes > surface && takes < 1e15 { // what cannot be counts for nothing
				surface = takes
			}
		}
		there := float64(max(in.FedToday, 0))
		for _, left := range in.Estimate.Lefts {
			if left.Tray == "top" && left.Day < today && left.Soft > 0 && left.Soft < 1e6 {
				there += math.Round(left.Soft)
			}
		}
		if lying, ok := in.Estimate.Lying["top"]; ok {
			there = float64(max(in.FedToday, 0))
			if lying > 0 && lying < 1e6 {
				there += math.Round(lying)
			}
		}
		if r.Grams > 0 && float64(r.Grams)+there > 4*surface+0.01 {
			t.Fatalf("%d g beside %.0f g on a surface that takes %.2f g a day", r.Grams, there, surface)
		}
		if in.Last.Cause == "" && in.Last.Grams > 0 && in.FeedEvery > 0 && in.FeedEvery < 15 {
			same := float64(in.Last.Grams) * float64(in.FeedEvery) / float64(max(in.Last.Days, 1))
			step := float64(units.StepForPeople(units.Grams(same), 0))
			if float64(r.Grams) > max(same*1.2, same+step)+1 {
				t.Fatalf("%d g after %d g for %d days, for %d days", r.Grams, in.Last.Grams, in.Last.Days, in.FeedEvery)
			}
		}
		if most := max(float64(r.Rule.High)*1.5, lureOf(r)); in.Estimate.CleanLooks < 2 && float64(r.Grams) > most {
			t.Fatalf("%d g before two clean looks, and the rule of thumb goes to %d g", r.Grams, r.Rule.High)
		}
		step := units.StepForPeople(r.Grams, 0)
		switch {
		case r.Grams < pinch:
			step = 1
		case r.Grams < step:
			step = pinch
		}
		if r.Grams%step != 0 {
			t.Fatalf("%d g is not rounded for people", r.Grams)
		}
	})
}

// lureOf is what a ledger offers to draw worms up, in grams: a handful for a tray
// that holds none yet, of which the rule of thumb knows nothing.
func lureOf(r ration.Result) float64 {
	var below int64
	for _, row := range r.Reasons {
		switch row.Code {
		case "could-finish", "days-of-appetite":
			below = row.Milli
		case "lure":
			return float64(below+row.Milli) / 1000
		}
	}
	return 0
}

func TestTheRuleOfThumbStandsBesideTheSumAndChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := ration.Compute(inputs().Draw(t, "in"))
		i := slices.IndexFunc(r.Reasons, func(row ration.Reason) bool { return row.Code == ration.RuleOfThumb })
		rows := slices.Clone(r.Reasons)
		rows[i].Milli += rapid.Int64Range(-1000, 1000).Draw(t, "by")
		if sum, err := ration.Check(rows); err != nil || sum != int64(r.Grams)*1000 {
			t.Fatalf("with another rule of thumb the ledger makes %d (%v), the ration is %d g", sum, err, r.Grams)
		}
	})
}

func TestMoreLeftoversNeverMeanMoreFood(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := inputs().Draw(t, "in")
		before := ration.Compute(in)
		more := in
		// Of a meal before any look: one of yesterday would be another last meal.
		older := colony.Left{Tray: "top", Day: today - 100, Soft: rapid.Float64Range(0, 500).Draw(t, "more")}
		more.Estimate.Lefts = slices.Insert(slices.Clone(in.Estimate.Lefts), 0, older)
		if after := ration.Compute(more); after.Likely.Mid > before.Likely.Mid {
			t.Fatalf("likely %d g with more lying there, %d g before", after.Likely.Mid, before.Likely.Mid)
		}
	})
}

func TestTheSameInputGivesTheSameResult(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := inputs().Draw(t, "in")
		if a, b := ration.Compute(in), ration.Compute(in); !reflect.DeepEqual(a, b) {
			t.Fatalf("%+v, then %+v", a, b)
		}
	})
}

func TestABowlIsSharedWholeAndByNeed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bowl := units.Grams(rapid.Int64Range(-10, 5000).Draw(t, "bowl"))
		var needs []ration.Need
		var total units.Grams
		for i := range rapid.IntRange(0, 5).Draw(t, "places") {
			n := ration.Need{Bin: fmt.Sprint(i), Grams: units.Grams(rapid.Int64Range(-5, 1500).Draw(t, "need"))}
			needs, total = append(needs, n), total+max(n.Grams, 0)
		}
		var placed, rest units.Grams
		for _, s := range ration.Split(bowl, needs, true) {
			if s.To != ration.ToTray {
				rest += s.Grams
				continue
			}
			placed += s.Grams
			if i := slices.IndexFunc(needs, func(n ration.Need) bool { return n.Bin == s.Bin }); s.Grams > needs[i].Grams {
				t.Fatalf("%+v for a need of %d g", s, needs[i].Grams)
			}
		}
		if placed+rest != max(bowl, 0) || placed != min(max(bowl, 0), total) {
			t.Fatalf("of %d g, %d g are placed and %d g kept, for a need of %d g", bowl, placed, rest, total)
		}
	})
}

func TestCheckFindsALedgerThatDoesNotAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := slices.Clone(ration.Compute(inputs().Draw(t, "in")).Reasons)
		var sums []int // changing any other row changes what the sums below it should state
		for i, row := range rows {
			if row.Sum {
				sums = append(sums, i)
			}
		}
		i := rapid.SampledFrom(sums).Draw(t, "row")
		rows[i].Milli += rapid.SampledFrom([]int64{-1000, -1, 1, 1000}).Draw(t, "by")
		if _, err := ration.Check(rows); err == nil {
			t.Fatalf("a changed row %d goes unseen: %+v", i+1, rows)
		}
	})
	sum := ration.Reason{Code: "ration", Milli: 1, Sum: true}
	for name, rows := range map[string][]ration.Reason{
		"no rows":             nil,
		"a sum at the start":  {sum},
		"no result":           {{Code: "worms", Milli: 1}},
		"an unknown operator": {{Code: "worms", Milli: 1}, {Code: "x", Op: "÷", Milli: 1}, sum},
		"a start inside":      {{Code: "worms", Milli: 1}, {Code: "worms", Milli: 1}, sum},
	} {
		if _, err := ration.Check(rows); err == nil {
			t.Errorf("%s: taken for a ledger", name)
		}
	}
}
