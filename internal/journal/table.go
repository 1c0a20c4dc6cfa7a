package journal

import (
	"slices"
	"strings"

	"trayside/internal/record"
)

// place is where a row stands in its table.
type place struct {
	day record.Day
	at  string
	id  string
}

func (p place) compare(o place) int {
	if p.day != o.day {
		return int(p.day) - int(o.day)
	}
	if c := strings.Compare(p.at, o.at); c != 0 {
		return c
	}
	return strings.Compare(p.id, o.id)
}

// table keeps rows sorted by place, so that one new entry moves rows aside
// instead of sorting years of them again.
type table[T any] struct {
	rows []T
	of   func(*T) place
	ids  map[string]bool // of the rows; made at the first put
}

// put replaces the row of that id, or inserts it.
func (t *table[T]) put(row T) {
	p := t.of(&row)
	t.drop(p.id)
	i, _ := slices.BinarySearchFunc(t.rows, p, func(r T, p place) int { return t.of(&r).compare(p) })
	t.rows = slices.Insert(t.rows, i, row)
	t.ids[p.id] = true
}

// drop removes the row of that id, if there is one. Recent rows are what people
// change, so it looks for it from the end.
func (t *table[T]) drop(id string) {
	if t.ids == nil {
		t.ids = make(map[string]bool, len(t.rows))
		for i := range t.rows {
			t.ids[t.of(&t.rows[i]).id] = true
		}
	}
	if !t.ids[id] {
		return
	}
	delete(t.ids, id)
	for i := len(t.rows) - 1; i >= 0; i-- {
		if t.of(&t.rows[i]).id == id {
			t.rows = slices.Delete(t.rows, i, i+1)
			return
		}
	}
}
