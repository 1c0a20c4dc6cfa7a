package exchange_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"iter"
	"maps"
	"slices"
	"strings"
	"testing"

	"trayside/sync/digest"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

const day0 = 20_000 * 86_400_000 // ms; a day to import into

func seal(t testing.TB, op oplog.Op) oplog.Sealed {
	t.Helper()
	op.V = 1
	s, err := oplog.Seal(op)
	if err != nil {
		t.Fatalf("seal %+v: %v", op, err)
	}
	return s
}

// makeOps makes n different operations with the given stamps, taken in turn.
func makeOps(t testing.TB, n int, dev string, stamps ...int64) []oplog.Sealed {
	list := make([]oplog.Sealed, n)
	for i := range list {
		list[i] = seal(t, oplog.Op{T: stamps[i%len(stamps)], Dev: dev, Ent: fmt.Sprintf("feeding/%d", i)})
	}
	return list
}

// roster is a second set whose texts count if they begin with "ok".
type roster struct {
	texts []string
	me    string // "ok revoke me" revokes this phone
}

func (r *roster) Root() (s digest.Sum) {
	for _, t := range r.texts {
		s = s.Add(oplog.Hash([]byte(t)))
	}
	return s
}

func (r *roster) Texts() []string { return r.texts }

func (r *roster) Add(texts []string) error {
	for _, t := range texts {
		if strings.HasPrefix(t, "ok") && !slices.Contains(r.texts, t) {
			r.texts = append(r.texts, t)
		}
	}
	return nil
}

func (r *roster) Revoked() string {
	if r.me != "" && slices.Contains(r.texts, "ok revoke "+r.me) {
		return "lost"
	}
	return ""
}

// server is the answering side behind HTTP, over a shelf whose faults can be set.
type server struct {
	*exchange.Shelf
	inst     string
	arrivals []oplog.Sealed // in order, for restores
	roster   roster
	clock    int64
	door     exchange.Door
	puts     int  // calls of Put
	later    bool // it takes nothing now
	broken   bool // its disk is full
	most     int  // operations that the proxy before it lets through; 0: any number
	requests int
}

func newServer(inst string) *server {
	return &server{Shelf: exchange.NewShelf(inst), inst: inst, door: door, clock: 1764057600000}
}

func (s *server) Put(ops []oplog.Sealed) ([]exchange.Result, error) {
	s.puts++
	if s.broken {
		return nil, errors.New("no space left on device")
	}
	if s.later {
		var results []exchange.Result
		for _, op := range ops {
			results = append(results, exchange.Result{ID: op.ID, Code: exchange.Later})
		}
		return results, nil
	}
	results, err := s.Shelf.Put(ops)
	for i, r := range results {
		if r.Code == exchange.Stored {
			s.arrivals = append(s.arrivals, ops[i])
		}
	}
	return results, err
}

// restore puts the server back to its first n arrivals, under the same
// instance (a hand copy) or a new one (a proper restore).
func (s *server) restore(n int, inst string) {
	kept := slices.Clone(s.arrivals[:n])
	s.Shelf, s.inst, s.arrivals = exchange.NewShelf(inst), inst, kept
	if _, err := s.Shelf.Put(kept); err != nil {
		panic(err)
	}
}

func door(op oplog.Op) string {
	if op.Dev == "viewer" {
		return "role"
	}
	return ""
}

// serve answers a post as the HTTP server does.
func (s *server) serve(path, body string) (int, string) {
	s.requests++
	s.clock += 10
	var answer any
	var err error
	switch path {
	case exchange.PathExchange:
		var req exchange.Request
		if err := json.Unmarshal([]byte(body), &req); err != nil {
			return 400, "{}"
		}
		if s.most > 0 && len(req.Ops) > s.most {
			return 413, "<html>"
		}
		answer, err = exchange.Respond(s, &s.roster, s.door, req, s.clock)
	case exchange.PathReconcile:
		var q exchange.Query
		if err := json.Unmarshal([]byte(body), &q); err != nil {
			return 400, "{}"
		}
		answer, err = exchange.Reconcile(s, q, s.clock)
	}
	var many *exchange.TooMany
	var bad *exchange.BadQuery
	switch {
	case errors.As(err, &many):
		return 413, `{"code":"too-big"}`
	case errors.As(err, &bad):
		return 400, `{"code":"bad-query"}`
	case err != nil:
		return 507, `{"code":"full"}`
	}
	b, err := json.Marshal(answer)
	if err != nil {
		panic(err)
	}
	return 200, string(b)
}

