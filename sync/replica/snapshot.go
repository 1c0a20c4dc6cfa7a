package replica

import (
	"encoding/binary"
	"hash/crc32"
	"maps"
	"slices"
)

// A snapshot is, with every number as an unsigned varint and every text as its
// length and its bytes:
//
//	"tsr1"
//	counts   of texts, entities, operations, fields, writes, asides
//	texts    members, devices, fields and reasons, each once, in the order of first mention
//	entities by kind, then name:
//	         name · number of operations · operations by (stamp, id):
//	             stamp less the one before · id (16 bytes) · member · device<<1 | unread
//	         number of fields · fields by name:  name · writes
//	         writes of gone · of at · of day
//	asides   by entity, field, operation:  entity's name · field · reason · id (16 bytes)
//	CRC-32   (IEEE) of all before, 4 bytes, big-endian
//
// where member, device, field and reason are places in the list of texts, and
// writes are their number and for each the place of its operation and its value.
const magic = "tsr1"

// Snapshot writes the replica as bytes for Restore: equal bytes for equal sets.
// The operations' own bytes are not in it.
func (r *Replica) Snapshot() []byte {
	w := writer{places: map[string]uint64{}}
	var fields, writes int
	for _, kind := range slices.Sorted(maps.Keys(r.kinds)) {
		for e := range r.kinds[kind].all() {
			w.entity(e)
			fields += len(e.fields)
			writes += e.writes()
		}
	}
	asides := r.Asides()
	for _, a := range asides {
		w.text(a.Ent)
		w.place(a.Field)
		w.place(a.Why)
		w.body = append(w.body, a.ID[:]...)
	}

	out := []byte(magic)
	for _, n := range []int{len(w.texts), len(r.entities), len(r.ops), fields, writes, len(asides)} {
		out = binary.AppendUvarint(out, uint64(n))
	}
	for _, s := range w.texts {
		out = binary.AppendUvarint(out, uint64(len(s)))
		out = append(out, s...)
	}
	out = append(out, w.body...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out))
}

// writes counts the writes to all registers of the entity.
func (e *Entity) writes() int {
	n := len(e.gone) + len(e.at) + len(e.day)
	for _, f := range e.fields {
		n += len(f.history)
	}
	return n
}

type writer struct {
	body   []byte
	texts  []string
	places map[string]uint64
}

func (w *writer) number(n uint64) { w.body = binary.AppendUvarint(w.body, n) }

func (w *writer) text(s string) {
	w.number(uint64(len(s)))
	w.body = append(w.body, s...)
}

func (w *writer) place(s string) { w.number(w.placeOf(s)) }

func (w *writer) placeOf(s string) uint64 {
	at, there := w.places[s]
	if !there {
		at = uint64(len(w.texts))
		w.places[s] = at
		w.texts = append(w.texts, s)
	}
	return at
}

func (w *writer) entity(e *Entity) {
	w.text(e.Ent)
	w.number(uint64(len(e.marks)))
	var before int64
	for _, m := range e.marks {
		w.number(uint64(m.T - before))
		before = m.T
		w.body = append(w.body, m.ID[:]...)
		w.place(m.By)
		device := w.placeOf(m.Dev) << 1
		if m.unread {
			device |= 1
		}
		w.number(device)
	}
	w.number(uint64(len(e.fields)))
	for _, f := range e.fields {
		w.place(f.name)
		w.history(e, f.history)
	}
	for _, h := range []history{e.gone, e.at, e.day} {
		w.history(e, h)
	}
}

func (w *writer) history(e *Entity, h history) {
	w.number(uint64(len(h)))
	for _, one := range h {
		at, _ := slices.BinarySearchFunc(e.marks, one.mark, (*Mark).compare)
		w.number(uint64(at))
		w.number(uint64(len(one.value)))
		w.body = append(w.body, one.value...)
	}
}
