package replica_test

import (
	"bytes"
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"
	"trayside/sync/oplog"
	"trayside/sync/replica"
)

// A restored replica says the same and goes on as the first one would.
func TestRestoredIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := fold(drawOps(t, "before")...)
		b := r.Snapshot()
		again, err := replica.Restore(bytes.Clone(b), schema{})
		if err != nil {
			t.Fatal(err)
		}
		if got, want := say(again), say(r); got != want {
			t.Fatalf("restored:\n%s\nwas:\n%s", got, want)
		}
		for _, s := range drawOps(t, "after") {
			if r.Add(s) != again.Add(s) {
				t.Fatalf("%s: new to one of the two only", s.ID)
			}
		}
		if got, want := say(again), say(r); got != want {
			t.Fatalf("restored and gone on:\n%s\nfirst:\n%s", got, want)
		}
		if !bytes.Equal(again.Snapshot(), r.Snapshot()) {
			t.Fatal("snapshots differ after going on")
		}
		for m := range r.Ops() {
			if other, ok := again.Mark(m.ID); !ok || other.T != m.T || other.Ent() != m.Ent() || !again.Remove(m.ID) {
				t.Fatalf("%s is not in the restored one", m.ID)
			}
		}
		if again.Len() != 0 || len(again.Kinds()) != 0 {
			t.Fatalf("emptied, and %d operations of %v are left", again.Len(), again.Kinds())
		}
	})
}

func TestDamagedSnapshotIsRefused(t *testing.T) {
	b := fold(
		seal(t, oplog.Op{T: 10, Ent: "feeding/1", Day: "2026-11-20", Set: set("grams", "300", "note", `5`)}),
		seal(t, oplog.Op{T: 20, Ent: "tray/1", Gone: ptr(true)}),
	).Snapshot()
	for n := range b {
		if _, err := replica.Restore(b[:n:n], schema{}); err == nil {
			t.Errorf("cut to %d of %d bytes: restored", n, len(b))
		}
		for bit := range 8 {
			flipped := slices.Clone(b)
			flipped[n] ^= 1 << bit
			if _, err := replica.Restore(flipped, schema{}); err == nil {
				t.Errorf("bit %d of byte %d flipped: restored", bit, n)
			}
		}
	}
}

// household makes a log as a household writes it: mostly entries of their own,
// a few edits and removals.
func household(t testing.TB, n int) []oplog.Sealed {
	var ops []oplog.Sealed
	for i := range n {
		op := oplog.Op{
			T: 1764057600000 + int64(i)*3_600_000, By: fmt.Sprintf("%032x", i%3), Dev: fmt.Sprintf("%032x", i%4),
			At: "2026-11-25T07:40:00+01:00", Day: "2026-11-25", Ent: fmt.Sprintf("feeding/%032x", i*7919%n),
			Set: set("grams", fmt.Sprint(100+i%400), "note", `"peel and coffee, top left"`, "tray", fmt.Sprintf(`"tray/%032x"`, i%5), "by", `"scale"`),
		}
		if i%20 == 19 {
			op.Ent, op.Set, op.At, op.Day = fmt.Sprintf("feeding/%032x", (i-1)*7919%n), set("grams", "5"), "", ""
		}
		ops = append(ops, seal(t, op))
	}
	return ops
}

func BenchmarkFold20000(b *testing.B) {
	ops := household(b, 20_000)
	for b.Loop() {
		fold(ops...)
	}
}

func BenchmarkOpenAndFold20000(b *testing.B) {
	ops := household(b, 20_000)
	for b.Loop() {
		r := replica.New(schema{})
		for _, op := range ops {
			s, err := oplog.Open(op.Bytes)
			if err != nil {
				b.Fatal(err)
			}
			r.Add(s)
		}
	}
}

func BenchmarkSnapshot20000(b *testing.B) {
	r := fold(household(b, 20_000)...)
	for b.Loop() {
		b.SetBytes(int64(len(r.Snapshot())))
	}
}

func BenchmarkRestore20000(b *testing.B) {
	shot := fold(household(b, 20_000)...).Snapshot()
	b.SetBytes(int64(len(shot)))
	for b.Loop() {
		if _, err := replica.Restore(shot, schema{}); err != nil {
			b.Fatal(err)
		}
	}
}
