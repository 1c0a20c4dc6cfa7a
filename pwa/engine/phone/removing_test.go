package phone_test

import (
	"encoding/json"
	"slices"
	"testing"

	"trayside/pwa/engine/phone"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
	"trayside/sync/roster"
	"trayside/sync/roster/p256"
)

// joined is a world whose phones have heard all.
func joined(t testing.TB) *world {
	t.Helper()
	w := newWorld(t)
	for _, h := range []*hand{w.tamsin, w.odell} {
		h.open()
		h.event(exchange.Event{Kind: exchange.EventStart})
	}
	return w
}

// signs is a revocation by this phone, as it travels.
func (h *hand) signs(to, why string) string {
	h.t.Helper()
	arg, err := json.Marshal(map[string]string{"kind": roster.Revoke, "to": to, "why": why})
	if err != nil {
		h.t.Fatal(err)
	}
	text := view[phone.SignView](h, "sign", string(arg)).Text
	sig, err := p256.SignText(h.key, text)
	if err != nil {
		h.t.Fatal(err)
	}
	public, err := p256.PublicKey(h.key)
	if err != nil {
		h.t.Fatal(err)
	}
	return roster.Wrap(text, roster.KeyText(public), sig)
}

// believes keeps a signed text and gives it to the engine. The signature is
// checked first, as a phone does for all that reaches its engine.
func (h *hand) believes(text string) {
	h.t.Helper()
	if _, err := roster.Open(text, p256.Verify); err != nil {
		h.t.Fatal(err)
	}
	h.roster = append(h.roster, text)
	call(h.t, h.p.Receive, map[string]any{"roster": []string{text}, "more": false}, nil, &struct{}{})
	h.event(exchange.Event{Kind: exchange.EventSaved})
}

// gone is why a device is out, as this phone's Household says.
func (h *hand) gone(device string) string {
	h.t.Helper()
	for _, d := range view[phone.HouseholdView](h, "household", "").Devices {
		if d.ID == device {
			return d.Gone
		}
	}
	h.t.Fatalf("the household does not list device %s", device)
	return ""
}

// serverSays is why a device is out, as the server's roster has it.
func (w *world) serverSays(device string) string {
	d, _ := w.roster.State().Device(device)
	return d.Why
}

func TestAKeeperRemovesAPhoneAndItsNextExchangeEndsInTheWipe(t *testing.T) {
	for _, why := range []string{roster.Lost, roster.Removed} {
		t.Run(why, func(t *testing.T) {
			w := joined(t)
			w.tamsin.believes(w.tamsin.signs(w.odell.device, why))
			if got := w.serverSays(w.odell.device); got != why {
				t.Fatalf("after the keeper's exchange the server says %q; want %q", got, why)
			}
			if got := w.tamsin.gone(w.odell.device); got != why {
				t.Errorf("the keeper's Household says %q; want %q", got, why)
			}
			w.odell.event(exchange.Event{Kind: exchange.EventRipple})
			if w.odell.wiped != why || w.odell.status.State != exchange.StateRevoked {
				t.Errorf("the removed phone: wiped %q, %+v; want %q, revoked", w.odell.wiped, w.odell.status, why)
			}
			w.tamsin.event(exchange.Event{Kind: exchange.EventTap})
			if w.tamsin.wiped != "" || w.tamsin.status.State != exchange.StateIdle {
				t.Errorf("the keeper's phone: wiped %q, %+v; want it idle", w.tamsin.wiped, w.tamsin.status)
			}
		})
	}
}

func TestARevocationSignedOutOfReachIsPushedAfterAColdStart(t *testing.T) {
	w := joined(t)
	w.off = true
	w.tamsin.believes(w.tamsin.signs(w.odell.device, roster.Lost))
	if w.serverSays(w.odell.device) != "" {
		t.Fatal("the server heard of it without a network")
	}
	w.tamsin.open()
	if got := w.tamsin.gone(w.odell.device); got != roster.Lost {
		t.Fatalf("after a cold start the keeper's Household says %q; want lost", got)
	}
	w.off = false
	w.tamsin.event(exchange.Event{Kind: exchange.EventStart})
	if got := w.serverSays(w.odell.device); got != roster.Lost {
		t.Errorf("the server says %q; want lost", got)
	}
}

