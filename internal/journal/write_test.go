package journal_test

import (
	"encoding/json"
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/internal/units"
	"trayside/sync/oplog"
	"trayside/sync/replica"
)

// bench is one phone with a small household: a bin with trays Fern and Slate, a
// removed tray, a bowl of 300 g, one feeding.
type bench struct {
	t      testing.TB
	rep    *replica.Replica
	reader *journal.Reader
	rng    *rand.Rand
	now    int64

	added, founding []oplog.Sealed // all so far; of them what newBench wrote

	tamsin, bin, other, fern, slate, old, bowl, feeding, look, batch string
}

const device = "11112222333344445555666677778888"

func newBench(t testing.TB) *bench {
	t.Helper()
	rep := replica.New(journal.Schema())
	b := &bench{t: t, rep: rep, reader: journal.NewReader(rep), rng: rand.New(rand.NewPCG(1, 1)), now: 1_790_000_000_000}
	b.tamsin = b.do(journal.Intent{Do: journal.DoMember, Set: map[string]any{"name": "Tamsin"}})
	b.bin = b.do(journal.Intent{Do: journal.DoBin, Set: map[string]any{"name": "Cellar", "species": "eisenia-fetida"}})
	b.other = b.do(journal.Intent{Do: journal.DoBin, Set: map[string]any{"name": "Porch", "species": "not-sure"}})
	for _, tray := range []struct {
		ent  *string
		name string
	}{{&b.fern, "Fern"}, {&b.slate, "Slate"}, {&b.old, "Old"}} {
		*tray.ent = b.do(journal.Intent{Do: journal.DoTray, Bin: b.bin, Set: map[string]any{"name": tray.name, "width": 400, "depth": 300, "height": 150}})
	}
	b.do(journal.Intent{Do: journal.DoUndo, Entity: b.old})
	b.batch = b.do(journal.Intent{Do: journal.DoBatch, Tray: b.fern})
	b.bowl = b.do(journal.Intent{Do: journal.DoBowl, Items: []record.Item{{Scrap: "carrot", Grams: 200}, {Scrap: "tea-leaves", Grams: 100}}})
	b.feeding = b.do(journal.Intent{Do: journal.DoFeed, Tray: b.fern, Items: []record.Item{{Scrap: "carrot", Grams: 80}}})
	b.look = b.do(journal.Intent{Do: journal.DoLook, Tray: b.fern, Smell: "earthy"})
	b.founding = b.added
	return b
}

func (b *bench) scene() journal.Scene {
	random := make([]byte, 16)
	for i := range random {
		random[i] = byte(b.rng.Uint32())
	}
	b.now += 1000
	return journal.Scene{
		Replica: b.rep, Record: b.reader.Household(), Member: b.tamsin, Device: device, Now: b.now, Random: random,
	}
}

func (b *bench) write(in journal.Intent) (journal.Written, error) {
	w, err := journal.Write(b.scene(), in)
	if err == nil {
		b.add(w.Ops...)
	}
	return w, err
}

func (b *bench) add(ops ...oplog.Sealed) {
	for _, op := range ops {
		b.rep.Add(op)
		b.reader.Touch(op.Op.Ent)
	}
	b.added = append(b.added, ops...)
}

func (b *bench) do(in journal.Intent) string {
	b.t.Helper()
	w, err := b.write(in)
	if err != nil {
		b.t.Fatalf("%s: %v", in.Do, err)
	}
	return w.Entity
}

