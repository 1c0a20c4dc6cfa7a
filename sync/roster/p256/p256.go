// Package p256 signs and verifies a roster's operations where no browser does:
// on the server and on the command line. It is ECDSA on P-256 over SHA-256 from
// the standard library, in the form in which WebCrypto reads and writes it.
package p256

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"math/big"

	"trayside/sync/roster"
)

// Verify is a roster.Verifier: key is an uncompressed point of 65 bytes, sig
// base64url of the 64 bytes r ‖ s. A key that is no point of the curve verifies
// nothing.
func Verify(key []byte, text, sig string) bool {
	pub, err := ecdsa.ParseUncompressedPublicKey(elliptic.P256(), key)
	if err != nil {
		return false
	}
	raw, err := base64.RawURLEncoding.Strict().DecodeString(sig)
	if err != nil || len(raw) != 64 {
		return false
	}
	sum := sha256.Sum256([]byte(text))
	r, s := new(big.Int).SetBytes(raw[:32]), new(big.Int).SetBytes(raw[32:])
	return ecdsa.Verify(pub, sum[:], r, s)
}

// ParseKey reads a key as it stands in operations (roster.KeyText) and makes
// sure that it is a point of the curve. The error says how to mend it.
func ParseKey(text string) ([]byte, error) {
	key, err := roster.ParseKey(text)
	if err != nil {
		return nil, err
	}
	if _, err := ecdsa.ParseUncompressedPublicKey(elliptic.P256(), key); err != nil {
		return nil, fmt.Errorf("p256: the key is not a point of the curve P-256")
	}
	return key, nil
}

// PublicKey is the uncompressed form of a private key's public half, 65 bytes.
func PublicKey(priv *ecdsa.PrivateKey) ([]byte, error) {
	b, err := priv.PublicKey.Bytes()
	if err != nil {
		return nil, fmt.Errorf("p256: public key: %w", err)
	}
	return b, nil
}

// SignText signs any text the way devices do: base64url of r ‖ s.
func SignText(priv *ecdsa.PrivateKey, text string) (string, error) {
	sum := sha256.Sum256([]byte(text))
	r, s, err := ecdsa.Sign(rand.Reader, priv, sum[:])
	if err != nil {
		return "", fmt.Errorf("p256: sign: %w", err)
	}
	raw := make([]byte, 64)
	r.FillBytes(raw[:32])
	s.FillBytes(raw[32:])
	return base64.RawURLEncoding.EncodeToString(raw), nil
}

// Sign writes and signs an operation with a key held in memory, as the server's
// console does. It sets V and Dev, and for roster.Found also Key.
func Sign(priv *ecdsa.PrivateKey, op roster.Op) (roster.Signed, error) {
	key, err := PublicKey(priv)
	if err != nil {
		return roster.Signed{}, err
	}
	op.V, op.Dev = roster.Version, roster.DeviceID(key)
	if op.Kind == roster.Found {
		op.Key = roster.KeyText(key)
	}
	text, err := roster.Text(op)
	if err != nil {
		return roster.Signed{}, err
	}
	sig, err := SignText(priv, text)
	if err != nil {
		return roster.Signed{}, err
	}
	return roster.Open(roster.Wrap(text, roster.KeyText(key), sig), Verify)
}
