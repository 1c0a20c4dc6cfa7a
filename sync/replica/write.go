package replica

import (
	"encoding/json"

	"trayside/sync/oplog"
)

// maxClock is the latest time a phone's clock can show, ms: the bound of a
// time value in ECMAScript (ECMA-262, "Time Values and Time Range"). It leaves
// 3.7·10^14 stamps above it, so even after a clock at its very end an edit can
// still be stamped later than what it edits.
const maxClock = 8_640_000_000_000_000

// Newest is the greatest stamp seen on an entity, ms; -1 if there is none.
func (r *Replica) Newest(ent string) int64 {
	if e := r.entities[ent]; e != nil {
		return e.Newest()
	}
	return -1
}

// Stamp is the stamp of the next operation on an entity, ms: now (the phone's
// clock, calibrated), but not below floor (the newest household time seen) and
// always above every stamp seen on the entity, so that it wins over all that
// its author could see.
func (r *Replica) Stamp(ent string, now, floor int64) int64 {
	t := max(0, min(max(now, floor), maxClock))
	return min(max(t, r.Newest(ent)+1), oplog.MaxStamp)
}

// Revert is what the next operation on Ent must say to take an operation back.
type Revert struct {
	Ent     string
	Set     map[string]json.RawMessage // null clears
	At, Day string                     // empty: leave
	Gone    *bool
}

// Any tells whether there is anything left to take back.
func (v Revert) Any() bool { return len(v.Set) > 0 || v.At != "" || v.Day != "" || v.Gone != nil }

// Undo says how to take an operation back: fields whose value is still its own
// fall back to the write before, others stay as whoever wrote them later wanted.
// The creation of an entity is taken back by removing it, and a removal by
// bringing it back. False if the set does not hold the operation.
func (r *Replica) Undo(id oplog.ID) (Revert, bool) {
	m := r.ops[id]
	if m == nil {
		return Revert{}, false
	}
	e := m.entity
	v := Revert{Ent: e.Ent}
	if e.marks[0] == m {
		if !e.IsGone() {
			gone := true
			v.Gone = &gone
		}
		return v, true
	}
	for _, f := range e.fields {
		if previous, counts := f.before(m); counts {
			if previous == nil {
				previous = []byte("null")
			}
			if v.Set == nil {
				v.Set = map[string]json.RawMessage{}
			}
			v.Set[f.name] = previous
		}
	}
	if previous, counts := e.gone.before(m); counts {
		gone := string(previous) == "true"
		v.Gone = &gone
	}
	if previous, counts := e.at.before(m); counts {
		v.At = string(previous)
	}
	if previous, counts := e.day.before(m); counts {
		v.Day = string(previous)
	}
	return v, true
}
