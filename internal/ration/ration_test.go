package ration_test

import (
	"testing"

	"trayside/internal/colony"
	"trayside/internal/ration"
	"trayside/internal/record"
	"trayside/internal/units"
)

const today = record.Day(20_000)

// established is a pound of worms on 2 ft² at 22 °C, a hundred days on, every
// meal looked at: appetite 0.5 × 0.91 for the warmth × 0.85 for the crowding, as
// the stage model has it for Eisenia fetida.
func established() ration.Input {
	return ration.Input{
		Today: today, FeedEvery: 3, Goal: record.Grow,
		Fed: ration.Tray{ID: "top", Stage: record.InUse, Below: "old"},
		Estimate: colony.Estimate{
			Day: today, Started: today - 100, Bed: 220, BedSeen: true,
			ByTray:   map[string]colony.Span{"top": {Mid: 454, Low: 380, High: 540}, "old": {Mid: 60, Low: 30, High: 90}},
			Appetite: colony.Span{Mid: 0.387, Low: 0.32, High: 0.46},
			Warmth:   0.91, Damp: 1, Crowd: 0.85,
			Surface: map[string]float64{"top": 186, "old": 186},
			Looks:   8, Learned: 6,
		},
	}
}

// with changes a copy of an input.
func with(in ration.Input, change func(*ration.Input)) ration.Input {
	change(&in)
	return in
}

// checked computes a ration and fails the test if its ledger does not add up to it.
func checked(t testing.TB, in ration.Input) ration.Result {
	t.Helper()
	r := ration.Compute(in)
	if err := sound(in, r); err != nil {
		t.Fatalf("%v\nledger %+v", err, r.Reasons)
	}
	return r
}

func hasRow(r ration.Result, code string) bool {
	for _, row := range r.Reasons {
		if row.Code == code {
			return true
		}
	}
	return false
}

func TestTheLedgerReadsAsAKeeperWouldReckon(t *testing.T) {
	in := with(established(), func(in *ration.Input) {
		in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 660, Low: 610, High: 700}}
		in.Estimate.Appetite = colony.Span{Mid: 0.18, Low: 0.17, High: 0.19}
		in.Estimate.Lefts = []colony.Left{
			{Tray: "top", Day: today - 6, Soft: 30.4},
			{Tray: "top", Day: today - 3, Soft: 114.6},
			{Tray: "old", Day: today - 9, Soft: 50},
		}
	})
	r := checked(t, in)
	want := []ration.Reason{
		{Code: "worms", Milli: 610_000, Unit: "g", From: 610, To: 700},
		{Code: "appetite", Op: "×", Milli: 180, Unit: "per day"},
		{Code: "days", Op: "×", Milli: 3000, Unit: "d", Day: today + 3},
		{Code: "could-finish", Milli: 329_400, Unit: "g", Sum: true},
		{Code: "rule_of_thumb", Op: "compare", Milli: 660_000, Unit: "g", From: 495, To: 660},
		{Code: "lying", Op: "−", Milli: 145_000, Unit: "g", Day: today - 3},
		{Code: "rounding", Op: "≈", Milli: -9400, Unit: "g"},
		{Code: "ration", Milli: 175_000, Unit: "g", Sum: true},
	}
	if len(r.Reasons) != len(want) {
		t.Fatalf("the ledger has %d rows, want %d: %+v", len(r.Reasons), len(want), r.Reasons)
	}
	for i, row := range want {
		if r.Reasons[i] != row {
			t.Errorf("row %d is %+v, want %+v", i+1, r.Reasons[i], row)
		}
	}
	if r.Grams != 175 || r.Rule != (ration.Rule{Low: 495, High: 660}) || r.Sure != ration.Learned || r.Answer != ration.All || r.Next != today+3 {
		t.Errorf("got %d g, rule %+v, %s, %s, next %s", r.Grams, r.Rule, r.Sure, r.Answer, r.Next)
	}
}

