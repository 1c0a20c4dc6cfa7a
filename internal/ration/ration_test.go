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

func TestNewWormsSettleInAnOldBin(t *testing.T) {
	old, fresh := checked(t, established()), checked(t, with(established(), func(in *ration.Input) { in.Settles = today }))
	if fresh.Grams > old.Grams*35/100 || fresh.Binds != ration.BySettling {
		t.Errorf("new worms get %d g of %d g, bound by %s", fresh.Grams, old.Grams, fresh.Binds)
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
