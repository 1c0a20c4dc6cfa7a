package oplog

import (
	"encoding/json"
	"fmt"
	"unicode/utf8"
)

// parse reads the envelope. It does not use json.Unmarshal on a struct because
// that matches names in any case and lets the last of two equal names win, and
// because a rebuild opens the whole log: the text is proved to be JSON once and
// then cut at its top two levels without decoding what lies below.
func parse(b []byte) (Op, error) {
	if len(b) > MaxBytes {
		return Op{}, invalid(TooBig, "", fmt.Sprintf("has %d bytes; at most %d are kept, so shorten the note", len(b), MaxBytes))
	}
	if !utf8.Valid(b) || !json.Valid(b) {
		return Op{}, invalid(NotJSON, "", "is not JSON text in UTF-8")
	}
	c := cutter{b: b}
	if c.peek() != '{' {
		return Op{}, invalid(NotJSON, "", "is not a JSON object")
	}
	var o Op
	var seen uint
	err := c.members(func(name string, value []byte) error {
		bit := memberBit(name)
		if seen&bit != 0 {
			return invalid(Twice, name, "is there twice")
		}
		seen |= bit
		return o.take(name, value)
	})
	if err != nil {
		return Op{}, err
	}
	for _, name := range []string{"v", "t", "by", "dev", "ent"} {
		if seen&memberBit(name) == 0 {
			return Op{}, invalid(Missing, name, "is missing")
		}
	}
	return o, nil
}

// memberBit is zero for a member this program does not know: those are kept in
// the bytes and not looked at.
func memberBit(name string) uint {
	for i, known := range [...]string{"v", "t", "by", "dev", "at", "day", "ent", "set", "gone"} {
		if name == known {
			return 1 << i
		}
	}
	return 0
}

func (o *Op) take(name string, value []byte) (err error) {
	switch name {
	case "v":
		var v int64
		v, err = whole(name, value, 1)
		o.V = int(min(v, 1<<31-1)) // an int has 32 bits on some phones' engines
	case "t":
		o.T, err = whole(name, value, 0)
	case "by":
		o.By, err = text(name, value, maxWho)
	case "dev":
		o.Dev, err = text(name, value, maxWho)
		if err == nil && o.Dev == "" {
			err = invalid(BadField, name, "is empty; every operation names the device it was made on")
		}
	case "at":
		o.At, err = text(name, value, maxWhen)
	case "day":
		o.Day, err = text(name, value, maxWhen)
	case "ent":
		o.Ent, err = text(name, value, 2*maxName+1)
		if err == nil && !isEntity(o.Ent) {
			err = invalid(BadField, name, "must be kind/id, in letters, digits and . _ : -")
		}
	case "set":
		o.Set, err = set(value)
	case "gone":
		if s := string(value); s != "true" && s != "false" {
			return invalid(BadField, name, "must be true or false")
		}
		gone := value[0] == 't'
		o.Gone = &gone
	}
	return err
}

// whole reads a number written in digits alone, from low to MaxStamp.
func whole(name string, value []byte, low int64) (int64, error) {
	var n int64
	for _, d := range value {
		if d < '0' || d > '9' || n > MaxStamp/10 {
			n = -1
			break
		}
		n = n*10 + int64(d-'0')
	}
	if n < low || n > MaxStamp {
		return 0, invalid(BadField, name, fmt.Sprintf("must be a whole number from %d to %d, written in digits", low, int64(MaxStamp)))
	}
	return n, nil
}

func text(name string, value []byte, most int) (string, error) {
	if value[0] != '"' {
		return "", invalid(BadField, name, "must be a text")
	}
	s := unquote(value)
	if len(s) > most {
		return "", invalid(BadField, name, fmt.Sprintf("has %d bytes; at most %d fit", len(s), most))
	}
	return s, nil
}

func set(value []byte) (map[string]json.RawMessage, error) {
	c := cutter{b: value}
	if c.peek() != '{' {
		return nil, invalid(BadField, "set", "must be an object of field and value")
	}
	var fields map[string]json.RawMessage
	err := c.members(func(name string, value []byte) error {
		if name == "" || len(name) > maxName || !isName(name) {
			return invalid(BadField, "set", fmt.Sprintf("names a field %.80q; a name has 1 to %d letters, digits and . _ : -", name, maxName))
		}
		if _, there := fields[name]; there {
			return invalid(Twice, "set."+name, "is there twice")
		}
		if fields == nil {
			fields = make(map[string]json.RawMessage)
		}
		fields[name] = value
		return nil
	})
	return fields, err
}

func isEntity(s string) bool {
	kind := KindOf(s)
	if len(kind) == len(s) {
		return false
	}
	id := s[len(kind)+1:]
	return kind != "" && len(kind) <= maxName && isName(kind) &&
		id != "" && len(id) <= maxName && isName(id)
}

func isName(s string) bool {
	for i := range len(s) {
		switch c := s[i]; {
		case 'a' <= c && c <= 'z', 'A' <= c && c <= 'Z', '0' <= c && c <= '9':
		case c == '.', c == '_', c == ':', c == '-':
		default:
			return false
		}
	}
	return true
}
