package exchange_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"trayside/sync/digest"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

// joined is a phone with some entries of its own and a server, connected.
func joined(t *testing.T, n int) (*phone, *server, []oplog.Sealed) {
	t.Helper()
	s, p := newServer("i1"), newPhone("a")
	ops := makeOps(t, n, "d", 1764057600000, day0)
	p.open()
	p.save(ops...)
	p.connect(s)
	return p, s, ops
}

func kinds(effects []exchange.Effect) (list []string) {
	for _, e := range effects {
		list = append(list, e.Kind)
	}
	return list
}

func find(t *testing.T, effects []exchange.Effect, kind string) exchange.Effect {
	t.Helper()
	for _, e := range effects {
		if e.Kind == kind {
			return e
		}
	}
	t.Fatalf("effects %v, want one of kind %s", kinds(effects), kind)
	return exchange.Effect{}
}

func TestNothingCountsBeforeItIsDurable(t *testing.T) {
	p, s, ops := joined(t, 3)
	other := makeOps(t, 2, "other", 7)
	if _, err := s.Put(other); err != nil {
		t.Fatal(err)
	}
	load := find(t, p.m.Step(exchange.Event{Kind: exchange.EventStart}), exchange.EffectLoad)
	post := find(t, p.m.Step(exchange.Event{Kind: exchange.EventLoaded, Seq: load.Seq, Ops: slices.Collect(maps.Values(p.ops))}), exchange.EffectPost)
	if n := p.m.Status().Waiting; n != 3 {
		t.Errorf("posted: %d waiting, want 3 until the answer says so", n)
	}
	ev := answer(s.serve(post.Path, post.Body))
	ev.Seq = post.Seq
	effects := p.m.Step(ev)
	store := find(t, effects, exchange.EffectStore)
	if n := p.m.Status().Waiting; n != 3 || slices.Contains(kinds(effects), exchange.EffectChanged) {
		t.Errorf("answered: %d waiting, effects %v; want 3 and no change until it is stored", n, kinds(effects))
	}
	if len(store.Store.Ops) != 2 || len(store.Store.Known) != 3 {
		t.Errorf("to store: %d new and %d known, want 2 and 3", len(store.Store.Ops), len(store.Store.Known))
	}
	changed := find(t, p.m.Step(exchange.Event{Kind: exchange.EventStored, Seq: store.Seq}), exchange.EffectChanged)
	if len(changed.Fold) != 2 || p.m.Status().Waiting != 0 || p.m.Status().State != exchange.StateIdle {
		t.Errorf("stored: %d to fold, status %+v; want 2, none waiting, idle", len(changed.Fold), p.m.Status())
	}
	if len(s.holds()) != len(ops)+len(other) {
		t.Errorf("server holds %d, want %d", len(s.holds()), len(ops)+len(other))
	}
}

func TestLostAckIsRepeatedAsDup(t *testing.T) {
	p, s, ops := joined(t, 10)
	p.fakes.serve = func(path, body string) []exchange.Event {
		s.serve(path, body)
		return []exchange.Event{{Kind: exchange.EventFailed}}
	}
	p.step(20, exchange.Event{Kind: exchange.EventStart})
	if p.status.State != exchange.StateOffline || p.status.Waiting != 10 {
		t.Errorf("ack lost: %+v, want offline with 10 waiting", p.status)
	}
	p.connect(s)
	p.settle(t, 1)
	if p.status.Waiting != 0 || len(s.arrivals) != len(ops) {
		t.Errorf("%d waiting and %d on the server, want 0 and each of %d once", p.status.Waiting, len(s.arrivals), len(ops))
	}
}

func TestAnswersThatComeTooLateArePassedOver(t *testing.T) {
	p, s, _ := joined(t, 1)
	load := find(t, p.m.Step(exchange.Event{Kind: exchange.EventStart}), exchange.EffectLoad)
	step := p.m.Step(exchange.Event{Kind: exchange.EventLoaded, Seq: load.Seq, Ops: slices.Collect(maps.Values(p.ops))})
	post, patience := find(t, step, exchange.EffectPost), find(t, step, exchange.EffectTimer)
	late := answer(s.serve(post.Path, post.Body))
	late.Seq = post.Seq
	p.m.Step(exchange.Event{Kind: exchange.EventTimer, Seq: patience.Seq})
	if got := p.m.Status().State; got != exchange.StateOffline {
		t.Fatalf("patience ended: %s, want offline", got)
	}
	if effects := p.m.Step(late); len(effects) != 0 {
		t.Errorf("the late answer had effects %v", kinds(effects))
	}
	load = find(t, p.m.Step(exchange.Event{Kind: exchange.EventTap}), exchange.EffectLoad)
	find(t, p.m.Step(exchange.Event{Kind: exchange.EventLoaded, Seq: load.Seq, Ops: slices.Collect(maps.Values(p.ops))}), exchange.EffectPost)
	if effects := p.m.Step(late); len(effects) != 0 {
		t.Errorf("the late answer was taken for the one under way: effects %v", kinds(effects))
	}
}

