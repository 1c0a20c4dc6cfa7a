package server_test

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"trayside/server"
	"trayside/sync/oplog"
	"trayside/sync/roster"
	"trayside/sync/roster/p256"
)

func TestTheFirstKeeperJoinsByTheConsolesInvite(t *testing.T) {
	s := newSite(t)
	if !s.Fresh() {
		t.Error("a household without phones is not fresh")
	}
	v, err := s.InviteByConsole(roster.Keeper, "http://bins.test")
	if err != nil {
		t.Fatal(err)
	}
	if v.Link != "http://bins.test/join#"+v.Code || len(v.Code) != 22 {
		t.Errorf("link %s: want the 128-bit code in the fragment", v.Link)
	}
	p := s.phone("hall phone")
	var a joined
	p.join(v.Code).into(t, &a)
	if a.State != "granted" || a.Household != s.Household() || a.Dev != p.dev() || a.Role != "keeper" || !strings.HasPrefix(a.Member, "member/") {
		t.Errorf("joined %+v", a)
	}
	home, err := oplog.ParseID(a.Household)
	if err != nil {
		t.Fatal(err)
	}
	set := roster.NewSet(home, p.dev(), p256.Verify)
	set.Take(a.Roster)
	if d, there := set.State().Device(p.dev()); !there || !d.In() || d.Role != roster.Keeper || d.Name != "hall phone" {
		t.Errorf("by the roster that came with it the phone is %+v", d)
	}
	if s.Fresh() {
		t.Error("still fresh with a keeper's phone in")
	}
	p.login()
	p.push(p.write(1, "bin")...)
	// The answer was lost: the same phone asks again and gets the same.
	var again joined
	p.join(v.Code).into(t, &again)
	if again.Join != a.Join || again.State != "granted" {
		t.Errorf("asked again: %+v, want as before", again)
	}
}

func TestAKeeperLetsAPhoneInWhenTheNumbersMatch(t *testing.T) {
	s := newSite(t)
	keeper, guest := s.member("keeper", roster.Keeper), s.phone("new phone")
	var v server.Invite
	s.post("/api/v1/invites", keeper.token, m{"role": "feeder", "member": "member/wren"}).into(t, &v)
	if v.Link != s.url+"/join#"+v.Code {
		t.Errorf("link %s", v.Link)
	}
	var a, b joined
	s.post("/api/v1/join", "", m{"short": strings.ToLower(strings.ReplaceAll(v.Short, "0", "o")), "key": roster.KeyText(guest.pub), "device": guest.name}).into(t, &a)
	if a.State != "waiting" || len(a.Match) != 4 || a.Roster != nil {
		t.Errorf("after the short code: %+v", a)
	}
	guest.askToken(nil).refused(t, http.StatusUnauthorized, "unknown-device")
	var list struct {
		Waiting []struct{ ID, Device, Match, Key, Dev, Member, Role string }
	}
	s.get("/api/v1/invites", keeper.token).into(t, &list)
	if len(list.Waiting) != 1 || list.Waiting[0].Match != a.Match || list.Waiting[0].Device != "new phone" || list.Waiting[0].Dev != guest.dev() {
		t.Fatalf("waiting %+v", list)
	}
	w := list.Waiting[0]
	op := roster.Op{Kind: roster.Grant, To: w.Dev, Key: w.Key, Member: w.Member, Role: roster.Role(w.Role), Name: w.Device}
	path := "/api/v1/invites/" + w.ID + "/grant"
	more := op
	more.Role = roster.Keeper
	s.post(path, keeper.token, m{"roster": keeper.sign(more)}).refused(t, http.StatusUnprocessableEntity, "bad-grant")
	s.post(path, keeper.token, m{"roster": guest.sign(op)}).refused(t, http.StatusUnprocessableEntity, "bad-grant")
	s.post(path, keeper.token, m{"roster": "scrap"}).refused(t, http.StatusUnprocessableEntity, "bad-grant")
	if r := s.post(path, keeper.token, m{"roster": keeper.sign(op)}); r.status != http.StatusNoContent {
		t.Fatalf("grant: %d %s", r.status, r.body)
	}
	s.get("/api/v1/join/"+a.Join, "").into(t, &b)
	if b.State != "granted" || b.Role != "feeder" || b.Member != "member/wren" || len(b.Roster) != 3 {
		t.Errorf("after the grant: %+v", b)
	}
	guest.login()
	s.post(path, keeper.token, m{"roster": keeper.sign(op)}).refused(t, http.StatusConflict, "not-waiting")
	s.get("/api/v1/invites", keeper.token).into(t, &list)
	if len(list.Waiting) != 0 {
		t.Errorf("still waiting: %+v", list)
	}
}

// What marks a square code, whatever it says: three corners of dark rings and
// four light modules around it all (ISO/IEC 18004).
func TestAnInviteComesWithItsSquare(t *testing.T) {
	s := newSite(t)
	var v server.Invite
	s.post("/api/v1/invites", s.member("keeper", roster.Keeper).token, m{"role": "feeder"}).into(t, &v)
	n, light := len(v.QR), strings.Repeat("0", len(v.QR))
	if n < 21+2*4 {
		t.Fatalf("%d rows, want a square", n)
	}
	for i, row := range v.QR {
		if len(row) != n || strings.Trim(row, "01") != "" || (i < 4 || i >= n-4) && row != light {
			t.Fatalf("row %d: %q", i, row)
		}
	}
	ring := []string{"1111111", "1000001", "1011101", "1011101", "1011101", "1000001", "1111111"}
	for _, corner := range [][2]int{{4, 4}, {4, n - 11}, {n - 11, 4}} {
		for i, want := range ring {
			if got := v.QR[corner[0]+i][corner[1] : corner[1]+7]; got != want {
				t.Errorf("corner %v, row %d: %s, want %s", corner, i, got, want)
			}
		}
	}
}

