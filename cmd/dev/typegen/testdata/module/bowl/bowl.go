// Package bowl is read by the tests of typegen.
package bowl

import (
	"encoding/json"

	"example/grams"
)

// Bowl waits for a bin.
// It has a second line.
type Bowl struct {
	ID     string            `json:"id"`
	Mass   grams.Grams       `json:"mass"` // left in it
	Kind   Kind              `json:"kind"`
	Scale  *int64            `json:"scale"`
	Note   *string           `json:"note,omitempty"`
	Items  []Item            `json:"items"`
	Parts  []*Item           `json:"parts,omitempty"`
	Words  map[string]string `json:"words"`
	Raw    json.RawMessage   `json:"raw"`
	Any    any               `json:"any"`
	Bytes  []byte            `json:"bytes"`
	Day    grams.Day         `json:"day"`
	Big    int64             `json:"big,string"`
	Plain  bool
	Secret string `json:"-"`
	hidden int
	Common
}

// Item is one scrap.
type Item struct {
	Scrap string `json:"scrap"`
}

// Common is embedded.
type Common struct {
	Who grams.Item `json:"who"`
}

// Kind says what it is.
type Kind string

// The kinds.
const (
	Scraps  Kind = "scraps"
	Bedding Kind = "bedding"
)

type untagged struct{ A int }

var _ = untagged{Bowl{}.hidden}
