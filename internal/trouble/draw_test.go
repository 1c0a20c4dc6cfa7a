package trouble_test

import (
	"fmt"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/colony"
	"trayside/internal/feedstock"
	"trayside/internal/record"
	"trayside/internal/trouble"
	"trayside/internal/units"
)

// cellar is a bin of two trays, fed into the upper one, with its estimate as the
// model makes it.
func cellar(change func(*record.Household)) (*record.Household, colony.Estimate) {
	opened := today - 30
	rested := today - 30
	h := &record.Household{
		Bins: []record.Bin{{ID: "bin/c", Species: record.Eisenia, RoomCoolest: 80, RoomWarmest: 240, Stack: []string{"tray/low", "tray/top"}}},
		Trays: []record.Tray{
			{ID: "tray/low", Bin: "bin/c", Width: 400, Depth: 300, Height: 150},
			{ID: "tray/top", Bin: "bin/c", Width: 400, Depth: 300, Height: 150},
			{ID: "tray/attic", Bin: "bin/other", Width: 400, Depth: 300, Height: 150},
		},
		Batches: []record.Batch{
			{ID: "batch/1", Tray: "tray/low", Bedded: today - 200, Feeding: ptr(today - 195), Resting: &rested},
			{ID: "batch/2", Tray: "tray/top", Bedded: today - 35, Feeding: &opened},
		},
		Worms: []record.WormEvent{{ID: "worms/1", Bin: "bin/c", Tray: "tray/low", Move: record.WormsAdded, Mass: 500, Day: today - 195}},
	}
	for d := today - 194; d <= today; d += 4 {
		tray := "tray/low"
		if d >= opened {
			tray = "tray/top"
		}
		h.Feedings = append(h.Feedings, record.Feeding{ID: "feeding/" + d.String(), Bin: "bin/c", Tray: tray, Items: food("carrot", 200, "banana-peel", 100), How: record.ByScale, Day: d})
	}
	if change != nil {
		change(h)
	}
	return h, estimate(h)
}

func ptr[T any](v T) *T { return &v }

// estimate runs the first bin of a household through the model.
func estimate(h *record.Household) colony.Estimate {
	bin := h.Bins[0]
	in := colony.Input{Bin: bin.ID, Species: bin.Species, Today: today, Worms: h.Worms, Looks: h.Looks, Coolest: bin.RoomCoolest, Warmest: bin.RoomWarmest}
	for i, t := range h.Trays {
		for _, b := range h.Batches {
			if b.Tray == t.ID && t.Bin == bin.ID {
				in.Trays = append(in.Trays, colony.Tray{ID: t.ID, AreaM2: float64(t.AreaCM2()) / 1e4, Bedded: b.Bedded, Feeding: b.Feeding, Resting: b.Resting, Emptied: b.Emptied, Height: i})
			}
		}
	}
	for _, f := range h.Feedings {
		m := colony.Meal{Feeding: f.ID, Tray: f.Tray, Day: f.Day, Err: 0.02}
		for _, it := range f.Items {
			x := feedstock.Standard().FactorsOf(it.Scrap, "", false, false)
			m.Parts = append(m.Parts, colony.Part{Grams: float64(it.Grams), Appeal: x.Appeal, Soft: x.Soft, Rot: x.Rot})
		}
		in.Meals = append(in.Meals, m)
	}
	return colony.Follow(&in).Estimate()
}

func TestTheLogIsDrawnFromTheRecord(t *testing.T) {
	bed := units.DeciCelsius(175)
	h, est := cellar(func(h *record.Household) {
		h.Looks = []record.Look{
			{ID: "look/1", Bin: "bin/c", Tray: "tray/top", Squeeze: "holds", Day: today - 6},
			{ID: "look/2", Bin: "bin/c", Tray: "tray/top", Squeeze: "few-drops", Day: today - 2},
			{ID: "look/3", Bin: "bin/c", Tray: "tray/low", Squeeze: "runs", Temp: &bed, TempOf: "bed", Day: today - 1},
			{ID: "look/4", Bin: "bin/c", Tray: "tray/top", Squeeze: "crumbles", Day: today + 1},
		}
	})
	l := trouble.LogOf(h, "tray/top", today, false, est)
	var lying float64
	for _, left := range est.Lefts {
		lying += left.Soft
	}
	eats := est.Appetite.Mid * est.ByTray["tray/top"].Mid
	if l.Species != record.Eisenia || l.Squeeze != "few-drops" || l.AreaCM2 != 1200 || l.Season != trouble.Between {
		t.Errorf("got %+v", l)
	}
	if l.Age == nil || *l.Age != 195 || l.Bedded == nil || *l.Bedded != 35 {
		t.Errorf("worms came %v days ago, bedded %v; want 195, 35", *l.Age, *l.Bedded)
	}
	if d := float64(l.Lying) - lying; d < -5 || d > 5 || l.Lying == 0 {
		t.Errorf("%d g lie there, want about %.0f", l.Lying, lying)
	}
	if d := float64(l.Eats) - eats; d < -1 || d > 1 || l.Eats == 0 {
		t.Errorf("they eat %d g a day, want %.1f", l.Eats, eats)
	}
	if l.Bed == nil || *l.Bed != est.Bed {
		t.Errorf("the bed is at %v, want %d", l.Bed, est.Bed)
	}
	if want := units.Nearest(est.Live.Mid / 0.24); l.Density < want-5 || l.Density > want+5 {
		t.Errorf("density %d, want %d", l.Density, want)
	}
	if got := record.Total(l.Foods); got != 3*300 { // fed 2, 6 and 10 days ago, and 14, which no longer counts
		t.Errorf("%d g of food in two weeks, want 900", got)
	}
	soft := 3 * 300 * 0.95
	if want := int(units.Nearest(100 * soft / (est.Appetite.Mid * est.Live.Mid * 14))); l.Supply == nil || *l.Supply != want {
		t.Errorf("supply %v, want %d", *l.Supply, want)
	}
	if low := trouble.LogOf(h, "tray/low", today, false, est); low.Squeeze != "runs" || *low.Bedded != 200 {
		t.Errorf("of the tray below: %+v", low)
	}
}