func TestBadInputIsRefusedWithItsFieldAndWritesNothing(t *testing.T) {
	b := newBench(t)
	carrot := func(grams int64) []record.Item { return []record.Item{{Scrap: "carrot", Grams: units.Grams(grams)}} }
	hot, wet, less := int64(900), int64(1_001), int64(-1)
	hash := strings.Repeat("0a", 32)
	for _, tc := range []struct {
		name        string
		in          journal.Intent
		code, field string
	}{
		{"nothing that can be done", journal.Intent{Do: "dance"}, journal.CodeUnknownDo, "do"},
		{"a negative weight", journal.Intent{Do: journal.DoFeed, Tray: b.fern, Items: carrot(-5)}, journal.CodeNegative, "items.0.g"},
		{"an empty scale", journal.Intent{Do: journal.DoFeed, Tray: b.fern, Items: carrot(0)}, journal.CodeZero, "items"},
		{"no scraps at all", journal.Intent{Do: journal.DoFeed, Tray: b.fern}, journal.CodeEmpty, "items"},
		{"more than anybody carries", journal.Intent{Do: journal.DoFeed, Tray: b.fern, Items: carrot(200_001)}, journal.CodeTooMuch, "items.0.g"},
		{"too many kinds", journal.Intent{Do: journal.DoFeed, Tray: b.fern, Items: slices.Repeat(carrot(1), 25)}, journal.CodeTooMany, "items"},
		{"no scrap named", journal.Intent{Do: journal.DoBowl, Items: []record.Item{{Grams: 5}}}, journal.CodeScrap, "items.0.scrap"},
		{"other without a class", journal.Intent{Do: journal.DoBowl, Items: []record.Item{{Scrap: "other", Grams: 5}}}, journal.CodeScrap, "items.0.class"},
		{"no tray named", journal.Intent{Do: journal.DoFeed, Items: carrot(5)}, journal.CodeTray, "tray"},
		{"a tray of nobody", journal.Intent{Do: journal.DoFeed, Tray: "tray/77", Items: carrot(5)}, journal.CodeTray, "tray"},
		{"a bin where a tray belongs", journal.Intent{Do: journal.DoFeed, Tray: b.bin, Items: carrot(5)}, journal.CodeTray, "tray"},
		{"a removed tray", journal.Intent{Do: journal.DoFeed, Tray: b.old, Items: carrot(5)}, journal.CodeTrayGone, "tray"},
		{"a tray of another bin", journal.Intent{Do: journal.DoFeed, Tray: b.fern, Bin: b.other, Items: carrot(5)}, journal.CodeTrayBin, "tray"},
		{"a place that no tray has", journal.Intent{Do: journal.DoFeed, Tray: b.fern, Spot: "under", Items: carrot(5)}, journal.CodeSpot, "spot"},
		{"a stranger as a member", journal.Intent{Do: journal.DoFeed, Tray: b.fern, Member: "member/77", Items: carrot(5)}, journal.CodeMember, "member"},
		{"a day that is none", journal.Intent{Do: journal.DoFeed, Tray: b.fern, Day: "2026-02-30", Items: carrot(5)}, journal.CodeWhen, "day"},
		{"a time without offset", journal.Intent{Do: journal.DoFeed, Tray: b.fern, At: "2026-11-25T08:30:00", Items: carrot(5)}, journal.CodeWhen, "at"},
		{"a look that says nothing", journal.Intent{Do: journal.DoLook, Tray: b.fern}, journal.CodeEmpty, "leftovers"},
		{"a bed of ninety degrees", journal.Intent{Do: journal.DoLook, Tray: b.fern, Temp: &hot}, journal.CodeTemperature, "temp"},
		{"leftovers in a word nobody knows", journal.Intent{Do: journal.DoLook, Tray: b.fern, Leftovers: "plenty"}, journal.CodeField, "leftovers"},
		{"no bowl named", journal.Intent{Do: journal.DoPlace}, journal.CodeBowl, "bowl"},
		{"a bowl of nobody", journal.Intent{Do: journal.DoPlace, Bowl: "bowl/77"}, journal.CodeBowl, "bowl"},
		{"shares beyond the bowl", journal.Intent{Do: journal.DoPlace, Bowl: b.bowl, Shares: []journal.Share{{To: "tray", Tray: b.fern, Grams: 200}, {To: "freezer", Grams: 101}}}, journal.CodeBowlShort, "shares"},
		{"a negative share", journal.Intent{Do: journal.DoPlace, Bowl: b.bowl, Shares: []journal.Share{{To: "waste", Grams: -1}}}, journal.CodeNegative, "shares.0.grams"},
		{"a share of nothing", journal.Intent{Do: journal.DoPlace, Bowl: b.bowl, Shares: []journal.Share{{To: "waste"}}}, journal.CodeZero, "shares.0.grams"},
		{"a share to nowhere", journal.Intent{Do: journal.DoPlace, Bowl: b.bowl, Shares: []journal.Share{{To: "moon", Grams: 10}}}, journal.CodeShare, "shares.0.to"},
		{"a good share before one into a removed tray", journal.Intent{Do: journal.DoPlace, Bowl: b.bowl, Shares: []journal.Share{{To: "freezer", Grams: 10}, {To: "tray", Tray: b.old, Grams: 10}}}, journal.CodeTrayGone, "shares.1.tray"},
		{"no shares", journal.Intent{Do: journal.DoPlace, Bowl: b.bowl}, journal.CodeEmpty, "shares"},
		{"an undo of nothing", journal.Intent{Do: journal.DoUndo, Entity: "feeding/77"}, journal.CodeEntry, "entity"},
		{"an edit of nothing", journal.Intent{Do: journal.DoEdit, Entity: "feeding/77", Set: map[string]any{"note": "x"}}, journal.CodeEntry, "entity"},
		{"an edit that changes nothing", journal.Intent{Do: journal.DoEdit, Entity: b.feeding}, journal.CodeEmpty, "set"},
		{"an edit of a field that no feeding has", journal.Intent{Do: journal.DoEdit, Entity: b.feeding, Set: map[string]any{"colour": "red"}}, journal.CodeField, "set.colour"},
		{"an edit to less than nothing", journal.Intent{Do: journal.DoEdit, Entity: b.feeding, Set: map[string]any{"items": carrot(-1)}}, journal.CodeNegative, "set.items.0.g"},
		{"an edit into a removed tray", journal.Intent{Do: journal.DoEdit, Entity: b.feeding, Set: map[string]any{"tray": b.old}}, journal.CodeTrayGone, "set.tray"},
		{"a note longer than any page", journal.Intent{Do: journal.DoFeed, Tray: b.fern, Items: carrot(5), Note: string(slices.Repeat([]byte("ab "), 800))}, journal.CodeField, "note"},
		{"a bin without a species", journal.Intent{Do: journal.DoBin, Set: map[string]any{"name": "Attic"}}, journal.CodeMissing, "species"},
		{"a tray of negative width", journal.Intent{Do: journal.DoTray, Bin: b.bin, Set: map[string]any{"name": "Ash", "width": -1}}, journal.CodeNegative, "set.width"},
		{"a tray as wide as a room", journal.Intent{Do: journal.DoTray, Bin: b.bin, Set: map[string]any{"name": "Ash", "width": 3_001, "depth": 300, "height": 150}}, journal.CodeField, "set.width"},
		{"a tonne of worms", journal.Intent{Do: journal.DoWorms, Bin: b.bin, Set: map[string]any{"move": "added", "mass": 1_000_000}}, journal.CodeField, "set.mass"},
		{"a room as hot as an oven", journal.Intent{Do: journal.DoBin, Set: map[string]any{"name": "Attic", "species": "not-sure", "warmest": 2_000}}, journal.CodeTemperature, "set.warmest"},
		{"a vessel heavier than anybody carries", journal.Intent{Do: journal.DoVessel, Set: map[string]any{"name": "mug", "grams": 230_000}}, journal.CodeField, "set.grams"},
		{"a tray of no size", journal.Intent{Do: journal.DoTray, Bin: b.bin, Set: map[string]any{"name": "Ash", "width": 0, "depth": 1, "height": 1}}, journal.CodeMissing, "width"},
		{"a tray for no bin", journal.Intent{Do: journal.DoTray, Bin: "bin/77", Set: map[string]any{"name": "Ash"}}, journal.CodeBin, "bin"},
		{"a claim without a code", journal.Intent{Do: journal.DoClaim, Tray: b.fern}, journal.CodeMissing, "set.code"},
		{"a stack with a tray twice", journal.Intent{Do: journal.DoStack, Bin: b.bin, Set: map[string]any{"trays": []string{b.fern, b.fern}}}, journal.CodeField, "set.trays"},
		{"a second batch while one is open", journal.Intent{Do: journal.DoBatch, Tray: b.fern}, journal.CodeBatchOpen, "tray"},
		{"a stage that no batch has", journal.Intent{Do: journal.DoStage, Entity: b.batch, Set: map[string]any{"stage": "asleep"}}, journal.CodeField, "set.stage"},
		{"worms without a weight", journal.Intent{Do: journal.DoWorms, Bin: b.bin, Set: map[string]any{"move": "added"}}, journal.CodeMissing, "mass"},
		{"a visitor that nobody knows", journal.Intent{Do: journal.DoLook, Tray: b.fern, Visitors: []string{"dragons"}}, journal.CodeField, "visitors"},
		{"a bed wetter than water", journal.Intent{Do: journal.DoLook, Tray: b.fern, Meter: &wet}, journal.CodeField, "meter"},
		{"less than nothing drained", journal.Intent{Do: journal.DoLook, Tray: b.fern, Liquid: &less}, journal.CodeNegative, "liquid"},
		{"an edit to a tray nobody could lift", journal.Intent{Do: journal.DoEdit, Entity: b.look, Set: map[string]any{"weight": 200_001}}, journal.CodeField, "set.weight"},
		{"a sample of no scoops", journal.Intent{Do: journal.DoSample, Tray: b.fern, Adults: 12}, journal.CodeMissing, "scoops"},
		{"fewer than no worms", journal.Intent{Do: journal.DoSample, Tray: b.fern, Scoops: 3, ML: 250, Adults: -1}, journal.CodeNegative, "adults"},
		{"a harvest from no tray", journal.Intent{Do: journal.DoHarvest, Grams: 500}, journal.CodeTray, "tray"},
		{"a harvest by magic", journal.Intent{Do: journal.DoHarvest, Tray: b.fern, Method: "magic"}, journal.CodeField, "method"},
		{"a picture of nothing", journal.Intent{Do: journal.DoPhoto, Of: "look/77", Hash: hash, Type: "image/jpeg"}, journal.CodeEntry, "of"},
		{"a picture with half a name", journal.Intent{Do: journal.DoPhoto, Of: b.feeding, Hash: hash[:20], Type: "image/jpeg"}, journal.CodeField, "hash"},
		{"a picture brought back", journal.Intent{Do: journal.DoRedo, Entity: "photo/77"}, journal.CodeEntry, "entity"},
		{"a rule for nothing", journal.Intent{Do: journal.DoRule, Verdict: record.RuleNever}, journal.CodeMissing, "scrap"},
		{"a rule that allows", journal.Intent{Do: journal.DoRule, Scrap: "onion", Verdict: "fine"}, journal.CodeField, "set.verdict"},
		{"nothing out of the freezer", journal.Intent{Do: journal.DoFreeze, Items: carrot(0)}, journal.CodeZero, "items"},
		{"less than nothing to the waste", journal.Intent{Do: journal.DoDiscard, Items: carrot(-1)}, journal.CodeNegative, "items.0.g"},
		{"more than all worms lost", journal.Intent{Do: journal.DoWorms, Bin: b.bin, Set: map[string]any{"move": "lost", "share": 101}}, journal.CodeField, "set.share"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			w, err := journal.Write(b.scene(), tc.in)
			var r *journal.Refusal
			if !errors.As(err, &r) || r.Code != tc.code || r.Field != tc.field || r.Detail == "" {
				t.Fatalf("Write refused with %+v; want code %q at %q and a sentence", err, tc.code, tc.field)
			}
			if len(w.Ops) != 0 {
				t.Errorf("a refused intent gave %d operations; want none", len(w.Ops))
			}
		})
	}
}

