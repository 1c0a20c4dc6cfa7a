package server_test

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"trayside/internal/journal"
	"trayside/server"
	"trayside/server/store"
	"trayside/sync/digest"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
	"trayside/sync/roster"
	"trayside/sync/roster/p256"
)

// site is a server under test with a clock that the test moves.
type site struct {
	*server.Server
	t     testing.TB
	url   string
	store *store.Memory
	key   *ecdsa.PrivateKey
	now   time.Time
}

func newKey(t testing.TB) *ecdsa.PrivateKey {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	return key
}

func newSite(t testing.TB, change ...func(*server.Config)) *site {
	t.Helper()
	s := &site{t: t, store: store.NewMemory(), key: newKey(t), now: time.Now()}
	cfg := server.Config{
		Store: s.store, Console: s.key, Name: "cellar", Version: "test",
		App: fstest.MapFS{}, KeeperOnly: journal.KeeperOnly, Now: func() time.Time { return s.now },
	}
	for _, f := range change {
		f(&cfg)
	}
	srv, err := server.New(cfg)
	if err != nil {
		t.Fatal(err)
	}
	s.Server = srv
	web := httptest.NewServer(srv.Handler())
	t.Cleanup(web.Close)
	s.url = web.URL
	return s
}

// reply is an answer, read to its end.
type reply struct {
	status int
	header http.Header
	body   []byte
}

// code is the problem's code, "" if the answer is none.
func (r reply) code() string {
	var p server.Problem
	if !strings.HasPrefix(r.header.Get("Content-Type"), "application/problem+json") || json.Unmarshal(r.body, &p) != nil {
		return ""
	}
	return p.Code
}

func (r reply) into(t testing.TB, v any) {
	t.Helper()
	if r.status >= 300 {
		t.Fatalf("status %d: %s", r.status, r.body)
	}
	if err := json.Unmarshal(r.body, v); err != nil {
		t.Fatalf("%v in %s", err, r.body)
	}
}

// refused checks a refusal: status, code, and a sentence for people.
func (r reply) refused(t testing.TB, status int, code string) {
	t.Helper()
	if r.status != status || r.code() != code {
		t.Errorf("status %d, %s; want %d and code %q", r.status, r.body, status, code)
		return
	}
	var p server.Problem
	if err := json.Unmarshal(r.body, &p); err != nil || p.Status != status || len(p.Detail) < 20 || p.Title == "" {
		t.Errorf("problem %s, %v: want status, title and a sentence", r.body, err)
	}
}

func (s *site) do(method, path, token string, body io.Reader, header ...string) reply {
	s.t.Helper()
	req, err := http.NewRequestWithContext(s.t.Context(), method, s.url+path, body)
	if err != nil {
		s.t.Fatal(err)
	}
	if body != nil {
		req.Header.Set("Content-Type", "application/json")
	}
	if token != "" {
		req.Header.Set("Authorization", "Bearer "+token)
	}
	for i := 0; i < len(header); i += 2 {
		req.Header.Set(header[i], header[i+1])
	}
	plain := &http.Client{Transport: &http.Transport{DisableCompression: true, DisableKeepAlives: true}}
	res, err := plain.Do(req)
	if err != nil {
		s.t.Fatal(err)
	}
	defer res.Body.Close()
	b, err := io.ReadAll(res.Body)
	if err != nil {
		s.t.Fatal(err)
	}
	return reply{res.StatusCode, res.Header, b}
}

func (s *site) get(path, token string, header ...string) reply {
	s.t.Helper()
	return s.do(http.MethodGet, path, token, nil, header...)
}

func (s *site) post(path, token string, body any) reply {
	s.t.Helper()
	b, err := json.Marshal(body)
	if err != nil {
		s.t.Fatal(err)
	}
	return s.do(http.MethodPost, path, token, bytes.NewReader(b))
}

type m = map[string]any

// phone is a device with its key.
type phone struct {
	s     *site
	name  string
	key   *ecdsa.PrivateKey
	pub   []byte
	token string
	made  int
	hint  exchange.Hint
	root  digest.Sum
}

func (s *site) phone(name string) *phone {
	s.t.Helper()
	key := newKey(s.t)
	pub, err := p256.PublicKey(key)
	if err != nil {
		s.t.Fatal(err)
	}
	return &phone{s: s, name: name, key: key, pub: pub}
}

func (p *phone) dev() string { return roster.DeviceID(p.pub) }

type joined struct {
	Join, Match, State, Household, Dev, Member, Role string
	Roster                                           []string
}

func (p *phone) join(code string) reply {
	p.s.t.Helper()
	return p.s.post("/api/v1/join", "", m{"code": code, "key": roster.KeyText(p.pub), "device": p.name})
}

// member makes a phone that has joined with a role, invited by the console.
func (s *site) member(name string, role roster.Role) *phone {
	s.t.Helper()
	v, err := s.InviteByConsole(role, s.url)
	if err != nil {
		s.t.Fatal(err)
	}
	p := s.phone(name)
	p.join(v.Code).into(s.t, &joined{})
	p.login()
	return p
}

func (p *phone) askToken(more m) reply {
	p.s.t.Helper()
	var n struct{ Nonce string }
	p.s.post("/api/v1/nonce", "", m{"dev": p.dev()}).into(p.s.t, &n)
	sig, err := p256.SignText(p.key, "trayside-token:"+p.s.Household()+":"+n.Nonce)
	if err != nil {
		p.s.t.Fatal(err)
	}
	body := m{"dev": p.dev(), "nonce": n.Nonce, "sig": sig}
	for k, v := range more {
		body[k] = v
	}
	return p.s.post("/api/v1/token", "", body)
}

func (p *phone) login() {
	p.s.t.Helper()
	var a struct {
		Token   string
		Expires int64
	}
	p.askToken(nil).into(p.s.t, &a)
	p.token = a.Token
}

// write makes operations of a kind.
func (p *phone) write(n int, kind string) []string {
	var texts []string
	for range n {
		p.made++
		o, err := oplog.Seal(oplog.Op{
			V: 1, T: p.s.now.UnixMilli() + int64(p.made), By: "member/1", Dev: p.dev(),
			Ent: fmt.Sprintf("%s/%s-%d", kind, p.dev(), p.made),
		})
		if err != nil {
			p.s.t.Fatal(err)
		}
		texts = append(texts, string(o.Bytes))
	}
	return texts
}

func (p *phone) tryPush(texts ...string) reply {
	p.s.t.Helper()
	if texts == nil {
		texts = []string{}
	}
	return p.s.post(exchange.PathExchange, p.token, exchange.Request{After: p.hint, Ops: texts, Root: p.root})
}

func (p *phone) push(texts ...string) exchange.Answer {
	p.s.t.Helper()
	var a exchange.Answer
	p.tryPush(texts...).into(p.s.t, &a)
	p.hint, p.root = a.Next, a.Root
	return a
}

func codes(a exchange.Answer) []string {
	var list []string
	for _, r := range a.Results {
		list = append(list, strings.TrimSuffix(r.Code+" "+r.Why, " "))
	}
	return list
}

// sign signs a roster operation with the phone's key.
func (p *phone) sign(op roster.Op) string {
	p.s.t.Helper()
	op.T, op.Home = p.s.now.UnixMilli(), p.s.Household()
	s, err := p256.Sign(p.key, op)
	if err != nil {
		p.s.t.Fatal(err)
	}
	return s.Text
}
