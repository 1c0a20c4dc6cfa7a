package server_test

import (
	"crypto/ed25519"
	"encoding/base64"
	"encoding/json"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/golang-jwt/jwt/v5"

	"trayside/sync/exchange"
	"trayside/sync/roster"
	"trayside/sync/roster/p256"
)

func TestATokenIsForFifteenMinutesAndOneNonceBuysOne(t *testing.T) {
	s := newSite(t)
	p := s.member("p", roster.Keeper)
	p.push()
	s.now = s.now.Add(15*time.Minute + 59*time.Second) // a minute of leeway for clocks
	p.push()
	s.now = s.now.Add(2 * time.Second)
	r := p.tryPush()
	r.refused(t, http.StatusUnauthorized, "bad-token")
	if r.header.Get("WWW-Authenticate") == "" {
		t.Error("401 without WWW-Authenticate")
	}
	p.login()
	p.push()

	var n struct{ Nonce string }
	s.post("/api/v1/nonce", "", m{"dev": p.dev()}).into(t, &n)
	sig, err := p256.SignText(p.key, "trayside-token:"+s.Household()+":"+n.Nonce)
	if err != nil {
		t.Fatal(err)
	}
	body := m{"dev": p.dev(), "nonce": n.Nonce, "sig": sig}
	s.post("/api/v1/token", "", body).into(t, &struct{}{})
	s.post("/api/v1/token", "", body).refused(t, http.StatusUnauthorized, "bad-signature")
}

func TestSignaturesThatBuyNoToken(t *testing.T) {
	s := newSite(t)
	p, other := s.member("p", roster.Keeper), s.member("other", roster.Keeper)
	tests := map[string]struct {
		dev  string
		text string // before the nonce
		key  *phone
		wait time.Duration
		code string
	}{
		"another household":   {p.dev(), "trayside-token:" + strings.Repeat("0", 32) + ":", p, 0, "bad-signature"},
		"another key":         {p.dev(), "trayside-token:" + s.Household() + ":", other, 0, "bad-signature"},
		"an old nonce":        {p.dev(), "trayside-token:" + s.Household() + ":", p, 3 * time.Minute, "bad-signature"},
		"an unknown device":   {strings.Repeat("a", 32), "trayside-token:" + s.Household() + ":", p, 0, "unknown-device"},
		"a device of no form": {"", "trayside-token:" + s.Household() + ":", p, 0, "unknown-device"},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			var n struct{ Nonce string }
			s.post("/api/v1/nonce", "", m{"dev": tt.dev}).into(t, &n)
			sig, err := p256.SignText(tt.key.key, tt.text+n.Nonce)
			if err != nil {
				t.Fatal(err)
			}
			s.now = s.now.Add(tt.wait)
			s.post("/api/v1/token", "", m{"dev": tt.dev, "nonce": n.Nonce, "sig": sig}).refused(t, http.StatusUnauthorized, tt.code)
		})
	}
	var n struct{ Nonce string }
	s.post("/api/v1/nonce", "", m{"dev": other.dev()}).into(t, &n)
	sig, err := p256.SignText(p.key, "trayside-token:"+s.Household()+":"+n.Nonce)
	if err != nil {
		t.Fatal(err)
	}
	s.post("/api/v1/token", "", m{"dev": p.dev(), "nonce": n.Nonce, "sig": sig}).refused(t, http.StatusUnauthorized, "bad-signature")
	s.post("/api/v1/token", "", m{"dev": p.dev(), "nonce": "AAAA", "sig": sig}).refused(t, http.StatusUnauthorized, "bad-signature")
}