func TestAPhoneThatAKeeperLetInStaysWhenThatKeeperIsRemoved(t *testing.T) {
	w := joined(t)
	grant := func(by *hand, to string) string {
		d, _ := w.roster.State().Device(w.odell.device)
		text, err := p256.Sign(by.key, roster.Op{
			T: 3, Home: by.household, Kind: roster.Grant, To: to, Key: d.Key, Member: d.Member, Role: roster.Keeper, Name: d.Name,
		})
		if err != nil {
			t.Fatal(err)
		}
		return text.Text
	}
	w.tamsin.believes(grant(w.tamsin, w.odell.device)) // Odell is a keeper by Tamsin's word alone
	w.odell.event(exchange.Event{Kind: exchange.EventTap})
	w.odell.believes(w.odell.signs(w.tamsin.device, roster.Removed))
	if d, _ := w.roster.State().Device(w.odell.device); !d.In() || d.Role != roster.Keeper {
		t.Errorf("the phone that Tamsin let in is %+v; want a keeper's, in", d)
	}
	w.tamsin.event(exchange.Event{Kind: exchange.EventTap})
	if w.tamsin.wiped != roster.Removed || w.odell.wiped != "" {
		t.Errorf("wiped: %q and %q; want Tamsin's alone", w.tamsin.wiped, w.odell.wiped)
	}
}

func TestAForgedRevocationDoesNothing(t *testing.T) {
	w := joined(t)
	stranger := newKey(t)
	revoke := func(home oplog.ID) string {
		s, err := p256.Sign(stranger, roster.Op{T: 9, Home: home.String(), Kind: roster.Revoke, To: w.odell.device, Why: roster.Lost})
		if err != nil {
			t.Fatal(err)
		}
		return s.Text
	}
	home := w.roster.State().Home()
	for _, tc := range []struct{ name, text string }{
		{"signed by a stranger", revoke(home)},
		{"of another household", revoke(oplog.Hash([]byte("elsewhere")))},
		{"signed by a feeder's phone", w.odell.signs(w.tamsin.device, roster.Lost)},
	} {
		t.Run(tc.name, func(t *testing.T) {
			posts := w.posts
			refusal, err := json.Marshal(map[string]any{"code": "device-revoked", "why": "lost", "roster": []string{tc.text}})
			if err != nil {
				t.Fatal(err)
			}
			w.refusal = string(refusal)
			for _, h := range []*hand{w.odell, w.tamsin} {
				h.believes(tc.text)
				h.event(exchange.Event{Kind: exchange.EventTap})
			}
			if w.posts == posts {
				t.Fatal("no phone asked the server that refuses")
			}
			w.refusal = ""
			for _, h := range []*hand{w.odell, w.tamsin} {
				h.event(exchange.Event{Kind: exchange.EventTap})
				if h.wiped != "" || h.status.State != exchange.StateIdle {
					t.Errorf("a phone: wiped %q, %+v; want it idle", h.wiped, h.status)
				}
				if h.gone(w.odell.device)+h.gone(w.tamsin.device) != "" {
					t.Error("a phone says that somebody was removed")
				}
			}
			if slices.Contains(w.roster.Texts(), tc.text) {
				t.Error("the server keeps it")
			}
		})
	}
}

func TestAFeederTakesOutItsOwnPhoneAndNoOther(t *testing.T) {
	w := joined(t)
	farewell := w.odell.signs(w.odell.device, roster.Left)
	// It goes to the server by itself: an engine that believed it would stop.
	w.roster.Take([]string{farewell})
	w.tamsin.event(exchange.Event{Kind: exchange.EventRipple})
	if got := w.tamsin.gone(w.odell.device); got != roster.Left {
		t.Errorf("the keeper's Household says %q; want left", got)
	}
	w.odell.event(exchange.Event{Kind: exchange.EventTap})
	if w.odell.wiped != roster.Left {
		t.Errorf("the phone that left: wiped %q; want left", w.odell.wiped)
	}
}