func (s *server) holds() map[oplog.ID]bool {
	set := map[oplog.ID]bool{}
	for _, op := range s.arrivals {
		set[op.ID] = true
	}
	return set
}

// phone is what TypeScript does for a machine: storage, network, timers.
type phone struct {
	name string
	m    *exchange.Machine

	ops    map[oplog.ID]string // durable
	known  map[oplog.ID]bool
	drawer map[oplog.ID]string
	texts  []string
	hint   exchange.Hint
	floor  int64
	heard  int64

	folded   map[oplog.ID]bool // in memory
	timer    exchange.Effect
	status   exchange.Status
	watching func(exchange.Status) // told of every status
	wiped    string
	killed   bool // in the middle of something; the next step opens anew
	clock    int64
	fakes    fakes
	posts    []string                // bodies posted
	late     []exchange.Event        // answers still under way
	loads    func([]string) []string // what storage has become
}

// fakes decides what goes wrong; a nil function: nothing does.
type fakes struct {
	serve func(path, body string) []exchange.Event // events without Seq; none: silence
	store func() bool                              // false: storage fails
	rand  func() float64
}

func newPhone(name string) *phone {
	return &phone{name: name, ops: map[oplog.ID]string{}, known: map[oplog.ID]bool{}, drawer: map[oplog.ID]string{}, folded: map[oplog.ID]bool{}, clock: 1764057600000}
}

// open starts the app from what is durable.
func (p *phone) open() {
	p.folded, p.late, p.killed = map[oplog.ID]bool{}, nil, false
	for id := range p.ops {
		p.folded[id] = true
	}
	held := func(known bool) iter.Seq[exchange.Held] {
		return func(yield func(exchange.Held) bool) {
			for _, id := range slices.SortedFunc(maps.Keys(p.ops), oplog.ID.Compare) {
				if p.known[id] == known && !yield(exchange.Held{ID: id, T: stampOf(p.ops[id])}) {
					return
				}
			}
		}
	}
	r := &roster{me: p.name}
	if err := r.Add(p.texts); err != nil {
		panic(err)
	}
	p.m = exchange.New(exchange.Config{Known: held(true), Waiting: held(false), Hint: p.hint, Floor: p.floor, Heard: p.heard, Roster: r})
}

func stampOf(text string) int64 {
	s, err := oplog.Open([]byte(text))
	if err != nil {
		panic(err)
	}
	return s.Op.T
}

// save stores own entries and tells the machine.
func (p *phone) save(ops ...oplog.Sealed) {
	for _, s := range ops {
		if _, refused := p.drawer[s.ID]; refused {
			continue
		}
		p.ops[s.ID], p.folded[s.ID] = string(s.Bytes), true
		p.m.Hold(exchange.Held{ID: s.ID, T: s.Op.T})
	}
}

// step gives the machine one event and those that follow from it, until it
// rests or waits to retry; after most events the app is killed where it stands.
func (p *phone) step(most int, events ...exchange.Event) (steps int) {
	if p.killed {
		p.open()
		events = []exchange.Event{{Kind: exchange.EventStart}}
	}
	for ; len(events) > 0 && steps < most; steps++ {
		ev := events[0]
		events = events[1:]
		p.clock += 5
		ev.Now = p.clock
		if p.fakes.rand != nil {
			ev.Rand = p.fakes.rand()
		}
		for _, e := range p.m.Step(ev) {
			events = append(events, p.carryOut(e)...)
		}
	}
	p.killed = len(events) > 0
	return steps
}