func TestARippleDuringARoundIsFollowed(t *testing.T) {
	p, s, _ := joined(t, 1)
	news := makeOps(t, 1, "other", 9)
	p.fakes.store = func() bool { // the news come after the answer, while it is being stored
		if _, err := s.Put(news); err != nil {
			t.Fatal(err)
		}
		p.m.Step(exchange.Event{Kind: exchange.EventRipple})
		p.fakes.store = nil
		return true
	}
	p.settle(t, 0)
	if !p.folded[news[0].ID] {
		t.Error("news that came during a round were not fetched")
	}
}

func TestTooBigABatchIsHalvedAndNothingSkipped(t *testing.T) {
	p, s, ops := joined(t, 500)
	s.most = 30
	p.settle(t, 0)
	if got := s.holds(); !maps.Equal(got, ids(ops)) {
		t.Errorf("server holds %d, want all %d", len(got), len(ops))
	}
}

// The first of five is refused by something before the server, all by itself.
func TestOneThatIsTooBigHoldsNothingUp(t *testing.T) {
	for name, refusal := range map[string]exchange.Event{
		"by a proxy":    answer(413, "<html>"),
		"by the server": answer(400, `{"code":"bad"}`),
	} {
		p, s, _ := joined(t, 4)
		poison := seal(t, oplog.Op{T: 1, Dev: "d", Ent: "poison/1"})
		p.save(poison)
		serve := p.fakes.serve
		p.fakes.serve = func(path, body string) []exchange.Event {
			if strings.Contains(body, poison.Op.Ent+`\"`) {
				return []exchange.Event{refusal}
			}
			return serve(path, body)
		}
		p.step(200, exchange.Event{Kind: exchange.EventStart})
		if len(s.holds()) != 4 || p.status.Waiting != 1 || p.status.State != exchange.StateProblem || p.status.Detail != exchange.DetailTooBig {
			t.Errorf("%s: %d on the server, %+v; want 4 there, 1 waiting and the problem named", name, len(s.holds()), p.status)
		}
	}
}

func TestWhatStorageLostIsNamedAndHoldsNothingUp(t *testing.T) {
	p, s, ops := joined(t, 5)
	p.loads = func(texts []string) []string {
		slices.Sort(texts)
		texts[1] = strings.Replace(texts[1], `"d"`, `"e"`, 1) // rotted, still well formed
		return texts[:4]
	}
	p.step(200, exchange.Event{Kind: exchange.EventStart})
	if got := s.holds(); len(got) != 3 || p.status.Waiting != 2 || p.status.Detail != exchange.DetailMissing {
		t.Errorf("%d on the server, %+v; want 3 there and 2 named as missing", len(got), p.status)
	}
	for id := range s.holds() {
		if !ids(ops)[id] {
			t.Errorf("%s reached the server and was never written", id)
		}
	}
}

func TestLaterStaysInTheQueue(t *testing.T) {
	p, s, ops := joined(t, 3)
	s.later = true
	p.step(50, exchange.Event{Kind: exchange.EventStart})
	if p.status.Waiting != 3 || p.status.Detail != exchange.DetailLater || s.requests > 3 {
		t.Errorf("%+v after %d requests, want 3 waiting for later after one or two", p.status, s.requests)
	}
	s.later = false
	p.settle(t, 1)
	if !maps.Equal(s.holds(), ids(ops)) {
		t.Errorf("server holds %d, want 3", len(s.holds()))
	}
}

// Five of ten are refused: they leave the set, the others go, and sums agree.
func TestRefusedGoToTheDrawerOutsideTheDigest(t *testing.T) {
	p, s, ops := joined(t, 5)
	bad := makeOps(t, 5, "viewer", 1764057600000)
	p.save(bad...)
	p.settle(t, 0)
	if !maps.Equal(keys(p.drawer), ids(bad)) || !maps.Equal(s.holds(), ids(ops)) || !maps.Equal(p.folded, ids(ops)) {
		t.Errorf("drawer %d, server %d, folded %d; want 5 each", len(p.drawer), len(s.holds()), len(p.folded))
	}
	before := s.requests
	p.settle(t, 0)
	if s.requests != before+1 {
		t.Errorf("the next round took %d requests, want 1: the sums agree without the drawer", s.requests-before)
	}
	// A keeper's phone takes one in: it comes back out of the drawer.
	s.door = func(oplog.Op) string { return "" }
	keeper := newPhone("k")
	keeper.open()
	keeper.save(bad[0])
	keeper.connect(s)
	keeper.settle(t, 0)
	p.settle(t, 0)
	if len(p.drawer) != 4 || !p.folded[bad[0].ID] {
		t.Errorf("taken in: drawer %d, folded %v; want 4 and true", len(p.drawer), p.folded[bad[0].ID])
	}
}

