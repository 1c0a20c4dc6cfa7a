package exchange_test

import (
	"encoding/json"
	"maps"
	"slices"
	"testing"

	"trayside/sync/exchange"
)

func TestASidePutBackIsRefilled(t *testing.T) {
	for _, inst := range []string{"i1", "i2"} {
		a, s, ops := joined(t, 300)
		a.settle(t, 0)
		b := newPhone("b")
		b.open()
		b.connect(s)
		b.settle(t, 0)
		s.restore(100, inst)
		c := newPhone("c") // writes first after the restore, past the others' hints
		c.open()
		fresh := makeOps(t, 250, "c", 9)
		c.save(fresh...)
		c.connect(s)
		c.settle(t, 0)
		a.settle(t, 0)
		b.settle(t, 0)
		want := ids(append(ops, fresh...))
		if !maps.Equal(s.holds(), want) || len(s.arrivals) != len(want) {
			t.Errorf("instance %s: server holds %d, want each of %d once", inst, len(s.arrivals), len(want))
		}
		if !maps.Equal(keys(a.ops), want) || !maps.Equal(keys(b.ops), want) {
			t.Errorf("instance %s: phones hold %d and %d, want %d", inst, len(a.ops), len(b.ops), len(want))
		}
	}
}

func TestANewServerIsFoundedFromAPhone(t *testing.T) {
	p, s, ops := joined(t, 700)
	p.texts = []string{"ok found"}
	p.open()
	p.settle(t, 0)
	fresh := newServer("new")
	p.connect(fresh)
	p.settle(t, 0)
	if !maps.Equal(fresh.holds(), ids(ops)) || !slices.Equal(fresh.roster.texts, []string{"ok found"}) || len(s.roster.texts) != 1 {
		t.Errorf("new server holds %d operations and %q, want %d and the roster", len(fresh.holds()), fresh.roster.texts, len(ops))
	}
}

func TestADayOf20000IsSearchedInPartsAndPages(t *testing.T) {
	day := makeOps(t, 20_000, "import", day0)
	s, p := newServer("i1"), newPhone("a")
	for chunk := range slices.Chunk(day[:19_990], 256) {
		if _, err := s.Put(chunk); err != nil {
			t.Fatal(err)
		}
	}
	for _, op := range day[10:] { // each side lacks ten
		p.ops[op.ID], p.known[op.ID] = string(op.Bytes), true
	}
	p.hint = exchange.Hint{Inst: "i1", N: 19_990}
	p.open()
	p.connect(s)
	p.settle(t, 0)
	if len(s.holds()) != 20_000 || len(p.ops) != 20_000 {
		t.Fatalf("server holds %d and phone %d, want 20000", len(s.holds()), len(p.ops))
	}
	// exchange, months, days, parts, ids (20 parts of about 78: one page), want, push, compare
	if s.requests > 10 {
		t.Errorf("it took %d requests, want at most 10", s.requests)
	}
	// A phone that believes wrongly that all is shared finds out page by page.
	empty := newServer("i9")
	p.connect(empty)
	p.settle(t, 0)
	if len(empty.holds()) != 20_000 {
		t.Errorf("new server holds %d, want 20000", len(empty.holds()))
	}
	fresh := newPhone("b")
	fresh.hint = exchange.Hint{Inst: "elsewhere", N: 5}
	fresh.open()
	fresh.connect(s)
	before := s.requests
	fresh.settle(t, 0)
	if len(fresh.ops) != 20_000 {
		t.Errorf("new phone with a useless hint holds %d, want 20000", len(fresh.ops))
	}
	// 20,000 ids in pages of 2000 and operations 500 at a time, with a little around it
	if n := s.requests - before; n > 10+40+10 {
		t.Errorf("it took %d requests, want at most 60", n)
	}
}

// A side whose sums are wrong for good is asked a few times, not for ever.
func TestAForgedDigestCostsAFewRequestsOnly(t *testing.T) {
	p, s, _ := joined(t, 3)
	p.fakes.serve = func(path, body string) []exchange.Event {
		status, reply := s.serve(path, body)
		var m map[string]json.RawMessage
		if err := json.Unmarshal([]byte(reply), &m); err != nil {
			t.Fatal(err)
		}
		m["root"] = json.RawMessage(`{"n":4,"s":"00000000000000000000000000000001"}`)
		b, err := json.Marshal(m)
		if err != nil {
			t.Fatal(err)
		}
		return []exchange.Event{answer(status, string(b))}
	}
	if n := p.step(1000, exchange.Event{Kind: exchange.EventStart}); n == 1000 || s.requests > 10 {
		t.Errorf("%d requests, want at most 10", s.requests)
	}
	if p.status.Detail != exchange.DetailDiffers || p.status.Waiting != 0 {
		t.Errorf("%+v, want the difference named and nothing waiting", p.status)
	}
}