func TestWhatIsAlreadyInTheBinIsAlwaysTaken(t *testing.T) {
	b := newBench(t)
	for _, in := range []journal.Intent{
		{Do: journal.DoFeed, Tray: b.fern, InBin: true, Items: []record.Item{{Scrap: "carrot", Grams: 250_000}}},
		{Do: journal.DoFeed, Tray: b.old, InBin: true, Items: []record.Item{{Scrap: "carrot", Grams: 50}}},
	} {
		if _, err := b.write(in); err != nil {
			t.Errorf("Write refused what is in the bin: %v", err)
		}
	}
}

func TestABowlIsPlacedInOneGoAndAddsUp(t *testing.T) {
	b := newBench(t)
	w, err := b.write(journal.Intent{Do: journal.DoPlace, Bowl: b.bowl, Shares: []journal.Share{
		{To: journal.ToTray, Tray: b.fern, Spot: "left", Grams: 101}, {To: journal.ToFreezer, Grams: 50}, {To: journal.ToWaste, Grams: 33},
	}})
	if err != nil || len(w.Ops) != 3 {
		t.Fatalf("Write gave %d operations, %v; want 3", len(w.Ops), err)
	}
	h := b.reader.Household()
	f := h.Feedings[len(h.Feedings)-1]
	if f.ID != w.Entity || f.Bowl != b.bowl || f.Bin != b.bin || record.Total(f.Items) != 101 {
		t.Errorf("feeding %+v; want 101 g of the bowl", f)
	}
	if got := record.Total(h.Freezer[0].Items); got != 50 {
		t.Errorf("%d g frozen; want 50", got)
	}
	if got := record.Total(h.Left(h.Bowls[0])); got != 300-101-50-33 {
		t.Errorf("%d g left in the bowl; want %d", got, 300-101-50-33)
	}
	b.do(journal.Intent{Do: journal.DoUndo, Entity: w.Entity})
	h = b.reader.Household()
	if got := record.Total(h.Left(h.Bowls[0])); got != 300-50-33 {
		t.Errorf("after the feeding was undone %d g are left; want %d", got, 300-50-33)
	}
	b.do(journal.Intent{Do: journal.DoPlace, Bowl: b.bowl, Shares: []journal.Share{{To: journal.ToTray, Tray: b.slate, Grams: 217}}})
	_, err = b.write(journal.Intent{Do: journal.DoPlace, Bowl: b.bowl, Shares: []journal.Share{{To: journal.ToWaste, Grams: 1}}})
	if r := (*journal.Refusal)(nil); !errors.As(err, &r) || r.Code != journal.CodeBowlEmpty {
		t.Errorf("placing an empty bowl: %v; want %s", err, journal.CodeBowlEmpty)
	}
}

