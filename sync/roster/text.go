package roster

import (
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
