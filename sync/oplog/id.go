package oplog

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
)

// ID is an operation's identity: the first 128 bits of the SHA-256 of its bytes.
type ID [16]byte

// Hash is the ID of any bytes, well formed or not.
func Hash(b []byte) ID {
	sum := sha256.Sum256(b)
	return ID(sum[:16])
}

// ParseID reads 32 hexadecimal digits.
func ParseID(s string) (ID, error) {
	var id ID
	return id, id.UnmarshalText([]byte(s))
}

// String is 32 lower-case hexadecimal digits.
func (id ID) String() string { return hex.EncodeToString(id[:]) }

// Compare orders IDs as their bytes; -1, 0 or 1.
func (id ID) Compare(other ID) int { return bytes.Compare(id[:], other[:]) }

// MarshalText writes what String shows.
func (id ID) MarshalText() ([]byte, error) { return []byte(id.String()), nil }

// UnmarshalText reads 32 hexadecimal digits.
func (id *ID) UnmarshalText(b []byte) error {
	if len(b) != 32 {
		return fmt.Errorf("oplog: an id has 32 hexadecimal digits, this text has %d bytes", len(b))
	}
	if _, err := hex.Decode(id[:], b); err != nil {
		return fmt.Errorf("oplog: id: %w", err)
	}
	return nil
}