func TestHandOverThenEverythingIsDup(t *testing.T) {
	a, s, ops := joined(t, 20)
	b := newPhone("b")
	b.open()
	b.save(makeOps(t, 15, "b", 8)...)
	handOver(t, a, b)
	if len(a.ops) != 35 || !maps.Equal(keys(a.ops), keys(b.ops)) {
		t.Fatalf("after the hand-over %d and %d, want 35 on both", len(a.ops), len(b.ops))
	}
	if a.m.Status().Waiting != 35 || b.m.Status().Waiting != 35 {
		t.Errorf("waiting %d and %d, want 35: the server knows none", a.m.Status().Waiting, b.m.Status().Waiting)
	}
	a.settle(t, 0)
	arrived := len(s.arrivals)
	b.connect(s)
	b.settle(t, 0)
	if arrived != 35 || len(s.arrivals) != 35 || len(b.m.Waiting()) != 0 || len(ops) != 20 {
		t.Errorf("server took %d, then %d; want 35 and all dup", arrived, len(s.arrivals))
	}
}

func TestTheFloorRisesWithTheServersClock(t *testing.T) {
	p, s, _ := joined(t, 0)
	var newest int64
	for _, set := range []int64{7_200_000, -3_600_000} {
		s.clock += set
		p.settle(t, 0)
		newest = max(newest, s.clock)
	}
	if got := p.m.Floor(); got != newest {
		t.Errorf("floor %d, want the newest time heard, %d", got, newest)
	}
}

func TestASaveDuringARoundGoesOutInTheNextOne(t *testing.T) {
	p, s, _ := joined(t, 1)
	extra := makeOps(t, 1, "x", 3)
	serve, once := p.fakes.serve, true
	p.fakes.serve = func(path, body string) []exchange.Event {
		evs := serve(path, body)
		if once {
			once = false
			p.save(extra...)
			evs = append([]exchange.Event{{Kind: exchange.EventSaved}}, evs...)
		}
		return evs
	}
	p.settle(t, 0)
	if !s.holds()[extra[0].ID] {
		t.Error("an entry saved during a round was not shared")
	}
	if p.timer.MS != 60_000 {
		t.Errorf("at rest the next look is in %d ms, want 60000", p.timer.MS)
	}
	if got := digest.Of(slices.Collect(func(yield func([16]byte) bool) {
		for id := range s.holds() {
			if !yield(id) {
				return
			}
		}
	})...); got.Count != 2 {
		t.Errorf("server holds %d, want 2", got.Count)
	}
}

func TestAStoreThatIsReportedLateCounts(t *testing.T) {
	p, s, _ := joined(t, 1)
	p.save(makeOps(t, 1, "viewer", 3)...)
	other := makeOps(t, 2, "other", 7)
	if _, err := s.Put(other); err != nil {
		t.Fatal(err)
	}
	load := find(t, p.m.Step(exchange.Event{Kind: exchange.EventStart}), exchange.EffectLoad)
	post := find(t, p.m.Step(exchange.Event{Kind: exchange.EventLoaded, Seq: load.Seq, Ops: slices.Collect(maps.Values(p.ops))}), exchange.EffectPost)
	ev := answer(s.serve(post.Path, post.Body))
	ev.Seq = post.Seq
	effects := p.m.Step(ev)
	store, patience := find(t, effects, exchange.EffectStore), find(t, effects, exchange.EffectTimer)
	p.m.Step(exchange.Event{Kind: exchange.EventTimer, Seq: patience.Seq})
	if got := p.m.Status(); got.Detail != exchange.DetailStorage || got.Waiting != 2 {
		t.Errorf("patience ended: %+v, want storage named and 2 waiting", got)
	}
	changed := find(t, p.m.Step(exchange.Event{Kind: exchange.EventStored, Seq: store.Seq}), exchange.EffectChanged)
	if len(changed.Fold) != 2 || len(changed.Drop) != 1 || p.m.Status().Waiting != 0 {
		t.Errorf("stored at last: fold %d, drop %d, %+v; want 2, 1 and none waiting", len(changed.Fold), len(changed.Drop), p.m.Status())
	}
	if effects := p.m.Step(exchange.Event{Kind: exchange.EventStored, Seq: store.Seq}); len(effects) != 0 {
		t.Errorf("reported twice: effects %v", kinds(effects))
	}
}

// Two entries that the server has from another phone wait here as well: one is
// too big for the way, of the other storage lost the bytes.
func TestWhatTheOtherSideHasAlreadyNeedNotGoThere(t *testing.T) {
	p, s, ops := joined(t, 2)
	if _, err := s.Put(ops); err != nil {
		t.Fatal(err)
	}
	p.hint = exchange.Hint{Inst: "i1", N: 2} // nothing comes back as news
	p.open()
	delete(p.ops, ops[0].ID)
	serve := p.fakes.serve
	p.fakes.serve = func(path, body string) []exchange.Event {
		if strings.Contains(body, ops[1].Op.Ent) {
			return []exchange.Event{answer(413, "<html>")}
		}
		return serve(path, body)
	}
	p.settle(t, 1)
	if p.status.Waiting != 0 || p.ops[ops[0].ID] != string(ops[0].Bytes) {
		t.Errorf("%+v, holds %q; want none waiting and the lost bytes back", p.status, p.ops[ops[0].ID])
	}
}
