package entries_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/entries"
	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/sync/oplog"
	"trayside/sync/replica"
)

// needed fields are always drawn: a line without them would not come in.
var needed = []string{"name", "bin", "tray", "trays", "code", "scrap", "verdict", "move", "of", "hash", "items"}

// drawLog draws a log: a bin with trays, then anything that the schema allows,
// edited and taken back here and there.
func drawLog(t *rapid.T) *replica.Replica {
	rep := replica.New(journal.Schema())
	stamp := int64(1_790_000_000_000)
	add := func(op oplog.Op) {
		stamp += 10
		op.V, op.T, op.Dev = oplog.Version, stamp, "d1"
		sealed, err := oplog.Seal(op)
		if err != nil {
			t.Fatal(err)
		}
		rep.Add(sealed)
	}
	fixed := func(ent, set string) {
		var fields map[string]json.RawMessage
		if err := json.Unmarshal([]byte(set), &fields); err != nil {
			t.Fatal(err)
		}
		add(oplog.Op{Ent: ent, Set: fields})
	}
	fixed("bin/0", `{"name":"Cellar"}`)
	for i := range 3 {
		fixed(fmt.Sprintf("tray/%d", i), fmt.Sprintf(`{"bin":"bin/0","name":"Tray %d","width":400,"depth":300,"height":150}`, i))
	}
	for i := range rapid.IntRange(0, 25).Draw(t, "entries") {
		kind := rapid.SampledFrom(journal.Kinds).Draw(t, "kind")
		ent := fmt.Sprintf("%s/n%d", kind.Name, i)
		if kind.Name == journal.KindHousehold {
			ent = journal.Home
		}
		set := map[string]json.RawMessage{}
		for _, f := range kind.Fields {
			if slices.Contains(needed, f.Name) || rapid.Bool().Draw(t, f.Name) {
				set[f.Name] = drawValue(t, f)
			}
		}
		op := oplog.Op{Ent: ent, Set: set}
		if rapid.Bool().Draw(t, "dated") {
			op.Day = fmt.Sprintf("2026-0%d-1%d", 1+i%9, i%10)
			op.At = op.Day + "T08:30:00+01:00"
		}
		add(op)
		if rapid.IntRange(0, 3).Draw(t, "edit") == 0 {
			f := rapid.SampledFrom(kind.Fields).Draw(t, "edited")
			add(oplog.Op{Ent: ent, Set: map[string]json.RawMessage{f.Name: drawValue(t, f)}})
		}
		if rapid.IntRange(0, 4).Draw(t, "gone") == 0 {
			gone := true
			add(oplog.Op{Ent: ent, Gone: &gone})
		}
	}
	return rep
}

func drawValue(t *rapid.T, f journal.Field) json.RawMessage {
	var v any
	word := rapid.StringMatching(`[a-zäß <&"'=+@-]{1,12}`)
	ref := func() string {
		if f.Of == journal.KindBin {
			return "bin/0"
		}
		return fmt.Sprintf("%s/%d", f.Of, rapid.IntRange(0, 2).Draw(t, "ref"))
	}
	switch f.Type {
	case journal.Text:
		v = word.Draw(t, "text")
	case journal.Word:
		v = rapid.SampledFrom(f.Words).Draw(t, "word")
	case journal.Natural, journal.Integer:
		v = rapid.IntRange(0, 100).Draw(t, "number")
	case journal.Truth:
		v = rapid.Bool().Draw(t, "truth")
	case journal.Date:
		v = "2026-05-01"
	case journal.Ref:
		v = ref()
	case journal.Refs:
		v = []string{ref()}
	case journal.Marks:
		v = []string{"mites"}
	case journal.Amounts, journal.Moves:
		v = []record.Item{{Scrap: "carrot", Grams: 5, Cut: rapid.Bool().Draw(t, "cut")}, {Scrap: "other", Class: "leafy", Name: word.Draw(t, "name"), Grams: 0}}
	}
	raw, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return raw
}

// into imports a file into a log and adds what comes of it.
func into(t testing.TB, rep *replica.Replica, file []byte) entries.Result {
	t.Helper()
	r, err := entries.Import(file, entries.Scene{Replica: rep, Device: "d2", Now: 1_800_000_000_000})
	if err != nil {
		t.Fatal(err)
	}
	for _, op := range r.Ops {
		rep.Add(op)
	}
	return r
}

