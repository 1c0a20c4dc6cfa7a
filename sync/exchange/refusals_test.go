package exchange_test

import (
	"maps"
	"testing"

	"pgregory.net/rapid"
	"trayside/sync/exchange"
)

func TestWhatTheServerMaySay(t *testing.T) {
	wait := answer(429, "{}")
	wait.RetryAfter = 40
	for _, c := range []struct {
		name   string
		ev     exchange.Event
		state  string
		detail string
	}{
		{"a portal's page is no connection", answer(200, "<html>Welcome</html>"), exchange.StatePortal, ""},
		{"a portal's JSON is no connection", answer(200, `{"ok":true}`), exchange.StatePortal, ""},
		{"a portal that says 401 is no connection", answer(401, "<html>"), exchange.StatePortal, ""},
		{"a portal that says 403 is no connection", answer(403, "<html>"), exchange.StatePortal, ""},
		{"a gateway with nothing behind it is no connection", answer(502, "<html>"), exchange.StateOffline, ""},
		{"a server with a full disk says so", answer(507, "{}"), exchange.StateProblem, "server 507"},
		{"a busy server is later", wait, exchange.StateProblem, exchange.DetailLater},
		{"a bare refusal wipes nothing", answer(403, `{"code":"revoked"}`), exchange.StateProblem, exchange.DetailForbidden},
		{"a forged revocation wipes nothing", answer(403, `{"code":"revoked","roster":["forged revoke a"]}`), exchange.StateProblem, exchange.DetailForbidden},
		{"another phone's revocation wipes nothing", answer(403, `{"code":"revoked","roster":["ok revoke b"]}`), exchange.StateProblem, exchange.DetailForbidden},
		{"a token that does not help is no token", answer(401, "{}"), exchange.StateAuth, ""},
	} {
		p, s, ops := joined(t, 3)
		p.fakes.serve = func(string, string) []exchange.Event { return []exchange.Event{c.ev} }
		p.step(50, exchange.Event{Kind: exchange.EventStart})
		if p.status.State != c.state || p.status.Detail != c.detail || p.status.Waiting != 3 || p.wiped != "" || len(p.ops) != 3 {
			t.Errorf("%s: %+v, wiped %q, holds %d; want %s %q with all 3 waiting", c.name, p.status, p.wiped, len(p.ops), c.state, c.detail)
		}
		p.connect(s)
		p.step(1000, exchange.Event{Kind: exchange.EventTimer, Seq: p.timer.Seq})
		if p.status.State != exchange.StateIdle || !maps.Equal(s.holds(), ids(ops)) {
			t.Errorf("%s, then all is well: %+v with %d on the server; want idle with 3", c.name, p.status, len(s.holds()))
		}
	}
}

func TestA401IsAnsweredWithANewTokenAndTheRequestAgain(t *testing.T) {
	p, s, ops := joined(t, 3)
	serve, expired := p.fakes.serve, true
	p.fakes.serve = func(path, body string) []exchange.Event {
		if expired {
			expired = false
			return []exchange.Event{answer(401, `{"code":"token"}`)}
		}
		return serve(path, body)
	}
	p.settle(t, 0)
	if !maps.Equal(s.holds(), ids(ops)) {
		t.Errorf("server holds %d, want 3", len(s.holds()))
	}
}

func TestARefusedTokenSaysWhy(t *testing.T) {
	for _, c := range []struct {
		name         string
		ev           exchange.Event
		state, wiped string
	}{
		{"no network", exchange.Event{}, exchange.StateOffline, ""},
		{"a portal", answer(200, "<html>"), exchange.StatePortal, ""},
		{"a refusal", answer(400, "{}"), exchange.StateAuth, ""},
		{"a bare word", answer(403, "{}"), exchange.StateProblem, ""},
		{"a verified revocation", answer(403, `{"roster":["ok revoke a"]}`), exchange.StateRevoked, "lost"},
	} {
		p, _, _ := joined(t, 1)
		p.fakes.serve = func(string, string) []exchange.Event { return []exchange.Event{answer(401, "{}")} }
		var auth exchange.Effect
		var events []exchange.Event
		for ev := (exchange.Event{Kind: exchange.EventStart}); auth.Kind == ""; ev = events[0] {
			for _, e := range p.m.Step(ev) {
				if e.Kind == exchange.EffectAuthenticate {
					auth = e
				} else if got := p.carryOut(e); len(got) > 0 {
					events = got
				}
			}
		}
		c.ev.Kind, c.ev.Seq = exchange.EventAuthFailed, auth.Seq
		p.step(10, c.ev)
		if p.status.State != c.state || p.wiped != c.wiped {
			t.Errorf("%s: %+v, wiped %q; want %s, %q", c.name, p.status, p.wiped, c.state, c.wiped)
		}
	}
}