// The rules below are common practice of the trade, without a source: the model's
// numbers are held against them.
func TestStandingRulesOfTheTrade(t *testing.T) {
	t.Run("a pound of settled worms at 22 °C on 2 ft² eats a quarter to a third of its weight a day", func(t *testing.T) {
		r := checked(t, established())
		perDay := float64(r.Grams) / 3 / 454
		if perDay < 0.24 || perDay > 0.36 {
			t.Errorf("%d g for 3 days is %.2f of the worms' weight a day, want about 0.25 to 0.33", r.Grams, perDay)
		}
		if r.Likely.Low > r.Rule.High || r.Likely.High < r.Rule.Low {
			t.Errorf("the likely %+v and the rule of thumb %+v do not meet", r.Likely, r.Rule)
		}
	})
	t.Run("nothing new until the last is gone, and never a bare no", func(t *testing.T) {
		in := with(established(), func(in *ration.Input) {
			in.Estimate.Lefts = []colony.Left{{Tray: "top", Day: today - 3, Soft: 450}}
			in.InHand = []record.Item{{Scrap: "carrot", Grams: 400}}
			in.Others = []ration.Need{{Bin: "porch", Tray: "moss", Grams: 150}}
		})
		r := checked(t, in)
		if r.Grams != 0 || r.Hold != nil || r.Binds != ration.ByLeftovers || r.Move != "look" {
			t.Errorf("got %d g, hold %v, bound by %s, move %s", r.Grams, r.Hold, r.Binds, r.Move)
		}
		wantShares(t, r, ration.Elsewhere, ration.Share{To: "tray", Bin: "porch", Tray: "moss", Grams: 150}, ration.Share{To: "freezer", Grams: 250})
	})
	t.Run("a bed at 30 °C takes nothing", func(t *testing.T) {
		r := checked(t, with(established(), func(in *ration.Input) { in.Estimate.Bed = 300 }))
		if r.Grams != 0 || r.Hold == nil || r.Hold.Cause != "hot-bed" || r.Hold.End <= today || r.Answer != ration.Cover {
			t.Errorf("got %d g, hold %+v, answer %s", r.Grams, r.Hold, r.Answer)
		}
	})
	t.Run("a bed just below 30 °C is no hold but gets half", func(t *testing.T) {
		warm := checked(t, with(established(), func(in *ration.Input) { in.Estimate.Bed = 299 }))
		if full := checked(t, established()); warm.Hold != nil || warm.Grams == 0 || warm.Grams > full.Grams*6/10 {
			t.Errorf("got %d g of %d, hold %+v", warm.Grams, full.Grams, warm.Hold)
		}
	})
	t.Run("below 10 °C a little, cut once by the cold and not twice", func(t *testing.T) {
		in := with(established(), func(in *ration.Input) {
			in.Estimate.Bed, in.Estimate.Warmth = 80, 0.22
			in.Estimate.Appetite = colony.Span{Mid: 0.093, Low: 0.07, High: 0.12}
		})
		r := checked(t, in)
		perDay, full := float64(r.Grams)/3/454, checked(t, established())
		if r.Grams == 0 || r.Grams > full.Grams*3/10 || r.Binds != ration.ByWarmth || r.Move != "warmer-place" {
			t.Errorf("%.3f of their weight a day, bound by %s, move %s", perDay, r.Binds, r.Move)
		}
	})
	t.Run("thin layers: a crowded tray takes no more than its surface does", func(t *testing.T) {
		in := with(established(), func(in *ration.Input) {
			in.FeedEvery = 14
			in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 4000, Low: 3500, High: 4600}}
			in.Estimate.CleanLooks = 4
		})
		r := checked(t, in)
		if r.Grams > 4*186 || r.Binds != ration.BySurface || r.Move != "bed-next-tray" {
			t.Errorf("got %d g on a surface of 186 g a day, bound by %s, move %s", r.Grams, r.Binds, r.Move)
		}
	})
	t.Run("no more than four days of appetite in one meal", func(t *testing.T) {
		in := with(established(), func(in *ration.Input) {
			in.FeedEvery = 14
			in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 200, Low: 180, High: 230}}
		})
		r := checked(t, in)
		if r.Grams > 4*180*387/1000+25 || !hasRow(r, "days-of-appetite") || r.Binds != ration.ByDays || r.Move != "feed-oftener" || r.Days != 4 {
			t.Errorf("got %d g for %d days, bound by %s, move %s", r.Grams, r.Days, r.Binds, r.Move)
		}
	})
	t.Run("the first days small, then more from week to week", func(t *testing.T) {
		full := checked(t, established())
		before := units.Grams(0)
		for _, c := range []struct {
			age         record.Day
			most, least int64 // per cent of the full ration
		}{{0, 35, 1}, {2, 35, 1}, {4, 60, 40}, {21, 80, 60}, {42, 100, 100}} {
			r := checked(t, with(established(), func(in *ration.Input) { in.Estimate.Started = today - c.age }))
			if share := int64(r.Grams * 100 / full.Grams); share > c.most || share < c.least || r.Grams < before || r.Hold != nil {
				t.Errorf("day %d: %d g is %d %% of %d, want %d to %d", c.age, r.Grams, share, full.Grams, c.least, c.most)
			}
			before = r.Grams
		}
		if r := checked(t, with(established(), func(in *ration.Input) { in.Estimate.Started = today })); r.Binds != ration.BySettling || r.Move != "leave-alone" {
			t.Errorf("on the first day bound by %s, move %s", r.Binds, r.Move)
		}
	})
}

