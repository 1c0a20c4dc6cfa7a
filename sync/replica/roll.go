package replica

import (
	"iter"
	"slices"
	"strings"
)

// roll keeps the entities of one kind in the order of their names. New ones go
// into a short list that is merged into the long one when it is full: that is
// far cheaper than inserting into the long one each time, and reading changes
// nothing, so several readers may read at once.
type roll struct {
	long, short []*Entity
}

const shortList = 256

func (r *roll) insert(e *Entity) {
	i, _ := slices.BinarySearchFunc(r.short, e, byName)
	r.short = slices.Insert(r.short, i, e)
	if len(r.short) >= shortList+len(r.long)/64 {
		r.long = slices.AppendSeq(make([]*Entity, 0, r.len()+shortList), r.all())
		r.short = nil
	}
}

func (r *roll) remove(e *Entity) {
	same := func(o *Entity) bool { return o == e }
	r.long, r.short = slices.DeleteFunc(r.long, same), slices.DeleteFunc(r.short, same)
}

func (r *roll) len() int { return len(r.long) + len(r.short) }

func (r *roll) all() iter.Seq[*Entity] {
	return func(yield func(*Entity) bool) {
		long, short := r.long, r.short
		for len(long)+len(short) > 0 {
			var e *Entity
			if len(short) == 0 || len(long) > 0 && byName(long[0], short[0]) < 0 {
				e, long = long[0], long[1:]
			} else {
				e, short = short[0], short[1:]
			}
			if !yield(e) {
				return
			}
		}
	}
}

func byName(a, b *Entity) int { return strings.Compare(a.Ent, b.Ent) }
