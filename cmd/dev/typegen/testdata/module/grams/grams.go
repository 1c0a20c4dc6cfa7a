// Package grams is read by the tests of typegen.
package grams

// Grams is a mass.
type Grams int64

// Day writes itself as text.
type Day int32

// MarshalText writes the date.
func (Day) MarshalText() ([]byte, error) { return nil, nil }

// Sum writes its own JSON.
type Sum struct{}

// MarshalJSON writes it.
func (Sum) MarshalJSON() ([]byte, error) { return nil, nil }

// Item has the name of another package's type.
type Item struct {
	N uint8 `json:"n"`
}

// Own cannot be followed.
type Own struct {
	Sum Sum `json:"sum"`
}

// Odd has a form that no message uses.
type Odd struct {
	Run func() `json:"run"`
}
