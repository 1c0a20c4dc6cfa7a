package journal

import (
	"bytes"
	"encoding/json"
	"time"

	"trayside/internal/record"
	"trayside/internal/units"
)

// The readers below take the shapes that our own phones write without
// reflection, because a cold start decodes a whole household on a small phone;
// anything else they hand to encoding/json. Strings pass through an intern
// table where one is given: a log repeats a few names thousands of times.

// intern maps the bytes of a string to one shared copy.
type intern map[string]string

func (in intern) of(b []byte) string {
	if in == nil {
		return string(b)
	}
	if s, ok := in[string(b)]; ok {
		return s
	}
	s := string(b)
	in[s] = s
	return s
}

// plain returns the inside of a JSON string that has no escapes.
func plain(raw []byte) ([]byte, bool) {
	n := len(raw)
	if n < 2 || raw[0] != '"' || raw[n-1] != '"' {
		return nil, false
	}
	inner := raw[1 : n-1]
	for _, c := range inner {
		if c == '\\' || c == '"' || c < 0x20 || c >= 0x80 {
			return nil, false
		}
	}
	return inner, true
}

func text(raw json.RawMessage) (string, bool) { return intern(nil).text(raw) }

func (in intern) text(raw json.RawMessage) (string, bool) {
	if inner, ok := plain(raw); ok {
		return in.of(inner), true
	}
	var s *string
	if json.Unmarshal(raw, &s) != nil || s == nil {
		return "", false
	}
	return *s, true
}

// integer reads a whole number without sign tricks, fraction or exponent.
func integer(raw json.RawMessage) (int64, bool) {
	digits := []byte(raw)
	negative := len(digits) > 0 && digits[0] == '-'
	if negative {
		digits = digits[1:]
	}
	if len(digits) == 0 || len(digits) > 18 || digits[0] == '0' && len(digits) > 1 {
		return 0, false
	}
	var n int64
	for _, c := range digits {
		if c < '0' || c > '9' {
			return 0, false
		}
		n = n*10 + int64(c-'0')
	}
	if negative {
		n = -n
	}
	return n, true
}

func truth(raw json.RawMessage) (value, ok bool) {
	switch string(raw) {
	case "true":
		return true, true
	case "false":
		return false, true
	}
	return false, false
}

// date reads "2006-01-02". An empty string is no day: it clears the field.
func date(raw json.RawMessage) (*record.Day, bool) {
	inner, ok := plain(raw)
	if !ok {
		return nil, false
	}
	if len(inner) == 0 {
		return nil, true
	}
	d, ok := parseDay(string(inner))
	if !ok {
		return nil, false
	}
	return &d, true
}

// parseDay reads an ISO 8601 date without the time package's general layout
// engine, which takes five times as long.
func parseDay(s string) (record.Day, bool) {
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return 0, false
	}
	number := func(from, to int) int {
		n := 0
		for _, c := range []byte(s[from:to]) {
			if c < '0' || c > '9' {
				return -1 << 20
			}
			n = n*10 + int(c-'0')
		}
		return n
	}
	year, month, day := number(0, 4), number(5, 7), number(8, 10)
	if year < 0 || month < 1 || month > 12 || day < 1 || day > 31 {
		return 0, false
	}
	t := time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC)
	if t.Day() != day {
		return 0, false
	}
	return record.Day(t.Unix() / 86400), true
}

func texts(raw json.RawMessage) ([]string, bool) { return intern(nil).texts(raw) }

func (in intern) texts(raw json.RawMessage) ([]string, bool) {
	c := cursor{b: raw}
	list := make([]string, 0, bytes.Count(raw, []byte{','})+1)
	if c.list(func() bool {
		s, ok := c.str()
		list = append(list, in.of(s))
		return ok
	}) {
		return list, true
	}
	var slow []*string
	if json.Unmarshal(raw, &slow) != nil || bytes.Equal(raw, []byte("null")) {
		return nil, false
	}
	list = make([]string, len(slow))
	for i, s := range slow {
		if s == nil {
			return nil, false
		}
		list[i] = *s
	}
	return list, true
}

// amounts reads a list of items. Members of an item that this version does not
// know are passed over.
func amounts(raw json.RawMessage, in intern) ([]record.Item, bool) {
	return amountsIn(nil, raw, in)
}

// amountsIn is amounts into the free space of a slice.
func amountsIn(space []record.Item, raw json.RawMessage, in intern) ([]record.Item, bool) {
	c := cursor{b: raw}
	out := space[:0]
	if c.list(func() bool {
		it, ok := c.item(in)
		out = append(out, it)
		return ok
	}) {
		return out, true
	}
	var slow []*record.Item
	if json.Unmarshal(raw, &slow) != nil || bytes.Equal(bytes.TrimSpace(raw), []byte("null")) {
		return nil, false
	}
	out = out[:0]
	for _, it := range slow {
		if it == nil {
			return nil, false
		}
		out = append(out, *it)
	}
	return out, true
}

// cursor walks over JSON without spaces; whatever it cannot read makes it say
// no, and the caller falls back.
type cursor struct {
	b []byte
	i int
}

func (c *cursor) take(want byte) bool {
	if c.i < len(c.b) && c.b[c.i] == want {
		c.i++
		return true
	}
	return false
}

// list reads "[", entries, "]" and the end of the text.
func (c *cursor) list(entry func() bool) bool {
	if !c.take('[') {
		return false
	}
	if !c.take(']') {
		for {
			if !entry() {
				return false
			}
			if c.take(']') {
				break
			}
			if !c.take(',') {
				return false
			}
		}
	}
	return c.i == len(c.b)
}

func (c *cursor) str() ([]byte, bool) {
	if !c.take('"') {
		return nil, false
	}
	from := c.i
	for ; c.i < len(c.b); c.i++ {
		switch ch := c.b[c.i]; {
		case ch == '"':
			c.i++
			return c.b[from : c.i-1], true
		case ch == '\\' || ch < 0x20 || ch >= 0x80:
			return nil, false
		}
	}
	return nil, false
}

func (c *cursor) bare() json.RawMessage {
	from := c.i
	for c.i < len(c.b) && c.b[c.i] != ',' && c.b[c.i] != '}' && c.b[c.i] != ']' {
		c.i++
	}
	return c.b[from:c.i]
}

func (c *cursor) item(in intern) (it record.Item, ok bool) {
	if !c.take('{') {
		return it, false
	}
	for {
		key, ok := c.str()
		if !ok || !c.take(':') {
			return it, false
		}
		switch string(key) {
		case "scrap", "class", "name":
			s, ok := c.str()
			if !ok {
				return it, false
			}
			switch key[0] {
			case 's':
				it.Scrap = in.of(s)
			case 'c':
				it.Class = in.of(s)
			default:
				it.Name = in.of(s)
			}
		case "g":
			n, ok := integer(c.bare())
			if !ok {
				return it, false
			}
			it.Grams = units.Grams(n)
		case "cut", "frozen":
			v, ok := truth(c.bare())
			if !ok {
				return it, false
			}
			if key[0] == 'c' {
				it.Cut = v
			} else {
				it.Frozen = v
			}
		default:
			return it, false
		}
		if c.take('}') {
			return it, true
		}
		if !c.take(',') {
			return it, false
		}
	}
}