func TestTokensThatAreNotOurs(t *testing.T) {
	s := newSite(t)
	p := s.member("p", roster.Keeper)
	parts := strings.Split(p.token, ".")
	var head map[string]any
	raw, err := base64.RawURLEncoding.DecodeString(parts[0])
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(raw, &head); err != nil {
		t.Fatal(err)
	}
	_, stranger, err := ed25519.GenerateKey(nil)
	if err != nil {
		t.Fatal(err)
	}
	claims := jwt.MapClaims{
		"iss": "trayside", "sub": p.dev(), "aud": s.Household(),
		"iat": s.now.Unix(), "exp": s.now.Add(time.Hour).Unix(),
	}
	forge := func(method jwt.SigningMethod, key any) string {
		j := jwt.NewWithClaims(method, claims)
		j.Header["kid"], j.Header["typ"] = head["kid"], head["typ"]
		text, err := j.SignedString(key)
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	tests := map[string]string{
		"another key":         forge(jwt.SigningMethodEdDSA, stranger),
		"no algorithm":        forge(jwt.SigningMethodNone, jwt.UnsafeAllowNoneSignatureType),
		"a shared secret":     forge(jwt.SigningMethodHS256, []byte("secret")),
		"another server":      newSite(t).member("x", roster.Keeper).token,
		"a changed claim":     parts[0] + "." + base64.RawURLEncoding.EncodeToString([]byte(`{"sub":"x"}`)) + "." + parts[2],
		"words":               "let me in",
		"an oversized header": strings.Repeat("a.", 4000),
	}
	for name, token := range tests {
		t.Run(name, func(t *testing.T) {
			s.post(exchange.PathExchange, token, m{}).refused(t, http.StatusUnauthorized, "bad-token")
		})
	}
	for _, path := range []string{"/api/v1/stream", "/api/v1/invites"} {
		s.get(path, "").refused(t, http.StatusUnauthorized, "no-token")
	}
	s.get("/api/v1/stream", "", "Authorization", "Basic abc").refused(t, http.StatusUnauthorized, "no-token")
}

func TestARevokedDeviceIsRefusedEverywhereAndShownTheProof(t *testing.T) {
	s := newSite(t)
	keeper, lost := s.member("keeper", roster.Keeper), s.member("lost", roster.Keeper)
	lost.push(lost.write(2, "look")...)
	revocation := keeper.sign(roster.Op{Kind: roster.Revoke, To: lost.dev(), Why: roster.Lost})
	s.post(exchange.PathExchange, keeper.token, exchange.Request{Ops: []string{}, Roster: []string{revocation}}).into(t, &exchange.Answer{})
	check := func(r reply) {
		t.Helper()
		r.refused(t, http.StatusForbidden, "device-revoked")
		var p struct {
			Why    string
			Roster []string
		}
		if err := json.Unmarshal(r.body, &p); err != nil {
			t.Fatal(err)
		}
		set := roster.NewSet(mustID(t, s.Household()), lost.dev(), p256.Verify)
		set.Take(p.Roster)
		if p.Why != "lost" || set.Revoked() != "lost" {
			t.Errorf("why %q, and the proof says %q; want lost", p.Why, set.Revoked())
		}
	}
	check(lost.tryPush(lost.write(1, "look")...))
	check(lost.askToken(nil))
	check(s.get("/api/v1/stream", lost.token))
	check(s.post(exchange.PathReconcile, lost.token, m{"months": true}))
	check(s.post("/api/v1/print", lost.token, m{"what": "cards"}))
	picture := drawn(t, 1, 16)
	check(lost.putPhoto(at(picture), picture))
	check(s.get(at(picture), lost.token))
	check(s.get("/api/v1/photos", lost.token))
	check(s.do(http.MethodDelete, at(picture), lost.token, nil))
	r := lost.join("anything")
	r.refused(t, http.StatusForbidden, "device-revoked")
	if a := keeper.push(); a.Root.Count != 2 {
		t.Errorf("the household has %d entries, want the 2 from before the revocation", a.Root.Count)
	}
}

func TestAForgedRevocationChangesNothing(t *testing.T) {
	s := newSite(t)
	keeper, feeder := s.member("keeper", roster.Keeper), s.member("feeder", roster.Feeder)
	forged := feeder.sign(roster.Op{Kind: roster.Revoke, To: keeper.dev(), Why: roster.Lost})
	var a exchange.Answer
	s.post(exchange.PathExchange, feeder.token, exchange.Request{Ops: []string{}, Roster: []string{forged, "{}", ""}}).into(t, &a)
	if len(a.Roster) != 3 {
		t.Errorf("the server tells %d roster texts, want its 3", len(a.Roster))
	}
	keeper.push(keeper.write(1, "bin")...)
}

func TestAServerPutBackLearnsOfADeviceFromItsOwnRoster(t *testing.T) {
	s := newSite(t)
	p := s.member("p", roster.Keeper)
	var a exchange.Answer
	s.post(exchange.PathExchange, p.token, exchange.Request{Ops: []string{}}).into(t, &a)
	// A store that holds the founding operation alone, as an old backup would.
	old := newSite(t)
	texts, err := s.store.Roster(mustID(t, s.Household()))
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range texts {
		if op, err := roster.Open(text, p256.Verify); err == nil && op.Op.Kind == roster.Found {
			old = restored(t, s, op)
		}
	}
	p.s = old
	p.askToken(nil).refused(t, http.StatusUnauthorized, "unknown-device")
	p.askToken(m{"roster": a.Roster}).into(t, &struct{}{})
	p.login()
	p.push(p.write(1, "bin")...)
}
