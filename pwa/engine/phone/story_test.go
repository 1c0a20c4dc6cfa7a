package phone_test

import (
	"encoding/json"
	"strings"
	"testing"

	"trayside/internal/advice"
	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/internal/units"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

func carrots(grams units.Grams) []record.Item { return []record.Item{{Scrap: "carrot", Grams: grams}} }

// tierNamed finds a tray on Today.
func tierNamed(t testing.TB, v advice.TodayView, name string) advice.TierView {
	t.Helper()
	for _, bin := range v.Bins {
		for _, tier := range bin.Stack {
			if tier.Name == name {
				return tier
			}
		}
	}
	t.Fatalf("no tray %s on Today", name)
	return advice.TierView{}
}

func binOf(t testing.TB, v advice.TodayView, name string) advice.BinView {
	t.Helper()
	for _, bin := range v.Bins {
		if bin.Name == name {
			return bin
		}
	}
	t.Fatalf("no bin %s on Today", name)
	return advice.BinView{}
}

func TestTwoPhonesFeedOutOfSightAndAgreeAfterwards(t *testing.T) {
	w := newWorld(t)
	for _, h := range []*hand{w.tamsin, w.odell} {
		if got := h.open(); got.State != "ready" || got.Count != 0 {
			t.Fatalf("open of a new phone: %+v; want ready with nothing", got)
		}
		h.event(exchange.Event{Kind: exchange.EventStart})
		if h.status.State != exchange.StateIdle || uint64(len(h.ops)) != w.root(t).Count {
			t.Fatalf("after the first exchange: %d operations, %+v; want %d, idle", len(h.ops), h.status, w.root(t).Count)
		}
		h.rest()
	}
	before := view[advice.TodayView](w.tamsin, "today", "")
	fern, moss := tierNamed(t, before, "Fern"), tierNamed(t, before, "Moss")

	w.off = true
	typed := strings.ToLower(fern.Code[:3] + "-" + fern.Code[3:])
	tray := view[advice.TrayView](w.tamsin, "tray", typed)
	if tray.Found != "tray" || tray.ID != fern.ID || tray.Ration == nil {
		t.Fatalf("a scan of %s opened %q %q; want Fern with its ration", typed, tray.Found, tray.Name)
	}
	hers := w.tamsin.save(journal.Intent{Do: journal.DoFeed, Tray: tray.ID, Spot: "left", Items: carrots(120)})
	wrong := w.odell.save(journal.Intent{Do: journal.DoFeed, Tray: moss.ID, Items: carrots(900), Sure: true})
	w.odell.save(journal.Intent{Do: journal.DoUndo, Entity: wrong})
	his := w.odell.save(journal.Intent{Do: journal.DoFeed, Tray: fern.ID, Spot: "right", Items: carrots(90)})
	if w.tamsin.status.State != exchange.StateOffline || w.tamsin.status.Waiting != 1 || w.odell.status.Waiting != 3 {
		t.Errorf("out of reach: %+v and %+v; want offline with 1 and 3 waiting", w.tamsin.status, w.odell.status)
	}
	if got := w.tamsin.open(); got.State != "ready" || got.Count != len(w.tamsin.ops) {
		t.Fatalf("cold start: %+v; want ready with %d", got, len(w.tamsin.ops))
	}
	alone := binOf(t, view[advice.TodayView](w.tamsin, "today", ""), "Cellar")
	was := binOf(t, before, "Cellar").Ration
	if alone.Double != nil || alone.Ration.Feeds != 120 || alone.Ration.Likely.Mid >= was.Likely.Mid || alone.Ration.Grams > was.Grams {
		t.Errorf("after her feeding, unseen by others: double %v, fed %d g, ration %d g, likely %+v; want none, 120 g, less than %d g and %+v", alone.Double, alone.Ration.Feeds, alone.Ration.Grams, alone.Ration.Likely, was.Grams, was.Likely)
	}

	w.off = false
	w.tamsin.event(exchange.Event{Kind: exchange.EventStart})
	w.odell.event(exchange.Event{Kind: exchange.EventOnline})
	w.tamsin.event(exchange.Event{Kind: exchange.EventRipple})
	one, two := view[advice.TodayView](w.tamsin, "today", ""), view[advice.TodayView](w.odell, "today", "")
	for _, h := range []*hand{w.tamsin, w.odell} {
		if uint64(len(h.ops)) != w.root(t).Count || h.status.Waiting != 0 || h.status.State != exchange.StateIdle {
			t.Errorf("after the exchange: %d operations, %+v; want %d, idle", len(h.ops), h.status, w.root(t).Count)
		}
	}
	if a, b := theSame(t, one), theSame(t, two); a != b {
		t.Errorf("the phones show different things:\n%s\n%s", a, b)
	}
	cellar := binOf(t, one, "Cellar")
	if cellar.Double == nil || len(cellar.Double.Feedings) != 2 || cellar.Double.Grams != 210 {
		t.Fatalf("double feeding: %+v; want both, 210 g", cellar.Double)
	}
	for _, f := range cellar.Double.Feedings {
		if f.ID != hers && f.ID != his {
			t.Errorf("double feeding names %s; want %s and %s", f.ID, hers, his)
		}
	}
	timeline := view[advice.TimelineView](w.tamsin, "timeline", "")
	found := false
	for _, e := range timeline.Days[0].Entries {
		found = found || e.Entity == wrong && e.Gone
	}
	if !found {
		t.Errorf("the undone feeding %s is not on the timeline, struck: %+v", wrong, timeline.Days[0])
	}
}

// theSame shows a view without what differs by whose phone it is.
func theSame(t testing.TB, v advice.TodayView) string {
	t.Helper()
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return strings.ReplaceAll(string(b), `,"mine":true`, "")
}

func TestAnEntryThatTheServerRefusesLeavesTheFold(t *testing.T) {
	w := newWorld(t)
	h := w.odell
	h.open()
	h.event(exchange.Event{Kind: exchange.EventStart})
	fern := tierNamed(t, view[advice.TodayView](h, "today", ""), "Fern").ID
	fed := func() int64 { return binOf(t, view[advice.TodayView](h, "today", ""), "Cellar").Ration.Feeds }
	w.door = func(op oplog.Op) string {
		if op.Dev == h.device {
			return "role"
		}
		return ""
	}
	w.off = true
	h.save(journal.Intent{Do: journal.DoFeed, Tray: fern, Items: carrots(70)})
	if fed() != 70 {
		t.Fatalf("fed today before the exchange: %d g; want 70", fed())
	}
	w.off = false
	h.event(exchange.Event{Kind: exchange.EventTap})
	if len(h.drawer) != 1 || h.drawer[0].Why != "role" || fed() != 0 || h.status.Waiting != 0 {
		t.Errorf("drawer %+v, fed %d g, waiting %d; want one entry refused by role, 0 g, 0", h.drawer, fed(), h.status.Waiting)
	}
	if uint64(len(h.ops)) != w.root(t).Count {
		t.Errorf("%d operations; want the server's %d", len(h.ops), w.root(t).Count)
	}
}

func TestWhatAPhoneMayNotWriteIsRefusedBeforeItIsSaved(t *testing.T) {
	w := newWorld(t)
	h := w.odell // a feeder
	h.open()
	h.event(exchange.Event{Kind: exchange.EventStart})
	fern := tierNamed(t, view[advice.TodayView](h, "today", ""), "Fern").ID
	tray := view[advice.TrayView](h, "tray", fern)
	ration := tray.Ration.Grams
	mend := func(items []record.Item) journal.Intent {
		return journal.Intent{Do: journal.DoEdit, Entity: tray.Feeds[0].ID, Set: map[string]any{"items": items}}
	}
	meant, inBin := mend(carrots(250_000)), mend(carrots(250_000))
	meant.Sure, inBin.InBin = true, true
	for _, tc := range []struct {
		name    string
		in      journal.Intent
		refused string
		slip    string
	}{
		{"a feeder who renames the household", journal.Intent{Do: journal.DoHousehold, Set: map[string]any{"name": "Mine"}}, "role", ""},
		{"a scrap that no catalogue has", journal.Intent{Do: journal.DoFeed, Tray: fern, Items: []record.Item{{Scrap: "moon-cheese", Grams: 10}}}, journal.CodeScrap, ""},
		{"a rule for a scrap that no catalogue has", journal.Intent{Do: journal.DoRule, Scrap: "moon-cheese", Verdict: record.RuleNever}, journal.CodeScrap, ""},
		{"a class that nobody knows", journal.Intent{Do: journal.DoFeed, Tray: fern, Items: []record.Item{{Scrap: "other", Class: "odd", Grams: 10}}}, journal.CodeScrap, ""},
		{"a code that is no label's", journal.Intent{Do: journal.DoClaim, Tray: fern, Set: map[string]any{"code": "hello"}}, "bad-code", ""},
		{"a negative weight", journal.Intent{Do: journal.DoFeed, Tray: fern, Items: carrots(-5)}, journal.CodeNegative, ""},
		{"far more than the ration", journal.Intent{Do: journal.DoFeed, Tray: fern, Items: carrots(units.Grams(2001 + 4*ration))}, "", "ask"},
		{"the same, and the person is sure", journal.Intent{Do: journal.DoFeed, Tray: fern, Sure: true, Items: carrots(units.Grams(2001 + 4*ration))}, "", ""},
		{"a quarter of a tonne", journal.Intent{Do: journal.DoFeed, Tray: fern, Sure: true, Items: carrots(250_000)}, "", "refuse"},
		{"the same, but it is in the bin already", journal.Intent{Do: journal.DoFeed, Tray: fern, InBin: true, Items: carrots(250_000)}, "", ""},
		{"an edit to far more than the ration", mend(carrots(units.Grams(2001 + 4*ration))), "", "ask"},
		{"an edit to a quarter of a tonne", meant, "", "refuse"},
		{"the same edit of what is in the bin already", inBin, "", ""},
		{"an edit to less than nothing", mend(carrots(-5)), journal.CodeNegative, ""},
		{"an edit to a scrap that no catalogue has", mend([]record.Item{{Scrap: "moon-cheese", Grams: 10}}), journal.CodeScrap, ""},
		{"an edit to what is no amount", journal.Intent{Do: journal.DoEdit, Entity: tray.Feeds[0].ID, Set: map[string]any{"items": "many"}}, journal.CodeField, ""},
		{"an ordinary meal", journal.Intent{Do: journal.DoFeed, Tray: fern, Items: carrots(50)}, "", ""},
	} {
		t.Run(tc.name, func(t *testing.T) {
			out := h.tap(tc.in)
			var refused, slip string
			if out.Refused != nil {
				refused = out.Refused.Code
			}
			if out.Slip != nil {
				slip = out.Slip.Kind
			}
			if refused != tc.refused || slip != tc.slip {
				t.Errorf("refused %q, slip %q; want %q, %q", refused, slip, tc.refused, tc.slip)
			}
			if wrote := len(out.Ops) > 0; wrote != (tc.refused == "" && tc.slip == "") {
				t.Errorf("%d operations came with refused %q, slip %q", len(out.Ops), refused, slip)
			}
		})
	}
}
