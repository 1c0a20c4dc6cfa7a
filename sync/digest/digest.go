// Package digest answers two questions about sets of 128-bit identities without
// sending the sets: are they the same, and if not, where do they differ.
//
// A Sum is the count of the members and their sum modulo 2^128. Calendar keeps
// sums for a whole set and for its months, days and parts of days; two sides
// compare them from the top and follow only what differs. The functions on Sum,
// Day and Month serve a store that keeps the same sums in rows of its own.
//
// A sum finds accidents: whoever can choose members freely could build two sets
// with one sum. Members here are hashes made by a household's own devices.
package digest

import (
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"math/bits"
)

// Sum is the digest of a set. The zero value is that of the empty set.
type Sum struct {
	Count  uint64 // members
	Hi, Lo uint64 // their sum modulo 2^128, each read as a big-endian number
}

// Of is the sum of the given members, each of which counts once per mention.
func Of(ids ...[16]byte) Sum {
	var s Sum
	for _, id := range ids {
		s = s.Add(id)
	}
	return s
}

// Add is the sum of the set with one more member.
func (s Sum) Add(id [16]byte) Sum { return s.Merge(one(id)) }

// Sub is the sum of the set without one of its members.
func (s Sum) Sub(id [16]byte) Sum {
	o := one(id)
	lo, borrow := bits.Sub64(s.Lo, o.Lo, 0)
	hi, _ := bits.Sub64(s.Hi, o.Hi, borrow)
	return Sum{s.Count - 1, hi, lo}
}

// Merge is the sum of two sets that share no member.
func (s Sum) Merge(o Sum) Sum {
	lo, carry := bits.Add64(s.Lo, o.Lo, 0)
	hi, _ := bits.Add64(s.Hi, o.Hi, carry)
	return Sum{s.Count + o.Count, hi, lo}
}

func one(id [16]byte) Sum {
	return Sum{1, binary.BigEndian.Uint64(id[:8]), binary.BigEndian.Uint64(id[8:])}
}

// wire is the JSON of a Sum: {"n":3,"s":"32 hexadecimal digits"}.
type wire struct {
	N uint64 `json:"n"`
	S string `json:"s"`
}

// MarshalJSON writes {"n":count,"s":"32 hexadecimal digits"}.
func (s Sum) MarshalJSON() ([]byte, error) {
	b := s.Bytes()
	return json.Marshal(wire{s.Count, hex.EncodeToString(b[8:])})
}

// UnmarshalJSON reads what MarshalJSON writes.
func (s *Sum) UnmarshalJSON(b []byte) error {
	var w wire
	if err := json.Unmarshal(b, &w); err != nil {
		return fmt.Errorf("digest: sum: %w", err)
	}
	raw, err := hex.DecodeString(w.S)
	if err != nil || len(raw) != 16 {
		return fmt.Errorf("digest: sum %.40q: want 32 hexadecimal digits", w.S)
	}
	*s = Sum{w.N, binary.BigEndian.Uint64(raw), binary.BigEndian.Uint64(raw[8:])}
	return nil
}

// Bytes is the sum as a row of a store: count, then the 128-bit sum, big-endian.
func (s Sum) Bytes() [24]byte {
	var b [24]byte
	binary.BigEndian.PutUint64(b[0:], s.Count)
	binary.BigEndian.PutUint64(b[8:], s.Hi)
	binary.BigEndian.PutUint64(b[16:], s.Lo)
	return b
}

// FromBytes reads what Bytes wrote.
func FromBytes(b []byte) (Sum, error) {
	if len(b) != 24 {
		return Sum{}, fmt.Errorf("digest: a sum has 24 bytes, this row has %d", len(b))
	}
	u := binary.BigEndian.Uint64
	return Sum{u(b), u(b[8:]), u(b[16:])}, nil
}
