package advice_test

import (
	"slices"
	"testing"

	"trayside/internal/advice"
	"trayside/internal/plan"
	"trayside/internal/record"
)

func TestABinTellsWhatItsKeeperSaidOfIt(t *testing.T) {
	h := household()
	h.Bins[0].HotUntil = on(today)
	v := adviceOn(h, today).Bin(kitchen)
	if !v.Found || v.Name != "Kitchen" || v.Species != string(record.Eisenia) || v.Goal != "grow" || v.FeedEvery != meal || v.Started != start.String() || v.HotUntil != today.String() {
		t.Errorf("bin %+v; want Kitchen as it was set up", v)
	}
	if v.Room == nil || v.Room.Coolest != 180 || v.Room.Warmest != 230 {
		t.Errorf("room %+v; want 18 and 23 °C", v.Room)
	}
	if len(v.Trays) != 2 || v.Trays[0].ID != upper || v.Trays[0].Stage != "feeding" || v.Trays[1].Stage != "resting" || v.Trays[1].Code != lowerCode || len(v.Trays[0].Bedding) != 1 {
		t.Errorf("trays %+v; want Upper being fed over Lower at rest, without the one that was removed", v.Trays)
	}
	if v.Worms == nil || !(v.Worms.Low < v.Worms.Mid && v.Worms.Mid < v.Worms.High) {
		t.Errorf("worms %+v; want a range", v.Worms)
	}
	if v := adviceOn(h, today+1).Bin(kitchen); v.HotUntil != "" {
		t.Errorf("hot until %q on the day after; want it over", v.HotUntil)
	}
}

func TestABinListsHowItsWormsCameAndWentNewestFirst(t *testing.T) {
	h := household()
	h.Worms = append(h.Worms, record.WormEvent{ID: "worms/3", Bin: kitchen, Move: record.WormsLost, Share: 50, Day: today, At: clock(today, "09:00")})
	got := adviceOn(h, today).Bin(kitchen).Moves
	want := []advice.WormLine{
		{ID: "worms/3", Day: today.String(), Move: "lost", Share: 50},
		{ID: "worms/1", Day: start.String(), Move: "added", Grams: 500, Tray: "Lower"},
	}
	if !slices.Equal(got, want) {
		t.Errorf("moves %+v; want %+v", got, want)
	}
}

func TestWithoutABinThereIsWhatANewOneIsSetUpWith(t *testing.T) {
	for _, id := range []string{"", "bin/nowhere"} {
		v := adviceOn(household(), today).Bin(id)
		if v.Found || len(v.Bins) != 2 || v.Trays == nil || v.Moves == nil {
			t.Errorf("%q: %+v; want no bin, and the two there are", id, v)
		}
		i := slices.IndexFunc(v.Sizes, func(s advice.WormSize) bool { return s.Species == string(record.Eisenia) })
		if len(v.Sizes) != 5 || i < 0 || v.Sizes[i].MG != 450 {
			t.Errorf("sizes %+v; want one for each species, 450 mg for a red compost worm", v.Sizes)
		}
		// 2.5 lb of paper a cubic foot, 100 mm deep: 4 kg a square metre.
		if f := v.Fresh; f.GramsPerM2 < 3900 || f.GramsPerM2 > 4100 || f.WaterPerM2 < 8000 || f.WaterPerM2 > 10000 || f.DepthMM != 100 {
			t.Errorf("fresh bed %+v; want about 4 kg of paper and 2 ml of water a gram", f)
		}
	}
}

func TestAPlanIsMadeOfWhatIsAsked(t *testing.T) {
	a := adviceOn(household(), today)
	p := a.Plan(advice.PlanAsk{Week: 1800, Room: true, Coolest: 140, Warmest: 230})
	m := p.Made
	if p.Why != "" || m == nil || m.Species != string(record.Eisenia) || m.Worms != 550 || m.Fed < 1 || m.All <= m.Fed || len(m.Suits) != 4 || len(m.Steps) != 5 || len(m.Cheaper) < 4 {
		t.Fatalf("plan %+v of %q; want 550 g of red compost worms and the rest", m, p.Why)
	}
	if m.Steps[0].Day != today.String() || m.Steps[1].Code != string(plan.BuyWorms) || m.Steps[1].Day <= today.String() || m.Steps[1].Late <= m.Steps[1].Day {
		t.Errorf("steps %+v; want the bin today and the worms a week later", m.Steps)
	}
	if d := m.Whole.Days; m.Whole.Never || !(0 < d.Low && d.Low <= d.Mid && d.Mid <= d.High) || m.Whole.Year1 <= 0 || m.Whole.Lives < 90 {
		t.Errorf("reach %+v; want a day with its range", m.Whole)
	}
}

func TestAPlanSaysWhatKeepsItFromBeingMade(t *testing.T) {
	a := adviceOn(household(), today)
	for _, tc := range []struct {
		name string
		ask  advice.PlanAsk
		why  string
	}{
		{"nothing was asked", advice.PlanAsk{}, ""},
		{"neither scraps nor people", advice.PlanAsk{Room: true, Coolest: 100, Warmest: 200}, advice.PlanNothing},
		{"less than nothing", advice.PlanAsk{Week: -5, Room: true, Warmest: 200}, advice.PlanNothing},
		{"a farm", advice.PlanAsk{Week: 500_000}, advice.PlanTooMuch},
		{"a summer colder than its winter", advice.PlanAsk{People: 2, Room: true, Coolest: 200, Warmest: 100}, advice.PlanRoom},
	} {
		t.Run(tc.name, func(t *testing.T) {
			if p := a.Plan(tc.ask); p.Made != nil || p.Why != tc.why {
				t.Errorf("why %q, made %v; want %q and no plan", p.Why, p.Made != nil, tc.why)
			}
		})
	}
	if k := a.Plan(advice.PlanAsk{}).Known; k.Week <= 0 || !k.Room || k.Coolest != 180 || k.Warmest != 230 {
		t.Errorf("known %+v; want what the kitchen made a week and its room", k)
	}
	if p := a.Plan(advice.PlanAsk{People: 2, Species: "jumping-worms"}); p.Made == nil || p.Made.Worms != 0 || !slices.Contains(p.Made.Caution, string(plan.JumpingCaution)) {
		t.Errorf("plan %+v; want the caution alone", p.Made)
	}
}