func wantShares(t *testing.T, r ration.Result, answer string, shares ...ration.Share) {
	t.Helper()
	if r.Answer != answer {
		t.Errorf("the answer is %q, want %q", r.Answer, answer)
	}
	if len(r.Shares) != len(shares) {
		t.Fatalf("shares %+v, want %+v", r.Shares, shares)
	}
	for i := range shares {
		if r.Shares[i] != shares[i] {
			t.Errorf("share %d is %+v, want %+v", i+1, r.Shares[i], shares[i])
		}
	}
}

func TestTwoCleanLooksMakeATrialStep(t *testing.T) {
	step := func(clean int, eaten units.Grams) (ration.Result, int64) {
		r := checked(t, with(established(), func(in *ration.Input) {
			in.Estimate.CleanLooks, in.Last = clean, ration.Last{Grams: eaten, Days: 3, Eaten: eaten}
		}))
		for _, row := range r.Reasons {
			if row.Code == "trial" {
				return r, row.Milli
			}
		}
		return r, 1000
	}
	before, _ := step(1, 450)
	after, milli := step(2, 450)
	if before.Sure != ration.Learned || after.Sure != ration.Trial || milli != 1150 {
		t.Errorf("sure is %q, then %q with a step of %d thousandths, want 1150", before.Sure, after.Sure, milli)
	}
	if rise := float64(after.Grams) / float64(before.Grams); rise < 1.05 || rise > 1.25 {
		t.Errorf("from %d g to %d g, want about 15 %% more", before.Grams, after.Grams)
	}
	for _, c := range []struct {
		name  string
		clean int
		eaten units.Grams
		milli int64
	}{
		{"more clean looks make no second step at once", 20, 450, 1150},
		{"as far as the estimate does not hold the step already", 4, 400, 1043}, // 400 × 1.15 of 441
		{"none where it holds the whole of it", 4, 350, 1000},
		{"none where something is left of the last meal", 4, 0, 1000},
	} {
		if _, milli := step(c.clean, c.eaten); milli != c.milli {
			t.Errorf("%s: the trial multiplies by %d thousandths, want %d", c.name, milli, c.milli)
		}
	}
}

func TestAFirstGuessIsMarkedAndHeldByTheRuleOfThumb(t *testing.T) {
	in := with(established(), func(in *ration.Input) {
		in.Estimate.Looks, in.Estimate.Learned = 1, 1
		in.Estimate.Appetite = colony.Span{Mid: 1.2, Low: 0.5, High: 2}
		in.Estimate.Surface = map[string]float64{"top": 5000}
	})
	r := checked(t, in)
	if r.Sure != ration.Guess || r.Grams > r.Rule.High*3/2 || !hasRow(r, "rule-cap") || r.Move != "look" {
		t.Errorf("%s of %d g with a rule of thumb to %d g, move %s", r.Sure, r.Grams, r.Rule.High, r.Move)
	}
	in.Estimate.CleanLooks = 2
	if r := checked(t, in); r.Grams <= r.Rule.High*3/2 {
		t.Errorf("after two clean looks still held to %d g", r.Grams)
	}
}

