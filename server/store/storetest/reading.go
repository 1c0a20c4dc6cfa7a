// What a store says of what it holds: snapshots, arrivals, sums, ids and operations.

package storetest

import (
	"bytes"
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"trayside/server"
	"trayside/sync/digest"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

func snapshots(t *testing.T, s server.Store) {
	log := s.Log(home)
	put(t, log, ops(t, 3)...)
	wrote := make(chan struct{})
	view(t, log, func(snap exchange.Snapshot) {
		before, err := snap.Root()
		ok(t, err)
		go func() { // a store may make it wait until the view is over
			defer close(wrote)
			if _, err := log.Put([]oplog.Sealed{op(t, 99, 7)}); err != nil {
				t.Errorf("put: %v", err)
			}
		}()
		for range 50 {
			now, err := snap.Root()
			ok(t, err)
			head, err := snap.Head()
			ok(t, err)
			all, err := snap.Since(0, 10)
			ok(t, err)
			if now != before || head.N != 3 || len(all) != 3 {
				t.Fatalf("root %v, head %d, %d arrivals inside one view; want %v, 3, 3", now, head.N, len(all), before)
			}
		}
	})
	<-wrote
	if got := root(t, log); got.Count != 4 {
		t.Errorf("%d operations afterwards, want 4", got.Count)
	}
}

func tellsArrivals(t *testing.T, s server.Store) {
	log, list := s.Log(home), ops(t, 10)
	slices.Reverse(list) // arrival is not the order of stamps
	for _, o := range list {
		put(t, log, o)
	}
	view(t, log, func(snap exchange.Snapshot) {
		head, err := snap.Head()
		if ok(t, err); head.Inst == "" {
			t.Error("the head names no instance")
		}
		var got []oplog.ID
		var last uint64
		for {
			page, err := snap.Since(last, 3)
			ok(t, err)
			if len(page) > 3 {
				t.Fatalf("a page of %d, want at most 3", len(page))
			}
			if len(page) == 0 {
				break
			}
			for _, a := range page {
				if a.N <= last {
					t.Fatalf("number %d after %d", a.N, last)
				}
				if oplog.Hash(a.Bytes) != a.ID {
					t.Errorf("%v has other bytes", a.ID)
				}
				last = a.N
				got = append(got, a.ID)
			}
		}
		if last != head.N {
			t.Errorf("the last number is %d, the head says %d", last, head.N)
		}
		for i, o := range list {
			if got[i] != o.ID {
				t.Fatalf("arrival %d is %v, want %v", i, got[i], o.ID)
			}
		}
		beyond, err := snap.Since(head.N+7, 3)
		if ok(t, err); len(beyond) != 0 {
			t.Errorf("%d arrivals beyond the head", len(beyond))
		}
	})
}

func tellsIDs(t *testing.T, s server.Store) {
	const day = 20000
	log := s.Log(home)
	var inDay []oplog.ID
	for i := range 600 { // 600 over 256 parts: some parts have several
		o := op(t, i, day*dayMS+int64(i))
		inDay = append(inDay, o.ID)
		put(t, log, o)
	}
	put(t, log, op(t, 1000, (day+1)*dayMS), op(t, 1001, day*dayMS-1))
	slices.SortFunc(inDay, oplog.ID.Compare)
	view(t, log, func(snap exchange.Snapshot) {
		var got []oplog.ID
		var after *oplog.ID
		for {
			page, err := snap.IDs(day, digest.WholeDay, after, 64)
			ok(t, err)
			if len(page) == 0 {
				break
			}
			got = append(got, page...)
			after = &page[len(page)-1]
		}
		if !slices.Equal(got, inDay) {
			t.Errorf("the pages of a day have %d ids, want its %d in order", len(got), len(inDay))
		}
		for part := range 256 {
			var want []oplog.ID
			for _, id := range inDay {
				if int(digest.PartOf(id)) == part {
					want = append(want, id)
				}
			}
			all, err := snap.IDs(day, part, nil, 1000)
			if ok(t, err); !slices.Equal(all, want) {
				t.Errorf("part %d: %d ids, want %d", part, len(all), len(want))
			}
			if len(want) > 1 {
				rest, err := snap.IDs(day, part, &want[0], 1000)
				if ok(t, err); !slices.Equal(rest, want[1:]) {
					t.Errorf("part %d above its first: %d ids, want %d", part, len(rest), len(want)-1)
				}
			}
			below, above := oplog.ID{}, oplog.ID(bytes.Repeat([]byte{255}, 16))
			all, err = snap.IDs(day, part, &below, 1000)
			if ok(t, err); !slices.Equal(all, want) && part > 0 {
				t.Errorf("part %d above an id before it: %d ids, want %d", part, len(all), len(want))
			}
			all, err = snap.IDs(day, part, &above, 1000)
			if ok(t, err); len(all) != 0 {
				t.Errorf("part %d above the last id there can be: %d ids", part, len(all))
			}
		}
	})
}

// agreesWithCalendar draws operations that crowd a few days around the ends of
// months and compares every level.
func agreesWithCalendar(t *testing.T, s server.Store) {
	round := 0
	rapid.Check(t, func(rt *rapid.T) {
		round++
		mine := oplog.Hash(fmt.Appendf(nil, "home %d", round))
		log := s.Log(mine)
		var calendar digest.Calendar
		days := []int64{0, 30, 31, 20392, 20393, 20423}
		for range rapid.IntRange(1, 3).Draw(rt, "batches") {
			var batch []oplog.Sealed
			seen := map[oplog.ID]bool{}
			for range rapid.IntRange(1, 20).Draw(rt, "size") {
				o := op(t, rapid.IntRange(0, 30).Draw(rt, "n"), rapid.SampledFrom(days).Draw(rt, "day")*dayMS)
				if !seen[o.ID] {
					batch = append(batch, o)
				}
				seen[o.ID] = true
			}
			codes := put(t, log, batch...)
			for i, o := range batch {
				want := exchange.Dup
				if calendar.Add(o.Op.T, o.ID) {
					want = exchange.Stored
				}
				if codes[i] != want {
					rt.Fatalf("%v: %s, want %s", o.ID, codes[i], want)
				}
			}
		}
		view(t, log, func(snap exchange.Snapshot) { compare(t, rt, snap, &calendar) })
	})
}

func compare(t testing.TB, rt *rapid.T, snap exchange.Snapshot, c *digest.Calendar) {
	sum, err := snap.Root()
	if ok(t, err); sum != c.Root() {
		rt.Fatalf("root %v, want %v", sum, c.Root())
	}
	months, err := snap.Months()
	if ok(t, err); !slices.Equal(months, c.Months()) {
		rt.Fatalf("months %v, want %v", months, c.Months())
	}
	for _, m := range months {
		days, err := snap.Days(m.Month)
		if ok(t, err); !slices.Equal(days, c.Days(m.Month)) {
			rt.Fatalf("days of %v: %v, want %v", m.Month, days, c.Days(m.Month))
		}
		for _, d := range days {
			parts, err := snap.Parts(d.Day)
			if ok(t, err); !slices.Equal(parts, c.Parts(d.Day)) {
				rt.Fatalf("parts of day %d: %v, want %v", d.Day, parts, c.Parts(d.Day))
			}
		}
	}
}

func givesOps(t *testing.T, s server.Store) {
	list := ops(t, 3)
	put(t, s.Log(home), list...)
	view(t, s.Log(home), func(snap exchange.Snapshot) {
		got, err := snap.Ops([]oplog.ID{list[2].ID, oplog.Hash([]byte("none")), list[0].ID})
		ok(t, err)
		if len(got) != 2 || !bytes.Equal(got[0], list[2].Bytes) || !bytes.Equal(got[1], list[0].Bytes) {
			t.Errorf("%q, want the third and the first", got)
		}
	})
}
