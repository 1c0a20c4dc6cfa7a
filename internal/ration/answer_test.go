package ration_test

import (
	"testing"

	"trayside/internal/ration"
	"trayside/internal/record"
	"trayside/internal/units"
)

func items(scrapGrams ...any) []record.Item {
	var out []record.Item
	for i := 0; i < len(scrapGrams); i += 2 {
		out = append(out, record.Item{Scrap: scrapGrams[i].(string), Grams: units.Grams(scrapGrams[i+1].(int))})
	}
	return out
}

func TestAnswersForWhatIsInHand(t *testing.T) {
	here := func(g units.Grams) ration.Share { return ration.Share{To: "tray", Tray: "top", Grams: g} }
	moss := func(g units.Grams) ration.Share {
		return ration.Share{To: "tray", Bin: "porch", Tray: "moss", Grams: g}
	}
	freezer := func(g units.Grams) ration.Share { return ration.Share{To: "freezer", Grams: g} }
	waste := func(g units.Grams) ration.Share { return ration.Share{To: "waste", Grams: g} }
	// The established bin takes 450 g; porch takes 175 g.
	for _, c := range []struct {
		name      string
		hand      []record.Item
		noOthers  bool
		noFreezer bool
		answer    string
		shares    []ration.Share
	}{
		{"a small bowl goes in whole", items("carrot", 200), false, false, ration.All, []ration.Share{here(200)}},
		{"a few grams over the ration go in too", items("carrot", 470), false, false, ration.All, []ration.Share{here(470)}},
		{"a big bowl is shared", items("carrot", 640), false, false, ration.Part, []ration.Share{here(450), moss(175), freezer(15)}},
		{"without another bin the rest is frozen", items("carrot", 640), true, false, ration.Part, []ration.Share{here(450), freezer(190)}},
		{"without a freezer the rest goes out", items("carrot", 640), true, true, ration.Part, []ration.Share{here(450), waste(190)}},
		{"meat never goes in", items("meat-raw", 120), false, false, ration.Waste, []ration.Share{waste(120)}},
		{"meat is picked out of a bowl", items("carrot", 200, "meat-raw", 120), false, false, ration.All, []ration.Share{here(200), waste(120)}},
		{"what goes out is one heap", items("carrot", 640, "meat-raw", 120), true, true, ration.Part, []ration.Share{here(450), waste(310)}},
		{"a trace of onion does no harm", items("carrot", 200, "onion", 10), false, false, ration.All, []ration.Share{here(210)}},
		{"much onion is picked out", items("carrot", 200, "onion", 100), false, false, ration.All, []ration.Share{here(200), waste(100)}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := checked(t, with(established(), func(in *ration.Input) {
				in.InHand, in.NoFreezer = c.hand, c.noFreezer
				if !c.noOthers {
					in.Others = []ration.Need{{Bin: "porch", Tray: "moss", Grams: 175}}
				}
			}))
			wantShares(t, r, c.answer, c.shares...)
		})
	}
}

func TestWhereThereIsNoRoomTheAnswerStillHasGrams(t *testing.T) {
	full := func(change func(*ration.Input)) ration.Result {
		return checked(t, with(established(), func(in *ration.Input) {
			in.FedToday, in.InHand = 2000, items("carrot", 300)
			change(in)
		}))
	}
	wantShares(t, full(func(*ration.Input) {}), ration.Freeze, ration.Share{To: "freezer", Grams: 300})
	wantShares(t, full(func(in *ration.Input) { in.NoFreezer = true }), ration.Waste, ration.Share{To: "waste", Grams: 300})
	if r := full(func(in *ration.Input) { in.InHand = nil }); r.Answer != ration.Cover || r.Shares != nil {
		t.Errorf("with empty hands the answer is %q, shares %+v", r.Answer, r.Shares)
	}
}

func TestSplittingABowl(t *testing.T) {
	needs := []ration.Need{{Bin: "a", Grams: 400}, {Bin: "b", Grams: 200}, {Bin: "c", Grams: 0}}
	for _, c := range []struct {
		name    string
		bowl    units.Grams
		a, b, f units.Grams
	}{
		{"what all need, and the rest to the freezer", 700, 400, 200, 100},
		{"exactly what all need", 600, 400, 200, 0},
		{"too little, by need", 300, 200, 100, 0},
		{"too little, in steps of 25 g and the rest where most is needed", 100, 75, 25, 0},
		{"a handful", 20, 20, 0, 0},
		{"nothing", 0, 0, 0, 0},
	} {
		got := map[string]units.Grams{}
		for _, s := range ration.Split(c.bowl, needs, true) {
			got[s.To+s.Bin] = s.Grams
		}
		if got["traya"] != c.a || got["trayb"] != c.b || got["freezer"] != c.f || got["trayc"] != 0 {
			t.Errorf("%s: %d g are split %v, want a %d, b %d, freezer %d", c.name, c.bowl, got, c.a, c.b, c.f)
		}
	}
}

func TestNoPlaceGetsMoreThanItNeedsFromASmallBowl(t *testing.T) {
	needs := []ration.Need{{Bin: "a", Grams: 40}, {Bin: "b", Grams: 30}, {Bin: "c", Grams: 35}}
	want := []ration.Share{{To: "tray", Bin: "a", Grams: 40}, {To: "tray", Bin: "b", Grams: 30}, {To: "tray", Bin: "c", Grams: 30}}
	got := ration.Split(100, needs, true)
	if len(got) != len(want) {
		t.Fatalf("got %+v, want %+v", got, want)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("share %d is %+v, want %+v", i+1, got[i], want[i])
		}
	}
}

func TestSlips(t *testing.T) {
	for _, c := range []struct {
		name           string
		amount, ration units.Grams
		inBin          bool
		kind, why      string
	}{
		{"an ordinary meal", 200, 175, false, "", ""},
		{"just at the limit", 2000, 175, false, "", ""},
		{"over 2 kg and four times the ration", 2001, 175, false, "ask", "far-over-ration"},
		{"over 2 kg in a big bin", 2500, 800, false, "", ""},
		{"over four times a big ration", 3300, 800, false, "ask", "far-over-ration"},
		{"over 2 kg with nothing due", 2001, 0, false, "ask", "far-over-ration"},
		{"at 200 kg it asks", 200_000, 175, false, "ask", "far-over-ration"},
		{"over 200 kg it refuses", 200_001, 175, false, "refuse", "too-much"},
		{"a minus", -1, 175, false, "refuse", "negative"},
		{"a large amount that is in the bin already", 5000, 175, true, "", ""},
		{"a huge amount that is in the bin already", 300_000, 175, true, "", ""},
	} {
		if got := ration.Slip(c.amount, c.ration, c.inBin); got.Kind != c.kind || got.Why != c.why {
			t.Errorf("%s: %d g with a ration of %d g gives %+v, want %q %q", c.name, c.amount, c.ration, got, c.kind, c.why)
		}
	}
}
