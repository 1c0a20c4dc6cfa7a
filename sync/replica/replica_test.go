package replica_test

import (
	"bytes"
	"encoding/json"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"
	"trayside/sync/oplog"
	"trayside/sync/replica"
)

func TestFoldIsTheSameInEveryOrderAndWithRepeats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ops := drawOps(t, "ops")
		once := fold(ops...)
		other := rapid.Permutation(append(slices.Clone(ops), drawSome(t, ops)...)).Draw(t, "other order")
		again := fold(other...)
		if a, b := say(once), say(again); a != b {
			t.Fatalf("one order:\n%s\nanother:\n%s", a, b)
		}
		if !bytes.Equal(once.Snapshot(), again.Snapshot()) {
			t.Fatal("equal sets, different snapshots")
		}
	})
}

func drawSome(t *rapid.T, ops []oplog.Sealed) []oplog.Sealed {
	if len(ops) == 0 {
		return nil
	}
	return rapid.SliceOfN(rapid.SampledFrom(ops), 0, 10).Draw(t, "repeats")
}

// The fold against the plainest reading of the rule: of all valid writes to a
// field the one with the greatest (stamp, id) counts.
func TestFieldsFollowTheRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ops := distinct(drawOps(t, "ops"))
		r := fold(ops...)
		wins := func(a, b oplog.Sealed) bool { // a over b
			return a.Op.T > b.Op.T || a.Op.T == b.Op.T && a.ID.String() > b.ID.String()
		}
		type key struct{ ent, field string }
		best := map[key]oplog.Sealed{}
		newest := map[string]int64{}
		asides, unread := 0, 0
		for _, s := range ops {
			if at, there := newest[s.Op.Ent]; !there || s.Op.T > at {
				newest[s.Op.Ent] = s.Op.T
			}
			later := s.Op.V > 1 || s.Op.Kind() == "balcony"
			if s.Op.V == 1 {
				write := func(field string) {
					k := key{s.Op.Ent, field}
					if b, there := best[k]; !there || wins(s, b) {
						best[k] = s
					}
				}
				for field, value := range s.Op.Set {
					err := schema{}.Check(s.Op.Kind(), field, value)
					switch {
					case string(value) == "null" || s.Op.Kind() == "balcony":
						write(field)
					case err == replica.ErrUnknown:
						later = true
						write(field)
					case err != nil:
						asides++
					default:
						write(field)
					}
				}
				if s.Op.Gone != nil {
					write("\x00gone")
				}
				if _, err := time.Parse(time.RFC3339, s.Op.At); err == nil {
					write("\x00at")
				} else if s.Op.At != "" {
					asides++
				}
				if _, err := time.Parse(time.DateOnly, s.Op.Day); err == nil {
					write("\x00day")
				} else if s.Op.Day != "" {
					asides++
				}
			}
			if later {
				unread++
			}
		}
		if r.Len() != len(ops) || len(r.Asides()) != asides || r.Unread() != unread {
			t.Fatalf("got %d operations, %d asides, %d unread; want %d, %d, %d", r.Len(), len(r.Asides()), r.Unread(), len(ops), asides, unread)
		}
		for ent, at := range newest {
			e := r.Entity(ent)
			if e.Newest() != at || r.Newest(ent) != at {
				t.Fatalf("%s: newest %d, want %d", ent, e.Newest(), at)
			}
			for _, field := range []string{"grams", "note", "pH"} {
				reg, ok := e.Field(field)
				s, want := best[key{ent, field}]
				want = want && string(s.Op.Set[field]) != "null"
				if ok != want || ok && (reg.ID != s.ID || string(reg.Value) != string(s.Op.Set[field])) {
					t.Fatalf("%s %s: got %s %v of %s, want %v of %s", ent, field, reg.Value, ok, reg.ID, want, s.ID)
				}
			}
			s, there := best[key{ent, "\x00gone"}]
			if want := there && *s.Op.Gone; e.IsGone() != want {
				t.Fatalf("%s gone: got %v, want %v", ent, e.IsGone(), want)
			}
			if got, want := e.At(), best[key{ent, "\x00at"}].Op.At; got != want {
				t.Fatalf("%s at: got %q, want %q", ent, got, want)
			}
			if got, want := e.Day(), best[key{ent, "\x00day"}].Op.Day; got != want {
				t.Fatalf("%s day: got %q, want %q", ent, got, want)
			}
		}
	})
}

