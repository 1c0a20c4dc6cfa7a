package oplog_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"trayside/sync/oplog"
)

const whole = `{"v":1,"t":1764057600000,"by":"m1","dev":"d1","at":"2026-11-25T07:40:00+01:00","day":"2026-11-25","ent":"feeding/9f","set":{"grams":350,"note":"a \"}\" b"},"gone":false}`

func TestOpenReadsEveryMember(t *testing.T) {
	s, err := oplog.Open([]byte(whole))
	if err != nil {
		t.Fatal(err)
	}
	no := false
	want := oplog.Op{
		V: 1, T: 1764057600000, By: "m1", Dev: "d1", At: "2026-11-25T07:40:00+01:00", Day: "2026-11-25", Ent: "feeding/9f",
		Set:  map[string]json.RawMessage{"grams": json.RawMessage("350"), "note": json.RawMessage(`"a \"}\" b"`)},
		Gone: &no,
	}
	if !reflect.DeepEqual(s.Op, want) {
		t.Errorf("operation: got %+v, want %+v", s.Op, want)
	}
	if s.Op.Kind() != "feeding" {
		t.Errorf("kind: got %q, want feeding", s.Op.Kind())
	}
	if string(s.Bytes) != whole {
		t.Errorf("bytes: got %s, want them verbatim", s.Bytes)
	}
}

func TestIDIsTheFirstHalfOfSHA256(t *testing.T) {
	// FIPS 180-4's test message "abc": SHA-256 ba7816bf 8f01cfea 414140de 5dae2223 b00361a3 …
	// (NIST, Secure Hash Standard example values).
	if got, want := oplog.Hash([]byte("abc")).String(), "ba7816bf8f01cfea414140de5dae2223"; got != want {
		t.Errorf("id: got %s, want %s", got, want)
	}
	for _, bad := range []string{"", "ba", strings.Repeat("g", 32), strings.Repeat("a", 33)} {
		if id, err := oplog.ParseID(bad); err == nil {
			t.Errorf("ParseID(%q): got %s, want an error", bad, id)
		}
	}
}

