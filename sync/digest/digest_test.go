package digest_test

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
	"trayside/sync/digest"
)

func id(b ...byte) (id [16]byte) {
	copy(id[:], b)
	return id
}

func TestSumsCarryAndWrap(t *testing.T) {
	ones := [16]byte{}
	for i := range ones {
		ones[i] = 0xff
	}
	one := [16]byte{15: 1}
	low := [16]byte{8: 0xff, 9: 0xff, 10: 0xff, 11: 0xff, 12: 0xff, 13: 0xff, 14: 0xff, 15: 0xff}
	for _, c := range []struct {
		name string
		got  digest.Sum
		want digest.Sum
	}{
		{"a carry reaches the upper half", digest.Of(low, one), digest.Sum{Count: 2, Hi: 1}},
		{"2^128 is 0 again, and the count tells it from nothing", digest.Of(ones, one), digest.Sum{Count: 2}},
		{"a borrow reaches the upper half", digest.Sum{Count: 2, Hi: 1}.Sub(one), digest.Sum{Count: 1, Lo: math.MaxUint64}},
	} {
		if c.got != c.want {
			t.Errorf("%s: got %+v, want %+v", c.name, c.got, c.want)
		}
	}
}

func TestSumAsJSONAndAsRow(t *testing.T) {
	s := digest.Of(id(0xab, 1), id(2))
	b, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	if want := `{"n":2,"s":"ad010000000000000000000000000000"}`; string(b) != want {
		t.Errorf("json: got %s, want %s", b, want)
	}
	var again digest.Sum
	if err := json.Unmarshal(b, &again); err != nil || again != s {
		t.Errorf("json read back: got %+v (%v), want %+v", again, err, s)
	}
	row := s.Bytes()
	if again, err := digest.FromBytes(row[:]); err != nil || again != s {
		t.Errorf("row read back: got %+v (%v), want %+v", again, err, s)
	}
	for _, bad := range []string{`{"n":-1,"s":""}`, `{"n":1,"s":"ad"}`, `{"n":1,"s":"` + strings.Repeat("x", 32) + `"}`, `5`, `{}`} {
		if err := json.Unmarshal([]byte(bad), &again); err == nil {
			t.Errorf("%s: read without an error", bad)
		}
	}
	if _, err := digest.FromBytes(row[1:]); err == nil {
		t.Error("a row of 23 bytes was read without an error")
	}
}

func TestMonthsAndDays(t *testing.T) {
	for _, c := range []struct {
		t     int64
		day   digest.Day
		month string
	}{
		{0, 0, "1970-01"},
		{86_399_999, 0, "1970-01"},
		{86_400_000, 1, "1970-01"},
		{time.Date(2024, 2, 29, 23, 59, 59, 0, time.UTC).UnixMilli(), 19782, "2024-02"},
		{time.Date(2024, 3, 1, 0, 0, 0, 0, time.UTC).UnixMilli(), 19783, "2024-03"},
		{1<<53 - 1, 104249991, "287396-10"},
		{-1, -1, "1969-12"},
	} {
		day := digest.DayOf(c.t)
		if day != c.day || day.Month().String() != c.month {
			t.Errorf("stamp %d: got day %d of %s, want day %d of %s", c.t, day, day.Month(), c.day, c.month)
		}
		var m digest.Month
		if err := m.UnmarshalText([]byte(c.month)); err != nil || m != day.Month() {
			t.Errorf("%s: read as %v (%v)", c.month, m, err)
		}
	}
	for _, bad := range []string{"", "2026", "2026-13", "2026-0", "2026-1", "2026-00", "x-01", "2026-11-25", " 2026-11", "-001-01"} {
		var m digest.Month
		if err := m.UnmarshalText([]byte(bad)); err == nil {
			t.Errorf("%q: read as month %v", bad, m)
		}
	}
}

// member draws from few stamps and few ids, so that days, parts and edges are shared.
type member struct {
	t  int64
	id [16]byte
}

func drawMembers(t *rapid.T, label string) []member {
	days := rapid.SampledFrom([]int64{0, 86_399_999, 86_400_000, 31 * 86_400_000, 31*86_400_000 - 1, 1<<53 - 1})
	bytes := rapid.SampledFrom([]byte{0, 1, 127, 128, 254, 255})
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) member {
		m := member{id: id(bytes.Draw(t, "part"), bytes.Draw(t, "b"))}
		m.id[15] = bytes.Draw(t, "last")
		m.t = days.Draw(t, "t")
		return m
	}), 0, 60).Draw(t, label)
}

// fill adds members; an id that comes again keeps its first stamp, as one
// operation has one stamp.
func fill(stamps map[[16]byte]int64, list []member) *digest.Calendar {
	var c digest.Calendar
	for _, m := range list {
		if _, there := stamps[m.id]; !there {
			stamps[m.id] = m.t
		}
		c.Add(stamps[m.id], m.id)
	}
	return &c
}

