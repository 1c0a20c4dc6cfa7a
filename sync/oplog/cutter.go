package oplog

import (
	"bytes"
	"encoding/json"
)

// cutter cuts JSON that is known to be valid into members, without decoding
// their values.
type cutter struct {
	b []byte
	i int
}

// peek skips white space and shows the next byte.
func (c *cutter) peek() byte {
	for c.b[c.i] == ' ' || c.b[c.i] == '\n' || c.b[c.i] == '\r' || c.b[c.i] == '\t' {
		c.i++
	}
	return c.b[c.i]
}

// members calls f for each member of the object that c stands at. value is a
// slice of the text, without white space around it.
func (c *cutter) members(f func(name string, value []byte) error) error {
	for c.i++; c.peek() != '}'; {
		if c.peek() == ',' {
			c.i++
			c.peek()
		}
		name := unquote(c.value())
		c.peek()
		c.i++ // the colon
		c.peek()
		if err := f(name, c.value()); err != nil {
			return err
		}
	}
	return nil
}

// value cuts the value that c stands at.
func (c *cutter) value() []byte {
	from, depth := c.i, 0
	for {
		switch c.b[c.i] {
		case '"':
			c.skipString()
		case '{', '[':
			depth++
			c.i++
		case '}', ']':
			depth--
			c.i++
		default:
			c.i++
		}
		if depth == 0 && (c.i == len(c.b) || endsScalar(c.b[from], c.b[c.i])) {
			return c.b[from:c.i:c.i]
		}
	}
}

// endsScalar tells whether a value that began with first is over before next.
// Strings, objects and arrays are over once their own last byte was passed.
func endsScalar(first, next byte) bool {
	switch first {
	case '"', '{', '[':
		return true
	}
	return bytes.IndexByte([]byte(",}] \n\r\t"), next) >= 0
}

func (c *cutter) skipString() {
	for c.i++; c.b[c.i] != '"'; c.i++ {
		if c.b[c.i] == '\\' {
			c.i++
		}
	}
	c.i++
}

func unquote(quoted []byte) string {
	if bytes.IndexByte(quoted, '\\') < 0 {
		return string(quoted[1 : len(quoted)-1])
	}
	var s string
	if err := json.Unmarshal(quoted, &s); err != nil {
		return "" // cannot happen: the text is valid JSON and this is one of its strings
	}
	return s
}
