package exchange_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"trayside/sync/digest"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

func texts(ops []oplog.Sealed) (list []string) {
	for _, s := range ops {
		list = append(list, string(s.Bytes))
	}
	return list
}

func TestOneResultForEachOperationInOrder(t *testing.T) {
	s := newServer("i1")
	ops, refused := makeOps(t, 3, "d", 5), makeOps(t, 1, "viewer", 5)
	if _, err := s.Put(ops[:1]); err != nil {
		t.Fatal(err)
	}
	huge := strings.Repeat("x", oplog.MaxBytes+1)
	push := append(texts(ops), string(refused[0].Bytes), "no operation", huge, string(ops[1].Bytes))
	a, err := exchange.Respond(s, &s.roster, door, exchange.Request{Ops: push}, 77)
	if err != nil {
		t.Fatal(err)
	}
	want := []exchange.Result{
		{ID: ops[0].ID, Code: exchange.Dup},
		{ID: ops[1].ID, Code: exchange.Stored},
		{ID: ops[2].ID, Code: exchange.Stored},
		{ID: refused[0].ID, Code: exchange.Refused, Why: "role"},
		{ID: oplog.Hash([]byte("no operation")), Code: exchange.Refused, Why: exchange.WhyInvalid},
		{ID: oplog.Hash([]byte(huge)), Code: exchange.Refused, Why: exchange.WhyTooBig},
		{ID: ops[1].ID, Code: exchange.Dup},
	}
	if !slices.Equal(a.Results, want) {
		t.Errorf("results:\n got %v\nwant %v", a.Results, want)
	}
	if len(a.Ops) != 0 || a.More || a.Now != 77 || a.Next != (exchange.Hint{Inst: "i1", N: 3}) {
		t.Errorf("answer %+v, want no news, since all was pushed by the asker", a)
	}
	if a.Root != digest.Of(ops[0].ID, ops[1].ID, ops[2].ID) {
		t.Errorf("root %v, want that of the three stored", a.Root)
	}
}

func TestALongPushIsWrittenInPieces(t *testing.T) {
	s := newServer("i1")
	if _, err := exchange.Respond(s, &s.roster, door, exchange.Request{Ops: texts(makeOps(t, 500, "d", 5))}, 1); err != nil {
		t.Fatal(err)
	}
	if s.puts != 2 || len(s.arrivals) != 500 {
		t.Errorf("%d stored in %d pieces, want 500 in 2", len(s.arrivals), s.puts)
	}
	s = newServer("i1")
	var big []oplog.Sealed
	for i := range 80 {
		big = append(big, seal(t, oplog.Op{Dev: "d", Ent: fmt.Sprintf("note/%d", i), Set: map[string]json.RawMessage{"n": json.RawMessage(`"` + strings.Repeat("x", 8000) + `"`)}}))
	}
	if _, err := exchange.Respond(s, &s.roster, door, exchange.Request{Ops: texts(big)}, 1); err != nil {
		t.Fatal(err)
	}
	if s.puts != 3 {
		t.Errorf("640 kB went in %d pieces, want 3 of at most 256 KiB", s.puts)
	}
}

func TestNothingIsAcknowledgedWhenTheDiskIsFull(t *testing.T) {
	s := newServer("i1")
	s.broken = true
	if a, err := exchange.Respond(s, &s.roster, door, exchange.Request{Ops: texts(makeOps(t, 3, "d", 5))}, 1); err == nil {
		t.Errorf("answered %+v, want the log's error", a)
	}
}

func TestNewsComeInBoundedPieces(t *testing.T) {
	s := newServer("i1")
	ops := makeOps(t, 1200, "d", 5)
	if _, err := s.Put(ops); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name  string
		after exchange.Hint
		ops   int
		next  uint64
		more  bool
	}{
		{"a new phone starts at the first", exchange.Hint{}, 500, 500, true},
		{"it goes on from there", exchange.Hint{Inst: "i1", N: 500}, 500, 1000, true},
		{"to the end", exchange.Hint{Inst: "i1", N: 1000}, 200, 1200, false},
		{"where there is nothing new", exchange.Hint{Inst: "i1", N: 1200}, 0, 1200, false},
		{"a hint from beyond the end is ignored", exchange.Hint{Inst: "i1", N: 1201}, 0, 1200, false},
		{"a hint of another instance is ignored", exchange.Hint{Inst: "i0", N: 5}, 0, 1200, false},
	} {
		a, err := exchange.Respond(s, &s.roster, door, exchange.Request{After: c.after}, 1)
		if err != nil {
			t.Fatal(err)
		}
		if len(a.Ops) != c.ops || a.Next.N != c.next || a.More != c.more {
			t.Errorf("%s: %d operations, next %d, more %v; want %d, %d, %v", c.name, len(a.Ops), a.Next.N, a.More, c.ops, c.next, c.more)
		}
	}
}

