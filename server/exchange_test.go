package server_test

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"trayside/server"
	"trayside/server/store"
	"trayside/sync/digest"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
	"trayside/sync/roster"
)

func mustID(t testing.TB, s string) oplog.ID {
	t.Helper()
	id, err := oplog.ParseID(s)
	if err != nil {
		t.Fatal(err)
	}
	return id
}

// restored is a server of the same household whose store holds one roster text.
func restored(t testing.TB, s *site, found roster.Signed) *site {
	t.Helper()
	old := store.NewMemory()
	if err := old.PutRoster(found.ID, map[oplog.ID]string{found.ID: found.Text}); err != nil {
		t.Fatal(err)
	}
	return newSite(t, func(c *server.Config) { c.Store, c.Console = old, s.key })
}

func TestTwoPhonesExchange(t *testing.T) {
	s := newSite(t)
	a, b := s.member("a", roster.Keeper), s.member("b", roster.Feeder)
	mine := a.write(3, "look")
	first := a.push(mine...)
	if got := codes(first); !slices.Equal(got, []string{"stored", "stored", "stored"}) {
		t.Errorf("pushed: %v", got)
	}
	if len(first.Ops) != 0 || first.Root.Count != 3 || first.Now != s.now.UnixMilli() {
		t.Errorf("answer %+v", first)
	}
	if got := codes(a.push(mine...)); !slices.Equal(got, []string{"dup", "dup", "dup"}) {
		t.Errorf("the answer was lost and all is sent again: %v", got)
	}
	got := b.push(b.write(1, "feeding")...)
	if !slices.Equal(got.Ops, mine) || got.Root.Count != 4 {
		t.Errorf("b got %d operations, root of %d; want a's 3 and 4", len(got.Ops), got.Root.Count)
	}
	if next := b.push(); len(next.Ops) != 0 {
		t.Errorf("b got %d operations again", len(next.Ops))
	}
}

func TestOneBadOperationHoldsNothingUp(t *testing.T) {
	s := newSite(t)
	p := s.member("p", roster.Keeper)
	good := p.write(2, "look")
	a := p.push(good[0], "not an operation", `{"v":1,"t":1,"by":"","dev":"d","ent":"look/x","set":{"note":"`+strings.Repeat("x", 9<<10)+`"}}`, good[1])
	if got := codes(a); !slices.Equal(got, []string{"stored", "refused invalid", "refused too-big", "stored"}) {
		t.Errorf("%v", got)
	}
}

func TestNothingIsRefusedForItsClock(t *testing.T) {
	s := newSite(t)
	p := s.member("p", roster.Keeper)
	var texts []string
	for _, stamp := range []int64{0, s.now.AddDate(1, 0, 0).UnixMilli(), oplog.MaxStamp} {
		o, err := oplog.Seal(oplog.Op{V: 1, T: stamp, Dev: p.dev(), Ent: "look/1"})
		if err != nil {
			t.Fatal(err)
		}
		texts = append(texts, string(o.Bytes))
	}
	if got := codes(p.push(texts...)); !slices.Equal(got, []string{"stored", "stored", "stored"}) {
		t.Errorf("stamps of 1970, next year and the last there is: %v", got)
	}
	var r exchange.Reply
	s.post(exchange.PathReconcile, p.token, m{"months": true}).into(t, &r)
	if len(r.Months) != 3 {
		t.Errorf("months %v, want 3", r.Months)
	}
}

func TestTheDoorJudgesByRole(t *testing.T) {
	s := newSite(t)
	tests := map[roster.Role][]string{
		roster.Keeper: {"stored", "stored", "stored"},
		roster.Feeder: {"stored", "refused role", "stored"},
		roster.Viewer: {"refused role", "refused role", "refused role"},
	}
	for role, want := range tests {
		t.Run(string(role), func(t *testing.T) {
			p := s.member(string(role), role)
			texts := slices.Concat(p.write(1, "feeding"), p.write(1, "bin"), p.write(1, "kind-of-a-newer-app"))
			if got := codes(p.push(texts...)); !slices.Equal(got, want) {
				t.Errorf("feeding, bin, unknown kind: %v, want %v", got, want)
			}
			if role != roster.Keeper {
				s.post("/api/v1/invites", p.token, m{"role": "viewer"}).refused(t, http.StatusForbidden, "role")
				s.get("/api/v1/invites", p.token).refused(t, http.StatusForbidden, "role")
			}
		})
	}
}

