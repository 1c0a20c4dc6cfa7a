package advice_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/advice"
	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/internal/units"
	"trayside/sync/oplog"
	"trayside/sync/replica"
)

// extreme draws a value that the schema takes, at the bounds of its type and of
// sense.
func extreme(t *rapid.T, f journal.Field) any {
	word := rapid.SampledFrom([]string{"", "x", "carrot", "other", "pizarra ☂", "\u202e\x1b[2J<img src=x>", "=1+1", "2026-11-01"})
	number := rapid.SampledFrom([]int64{0, 1, 7, 150, 400, 5_000, 200_000, 1 << 40})
	day := rapid.SampledFrom([]string{"", "2026-08-01", "2026-11-20", "2026-11-25", "2026-11-26", "9999-12-31"})
	ref := func() string { return fmt.Sprintf("%s/%d", f.Of, rapid.IntRange(0, 2).Draw(t, "ref")) }
	switch f.Type {
	case journal.Word:
		return rapid.SampledFrom(append([]string{""}, f.Words...)).Draw(t, f.Name)
	case journal.Natural:
		return number.Draw(t, f.Name)
	case journal.Integer:
		return number.Draw(t, f.Name) * rapid.SampledFrom([]int64{1, -1}).Draw(t, "sign")
	case journal.Truth:
		return rapid.Bool().Draw(t, f.Name)
	case journal.Date:
		return day.Draw(t, f.Name)
	case journal.Ref:
		return ref()
	case journal.Refs:
		return []string{ref(), ref()}
	case journal.Marks:
		return rapid.SliceOfN(rapid.SampledFrom(append([]string{"mites"}, f.Words...)), 0, 3).Draw(t, f.Name)
	case journal.Amounts, journal.Moves:
		list := []record.Item{}
		for range rapid.IntRange(0, 3).Draw(t, "items") {
			list = append(list, record.Item{
				Scrap: word.Draw(t, "scrap"), Class: rapid.SampledFrom([]string{"", "leafy", "rich", "x"}).Draw(t, "class"),
				Name: word.Draw(t, "name"), Grams: units.Grams(number.Draw(t, "g")),
			})
		}
		return list
	}
	return word.Draw(t, f.Name)
}

// anyEntry draws the nth entry of a kind: whatever a phone of ours, a later one
// or a script may have pushed.
func anyEntry(t *rapid.T, k journal.Kind, n int) oplog.Sealed {
	op := oplog.Op{
		V: oplog.Version, T: rapid.SampledFrom([]int64{1_785_000_000_000, 1_795_000_000_000, oplog.MaxStamp}).Draw(t, "stamp"),
		Dev: "d", Ent: fmt.Sprintf("%s/%d", k.Name, n), Set: map[string]json.RawMessage{},
		Day: rapid.SampledFrom([]string{"", "2026-11-01", "2026-11-20", "2026-11-25", "2027-01-01", "9999-12-31"}).Draw(t, "day"),
	}
	if k.Name == journal.KindHousehold {
		op.Ent = journal.Home
	}
	for _, f := range k.Fields {
		if rapid.IntRange(0, 4).Draw(t, "has "+f.Name) == 0 {
			continue
		}
		raw, err := json.Marshal(extreme(t, f))
		if err != nil {
			t.Fatal(err)
		}
		op.Set[f.Name] = raw
	}
	sealed, err := oplog.Seal(op)
	if err != nil {
		t.Fatal(err)
	}
	return sealed
}

func TestWhateverALogHoldsEveryScreenIsDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rep := replica.New(journal.Schema())
		for _, name := range []string{"bin", "tray", "batch", "worms", "feeding", "look"} {
			k, _ := journal.KindNamed(name)
			rep.Add(anyEntry(t, k, 0))
			rep.Add(anyEntry(t, k, 1))
		}
		for n := range rapid.IntRange(0, 12).Draw(t, "entries") {
			rep.Add(anyEntry(t, rapid.SampledFrom(journal.Kinds).Draw(t, "kind"), n%3))
		}
		day, err := record.DayOf("2026-11-25")
		if err != nil {
			t.Fatal(err)
		}
		a := advice.New(journal.Read(rep), day, advice.Phone{Device: "d", Member: "member/0", Language: "en"})
		views := []any{
			a.Today(), a.Weigh(), a.Labels(), a.Card(), a.Freezer(), a.Bin(""), a.Plan(advice.PlanAsk{}), a.Timeline(advice.TimelineAsk{}, 60), a.CatchUp(), a.Photos(""),
		}
		for n := range 3 {
			tray := fmt.Sprintf("tray/%d", n)
			views = append(views, a.Tray(tray), a.Trouble(tray), a.Batch(tray), a.Slip(tray, 1<<40, false), a.Bin(fmt.Sprintf("bin/%d", n)))
		}
		for _, v := range views {
			if _, err := json.Marshal(v); err != nil { // a number that is none
				t.Fatalf("%T: %v", v, err)
			}
		}
	})
}
