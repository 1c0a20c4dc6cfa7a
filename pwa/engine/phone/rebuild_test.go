package phone_test

import (
	"encoding/json"
	"testing"

	"trayside/internal/advice"
	"trayside/internal/demo"
	"trayside/internal/journal"
	"trayside/pwa/engine/phone"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

func TestAnEntryMadeWhileTheLogIsReadIsKeptAndShared(t *testing.T) {
	w := newWorld(t)
	h := w.tamsin
	h.open()
	h.event(exchange.Event{Kind: exchange.EventStart})
	fern := tierNamed(t, view[advice.TodayView](h, "today", ""), "Fern")
	all := len(h.ops)

	h.p = new(phone.Phone)
	var out opened
	call(t, h.p.Open, map[string]any{
		"now": h.now, "household": h.household, "device": h.device, "member": h.member,
		"hint": h.hint, "floor": h.floor, "tail": h.ops[:40], "roster": h.roster, "more": true,
	}, []byte("not a checkpoint of this app"), &out)
	if out.State != "rebuilding" || out.Why == "" {
		t.Fatalf("open of a strange checkpoint: %+v; want rebuilding and why", out)
	}
	made := h.tap(journal.Intent{Do: journal.DoFeed, Tray: fern.ID, Items: carrots(60)})
	if len(made.Ops) != 1 || made.Refused != nil {
		t.Fatalf("while the log is read: %+v; want one operation", made)
	}
	receive := func(ops []string, mine, more bool) {
		t.Helper()
		var got struct{ Added int }
		call(t, h.p.Receive, map[string]any{"ops": ops, "mine": mine, "more": more}, nil, &got)
	}
	receive(h.ops[40:90], false, true)
	receive(made.Ops, true, true)
	receive(h.ops[90:], false, true)
	receive(nil, false, false)
	h.ops = append(h.ops, made.Ops...)

	today := view[advice.TodayView](h, "today", "")
	if got := binOf(t, today, "Cellar"); got.Ration.Feeds != 60 {
		t.Errorf("fed today: %d g; want 60", got.Ration.Feeds)
	}
	h.event(exchange.Event{Kind: exchange.EventStart})
	if root := w.root(t); root.Count != uint64(all+1) || h.status.Waiting != 0 {
		t.Errorf("server holds %d, %d wait; want %d, 0", root.Count, h.status.Waiting, all+1)
	}
	h.rest()
	if got := h.open(); got.State != "ready" || got.Count != all+1 {
		t.Errorf("open from the new checkpoint: %+v; want ready with %d", got, all+1)
	}
}

func TestWhatIsNoOperationStandsInNobodysWay(t *testing.T) {
	ops := demo.Household(1, dayOf(t, today))
	h := household(t, ops)
	before := view[json.RawMessage](h, "today", "")
	strange, err := oplog.Seal(oplog.Op{V: 1, T: noon, Dev: "x", Ent: "parade/1", Set: map[string]json.RawMessage{"floats": json.RawMessage("7")}})
	if err != nil {
		t.Fatal(err)
	}
	wrong, err := oplog.Seal(oplog.Op{V: 1, T: noon, Dev: "x", Ent: ops[0].Op.Ent, Set: map[string]json.RawMessage{"mass": json.RawMessage(`"stone"`)}})
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Added int
		Aside []struct{ Ent, Field, Why string }
	}
	call(t, h.p.Receive, map[string]any{"ops": []string{"{}", "rubbish", string(strange.Bytes), string(wrong.Bytes)}}, nil, &got)
	if got.Added != 2 || len(got.Aside) != 1 || got.Aside[0].Field != "mass" {
		t.Fatalf("receive: %+v; want two added and the mass set aside", got)
	}
	home := view[phone.HouseholdView](h, "household", "")
	if home.Unread != 1 || len(home.Asides) != 1 || home.Mass != "g" {
		t.Errorf("household: unread %d, asides %v, mass %q; want 1, one, g", home.Unread, home.Asides, home.Mass)
	}
	var a, b advice.TodayView
	if json.Unmarshal(before, &a) != nil || json.Unmarshal(view[json.RawMessage](h, "today", ""), &b) != nil || a.Bins[0].Ration.Grams != b.Bins[0].Ration.Grams {
		t.Errorf("the ration changed from %d to %d g", a.Bins[0].Ration.Grams, b.Bins[0].Ration.Grams)
	}
}
