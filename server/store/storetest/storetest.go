// Package storetest says what every store must do. A store passes if Run does;
// a new one needs nothing else to be tested.
package storetest

import (
	"errors"
	"fmt"
	"slices"
	"sync"
	"testing"

	"trayside/server"
	"trayside/server/store"
	"trayside/sync/digest"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

// dayMS is one day of stamps.
const dayMS = 24 * 60 * 60 * 1000

// Run runs the suite. open makes an empty store for one test; reopen, nil for a
// store that forgets, closes a store and opens what it kept.
func Run(t *testing.T, open func(testing.TB) server.Store, reopen func(testing.TB, server.Store) server.Store) {
	tests := map[string]func(*testing.T, server.Store){
		"an operation is stored once, however often it comes":  storesOnce,
		"a batch beyond one transaction is stored whole":       storesLargeBatches,
		"the same batch from many writers is stored once":      storesOnceInParallel,
		"households do not see each other":                     keepsHouseholdsApart,
		"a snapshot does not show what is written meanwhile":   snapshots,
		"arrivals are told in order and page by page":          tellsArrivals,
		"ids are told by day and part, above a given one":      tellsIDs,
		"roster texts and invites are kept under their ids":    keepsRosterAndInvites,
		"a closed store says so":                               saysClosed,
		"sums agree with a calendar of the same operations":    agreesWithCalendar,
		"any ids are given, in the order asked, unknown apart": givesOps,
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			s := open(t)
			t.Cleanup(func() {
				if err := s.Close(); err != nil {
					t.Errorf("close: %v", err)
				}
			})
			test(t, s)
		})
	}
	if reopen != nil {
		t.Run("everything is there after a restart", func(t *testing.T) { survives(t, open(t), reopen) })
	}
}

var home = oplog.Hash([]byte("home"))

