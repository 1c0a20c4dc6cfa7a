package advice_test

import (
	"slices"
	"testing"

	"trayside/internal/advice"
	"trayside/internal/record"
	"trayside/internal/units"
)

func TestTaughtComparesTheSameDayWithAndWithoutTheLook(t *testing.T) {
	h := household()
	without := adviceOn(h, today).Tray(upper).Ration.Grams
	h.Looks = append(h.Looks, record.Look{
		ID: "look/now", Bin: kitchen, Tray: upper, Leftovers: record.LeftMost,
		Who: record.Who{Member: ben}, Day: today, At: clock(today, "19:00"),
	})
	a := adviceOn(h, today)
	v := a.Taught(upper)
	if !v.Known || v.Entity != "look/now" || v.Kind != "look" || v.Who != "Ben" {
		t.Fatalf("taught says %+v, want Ben's look", v)
	}
	if v.Ration.Before != without || v.Ration.After != a.Tray(upper).Ration.Grams {
		t.Errorf("ration went from %d to %d, want from %d to %d", v.Ration.Before, v.Ration.After, without, a.Tray(upper).Ration.Grams)
	}
	if v.Ration.After >= v.Ration.Before || v.Lying.After <= v.Lying.Before {
		t.Errorf("most was left, and the ration went from %d to %d, what lies there from %d to %d", v.Ration.Before, v.Ration.After, v.Lying.Before, v.Lying.After)
	}
}

func TestTaughtTellsOfAHold(t *testing.T) {
	h := household()
	h.Looks = append(h.Looks, record.Look{ID: "look/now", Bin: kitchen, Tray: upper, Smell: "ammonia", Day: today, At: clock(today, "19:00")})
	if v := adviceOn(h, today).Taught(upper); !v.Held || v.Freed {
		t.Errorf("held %v, freed %v, want a hold that the smell began", v.Held, v.Freed)
	}
}

func TestTaughtSaysNothingOfOldLooksOrStrangeTrays(t *testing.T) {
	h := household()
	h.Looks, h.Worms = nil, h.Worms[:0:0]
	h.Looks = append(h.Looks, record.Look{ID: "look/old", Bin: kitchen, Tray: upper, Leftovers: record.LeftSome, Day: today - 8})
	a := adviceOn(h, today)
	for _, tray := range []string{upper, "tray/none", cellar} {
		if v := a.Taught(tray); v.Known {
			t.Errorf("%s: taught says %+v, want nothing", tray, v)
		}
	}
}

func TestCatchUpNamesDaysThatNobodyWroteDown(t *testing.T) {
	h := household()
	h.Feedings = slices.DeleteFunc(h.Feedings, func(f record.Feeding) bool { return f.Day > today-9 })
	for _, row := range []struct {
		name string
		fed  []record.Day
		want []string
	}{
		{"a week without a line", nil, []string{day(-6), day(-4), day(-2)}},
		{"written yesterday", []record.Day{today - 1}, []string{day(-6), day(-4), day(-2)}},
		{"written every day but one", []record.Day{today - 7, today - 6, today - 5, today - 4, today - 3, today - 1}, []string{day(-2)}},
	} {
		t.Run(row.name, func(t *testing.T) {
			h := *h
			h.Feedings = slices.Clone(h.Feedings)
			for _, d := range row.fed {
				h.Feedings = append(h.Feedings, record.Feeding{ID: "feeding/" + d.String(), Bin: kitchen, Tray: upper, Items: []record.Item{{Scrap: "kale", Grams: 90}}, Day: d, At: clock(d, "18:00")})
			}
			v := adviceOn(&h, today).CatchUp()
			i := slices.IndexFunc(v.Bins, func(m advice.Missed) bool { return m.Bin == kitchen })
			if i < 0 {
				t.Fatal("the kitchen's bin is missing")
			}
			if got := v.Bins[i].Week; !slices.Equal(got, row.want) {
				t.Errorf("days without a meal are %v, want %v", got, row.want)
			}
			var sum int64
			for _, it := range v.Bins[i].Items {
				sum += it.Grams
			}
			if v.Bins[i].Usual <= 0 || sum != v.Bins[i].Usual {
				t.Errorf("the usual meal is %d g of items of %d g", v.Bins[i].Usual, sum)
			}
		})
	}
}