func TestOpenJudgesForm(t *testing.T) {
	with := func(member, value string) string {
		m := map[string]string{"v": "1", "t": "5", "by": `"m"`, "dev": `"d"`, "ent": `"tray/1"`}
		if m[member] = value; value == "" {
			delete(m, member)
		}
		var parts []string
		for _, k := range []string{"v", "t", "by", "dev", "ent", "at", "day", "set", "gone", "later"} {
			if m[k] != "" {
				parts = append(parts, fmt.Sprintf("%q:%s", k, m[k]))
			}
		}
		return "{" + strings.Join(parts, " , ") + "}"
	}
	for _, c := range []struct {
		name, text, code, field string
	}{
		{"a plain operation is good", with("set", `{"a":1}`), "", ""},
		{"one that says nothing we can read is good, a later program wrote it", with("later", `{"x":[1,{"y":"]"}]}`), "", ""},
		{"a later envelope is good", with("v", "7"), "", ""},
		{"an envelope number beyond 32 bits is good", with("v", "9007199254740991"), "", ""},
		{"nobody in particular may have acted", with("by", `""`), "", ""},
		{"a clock at zero is good", with("t", "0"), "", ""},
		{"the largest stamp is good", with("t", "9007199254740991"), "", ""},
		{"white space around the object is good", " \n" + with("set", "{ }") + "\t", "", ""},
		{"a name in capitals is another member", strings.Replace(with("set", "{}"), `"t"`, `"T"`, 1), oplog.Missing, "t"},
		{"a stamp too large is refused", with("t", "9007199254740992"), oplog.BadField, "t"},
		{"a stamp far too large is refused", with("t", "99999999999999999999999999"), oplog.BadField, "t"},
		{"a negative stamp is refused", with("t", "-1"), oplog.BadField, "t"},
		{"a stamp with a fraction is refused", with("t", "1.5"), oplog.BadField, "t"},
		{"a stamp with an exponent is refused", with("t", "1e3"), oplog.BadField, "t"},
		{"a stamp in quotes is refused", with("t", `"5"`), oplog.BadField, "t"},
		{"envelope version 0 is refused", with("v", "0"), oplog.BadField, "v"},
		{"no stamp is refused", with("t", ""), oplog.Missing, "t"},
		{"no version is refused", with("v", ""), oplog.Missing, "v"},
		{"no member is refused", with("by", ""), oplog.Missing, "by"},
		{"no device is refused", with("dev", ""), oplog.Missing, "dev"},
		{"an empty device is refused", with("dev", `""`), oplog.BadField, "dev"},
		{"a device of 129 bytes is refused", with("dev", `"`+strings.Repeat("d", 129)+`"`), oplog.BadField, "dev"},
		{"no entity is refused", with("ent", ""), oplog.Missing, "ent"},
		{"an entity without kind is refused", with("ent", `"/1"`), oplog.BadField, "ent"},
		{"an entity without id is refused", with("ent", `"tray/"`), oplog.BadField, "ent"},
		{"an entity without slash is refused", with("ent", `"tray"`), oplog.BadField, "ent"},
		{"an entity with two slashes is refused", with("ent", `"tray/1/2"`), oplog.BadField, "ent"},
		{"an entity with a line break is refused", with("ent", `"tray/1\n"`), oplog.BadField, "ent"},
		{"at of the wrong type is refused", with("at", "5"), oplog.BadField, "at"},
		{"at that is no instant is left to the fold", with("at", `"soon"`), "", ""},
		{"fields in a list are refused", with("set", "[]"), oplog.BadField, "set"},
		{"a field name with a space is refused", with("set", `{"a b":1}`), oplog.BadField, "set"},
		{"an empty field name is refused", with("set", `{"":1}`), oplog.BadField, "set"},
		{"a field twice is refused", with("set", `{"a":1,"a":2}`), oplog.Twice, "set.a"},
		{"a field twice, once in escapes, is refused", with("set", `{"a":1,"\u0061":2}`), oplog.Twice, "set.a"},
		{"a member twice is refused", `{"t":1,` + with("set", "{}")[1:], oplog.Twice, "t"},
		{"gone must be true or false", with("gone", "null"), oplog.BadField, "gone"},
		{"a list is no operation", "[]", oplog.NotJSON, ""},
		{"nothing is no operation", "", oplog.NotJSON, ""},
		{"half an operation is none", with("set", "{}")[:20], oplog.NotJSON, ""},
		{"two operations are none", with("set", "{}") + with("set", "{}"), oplog.NotJSON, ""},
		{"bytes that are no UTF-8 are refused", with("by", "\"\xff\""), oplog.NotJSON, ""},
		{"8 KiB are good", with("set", `{"n":"`+strings.Repeat("x", oplog.MaxBytes-len(with("set", `{"n":""}`)))+`"}`), "", ""},
		{"one byte more is refused", with("set", `{"n":"`+strings.Repeat("x", oplog.MaxBytes-len(with("set", `{"n":""}`))+1)+`"}`), oplog.TooBig, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := oplog.Open([]byte(c.text))
			var bad *oplog.Invalid
			if c.code == "" {
				if err != nil {
					t.Fatalf("got %v, want it accepted", err)
				}
				return
			}
			if !errors.As(err, &bad) || bad.Code != c.code || bad.Field != c.field || bad.Error() == "" {
				t.Errorf("got %+v, want code %s of field %q", err, c.code, c.field)
			}
		})
	}
}

func TestSealRefusesWhatOpenWould(t *testing.T) {
	good := oplog.Op{V: 1, Dev: "d", Ent: "tray/1"}
	for name, spoil := range map[string]func(*oplog.Op){
		"no version":          func(o *oplog.Op) { o.V = 0 },
		"no device":           func(o *oplog.Op) { o.Dev = "" },
		"text that is no UTF": func(o *oplog.Op) { o.By = "\xff" },
		"a value that is no JSON": func(o *oplog.Op) {
			o.Set = map[string]json.RawMessage{"a": json.RawMessage("{")}
		},
		"a value that is no UTF-8": func(o *oplog.Op) {
			o.Set = map[string]json.RawMessage{"a": json.RawMessage("\"\xff\"")}
		},
	} {
		op := good
		spoil(&op)
		var bad *oplog.Invalid
		if _, err := oplog.Seal(op); !errors.As(err, &bad) {
			t.Errorf("%s: got %v, want an Invalid", name, err)
		}
	}
}

// drawOp draws operations that Seal accepts, values compact as Seal writes them.
func drawOp(t *rapid.T) oplog.Op {
	op := oplog.Op{
		V:   rapid.IntRange(1, 3).Draw(t, "v"),
		T:   rapid.OneOf(rapid.Int64Range(0, oplog.MaxStamp), rapid.SampledFrom([]int64{0, 1, oplog.MaxStamp})).Draw(t, "t"),
		By:  rapid.StringN(0, 20, 100).Draw(t, "by"),
		Dev: rapid.StringN(1, 20, 100).Draw(t, "dev"),
		At:  rapid.SampledFrom([]string{"", "2026-11-25T07:40:00+01:00", "soon"}).Draw(t, "at"),
		Day: rapid.SampledFrom([]string{"", "2026-11-25"}).Draw(t, "day"),
		Ent: rapid.StringMatching(`[a-z]{1,8}/[A-Za-z0-9._:-]{1,32}`).Draw(t, "ent"),
	}
	values := rapid.SampledFrom([]string{`1`, `-2.5e3`, `null`, `true`, `""`, `"<&>"`, `"\"}"`, `[]`, `[1,{"a":"]"}]`, `{}`, `{"a":{"b":"\\"}}`, "\"\u2028é\""})
	for _, name := range rapid.SliceOfNDistinct(rapid.StringMatching(`[A-Za-z0-9._:-]{1,12}`), 0, 4, rapid.ID).Draw(t, "fields") {
		if op.Set == nil {
			op.Set = map[string]json.RawMessage{}
		}
		op.Set[name] = json.RawMessage(values.Draw(t, "value"))
	}
	if rapid.Bool().Draw(t, "hasGone") {
		gone := rapid.Bool().Draw(t, "gone")
		op.Gone = &gone
	}
	return op
}

