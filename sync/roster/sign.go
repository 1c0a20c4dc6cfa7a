package roster

import (
	"crypto/ecdsa"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"fmt"
)

// Text writes the operation down for a device to sign. The signature covers
// exactly these bytes.
func Text(op Op) (string, error) {
	if err := op.check(); err != nil {
		return "", err
	}
	b, err := json.Marshal(op)
	if err != nil {
		return "", fmt.Errorf("roster: write an operation: %w", err)
	}
	if len(b) > MaxBytes {
		return "", fmt.Errorf("roster: the operation has %d bytes; at most %d are kept, so shorten the names", len(b), MaxBytes)
	}
	return string(b), nil
}

// Wrap joins an operation's text, the signer's key (KeyText) and the signature
// into the text that travels.
func Wrap(text, key, sig string) string {
	b, err := json.Marshal(wire{text, key, sig})
	if err != nil {
		panic("roster: three strings are always JSON: " + err.Error())
	}
	return string(b)
}

// PublicKey is the uncompressed form of a private key's public half, 65 bytes.
func PublicKey(priv *ecdsa.PrivateKey) ([]byte, error) {
	b, err := priv.PublicKey.Bytes()
	if err != nil {
		return nil, fmt.Errorf("roster: public key: %w", err)
	}
	return b, nil
}

// SignText signs any text the way devices do: base64url of r ‖ s.
func SignText(priv *ecdsa.PrivateKey, text string) (string, error) {
	sum := sha256.Sum256([]byte(text))
	r, s, err := ecdsa.Sign(rand.Reader, priv, sum[:])
	if err != nil {
		return "", fmt.Errorf("roster: sign: %w", err)
	}
	raw := make([]byte, 64)
	r.FillBytes(raw[:32])
	s.FillBytes(raw[32:])
	return base64.RawURLEncoding.EncodeToString(raw), nil
}

// Sign writes and signs an operation with a key held in memory, as the server's
// console does. It sets V and Dev, and for Found also Key.
func Sign(priv *ecdsa.PrivateKey, op Op) (Signed, error) {
	key, err := PublicKey(priv)
	if err != nil {
		return Signed{}, err
	}
	op.V, op.Dev = Version, DeviceID(key)
	if op.Kind == Found {
		op.Key = KeyText(key)
	}
	text, err := Text(op)
	if err != nil {
		return Signed{}, err
	}
	sig, err := SignText(priv, text)
	if err != nil {
		return Signed{}, err
	}
	return Open(Wrap(text, KeyText(key), sig))
}
