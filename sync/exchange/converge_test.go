package exchange_test

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"pgregory.net/rapid"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

// Whatever two phones and a server held, whatever the hints say and whatever
// went wrong on the way: once faults stop, all queues empty within a few
// retries, everybody holds the same set, and nothing that anybody still held is
// lost. What the door refuses ends in a drawer, outside the sets.
func TestEverybodyEndsEqualWhateverHappened(t *testing.T) {
	// Many share a stamp or a day, so that days need parts and lists need pages.
	bulk := makeOps(t, 2600, "import", day0, day0+1, day0+86_399_999)
	some := makeOps(t, 60, "d", 0, 5, 5, day0, day0+86_400_000, 1764057600000, oplog.MaxStamp)
	refused := makeOps(t, 6, "viewer", 5, day0)
	mixed := append(slices.Clone(some), refused...)
	imports := []int{511, 514, 2600}
	if testing.Short() {
		imports = []int{511, 514}
	}

	rapid.Check(t, func(t *rapid.T) {
		s := newServer("i1")
		s.most = rapid.SampledFrom([]int{0, 0, 40}).Draw(t, "proxy")
		phones := []*phone{newPhone("a"), newPhone("b")}
		w := &weather{t: t, s: s}
		for i, p := range phones {
			p.texts = []string{fmt.Sprintf("ok grant %d", i)}
			p.fakes = fakes{func(path, body string) []exchange.Event { return w.serve(p, path, body) }, w.store, w.rand}
			p.open()
		}
		aPhone := func() *phone { return phones[rapid.IntRange(0, 1).Draw(t, "phone")] }
		run := func(p *phone, kind string) {
			p.step(rapid.SampledFrom([]int{1, 2, 3, 5, 8, 400}).Draw(t, "steps"), exchange.Event{Kind: kind, Seq: p.timer.Seq})
		}
		t.Repeat(map[string]func(*rapid.T){
			"save": func(*rapid.T) {
				p := aPhone()
				for _, i := range rapid.SliceOfN(rapid.IntRange(0, len(mixed)-1), 1, 6).Draw(t, "ops") {
					p.save(mixed[i])
				}
				run(p, exchange.EventSaved)
			},
			"import": func(t *rapid.T) {
				n := rapid.SampledFrom(imports).Draw(t, "n")
				if rapid.IntRange(0, 3).Draw(t, "seldom") > 0 {
					n = 20
				}
				from := rapid.IntRange(0, len(bulk)-n).Draw(t, "from")
				aPhone().save(bulk[from : from+n]...)
			},
			"wake": func(*rapid.T) {
				run(aPhone(), rapid.SampledFrom([]string{exchange.EventTap, exchange.EventTimer, exchange.EventRipple, exchange.EventVisible}).Draw(t, "why"))
			},
			"late answer": func(t *rapid.T) {
				p := aPhone()
				if len(p.late) > 0 {
					ev := p.late[0]
					p.late = p.late[1:]
					p.step(400, ev)
				}
			},
			"the app starts anew": func(*rapid.T) {
				p := aPhone()
				p.open()
				run(p, exchange.EventStart)
			},
			"the server is put back": func(t *rapid.T) {
				inst := s.inst
				if rapid.Bool().Draw(t, "properly") {
					inst += "'"
				}
				s.restore(rapid.IntRange(0, len(s.arrivals)).Draw(t, "to"), inst)
			},
			"a phone is put back or cloned": func(t *rapid.T) {
				from, to := aPhone(), aPhone()
				to.ops, to.known, to.drawer = maps.Clone(from.ops), maps.Clone(from.known), maps.Clone(from.drawer)
				to.hint, to.floor = from.hint, from.floor
				for _, id := range slices.SortedFunc(maps.Keys(to.ops), oplog.ID.Compare) {
					if len(to.ops) < 80 && rapid.IntRange(0, 9).Draw(t, "forget") == 0 {
						delete(to.ops, id)
						delete(to.known, id)
					}
				}
				to.open()
			},
			"a hint goes wrong": func(t *rapid.T) {
				p := aPhone()
				p.hint = exchange.Hint{Inst: rapid.SampledFrom([]string{"", "i1", "x"}).Draw(t, "inst"), N: rapid.Uint64Range(0, 50).Draw(t, "n")}
				p.open()
			},
			"what the phone believes goes wrong": func(t *rapid.T) {
				p := aPhone()
				for _, id := range slices.SortedFunc(maps.Keys(p.ops), oplog.ID.Compare) {
					if len(p.ops) < 80 && rapid.Bool().Draw(t, "turn") {
						p.known[id] = !p.known[id]
					}
				}
				p.open()
			},
			"hand-over": func(*rapid.T) { handOver(t, phones[0], phones[1]) },
		})

		want := keys(s.holds())
		for _, p := range phones {
			maps.Copy(want, keys(p.ops))
		}
		for id := range ids(refused) {
			delete(want, id)
		}
		s.later, s.broken = false, false
		for _, p := range []*phone{phones[0], phones[1], phones[0]} {
			p.connect(s)
			p.settle(t, 4)
		}
		if got := s.holds(); !maps.Equal(got, want) {
			t.Fatalf("server holds %d, want %d", len(got), len(want))
		}
		for _, p := range phones {
			if !maps.Equal(keys(p.ops), want) || !maps.Equal(p.folded, want) {
				t.Fatalf("phone %s holds %d and folded %d, want %d", p.name, len(p.ops), len(p.folded), len(want))
			}
			if p.status.Waiting != 0 || len(p.m.Waiting()) != 0 {
				t.Fatalf("phone %s still has %d waiting", p.name, p.status.Waiting)
			}
			for id := range p.drawer {
				if !ids(refused)[id] {
					t.Fatalf("phone %s put %s into the drawer", p.name, id)
				}
			}
			if !slices.Contains(p.texts, "ok grant 0") || !slices.Contains(p.texts, "ok grant 1") {
				t.Fatalf("phone %s knows roster %q", p.name, p.texts)
			}
		}
	})
}