func TestInvitesThatAreNoGood(t *testing.T) {
	s := newSite(t)
	keeper := s.member("keeper", roster.Keeper)
	invite := func() (v server.Invite) {
		s.post("/api/v1/invites", keeper.token, m{"role": "keeper"}).into(t, &v)
		return v
	}
	used, expired, open, declined := invite(), invite(), invite(), invite()
	s.phone("first").join(used.Code).into(t, &joined{})
	s.phone("second").join(used.Code).refused(t, http.StatusConflict, "invite-used")
	s.phone("third").join("AAAAAAAAAAAAAAAAAAAAAA").refused(t, http.StatusNotFound, "invite-unknown")
	s.phone("fourth").join("demo").refused(t, http.StatusNotFound, "invite-unknown")
	s.get("/api/v1/join/nobody", "").refused(t, http.StatusNotFound, "invite-unknown")

	turned := s.phone("turned away")
	var a joined
	turned.join(declined.Code).into(t, &a)
	if r := s.do(http.MethodDelete, "/api/v1/invites/"+declined.ID, keeper.token, nil); r.status != http.StatusNoContent {
		t.Errorf("decline: %d %s", r.status, r.body)
	}
	s.get("/api/v1/join/"+a.Join, "").refused(t, http.StatusGone, "join-declined")
	turned.join(declined.Code).refused(t, http.StatusGone, "join-declined")

	s.do(http.MethodDelete, "/api/v1/invites/"+open.ID, keeper.token, nil)
	s.phone("too late").join(open.Code).refused(t, http.StatusGone, "invite-expired")

	slow := s.phone("slow")
	last := invite()
	slow.join(last.Code).into(t, &a)
	s.now = s.now.Add(10 * time.Minute)
	s.phone("fifth").join(expired.Code).refused(t, http.StatusGone, "invite-expired")
	s.get("/api/v1/join/"+a.Join, "").refused(t, http.StatusGone, "invite-expired")
}

func TestATypedCodeCanBeTriedFiveTimes(t *testing.T) {
	s := newSite(t)
	v, err := s.InviteByConsole(roster.Keeper, s.url)
	if err != nil {
		t.Fatal(err)
	}
	p := s.phone("guesser")
	try := func(short string) reply {
		return s.post("/api/v1/join", "", m{"short": short, "key": roster.KeyText(p.pub), "device": "guesser"})
	}
	for range 5 {
		try("ZZZZ-ZZZZ").refused(t, http.StatusNotFound, "invite-unknown")
	}
	r := try(v.Short)
	r.refused(t, http.StatusTooManyRequests, "too-many")
	if r.header.Get("Retry-After") == "" {
		t.Error("429 without Retry-After")
	}
	s.now = s.now.Add(2 * time.Minute)
	try(v.Short).refused(t, http.StatusConflict, "invite-used")
	p.join(v.Code).into(t, &joined{}) // the scanned form is no guess
}

func TestAnybodyJoinsADemoAndNobodyElsewhere(t *testing.T) {
	s := newSite(t, func(c *server.Config) { c.Demo = &server.Demo{Members: []string{"member/a", "member/b"}} })
	var members []string
	for range 3 {
		p := s.phone("visitor")
		var a joined
		p.join("demo").into(t, &a)
		if a.State != "granted" || a.Role != "keeper" {
			t.Errorf("joined %+v", a)
		}
		members = append(members, a.Member)
		p.login()
	}
	if got := strings.Join(members, " "); got != "member/a member/b member/a" {
		t.Errorf("visitors are %s", got)
	}
	var about struct {
		Household, Name, Version string
		Demo                     bool
	}
	s.get("/api/v1/about", "").into(t, &about)
	if !about.Demo || about.Name != "cellar" || about.Household != s.Household() {
		t.Errorf("about %+v", about)
	}
}

func TestBadJoins(t *testing.T) {
	s := newSite(t)
	p := s.phone("p")
	key := roster.KeyText(p.pub)
	tests := map[string]m{
		"no key":          {"code": "x", "device": "p"},
		"a key off curve": {"code": "x", "device": "p", "key": roster.KeyText(make([]byte, 65))},
		"no name":         {"code": "x", "key": key, "device": " "},
		"a long name":     {"code": "x", "key": key, "device": strings.Repeat("n", 101)},
		"no code":         {"key": key, "device": "p"},
		"two codes":       {"code": "x", "short": "y", "key": key, "device": "p"},
	}
	for name, body := range tests {
		t.Run(name, func(t *testing.T) {
			s.post("/api/v1/join", "", body).refused(t, http.StatusBadRequest, "bad-request")
		})
	}
}

func TestJoinsSurviveARestart(t *testing.T) {
	s := newSite(t)
	v, err := s.InviteByConsole(roster.Feeder, s.url)
	if err != nil {
		t.Fatal(err)
	}
	again := newSite(t, func(c *server.Config) { c.Store, c.Console = s.store, s.key })
	if again.Household() != s.Household() {
		t.Errorf("household %s after a restart, want %s", again.Household(), s.Household())
	}
	again.phone("patient").join(v.Code).into(t, &joined{})
	if _, err := server.New(server.Config{Store: s.store, Console: newKey(t)}); err == nil {
		t.Error("another console's key opened the household")
	}
}