func TestSumsAreEqualExactlyWhenSetsAre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stamps := map[[16]byte]int64{}
		a, b := fill(stamps, drawMembers(t, "a")), fill(stamps, drawMembers(t, "b"))
		if rapid.Bool().Draw(t, "makeEqual") {
			for m, at := range stamps {
				a.Add(at, m)
				if _, there := a.Stamp(m); there {
					b.Add(at, m)
				}
			}
		}
		in := func(c *digest.Calendar, keep func(m [16]byte, t int64) bool) (list [][16]byte) {
			for m, at := range stamps {
				if _, there := c.Stamp(m); there && keep(m, at) {
					list = append(list, m)
				}
			}
			slices.SortFunc(list, func(x, y [16]byte) int { return slices.Compare(x[:], y[:]) })
			return list
		}
		check := func(what string, sa, sb digest.Sum, keep func([16]byte, int64) bool) {
			la, lb := in(a, keep), in(b, keep)
			if (sa == sb) != slices.Equal(la, lb) {
				t.Fatalf("%s: sums %v and %v, sets %x and %x", what, sa, sb, la, lb)
			}
			if sa != digest.Of(la...) {
				t.Fatalf("%s: sum %v of %x", what, sa, la)
			}
		}
		check("root", a.Root(), b.Root(), func([16]byte, int64) bool { return true })
		for _, at := range stamps {
			day := digest.DayOf(at)
			find := func(c *digest.Calendar) (month, whole digest.Sum) {
				for _, m := range c.Months() {
					if m.Month == day.Month() {
						month = m.Sum
					}
				}
				for _, d := range c.Days(day.Month()) {
					if d.Day == day {
						whole = d.Sum
					}
				}
				return month, whole
			}
			ma, da := find(a)
			mb, db := find(b)
			check("month", ma, mb, func(_ [16]byte, t int64) bool { return digest.DayOf(t).Month() == day.Month() })
			check("day", da, db, func(_ [16]byte, t int64) bool { return digest.DayOf(t) == day })
			for part := range 256 {
				find := func(c *digest.Calendar) (s digest.Sum) {
					for _, p := range c.Parts(day) {
						if int(p.Part) == part {
							s = p.Sum
						}
					}
					return s
				}
				check("part", find(a), find(b), func(m [16]byte, t int64) bool { return digest.DayOf(t) == day && int(m[0]) == part })
			}
		}
	})
}

func TestPagesListEveryMemberOnceInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stamps := map[[16]byte]int64{}
		c := fill(stamps, drawMembers(t, "members"))
		limit := rapid.IntRange(1, 5).Draw(t, "limit")
		for _, at := range stamps {
			day := digest.DayOf(at)
			part := rapid.SampledFrom([]int{digest.WholeDay, 0, 1, 127, 254, 255}).Draw(t, "part")
			var got [][16]byte
			for after := (*[16]byte)(nil); ; after = &got[len(got)-1] {
				page := c.IDs(day, part, after, limit)
				if len(page) > limit {
					t.Fatalf("page of %d, limit %d", len(page), limit)
				}
				if got = append(got, page...); len(page) < limit {
					break
				}
			}
			var want [][16]byte
			for m, at := range stamps {
				if digest.DayOf(at) == day && (part == digest.WholeDay || int(m[0]) == part) {
					want = append(want, m)
				}
			}
			slices.SortFunc(want, func(x, y [16]byte) int { return slices.Compare(x[:], y[:]) })
			if !slices.Equal(got, want) {
				t.Fatalf("day %d part %d: got %x, want %x", day, part, got, want)
			}
		}
	})
}

func TestRemovingUndoesAdding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stamps := map[[16]byte]int64{}
		a := fill(stamps, drawMembers(t, "stay"))
		before, months, n := a.Root(), a.Months(), a.Len()
		var came [][16]byte
		for _, m := range drawMembers(t, "come and go") {
			if _, there := stamps[m.id]; !there && a.Add(m.t, m.id) {
				came = append(came, m.id)
			}
		}
		for _, m := range came {
			if !a.Remove(m) || a.Remove(m) {
				t.Fatalf("%x: want removed once", m)
			}
		}
		if a.Root() != before || a.Len() != n || !slices.Equal(a.Months(), months) {
			t.Fatalf("after coming and going: %v %v, before: %v %v", a.Root(), a.Months(), before, months)
		}
		for _, m := range a.Months() {
			for _, d := range a.Days(m.Month) {
				if d.Sum.Count == 0 {
					t.Fatalf("day %d is listed and empty", d.Day)
				}
			}
		}
	})
}

func BenchmarkAdd20000OnOneDay(b *testing.B) {
	for b.Loop() {
		var c digest.Calendar
		for i := range 20_000 {
			c.Add(int64(i), id(byte(i*7), byte(i), byte(i>>8)))
		}
		c.Parts(0)
	}
}
