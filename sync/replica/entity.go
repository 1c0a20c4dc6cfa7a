package replica

import (
	"encoding/json"
	"iter"
	"slices"
	"strings"

	"trayside/sync/oplog"
)

// Mark is an operation's stamp and origin.
type Mark struct {
	T   int64 // ms
	ID  oplog.ID
	By  string // member
	Dev string // device

	unread bool
	entity *Entity
}

// Ent is the entity that the operation is about.
func (m Mark) Ent() string { return m.entity.Ent }

// Compare orders operations by stamp, then id: the greater wins.
func (m Mark) Compare(o Mark) int { return m.compare(&o) }

func (m *Mark) compare(o *Mark) int {
	switch {
	case m.T < o.T:
		return -1
	case m.T > o.T:
		return 1
	}
	return m.ID.Compare(o.ID)
}

// Register is a value and the operation that wrote it.
type Register struct {
	Value json.RawMessage // never to be changed
	Mark
}

// Entity is what the set says of one thing.
type Entity struct {
	Ent string // kind/id

	marks         []*Mark // every stored operation, by (stamp, id)
	fields        []field // by name
	gone, at, day history
}

type field struct {
	name string
	history
}

// Kind is the part of Ent before the slash.
func (e *Entity) Kind() string { return oplog.KindOf(e.Ent) }

// Field is the field's value that counts; false if nothing was ever written or
// it was cleared.
func (e *Entity) Field(name string) (Register, bool) {
	if i, there := e.find(name); there {
		return e.fields[i].winner()
	}
	return Register{}, false
}

// Fields gives the fields that have a value, in the order of their names.
func (e *Entity) Fields() iter.Seq2[string, Register] {
	return func(yield func(string, Register) bool) {
		for _, f := range e.fields {
			if reg, ok := f.winner(); ok && !yield(f.name, reg) {
				return
			}
		}
	}
}

// Writes lists all writes to a field that were not set aside, oldest stamp
// first, so the last counts; a null among them cleared it.
func (e *Entity) Writes(name string) []Register {
	i, there := e.find(name)
	if !there {
		return nil
	}
	var list []Register
	for _, w := range e.fields[i].history {
		list = append(list, w.register())
	}
	return list
}

// IsGone tells whether the entity was removed and not brought back.
func (e *Entity) IsGone() bool {
	reg, ok := e.gone.winner()
	return ok && string(reg.Value) == "true"
}

// Gone is the write, true or false, that decides whether the entity is gone.
func (e *Entity) Gone() (Register, bool) { return e.gone.winner() }

// At is when it happened, RFC 3339 with offset; empty if nobody said.
func (e *Entity) At() string { return e.at.text() }

// Day is the household's day it happened, YYYY-MM-DD; empty if nobody said.
func (e *Entity) Day() string { return e.day.text() }

// First is the entity's earliest operation, its creation.
func (e *Entity) First() Mark { return *e.marks[0] }

// Last is the entity's operation with the greatest (stamp, id).
func (e *Entity) Last() Mark { return *e.marks[len(e.marks)-1] }

// Newest is the greatest stamp of the entity's operations, ms, whatever became
// of what they say.
func (e *Entity) Newest() int64 { return e.Last().T }

func (e *Entity) find(name string) (int, bool) {
	return slices.BinarySearchFunc(e.fields, name, func(f field, name string) int { return strings.Compare(f.name, name) })
}

// register finds or makes the field's history.
func (e *Entity) register(name string) *history {
	i, there := e.find(name)
	if !there {
		e.fields = slices.Insert(e.fields, i, field{name: name})
	}
	return &e.fields[i].history
}

func (e *Entity) addMark(m *Mark) {
	i, _ := slices.BinarySearchFunc(e.marks, m, (*Mark).compare)
	e.marks = slices.Insert(e.marks, i, m)
}

// removeMark takes out an operation and all that it wrote.
func (e *Entity) removeMark(m *Mark) {
	e.marks = slices.DeleteFunc(e.marks, func(o *Mark) bool { return o == m })
	for i := range e.fields {
		e.fields[i].remove(m)
	}
	e.fields = slices.DeleteFunc(e.fields, func(f field) bool { return len(f.history) == 0 })
	for _, h := range []*history{&e.gone, &e.at, &e.day} {
		h.remove(m)
	}
}
