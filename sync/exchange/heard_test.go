package exchange_test

import (
	"encoding/json"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"trayside/sync/exchange"
)

// watch has the phone tell of every status, and of what it holds then.
func (p *phone) watch(run func(exchange.Status)) {
	p.watching = run
}

// A first pull of several messages: the line may say how many came, and "heard
// all" only once the last of them is durable.
func TestAllIsHeardWithTheLastMessageOfAPull(t *testing.T) {
	s, p := newServer("i1"), newPhone("a")
	all := makeOps(t, 3*exchange.MaxOps+7, "d", day0)
	if _, err := s.Put(all); err != nil {
		t.Fatal(err)
	}
	p.open()
	p.connect(s)
	var came []int
	p.watch(func(st exchange.Status) {
		if st.Heard > 0 && len(p.ops) < len(all) {
			t.Errorf("heard all with %d of %d here: %+v", len(p.ops), len(all), st)
		}
		if st.Fetched != len(p.folded) && st.Heard == 0 {
			t.Errorf("%d fetched, want the %d that are here", st.Fetched, len(p.folded))
		}
		if p.heard > 0 && len(p.ops) < len(all) {
			t.Errorf("storage says that all was heard with %d of %d", len(p.ops), len(all))
		}
		came = append(came, st.Fetched)
	})
	p.settle(t, 0)
	if p.status.Heard == 0 || p.heard != p.status.Heard || p.status.Fetched != 0 {
		t.Errorf("at rest: %+v, %d kept; want all heard, none to come, the same kept", p.status, p.heard)
	}
	for _, n := range []int{exchange.MaxOps, 2 * exchange.MaxOps, 3 * exchange.MaxOps} {
		if !slices.Contains(came, n) {
			t.Errorf("the statuses count %v; want %d among them", came, n)
		}
	}
}

func TestWhatDoesNotLetAllBeHeard(t *testing.T) {
	for _, tc := range []struct {
		name string
		set  func(*phone, *server)
	}{
		{"an answer that never becomes durable", func(p *phone, _ *server) { p.fakes.store = func() bool { return false } }},
		{"a pull that breaks off after its first message", func(p *phone, s *server) {
			p.fakes.serve = func(path, body string) []exchange.Event {
				if s.requests > 0 {
					return []exchange.Event{{Kind: exchange.EventFailed}}
				}
				return []exchange.Event{answer(s.serve(path, body))}
			}
		}},
		{"a server whose sums never agree", func(p *phone, s *server) {
			serve := p.fakes.serve
			p.fakes.serve = func(path, body string) []exchange.Event {
				events := serve(path, body)
				events[0].Body = forgeRoot(t, events[0].Body)
				return events
			}
		}},
		{"a refusal", func(p *phone, _ *server) {
			p.fakes.serve = func(string, string) []exchange.Event { return []exchange.Event{answer(403, "{}")} }
		}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			s, p := newServer("i1"), newPhone("a")
			if _, err := s.Put(makeOps(t, exchange.MaxOps+1, "d", day0)); err != nil {
				t.Fatal(err)
			}
			p.open()
			p.connect(s)
			tc.set(p, s)
			p.step(10_000, exchange.Event{Kind: exchange.EventStart})
			if s.requests == 0 && tc.name != "a refusal" {
				t.Fatal("the server was never asked")
			}
			if p.status.Heard != 0 || p.heard != 0 || p.status.State == exchange.StateIdle {
				t.Errorf("%+v, %d kept; want nothing heard in full", p.status, p.heard)
			}
		})
	}
}

// Whatever order things arrive in and wherever storage or network give up, the
// phone says that all was heard only while it holds all that the server held.
func TestHeardAllIsNeverSaidWithAnythingMissing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s, p := newServer("i1"), newPhone("a")
		most := rapid.IntRange(1, 1200).Draw(rt, "operations")
		if _, err := s.Put(makeOps(t, most, "d", day0, day0+86_400_000)); err != nil {
			rt.Fatal(err)
		}
		p.open()
		p.connect(s)
		serve := p.fakes.serve
		p.fakes.serve = func(path, body string) []exchange.Event {
			if rapid.IntRange(0, 4).Draw(rt, "network") == 0 {
				return []exchange.Event{{Kind: exchange.EventFailed}}
			}
			return serve(path, body)
		}
		p.fakes.store = func() bool { return rapid.IntRange(0, 4).Draw(rt, "storage") > 0 }
		p.watch(func(st exchange.Status) {
			if st.Heard > 0 && len(p.ops) < most {
				rt.Fatalf("heard all with %d of %d: %+v", len(p.ops), most, st)
			}
			if st.State == exchange.StateIdle && (st.Heard == 0 || st.Fetched != 0) {
				rt.Fatalf("at rest and not heard: %+v", st)
			}
		})
		p.fakes.rand = func() float64 { return 0.5 }
		for range rapid.IntRange(1, 4).Draw(rt, "tries") {
			p.step(rapid.IntRange(1, 60).Draw(rt, "steps"), exchange.Event{Kind: exchange.EventOnline})
		}
		p.connect(s)
		p.step(0)
		p.open()
		p.settle(rt, 3)
		if p.status.Heard == 0 || len(p.ops) != most {
			rt.Fatalf("at rest: %+v with %d of %d", p.status, len(p.ops), most)
		}
	})
}

// forgeRoot gives an answer a root that no set of operations has.
func forgeRoot(t *testing.T, body string) string {
	var m map[string]json.RawMessage
	if err := json.Unmarshal([]byte(body), &m); err != nil {
		t.Fatal(err)
	}
	m["root"] = json.RawMessage(`{"n":4,"s":"00000000000000000000000000000001"}`)
	b, err := json.Marshal(m)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}
