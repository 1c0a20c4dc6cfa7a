package journal_test

import (
	"encoding/json"
	"slices"
	"testing"

	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/sync/oplog"
)

// twoClaims writes the same kind of claim twice, the second either knowing of
// the first or not, and gives both entities in that order.
func (b *bench) twoClaims(one, two journal.Intent, sees bool) (first, second string) {
	b.t.Helper()
	w, err := journal.Write(b.scene(), one)
	if err != nil {
		b.t.Fatal(err)
	}
	if sees {
		b.add(w.Ops...)
	}
	v, err := journal.Write(b.scene(), two)
	if err != nil {
		b.t.Fatal(err)
	}
	b.add(w.Ops...)
	b.add(v.Ops...)
	return w.Entity, v.Entity
}

func TestALabelIsOnTheTrayOfItsNewestClaim(t *testing.T) {
	for _, tc := range []struct {
		name      string
		sees      bool
		questions int
	}{
		{"moved by somebody who saw where it was", true, 0},
		{"claimed for two trays out of sight", false, 1},
	} {
		t.Run(tc.name, func(t *testing.T) {
			b := newBench(t)
			code := map[string]any{"code": "ABCDEFGH1"}
			first, second := b.twoClaims(
				journal.Intent{Do: journal.DoClaim, Tray: b.fern, Set: code},
				journal.Intent{Do: journal.DoClaim, Tray: b.slate, Set: code}, tc.sees)
			h := b.reader.Household()
			if len(h.Claims) != 1 || h.Claims[0].Tray != b.slate {
				t.Errorf("claims %+v; want the label on Slate", h.Claims)
			}
			for _, tray := range h.Trays {
				want := map[string]string{b.slate: "ABCDEFGH1"}[tray.ID]
				if tray.Code != want {
					t.Errorf("tray %s has code %q; want %q", tray.Name, tray.Code, want)
				}
			}
			if len(h.Asks) != tc.questions {
				t.Fatalf("questions %+v; want %d", h.Asks, tc.questions)
			}
			if tc.questions == 1 && (h.Asks[0].Kind != "label" || h.Asks[0].Holds != second || len(h.Asks[0].Ents) != 1 || h.Asks[0].Ents[0] != first) {
				t.Errorf("question %+v; want label, the first claim against the second", h.Asks[0])
			}
		})
	}
}

func TestANewClaimSettlesAQuestion(t *testing.T) {
	b := newBench(t)
	code := map[string]any{"code": "ABCDEFGH1"}
	b.twoClaims(
		journal.Intent{Do: journal.DoClaim, Tray: b.fern, Set: code},
		journal.Intent{Do: journal.DoClaim, Tray: b.slate, Set: code}, false)
	b.do(journal.Intent{Do: journal.DoClaim, Tray: b.fern, Set: code})
	if h := b.reader.Household(); len(h.Asks) != 0 || h.Claims[0].Tray != b.fern {
		t.Errorf("questions %+v, claims %+v; want none and the label on Fern", h.Asks, h.Claims)
	}
}

func TestTheNewestOrderOfAStackHolds(t *testing.T) {
	b := newBench(t)
	order := func(trays ...string) journal.Intent {
		return journal.Intent{Do: journal.DoStack, Bin: b.bin, Set: map[string]any{"trays": trays}}
	}
	b.twoClaims(order(b.fern, b.slate), order(b.slate, b.fern), false)
	h := b.reader.Household()
	if got := h.Bins[0].Stack; len(got) != 2 || got[0] != b.slate || got[1] != b.fern {
		t.Errorf("stack %v; want Slate below Fern", got)
	}
	if len(h.Asks) != 1 || h.Asks[0].Kind != "stack-order" {
		t.Errorf("questions %+v; want one about the order", h.Asks)
	}
}

func TestTwoPhonesThatSayTheSameDoNotQuarrel(t *testing.T) {
	b := newBench(t)
	in := journal.Intent{Do: journal.DoStack, Bin: b.bin, Set: map[string]any{"trays": []string{b.fern, b.slate}}}
	b.twoClaims(in, in, false)
	if h := b.reader.Household(); len(h.Asks) != 0 {
		t.Errorf("questions %+v; want none", h.Asks)
	}
}

