package exchange

import (
	"fmt"
	"strconv"
	"strings"

	"trayside/sync/digest"
	"trayside/sync/oplog"
)

// BadQuery says that a Query cannot be answered: status 400.
type BadQuery struct{ Detail string }

func (e *BadQuery) Error() string { return "exchange: " + e.Detail }

// Reconcile answers a Query from one snapshot. now is the answering side's
// clock, ms. The error is a *TooMany (status 413), a *BadQuery (status 400) or
// comes from the log.
func Reconcile(log Log, q Query, now int64) (Reply, error) {
	if err := q.check(); err != nil {
		return Reply{}, err
	}
	r := Reply{Now: now}
	return r, log.View(func(s Snapshot) (err error) {
		if r.Root, err = s.Root(); err != nil {
			return err
		}
		switch {
		case q.Months:
			r.Months, err = s.Months()
		case q.Days != nil:
			r.Days, err = gather(q.Days, s.Days)
		case q.Parts != nil:
			r.Parts, err = gather(q.Parts, s.Parts)
		case q.IDs != nil:
			err = r.list(s, q.IDs, q.Cursor)
		default:
			err = r.fetch(s, q.Want)
		}
		return err
	})
}

func (q Query) check() error {
	asked := 0
	for _, yes := range []bool{q.Months, len(q.Days) > 0, len(q.Parts) > 0, len(q.IDs) > 0, len(q.Want) > 0} {
		if yes {
			asked++
		}
	}
	if asked != 1 {
		return &BadQuery{"a query asks exactly one of months, days, parts, ids and want"}
	}
	for _, bound := range []TooMany{
		{"months", len(q.Days), MaxMonths},
		{"days", len(q.Parts), MaxDays},
		{"scopes", len(q.IDs), MaxScopes},
		{"wanted ids", len(q.Want), MaxOps},
	} {
		if bound.Got > bound.Most {
			return &bound
		}
	}
	for _, s := range q.IDs {
		if s.Part < digest.WholeDay || s.Part > 255 {
			return &BadQuery{fmt.Sprintf("part %d of day %d: a part is 0 to 255, or %d for the whole day", s.Part, s.Day, digest.WholeDay)}
		}
	}
	return nil
}

func gather[K, V any](keys []K, read func(K) ([]V, error)) ([]V, error) {
	var all []V
	for _, k := range keys {
		some, err := read(k)
		if err != nil {
			return nil, err
		}
		all = append(all, some...)
	}
	return all, nil
}

// list reads one page of ids. A cursor is the place of a scope in the query
// and the last id given from it.
func (r *Reply) list(s Snapshot, scopes []Scope, cursor string) error {
	at, after, err := readCursor(cursor, len(scopes))
	if err != nil {
		return err
	}
	for ; at < len(scopes); at, after = at+1, nil {
		room := PageIDs - len(r.IDs)
		ids, err := s.IDs(scopes[at].Day, scopes[at].Part, after, room)
		if err != nil {
			return err
		}
		r.IDs = append(r.IDs, ids...)
		if len(ids) == room {
			r.Cursor = fmt.Sprintf("%d.%s", at, r.IDs[len(r.IDs)-1])
			return nil
		}
	}
	return nil
}

func readCursor(cursor string, scopes int) (at int, after *oplog.ID, err error) {
	if cursor == "" {
		return 0, nil, nil
	}
	place, last, _ := strings.Cut(cursor, ".")
	at, err = strconv.Atoi(place)
	id, errID := oplog.ParseID(last)
	if err != nil || errID != nil || at < 0 || at >= scopes {
		return 0, nil, &BadQuery{fmt.Sprintf("cursor %.60q is not one that this query was answered with", cursor)}
	}
	return at, &id, nil
}

// fetch reads operations, as many as fit into one answer.
func (r *Reply) fetch(s Snapshot, want []oplog.ID) error {
	size := 0
	for len(want) > 0 {
		some := want[:min(64, len(want))]
		want = want[len(some):]
		texts, err := s.Ops(some)
		if err != nil {
			return err
		}
		for _, b := range texts {
			if size += len(b); size > MaxOpBytes && len(r.Ops) > 0 {
				return nil
			}
			r.Ops = append(r.Ops, string(b))
		}
	}
	return nil
}
