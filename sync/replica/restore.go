package replica

import (
	"encoding/binary"
	"errors"
	"hash/crc32"
	"strings"

	"trayside/sync/oplog"
)

var errSnapshot = errors.New("replica: the snapshot is damaged or of another version; fold the log anew")

// Restore reads what Snapshot wrote and keeps parts of b, which the caller must
// not change afterwards. The schema must be the one that the snapshot was made
// with: what it set aside is not judged again. An error means that the snapshot
// is of no use and the log must be folded anew.
func Restore(b []byte, schema Schema) (*Replica, error) {
	end := len(b) - crc32.Size
	if end < len(magic) || string(b[:len(magic)]) != magic ||
		binary.BigEndian.Uint32(b[end:]) != crc32.ChecksumIEEE(b[:end]) {
		return nil, errSnapshot
	}
	d := reader{b: b[:end], s: string(b[:end]), i: len(magic)}
	texts, entities, ops := d.count(), d.count(), d.count()
	fields, writes, asides := d.count(), d.count(), d.count()
	if d.bad {
		return nil, errSnapshot
	}
	// Few large pieces instead of many small ones: that is most of the speed.
	d.texts = make([]string, texts)
	d.marks, d.pointers = make([]Mark, ops), make([]*Mark, ops)
	d.fields, d.writes = make([]field, fields), make([]write, writes)
	all := make([]Entity, entities)
	r := &Replica{
		schema:   schema,
		entities: make(map[string]*Entity, entities),
		kinds:    map[string]*roll{},
		ops:      make(map[oplog.ID]*Mark, ops),
	}
	for i := range d.texts {
		d.texts[i] = d.text()
	}
	for i := range all {
		e := &all[i]
		d.entity(e)
		if d.bad {
			return nil, errSnapshot
		}
		r.entities[e.Ent] = e
		k := r.roll(e.Kind())
		k.long = append(k.long, e)
		for _, m := range e.marks {
			r.ops[m.ID] = m
			if m.unread {
				r.unread++
			}
		}
	}
	for range asides {
		r.aside = append(r.aside, Aside{Ent: d.text(), Field: d.place(), Why: d.place(), ID: d.id()})
	}
	if d.bad || d.i != len(d.b) || len(r.ops) != ops || len(r.entities) != entities {
		return nil, errSnapshot
	}
	return r, nil
}

// reader reads a snapshot; bad is set once anything does not fit, and all that
// is read afterwards is empty.
type reader struct {
	b   []byte
	s   string // the same bytes: texts and values share them instead of copying
	i   int
	bad bool

	texts    []string
	marks    []Mark // what is left of the pieces
	pointers []*Mark
	fields   []field
	writes   []write
}

func (d *reader) number() uint64 {
	n, size := binary.Uvarint(d.b[d.i:])
	if size <= 0 {
		d.bad = true
		return 0
	}
	d.i += size
	return n
}

// count reads a number of things that take at least a byte each.
func (d *reader) count() int {
	n := d.number()
	if n > uint64(len(d.b)-d.i) {
		d.bad = true
		return 0
	}
	return int(n)
}

// next passes over n bytes and tells where they began.
func (d *reader) next(n int) (from int) {
	if n > len(d.b)-d.i {
		d.bad = true
		return d.i
	}
	d.i += n
	return d.i - n
}

func (d *reader) text() string {
	from := d.next(d.count())
	return d.s[from:d.i]
}

func (d *reader) place() string {
	n := d.number()
	if n >= uint64(len(d.texts)) {
		d.bad = true
		return ""
	}
	return d.texts[n]
}

func (d *reader) id() (id oplog.ID) {
	from := d.next(len(id))
	copy(id[:], d.b[from:d.i])
	return id
}

// take cuts n things off a piece.
func take[T any](d *reader, piece *[]T, n int) []T {
	if d.bad || n > len(*piece) {
		d.bad = true
		return nil
	}
	cut := (*piece)[:n:n]
	*piece = (*piece)[n:]
	return cut
}

func (d *reader) entity(e *Entity) {
	e.Ent = d.text()
	if !strings.Contains(e.Ent, "/") {
		d.bad = true
	}
	n := d.count()
	marks := take(d, &d.marks, n)
	e.marks = take(d, &d.pointers, n)
	var t int64
	for i := range marks {
		m := &marks[i]
		t += int64(d.number())
		m.T, m.ID, m.By = t, d.id(), d.place()
		device := d.number()
		m.unread = device&1 == 1
		if device>>1 >= uint64(len(d.texts)) {
			d.bad = true
			return
		}
		m.Dev = d.texts[device>>1]
		m.entity = e
		e.marks[i] = m
	}
	if n == 0 {
		d.bad = true
		return
	}
	e.fields = take(d, &d.fields, d.count())
	for i := range e.fields {
		e.fields[i] = field{d.place(), d.history(e)}
	}
	e.gone, e.at, e.day = d.history(e), d.history(e), d.history(e)
}

func (d *reader) history(e *Entity) history {
	h := take(d, &d.writes, d.count())
	for i := range h {
		at := d.number()
		from := d.next(d.count())
		if d.bad || at >= uint64(len(e.marks)) {
			d.bad = true
			return nil
		}
		h[i] = write{e.marks[at], d.b[from:d.i:d.i]}
	}
	return h
}