func TestWhatNobodyKnowsStaysUnknown(t *testing.T) {
	h, est := cellar(func(h *record.Household) { h.Feedings = nil })
	l := trouble.LogOf(h, "tray/top", today, false, est)
	if l.Squeeze != "" || l.Bed != nil || l.Foods != nil || l.Supply != nil {
		t.Errorf("nothing was noted, and the log says %+v", l)
	}
	empty := trouble.LogOf(h, "tray/attic", today, false, colony.Estimate{})
	if empty.Bedded != nil || empty.Age != nil || empty.Eats != 0 || empty.Density != 0 {
		t.Errorf("an empty tray: %+v", empty)
	}
	if got := trouble.LogOf(h, "tray/lost", today, false, est); !reflect.DeepEqual(got, trouble.Log{}) || trouble.SeenIn(h, "tray/lost", today) != nil {
		t.Errorf("a tray that is not in the record: %+v", got)
	}
	h, est = cellar(func(h *record.Household) { h.Batches[1].Emptied = ptr(today) })
	if l := trouble.LogOf(h, "tray/top", today, false, est); l.Bedded != nil {
		t.Errorf("a tray emptied today was bedded %d days ago", *l.Bedded)
	}
}

func TestABinThatWasNotFedForTwoWeeksIsHungry(t *testing.T) {
	h, est := cellar(func(h *record.Household) {
		h.Feedings = slices.DeleteFunc(h.Feedings, func(f record.Feeding) bool { return f.Day > today-30 })
	})
	l := trouble.LogOf(h, "tray/top", today, false, est)
	if l.Supply == nil || *l.Supply != 0 {
		t.Fatalf("supply %v, want 0", l.Supply)
	}
	if got := first(diagnose(t, l, trouble.FewYoung)); got != trouble.Starved {
		t.Errorf("few young after a month without food: %s first", got)
	}
}

func TestSeasons(t *testing.T) {
	for _, c := range []struct {
		date  string
		south bool
		want  trouble.Season
	}{
		{"2026-01-15", false, trouble.Winter}, {"2026-02-20", false, trouble.Winter}, {"2026-03-20", false, trouble.Between},
		{"2026-07-15", false, trouble.Summer}, {"2026-10-15", false, trouble.Between}, {"2026-12-10", false, trouble.Winter},
		{"2026-01-15", true, trouble.Summer}, {"2026-07-15", true, trouble.Winter}, {"2026-10-15", true, trouble.Between}, {"2026-12-10", true, trouble.Summer},
	} {
		day, err := record.DayOf(c.date)
		if err != nil {
			t.Fatal(err)
		}
		h, est := cellar(nil)
		if got := trouble.LogOf(h, "tray/top", day, c.south, est).Season; got != c.want {
			t.Errorf("%s, south %v: %q, want %q", c.date, c.south, got, c.want)
		}
		h.Bins[0].RoomCoolest, h.Bins[0].RoomWarmest = 190, 220
		if got := trouble.LogOf(h, "tray/top", day, c.south, est).Season; got != "" {
			t.Errorf("a room that stays at 20 °C knows the season %q", got)
		}
	}
}

