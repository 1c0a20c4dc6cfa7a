//go:build !386 && !arm && !mips && !mipsle

package store

import (
	"crypto/rand"
	"errors"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"strconv"
	"sync"

	"github.com/dgraph-io/badger/v4"
	"github.com/dgraph-io/badger/v4/options"

	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

// Badger is the store on disk. It is safe for concurrent use.
type Badger struct {
	db   *badger.DB
	inst string
	log  *slog.Logger
	free func() (uint64, error)

	mu     sync.Mutex
	pens   map[oplog.ID]*sync.Mutex // one writer per household
	closed bool
}

// Options of Open; the zero value is good.
type Options struct {
	Log  *slog.Logger
	Free func() (uint64, error) // disk space left in bytes; nil asks the system
}

// Open opens the database in dir and makes one if there is none. Only one
// process can have it open; IsLocked tells that error from others.
func Open(dir string, o Options) (*Badger, error) {
	// The table builder of Badger v4.9.6 shifts an int by 32 bits and so loses
	// rows silently where an int has only 32 (measured on GOARCH=386). The build
	// constraint names the 32-bit machines known today, this check the others.
	if strconv.IntSize != 64 {
		return nil, errors.New("store: the database loses data on 32-bit machines; use a 64-bit system")
	}
	if o.Log == nil {
		o.Log = slog.New(slog.DiscardHandler)
	}
	if o.Free == nil {
		o.Free = func() (uint64, error) { return freeSpace(dir) }
	}
	db, err := openPastEmptyFiles(dir, o.Log)
	if err != nil {
		return nil, fmt.Errorf("store: open %s: %w", dir, err)
	}
	b := &Badger{db: db, log: o.Log, free: o.Free, pens: map[oplog.ID]*sync.Mutex{}}
	if err := b.begin(); err != nil {
		db.Close()
		return nil, err
	}
	return b, nil
}

// openPastEmptyFiles opens the database though a kill left files of its logs
// without a byte. Badger makes such a file before it gives it a size, and empties
// it before removing it; finding one, it gives it a size and a header, and then
// refuses to open all the same ("Create a new file"; dgraph-io/badger, issue
// 2207, open in v4.9.6). What it refused is a sound empty log the next time, so
// Open is asked again for as long as there are fewer empty files than before.
// Nothing is deleted here, because another process may have the folder open.
func openPastEmptyFiles(dir string, log *slog.Logger) (*badger.DB, error) {
	for {
		before := emptyFiles(dir)
		db, err := badger.Open(settings(dir).WithLogger(quiet{log}))
		if err == nil || emptyFiles(dir) >= before {
			return db, err
		}
		log.Warn("a log file was empty, as after a kill; the database is opened again", "dir", dir)
	}
}

// emptyFiles counts the log files without a byte. What cannot be looked at
// counts as none: opening the database will say what is wrong with it.
func emptyFiles(dir string) (count int) {
	files, err := os.ReadDir(dir)
	if err != nil {
		return 0
	}
	for _, file := range files {
		if end := filepath.Ext(file.Name()); end != ".mem" && end != ".vlog" {
			continue
		}
		if info, err := file.Info(); err == nil && info.Size() == 0 {
			count++
		}
	}
	return count
}

// settings are for a small server with a few households of some ten thousand
// operations: little memory, every write synced, every block checked. Values
// stay in the tables (the threshold is left at its 1 MiB maximum), so the value
// log holds nothing and needs no collection. A memtable below 7 MiB is refused.
func settings(dir string) badger.Options {
	return badger.DefaultOptions(dir).
		WithSyncWrites(true).WithDetectConflicts(true).
		WithMemTableSize(8 << 20).WithNumMemtables(2).
		WithNumLevelZeroTables(2).WithNumLevelZeroTablesStall(4).WithNumCompactors(2).
		WithBlockCacheSize(8 << 20).WithIndexCacheSize(4 << 20).
		WithValueLogFileSize(16 << 20).
		WithChecksumVerificationMode(options.OnTableAndBlockRead).
		WithCompactL0OnClose(true).WithMetricsEnabled(false).WithNumGoroutines(2)
}

// begin reads or makes the instance and holds every household's sums against
// its operations.
func (b *Badger) begin() error {
	err := b.update(func(txn *badger.Txn) error {
		row, err := read(txn, keyInstance)
		if err != nil {
			return err
		}
		if row == nil {
			row = make([]byte, 16)
			rand.Read(row)
			if err := txn.Set(keyInstance, row); err != nil {
				return err
			}
		}
		b.inst = fmt.Sprintf("%x", row)
		return nil
	})
	if err != nil {
		return err
	}
	homes, err := b.Homes()
	if err != nil {
		return err
	}
	for _, home := range homes {
		if err := b.audit(home); err != nil {
			return err
		}
	}
	return nil
}

// Homes lists the households kept here.
func (b *Badger) Homes() (homes []oplog.ID, err error) {
	err = b.view(func(txn *badger.Txn) error {
		return scan(txn, []byte{rowHome}, nil, false, func(it *badger.Item) (bool, error) {
			homes = append(homes, lastID(it.Key()))
			return true, nil
		})
	})
	return homes, err
}

// Log is the log of one household, empty if nothing was put into it yet.
func (b *Badger) Log(home oplog.ID) exchange.Log { return &shelf{b, home} }

// PutRoster keeps signed roster texts under their ids.
func (b *Badger) PutRoster(home oplog.ID, texts map[oplog.ID]string) error {
	defer b.pen(home)()
	return b.update(func(txn *badger.Txn) error {
		if err := txn.Set(key(rowHome, home), nil); err != nil {
			return err
		}
		for id, text := range texts {
			if err := txn.Set(key(rowRoster, home, id[:]...), []byte(text)); err != nil {
				return err
			}
		}
		return nil
	})
}

// Roster lists the roster texts kept, by id. They are signed, so whoever opens
// them sees damage.
func (b *Badger) Roster(home oplog.ID) (texts []string, err error) {
	err = b.rows(rowRoster, home, func(_ oplog.ID, v []byte) { texts = append(texts, string(v)) })
	return texts, err
}

// PutInvite keeps an invite, or replaces it.
func (b *Badger) PutInvite(home, id oplog.ID, row []byte) error {
	defer b.pen(home)()
	return b.update(func(txn *badger.Txn) error { return txn.Set(key(rowInvite, home, id[:]...), row) })
}

// Invites are the invites kept.
func (b *Badger) Invites(home oplog.ID) (map[oplog.ID][]byte, error) {
	rows := map[oplog.ID][]byte{}
	err := b.rows(rowInvite, home, func(id oplog.ID, v []byte) { rows[id] = v })
	return rows, err
}

func (b *Badger) rows(row byte, home oplog.ID, f func(id oplog.ID, value []byte)) error {
	return b.view(func(txn *badger.Txn) error {
		return scan(txn, key(row, home), nil, true, func(it *badger.Item) (bool, error) {
			v, err := it.ValueCopy(nil)
			if err == nil {
				f(lastID(it.Key()), v)
			}
			return true, err
		})
	})
}

// Ready tells whether operations can be taken in: nil, ErrFull or ErrClosed.
func (b *Badger) Ready() error {
	b.mu.Lock()
	closed := b.closed
	b.mu.Unlock()
	if closed {
		return ErrClosed
	}
	free, err := b.free()
	if err != nil {
		return fmt.Errorf("store: ask for the disk space left: %w", err)
	}
	if free < MinFree {
		return ErrFull
	}
	return nil
}

// Close writes everything down and frees the folder.
func (b *Badger) Close() error {
	b.mu.Lock()
	closed := b.closed
	b.closed = true
	b.mu.Unlock()
	if closed {
		return nil
	}
	if err := b.db.Close(); err != nil {
		return fmt.Errorf("store: close: %w", err)
	}
	return nil
}

// pen takes the household's pen and returns what puts it down.
func (b *Badger) pen(home oplog.ID) func() {
	b.mu.Lock()
	pen := b.pens[home]
	if pen == nil {
		pen = &sync.Mutex{}
		b.pens[home] = pen
	}
	b.mu.Unlock()
	pen.Lock()
	return pen.Unlock
}

func (b *Badger) update(f func(*badger.Txn) error) error {
	return guard(func() error { return b.db.Update(f) })
}

func (b *Badger) view(f func(*badger.Txn) error) error {
	return guard(func() error { return b.db.View(f) })
}

// guard turns a panic of the database into an error: reading a block whose
// checksum does not fit panics in Badger v4.9.6 instead of reporting it.
func guard(f func() error) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("%w (the database says: %v)", &Damaged{What: "block"}, p)
		}
	}()
	err = f()
	if errors.Is(err, badger.ErrDBClosed) {
		return ErrClosed
	}
	return err
}