func (p *phone) carryOut(e exchange.Effect) (events []exchange.Event) {
	switch e.Kind {
	case exchange.EffectPost:
		p.posts = append(p.posts, e.Body)
		events = p.fakes.serve(e.Path, e.Body)
		if len(events) == 0 { // silence: patience ends
			events = []exchange.Event{{Kind: exchange.EventTimer, Seq: e.Seq + 1}}
			return events
		}
	case exchange.EffectLoad:
		var found []string
		for _, id := range e.IDs {
			if text, there := p.ops[id]; there {
				found = append(found, text)
			}
		}
		if p.loads != nil {
			found = p.loads(found)
		}
		events = []exchange.Event{{Kind: exchange.EventLoaded, Ops: found}}
	case exchange.EffectStore:
		if p.fakes.store != nil && !p.fakes.store() {
			events = []exchange.Event{{Kind: exchange.EventStoreFail}}
			break
		}
		p.store(e.Store)
		events = []exchange.Event{{Kind: exchange.EventStored}}
	case exchange.EffectAuthenticate:
		events = []exchange.Event{{Kind: exchange.EventAuthed}}
	case exchange.EffectTimer:
		p.timer = e
	case exchange.EffectStatus:
		p.status = *e.Status
		if p.watching != nil {
			p.watching(p.status)
		}
	case exchange.EffectChanged:
		for _, s := range e.Fold {
			p.folded[s.ID] = true
		}
		for _, id := range e.Drop {
			delete(p.folded, id)
		}
	case exchange.EffectWipe:
		p.wiped = e.Reason
	}
	for i := range events {
		events[i].Seq = e.Seq
	}
	return events
}

func (p *phone) store(s *exchange.Store) {
	for _, text := range s.Ops {
		id := oplog.Hash([]byte(text))
		p.ops[id], p.known[id] = text, true
		delete(p.drawer, id)
	}
	for _, id := range s.Known {
		p.known[id] = true
	}
	for _, id := range s.Unknown {
		delete(p.known, id)
	}
	for _, r := range s.Refused {
		p.drawer[r.ID] = p.ops[r.ID]
		delete(p.ops, r.ID)
		delete(p.known, r.ID)
	}
	p.texts = append(p.texts, s.Roster...)
	p.hint, p.floor, p.heard = s.Hint, s.Floor, s.Heard
}

// connect makes every post reach the server.
func (p *phone) connect(s *server) {
	p.fakes.store = nil
	p.fakes.serve = func(path, body string) []exchange.Event { return []exchange.Event{answer(s.serve(path, body))} }
}

func answer(status int, body string) exchange.Event {
	return exchange.Event{Kind: exchange.EventAnswer, Status: status, Body: body, JSON: !strings.HasPrefix(body, "<")}
}

// settle lets the phone go on, retries included, until it rests. It fails the
// test if that takes more than the given number of retries.
func (p *phone) settle(t interface {
	Helper()
	Fatalf(string, ...any)
}, retries int) {
	t.Helper()
	events := exchange.Event{Kind: exchange.EventOnline}
	for range retries + 1 {
		if n := p.step(20_000, events); n == 20_000 {
			t.Fatalf("phone %s goes on for ever, last with %+v", p.name, p.status)
		}
		if p.status.State == exchange.StateIdle {
			return
		}
		events = exchange.Event{Kind: exchange.EventTimer, Seq: p.timer.Seq}
	}
	t.Fatalf("phone %s does not rest after %d retries: %+v", p.name, retries, p.status)
}

func ids(ops []oplog.Sealed) map[oplog.ID]bool {
	set := map[oplog.ID]bool{}
	for _, s := range ops {
		set[s.ID] = true
	}
	return set
}

func keys[V any](m map[oplog.ID]V) map[oplog.ID]bool {
	set := map[oplog.ID]bool{}
	for id := range m {
		set[id] = true
	}
	return set
}