func TestTheRosterComesWhenTheRootsDiffer(t *testing.T) {
	s := newServer("i1")
	a, err := exchange.Respond(s, &s.roster, door, exchange.Request{}, 1)
	if err != nil || a.Roster != nil {
		t.Errorf("equal roots: roster %q (%v), want none", a.Roster, err)
	}
	mine := &roster{texts: []string{"ok 1"}}
	a, err = exchange.Respond(s, &s.roster, door, exchange.Request{RosterRoot: mine.Root()}, 1)
	if err != nil || a.Roster == nil || len(a.Roster) != 0 {
		t.Errorf("an empty roster against one: %q (%v), want a list of none", a.Roster, err)
	}
	a, err = exchange.Respond(s, &s.roster, door, exchange.Request{RosterRoot: mine.Root(), Roster: []string{"ok 1", "forged"}}, 1)
	if err != nil || a.Roster != nil || !slices.Equal(s.roster.texts, []string{"ok 1"}) {
		t.Errorf("after giving it: %q, held %q (%v), want agreement", a.Roster, s.roster.texts, err)
	}
}

func TestBounds(t *testing.T) {
	s := newServer("i1")
	var many *exchange.TooMany
	if _, err := exchange.Respond(s, &s.roster, door, exchange.Request{Ops: make([]string, 501)}, 1); !errors.As(err, &many) {
		t.Errorf("501 operations: %v, want TooMany", err)
	}
	if _, err := exchange.Respond(s, &s.roster, door, exchange.Request{Roster: make([]string, 501)}, 1); !errors.As(err, &many) {
		t.Errorf("501 roster texts: %v, want TooMany", err)
	}
	for name, q := range map[string]exchange.Query{
		"months": {Days: make([]digest.Month, 13)},
		"days":   {Parts: make([]digest.Day, 17)},
		"scopes": {IDs: make([]exchange.Scope, 257)},
		"wanted": {Want: make([]oplog.ID, 501)},
	} {
		if _, err := exchange.Reconcile(s, q, 1); !errors.As(err, &many) || err.Error() == "" {
			t.Errorf("too many %s: %v, want TooMany", name, err)
		}
	}
	var bad *exchange.BadQuery
	one := []exchange.Scope{{Day: 1, Part: digest.WholeDay}}
	for name, q := range map[string]exchange.Query{
		"nothing":                    {},
		"two questions":              {Months: true, IDs: one},
		"a part beyond the last":     {IDs: []exchange.Scope{{Day: 1, Part: 256}}},
		"a part before the whole":    {IDs: []exchange.Scope{{Day: 1, Part: -2}}},
		"a cursor of nonsense":       {IDs: one, Cursor: "x"},
		"a cursor beyond the scopes": {IDs: one, Cursor: "1." + strings.Repeat("0", 32)},
		"a negative cursor":          {IDs: one, Cursor: "-1." + strings.Repeat("0", 32)},
	} {
		if _, err := exchange.Reconcile(s, q, 1); !errors.As(err, &bad) || err.Error() == "" {
			t.Errorf("%s: %v, want BadQuery", name, err)
		}
	}
}

func TestPagesOfIDsGoOverScopes(t *testing.T) {
	s := newServer("i1")
	ops := append(makeOps(t, 3000, "d", day0), makeOps(t, 2500, "e", day0+86_400_000)...)
	if _, err := s.Put(ops); err != nil {
		t.Fatal(err)
	}
	q := exchange.Query{IDs: []exchange.Scope{{Day: 20_000, Part: digest.WholeDay}, {Day: 19_999, Part: digest.WholeDay}, {Day: 20_001, Part: digest.WholeDay}}}
	got := map[oplog.ID]bool{}
	pages := 0
	for ; pages == 0 || q.Cursor != ""; pages++ {
		r, err := exchange.Reconcile(s, q, 1)
		if err != nil {
			t.Fatal(err)
		}
		if len(r.IDs) > exchange.PageIDs {
			t.Fatalf("page of %d, want at most %d", len(r.IDs), exchange.PageIDs)
		}
		for _, id := range r.IDs {
			if got[id] {
				t.Fatalf("%s is listed twice", id)
			}
			got[id] = true
		}
		q.Cursor = r.Cursor
	}
	if len(got) != len(ops) || pages != 3 {
		t.Errorf("%d ids on %d pages, want %d on 3", len(got), pages, len(ops))
	}
}
