// Package replica folds a set of operations into what they say.
//
// The fold depends on the set alone, never on the order of arrival. Each field
// of an entity is a register that the write with the greatest (stamp, id) wins;
// so is whether the entity is gone, and so are the instant and the day it
// happened. A value that its schema finds invalid is set aside and stands in
// nobody's way; kinds and fields that the schema does not know are kept.
//
// New and Add build a Replica, Entity and Entities read it, Stamp and Undo help
// to write the next operation, Snapshot and Restore carry it over a restart.
//
// The package knows no kind, field or clock of its own.
package replica

import (
	"cmp"
	"encoding/json"
	"errors"
	"iter"
	"maps"
	"slices"
	"sort"
	"strings"

	"trayside/sync/oplog"
)

// ErrUnknown is what a Schema's Check says of a field it does not know.
var ErrUnknown = errors.New("unknown field")

// Schema tells what fields mean, as far as the fold must know. It must give the
// same answer every time. A null is never shown to it: it clears a field.
type Schema interface {
	// Known tells whether this program knows the kind of entity.
	Known(kind string) bool
	// Check is nil for a valid value, ErrUnknown for a field of a later
	// program, and otherwise says what is wrong and how to mend it.
	Check(kind, field string, value json.RawMessage) error
}

// Replica is the fold of a set of operations. It is used by one goroutine at a
// time; reading it from several at once is fine while nobody adds.
type Replica struct {
	schema   Schema
	entities map[string]*Entity
	kinds    map[string]*roll
	ops      map[oplog.ID]*Mark
	aside    []Aside
	unread   int
}

// Aside is a value that was set aside: the fold passes over it.
type Aside struct {
	Ent   string   `json:"ent"`
	Field string   `json:"field"` // "at" and "day" are those of the envelope
	Why   string   `json:"why"`
	ID    oplog.ID `json:"id"` // operation that wrote it
}

// New makes an empty Replica.
func New(schema Schema) *Replica {
	return &Replica{
		schema:   schema,
		entities: map[string]*Entity{},
		kinds:    map[string]*roll{},
		ops:      map[oplog.ID]*Mark{},
	}
}

// Add folds one operation in; false if the set held it already. The replica
// keeps parts of it.
func (r *Replica) Add(s oplog.Sealed) bool {
	if _, there := r.ops[s.ID]; there {
		return false
	}
	e := r.entity(s.Op.Ent)
	m := &Mark{T: s.Op.T, ID: s.ID, By: s.Op.By, Dev: s.Op.Dev, entity: e}
	r.ops[s.ID] = m
	e.addMark(m)
	if s.Op.V > oplog.Version {
		m.unread = true
	} else {
		r.fold(e, m, s.Op)
	}
	if m.unread {
		r.unread++
	}
	return true
}

// fold writes what the operation says into the registers.
func (r *Replica) fold(e *Entity, m *Mark, op oplog.Op) {
	known := r.schema.Known(e.Kind())
	m.unread = !known
	if e.fields == nil {
		e.fields = make([]field, 0, len(op.Set)) // most entities are written once
	}
	for _, name := range slices.Sorted(maps.Keys(op.Set)) {
		value := op.Set[name]
		if known && !isNull(value) {
			switch err := r.schema.Check(e.Kind(), name, value); {
			case errors.Is(err, ErrUnknown):
				m.unread = true
			case err != nil:
				r.setAside(m, name, err.Error())
				continue
			}
		}
		e.register(name).insert(write{m, value})
	}
	if op.Gone != nil {
		e.gone.insert(write{m, boolValue(*op.Gone)})
	}
	if op.At != "" {
		if why := checkAt(op.At); why != "" {
			r.setAside(m, "at", why)
		} else {
			e.at.insert(write{m, []byte(op.At)})
		}
	}
	if op.Day != "" {
		if why := checkDay(op.Day); why != "" {
			r.setAside(m, "day", why)
		} else {
			e.day.insert(write{m, []byte(op.Day)})
		}
	}
}

func (r *Replica) setAside(m *Mark, field, why string) {
	r.aside = append(r.aside, Aside{m.entity.Ent, field, why, m.ID})
}

// entity finds or makes the entity of that name.
func (r *Replica) entity(ent string) *Entity {
	e := r.entities[ent]
	if e == nil {
		e = &Entity{Ent: ent}
		r.entities[ent] = e
		r.roll(e.Kind()).insert(e)
	}
	return e
}

func (r *Replica) roll(kind string) *roll {
	if r.kinds[kind] == nil {
		r.kinds[kind] = &roll{}
	}
	return r.kinds[kind]
}

// Remove takes an operation out of the set, as when it was refused at the door;
// false if the set did not hold it. What it wrote falls back to the write before.
func (r *Replica) Remove(id oplog.ID) bool {
	m := r.ops[id]
	if m == nil {
		return false
	}
	delete(r.ops, id)
	if m.unread {
		r.unread--
	}
	r.aside = slices.DeleteFunc(r.aside, func(a Aside) bool { return a.ID == id })
	e := m.entity
	if e.removeMark(m); len(e.marks) == 0 {
		delete(r.entities, e.Ent)
		r.kinds[e.Kind()].remove(e)
		if r.kinds[e.Kind()].len() == 0 {
			delete(r.kinds, e.Kind())
		}
	}
	return true
}

// Has tells whether the set holds the operation.
func (r *Replica) Has(id oplog.ID) bool { return r.ops[id] != nil }

// Mark is an operation's stamp and origin; false if the set does not hold it.
func (r *Replica) Mark(id oplog.ID) (Mark, bool) {
	if m := r.ops[id]; m != nil {
		return *m, true
	}
	return Mark{}, false
}

// Len counts the operations of the set.
func (r *Replica) Len() int { return len(r.ops) }

// Ops gives every operation's stamp and origin, by entity and in the order of
// (stamp, id) within each.
func (r *Replica) Ops() iter.Seq[Mark] {
	return func(yield func(Mark) bool) {
		for _, kind := range slices.Sorted(maps.Keys(r.kinds)) {
			for e := range r.kinds[kind].all() {
				for _, m := range e.marks {
					if !yield(*m) {
						return
					}
				}
			}
		}
	}
}

// Entity is what the set says of one entity; nil if it says nothing.
func (r *Replica) Entity(ent string) *Entity { return r.entities[ent] }

// Entities gives the entities of a kind in the order of their names, those that
// are gone included.
func (r *Replica) Entities(kind string) iter.Seq[*Entity] {
	if k := r.kinds[kind]; k != nil {
		return k.all()
	}
	return func(func(*Entity) bool) {}
}

// Kinds lists the kinds of which there are entities, known or not, in order.
func (r *Replica) Kinds() []string { return slices.Sorted(maps.Keys(r.kinds)) }

// Asides lists what was set aside, in the order of entity, field and operation.
func (r *Replica) Asides() []Aside {
	list := slices.Clone(r.aside)
	sort.Slice(list, func(i, j int) bool {
		a, b := list[i], list[j]
		return cmp.Or(strings.Compare(a.Ent, b.Ent), strings.Compare(a.Field, b.Field), a.ID.Compare(b.ID)) < 0
	})
	return list
}

// Unread counts the operations that say something only a newer program reads.
func (r *Replica) Unread() int { return r.unread }