// Whoever edits after seeing a value wins over it, whatever the clocks say.
func TestAnEditMadeAfterSeeingAValueWins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seen := slices.DeleteFunc(drawOps(t, "seen"), func(s oplog.Sealed) bool { return s.Op.T == oplog.MaxStamp })
		clock := rapid.SampledFrom([]int64{-1, 0, 5, 1764057600000, 8_640_000_000_000_000, 1<<63 - 1})
		r := fold(seen...)
		for range rapid.IntRange(1, 4).Draw(t, "edits") {
			ent := rapid.SampledFrom([]string{"feeding/1", "tray/1"}).Draw(t, "ent")
			value := rapid.SampledFrom([]string{"1", "2", "3"}).Draw(t, "value")
			stamp := r.Stamp(ent, clock.Draw(t, "now"), clock.Draw(t, "floor"))
			s, err := oplog.Seal(oplog.Op{V: 1, T: stamp, Dev: "d", Ent: ent, At: "2026-11-20T07:00:00Z", Set: set("grams", value), Gone: ptr(value == "1")})
			if err != nil {
				t.Fatalf("stamp %d cannot be written: %v", stamp, err)
			}
			r.Add(s)
			e := r.Entity(ent)
			if reg, _ := e.Field("grams"); reg.ID != s.ID || e.IsGone() != (value == "1") || e.At() != "2026-11-20T07:00:00Z" {
				t.Fatalf("after the edit grams is %s of %s (t %d), want %s of %s (t %d)", reg.Value, reg.ID, reg.T, value, s.ID, stamp)
			}
		}
	})
}

func TestStamp(t *testing.T) {
	r := fold(
		seal(t, oplog.Op{T: 100, Ent: "feeding/1", Set: set("grams", "1")}),
		seal(t, oplog.Op{T: 200, Ent: "feeding/2", Set: set("grams", `"bad"`)}),
		seal(t, oplog.Op{T: 300, Ent: "balcony/1", V: 2}),
		seal(t, oplog.Op{T: oplog.MaxStamp, Ent: "tray/9"}),
	)
	for _, c := range []struct {
		name       string
		ent        string
		now, floor int64
		want       int64
	}{
		{"the clock where it is ahead of all", "feeding/1", 500, 0, 500},
		{"one more than the newest where the clock is behind", "feeding/1", 50, 0, 101},
		{"one more than the newest where the clock is the same", "feeding/1", 100, 0, 101},
		{"the household's time where the clock is behind it", "feeding/1", 50, 400, 400},
		{"another entity's stamps do not count", "feeding/7", 50, 0, 50},
		{"what was set aside counts", "feeding/2", 50, 0, 201},
		{"what cannot be read counts", "balcony/1", 50, 0, 301},
		{"a clock before 1970 is 0", "feeding/7", -5, -9, 0},
		{"no stamp is too large to be written", "tray/9", 50, 0, oplog.MaxStamp},
	} {
		if got := r.Stamp(c.ent, c.now, c.floor); got != c.want {
			t.Errorf("%s: got %d, want %d", c.name, got, c.want)
		}
	}
}

func TestRemovedStaysRemovedAndUndoBringsBackWithTheLaterValue(t *testing.T) {
	made := seal(t, oplog.Op{T: 10, Ent: "feeding/1", Set: set("grams", "300")})
	removed := seal(t, oplog.Op{T: 20, Dev: "a", Ent: "feeding/1", Gone: ptr(true)})
	edited := seal(t, oplog.Op{T: 30, Dev: "b", Ent: "feeding/1", Set: set("grams", "350")}) // later, by somebody who had not seen it
	rapid.Check(t, func(rt *rapid.T) {
		r := fold(rapid.Permutation([]oplog.Sealed{made, removed, edited}).Draw(rt, "order")...)
		e := r.Entity("feeding/1")
		if !e.IsGone() {
			rt.Fatal("a later edit brought back what was removed")
		}
		v, ok := r.Undo(removed.ID)
		if !ok || v.Gone == nil || *v.Gone || len(v.Set) != 0 {
			rt.Fatalf("undo of the removal: got %+v %v, want gone=false alone", v, ok)
		}
		r.Add(apply(rt, r, v))
		if reg, _ := e.Field("grams"); e.IsGone() || string(reg.Value) != "350" {
			rt.Fatalf("after undo: gone %v, grams %s; want there with 350", e.IsGone(), reg.Value)
		}
	})
}

// apply writes what an undo asks for, as the phone does.
func apply(t rapid.TB, r *replica.Replica, v replica.Revert) oplog.Sealed {
	t.Helper()
	s, err := oplog.Seal(oplog.Op{V: 1, T: r.Stamp(v.Ent, 0, 0), Dev: "undo", Ent: v.Ent, Set: v.Set, At: v.At, Day: v.Day, Gone: v.Gone})
	if err != nil {
		t.Fatalf("an undo that cannot be written: %v", err)
	}
	return s
}