func day(ago record.Day) string { return (today + ago).String() }

func TestAGapIsOfferedOnlyWhenItIsLong(t *testing.T) {
	h := household()
	h.Feedings = slices.DeleteFunc(h.Feedings, func(f record.Feeding) bool { return f.Day > today-8 })
	last := slices.MaxFunc(h.Feedings, func(x, y record.Feeding) int {
		return int(x.Day-y.Day) + map[bool]int{true: 0, false: -1000}[x.Bin == kitchen]
	})
	since := int(today - last.Day)
	if v := adviceOn(h, last.Day+8).Tray(upper); v.Gap != 0 {
		t.Errorf("eight days after the last meal the gap is %d, want none: it is fed every %d days", v.Gap, meal)
	}
	if v := adviceOn(h, today+9).Tray(upper); v.Gap != since+9 {
		t.Errorf("the gap is %d days, want %d", v.Gap, since+9)
	}
}

func TestAChildsLargeMealIsToldAndASmallOneIsNot(t *testing.T) {
	for _, row := range []struct {
		name  string
		who   string
		grams int
		told  bool
	}{
		{"a child's large meal", child, 900, true},
		{"a child's small meal", child, 10, false},
		{"a grown-up's large meal", ana, 900, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			h := household()
			advised := adviceOn(h, today).Tray(upper).Ration.Grams
			h.Feedings = append(h.Feedings, record.Feeding{
				ID: "feeding/z", Bin: kitchen, Tray: upper, Items: []record.Item{{Scrap: "kale", Grams: 0}},
				Who: record.Who{Member: row.who}, Day: today, At: clock(today, "20:00"),
			})
			f := &h.Feedings[len(h.Feedings)-1]
			f.Items[0].Grams = units.Grams(row.grams)
			told := adviceOn(h, today).Today().Told
			if (len(told) == 1) != row.told {
				t.Fatalf("told of %+v, want one: %v", told, row.told)
			}
			if row.told && (told[0].Ration != advised || told[0].Name != "Upper") {
				t.Errorf("told that %d g were advised into %s, want %d g into Upper", told[0].Ration, told[0].Name, advised)
			}
		})
	}
}

func TestTheTimelineIsNarrowedAndReadDownToADay(t *testing.T) {
	h := household()
	pictured := h.Looks[0].ID
	h.Photos = append(h.Photos, record.Photo{ID: "photo/1", Of: pictured, Day: today})
	a := adviceOn(h, today)
	all := a.Timeline(advice.TimelineAsk{}, 10000)
	count := func(v advice.TimelineView, keep func(advice.Entry) bool) (n int) {
		for _, d := range v.Days {
			for _, e := range d.Entries {
				if keep(e) {
					n++
				}
			}
		}
		return n
	}
	every := func(advice.Entry) bool { return true }
	for _, row := range []struct {
		name string
		ask  advice.TimelineAsk
		keep func(advice.Entry) bool
	}{
		{"one bin", advice.TimelineAsk{Bin: shed}, func(e advice.Entry) bool { return e.Bin == shed }},
		{"one kind", advice.TimelineAsk{Kind: "look"}, func(e advice.Entry) bool { return e.Kind == "look" }},
		{"pictures", advice.TimelineAsk{Kind: "photo"}, func(e advice.Entry) bool { return e.Entity == pictured }},
		{"one person", advice.TimelineAsk{Who: ben}, func(e advice.Entry) bool { return e.Member == ben }},
	} {
		v := a.Timeline(row.ask, 10000)
		if got, want := count(v, every), count(all, row.keep); got != want || want == 0 {
			t.Errorf("%s: %d entries, want the %d of the whole timeline", row.name, got, want)
		}
	}
	first := a.Timeline(advice.TimelineAsk{}, 5)
	again := a.Timeline(advice.TimelineAsk{Until: first.Next}, 1)
	if again.Next != first.Next || len(again.Days) != len(first.Days) {
		t.Errorf("read down to %s: %d days and next %q, want the %d days of the page", first.Next, len(again.Days), again.Next, len(first.Days))
	}
}
