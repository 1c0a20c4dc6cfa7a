package roster_test

import (
	"encoding/json"
	"strings"
	"testing"

	"trayside/sync/roster"
	"trayside/sync/roster/p256"
)

func TestOpenRefusesWhatDoesNotCertifyItself(t *testing.T) {
	c := newCast(t)
	good := c.revoke("F", "A", roster.Lost)
	var w map[string]string
	if err := json.Unmarshal([]byte(good.Text), &w); err != nil {
		t.Fatal(err)
	}
	change := func(name, value string) string {
		m := map[string]string{"op": w["op"], "key": w["key"], "sig": w["sig"]}
		m[name] = value
		b, err := json.Marshal(m)
		if err != nil {
			t.Fatal(err)
		}
		return string(b)
	}
	otherSig, err := p256.SignText(c.key("X"), w["op"])
	if err != nil {
		t.Fatal(err)
	}
	if _, err := roster.Open(change("op", w["op"]), p256.Verify); err != nil {
		t.Fatalf("the text itself: %v", err)
	}
	tests := map[string]string{
		"not JSON":                    "roster",
		"a changed operation":         change("op", strings.Replace(w["op"], "lost", "left", 1)),
		"another key":                 change("key", roster.KeyText(c.public("X"))),
		"another key's signature":     change("sig", otherSig),
		"a short signature":           change("sig", w["sig"][:40]),
		"a key off the curve":         change("key", roster.KeyText(append([]byte{4}, make([]byte, 64)...))),
		"an operation beyond 8 KiB":   change("op", strings.Repeat("x", roster.MaxBytes+1)),
		"a text beyond every bound":   strings.Repeat("x", 1<<20),
		"another key and signature":   strings.Replace(change("sig", otherSig), w["key"], roster.KeyText(c.public("X")), 1),
		"an operation that is no map": roster.Wrap("[]", w["key"], w["sig"]),
	}
	for name, text := range tests {
		t.Run(name, func(t *testing.T) {
			if _, err := roster.Open(text, p256.Verify); err == nil {
				t.Error("opened")
			}
		})
	}
}

// A phone opens texts whose signatures a browser has verified, so both must read
// the same operation out of one text.
func TestATextHasOneReading(t *testing.T) {
	c := newCast(t)
	good := c.revoke("F", "A", roster.Lost)
	var w map[string]string
	if err := json.Unmarshal([]byte(good.Text), &w); err != nil {
		t.Fatal(err)
	}
	forged := strings.Replace(w["op"], c.dev("A"), c.dev("B"), 1)
	for _, name := range []string{"Op", "OP", "oP"} {
		for _, text := range []string{
			`{"op":` + quote(w["op"]) + `,"key":` + quote(w["key"]) + `,"sig":` + quote(w["sig"]) + `,"` + name + `":` + quote(forged) + `}`,
			`{"` + name + `":` + quote(forged) + `,"op":` + quote(w["op"]) + `,"key":` + quote(w["key"]) + `,"sig":` + quote(w["sig"]) + `}`,
		} {
			if s, err := roster.Open(text, roster.Vouched); err != nil || s.ID != good.ID {
				t.Errorf("with a member %s the text reads %+v, %v; want what was signed", name, s.Op, err)
			}
		}
		only := `{"` + name + `":` + quote(forged) + `,"key":` + quote(w["key"]) + `,"sig":` + quote(w["sig"]) + `}`
		if s, err := roster.Open(only, roster.Vouched); err == nil {
			t.Errorf("a text without op reads %+v", s.Op)
		}
	}
}

// quote writes a string as JSON.
func quote(s string) string {
	b, err := json.Marshal(s)
	if err != nil {
		panic(err)
	}
	return string(b)
}

func TestTextOfUnsignedGrantIsSignedElsewhere(t *testing.T) {
	c := newCast(t)
	text, err := roster.Text(roster.Op{
		V: roster.Version, T: 5, Dev: c.dev("F"), Home: c.home.String(), Kind: roster.Grant,
		To: c.dev("A"), Key: roster.KeyText(c.public("A")), Member: "member/1", Role: roster.Feeder, Name: "A",
	})
	if err != nil {
		t.Fatal(err)
	}
	sig, err := p256.SignText(c.key("F"), text)
	if err != nil {
		t.Fatal(err)
	}
	s, err := roster.Open(roster.Wrap(text, roster.KeyText(c.public("F")), sig), p256.Verify)
	if err != nil {
		t.Fatal(err)
	}
	if got := says(roster.Fold(c.home, append(c.ops, s)), c.dev("A")); got != "feeder" {
		t.Errorf("A is %q, want feeder", got)
	}
}

func FuzzOpen(f *testing.F) {
	c := newCast(f)
	f.Add(c.ops[0].Text)
	f.Add(c.grant("F", "A", roster.Keeper).Text)
	f.Add(`{"op":"{}","key":"","sig":""}`)
	f.Fuzz(func(t *testing.T, text string) {
		s, err := roster.Open(text, p256.Verify)
		if err != nil {
			return
		}
		again, err := roster.Open(s.Text, p256.Verify)
		if err != nil || again.ID != s.ID {
			t.Errorf("opened once and not again: %v", err)
		}
	})
}