func TestReconcileLeadsToWhatIsLacking(t *testing.T) {
	s := newSite(t)
	p := s.member("p", roster.Keeper)
	texts := p.write(5, "look")
	p.push(texts...)
	ask := func(q exchange.Query) (r exchange.Reply) {
		t.Helper()
		s.post(exchange.PathReconcile, p.token, q).into(t, &r)
		return r
	}
	months := ask(exchange.Query{Months: true}).Months
	days := ask(exchange.Query{Days: []digest.Month{months[0].Month}}).Days
	ids := ask(exchange.Query{IDs: []exchange.Scope{{Day: days[0].Day, Part: digest.WholeDay}}}).IDs
	if len(ids) != 5 {
		t.Fatalf("%d ids of the day, want 5", len(ids))
	}
	if got := ask(exchange.Query{Want: ids}).Ops; len(got) != 5 {
		t.Errorf("%d operations, want 5", len(got))
	}
	if r := s.post(exchange.PathReconcile, p.token, m{"days": make([]string, 13)}); r.status < 400 || r.code() == "" || r.code() == "internal" {
		t.Errorf("13 empty months: %d %s", r.status, r.body)
	}
}

func TestAQueryThatCannotBeAnsweredIsTheAskersMistake(t *testing.T) {
	s := newSite(t)
	p := s.member("p", roster.Keeper)
	for name, query := range map[string]m{
		"nothing asked":           {},
		"two questions":           {"months": true, "days": []string{"2026-11"}},
		"a part beyond the day":   {"ids": []m{{"day": 20000, "part": 256}}},
		"a cursor from elsewhere": {"ids": []m{{"day": 20000, "part": 0}}, "cursor": "7.nonsense"},
	} {
		t.Run(name, func(t *testing.T) {
			s.post(exchange.PathReconcile, p.token, query).refused(t, http.StatusBadRequest, "bad-request")
		})
	}
}

func TestBodiesThatAreNoRequest(t *testing.T) {
	s := newSite(t)
	p := s.member("p", roster.Keeper)
	many := make([]string, exchange.MaxOps+1)
	tests := map[string]struct {
		body   string
		media  string
		status int
		code   string
	}{
		"not JSON":            {"<html>sign in to the network</html>", "application/json", 400, "not-json"},
		"cut off":             {`{"ops":["`, "application/json", 400, "not-json"},
		"empty":               {"", "application/json", 400, "not-json"},
		"another form":        {`{"ops":7}`, "application/json", 400, "not-json"},
		"a form field":        {"ops=1", "application/x-www-form-urlencoded", 415, "unsupported-media"},
		"too many operations": {jsonOf(t, exchange.Request{Ops: many}), "application/json", 413, "too-large"},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			r := s.do(http.MethodPost, exchange.PathExchange, p.token, strings.NewReader(tt.body), "Content-Type", tt.media)
			r.refused(t, tt.status, tt.code)
		})
	}
}