func TestNoRiseOfMoreThanAFifthWithoutANamedCause(t *testing.T) {
	for _, c := range []struct {
		name  string
		last  ration.Last
		want  units.Grams
		cause string
	}{
		{"from 200 g", ration.Last{Grams: 200, Days: 3}, 225, ""},
		{"from 350 g", ration.Last{Grams: 350, Days: 3}, 400, ""},
		{"from 100 g, where a fifth is less than a step", ration.Last{Grams: 100, Days: 3}, 125, ""},
		{"from 200 g for two days, which is 300 for three", ration.Last{Grams: 200, Days: 2}, 350, ""},
		{"worms were added", ration.Last{Grams: 200, Days: 3, Cause: "worms-added"}, 450, "worms-added"},
		{"worms were added, which made no difference", ration.Last{Grams: 425, Days: 3, Cause: "worms-added"}, 450, ""},
		{"no ration before", ration.Last{}, 450, ""},
		{"a fall needs no cause", ration.Last{Grams: 900, Days: 3}, 450, ""},
	} {
		r := checked(t, with(established(), func(in *ration.Input) { in.Last = c.last }))
		if r.Grams != c.want || r.Cause != c.cause {
			t.Errorf("%s: got %d g for %q, want %d g for %q", c.name, r.Grams, r.Cause, c.want, c.cause)
		}
	}
}

func TestASmallChangeDoesNotMakeTheNumberFlutter(t *testing.T) {
	steady := func(low float64, last units.Grams) units.Grams {
		return checked(t, with(established(), func(in *ration.Input) {
			in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 454, Low: low, High: 540}}
			in.Last = ration.Last{Grams: last, Days: 3}
		})).Grams
	}
	// 380 g of worms make 441 g of food, 410 g make 476 g, 340 g make 395 g.
	for _, c := range []struct {
		low        float64
		last, want units.Grams
	}{{380, 450, 450}, {410, 450, 450}, {340, 450, 400}, {340, 400, 400}, {410, 400, 450}} {
		if got := steady(c.low, c.last); got != c.want {
			t.Errorf("%.0f g of worms after %d g: got %d g, want %d", c.low, c.last, got, c.want)
		}
	}
}

func TestALastRationForOtherDaysIsNotKept(t *testing.T) {
	r := checked(t, with(established(), func(in *ration.Input) { in.Last = ration.Last{Grams: 400, Days: 2} }))
	if r.Grams != 450 {
		t.Errorf("after 400 g for two days, three days get %d g, want 450", r.Grams)
	}
}

func TestRoundingStaysBelowWhatTheSurfaceStillTakes(t *testing.T) {
	r := checked(t, with(established(), func(in *ration.Input) {
		in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 900, Low: 850, High: 950}}
		in.Estimate.Lefts = []colony.Left{{Tray: "top", Day: today - 3, Soft: 130}}
	}))
	if r.Grams != 400 { // 3 × 186 − 130 = 428
		t.Errorf("got %d g, want 400", r.Grams)
	}
}

func TestATrialIsOneOnlyWhileItRises(t *testing.T) {
	sure := func(last units.Grams) string {
		return checked(t, with(established(), func(in *ration.Input) {
			in.Estimate.CleanLooks, in.Last = 4, ration.Last{Grams: last, Days: 3, Eaten: 450}
		})).Sure
	}
	if up, still := sure(450), sure(550); up != ration.Trial || still != ration.Learned {
		t.Errorf("sure is %q on the way up and %q once there", up, still)
	}
}

func TestTheGoalMovesTheRation(t *testing.T) {
	grams := func(goal record.Goal) units.Grams {
		return checked(t, with(established(), func(in *ration.Input) { in.Goal = goal })).Grams
	}
	if grow, hold, slow := grams(record.Grow), grams(record.Hold), grams(record.SlowDown); !(grow > hold && hold > slow && slow > 0) {
		t.Errorf("grow %d g, hold %d g, slow down %d g", grow, hold, slow)
	}
}

func TestTheWormsThatCountAreThoseInTheFedTray(t *testing.T) {
	climbed := checked(t, established())
	below := checked(t, with(established(), func(in *ration.Input) {
		in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 60, Low: 30, High: 90}, "old": {Mid: 454, Low: 380, High: 540}}
	}))
	if below.Grams >= climbed.Grams/3 {
		t.Errorf("with the worms still below %d g, with them climbed %d g", below.Grams, climbed.Grams)
	}
	fresh := with(established(), func(in *ration.Input) {
		in.Fed.Stage = record.Bedded
		in.Estimate.ByTray = map[string]colony.Span{"old": {Mid: 454, Low: 380, High: 540}}
	})
	if r := checked(t, fresh); r.Grams == 0 || r.Grams > 50 || !hasRow(r, "lure") {
		t.Errorf("a tray newly put on top is offered %d g, want a small lure", r.Grams)
	}
	fresh.Fed.Below = ""
	if r := checked(t, fresh); r.Grams != 0 {
		t.Errorf("an empty tray with nothing below is offered %d g, want nothing", r.Grams)
	}
}