// read is a row's value, nil if there is none.
func read(txn *badger.Txn, k []byte) ([]byte, error) {
	it, err := txn.Get(k)
	if errors.Is(err, badger.ErrKeyNotFound) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	return it.ValueCopy(nil)
}

// scan calls f for the rows with a prefix in order, from the key from on (nil:
// the first), until f says no more. values asks for values to be fetched ahead.
func scan(txn *badger.Txn, prefix, from []byte, values bool, f func(*badger.Item) (bool, error)) error {
	o := badger.DefaultIteratorOptions
	o.Prefix, o.PrefetchValues = prefix, values
	it := txn.NewIterator(o)
	defer it.Close()
	if from == nil {
		from = prefix
	}
	for it.Seek(from); it.ValidForPrefix(prefix); it.Next() {
		if more, err := f(it.Item()); err != nil || !more {
			return err
		}
	}
	return nil
}

// quiet passes on what Badger complains of and drops its chatter.
type quiet struct{ log *slog.Logger }

func (q quiet) Errorf(f string, a ...any)   { q.log.Error("database", "detail", fmt.Sprintf(f, a...)) }
func (q quiet) Warningf(f string, a ...any) { q.log.Warn("database", "detail", fmt.Sprintf(f, a...)) }
func (q quiet) Infof(string, ...any)        {}
func (q quiet) Debugf(string, ...any)       {}