func TestAVerifiedRevocationEndsEverything(t *testing.T) {
	p, s, _ := joined(t, 3)
	s.roster.texts = []string{"ok revoke a"}
	p.step(50, exchange.Event{Kind: exchange.EventStart})
	if p.wiped != "lost" || p.status.State != exchange.StateRevoked {
		t.Errorf("wiped %q, %+v; want wiped as lost", p.wiped, p.status)
	}
	before := s.requests
	for _, kind := range []string{exchange.EventTap, exchange.EventSaved, exchange.EventOnline} {
		p.step(50, exchange.Event{Kind: kind})
	}
	p.step(50, exchange.Event{Kind: exchange.EventTimer, Seq: p.timer.Seq})
	if s.requests != before {
		t.Errorf("a removed phone made %d more requests", s.requests-before)
	}
	p.wiped = ""
	p.open() // the wipe was interrupted
	if p.step(50, exchange.Event{Kind: exchange.EventStart}); p.wiped != "lost" {
		t.Error("opened again, the wipe was forgotten")
	}
}

func TestRetriesGrowWithJitterAndEndWhenThereIsReasonToHope(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s, p := newServer("i1"), newPhone("a")
		p.open()
		p.connect(s)
		p.fakes.serve = func(string, string) []exchange.Event { return []exchange.Event{{Kind: exchange.EventFailed}} }
		r := rapid.Float64Range(0, 0.999).Draw(rt, "rand")
		p.fakes.rand = func() float64 { return r }
		ev := exchange.Event{Kind: exchange.EventStart}
		for i := range rapid.IntRange(1, 70).Draw(rt, "failures") {
			p.step(20, ev)
			ceiling := int64(300_000)
			if i < 8 {
				ceiling = min(ceiling, 2_000<<i)
			}
			want := 1000 + int64(r*float64(ceiling-1000))
			if p.timer.MS != want {
				rt.Fatalf("retry %d waits %d ms, want %d", i+1, p.timer.MS, want)
			}
			ev = exchange.Event{Kind: exchange.EventTimer, Seq: p.timer.Seq}
		}
		seq := p.timer.Seq
		if p.step(20, exchange.Event{Kind: exchange.EventSaved}); p.timer.Seq != seq {
			rt.Fatal("a save cut the pause short")
		}
		if p.step(20, exchange.Event{Kind: exchange.EventTimer, Seq: seq - 1}); p.timer.Seq != seq {
			rt.Fatal("a timer that was replaced cut the pause short")
		}
		p.step(20, exchange.Event{Kind: exchange.EventOnline})
		if p.timer.Seq == seq || p.timer.MS > 2000 {
			rt.Fatalf("online again: the next pause is %d ms, want a first one", p.timer.MS)
		}
	})
}

func TestABusyServerIsLeftAloneAsLongAsItAsks(t *testing.T) {
	p, s, _ := joined(t, 1)
	busy := answer(429, "{}")
	busy.RetryAfter = 40
	p.fakes.serve = func(string, string) []exchange.Event { return []exchange.Event{busy} }
	p.step(20, exchange.Event{Kind: exchange.EventStart})
	if p.timer.MS < 40_000 || p.timer.MS > 41_000 {
		t.Errorf("waits %d ms, want 40 to 41 s", p.timer.MS)
	}
	p.connect(s)
	p.step(20, exchange.Event{Kind: exchange.EventTap})
	if s.requests != 0 {
		t.Error("a tap broke in on a server that asked to wait")
	}
	p.step(50, exchange.Event{Kind: exchange.EventTimer, Seq: p.timer.Seq})
	if p.status.State != exchange.StateIdle {
		t.Errorf("after the wait: %+v, want idle", p.status)
	}
}
