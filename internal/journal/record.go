package journal

import (
	"trayside/internal/order"
	"trayside/internal/record"
	"trayside/sync/oplog"
	"trayside/sync/replica"
)

// Reader turns a replica into the typed record. It keeps what it decoded: after
// Touch only the entities named are decoded again. It is used by one goroutine.
type Reader struct {
	rep     *replica.Replica
	names   intern
	space   []record.Item   // what is left of a piece that items are cut from
	touched map[string]bool // entities to decode again; nil: everything

	feedings, undoneFeedings table[record.Feeding]
	looks, undoneLooks       table[record.Look]
	bowls, undoneBowls       table[record.Bowl]
	worms, undoneWorms       table[record.WormEvent]
	freezer, undoneFreezer   table[record.Freezing]
	discards, undoneDiscards table[record.Discard]
	samples, undoneSamples   table[record.Sample]
	harvests, undoneHarvests table[record.Harvest]
	photos, removedPhotos    table[record.Photo] // removed for good
}

// NewReader makes a Reader of a replica, which may grow afterwards as long as
// every added operation's entity is given to Touch.
func NewReader(rep *replica.Replica) *Reader {
	r := &Reader{rep: rep, names: intern{}}
	feeding := func(f *record.Feeding) place { return place{f.Day, f.At, f.ID} }
	look := func(l *record.Look) place { return place{l.Day, l.At, l.ID} }
	bowl := func(b *record.Bowl) place { return place{b.Day, b.At, b.ID} }
	worms := func(w *record.WormEvent) place { return place{w.Day, w.At, w.ID} }
	freezing := func(f *record.Freezing) place { return place{f.Day, f.At, f.ID} }
	discard := func(d *record.Discard) place { return place{d.Day, d.At, d.ID} }
	sample := func(s *record.Sample) place { return place{s.Day, s.At, s.ID} }
	harvest := func(x *record.Harvest) place { return place{x.Day, x.At, x.ID} }
	photo := func(p *record.Photo) place { return place{p.Day, p.At, p.ID} }
	r.feedings.of, r.undoneFeedings.of = feeding, feeding
	r.looks.of, r.undoneLooks.of = look, look
	r.bowls.of, r.undoneBowls.of = bowl, bowl
	r.worms.of, r.undoneWorms.of = worms, worms
	r.freezer.of, r.undoneFreezer.of = freezing, freezing
	r.discards.of, r.undoneDiscards.of = discard, discard
	r.samples.of, r.undoneSamples.of = sample, sample
	r.harvests.of, r.undoneHarvests.of = harvest, harvest
	r.photos.of, r.removedPhotos.of = photo, photo
	return r
}

// Read decodes a replica once.
func Read(rep *replica.Replica) *record.Household { return NewReader(rep).Household() }

// Touch says that an operation on the entity was added to the replica. A change
// of a tray, which is rare, reaches the entries that take their bin from it, so
// everything is read again.
func (r *Reader) Touch(ent string) {
	if oplog.KindOf(ent) == KindTray {
		r.touched = nil
	}
	if r.touched != nil {
		r.touched[ent] = true
	}
}

// Household returns the record. It and all that it holds must not be changed,
// and is good until the next call of Household.
func (r *Reader) Household() *record.Household {
	if r.touched == nil {
		r.readAll()
		r.touched = map[string]bool{}
	}
	for ent := range r.touched {
		r.readAgain(ent)
	}
	clear(r.touched)
	h := &record.Household{
		ID: Home, Mass: record.MassGrams, Temp: record.TempCelsius,
		Feedings: r.feedings.rows, Looks: r.looks.rows, Bowls: r.bowls.rows,
		Worms: r.worms.rows, Freezer: r.freezer.rows, Discards: r.discards.rows,
		Samples: r.samples.rows, Harvests: r.harvests.rows, Photos: r.photos.rows,
		Undone: record.Undone{
			Feedings: r.undoneFeedings.rows, Looks: r.undoneLooks.rows, Bowls: r.undoneBowls.rows,
			Worms: r.undoneWorms.rows, Freezer: r.undoneFreezer.rows, Discards: r.undoneDiscards.rows,
			Samples: r.undoneSamples.rows, Harvests: r.undoneHarvests.rows, Photos: r.removedPhotos.rows,
		},
		Unread: r.rep.Unread(),
	}
	for _, a := range r.rep.Asides() {
		h.Aside = append(h.Aside, record.Aside{Entity: a.Ent, Field: a.Field, Why: a.Why})
	}
	r.readHome(h)
	r.derive(h)
	return h
}