func TestWhatIsExportedImportsToTheSameExport(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		rep := drawLog(rt)
		first := entries.Export(rep)
		copied := replica.New(journal.Schema())
		r := into(t, copied, first)
		if len(r.Bad) != 0 {
			rt.Fatalf("bad lines %+v of\n%s", r.Bad, first)
		}
		if copied.Unread() != 0 || len(copied.Asides()) != 0 {
			rt.Fatalf("the import wrote what the schema sets aside: %v", copied.Asides())
		}
		if second := entries.Export(copied); string(second) != string(first) {
			rt.Fatalf("exported again\n%s\nwant\n%s", second, first)
		}
		if again := into(t, copied, first); len(again.Ops) != 0 || again.Already != strings.Count(string(first), "\n")-1 {
			rt.Fatalf("imported again: %d operations, %d lines there already; want none, all", len(again.Ops), again.Already)
		}
		same(rt, journal.Read(copied), journal.Read(rep))
	})
}

// same compares what two logs say of the household, leaving out who wrote it,
// when, and what was taken back: no line tells of these.
func same(t *rapid.T, got, want *record.Household) {
	plain := func(h *record.Household) string {
		c := *h
		c.Undone, c.Asks = record.Undone{}, nil
		text, err := json.Marshal(c)
		if err != nil {
			t.Fatal(err)
		}
		var tree any
		if err := json.Unmarshal(text, &tree); err != nil {
			t.Fatal(err)
		}
		forget(tree)
		text, err = json.Marshal(tree)
		if err != nil {
			t.Fatal(err)
		}
		return strings.ReplaceAll(string(text), "[]", "null")
	}
	if plain(got) != plain(want) {
		t.Fatalf("record\n%s\nwant\n%s", plain(got), plain(want))
	}
}

func forget(tree any) {
	switch v := tree.(type) {
	case map[string]any:
		for _, name := range []string{"Device", "Logger", "Stamp", "Edited"} {
			delete(v, name)
		}
		for _, x := range v {
			forget(x)
		}
	case []any:
		for _, x := range v {
			forget(x)
		}
	}
}

func TestFeedingsComeBackFromCSVAsTheyWere(t *testing.T) {
	text := rapid.StringMatching("[a-zß,;\"'=+@\t\n-]{0,10}")
	rapid.Check(t, func(rt *rapid.T) {
		rep := replica.New(journal.Schema())
		into(t, rep, []byte(plainHousehold))
		var lines strings.Builder
		for i := range rapid.IntRange(1, 6).Draw(rt, "feedings") {
			items := []record.Item{}
			for range rapid.IntRange(1, 3).Draw(rt, "items") {
				items = append(items, record.Item{Scrap: "other", Class: "leafy", Name: text.Draw(rt, "name"), Grams: 7, Frozen: rapid.Bool().Draw(rt, "frozen")})
			}
			line, err := json.Marshal(map[string]any{
				"kind": "feeding", "id": fmt.Sprintf("feeding/%d", i), "day": "2026-05-03", "tray": "Upper", "how": "scale",
				"items": items, "note": text.Draw(rt, "note"), "guest": rapid.StringMatching("[A-Z@=]{1,5}").Draw(rt, "guest"),
			})
			if err != nil {
				rt.Fatal(err)
			}
			lines.Write(line)
			lines.WriteByte('\n')
		}
		if r := into(t, rep, []byte(lines.String())); len(r.Bad) != 0 {
			rt.Fatalf("bad lines %+v", r.Bad)
		}
		csv := entries.ExportFeedings(journal.Read(rep))
		copied := replica.New(journal.Schema())
		into(t, copied, []byte(plainHousehold))
		if r := into(t, copied, csv); len(r.Bad) != 0 {
			rt.Fatalf("bad rows %+v of\n%s", r.Bad, csv)
		}
		if again := entries.ExportFeedings(journal.Read(copied)); string(again) != string(csv) {
			rt.Fatalf("exported again\n%q\nwant\n%q", again, csv)
		}
		if r := into(t, copied, csv); len(r.Ops) != 0 {
			rt.Fatalf("imported again: %d operations; want none", len(r.Ops))
		}
	})
}
