package advice_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/advice"
	"trayside/internal/record"
	"trayside/internal/units"
)

// anyHousehold draws a record that only a fold could love: references to what
// is not there, trays without size, days in the future, amounts of nothing.
func anyHousehold(t *rapid.T) *record.Household {
	tray := rapid.SampledFrom([]string{"", "tray/0", "tray/1", "tray/2", "tray/lost"})
	bin := rapid.SampledFrom([]string{"", "bin/0", "bin/1", "bin/lost"})
	spot := rapid.SampledFrom(append([]string{"", "nowhere"}, record.Spots[:]...))
	grams := rapid.SampledFrom([]units.Grams{0, 1, 40, 300, 1800, 150_000})
	day := func() record.Day { return today + record.Day(rapid.IntRange(-120, 5).Draw(t, "day")) }
	items := func() []record.Item {
		var list []record.Item
		for range rapid.IntRange(0, 3).Draw(t, "items") {
			list = append(list, record.Item{Scrap: rapid.SampledFrom([]string{"kale", "orange-peel", "eggshell", "other", "unheard-of", "cardboard"}).Draw(t, "scrap"), Class: rapid.SampledFrom([]string{"", "root", "nonsense"}).Draw(t, "class"), Grams: grams.Draw(t, "g")})
		}
		return list
	}
	maybe := func() *record.Day {
		if rapid.Bool().Draw(t, "reached") {
			return nil
		}
		d := day()
		return &d
	}
	h := &record.Household{Zone: rapid.SampledFrom([]string{"", "Europe/Paris", "Australia/Perth"}).Draw(t, "zone")}
	for i := range rapid.IntRange(0, 2).Draw(t, "bins") {
		h.Bins = append(h.Bins, record.Bin{
			ID: fmt.Sprintf("bin/%d", i), Species: rapid.SampledFrom([]record.Species{record.Eisenia, record.Dendrobaena, record.Eudrilus, record.Perionyx, record.NotSure, ""}).Draw(t, "species"),
			FeedEvery: rapid.IntRange(-1, 20).Draw(t, "every"), RoomCoolest: units.DeciCelsius(rapid.IntRange(-100, 300).Draw(t, "coolest")), RoomWarmest: units.DeciCelsius(rapid.IntRange(-100, 450).Draw(t, "warmest")),
			Stack: rapid.SliceOfN(tray, 0, 4).Draw(t, "stack"), Gone: rapid.IntRange(0, 9).Draw(t, "gone") == 0,
		})
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "trays") {
		h.Trays = append(h.Trays, record.Tray{ID: fmt.Sprintf("tray/%d", i), Bin: bin.Draw(t, "bin"), Width: units.Millimetres(rapid.SampledFrom([]int{0, 350}).Draw(t, "width")), Depth: 350, Height: units.Millimetres(rapid.SampledFrom([]int{0, 150}).Draw(t, "height"))})
	}
	for i := range rapid.IntRange(0, 4).Draw(t, "batches") {
		h.Batches = append(h.Batches, record.Batch{ID: fmt.Sprintf("batch/%d", i), Tray: tray.Draw(t, "tray"), Bedding: items(), Bedded: day(), Feeding: maybe(), Resting: maybe(), Ready: maybe(), Emptied: maybe()})
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "worms") {
		h.Worms = append(h.Worms, record.WormEvent{ID: fmt.Sprintf("worms/%d", i), Bin: bin.Draw(t, "bin"), Tray: tray.Draw(t, "tray"), Move: rapid.SampledFrom([]record.WormMove{record.WormsAdded, record.WormsRemoved, record.WormsWeighed, record.WormsLost}).Draw(t, "move"), Mass: grams.Draw(t, "g"), Share: rapid.IntRange(0, 100).Draw(t, "share"), Day: day()})
	}
	for i := range rapid.IntRange(0, 12).Draw(t, "feedings") {
		h.Feedings = append(h.Feedings, record.Feeding{ID: fmt.Sprintf("feeding/%02d", i), Bin: bin.Draw(t, "bin"), Tray: tray.Draw(t, "tray"), Spot: spot.Draw(t, "spot"), Items: items(), How: rapid.SampledFrom([]record.How{record.ByScale, record.Unweighed, record.AsAdvised, ""}).Draw(t, "how"), Device: rapid.SampledFrom([]string{"", phoneA, phoneB}).Draw(t, "device"), Bowl: rapid.SampledFrom([]string{"", "bowl/0"}).Draw(t, "bowl"), Day: day()})
	}
	for i := range rapid.IntRange(0, 6).Draw(t, "looks") {
		h.Looks = append(h.Looks, record.Look{ID: fmt.Sprintf("look/%d", i), Bin: bin.Draw(t, "bin"), Tray: tray.Draw(t, "tray"), Spot: spot.Draw(t, "spot"), Leftovers: rapid.SampledFrom([]record.Leftovers{"", record.LeftNone, record.LeftSome, record.LeftMost, "what"}).Draw(t, "left"), Smell: rapid.SampledFrom([]string{"", "sour", "earthy"}).Draw(t, "smell"), Day: day()})
	}
	for i := range rapid.IntRange(0, 2).Draw(t, "bowls") {
		h.Bowls = append(h.Bowls, record.Bowl{ID: fmt.Sprintf("bowl/%d", i), Items: items(), Day: day()})
	}
	sortRecord(h)
	return h
}

// Bad input loses nothing and stops nothing: every record can be shown, and the
// numbers of each view are whole.
func TestEveryRecordCanBeShown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := anyHousehold(t)
		a := advice.New(h, today, advice.Phone{Device: phoneA})
		v := a.Today()
		views := []any{v, a.Weigh(), a.Timeline(advice.TimelineAsk{}, 5), a.Timeline(advice.TimelineAsk{Before: "no day"}, 5), a.Slip("tray/lost", 10, false)}
		for _, tr := range h.Trays {
			views = append(views, a.Tray(tr.ID))
		}
		for _, view := range views {
			if _, err := json.Marshal(view); err != nil {
				t.Fatal(err)
			}
		}
		for _, b := range v.Bins {
			r := b.Ration
			if r.Grams < 0 || r.Answer == "" || r.Sure == "" || r.Likely.Low > r.Likely.High {
				t.Fatalf("ration %+v", r)
			}
			for _, tier := range b.Stack {
				if tier.Worms.Low > tier.Worms.Mid || tier.Worms.Mid > tier.Worms.High || tier.Worms.Low < 0 || tier.BeddingMM < 0 || tier.CastingsMM < 0 || tier.BeddingMM+tier.CastingsMM > tier.HeightMM+1 {
					t.Fatalf("tier %+v", tier)
				}
			}
		}
		for _, b := range v.Bowls {
			var sum int64
			for _, s := range b.Split {
				sum += s.Grams
			}
			if sum != b.Grams {
				t.Fatalf("a bowl of %d g is split into %d g: %+v", b.Grams, sum, b.Split)
			}
		}
	})
}

// A log of five years, two bins.
func BenchmarkTodayAfterFiveYears(b *testing.B) {
	h := household()
	long := h.Feedings
	for year := range 20 {
		for _, f := range long {
			f.ID = fmt.Sprintf("%s-%d", f.ID, year)
			f.Day -= record.Day(92 * (year + 1))
			f.At = clock(f.Day, "18:30")
			h.Feedings = append(h.Feedings, f)
		}
	}
	h.Batches[0].Bedded -= 1900
	h.Worms[0].Day -= 1900
	sortRecord(h)
	b.ReportAllocs()
	for b.Loop() {
		advice.New(h, today, advice.Phone{}).Today()
	}
}
