//go:build !386 && !arm && !mips && !mipsle

package store

import (
	"fmt"

	"github.com/dgraph-io/badger/v4"

	"trayside/sync/digest"
	"trayside/sync/oplog"
)

// audit holds a household's sums against its operations and mends the sums.
// Both are written in one transaction, so they can differ only when the disk
// lost or changed something; the phones then see a root that differs from
// theirs and bring back what is lacking.
func (b *Badger) audit(home oplog.ID) error {
	sums := map[string]digest.Sum{} // by key, as they should be
	stored := map[string]digest.Sum{}
	var root, kept digest.Sum
	var n uint64
	err := b.view(func(txn *badger.Txn) (err error) {
		if kept, n, err = readHead(txn, home); err != nil {
			return err
		}
		err = scan(txn, key(rowDay, home), nil, false, func(it *badger.Item) (bool, error) {
			id, day := lastID(it.Key()), dayOf(it.Key())
			if _, err := txn.Get(keyOp(home, id)); err == badger.ErrKeyNotFound {
				return true, nil
			} else if err != nil {
				return false, err
			}
			root = root.Add(id)
			part := string(append(keyParts(home, day), digest.PartOf(id)))
			sums[part] = sums[part].Add(id)
			month := string(keyMonth(home, day.Month()))
			sums[month] = sums[month].Add(id)
			return true, nil
		})
		if err != nil {
			return err
		}
		for _, row := range []byte{rowPart, rowMonth} {
			err := snapshot{&shelf{b, home}, txn}.sums(key(row, home), func(k []byte, sum digest.Sum) {
				stored[string(k)] = sum
			})
			if err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("store: check household %v: %w", home, err)
	}
	differs := root != kept
	for k, sum := range sums {
		differs = differs || stored[k] != sum
	}
	for k := range stored {
		if _, there := sums[k]; !there {
			differs = true
			sums[k] = digest.Sum{} // a row that should not be there becomes the empty sum
		}
	}
	if !differs {
		return nil
	}
	b.log.Warn("the sums did not fit the entries on disk and were made anew; phones will bring back what is lacking",
		"household", home, "entries", root.Count, "counted", kept.Count)
	return b.rewrite(home, sums, root, max(n, root.Count))
}

// rewrite writes sums in batches, the head last: a crash in between only means
// that the next start does it again.
func (b *Badger) rewrite(home oplog.ID, sums map[string]digest.Sum, root digest.Sum, n uint64) error {
	batch := b.db.NewWriteBatch()
	defer batch.Cancel()
	for k, sum := range sums {
		row := sum.Bytes()
		if err := batch.Set([]byte(k), row[:]); err != nil {
			return err
		}
	}
	if err := batch.Flush(); err != nil {
		return err
	}
	return b.update(func(txn *badger.Txn) error { return writeHead(txn, home, root, n) })
}