func TestABowlThatNobodyWeighedIsPlacedWhole(t *testing.T) {
	b := newBench(t)
	bowl := b.do(journal.Intent{Do: journal.DoBowl, How: record.Unweighed, Items: []record.Item{{Scrap: "carrot"}}})
	b.do(journal.Intent{Do: journal.DoPlace, Bowl: bowl, Shares: []journal.Share{{To: journal.ToTray, Tray: b.fern}}})
	h := b.reader.Household()
	if f := h.Feedings[len(h.Feedings)-1]; f.Bowl != bowl || f.How != record.Unweighed || len(f.Items) != 1 {
		t.Errorf("feeding %+v; want the bowl's carrot, not weighed", f)
	}
	if left := h.Left(h.Bowls[len(h.Bowls)-1]); len(left) != 0 {
		t.Errorf("left in the bowl: %v; want nothing", left)
	}
}

func TestUndoRedoAndEditTellTheStory(t *testing.T) {
	b := newBench(t)
	grams := func() units.Grams { return record.Total(b.reader.Household().Feedings[0].Items) }
	edit, err := b.write(journal.Intent{Do: journal.DoEdit, Entity: b.feeding, Set: map[string]any{"items": []record.Item{{Scrap: "carrot", Grams: 120}}}})
	if err != nil || len(edit.Ops) != 1 || len(edit.Ops[0].Op.Set) != 1 || edit.Ops[0].Op.Day != "" {
		t.Fatalf("edit gave %+v, %v; want one operation with one field and no day", edit.Ops, err)
	}
	if f := b.reader.Household().Feedings[0]; grams() != 120 || !f.Edited {
		t.Errorf("after the edit: %d g, edited %v; want 120 g, edited", grams(), f.Edited)
	}
	b.do(journal.Intent{Do: journal.DoUndo, Entity: edit.Ops[0].ID.String()})
	if grams() != 80 {
		t.Errorf("after the edit was undone: %d g; want 80", grams())
	}
	b.do(journal.Intent{Do: journal.DoUndo, Entity: b.feeding})
	if h := b.reader.Household(); len(h.Feedings) != 0 || len(h.Undone.Feedings) != 1 {
		t.Errorf("after undo: %d feedings, %d undone; want 0, 1", len(h.Feedings), len(h.Undone.Feedings))
	}
	again, err := b.write(journal.Intent{Do: journal.DoUndo, Entity: b.feeding})
	if err != nil || len(again.Ops) != 0 || again.Entity != b.feeding {
		t.Errorf("undoing twice gave %d operations, %v; want none", len(again.Ops), err)
	}
	b.do(journal.Intent{Do: journal.DoRedo, Entity: b.feeding})
	if h := b.reader.Household(); len(h.Feedings) != 1 || len(h.Undone.Feedings) != 0 {
		t.Errorf("after redo: %d feedings, %d undone; want 1, 0", len(h.Feedings), len(h.Undone.Feedings))
	}
}

