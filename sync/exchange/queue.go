package exchange

import (
	"cmp"
	"slices"
	"sort"

	"trayside/sync/oplog"
)

// queue is what waits to be shared, in the order of (stamp, id).
type queue struct {
	stamps map[oplog.ID]int64
	order  []Held // may name some that left; sorted unless dirty
	dirty  bool
}

func (q *queue) add(h Held) {
	if q.has(h.ID) {
		return
	}
	if q.stamps == nil {
		q.stamps = map[oplog.ID]int64{}
	}
	q.stamps[h.ID] = h.T
	q.order, q.dirty = append(q.order, h), true
}

// remove takes one out; false if it was not in.
func (q *queue) remove(id oplog.ID) (t int64, there bool) {
	t, there = q.stamps[id]
	delete(q.stamps, id)
	return t, there
}

func (q *queue) has(id oplog.ID) bool {
	_, there := q.stamps[id]
	return there
}

func (q *queue) len() int { return len(q.stamps) }

// first lists the first ones that are not to be skipped.
func (q *queue) first(limit int, skip map[oplog.ID]bool) []oplog.ID {
	q.order = slices.DeleteFunc(q.order, func(h Held) bool { return !q.has(h.ID) })
	if q.dirty {
		sort.Slice(q.order, func(i, j int) bool {
			a, b := q.order[i], q.order[j]
			return cmp.Or(cmp.Compare(a.T, b.T), a.ID.Compare(b.ID)) < 0
		})
		q.order = slices.Compact(q.order) // one that left and came back is named twice
		q.dirty = false
	}
	var ids []oplog.ID
	for _, h := range q.order {
		if len(ids) == limit {
			break
		}
		if !skip[h.ID] {
			ids = append(ids, h.ID)
		}
	}
	return ids
}

func sortIDs(ids []oplog.ID) {
	sort.Slice(ids, func(i, j int) bool { return ids[i].Compare(ids[j]) < 0 })
}