// readAll decodes the entries, of which there are thousands. The few household
// entities are decoded anew for every record: see home.go.
func (r *Reader) readAll() {
	all(r, KindFeeding, &r.feedings, &r.undoneFeedings, (*Reader).feeding)
	all(r, KindLook, &r.looks, &r.undoneLooks, (*Reader).look)
	all(r, KindBowl, &r.bowls, &r.undoneBowls, (*Reader).bowl)
	all(r, KindWorms, &r.worms, &r.undoneWorms, (*Reader).wormEvent)
	all(r, KindFreezing, &r.freezer, &r.undoneFreezer, (*Reader).freezing)
	all(r, KindDiscard, &r.discards, &r.undoneDiscards, (*Reader).discard)
	all(r, KindSample, &r.samples, &r.undoneSamples, (*Reader).sample)
	all(r, KindHarvest, &r.harvests, &r.undoneHarvests, (*Reader).harvest)
	all(r, KindPhoto, &r.photos, &r.removedPhotos, (*Reader).photo)
}

// all fills both tables of a kind. The entities are put in order before they are
// decoded, because a row is ten times as large as its place.
func all[T any](r *Reader, kind string, live, undone *table[T], decode func(*Reader, *replica.Entity) T) {
	*live, *undone = table[T]{of: live.of}, table[T]{of: undone.of}
	type entry struct {
		place
		e *replica.Entity
	}
	var list []entry
	gone := 0
	for e := range r.rep.Entities(kind) {
		if written(e) {
			list = append(list, entry{place{day(e), e.At(), e.Ent}, e})
			if e.IsGone() {
				gone++
			}
		}
	}
	order.By(list, func(a, b entry) int { return a.compare(b.place) })
	live.rows, undone.rows = make([]T, 0, len(list)-gone), make([]T, 0, gone)
	for _, x := range list {
		if x.e.IsGone() {
			undone.rows = append(undone.rows, decode(r, x.e))
		} else {
			live.rows = append(live.rows, decode(r, x.e))
		}
	}
}

// written reports whether an entity says anything of itself. One that was only
// edited or taken back so far, because its creation is still on its way, does not.
func written(e *replica.Entity) bool {
	for range e.Fields() {
		return true
	}
	return false
}

func (r *Reader) readAgain(ent string) {
	switch oplog.KindOf(ent) {
	case KindFeeding:
		again(r, ent, &r.feedings, &r.undoneFeedings, (*Reader).feeding)
	case KindLook:
		again(r, ent, &r.looks, &r.undoneLooks, (*Reader).look)
	case KindBowl:
		again(r, ent, &r.bowls, &r.undoneBowls, (*Reader).bowl)
	case KindWorms:
		again(r, ent, &r.worms, &r.undoneWorms, (*Reader).wormEvent)
	case KindFreezing:
		again(r, ent, &r.freezer, &r.undoneFreezer, (*Reader).freezing)
	case KindDiscard:
		again(r, ent, &r.discards, &r.undoneDiscards, (*Reader).discard)
	case KindSample:
		again(r, ent, &r.samples, &r.undoneSamples, (*Reader).sample)
	case KindHarvest:
		again(r, ent, &r.harvests, &r.undoneHarvests, (*Reader).harvest)
	case KindPhoto:
		again(r, ent, &r.photos, &r.removedPhotos, (*Reader).photo)
	}
}

func again[T any](r *Reader, ent string, live, undone *table[T], decode func(*Reader, *replica.Entity) T) {
	live.drop(ent)
	undone.drop(ent)
	e := r.rep.Entity(ent)
	if e == nil || !written(e) {
		return
	}
	if e.IsGone() {
		undone.put(decode(r, e))
	} else {
		live.put(decode(r, e))
	}
}