func TestBeforeTheLogIsReadEveryEntryIsWrittenAllTheSame(t *testing.T) {
	s := newBench(t).scene()
	s.Record, s.Replica = nil, replica.New(journal.Schema())
	for _, in := range []journal.Intent{
		{Do: journal.DoFeed, Tray: "tray/77", Bin: "bin/77", Items: []record.Item{{Scrap: "carrot", Grams: 5}}},
		{Do: journal.DoPlace, Bowl: "bowl/77", Items: []record.Item{{Scrap: "carrot", Grams: 50}}, Shares: []journal.Share{{To: "tray", Tray: "tray/77", Grams: 50}}},
		{Do: journal.DoUndo, Entity: "feeding/77"},
		{Do: journal.DoEdit, Entity: "feeding/77", Set: map[string]any{"note": "dry"}},
	} {
		if w, err := journal.Write(s, in); err != nil || len(w.Ops) != 1 {
			t.Errorf("%s: %d operations, %v; want one", in.Do, len(w.Ops), err)
		}
	}
}

func TestEveryOperationOfAnIntentPassesTheSchema(t *testing.T) {
	b := newBench(t)
	if h := b.reader.Household(); len(h.Aside) != 0 || h.Unread != 0 {
		t.Errorf("asides %v, unread %d; want none", h.Aside, h.Unread)
	}
}

func TestAnIntentComesInAsJSON(t *testing.T) {
	b := newBench(t)
	var in journal.Intent
	text := `{"do":"tray","bin":"` + b.bin + `","set":{"name":"Ash","width":300,"depth":300,"height":120}}`
	if err := json.Unmarshal([]byte(text), &in); err != nil {
		t.Fatal(err)
	}
	b.do(in)
	h := b.reader.Household()
	if tray := h.Trays[len(h.Trays)-1]; tray.Name != "Ash" || tray.Width != 300 {
		t.Errorf("tray %+v; want Ash, 300 mm wide", tray)
	}
}
