//go:build !386 && !arm && !mips && !mipsle

package store

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/dgraph-io/badger/v4"

	"trayside/sync/digest"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

func sealed(t *testing.T, ent string) oplog.Sealed {
	t.Helper()
	o, err := oplog.Seal(oplog.Op{V: 1, T: 1, Dev: "d", Ent: ent})
	if err != nil {
		t.Fatal(err)
	}
	return o
}

func openAt(t *testing.T, dir string) *Badger {
	t.Helper()
	b, err := Open(dir, Options{})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestADamagedOperationIsNotServedAndAGoodCopyMendsIt(t *testing.T) {
	b := openAt(t, t.TempDir())
	defer b.Close()
	home := oplog.Hash([]byte("home"))
	good, other := sealed(t, "look/1"), sealed(t, "look/2")
	if _, err := b.Log(home).Put([]oplog.Sealed{good, other}); err != nil {
		t.Fatal(err)
	}
	err := b.update(func(txn *badger.Txn) error {
		return txn.Set(keyOp(home, good.ID), append(number(1), `{"v":1,"t":1,"ent":"look/9"}`...))
	})
	if err != nil {
		t.Fatal(err)
	}
	served := func() (ops, arrivals int) {
		err := b.Log(home).View(func(s exchange.Snapshot) error {
			list, err := s.Ops([]oplog.ID{good.ID, other.ID})
			if err != nil {
				return err
			}
			all, err := s.Since(0, 10)
			ops, arrivals = len(list), len(all)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		return ops, arrivals
	}
	if ops, arrivals := served(); ops != 1 || arrivals != 1 {
		t.Errorf("%d operations and %d arrivals served, want only the undamaged one", ops, arrivals)
	}
	results, err := b.Log(home).Put([]oplog.Sealed{good})
	if err != nil || results[0].Code != exchange.Dup {
		t.Errorf("a phone brings it again: %v, %v; want dup", results, err)
	}
	if ops, arrivals := served(); ops != 2 || arrivals != 2 {
		t.Errorf("%d operations and %d arrivals served after mending, want 2", ops, arrivals)
	}
}

func TestADamagedArrivalRowDoesNotHideWhatArrivedLater(t *testing.T) {
	b := openAt(t, t.TempDir())
	defer b.Close()
	home := oplog.Hash([]byte("home"))
	first, later := sealed(t, "look/1"), sealed(t, "look/2")
	if _, err := b.Log(home).Put([]oplog.Sealed{first, later}); err != nil {
		t.Fatal(err)
	}
	if err := b.update(func(txn *badger.Txn) error { return txn.Set(keyArrival(home, 1), []byte("short")) }); err != nil {
		t.Fatal(err)
	}
	err := b.Log(home).View(func(s exchange.Snapshot) error {
		list, err := s.Since(0, 10)
		if len(list) != 1 || list[0].ID != later.ID {
			t.Errorf("news %+v, want the later operation", list)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestSumsThatDoNotFitAreMadeAnewAtOpening(t *testing.T) {
	home := oplog.Hash([]byte("home"))
	kept, lost := sealed(t, "look/1"), sealed(t, "look/2")
	root := digest.Of(kept.ID)
	tests := map[string]func(*badger.Txn) error{
		"a head row that counts what is not there": func(txn *badger.Txn) error {
			return writeHead(txn, home, digest.Of(kept.ID, lost.ID), 2)
		},
		"a month that counts what is not there": func(txn *badger.Txn) error {
			return setSum(txn, keyMonth(home, digest.Day(0).Month()), digest.Of(kept.ID, lost.ID))
		},
		"a part without any operation": func(txn *badger.Txn) error {
			return setSum(txn, append(keyParts(home, 77), 3), digest.Of(lost.ID))
		},
	}
	for name, spoil := range tests {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			b := openAt(t, dir)
			if _, err := b.Log(home).Put([]oplog.Sealed{kept}); err != nil {
				t.Fatal(err)
			}
			if err := b.update(spoil); err != nil {
				t.Fatal(err)
			}
			if err := b.Close(); err != nil {
				t.Fatal(err)
			}
			b = openAt(t, dir)
			defer b.Close()
			err := b.Log(home).View(func(s exchange.Snapshot) error {
				got, err := s.Root()
				if err != nil || got != root {
					t.Errorf("root %v, %v; want %v", got, err, root)
				}
				months, err := s.Months()
				if err != nil || len(months) != 1 || months[0].Sum != root {
					t.Errorf("months %v, %v; want one with %v", months, err, root)
				}
				parts, err := s.Parts(77)
				if err != nil || len(parts) != 0 {
					t.Errorf("parts %v, %v; want none", parts, err)
				}
				return nil
			})
			if err != nil {
				t.Fatal(err)
			}
			results, err := b.Log(home).Put([]oplog.Sealed{lost})
			if err != nil || results[0].Code != exchange.Stored {
				t.Errorf("what a phone brings back: %v, %v; want stored", results, err)
			}
		})
	}
}

func TestAPanicOfTheDatabaseIsAnError(t *testing.T) {
	err := guard(func() error {
		var block *badger.Item
		_, err := block.ValueCopy(nil)
		return err
	})
	if err == nil {
		t.Error("no error from a read that panics")
	}
}

// TestAKillThatLeavesAnEmptyFileDoesNotKeepTheStoreShut: the database makes each
// file of its logs before it gives it a size, and empties it before removing it;
// a kill in between leaves a file of no bytes, which it then refuses to open.
func TestAKillThatLeavesAnEmptyFileDoesNotKeepTheStoreShut(t *testing.T) {
	for name, files := range map[string][]string{
		"a log of the memory table":                {"00001.mem"},
		"a log of values":                          {"000007.vlog"},
		"one of each, and a second of either kind": {"00001.mem", "00009.mem", "000001.vlog", "000007.vlog"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			home, kept := oplog.Hash([]byte("home")), sealed(t, "look/1")
			b := openAt(t, dir)
			if _, err := b.Log(home).Put([]oplog.Sealed{kept}); err != nil {
				t.Fatal(err)
			}
			if err := b.Close(); err != nil {
				t.Fatal(err)
			}
			for _, file := range files {
				if err := os.WriteFile(filepath.Join(dir, file), nil, 0o600); err != nil {
					t.Fatal(err)
				}
			}
			// Twice, because opening must not leave another such file behind.
			for range 2 {
				b = openAt(t, dir)
				results, err := b.Log(home).Put([]oplog.Sealed{kept})
				if err != nil || results[0].Code != exchange.Dup {
					t.Errorf("what was kept before: %v, %v; want dup", results, err)
				}
				if err := b.Close(); err != nil {
					t.Fatal(err)
				}
			}
		})
	}
}