func TestATrayThatNoOrderNamesStandsOnTop(t *testing.T) {
	b := newBench(t)
	b.do(journal.Intent{Do: journal.DoStack, Bin: b.bin, Set: map[string]any{"trays": []string{b.slate}}})
	if got := b.reader.Household().Bins[0].Stack; len(got) != 2 || got[0] != b.slate || got[1] != b.fern {
		t.Errorf("stack %v; want Slate, then Fern; removed trays left out", got)
	}
}

func TestOfTwoOpenBatchesInATrayTheNewestHolds(t *testing.T) {
	b := newBench(t)
	bed := journal.Intent{Do: journal.DoBatch, Tray: b.slate}
	first, second := b.twoClaims(bed, bed, false)
	h := b.reader.Household()
	for _, batch := range h.Batches {
		if batch.ID == first {
			t.Error("the batch that lost is still in the record")
		}
	}
	if len(h.Asks) != 1 || h.Asks[0].Kind != "open-batch" || h.Asks[0].Holds != second {
		t.Errorf("questions %+v; want one, the second batch holds", h.Asks)
	}
}

func TestBeddingAnEmptiedTrayClosesItsOldBatch(t *testing.T) {
	b := newBench(t)
	w, err := b.write(journal.Intent{Do: journal.DoBatch, Tray: b.fern, Sure: true})
	if err != nil || len(w.Ops) != 2 || w.Entity == b.batch {
		t.Fatalf("%d operations, entity %s, %v; want 2 and the new batch", len(w.Ops), w.Entity, err)
	}
	for _, batch := range b.reader.Household().Batches {
		if emptied := batch.Emptied != nil; emptied != (batch.ID == b.batch) {
			t.Errorf("batch %s emptied: %v", batch.ID, emptied)
		}
	}
}

func TestAFeedingKnowsWhatItsPhoneShowed(t *testing.T) {
	b := newBench(t)
	w, err := b.write(journal.Intent{Do: journal.DoFeed, Tray: b.slate, Items: b.reader.Household().Bowls[0].Items})
	if err != nil {
		t.Fatal(err)
	}
	h := b.reader.Household()
	for _, f := range h.Feedings {
		if f.ID == w.Entity && (len(f.Knew) != 1 || f.Knew[0] != b.feeding) {
			t.Errorf("knew %v; want %s", f.Knew, b.feeding)
		}
	}
}

func TestADayBeforeTheEarliestIsNoDay(t *testing.T) {
	b := newBench(t)
	for _, tc := range []struct {
		name string
		op   oplog.Op
		want string
	}{
		{"a year of two digits gives way to the stamp", oplog.Op{T: b.now, Day: "0026-09-21", Ent: "batch/a"}, "2026-09-21"},
		{"such a day of bedding to that of the entry", oplog.Op{T: b.now, Day: "2026-09-20", Ent: "batch/b", Set: map[string]json.RawMessage{"bedded": json.RawMessage(`"0026-09-19"`)}}, "2026-09-20"},
		{"a clock at zero to the earliest", oplog.Op{T: 0, Ent: "batch/c"}, "2000-01-01"},
		{"the earliest is a day", oplog.Op{T: b.now, Day: "2000-01-01", Ent: "batch/d"}, "2000-01-01"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			op := tc.op
			op.V, op.Dev = oplog.Version, device
			if op.Set == nil {
				op.Set = map[string]json.RawMessage{}
			}
			op.Set["tray"], op.Set["emptied"] = json.RawMessage(`"tray/x"`), json.RawMessage(`"2026-09-30"`)
			sealed, err := oplog.Seal(op)
			if err != nil {
				t.Fatal(err)
			}
			b.add(sealed)
			batches := b.reader.Household().Batches
			i := slices.IndexFunc(batches, func(x record.Batch) bool { return x.ID == op.Ent })
			if i < 0 || batches[i].Bedded.String() != tc.want {
				t.Errorf("batch %d of %+v, want it bedded on %s", i, batches, tc.want)
			}
		})
	}
}
