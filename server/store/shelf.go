//go:build !386 && !arm && !mips && !mipsle

package store

import (
	"encoding/binary"
	"fmt"
	"time"

	"github.com/dgraph-io/badger/v4"

	"trayside/sync/digest"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

// One transaction holds at most these: with an 8 MiB memtable Badger takes
// 1,258,291 bytes, and an operation brings a few rows of its own.
const (
	chunkOps   = 256
	chunkBytes = 256 << 10
)

// shelf is one household's log.
type shelf struct {
	b    *Badger
	home oplog.ID
}

// Put implements exchange.Log. More than one chunk is written chunk by chunk.
func (s *shelf) Put(ops []oplog.Sealed) ([]exchange.Result, error) {
	if err := s.b.Ready(); err != nil {
		return nil, err
	}
	defer s.b.pen(s.home)()
	results := make([]exchange.Result, 0, len(ops))
	for len(ops) > 0 {
		n, size := 0, 0
		for n < len(ops) && n < chunkOps && (n == 0 || size+len(ops[n].Bytes) <= chunkBytes) {
			size += len(ops[n].Bytes)
			n++
		}
		done, err := s.putChunk(ops[:n])
		if err != nil {
			return nil, fmt.Errorf("store: put %d operations: %w", n, err)
		}
		results, ops = append(results, done...), ops[n:]
	}
	return results, nil
}

// putChunk writes operations, arrival numbers and sums in one transaction,
// which is on disk when it returns.
func (s *shelf) putChunk(ops []oplog.Sealed) (results []exchange.Result, err error) {
	err = s.b.update(func(txn *badger.Txn) error {
		results = make([]exchange.Result, 0, len(ops))
		root, n, err := readHead(txn, s.home)
		if err != nil {
			return err
		}
		sums := map[string]digest.Sum{} // part and month rows that change
		for _, op := range ops {
			fresh, err := s.putOp(txn, op, n+1)
			if err != nil {
				return err
			}
			if !fresh {
				results = append(results, exchange.Result{ID: op.ID, Code: exchange.Dup})
				continue
			}
			n++
			root = root.Add(op.ID)
			day := digest.DayOf(op.Op.T)
			part := append(keyParts(s.home, day), digest.PartOf(op.ID))
			for _, k := range [][]byte{part, keyMonth(s.home, day.Month())} {
				if err := addTo(txn, sums, k, op.ID); err != nil {
					return err
				}
			}
			results = append(results, exchange.Result{ID: op.ID, Code: exchange.Stored})
		}
		for k, sum := range sums {
			if err := setSum(txn, []byte(k), sum); err != nil {
				return err
			}
		}
		if err := txn.Set(key(rowHome, s.home), nil); err != nil {
			return err
		}
		return writeHead(txn, s.home, root, n)
	})
	return results, err
}

// putOp writes the rows of one operation unless it is there. A copy that went
// bad on disk is replaced by the good one under its old arrival number.
func (s *shelf) putOp(txn *badger.Txn, op oplog.Sealed, n uint64) (fresh bool, err error) {
	k := keyOp(s.home, op.ID)
	row, err := read(txn, k)
	if err != nil {
		return false, err
	}
	if row != nil {
		if _, _, err := openRow(op.ID, row); err == nil {
			return false, nil
		}
		s.b.log.Warn("replaced a damaged entry by the copy a phone brought", "id", op.ID)
		arrival := append([]byte{}, row[:min(8, len(row))]...)
		return false, txn.Set(k, append(arrival, op.Bytes...))
	}
	if err := txn.Set(k, append(number(n), op.Bytes...)); err != nil {
		return false, err
	}
	if err := txn.Set(keyArrival(s.home, n), op.ID[:]); err != nil {
		return false, err
	}
	return true, txn.Set(append(keyDay(s.home, digest.DayOf(op.Op.T)), op.ID[:]...), nil)
}

// View implements exchange.Log.
func (s *shelf) View(f func(exchange.Snapshot) error) error {
	return s.b.view(func(txn *badger.Txn) error { return f(snapshot{s, txn}) })
}

// snapshot is the log in one read transaction.
type snapshot struct {
	*shelf
	txn *badger.Txn
}

func (s snapshot) Root() (digest.Sum, error) {
	root, _, err := readHead(s.txn, s.home)
	return root, err
}

func (s snapshot) Head() (exchange.Hint, error) {
	_, n, err := readHead(s.txn, s.home)
	return exchange.Hint{Inst: s.b.inst, N: n}, err
}

func (s snapshot) Since(n uint64, limit int) (list []exchange.Arrival, err error) {
	err = scan(s.txn, key(rowArrival, s.home), keyArrival(s.home, n+1), true, func(it *badger.Item) (bool, error) {
		v, err := it.ValueCopy(nil)
		if err != nil {
			return false, err
		}
		if len(v) != len(oplog.ID{}) {
			s.b.log.Error("passed over a damaged arrival row", "number", binary.BigEndian.Uint64(it.Key()[17:]))
			return true, nil
		}
		at := exchange.Arrival{N: binary.BigEndian.Uint64(it.Key()[17:]), ID: oplog.ID(v)}
		if at.Bytes, err = s.op(at.ID); at.Bytes != nil {
			list = append(list, at)
		}
		return len(list) < limit, err
	})
	return list, err
}

func (s snapshot) Ops(ids []oplog.ID) (list [][]byte, err error) {
	for _, id := range ids {
		b, err := s.op(id)
		if err != nil {
			return nil, err
		}
		if b != nil {
			list = append(list, b)
		}
	}
	return list, nil
}

// op is an operation's bytes, nil if the log lacks it. A damaged one is
// reported and left out: a wrong value is never served.
func (s snapshot) op(id oplog.ID) ([]byte, error) {
	row, err := read(s.txn, keyOp(s.home, id))
	if err != nil || row == nil {
		return nil, err
	}
	_, b, err := openRow(id, row)
	if err != nil {
		s.b.log.Error("left out a damaged entry", "id", id)
		return nil, nil
	}
	return b, nil
}

func (s snapshot) Months() (list []digest.MonthSum, err error) {
	err = s.sums(key(rowMonth, s.home), func(k []byte, sum digest.Sum) {
		list = append(list, digest.MonthSum{Month: monthOf(k), Sum: sum})
	})
	return list, err
}

// Days merges the parts of the month's days: a row per day would be written
// with every operation and read only when two sides differ.
func (s snapshot) Days(month digest.Month) (list []digest.DaySum, err error) {
	for day := firstDay(month); day < firstDay(month+1); day++ {
		parts, err := s.Parts(day)
		if err != nil {
			return nil, err
		}
		var sum digest.Sum
		for _, p := range parts {
			sum = sum.Merge(p.Sum)
		}
		if sum.Count > 0 {
			list = append(list, digest.DaySum{Day: day, Sum: sum})
		}
	}
	return list, nil
}

// firstDay is the first day of a month.
func firstDay(m digest.Month) digest.Day {
	first := time.Date(int(m)/12, time.Month(int(m)%12+1), 1, 0, 0, 0, 0, time.UTC)
	return digest.DayOf(first.UnixMilli())
}

func (s snapshot) Parts(day digest.Day) (list []digest.PartSum, err error) {
	err = s.sums(keyParts(s.home, day), func(k []byte, sum digest.Sum) {
		list = append(list, digest.PartSum{Day: day, Part: partOf(k), Sum: sum})
	})
	return list, err
}

func (s snapshot) sums(prefix []byte, f func(key []byte, sum digest.Sum)) error {
	return scan(s.txn, prefix, nil, true, func(it *badger.Item) (bool, error) {
		v, err := it.ValueCopy(nil)
		if err != nil {
			return false, err
		}
		sum, err := digest.FromBytes(v)
		if err == nil && sum.Count > 0 {
			f(it.Key(), sum)
		}
		return true, err
	})
}

func (s snapshot) IDs(day digest.Day, part int, after *oplog.ID, limit int) (list []oplog.ID, err error) {
	prefix := keyDay(s.home, day)
	whole := len(prefix)
	if part != digest.WholeDay {
		prefix = append(prefix, byte(part))
	}
	from := prefix
	if after != nil {
		if k := append(append([]byte{}, prefix[:whole]...), after[:]...); string(k) > string(prefix) {
			from = append(k, 0) // the first key above it
		}
	}
	if limit <= 0 {
		return nil, nil
	}
	err = scan(s.txn, prefix, from, false, func(it *badger.Item) (bool, error) {
		list = append(list, lastID(it.Key()))
		return len(list) < limit, nil
	})
	return list, err
}

func openRow(id oplog.ID, row []byte) (arrival uint64, b []byte, err error) {
	if len(row) < 8 || oplog.Hash(row[8:]) != id {
		return 0, nil, &Damaged{"operation", id}
	}
	return binary.BigEndian.Uint64(row), row[8:], nil
}

func readHead(txn *badger.Txn, home oplog.ID) (root digest.Sum, n uint64, err error) {
	row, err := read(txn, key(rowHead, home))
	if err != nil || row == nil {
		return root, 0, err
	}
	if len(row) != 32 {
		return root, 0, &Damaged{What: "head row"}
	}
	root, err = digest.FromBytes(row[:24])
	return root, binary.BigEndian.Uint64(row[24:]), err
}

func writeHead(txn *badger.Txn, home oplog.ID, root digest.Sum, n uint64) error {
	sum := root.Bytes()
	return txn.Set(key(rowHead, home), append(sum[:], number(n)...))
}

func addTo(txn *badger.Txn, sums map[string]digest.Sum, k []byte, id oplog.ID) error {
	sum, there := sums[string(k)]
	if !there {
		row, err := read(txn, k)
		if err != nil {
			return err
		}
		if row != nil {
			if sum, err = digest.FromBytes(row); err != nil {
				return err
			}
		}
	}
	sums[string(k)] = sum.Add(id)
	return nil
}

func setSum(txn *badger.Txn, k []byte, sum digest.Sum) error {
	b := sum.Bytes()
	return txn.Set(k, b[:])
}
