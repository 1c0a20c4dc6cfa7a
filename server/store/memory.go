package store

import (
	"crypto/rand"
	"maps"
	"slices"
	"sync"

	"trayside/sync/digest"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

// Memory is a store that forgets everything when the process ends.
type Memory struct {
	mu     sync.RWMutex
	inst   string
	closed bool
	homes  map[oplog.ID]*home
}

type home struct {
	store    *Memory
	calendar digest.Calendar
	ops      map[oplog.ID][]byte
	arrived  []oplog.ID // number 1 first
	roster   map[oplog.ID]string
	invites  map[oplog.ID][]byte
}

// NewMemory makes an empty store.
func NewMemory() *Memory { return &Memory{inst: rand.Text(), homes: map[oplog.ID]*home{}} }

func (m *Memory) home(id oplog.ID) *home {
	h := m.homes[id]
	if h == nil {
		h = &home{store: m, ops: map[oplog.ID][]byte{}, roster: map[oplog.ID]string{}, invites: map[oplog.ID][]byte{}}
		m.homes[id] = h
	}
	return h
}

// Homes lists the households kept here.
func (m *Memory) Homes() ([]oplog.ID, error) {
	m.mu.RLock()
	defer m.mu.RUnlock()
	var ids []oplog.ID
	for id, h := range m.homes {
		if len(h.ops) > 0 || len(h.roster) > 0 {
			ids = append(ids, id)
		}
	}
	slices.SortFunc(ids, oplog.ID.Compare)
	return ids, nil
}

// Log is the log of one household.
func (m *Memory) Log(id oplog.ID) exchange.Log {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.home(id)
}

// PutRoster keeps signed roster texts under their ids.
func (m *Memory) PutRoster(home oplog.ID, texts map[oplog.ID]string) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	maps.Copy(m.home(home).roster, texts)
	return m.open()
}

// Roster lists the roster texts kept, by id.
func (m *Memory) Roster(home oplog.ID) (texts []string, err error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	h := m.home(home)
	for _, id := range slices.SortedFunc(maps.Keys(h.roster), oplog.ID.Compare) {
		texts = append(texts, h.roster[id])
	}
	return texts, m.open()
}

// PutInvite keeps an invite, or replaces it.
func (m *Memory) PutInvite(home, id oplog.ID, row []byte) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.home(home).invites[id] = slices.Clone(row)
	return m.open()
}

// Invites are the invites kept.
func (m *Memory) Invites(home oplog.ID) (map[oplog.ID][]byte, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return maps.Clone(m.home(home).invites), m.open()
}

// Ready tells whether operations can be taken in: nil or ErrClosed.
func (m *Memory) Ready() error {
	m.mu.RLock()
	defer m.mu.RUnlock()
	return m.open()
}

func (m *Memory) open() error {
	if m.closed {
		return ErrClosed
	}
	return nil
}

// Close makes everything that follows an error.
func (m *Memory) Close() error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.closed = true
	return nil
}

// Put implements exchange.Log.
func (h *home) Put(ops []oplog.Sealed) ([]exchange.Result, error) {
	h.store.mu.Lock()
	defer h.store.mu.Unlock()
	if err := h.store.open(); err != nil {
		return nil, err
	}
	results := make([]exchange.Result, 0, len(ops))
	for _, op := range ops {
		code := exchange.Dup
		if h.calendar.Add(op.Op.T, op.ID) {
			code = exchange.Stored
			h.ops[op.ID] = op.Bytes
			h.arrived = append(h.arrived, op.ID)
		}
		results = append(results, exchange.Result{ID: op.ID, Code: code})
	}
	return results, nil
}

// View implements exchange.Log: writers wait until f returns.
func (h *home) View(f func(exchange.Snapshot) error) error {
	h.store.mu.Lock() // not for reading: a calendar sorts its pages when read
	defer h.store.mu.Unlock()
	if err := h.store.open(); err != nil {
		return err
	}
	return f(moment{h})
}

// moment is a home while nobody writes.
type moment struct{ h *home }

func (m moment) Root() (digest.Sum, error) { return m.h.calendar.Root(), nil }

func (m moment) Head() (exchange.Hint, error) {
	return exchange.Hint{Inst: m.h.store.inst, N: uint64(len(m.h.arrived))}, nil
}

func (m moment) Since(n uint64, limit int) (list []exchange.Arrival, err error) {
	for i := n; i < uint64(len(m.h.arrived)) && len(list) < limit; i++ {
		id := m.h.arrived[i]
		list = append(list, exchange.Arrival{N: i + 1, ID: id, Bytes: m.h.ops[id]})
	}
	return list, nil
}

func (m moment) Months() ([]digest.MonthSum, error) { return m.h.calendar.Months(), nil }

func (m moment) Days(month digest.Month) ([]digest.DaySum, error) {
	return m.h.calendar.Days(month), nil
}

func (m moment) Parts(day digest.Day) ([]digest.PartSum, error) { return m.h.calendar.Parts(day), nil }

func (m moment) IDs(day digest.Day, part int, after *oplog.ID, limit int) ([]oplog.ID, error) {
	var list []oplog.ID
	for _, id := range m.h.calendar.IDs(day, part, (*[16]byte)(after), limit) {
		list = append(list, id)
	}
	return list, nil
}

func (m moment) Ops(ids []oplog.ID) (list [][]byte, err error) {
	for _, id := range ids {
		if b, there := m.h.ops[id]; there {
			list = append(list, b)
		}
	}
	return list, nil
}
