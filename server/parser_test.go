package server

import (
	"crypto/x509"
	"testing"
	"time"

	"github.com/golang-jwt/jwt/v5"
)

// TestTheParserIsStrict signs tokens with the server's own key, so that only
// the rule a row names can refuse them.
func TestTheParserIsStrict(t *testing.T) {
	now := time.Unix(1_800_000_000, 0)
	tk := newTokens("0123456789abcdef0123456789abcdef", func() time.Time { return now })
	tests := map[string]struct {
		change func(claims jwt.MapClaims, head map[string]any)
		good   bool
	}{
		"as issued":            {func(jwt.MapClaims, map[string]any) {}, true},
		"without an end":       {func(c jwt.MapClaims, _ map[string]any) { delete(c, "exp") }, false},
		"over":                 {func(c jwt.MapClaims, _ map[string]any) { c["exp"] = now.Unix() - 61 }, false},
		"over by less leeway":  {func(c jwt.MapClaims, _ map[string]any) { c["exp"] = now.Unix() - 59 }, true},
		"issued in the future": {func(c jwt.MapClaims, _ map[string]any) { c["iat"] = now.Unix() + 61 }, false},
		"another household's":  {func(c jwt.MapClaims, _ map[string]any) { c["aud"] = "fedcba9876543210fedcba9876543210" }, false},
		"for nobody":           {func(c jwt.MapClaims, _ map[string]any) { delete(c, "aud") }, false},
		"another issuer's":     {func(c jwt.MapClaims, _ map[string]any) { c["iss"] = "elsewhere" }, false},
		"of no device":         {func(c jwt.MapClaims, _ map[string]any) { delete(c, "sub") }, false},
		"of another type":      {func(_ jwt.MapClaims, h map[string]any) { h["typ"] = "JWT" }, false},
		"without a key's name": {func(_ jwt.MapClaims, h map[string]any) { delete(h, "kid") }, false},
		"an unknown key's":     {func(_ jwt.MapClaims, h map[string]any) { h["kid"] = "other" }, false},
		"with a key inside":    {func(_ jwt.MapClaims, h map[string]any) { h["kid"], h["jwk"] = "x", tk.keys }, false},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			claims := jwt.MapClaims{"iss": issuer, "aud": tk.home, "sub": "dev", "iat": now.Unix(), "exp": now.Add(tokenTime).Unix()}
			j := jwt.NewWithClaims(jwt.SigningMethodEdDSA, claims)
			j.Header["kid"], j.Header["typ"] = tk.kid, tokenType
			tt.change(claims, j.Header)
			text, err := j.SignedString(tk.sign)
			if err != nil {
				t.Fatal(err)
			}
			if _, _, err := tk.device(text); (err == nil) != tt.good {
				t.Errorf("read with error %v, want good: %v", err, tt.good)
			}
		})
	}
	t.Run("signed with the public key as a shared secret", func(t *testing.T) {
		der, err := x509.MarshalPKIXPublicKey(tk.keys[tk.kid])
		if err != nil {
			t.Fatal(err)
		}
		for _, secret := range [][]byte{tk.keys[tk.kid], der} {
			j := jwt.NewWithClaims(jwt.SigningMethodHS256, jwt.MapClaims{"iss": issuer, "aud": tk.home, "sub": "dev", "exp": now.Add(tokenTime).Unix()})
			j.Header["kid"], j.Header["typ"] = tk.kid, tokenType
			text, err := j.SignedString(secret)
			if err != nil {
				t.Fatal(err)
			}
			if _, _, err := tk.device(text); err == nil {
				t.Error("read")
			}
		}
	})
}
