package exchange

import (
	"sort"

	"trayside/sync/digest"
	"trayside/sync/oplog"
)

// Shelf is a Log in memory: the answering side of a hand-over between phones.
// It is used by one goroutine at a time.
type Shelf struct {
	inst     string
	calendar digest.Calendar
	arrivals []Arrival
	bytes    map[oplog.ID][]byte
}

// NewShelf makes an empty shelf. inst must be new each time.
func NewShelf(inst string) *Shelf {
	return &Shelf{inst: inst, bytes: map[oplog.ID][]byte{}}
}

// Put takes operations in.
func (s *Shelf) Put(ops []oplog.Sealed) ([]Result, error) {
	results := make([]Result, len(ops))
	for i, op := range ops {
		results[i] = Result{ID: op.ID, Code: Dup}
		if s.calendar.Add(op.Op.T, op.ID) {
			results[i].Code = Stored
			s.bytes[op.ID] = op.Bytes
			s.arrivals = append(s.arrivals, Arrival{uint64(len(s.arrivals) + 1), op.ID, op.Bytes})
		}
	}
	return results, nil
}

// View calls f; with one goroutine nothing changes meanwhile.
func (s *Shelf) View(f func(Snapshot) error) error { return f(shelfView{s}) }

type shelfView struct{ s *Shelf }

func (v shelfView) Root() (digest.Sum, error) { return v.s.calendar.Root(), nil }

func (v shelfView) Head() (Hint, error) { return Hint{v.s.inst, uint64(len(v.s.arrivals))}, nil }

func (v shelfView) Since(n uint64, limit int) ([]Arrival, error) {
	all := v.s.arrivals
	at := sort.Search(len(all), func(i int) bool { return all[i].N > n })
	return all[at:min(at+limit, len(all))], nil
}

func (v shelfView) Months() ([]digest.MonthSum, error) { return v.s.calendar.Months(), nil }

func (v shelfView) Days(m digest.Month) ([]digest.DaySum, error) { return v.s.calendar.Days(m), nil }

func (v shelfView) Parts(d digest.Day) ([]digest.PartSum, error) { return v.s.calendar.Parts(d), nil }

func (v shelfView) IDs(day digest.Day, part int, after *oplog.ID, limit int) ([]oplog.ID, error) {
	var ids []oplog.ID
	for _, id := range v.s.calendar.IDs(day, part, (*[16]byte)(after), limit) {
		ids = append(ids, id)
	}
	return ids, nil
}

func (v shelfView) Ops(ids []oplog.ID) ([][]byte, error) {
	var list [][]byte
	for _, id := range ids {
		if b, there := v.s.bytes[id]; there {
			list = append(list, b)
		}
	}
	return list, nil
}
