package replica_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"testing"

	"pgregory.net/rapid"
	"trayside/sync/oplog"
	"trayside/sync/replica"
)

// schema knows two kinds; "grams" is a whole number, "note" a text.
type schema struct{}

func (schema) Known(kind string) bool { return kind == "feeding" || kind == "tray" }

func (schema) Check(kind, field string, value json.RawMessage) error {
	switch field {
	case "grams":
		if _, err := strconv.Atoi(string(value)); err != nil {
			return errors.New("must be whole grams; weigh again")
		}
		return nil
	case "note":
		var s string
		return json.Unmarshal(value, &s)
	}
	return replica.ErrUnknown
}

func seal(t testing.TB, op oplog.Op) oplog.Sealed {
	t.Helper()
	if op.V == 0 {
		op.V = 1
	}
	if op.Dev == "" {
		op.Dev = "d1"
	}
	s, err := oplog.Seal(op)
	if err != nil {
		t.Fatalf("seal %+v: %v", op, err)
	}
	return s
}

func set(pairs ...string) map[string]json.RawMessage {
	m := map[string]json.RawMessage{}
	for i := 0; i < len(pairs); i += 2 {
		m[pairs[i]] = json.RawMessage(pairs[i+1])
	}
	return m
}

func ptr[T any](v T) *T { return &v }

func fold(ops ...oplog.Sealed) *replica.Replica {
	r := replica.New(schema{})
	for _, op := range ops {
		r.Add(op)
	}
	return r
}

// drawOps draws operations that meet: few entities, few stamps, few values,
// some bad, some from a later program.
func drawOps(t *rapid.T, label string) []oplog.Sealed {
	return rapid.SliceOfN(rapid.Custom(func(rt *rapid.T) oplog.Sealed {
		op := oplog.Op{
			V:   rapid.SampledFrom([]int{1, 1, 1, 1, 2}).Draw(rt, "v"),
			T:   rapid.SampledFrom([]int64{0, 5, 5, 6, 1 << 40, oplog.MaxStamp}).Draw(rt, "t"),
			By:  rapid.SampledFrom([]string{"", "m1", "m2"}).Draw(rt, "by"),
			Dev: rapid.SampledFrom([]string{"d1", "d2"}).Draw(rt, "dev"),
			Ent: rapid.SampledFrom([]string{"feeding/1", "feeding/2", "tray/1", "balcony/1"}).Draw(rt, "ent"),
			At:  rapid.SampledFrom([]string{"", "", "2026-11-25T07:40:00+01:00", "2026-11-26T07:40:00Z", "soon"}).Draw(rt, "at"),
			Day: rapid.SampledFrom([]string{"", "", "2026-11-25", "2026-11-31"}).Draw(rt, "day"),
		}
		op.Set = set()
		for _, f := range rapid.SliceOfNDistinct(rapid.SampledFrom([]string{"grams", "note", "pH"}), 0, 2, rapid.ID).Draw(rt, "fields") {
			op.Set[f] = json.RawMessage(rapid.SampledFrom([]string{"1", "2", `"x"`, "null"}).Draw(rt, "value"))
		}
		op.Gone = rapid.SampledFrom([]*bool{nil, nil, ptr(true), ptr(false)}).Draw(rt, "gone")
		s, err := oplog.Seal(op)
		if err != nil {
			rt.Fatalf("seal: %v", err)
		}
		return s
	}), 0, 40).Draw(t, label)
}

// distinct keeps each operation once.
func distinct(ops []oplog.Sealed) []oplog.Sealed {
	seen := map[oplog.ID]bool{}
	return slices.DeleteFunc(slices.Clone(ops), func(s oplog.Sealed) bool {
		twice := seen[s.ID]
		seen[s.ID] = true
		return twice
	})
}

// say renders everything a replica says, through its doors only.
func say(r *replica.Replica) string {
	out := fmt.Sprintf("%d operations, %d unread, %v\n", r.Len(), r.Unread(), r.Asides())
	for _, kind := range r.Kinds() {
		for e := range r.Entities(kind) {
			gone, ok := e.Gone()
			out += fmt.Sprintf("%s gone=%v %s %v at=%q day=%q newest=%d first=%s last=%s\n",
				e.Ent, e.IsGone(), gone.Value, ok, e.At(), e.Day(), e.Newest(), e.First().ID, e.Last().ID)
			for name, reg := range e.Fields() {
				out += fmt.Sprintf("  %s=%s t=%d by=%s dev=%s of %d\n", name, reg.Value, reg.T, reg.By, reg.Dev, len(e.Writes(name)))
			}
		}
	}
	return out
}
