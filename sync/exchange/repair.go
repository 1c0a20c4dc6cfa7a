package exchange

import (
	"encoding/json"
	"math"

	"trayside/sync/digest"
	"trayside/sync/oplog"
)

// smallDay is how many ids of a day are compared directly; a fuller day is
// narrowed down to its parts first.
const smallDay = 512

// repair follows the calendar down to the ids that one side lacks. All lists
// are what is still to be asked.
type repair struct {
	started bool
	months  []digest.Month // their days
	days    []digest.Day   // their parts
	scopes  []Scope        // their ids
	listing []Scope        // being listed, page by page
	cursor  string
	listed  map[oplog.ID]bool
	want    []oplog.ID
}

// query is the next question; false when there is none left. The narrowest
// comes first, so that lists stay short.
func (r *repair) query(known *digest.Calendar) (Query, bool) {
	switch {
	case !r.started:
		return Query{Months: true}, true
	case len(r.want) > 0:
		return Query{Want: r.want[:min(MaxOps, len(r.want))]}, true
	case len(r.listing) > 0:
		return Query{IDs: r.listing, Cursor: r.cursor}, true
	case len(r.scopes) > 0:
		n := min(MaxScopes, len(r.scopes))
		r.listing, r.scopes = r.scopes[:n], r.scopes[n:]
		r.cursor, r.listed = "", map[oplog.ID]bool{}
		return Query{IDs: r.listing}, true
	case len(r.days) > 0:
		return Query{Parts: r.days[:min(MaxDays, len(r.days))]}, true
	case len(r.months) > 0:
		return Query{Days: r.months[:min(MaxMonths, len(r.months))]}, true
	}
	return Query{}, false
}

// replied reads the answer to the query under way.
func (m *Machine) replied(body string) {
	var a Reply
	if err := json.Unmarshal([]byte(body), &a); err != nil || a.Now == 0 {
		m.fail(StatePortal, "")
		return
	}
	m.hear(a.Now)
	r, q, l := m.repair, m.query, &lesson{then: m.next}
	switch {
	case q.Months:
		r.started = true
		for _, k := range differing(m.known.Months(), a.Months, func(s digest.MonthSum) (digest.Month, digest.Sum) { return s.Month, s.Sum }) {
			r.months = append(r.months, k.key)
		}
	case len(q.Days) > 0:
		r.months = r.months[len(q.Days):]
		var mine []digest.DaySum
		for _, month := range q.Days {
			mine = append(mine, m.known.Days(month)...)
		}
		for _, k := range differing(mine, a.Days, func(s digest.DaySum) (digest.Day, digest.Sum) { return s.Day, s.Sum }) {
			if k.most <= smallDay {
				r.scopes = append(r.scopes, Scope{k.key, digest.WholeDay})
			} else {
				r.days = append(r.days, k.key)
			}
		}
	case len(q.Parts) > 0:
		r.days = r.days[len(q.Parts):]
		var mine []digest.PartSum
		for _, day := range q.Parts {
			mine = append(mine, m.known.Parts(day)...)
		}
		for _, k := range differing(mine, a.Parts, func(s digest.PartSum) (Scope, digest.Sum) { return Scope{s.Day, int(s.Part)}, s.Sum }) {
			r.scopes = append(r.scopes, k.key)
		}
	case len(q.IDs) > 0:
		m.listed(l, a)
	default:
		m.fetched(l, a.Ops)
	}
	if l.noted == nil {
		m.next() // nothing to store
		return
	}
	m.learn(l)
}

// listed takes in a page of ids and, after the last one, compares.
func (m *Machine) listed(l *lesson, a Reply) {
	r := m.repair
	before := len(r.listed)
	for _, id := range a.IDs {
		r.listed[id] = true
	}
	if a.Cursor != "" && len(r.listed) > before {
		r.cursor = a.Cursor
		return
	}
	for _, s := range r.listing {
		for _, id := range m.known.IDs(s.Day, s.Part, nil, math.MaxInt) {
			if !r.listed[id] {
				l.note(id)
				l.store.Unknown = append(l.store.Unknown, id)
			}
		}
	}
	for id := range r.listed {
		switch _, known := m.known.Stamp(id); {
		case known:
		case m.queue.has(id) && !m.lost[id]:
			l.note(id)
			l.store.Known = append(l.store.Known, id)
		default:
			r.want = append(r.want, id)
		}
	}
	sortIDs(l.store.Known)
	sortIDs(r.want)
	r.listing, r.cursor, r.listed = nil, "", nil
}

// fetched takes in operations that were wanted.
func (m *Machine) fetched(l *lesson, texts []string) {
	r := m.repair
	asked := r.want[:len(m.query.Want)]
	got := make(map[oplog.ID]bool, len(texts))
	for _, t := range texts {
		got[oplog.Hash([]byte(t))] = true
	}
	m.receive(l, texts)
	var left []oplog.ID
	for _, id := range asked {
		if !got[id] {
			left = append(left, id)
		}
	}
	if len(left) == len(asked) {
		left, m.trouble = nil, DetailDiffers // listed, yet not to be had
	}
	r.want = append(left, r.want[len(asked):]...)
}

// difference is a key whose sums differ, with the larger count.
type difference[K comparable] struct {
	key  K
	most uint64
}

// differing lists the keys whose sums differ, mine first, each side's in order.
func differing[K comparable, S any](mine, theirs []S, read func(S) (K, digest.Sum)) []difference[K] {
	other := make(map[K]digest.Sum, len(theirs))
	for _, s := range theirs {
		k, sum := read(s)
		other[k] = sum
	}
	var list []difference[K]
	seen := make(map[K]bool, len(mine))
	for _, s := range mine {
		k, sum := read(s)
		seen[k] = true
		if sum != other[k] {
			list = append(list, difference[K]{k, max(sum.Count, other[k].Count)})
		}
	}
	for _, s := range theirs {
		if k, sum := read(s); !seen[k] && sum.Count > 0 {
			list = append(list, difference[K]{k, sum.Count})
		}
	}
	return list
}