// handOver lets the first phone exchange with the second, as with a server.
func handOver(t interface {
	Helper()
	Fatalf(string, ...any)
}, a, b *phone) {
	t.Helper()
	peer := newServer("hand-over")
	for _, id := range slices.SortedFunc(maps.Keys(b.ops), oplog.ID.Compare) {
		op, err := oplog.Open([]byte(b.ops[id]))
		if err != nil {
			t.Fatalf("open: %v", err)
		}
		if _, err := peer.Put([]oplog.Sealed{op}); err != nil {
			t.Fatalf("put: %v", err)
		}
	}
	peer.door = func(oplog.Op) string { return "" } // roles are for the server to judge
	peer.roster.texts = slices.Clone(b.texts)
	guest := newPhone("guest")
	guest.ops, guest.drawer, guest.texts = a.ops, a.drawer, a.texts // one storage
	guest.known = keys(a.ops)                                       // a good guess: most is held by both
	guest.open()
	guest.connect(peer)
	guest.settle(t, 0)
	a.texts = guest.texts
	for _, p := range []*phone{a, b} {
		p.save(peer.arrivals...)
	}
}

// weather is what goes wrong between a phone and the server.
type weather struct {
	t *rapid.T
	s *server
}

func (w *weather) rand() float64 { return 0.5 }

func (w *weather) store() bool { return rapid.IntRange(0, 9).Draw(w.t, "storage") > 0 }

func (w *weather) serve(p *phone, path, body string) []exchange.Event {
	failed := []exchange.Event{{Kind: exchange.EventFailed}}
	switch rapid.SampledFrom([]string{
		"fair", "fair", "fair", "fair", "fair", "request lost", "answer lost", "repeated", "late", "silence",
		"portal", "portal in json", "gateway", "401", "413", "429", "500", "later", "disk full", "ripple meanwhile",
	}).Draw(w.t, "weather") {
	case "request lost":
		return failed
	case "answer lost":
		w.s.serve(path, body)
		return failed
	case "repeated": // the request and the answer both come twice
		w.s.serve(path, body)
		a := answer(w.s.serve(path, body))
		return []exchange.Event{a, a}
	case "late":
		a := answer(w.s.serve(path, body))
		a.Seq = p.timer.Seq + 1 // number of the post that is about to be given out or an older one
		p.late = append(p.late, a)
		return nil
	case "silence":
		return nil
	case "portal":
		return []exchange.Event{answer(200, "<html>Welcome</html>")}
	case "portal in json":
		return []exchange.Event{answer(200, `{"welcome":true}`)}
	case "gateway":
		return []exchange.Event{answer(502, "<html>")}
	case "401":
		return []exchange.Event{answer(401, "{}")}
	case "413":
		return []exchange.Event{answer(413, "<html>")}
	case "429":
		a := answer(429, "{}")
		a.RetryAfter = 30
		return []exchange.Event{a}
	case "500":
		return []exchange.Event{answer(500, "{}")}
	case "later":
		w.s.later = true
		defer func() { w.s.later = false }()
	case "disk full":
		w.s.broken = true
		defer func() { w.s.broken = false }()
	case "ripple meanwhile":
		return []exchange.Event{{Kind: exchange.EventRipple}, answer(w.s.serve(path, body))}
	}
	return []exchange.Event{answer(w.s.serve(path, body))}
}