func TestAWeightOfTheDayIsNotGivenTwice(t *testing.T) {
	r := checked(t, with(established(), func(in *ration.Input) {
		in.FedToday = 200
		in.Estimate.Lefts = []colony.Left{{Tray: "top", Day: today, Soft: 190}}
	}))
	if full := checked(t, established()); full.Grams-r.Grams != 200 || !hasRow(r, "fed-today") || hasRow(r, "lying") {
		t.Errorf("after 200 g of %d g there is room for %d g", full.Grams, r.Grams)
	}
}

func TestARestingTrayReducesAndSendsElsewhere(t *testing.T) {
	alone := checked(t, with(established(), func(in *ration.Input) { in.Fed.Stage = record.Resting }))
	if full := checked(t, established()); alone.Grams == 0 || alone.Grams > full.Grams/3 || alone.Hold != nil || alone.Binds != ration.ByResting {
		t.Errorf("alone %d g of %d g, hold %v, bound by %s", alone.Grams, full.Grams, alone.Hold, alone.Binds)
	}
	r := checked(t, with(established(), func(in *ration.Input) {
		in.Fed.Stage, in.Open = record.Resting, true
		in.Others = []ration.Need{{Bin: "b", Tray: "above", Grams: 500}}
		in.InHand = []record.Item{{Scrap: "carrot", Grams: 300}}
	}))
	wantShares(t, r, ration.Elsewhere, ration.Share{To: "tray", Bin: "b", Tray: "above", Grams: 300})
	if r.Move != "feed-open-tray" {
		t.Errorf("the move is %q", r.Move)
	}
}

func TestTheKitchenBindsWhenTheBowlIsSmall(t *testing.T) {
	r := checked(t, with(established(), func(in *ration.Input) { in.InHand = []record.Item{{Scrap: "carrot", Grams: 80}} }))
	if r.Binds != ration.ByKitchen || r.Move != "save-scraps" || r.Answer != ration.All {
		t.Errorf("bound by %s, move %s, answer %s", r.Binds, r.Move, r.Answer)
	}
	r = checked(t, with(established(), func(in *ration.Input) { in.InHand = []record.Item{{Scrap: "carrot", Grams: 800}} }))
	if r.Binds != ration.ByWorms || r.Move != "let-grow" {
		t.Errorf("with a full bowl bound by %s, move %s", r.Binds, r.Move)
	}
}

func TestRoundingIsNoFinerThanWhatIsKnown(t *testing.T) {
	wide := checked(t, with(established(), func(in *ration.Input) {
		in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 454, Low: 150, High: 900}}
	}))
	interval := wide.Likely.High - wide.Likely.Low
	if step := units.StepForPeople(wide.Grams, interval); wide.Grams%step != 0 || step*4 < interval {
		t.Errorf("%d g stated where only %+v is known", wide.Grams, wide.Likely)
	}
	tiny := checked(t, with(established(), func(in *ration.Input) {
		in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 300, Low: 30, High: 900}}
	}))
	if tiny.Grams != 25 && tiny.Grams != 50 {
		t.Errorf("a meal of about 35 g is rounded to %d g, want it kept", tiny.Grams)
	}
}

func TestAHotWeekHalvesMealsBeforeAThermometerSeesIt(t *testing.T) {
	usual := checked(t, established())
	hot := checked(t, with(established(), func(in *ration.Input) { in.HotWeek = true }))
	seen := checked(t, with(established(), func(in *ration.Input) { in.HotWeek, in.Estimate.Bed = true, 285 }))
	if !hasRow(hot, "hot-week") || hot.Grams > usual.Grams*6/10 || hot.Hold != nil {
		t.Errorf("%d g in a usual week, %d g in a hot one", usual.Grams, hot.Grams)
	}
	if hasRow(seen, "hot-week") || !hasRow(seen, "warm-bed") {
		t.Error("a bed that was read to be warm counts once")
	}
}

