package phone_test

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"encoding/json"
	"fmt"
	mrand "math/rand/v2"
	"slices"
	"testing"

	"trayside/internal/advice"
	"trayside/internal/demo"
	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/pwa/engine/phone"
	"trayside/sync/digest"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
	"trayside/sync/roster"
	"trayside/sync/roster/p256"
)

const today = "2026-11-25"

// noon of today, ms.
const noon = 1_795_608_000_000

func dayOf(t testing.TB, s string) record.Day {
	t.Helper()
	d, err := record.DayOf(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// server answers over memory, and can be switched off.
type server struct {
	shelf  *exchange.Shelf
	roster *roster.Set
	door   exchange.Door
	off    bool
	posts  int

	refusal string // body of a 403 that answers every post; empty: none
}

func (s *server) post(t testing.TB, path, body string) (status int, answer string) {
	t.Helper()
	s.posts++
	if s.refusal != "" {
		return 403, s.refusal
	}
	var out any
	var err error
	if path == exchange.PathReconcile {
		var q exchange.Query
		if err := json.Unmarshal([]byte(body), &q); err != nil {
			t.Fatal(err)
		}
		out, err = exchange.Reconcile(s.shelf, q, noon)
	} else {
		var req exchange.Request
		if err := json.Unmarshal([]byte(body), &req); err != nil {
			t.Fatal(err)
		}
		out, err = exchange.Respond(s.shelf, s.roster, s.door, req, noon)
	}
	if err != nil {
		t.Fatalf("server: %s: %v", path, err)
	}
	b, err := json.Marshal(out)
	if err != nil {
		t.Fatal(err)
	}
	return 200, string(b)
}

func (s *server) root(t testing.TB) (root digest.Sum) {
	t.Helper()
	err := s.shelf.View(func(v exchange.Snapshot) (err error) {
		root, err = v.Root()
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return root
}

// hand is a phone with its storage: what the TypeScript side does, in a page.
type hand struct {
	t         testing.TB
	p         *phone.Phone
	server    *server
	key       *ecdsa.PrivateKey
	household string
	device    string
	member    string
	rng       *mrand.Rand

	ops        []string // as stored, in order
	known      map[string]bool
	roster     []string
	hint       exchange.Hint
	floor      int64
	heard      int64
	checkpoint []byte
	covered    int // ops in the checkpoint
	status     exchange.Status
	wiped      string
	drawer     []exchange.Result // not accepted
	now        int64
}

// call passes a frame through the border and reads the answer into out.
func call(t testing.TB, run func([]byte) []byte, header any, body []byte, out any) []byte {
	t.Helper()
	frame, err := phone.Frame(header, body)
	if err != nil {
		t.Fatal(err)
	}
	head, rest, err := phone.Split(run(frame))
	if err != nil {
		t.Fatal(err)
	}
	var failure struct{ Error string }
	if err := json.Unmarshal(head, &failure); err == nil && failure.Error != "" {
		t.Fatalf("the engine failed: %s", failure.Error)
	}
	if err := json.Unmarshal(head, out); err != nil {
		t.Fatalf("%v in %s", err, head)
	}
	return rest
}

type opened struct {
	State string
	Count int
	Why   string
}

// open starts the engine cold, as after the app was closed.
func (h *hand) open() opened {
	h.t.Helper()
	h.p = new(phone.Phone)
	var unshared []string
	for _, op := range h.ops {
		if id := oplog.Hash([]byte(op)).String(); !h.known[id] {
			unshared = append(unshared, id)
		}
	}
	var out opened
	call(h.t, h.p.Open, map[string]any{
		"now": h.now, "household": h.household, "device": h.device, "member": h.member,
		"unshared": unshared, "hint": h.hint, "floor": h.floor, "heard": h.heard,
		"tail": h.ops[h.covered:], "roster": h.roster, "more": false,
	}, h.checkpoint, &out)
	return out
}

type recorded struct {
	Ops     []string
	Entity  string
	Refused *journal.Refusal
	Slip    *advice.SlipView
}

// tap asks for an entry without storing it.
func (h *hand) tap(in journal.Intent) recorded {
	h.t.Helper()
	h.now += 1000
	random := make([]byte, 16)
	for i := range random {
		random[i] = byte(h.rng.Uint32())
	}
	if in.Day == "" {
		in.At, in.Day = today+"T12:00:00Z", today
	}
	var out recorded
	call(h.t, h.p.Record, map[string]any{"now": h.now, "rand": fmt.Sprintf("%x", random), "intent": in}, nil, &out)
	return out
}

// save is tap, store, receive.
func (h *hand) save(in journal.Intent) string {
	h.t.Helper()
	out := h.tap(in)
	if out.Refused != nil || out.Slip != nil {
		h.t.Fatalf("%s: refused %+v, slip %+v", in.Do, out.Refused, out.Slip)
	}
	h.ops = append(h.ops, out.Ops...)
	var got struct{ Added int }
	call(h.t, h.p.Receive, map[string]any{"ops": out.Ops, "mine": true, "more": false}, nil, &got)
	if got.Added != len(out.Ops) {
		h.t.Fatalf("receive added %d of %d own operations", got.Added, len(out.Ops))
	}
	h.event(exchange.Event{Kind: exchange.EventSaved})
	return out.Entity
}

func view[T any](h *hand, screen, arg string) (v T) {
	h.t.Helper()
	call(h.t, h.p.View, map[string]any{"screen": screen, "arg": arg, "day": today, "now": h.now}, nil, &v)
	return v
}

// event steps the loop of the exchange and carries out what it wants done.
func (h *hand) event(ev exchange.Event) {
	h.t.Helper()
	queue := []exchange.Event{ev}
	for steps := 0; len(queue) > 0; steps++ {
		if steps > 200 {
			h.t.Fatal("the exchange does not come to rest")
		}
		ev, queue = queue[0], queue[1:]
		ev.Now, ev.Rand = h.now, 0.5
		var out struct{ Effects []exchange.Effect }
		call(h.t, h.p.Exchange, ev, nil, &out)
		for _, e := range out.Effects {
			if next, ok := h.carryOut(e); ok {
				queue = append(queue, next)
			}
		}
	}
}

func (h *hand) carryOut(e exchange.Effect) (exchange.Event, bool) {
	h.t.Helper()
	switch e.Kind {
	case exchange.EffectPost:
		if h.server.off {
			return exchange.Event{Kind: exchange.EventFailed, Seq: e.Seq, Reason: "no network"}, true
		}
		status, body := h.server.post(h.t, e.Path, e.Body)
		return exchange.Event{Kind: exchange.EventAnswer, Seq: e.Seq, Status: status, Body: body, JSON: true}, true
	case exchange.EffectLoad:
		ev := exchange.Event{Kind: exchange.EventLoaded, Seq: e.Seq}
		for _, op := range h.ops {
			if slices.Contains(e.IDs, oplog.Hash([]byte(op))) {
				ev.Ops = append(ev.Ops, op)
			}
		}
		return ev, true
	case exchange.EffectStore:
		h.store(e.Store)
		return exchange.Event{Kind: exchange.EventStored, Seq: e.Seq}, true
	case exchange.EffectAuthenticate:
		return exchange.Event{Kind: exchange.EventAuthed, Seq: e.Seq}, true
	case exchange.EffectStatus:
		h.status = *e.Status
	case exchange.EffectWipe:
		h.wiped = e.Reason
	}
	return exchange.Event{}, false
}

func (h *hand) store(s *exchange.Store) {
	for _, op := range s.Ops {
		h.ops = append(h.ops, op)
		h.known[oplog.Hash([]byte(op)).String()] = true
	}
	for _, id := range s.Known {
		h.known[id.String()] = true
	}
	for _, id := range s.Unknown {
		h.known[id.String()] = false
	}
	for _, r := range s.Refused { // to the drawer; the checkpoint may hold it, so it goes too
		h.ops = slices.DeleteFunc(h.ops, func(op string) bool { return oplog.Hash([]byte(op)) == r.ID })
		h.drawer = append(h.drawer, r)
		h.checkpoint, h.covered = nil, 0
	}
	h.roster = append(h.roster, s.Roster...)
	h.hint, h.floor, h.heard = s.Hint, s.Floor, s.Heard
}

// idle tells the engine that nothing happens, with news or without, and returns
// the checkpoint it makes: of how many operations, and its bytes.
func (h *hand) idle(news bool) (made *struct{ Count int }, body []byte) {
	h.t.Helper()
	var out struct{ Checkpoint *struct{ Count int } }
	body = call(h.t, h.p.Exchange, map[string]any{"kind": exchange.EventIdle, "now": h.now, "news": news}, nil, &out)
	return out.Checkpoint, slices.Clone(body)
}

// rest lets the engine make a checkpoint.
func (h *hand) rest() {
	h.t.Helper()
	made, body := h.idle(true)
	if made == nil || made.Count != len(h.ops) || len(body) == 0 {
		h.t.Fatalf("idle gave checkpoint %+v with %d bytes; want one of %d operations", made, len(body), len(h.ops))
	}
	h.checkpoint, h.covered = body, len(h.ops)
}

// world is a server that holds the demo household, and two phones that joined.
type world struct {
	*server
	console       *ecdsa.PrivateKey
	tamsin, odell *hand
}

func newKey(t testing.TB) *ecdsa.PrivateKey {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	return key
}

func newWorld(t testing.TB) *world {
	t.Helper()
	console := newKey(t)
	found, err := p256.Sign(console, roster.Op{T: 1, Kind: roster.Found, Name: "home"})
	if err != nil {
		t.Fatal(err)
	}
	w := &world{server: &server{shelf: exchange.NewShelf("first"), roster: roster.NewSet(found.ID, "", p256.Verify)}, console: console}
	w.door = func(op oplog.Op) string { return "" }
	w.roster.Take([]string{found.Text})
	if _, err := w.shelf.Put(demo.Household(1, dayOf(t, today))); err != nil {
		t.Fatal(err)
	}
	w.tamsin = w.join(t, found, demo.Tamsin, roster.Keeper, 1)
	w.odell = w.join(t, found, demo.Odell, roster.Feeder, 2)
	return w
}

// join grants a new phone its member and role, signed by the console.
func (w *world) join(t testing.TB, found roster.Signed, member string, role roster.Role, seed uint64) *hand {
	t.Helper()
	key := newKey(t)
	public, err := p256.PublicKey(key)
	if err != nil {
		t.Fatal(err)
	}
	device := roster.DeviceID(public)
	grant, err := p256.Sign(w.console, roster.Op{
		T: 2, Home: found.ID.String(), Kind: roster.Grant, To: device, Key: roster.KeyText(public), Member: member, Role: role, Name: "phone",
	})
	if err != nil {
		t.Fatal(err)
	}
	w.roster.Take([]string{grant.Text})
	return &hand{
		t: t, server: w.server, key: key, household: found.ID.String(), device: device, member: member,
		rng: mrand.New(mrand.NewPCG(seed, seed)), known: map[string]bool{}, roster: w.roster.Texts(), now: noon,
	}
}
