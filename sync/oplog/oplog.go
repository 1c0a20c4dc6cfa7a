// Package oplog holds one operation of a household's log: its bytes, its
// identity and what makes it well formed.
//
// An operation is written once, as a small JSON text, and never changed. Its
// bytes are kept verbatim everywhere and its ID is a hash of them, so no
// canonical form is needed and members that this program does not know survive.
// Seal makes an operation, Open reads one. FORMAT.md draws the text field by field.
//
// The package knows nothing of what kinds of entity there are, what a field
// means, who may write it, or whether a stamp is likely.
package oplog

import (
	"bytes"
	"encoding/json"
	"strings"
)

// Bounds of an operation. They may be loosened by a later program, never
// tightened: what was stored once stays valid.
const (
	Version  = 1
	MaxBytes = 8 << 10   // bytes of the whole text
	MaxStamp = 1<<53 - 1 // largest stamp, ms: the largest whole number that is exact in every JSON reader
	maxWho   = 128       // bytes of by and dev
	maxWhen  = 64        // bytes of at and day
	maxName  = 64        // bytes of an entity's kind, of its id and of a field's name
)

// Op is what an operation says. The zero value is not valid.
type Op struct {
	V    int                        `json:"v"`              // envelope version, 1 and up; above Version the fold must not read Set, Gone, At, Day
	T    int64                      `json:"t"`              // stamp, ms since 1970 UTC, 0…MaxStamp; orders writes to one field and nothing else
	By   string                     `json:"by"`             // member who acted; may be empty
	Dev  string                     `json:"dev"`            // device it was made on
	At   string                     `json:"at,omitempty"`   // when the thing happened: RFC 3339 with offset
	Day  string                     `json:"day,omitempty"`  // household's day of it, YYYY-MM-DD
	Ent  string                     `json:"ent"`            // entity, kind/id
	Set  map[string]json.RawMessage `json:"set,omitempty"`  // field → value; null clears
	Gone *bool                      `json:"gone,omitempty"` // removed, or brought back
}

// Kind is the part of Ent before the slash.
func (o Op) Kind() string { return KindOf(o.Ent) }

// KindOf is the part of an entity's name before the slash.
func KindOf(ent string) string {
	kind, _, _ := strings.Cut(ent, "/")
	return kind
}

// Sealed is an operation with its bytes and its identity. Nobody may change
// Bytes or Op.Set afterwards; both may be shared.
type Sealed struct {
	ID    ID
	Bytes []byte
	Op    Op
}

// Seal writes an operation down. The error is an *Invalid.
func Seal(o Op) (Sealed, error) {
	var buf bytes.Buffer
	enc := json.NewEncoder(&buf)
	enc.SetEscapeHTML(false) // < and > stay one byte each
	for _, s := range []string{o.By, o.Dev, o.At, o.Day, o.Ent} {
		if strings.ToValidUTF8(s, "") != s {
			return Sealed{}, invalid(NotJSON, "", "holds text that is not UTF-8")
		}
	}
	if err := enc.Encode(o); err != nil {
		return Sealed{}, invalid(NotJSON, "set", err.Error())
	}
	return Open(bytes.TrimSuffix(buf.Bytes(), []byte("\n")))
}

// Open reads an operation from its bytes, which it keeps: the caller must not
// change them afterwards. It judges form only. The error is an *Invalid.
func Open(b []byte) (Sealed, error) {
	op, err := parse(b)
	if err != nil {
		return Sealed{}, err
	}
	return Sealed{ID: Hash(b), Bytes: b, Op: op}, nil
}