func TestAPocketHoldsLessThanALayer(t *testing.T) {
	grams := func(p record.Placing, area float64) ration.Result {
		return checked(t, with(established(), func(in *ration.Input) { in.Placing, in.AreaM2 = p, area }))
	}
	if r := grams(record.Pocket, 0.09); r.Grams != 300 || !hasRow(r, "pocket") || r.Binds != ration.BySurface {
		t.Errorf("a pocket of a small tray takes %d g and is bound by %s, want 300 by the surface", r.Grams, r.Binds)
	}
	if r := grams(record.Layer, 0.09); r.Grams != 450 {
		t.Errorf("a layer over a small tray takes %d g, want all 450", r.Grams)
	}
}

func TestNothingNewGoesOnHalfOfTheLastMealOrMore(t *testing.T) {
	after := func(found record.Leftovers, ago record.Day, lying float64) units.Grams {
		return checked(t, with(established(), func(in *ration.Input) {
			in.Estimate.Takes = map[string]colony.Span{"top": {Mid: 170, Low: 150, High: 190}}
			in.Estimate.Lying = map[string]float64{"top": lying}
			in.Looks = []record.Look{{ID: "l", Tray: "top", Day: today - ago, Leftovers: found}}
		})).Grams
	}
	for _, c := range []struct {
		found record.Leftovers
		ago   record.Day
		lying float64
		none  bool
	}{
		{record.LeftMost, 0, 0, true}, {record.LeftMost, 1, 0, true}, {record.LeftHalf, 2, 40, true}, {record.LeftHalf, 2, 5, false},
		{record.LeftSome, 0, 40, false}, {record.LeftNone, 0, 0, false}, {record.LeftMost, 7, 40, true}, {record.LeftMost, 8, 40, false},
	} {
		if g := after(c.found, c.ago, c.lying); (g == 0) != c.none {
			t.Errorf("%s was left %d days ago and %.0f g lie there: %d g go in", c.found, c.ago, c.lying, g)
		}
	}
}

func TestAfterAMealThatWasNotEatenTheNextIsNoLarger(t *testing.T) {
	after := func(found record.Leftovers, looked, fed record.Day) ration.Result {
		return checked(t, with(established(), func(in *ration.Input) {
			in.Estimate.Takes = map[string]colony.Span{"top": {Mid: 170, Low: 150, High: 190}}
			in.Looks = []record.Look{{ID: "l", Tray: "top", Day: today - looked, Leftovers: found}}
			in.Last = ration.Last{Grams: 400, Days: 3, Fed: 100, Day: today - fed}
		}))
	}
	if r := after(record.LeftMost, 3, 7); r.Grams != 100 || !hasRow(r, "last-meal") || r.Binds != ration.ByLeftovers {
		t.Errorf("most of 100 g was left: %d g are next, bound by %s, want 100 by the leftovers", r.Grams, r.Binds)
	}
	if r := after(record.LeftNone, 3, 7); hasRow(r, "last-meal") {
		t.Errorf("all of 100 g was eaten, and it still holds the next to %d g", r.Grams)
	}
	if r := after(record.LeftMost, 5, 3); hasRow(r, "last-meal") {
		t.Errorf("what was left of an older meal holds the next to %d g", r.Grams)
	}
}

func TestRoundingAddsNoMoreThanAQuarterAndKeepsTheOrder(t *testing.T) {
	grams := func(low float64, last units.Grams) units.Grams {
		return checked(t, with(established(), func(in *ration.Input) {
			in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 420, Low: low, High: 800}} // known to about 400 g: steps of 100
			in.Last = ration.Last{Grams: last, Days: 3}
		})).Grams
	}
	for _, c := range []struct {
		name       string
		low        float64 // × 0.387 × 3
		last, want units.Grams
	}{
		{"150 g stay 150 and are not made 200", 129.4, 0, 150},
		{"nor kept at 200", 129.4, 200, 150},
		{"201 g leave the 150 of last time, a fifth at most", 172.9, 150, 175},
		{"180 g go to the next 100", 155, 0, 200},
	} {
		if got := grams(c.low, c.last); got != c.want {
			t.Errorf("%s: got %d g, want %d", c.name, got, c.want)
		}
	}
}

