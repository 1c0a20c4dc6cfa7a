package ration_test

import (
	"testing"

	"trayside/internal/colony"
	"trayside/internal/ration"
	"trayside/internal/record"
)

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
