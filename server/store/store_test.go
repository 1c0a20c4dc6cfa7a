//go:build !386 && !arm && !mips && !mipsle

package store_test

import (
	"errors"
	"testing"

	"trayside/server"
	"trayside/server/store"
	"trayside/server/store/storetest"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

func TestMemoryIsAStore(t *testing.T) {
	storetest.Run(t, func(testing.TB) server.Store { return store.NewMemory() }, nil)
}

// onDisk remembers where it lies, so that it can be opened again.
type onDisk struct {
	*store.Badger
	dir string
}

func open(t testing.TB, dir string) server.Store {
	t.Helper()
	b, err := store.Open(dir, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return onDisk{b, dir}
}

func TestBadgerIsAStore(t *testing.T) {
	storetest.Run(t, func(t testing.TB) server.Store { return open(t, t.TempDir()) },
		func(t testing.TB, s server.Store) server.Store {
			if err := s.Close(); err != nil {
				t.Fatal(err)
			}
			return open(t, s.(onDisk).dir)
		})
}

func TestANearlyFullDiskTakesNothingInAndRecovers(t *testing.T) {
	free := uint64(store.MinFree - 1)
	b, err := store.Open(t.TempDir(), store.Options{Free: func() (uint64, error) { return free, nil }})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	home := oplog.Hash([]byte("home"))
	o, err := oplog.Seal(oplog.Op{V: 1, T: 1, Dev: "d", Ent: "look/1"})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := b.Log(home).Put([]oplog.Sealed{o}); !errors.Is(err, store.ErrFull) {
		t.Errorf("put: %v, want ErrFull", err)
	}
	free = store.MinFree
	results, err := b.Log(home).Put([]oplog.Sealed{o})
	if err != nil || results[0].Code != exchange.Stored {
		t.Errorf("with room again: %v, %v; want stored: the first try must have left nothing", results, err)
	}
}

func TestASecondProcessIsToldThatTheFolderIsInUse(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	defer s.Close()
	if _, err := store.Open(dir, store.Options{}); !store.IsLocked(err) {
		t.Errorf("open twice: %v, want a lock error", err)
	}
	if _, err := store.Open("/dev/null/no", store.Options{}); err == nil || store.IsLocked(err) {
		t.Errorf("a folder that cannot be made: %v, want another error", err)
	}
}