func TestHungryWormsWithNothingToEatAlwaysGetAPinch(t *testing.T) {
	few := with(established(), func(in *ration.Input) {
		in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 15, Low: 13, High: 20}}
		in.Estimate.Eats = map[string]colony.Span{"top": {Mid: 6, Low: 5, High: 8}}
		in.Estimate.Takes = in.Estimate.Eats
		in.FeedEvery = 7
	})
	if r := checked(t, few); r.Grams != 20 || r.Answer != ration.All {
		t.Errorf("13 g of worms and an empty tray get %d g, answer %s, want 20", r.Grams, r.Answer)
	}
	few.Estimate.Lying = map[string]float64{"top": 5}
	if r := checked(t, few); r.Grams != 15 {
		t.Errorf("with 5 g lying there they get %d g, want 15", r.Grams)
	}
	few.Estimate.Lying = map[string]float64{"top": 15}
	if r := checked(t, few); r.Grams != 0 {
		t.Errorf("with 15 g lying there they get %d g, want nothing", r.Grams)
	}
}

func TestNobodyKnownForSureGetsAHandfulToSee(t *testing.T) {
	unsure := with(established(), func(in *ration.Input) {
		in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 94, Low: 0, High: 190}}
	})
	if r := checked(t, unsure); r.Grams != 25 || !hasRow(r, "handful") || r.Move != "look" {
		t.Errorf("perhaps no worms, perhaps 94 g: %d g, move %s, want 25 and a look", r.Grams, r.Move)
	}
	unsure.Looks = []record.Look{{ID: "l", Tray: "top", Day: today, Leftovers: record.LeftMost}}
	if r := checked(t, unsure); r.Grams != 0 {
		t.Errorf("with most of the last meal left they get %d g", r.Grams)
	}
}

func TestALureIsAHandfulWhateverFewWormsHaveClimbed(t *testing.T) {
	r := checked(t, with(established(), func(in *ration.Input) {
		in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 9, Low: 4, High: 14}, "old": {Mid: 300, Low: 250, High: 400}}
		in.Estimate.Eats = map[string]colony.Span{"top": {Mid: 3, Low: 1.5, High: 5}}
		in.Estimate.Takes = in.Estimate.Eats
	}))
	if r.Grams < 25 || r.Grams > 50 || !hasRow(r, "lure") || hasRow(r, "surface") || r.Binds == ration.BySurface {
		t.Errorf("got %d g, bound by %s: %+v", r.Grams, r.Binds, r.Reasons)
	}
}

func TestNewWormsSettleInAnOldBin(t *testing.T) {
	old, fresh := checked(t, established()), checked(t, with(established(), func(in *ration.Input) { in.Settles = today }))
	if fresh.Grams > old.Grams*35/100 || fresh.Binds != ration.BySettling {
		t.Errorf("new worms get %d g of %d g, bound by %s", fresh.Grams, old.Grams, fresh.Binds)
	}
}

func TestAWetDryOrSourBedIsSaidToLimit(t *testing.T) {
	wet, dry, sour := int64(960), int64(300), int64(41)
	for _, c := range []struct {
		name string
		look record.Look
		damp float64
		move string
	}{
		{"read too wet", record.Look{Meter: &wet}, 0, "add-dry-bedding"},
		{"read too dry", record.Look{Meter: &dry}, 0.2, "moisten"},
		{"squeezed, and it crumbles", record.Look{Squeeze: "crumbles"}, 0.5, "moisten"},
		{"too sour", record.Look{PH: &sour}, 0.1, "add-eggshell"},
		{"nobody has read it", record.Look{}, 0.5, "look"},
	} {
		c.look.Tray, c.look.Day = "top", today-1
		r := checked(t, with(established(), func(in *ration.Input) { in.Looks, in.Estimate.Damp = []record.Look{c.look}, c.damp }))
		if r.Binds != ration.ByMoisture || r.Move != c.move {
			t.Errorf("%s: bound by %s, move %s, want %s", c.name, r.Binds, r.Move, c.move)
		}
	}
	runs := checked(t, with(established(), func(in *ration.Input) {
		in.FeedEvery, in.Looks = 14, []record.Look{{Tray: "top", Day: today - 1, Squeeze: "runs"}}
	}))
	if runs.Binds != ration.ByDays || runs.Move != "add-dry-bedding" {
		t.Errorf("water runs from it: bound by %s, move %s", runs.Binds, runs.Move)
	}
}