// op makes the nth operation with stamp t.
func op(t testing.TB, n int, stamp int64) oplog.Sealed {
	t.Helper()
	s, err := oplog.Seal(oplog.Op{V: 1, T: stamp, By: "member/1", Dev: "d", Ent: fmt.Sprintf("look/%d", n)})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func ops(t testing.TB, n int) []oplog.Sealed {
	list := make([]oplog.Sealed, n)
	for i := range list {
		list[i] = op(t, i, int64(i)*dayMS/8)
	}
	return list
}

// put puts and returns the codes.
func put(t testing.TB, log exchange.Log, list ...oplog.Sealed) []string {
	t.Helper()
	results, err := log.Put(list)
	if err != nil {
		t.Fatalf("put: %v", err)
	}
	if len(results) != len(list) {
		t.Fatalf("%d results for %d operations", len(results), len(list))
	}
	codes := make([]string, len(results))
	for i, r := range results {
		if r.ID != list[i].ID {
			t.Fatalf("result %d is of %v, want %v", i, r.ID, list[i].ID)
		}
		codes[i] = r.Code
	}
	return codes
}

func view(t testing.TB, log exchange.Log, f func(exchange.Snapshot)) {
	t.Helper()
	if err := log.View(func(s exchange.Snapshot) error { f(s); return nil }); err != nil {
		t.Fatalf("view: %v", err)
	}
}

// ok ends the test with an error of a call that cannot fail here.
func ok(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func root(t testing.TB, log exchange.Log) (sum digest.Sum) {
	t.Helper()
	view(t, log, func(s exchange.Snapshot) {
		var err error
		sum, err = s.Root()
		ok(t, err)
	})
	return sum
}

func sumOf(list []oplog.Sealed) (sum digest.Sum) {
	for _, o := range list {
		sum = sum.Add(o.ID)
	}
	return sum
}

func storesOnce(t *testing.T, s server.Store) {
	log, o := s.Log(home), op(t, 1, 5)
	if got := put(t, log, o); got[0] != exchange.Stored {
		t.Errorf("first time: %s, want stored", got[0])
	}
	if got := put(t, log, o); got[0] != exchange.Dup {
		t.Errorf("second time: %s, want dup", got[0])
	}
	if got := put(t, log, op(t, 2, 5), o, op(t, 3, 5)); !slices.Equal(got, []string{exchange.Stored, exchange.Dup, exchange.Stored}) {
		t.Errorf("among others: %v", got)
	}
	if got := root(t, log); got.Count != 3 {
		t.Errorf("%d operations, want 3", got.Count)
	}
	homes, err := s.Homes()
	if ok(t, err); !slices.Equal(homes, []oplog.ID{home}) {
		t.Errorf("homes %v, want one", homes)
	}
}

func storesLargeBatches(t *testing.T, s server.Store) {
	list := ops(t, 700)
	put(t, s.Log(home), list...)
	if got, want := root(t, s.Log(home)), sumOf(list); got != want {
		t.Errorf("root %v, want %v", got, want)
	}
}

func storesOnceInParallel(t *testing.T, s server.Store) {
	list := ops(t, 40)
	var mu sync.Mutex
	stored := map[oplog.ID]int{}
	var wg sync.WaitGroup
	for range 6 {
		wg.Go(func() {
			results, err := s.Log(home).Put(list)
			if err != nil {
				t.Errorf("put: %v", err)
			}
			mu.Lock()
			defer mu.Unlock()
			for _, r := range results {
				if r.Code == exchange.Stored {
					stored[r.ID]++
				}
			}
		})
	}
	wg.Wait()
	for _, o := range list {
		if stored[o.ID] != 1 {
			t.Errorf("%v was stored %d times", o.ID, stored[o.ID])
		}
	}
	if got, want := root(t, s.Log(home)), sumOf(list); got != want {
		t.Errorf("root %v, want %v", got, want)
	}
	view(t, s.Log(home), func(snap exchange.Snapshot) {
		all, err := snap.Since(0, 100)
		if ok(t, err); len(all) != len(list) {
			t.Errorf("%d arrivals, want %d", len(all), len(list))
		}
	})
}

func keepsHouseholdsApart(t *testing.T, s server.Store) {
	other := oplog.Hash([]byte("other"))
	shared, own := op(t, 1, 5), op(t, 2, 5)
	put(t, s.Log(home), shared, own)
	if got := put(t, s.Log(other), shared); got[0] != exchange.Stored {
		t.Errorf("the same operation in another household: %s, want stored", got[0])
	}
	view(t, s.Log(other), func(snap exchange.Snapshot) {
		list, err := snap.Ops([]oplog.ID{shared.ID, own.ID})
		if ok(t, err); len(list) != 1 {
			t.Errorf("%d operations of two, want the one it has", len(list))
		}
		all, err := snap.Since(0, 10)
		if ok(t, err); len(all) != 1 {
			t.Errorf("%d arrivals, want 1", len(all))
		}
	})
	if got := root(t, s.Log(other)); got != sumOf([]oplog.Sealed{shared}) {
		t.Errorf("root %v is not that of its one operation", got)
	}
}

func keepsRosterAndInvites(t *testing.T, s server.Store) {
	a, b := oplog.Hash([]byte("a")), oplog.Hash([]byte("b"))
	if err := s.PutRoster(home, map[oplog.ID]string{a: "text a", b: "text b"}); err != nil {
		t.Fatal(err)
	}
	if err := s.PutRoster(home, map[oplog.ID]string{a: "text a"}); err != nil {
		t.Fatal(err)
	}
	texts, err := s.Roster(home)
	ok(t, err)
	slices.Sort(texts)
	if !slices.Equal(texts, []string{"text a", "text b"}) {
		t.Errorf("roster %q", texts)
	}
	for _, row := range []string{"first", "second"} {
		if err := s.PutInvite(home, a, []byte(row)); err != nil {
			t.Fatal(err)
		}
	}
	rows, err := s.Invites(home)
	if ok(t, err); len(rows) != 1 || string(rows[a]) != "second" {
		t.Errorf("invites %q, want the second row alone", rows)
	}
	homes, err := s.Homes()
	if ok(t, err); !slices.Equal(homes, []oplog.ID{home}) {
		t.Errorf("homes %v: a roster makes a household", homes)
	}
	if got := root(t, s.Log(home)); got != (digest.Sum{}) {
		t.Errorf("the log has root %v, want that of nothing", got)
	}
}

func saysClosed(t *testing.T, s server.Store) {
	log := s.Log(home)
	put(t, log, op(t, 1, 5))
	if err := s.Ready(); err != nil {
		t.Errorf("ready: %v", err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if err := s.Ready(); !errors.Is(err, store.ErrClosed) {
		t.Errorf("ready: %v, want ErrClosed", err)
	}
	if _, err := log.Put([]oplog.Sealed{op(t, 2, 5)}); !errors.Is(err, store.ErrClosed) {
		t.Errorf("put: %v, want ErrClosed", err)
	}
	if err := log.View(func(exchange.Snapshot) error { return nil }); !errors.Is(err, store.ErrClosed) {
		t.Errorf("view: %v, want ErrClosed", err)
	}
}

func survives(t *testing.T, s server.Store, reopen func(testing.TB, server.Store) server.Store) {
	list := ops(t, 300)
	put(t, s.Log(home), list...)
	if err := s.PutRoster(home, map[oplog.ID]string{home: "text"}); err != nil {
		t.Fatal(err)
	}
	if err := s.PutInvite(home, home, []byte("row")); err != nil {
		t.Fatal(err)
	}
	var before, after exchange.Hint
	view(t, s.Log(home), func(snap exchange.Snapshot) { before, _ = snap.Head() })
	s = reopen(t, s)
	t.Cleanup(func() { s.Close() })
	view(t, s.Log(home), func(snap exchange.Snapshot) {
		after, _ = snap.Head()
		all, err := snap.Since(0, 1000)
		if ok(t, err); len(all) != len(list) {
			t.Errorf("%d operations, want %d", len(all), len(list))
		}
	})
	if before != after || after.N == 0 {
		t.Errorf("head %v, want %v as before", after, before)
	}
	if got, want := root(t, s.Log(home)), sumOf(list); got != want {
		t.Errorf("root %v, want %v", got, want)
	}
	if got := put(t, s.Log(home), list[7], op(t, 9999, 3)); !slices.Equal(got, []string{exchange.Dup, exchange.Stored}) {
		t.Errorf("put again: %v, want dup, stored", got)
	}
	texts, err := s.Roster(home)
	if ok(t, err); !slices.Equal(texts, []string{"text"}) {
		t.Errorf("roster %q", texts)
	}
	rows, err := s.Invites(home)
	if ok(t, err); string(rows[home]) != "row" {
		t.Errorf("invites %q", rows)
	}
}