func TestWhatWasSealedOpensAsItWas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		op := drawOp(t)
		s, err := oplog.Seal(op)
		if err != nil {
			t.Fatalf("seal %+v: %v", op, err)
		}
		again, err := oplog.Open(bytes.Clone(s.Bytes))
		if err != nil {
			t.Fatalf("open %s: %v", s.Bytes, err)
		}
		if !reflect.DeepEqual(again.Op, op) || again.ID != s.ID {
			t.Fatalf("opened %+v, sealed %+v", again.Op, op)
		}
	})
}

// FuzzOpen holds the hand-written reader against encoding/json and against Seal.
func FuzzOpen(f *testing.F) {
	f.Add([]byte(whole))
	f.Add([]byte(`{"v":1,"t":0,"by":"","dev":"d","ent":"a/b"}`))
	f.Add([]byte(` { "v" : 2 , "t" : 9007199254740991 , "by":"\u00e9", "dev":"\\", "ent":"a/b","set":{"x":[{"y":"]}"}],"z":-1.5e9} ,"new":null}`))
	f.Add([]byte(`{"v":1,"t":1,"by":"","dev":"d","ent":"a/b","set":{"a":1,"\u0061":2}}`)) // one name, twice
	f.Add([]byte(`{"v":1,"T":1,"by":"","dev":"d","ent":"a/b"}`))                          // another case is another name
	f.Add([]byte(`{"v":1,"t":1,"by":"\ud800","dev":"d","ent":"a/b"}`))                    // half a surrogate pair
	f.Add([]byte(`{"v":1,"t":1,"by":"","dev":"d","ent":"a/b","set":{"a":"\u2028"}`))      // cut short
	f.Fuzz(func(t *testing.T, b []byte) {
		s, err := oplog.Open(b)
		if err != nil {
			var bad *oplog.Invalid
			if !errors.As(err, &bad) {
				t.Fatalf("error %T, want *Invalid", err)
			}
			return
		}
		var std map[string]json.RawMessage
		if err := json.Unmarshal(b, &std); err != nil {
			t.Fatalf("accepted what encoding/json refuses: %v", err)
		}
		var set map[string]json.RawMessage
		if std["set"] != nil {
			if err := json.Unmarshal(std["set"], &set); err != nil || len(set) != len(s.Op.Set) {
				t.Fatalf("set: got %v, encoding/json has %v (%v)", s.Op.Set, set, err)
			}
		}
		for name, value := range set {
			if !bytes.Equal(value, s.Op.Set[name]) {
				t.Fatalf("field %s: got %s, encoding/json has %s", name, s.Op.Set[name], value)
			}
		}
		var ent string
		if json.Unmarshal(std["ent"], &ent) != nil || ent != s.Op.Ent {
			t.Fatalf("entity: got %q, encoding/json has %q", s.Op.Ent, ent)
		}
		sealed, err := oplog.Seal(s.Op)
		var bad *oplog.Invalid
		if errors.As(err, &bad) && bad.Code == oplog.TooBig {
			return // the standard encoder escapes a few characters that the author did not
		}
		if err != nil {
			t.Fatalf("cannot seal what was opened: %v", err)
		}
		twice, err := oplog.Seal(sealed.Op)
		if err != nil || twice.ID != sealed.ID {
			t.Fatalf("sealing is not stable: %s then %s (%v)", sealed.Bytes, twice.Bytes, err)
		}
		if sealed.Op.T != s.Op.T || sealed.Op.By != s.Op.By || sealed.Op.Ent != s.Op.Ent || len(sealed.Op.Set) != len(s.Op.Set) {
			t.Fatalf("sealed %+v, opened %+v", sealed.Op, s.Op)
		}
	})
}

func BenchmarkOpen(b *testing.B) {
	text := []byte(whole)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, err := oplog.Open(text); err != nil {
			b.Fatal(err)
		}
	}
}
