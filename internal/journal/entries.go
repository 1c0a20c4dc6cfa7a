package journal

import (
	"bytes"

	"trayside/internal/record"
	"trayside/internal/units"
	"trayside/sync/replica"
)

// The readers of one field each. A field that was never written, was cleared or
// was set aside reads as its zero value, and so does a day before record.Earliest.

func (r *Reader) text(e *replica.Entity, name string) string {
	reg, ok := e.Field(name)
	if !ok {
		return ""
	}
	s, _ := r.names.text(reg.Value)
	return s
}

func (r *Reader) integer(e *replica.Entity, name string) int64 {
	reg, _ := e.Field(name)
	n, _ := integer(reg.Value)
	return n
}

// maybe reads a number where "nobody said" and 0 are two things.
func (r *Reader) maybe(e *replica.Entity, name string) *int64 {
	reg, ok := e.Field(name)
	if !ok {
		return nil
	}
	n, ok := integer(reg.Value)
	if !ok {
		return nil
	}
	return &n
}

func (r *Reader) truth(e *replica.Entity, name string) bool {
	reg, _ := e.Field(name)
	v, _ := truth(reg.Value)
	return v
}

func (r *Reader) items(e *replica.Entity, name string) []record.Item {
	reg, ok := e.Field(name)
	if !ok {
		return nil
	}
	// Items are cut from large pieces: one allocation for hundreds of entries.
	if n := bytes.Count(reg.Value, []byte{'{'}); cap(r.space) < n {
		r.space = make([]record.Item, 0, max(n, 512))
	}
	list, _ := amountsIn(r.space, reg.Value, r.names)
	r.space = r.space[len(list):len(list)]
	return list[:len(list):len(list)]
}

func (r *Reader) list(e *replica.Entity, name string) []string {
	reg, ok := e.Field(name)
	if !ok {
		return nil
	}
	list, _ := r.names.texts(reg.Value)
	return list
}

func (r *Reader) date(e *replica.Entity, name string) *record.Day {
	reg, ok := e.Field(name)
	if !ok {
		return nil
	}
	d, _ := date(reg.Value)
	if d != nil && *d < record.Earliest {
		return nil
	}
	return d
}

func (r *Reader) who(e *replica.Entity) record.Who {
	return record.Who{Member: r.text(e, "member"), Guest: r.text(e, "guest")}
}

// day is the household's day of an entry; when nobody said one that can be, the
// UTC day of the stamp.
func day(e *replica.Entity) record.Day {
	if d, ok := parseDay(e.Day()); ok && d >= record.Earliest {
		return d
	}
	return max(record.Day(e.First().T/86_400_000), record.Earliest)
}

// edited reports whether anything but taking back and bringing back was written
// after the creation.
func edited(e *replica.Entity) bool {
	first := e.First()
	for _, reg := range e.Fields() {
		if reg.ID != first.ID {
			return true
		}
	}
	return false
}

func (r *Reader) feeding(e *replica.Entity) record.Feeding {
	first := e.First()
	return record.Feeding{
		ID: e.Ent, Bin: r.text(e, "bin"), Tray: r.text(e, "tray"), Spot: r.text(e, "spot"),
		Items: r.items(e, "items"), How: record.How(r.text(e, "how")), Who: r.who(e),
		Logger: first.By, Device: first.Dev, Bowl: r.text(e, "bowl"), Vessel: r.text(e, "vessel"),
		Knew: r.list(e, "knew"), Stamp: first.T, Edited: edited(e),
		At: e.At(), Day: day(e), About: r.truth(e, "about"), Note: r.text(e, "note"),
	}
}

func (r *Reader) look(e *replica.Entity) record.Look {
	l := record.Look{
		ID: e.Ent, Bin: r.text(e, "bin"), Tray: r.text(e, "tray"), Spot: r.text(e, "spot"),
		Leftovers: record.Leftovers(r.text(e, "leftovers")), Squeeze: r.text(e, "squeeze"),
		TempOf: r.text(e, "tempOf"), Smell: r.text(e, "smell"), Note: r.text(e, "note"),
		Visitors: r.list(e, "visitors"), Cover: r.text(e, "cover"), Covered: r.truth(e, "covered"),
		Liquid: r.maybe(e, "liquid"), Fill: r.maybe(e, "fill"), Weight: r.maybe(e, "weight"),
		Meter: r.maybe(e, "meter"), PH: r.maybe(e, "ph"), Signs: r.list(e, "signs"), Unlogged: r.text(e, "unlogged"),
		Who: r.who(e), Logger: e.First().By, Edited: edited(e), At: e.At(), Day: day(e),
	}
	if _, ok := e.Field("temp"); ok {
		t := units.DeciCelsius(r.integer(e, "temp"))
		l.Temp = &t
	}
	return l
}

func (r *Reader) bowl(e *replica.Entity) record.Bowl {
	return record.Bowl{
		ID: e.Ent, Name: r.text(e, "name"), Items: r.items(e, "items"), How: record.How(r.text(e, "how")),
		Who: r.who(e), Logger: e.First().By, At: e.At(), Day: day(e),
	}
}

func (r *Reader) wormEvent(e *replica.Entity) record.WormEvent {
	return record.WormEvent{
		ID: e.Ent, Bin: r.text(e, "bin"), Tray: r.text(e, "tray"), Move: record.WormMove(r.text(e, "move")),
		Mass: units.Grams(r.integer(e, "mass")), Share: int(r.integer(e, "share")), Wide: r.truth(e, "wide"),
		At: e.At(), Day: day(e),
	}
}

func (r *Reader) freezing(e *replica.Entity) record.Freezing {
	return record.Freezing{ID: e.Ent, Bowl: r.text(e, "bowl"), Items: r.items(e, "items"), At: e.At(), Day: day(e)}
}

func (r *Reader) discard(e *replica.Entity) record.Discard {
	return record.Discard{ID: e.Ent, Bowl: r.text(e, "bowl"), Items: r.items(e, "items"), At: e.At(), Day: day(e)}
}

func (r *Reader) sample(e *replica.Entity) record.Sample {
	return record.Sample{
		ID: e.Ent, Bin: r.text(e, "bin"), Tray: r.text(e, "tray"),
		Scoops: int(r.integer(e, "scoops")), ML: r.integer(e, "ml"),
		Adults: int(r.integer(e, "adults")), Young: int(r.integer(e, "young")), Cocoons: int(r.integer(e, "cocoons")),
		Who: r.who(e), Logger: e.First().By, At: e.At(), Day: day(e),
	}
}

func (r *Reader) harvest(e *replica.Entity) record.Harvest {
	return record.Harvest{
		ID: e.Ent, Bin: r.text(e, "bin"), Tray: r.text(e, "tray"), Batch: r.text(e, "batch"),
		Method: record.HarvestMethod(r.text(e, "method")), Mass: units.Grams(r.integer(e, "grams")),
		ML: r.integer(e, "ml"), Buckets: r.integer(e, "buckets"), Worms: units.Grams(r.integer(e, "worms")),
		Note: r.text(e, "note"), Who: r.who(e), Logger: e.First().By, At: e.At(), Day: day(e),
	}
}

func (r *Reader) photo(e *replica.Entity) record.Photo {
	return record.Photo{
		ID: e.Ent, Of: r.text(e, "of"), Hash: r.text(e, "hash"), Type: r.text(e, "type"),
		Width: r.integer(e, "width"), Height: r.integer(e, "height"), Bytes: r.integer(e, "bytes"),
		Who: r.who(e), Logger: e.First().By, At: e.At(), Day: day(e),
	}
}