func TestWhatIsSaidToLimitIsWhatLimits(t *testing.T) {
	for _, c := range []struct {
		name        string
		change      func(*ration.Input)
		binds, move string
	}{
		{"a hot week", func(in *ration.Input) { in.HotWeek, in.Estimate.Bed = true, 265 }, ration.ByWarmth, "cooler-place"},
		{"a frozen bed", func(in *ration.Input) {
			in.Estimate.Bed, in.Estimate.Warmth, in.Estimate.Appetite = -5, 0, colony.Span{}
		}, ration.ByWarmth, "warmer-place"},
		{"a cold bed that nobody has looked into", func(in *ration.Input) {
			in.Estimate.Bed, in.Estimate.Warmth, in.Estimate.Appetite = -5, 0, colony.Span{}
			in.Estimate.Looks, in.Estimate.Learned, in.Estimate.BedSeen = 0, 0, false
		}, ration.ByWarmth, "look-first"},
		{"trouble", func(in *ration.Input) { in.Trouble.Milli = 300 }, ration.ByTrouble, "look"},
	} {
		if r := checked(t, with(established(), c.change)); r.Binds != c.binds || r.Move != c.move {
			t.Errorf("%s: bound by %s, move %s, want %s and %s", c.name, r.Binds, r.Move, c.binds, c.move)
		}
	}
}

// Nothing is in the log, and a person stands there with a bowl.
func TestABinWithoutWormsStillAnswersABowl(t *testing.T) {
	bare := with(established(), func(in *ration.Input) {
		in.Estimate = colony.Estimate{Day: today, Bed: 30}
		in.Last = ration.Last{}
	})
	if r := checked(t, bare); r.Grams != 0 || r.Binds != ration.ByWorms || r.Move != "log-worms" || r.Answer != ration.Cover || r.Sure != ration.Guess {
		t.Errorf("with empty hands: %d g, bound by %s, move %s, %s, %s", r.Grams, r.Binds, r.Move, r.Answer, r.Sure)
	}
	bowl := func(change func(*ration.Input)) ration.Result {
		return checked(t, with(bare, func(in *ration.Input) {
			in.InHand = items("carrot", 300, "meat-raw", 40)
			change(in)
		}))
	}
	waste := ration.Share{To: "waste", Grams: 40}
	wantShares(t, bowl(func(*ration.Input) {}), ration.Freeze, ration.Share{To: "freezer", Grams: 300}, waste)
	wantShares(t, bowl(func(in *ration.Input) { in.NoFreezer = true }), ration.Waste, ration.Share{To: "waste", Grams: 340})
	wantShares(t, bowl(func(in *ration.Input) { in.Others = []ration.Need{{Bin: "porch", Tray: "moss", Grams: 500}} }),
		ration.Elsewhere, ration.Share{To: "tray", Bin: "porch", Tray: "moss", Grams: 300}, waste)
	dead := with(established(), func(in *ration.Input) { in.Estimate.ByTray = map[string]colony.Span{"top": {}, "old": {}} })
	if r := checked(t, dead); r.Binds != ration.ByWorms || r.Move != "log-worms" {
		t.Errorf("with all worms dead: bound by %s, move %s", r.Binds, r.Move)
	}
}

func TestTheCautiousSideOfTheWormsIsTheTraysOwn(t *testing.T) {
	first := func(eats float64) (ration.Reason, ration.Reason) {
		r := checked(t, with(established(), func(in *ration.Input) {
			in.Estimate.Eats = map[string]colony.Span{"top": {Mid: 176, Low: eats, High: 250}}
		}))
		return r.Reasons[0], r.Reasons[1]
	}
	// 380 to 540 g of worms at 0.387 a day: at the least 147 g a day.
	if worms, appetite := first(100); worms.Milli != 380_000 || worms.From != 380 || appetite.Milli != 263 {
		t.Errorf("worms that eat 100 g a day: %+v, %+v, want 380 g at 0.263", worms, appetite)
	}
	if worms, appetite := first(160); worms.Milli != 413_000 || appetite.Milli != 387 {
		t.Errorf("worms that eat 160 g a day: %+v, %+v, want 413 g at 0.387", worms, appetite)
	}
}