func jsonOf(t testing.TB, v any) string {
	t.Helper()
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func zipped(t testing.TB, b []byte) []byte {
	t.Helper()
	var buf bytes.Buffer
	z := gzip.NewWriter(&buf)
	if _, err := z.Write(b); err != nil {
		t.Fatal(err)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

// unsized hides a reader's length, so that the request does not announce it.
type unsized struct{ io.Reader }

func TestBodiesThatAreTooLarge(t *testing.T) {
	s := newSite(t)
	p := s.member("p", roster.Keeper)
	tenMB := bytes.Repeat([]byte("x"), 10<<20)
	bomb := zipped(t, append([]byte(`{"ops":["`), make([]byte, 64<<20)...))
	if len(bomb) > exchange.MaxWireBytes {
		t.Fatalf("the bomb has %d bytes on the wire; it must pass the first limit", len(bomb))
	}
	tests := map[string]struct {
		body     io.Reader
		encoding string
	}{
		"10 MB, announced":              {bytes.NewReader(tenMB), ""},
		"10 MB, not announced":          {unsized{bytes.NewReader(tenMB)}, ""},
		"64 MB in 64 kB of gzip":        {bytes.NewReader(bomb), "gzip"},
		"the same, not announced":       {unsized{bytes.NewReader(bomb)}, "gzip"},
		"3 MB that packs to next to no": {bytes.NewReader(zipped(t, make([]byte, 3<<20))), "gzip"},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			header := []string{}
			if tt.encoding != "" {
				header = append(header, "Content-Encoding", tt.encoding)
			}
			s.do(http.MethodPost, exchange.PathExchange, p.token, tt.body, header...).refused(t, 413, "too-large")
		})
	}
	packed := zipped(t, []byte(jsonOf(t, exchange.Request{Ops: p.write(400, "look")})))
	r := s.do(http.MethodPost, exchange.PathExchange, p.token, bytes.NewReader(packed), "Content-Encoding", "gzip")
	var a exchange.Answer
	if r.into(t, &a); a.Root.Count != 400 {
		t.Errorf("a packed push stored %d, want 400", a.Root.Count)
	}
	s.do(http.MethodPost, exchange.PathExchange, p.token, strings.NewReader("not gzip"), "Content-Encoding", "gzip").refused(t, 400, "bad-request")
}

func TestAPhoneBackFromAHolidayGetsThroughAndAFloodDoesNot(t *testing.T) {
	s := newSite(t)
	p := s.member("p", roster.Keeper)
	var last reply
	for range 61 {
		last = p.tryPush()
	}
	last.refused(t, http.StatusTooManyRequests, "too-many")
	if last.header.Get("Retry-After") != "1" {
		t.Errorf("Retry-After %q, want 1", last.header.Get("Retry-After"))
	}
	s.now = s.now.Add(time.Second)
	p.push()
	s.member("another phone is not held up", roster.Viewer).push()
}

// full is a store without room.
type full struct{ *store.Memory }

type fullLog struct{ exchange.Log }

func (f full) Log(home oplog.ID) exchange.Log { return fullLog{f.Memory.Log(home)} }
func (fullLog) Put([]oplog.Sealed) ([]exchange.Result, error) {
	return nil, errors.Join(errors.New("put"), store.ErrFull)
}
func (full) Ready() error { return store.ErrFull }

func TestAFullDiskAcknowledgesNothing(t *testing.T) {
	s := newSite(t, func(c *server.Config) { c.Store = full{store.NewMemory()} })
	p := s.member("p", roster.Keeper)
	p.tryPush(p.write(1, "look")...).refused(t, http.StatusInsufficientStorage, "no-space")
	if r := s.get("/readyz", ""); r.status != http.StatusServiceUnavailable {
		t.Errorf("readyz %d, want 503", r.status)
	}
	if r := s.get("/livez", ""); r.status != http.StatusOK {
		t.Errorf("livez %d, want 200", r.status)
	}
}

// forgetful is a store that keeps no roster text while it is full.
type forgetful struct {
	*store.Memory
	full bool
}

func (f *forgetful) PutRoster(home oplog.ID, texts map[oplog.ID]string) error {
	if f.full {
		return store.ErrFull
	}
	return f.Memory.PutRoster(home, texts)
}

func TestARevocationThatWasNotKeptDoesNotCountAndIsTakenTheNextTime(t *testing.T) {
	held := &forgetful{Memory: store.NewMemory()}
	s := newSite(t, func(c *server.Config) { c.Store = held })
	keeper, lost := s.member("keeper", roster.Keeper), s.member("lost", roster.Feeder)
	req := exchange.Request{Ops: []string{}, Roster: []string{keeper.sign(roster.Op{Kind: roster.Revoke, To: lost.dev(), Why: roster.Lost})}}

	held.full = true
	s.post(exchange.PathExchange, keeper.token, req).refused(t, http.StatusInsufficientStorage, "no-space")
	lost.push()

	held.full = false
	s.post(exchange.PathExchange, keeper.token, req).into(t, &exchange.Answer{})
	lost.tryPush().refused(t, http.StatusForbidden, "device-revoked")
	texts, err := held.Roster(mustID(t, s.Household()))
	if err != nil || !slices.Contains(texts, req.Roster[0]) {
		t.Errorf("the store keeps %d texts without the revocation, %v: a restart would let the phone in again", len(texts), err)
	}
}
