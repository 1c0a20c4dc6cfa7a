package server

import (
	"crypto/ed25519"
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"encoding/binary"
	"net/http"
	"sync"
	"time"

	"github.com/golang-jwt/jwt/v5"
	"github.com/labstack/echo/v4"

	"trayside/sync/roster"
	"trayside/sync/roster/p256"
)

const (
	tokenTime  = 15 * time.Minute
	nonceTime  = 2 * time.Minute
	leeway     = 60 * time.Second
	issuer     = "trayside"
	tokenType  = "trayside-device+jwt"
	nonceBytes = 8 + 8 + 16 // time, random, mac
)

// tokens makes and reads nonces and tokens. Their keys live as long as the
// process: after a restart a phone signs again, which costs it one round trip,
// and no secret lies on the disk.
type tokens struct {
	home   string
	now    func() time.Time
	macKey []byte
	kid    string
	keys   map[string]ed25519.PublicKey // by kid: a token never brings its own
	sign   ed25519.PrivateKey
	parser *jwt.Parser

	mu   sync.Mutex
	used map[string]time.Time // nonces that bought a token, until they expire
}

func newTokens(home string, now func() time.Time) *tokens {
	pub, priv, err := ed25519.GenerateKey(rand.Reader)
	if err != nil {
		panic("server: the system gives no random numbers: " + err.Error())
	}
	macKey := make([]byte, 32)
	rand.Read(macKey)
	kid := rand.Text()
	return &tokens{
		home: home, now: now, macKey: macKey, kid: kid, sign: priv,
		keys: map[string]ed25519.PublicKey{kid: pub},
		used: map[string]time.Time{},
		// A parser that is not told so takes tokens that never expire.
		parser: jwt.NewParser(
			jwt.WithValidMethods([]string{jwt.SigningMethodEdDSA.Alg()}),
			jwt.WithExpirationRequired(), jwt.WithIssuedAt(), jwt.WithIssuer(issuer), jwt.WithAudience(home),
			jwt.WithLeeway(leeway), jwt.WithTimeFunc(now), jwt.WithStrictDecoding(),
		),
	}
}

// nonce makes a nonce for a device. Nothing is kept for it, so asking for many
// costs no memory.
func (t *tokens) nonce(dev string) string {
	b := binary.BigEndian.AppendUint64(make([]byte, 0, nonceBytes), uint64(t.now().UnixMilli()))
	b = b[:16]
	rand.Read(b[8:])
	return base64.RawURLEncoding.EncodeToString(append(b, t.mac(b, dev)...))
}

func (t *tokens) mac(b []byte, dev string) []byte {
	h := hmac.New(sha256.New, t.macKey)
	h.Write(b[:16])
	h.Write([]byte(dev))
	return h.Sum(nil)[:16]
}

// spend takes a nonce that was made for the device, is fresh and was not spent.
func (t *tokens) spend(nonce, dev string) error {
	b, err := base64.RawURLEncoding.Strict().DecodeString(nonce)
	if err != nil || len(b) != nonceBytes || !hmac.Equal(b[16:], t.mac(b, dev)) {
		return problem("bad-signature", "This nonce was not made here for this device; ask for a new one.")
	}
	now := t.now()
	until := time.UnixMilli(int64(binary.BigEndian.Uint64(b))).Add(nonceTime)
	t.mu.Lock()
	defer t.mu.Unlock()
	for old, end := range t.used {
		if now.After(end) {
			delete(t.used, old)
		}
	}
	if _, spent := t.used[nonce]; spent || now.After(until) {
		return problem("bad-signature", "This nonce is used up or too old; ask for a new one.")
	}
	t.used[nonce] = until
	return nil
}

// issue makes a token for a device.
func (t *tokens) issue(dev string) (token string, expires time.Time, err error) {
	now := t.now()
	expires = now.Add(tokenTime)
	j := jwt.NewWithClaims(jwt.SigningMethodEdDSA, jwt.RegisteredClaims{
		Issuer: issuer, Subject: dev, Audience: jwt.ClaimStrings{t.home},
		IssuedAt: jwt.NewNumericDate(now), ExpiresAt: jwt.NewNumericDate(expires), ID: rand.Text(),
	})
	j.Header["kid"], j.Header["typ"] = t.kid, tokenType
	token, err = j.SignedString(t.sign)
	return token, expires, err
}

// device reads a token: whose it is and when it ends.
func (t *tokens) device(token string) (dev string, expires time.Time, err error) {
	var claims jwt.RegisteredClaims
	_, err = t.parser.ParseWithClaims(token, &claims, func(j *jwt.Token) (any, error) {
		kid, _ := j.Header["kid"].(string)
		key, there := t.keys[kid]
		if j.Header["typ"] != tokenType || !there {
			return nil, jwt.ErrTokenUnverifiable
		}
		return key, nil
	})
	if err != nil || claims.Subject == "" {
		return "", time.Time{}, problem("bad-token", "The token is not valid here any more; sign for a new one.")
	}
	return claims.Subject, claims.ExpiresAt.Time, nil
}

// signedText is what a device signs to get a token.
func signedText(home, nonce string) string { return "trayside-token:" + home + ":" + nonce }

type nonceRequest struct {
	Dev string `json:"dev"`
}

type nonceAnswer struct {
	Nonce string `json:"nonce"`
}

func (s *Server) nonce(c echo.Context) error {
	var req nonceRequest
	if err := readJSON(c, &req); err != nil {
		return err
	}
	return answer(c, http.StatusOK, nonceAnswer{s.tokens.nonce(req.Dev)})
}

type tokenRequest struct {
	Dev    string   `json:"dev"`
	Nonce  string   `json:"nonce"`
	Sig    string   `json:"sig"`
	Roster []string `json:"roster"` // optional: lets a server put back from an old backup learn of the device
}

type tokenAnswer struct {
	Token   string `json:"token"`
	Expires int64  `json:"expires"` // ms
}

// maxShown bounds the signatures checked for somebody who has no token yet.
const maxShown = 200

func (s *Server) token(c echo.Context) error {
	var req tokenRequest
	if err := readJSON(c, &req); err != nil {
		return err
	}
	if err := s.tokens.spend(req.Nonce, req.Dev); err != nil {
		return err
	}
	if n := len(req.Roster); n > maxShown {
		return problem("too-large", "%d roster texts; send at most %d.", n, maxShown)
	}
	if _, known := s.home.state().Device(req.Dev); !known && len(req.Roster) > 0 {
		if err := s.home.Add(req.Roster); err != nil {
			return err
		}
	}
	d, known := s.home.state().Device(req.Dev)
	if !known {
		return unknownDevice()
	}
	key, err := roster.ParseKey(d.Key)
	if err != nil {
		return err
	}
	if !p256.Verify(key, signedText(s.home.id.String(), req.Nonce), req.Sig) {
		s.cfg.Log.Warn("token refused", "why", "signature")
		return problem("bad-signature", "The signature does not fit this device's key and this household.")
	}
	if err := s.standing(d); err != nil {
		return err
	}
	token, expires, err := s.tokens.issue(d.ID)
	if err != nil {
		return err
	}
	return answer(c, http.StatusOK, tokenAnswer{token, expires.UnixMilli()})
}