func TestLooksOfferTheirSigns(t *testing.T) {
	look := func(ago record.Day, change func(*record.Look)) record.Look {
		l := record.Look{Tray: "tray/top", Day: today - ago}
		change(&l)
		return l
	}
	smell := func(s string) func(*record.Look) { return func(l *record.Look) { l.Smell = s } }
	temp := func(d units.DeciCelsius, of string) func(*record.Look) {
		return func(l *record.Look) { l.Temp, l.TempOf = &d, of }
	}
	for _, c := range []struct {
		name  string
		looks []record.Look
		want  []trouble.Sign
	}{
		{"a sour smell yesterday", []record.Look{look(1, smell("sour"))}, []trouble.Sign{trouble.SourSmell}},
		{"a sour smell that has gone since", []record.Look{look(3, smell("sour")), look(1, smell("earthy"))}, nil},
		{"a sour smell, and a later look that smelt nothing of note", []record.Look{look(3, smell("sour")), look(1, func(l *record.Look) { l.Leftovers = record.LeftSome })}, []trouble.Sign{trouble.SourSmell}},
		{"a smell of a week ago", []record.Look{look(7, smell("rot"))}, nil},
		{"a smell noted for tomorrow", []record.Look{look(-1, smell("rot"))}, nil},
		{"ammonia in another tray", []record.Look{{Tray: "tray/low", Smell: "ammonia", Day: today}}, nil},
		{"ammonia somewhere in this bin", []record.Look{{Bin: "bin/c", Smell: "ammonia", Day: today}}, []trouble.Sign{trouble.AmmoniaSmell}},
		{"ammonia somewhere in another bin", []record.Look{{Bin: "bin/other", Smell: "ammonia", Day: today}}, nil},
		{"a hot bed", []record.Look{look(0, temp(300, "bed"))}, []trouble.Sign{trouble.HotBed}},
		{"a cold bed", []record.Look{look(0, temp(99, "bed"))}, []trouble.Sign{trouble.ColdBed}},
		{"a bed that has cooled down", []record.Look{look(2, temp(310, "bed")), look(0, temp(240, "bed"))}, nil},
		{"a hot room", []record.Look{look(0, temp(320, "room"))}, nil},
		{"water that runs and food that lies there", []record.Look{look(0, func(l *record.Look) { l.Squeeze, l.Leftovers = "runs", record.LeftMost })}, []trouble.Sign{trouble.WetBed, trouble.FoodUneaten}},
		{"a bed that crumbles", []record.Look{look(0, func(l *record.Look) { l.Squeeze = "crumbles" })}, []trouble.Sign{trouble.DryBed}},
		{"nothing amiss", []record.Look{look(0, func(l *record.Look) { l.Squeeze, l.Leftovers, l.Smell = "one-drop", record.LeftNone, "none" })}, nil},
	} {
		h, _ := cellar(func(h *record.Household) { h.Looks = c.looks })
		if got := trouble.SeenIn(h, "tray/top", today); !slices.Equal(got, c.want) {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
}

func TestARecordThatOnlyAFoldCouldLoveDoesNoHarm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tray := rapid.SampledFrom([]string{"", "tray/0", "tray/1", "tray/lost"})
		day := func() record.Day { return today + record.Day(rapid.IntRange(-300, 5).Draw(t, "day")) }
		h := &record.Household{Bins: []record.Bin{{ID: "bin/0", RoomWarmest: 100, RoomCoolest: 300}}}
		for i := range rapid.IntRange(0, 2).Draw(t, "trays") {
			h.Trays = append(h.Trays, record.Tray{ID: fmt.Sprintf("tray/%d", i), Bin: rapid.SampledFrom([]string{"bin/0", "bin/lost"}).Draw(t, "bin"), Width: units.Millimetres(rapid.IntRange(-5, 400).Draw(t, "width")), Depth: 350})
		}
		for range rapid.IntRange(0, 3).Draw(t, "batches") {
			h.Batches = append(h.Batches, record.Batch{Tray: tray.Draw(t, "tray"), Bedded: day(), Emptied: rapid.SampledFrom([]*record.Day{nil, ptr(today - 3)}).Draw(t, "emptied")})
		}
		for range rapid.IntRange(0, 5).Draw(t, "feedings") {
			h.Feedings = append(h.Feedings, record.Feeding{Bin: "bin/0", Tray: tray.Draw(t, "tray"), Day: day(), Items: rapid.SampledFrom([][]record.Item{nil, food("kale", 100), food("unheard-of", -4), food("eggshell", 0)}).Draw(t, "items")})
		}
		for range rapid.IntRange(0, 5).Draw(t, "looks") {
			h.Looks = append(h.Looks, record.Look{Tray: tray.Draw(t, "tray"), Day: day(), Smell: rapid.SampledFrom([]string{"", "sour", "of roses"}).Draw(t, "smell"), Squeeze: rapid.SampledFrom([]string{"", "runs", "howls"}).Draw(t, "squeeze")})
		}
		number := rapid.Float64()
		est := colony.Estimate{
			Started: day(), BedSeen: rapid.Bool().Draw(t, "seen"), Bed: units.DeciCelsius(rapid.Int64().Draw(t, "bed")),
			Live: colony.Span{Mid: number.Draw(t, "live")}, Appetite: colony.Span{Mid: number.Draw(t, "appetite")},
			ByTray: map[string]colony.Span{"tray/0": {Mid: number.Draw(t, "here")}}, Lefts: []colony.Left{{Tray: "tray/0", Soft: number.Draw(t, "soft")}},
		}
		at := tray.Draw(t, "asked")
		in := trouble.Input{Today: today, Log: trouble.LogOf(h, at, today, false, est), Signs: append(trouble.SeenIn(h, at, today), trouble.FoodUneaten)}
		if err := sound(in, trouble.Diagnose(in)); err != nil {
			t.Fatal(err)
		}
	})
}