func TestUndo(t *testing.T) {
	made := seal(t, oplog.Op{T: 10, Ent: "feeding/1", At: "2026-11-20T07:00:00Z", Day: "2026-11-20", Set: set("grams", "300")})
	edit := seal(t, oplog.Op{T: 20, Ent: "feeding/1", At: "2026-11-21T07:00:00Z", Set: set("grams", "350", "note", `"wet"`)})
	other := seal(t, oplog.Op{T: 30, Ent: "feeding/1", Set: set("grams", "400")})
	removed := seal(t, oplog.Op{T: 40, Ent: "feeding/1", Gone: ptr(true)})
	asText := func(v replica.Revert) string {
		b, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		return string(b)
	}
	for _, c := range []struct {
		name string
		ops  []oplog.Sealed
		undo oplog.Sealed
		want string
	}{
		{"a creation is taken back by removing", []oplog.Sealed{made}, made, `{"Ent":"feeding/1","Set":null,"At":"","Day":"","Gone":true}`},
		{"a creation that others edited too", []oplog.Sealed{made, edit}, made, `{"Ent":"feeding/1","Set":null,"At":"","Day":"","Gone":true}`},
		{"a creation that is gone already leaves nothing to do", []oplog.Sealed{made, removed}, made, `{"Ent":"feeding/1","Set":null,"At":"","Day":"","Gone":null}`},
		{"an edit falls back, a field that was not there is cleared", []oplog.Sealed{made, edit}, edit, `{"Ent":"feeding/1","Set":{"grams":300,"note":null},"At":"2026-11-20T07:00:00Z","Day":"","Gone":null}`},
		{"what somebody wrote later stays", []oplog.Sealed{made, edit, other}, edit, `{"Ent":"feeding/1","Set":{"note":null},"At":"2026-11-20T07:00:00Z","Day":"","Gone":null}`},
		{"the later one falls back to the one before", []oplog.Sealed{made, edit, other}, other, `{"Ent":"feeding/1","Set":{"grams":350},"At":"","Day":"","Gone":null}`},
		{"a removal is taken back", []oplog.Sealed{made, removed}, removed, `{"Ent":"feeding/1","Set":null,"At":"","Day":"","Gone":false}`},
	} {
		r := fold(c.ops...)
		v, ok := r.Undo(c.undo.ID)
		if got := asText(v); !ok || got != c.want {
			t.Errorf("%s: got %s %v, want %s", c.name, got, ok, c.want)
		}
		if v.Any() {
			r.Add(apply(t, r, v))
			if v, _ := r.Undo(c.undo.ID); v.Any() {
				t.Errorf("%s: undone, and still there is %s to take back", c.name, asText(v))
			}
		}
	}
	if _, ok := fold(made).Undo(edit.ID); ok {
		t.Error("an operation that nobody holds was undone")
	}
}

func TestAnEditLeavesTheDayAlone(t *testing.T) {
	r := fold(
		seal(t, oplog.Op{T: 10, Ent: "feeding/1", Day: "2026-11-20", Set: set("grams", "300")}),
		seal(t, oplog.Op{T: 20, Ent: "feeding/1", Day: "2026-11-19"}),
		seal(t, oplog.Op{T: 30, Ent: "feeding/1", Set: set("grams", "350")}),
	)
	if got := r.Entity("feeding/1").Day(); got != "2026-11-19" {
		t.Errorf("day: got %s, want the mended 2026-11-19", got)
	}
}

// A bad value never changes what the rest says, before it, beside it or after it.
func TestSettingAsideNeverBlocks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ops := distinct(drawOps(t, "ops"))
		// The same operations with a bad value added to each field that they leave out.
		spoilt := slices.Clone(ops)
		r := fold(ops...)
		bad, err := oplog.Seal(oplog.Op{V: 1, T: rapid.SampledFrom([]int64{0, 5, 1 << 41}).Draw(t, "t"), Dev: "bad", Ent: "feeding/1", At: "never", Day: "never", Set: set("grams", `"heavy"`, "note", `"kept"`)})
		if err != nil {
			t.Fatal(err)
		}
		good, err := oplog.Seal(oplog.Op{V: 1, T: bad.Op.T, Dev: "bad", Ent: "feeding/1", Set: set("note", `"kept"`)})
		if err != nil {
			t.Fatal(err)
		}
		r.Add(good)
		s := fold(rapid.Permutation(append(spoilt, bad)).Draw(t, "order")...)
		if len(s.Asides()) != len(r.Asides())+3 {
			t.Fatalf("asides: got %v, want three more than %v", s.Asides(), r.Asides())
		}
		e, want := s.Entity("feeding/1"), r.Entity("feeding/1")
		for _, field := range []string{"grams", "pH"} {
			got, ok := e.Field(field)
			exp, okWant := want.Field(field)
			if ok != okWant || got.ID != exp.ID || string(got.Value) != string(exp.Value) {
				t.Fatalf("%s: got %s, want %s as without the bad value", field, got.Value, exp.Value)
			}
		}
		if e.At() != want.At() || e.Day() != want.Day() || len(e.Writes("note")) != len(want.Writes("note")) {
			t.Fatalf("at %s day %s and %d notes, want %s, %s and %d", e.At(), e.Day(), len(e.Writes("note")), want.At(), want.Day(), len(want.Writes("note")))
		}
	})
}

func TestRemovingUndoesAdding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stay, go1 := distinct(drawOps(t, "stay")), distinct(drawOps(t, "go"))
		want := fold(stay...)
		r := fold(rapid.Permutation(append(slices.Clone(stay), go1...)).Draw(t, "order")...)
		for _, s := range go1 {
			if !want.Has(s.ID) && (!r.Remove(s.ID) || r.Remove(s.ID)) {
				t.Fatalf("%s: want removed once", s.ID)
			}
		}
		if got, want := say(r), say(want); got != want {
			t.Fatalf("got:\n%s\nwant:\n%s", got, want)
		}
		if !bytes.Equal(r.Snapshot(), want.Snapshot()) {
			t.Fatal("snapshots differ")
		}
	})
}
