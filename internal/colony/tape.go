package colony

import (
	"encoding/binary"
	"errors"
	"math"
	"slices"

	"trayside/internal/record"
)

// keepVersion is bumped whenever what a Keep's bytes mean changes: a field, its
// place, or what the model makes of it. The rates of the species are checked
// apart, by the digest.
const keepVersion = 4

// errKeep refuses bytes that are no Keep of this version.
var errKeep = errors.New("colony: the state of the bin is damaged or of another version; it is worked out from the log anew")

// Append writes a Keep behind b, for ReadKeep: numbers as varints, fractions as
// the eight bytes of their bits, little-endian, in the order of pass.
func (k *Keep) Append(b []byte) []byte {
	t := tape{b: b}
	c := *k
	c.pass(&t)
	return t.b
}

// ReadKeep reads what Append wrote. An error means that the bin has to be worked
// out from its log.
func ReadKeep(b []byte) (*Keep, error) {
	t := tape{b: b, reading: true}
	k := &Keep{ensemble: &Ensemble{particles: make([]particle, crowd)}}
	k.pass(&t)
	if t.bad || len(t.b) > 0 {
		return nil, errKeep
	}
	return k, nil
}

// tape passes a state's parts by one after the other, and either writes them or
// reads them back, so that both go the same way. It is bad once anything that
// was read does not fit; what is read afterwards is zero.
type tape struct {
	b       []byte // written so far, or left to read
	reading bool
	bad     bool
}

func (t *tape) fail() {
	t.bad, t.b = true, nil
}

func (t *tape) whole(x *int) {
	if !t.reading {
		t.b = binary.AppendVarint(t.b, int64(*x))
		return
	}
	n, size := binary.Varint(t.b)
	if size <= 0 || n < math.MinInt32 || n > math.MaxInt32 {
		t.fail()
		return
	}
	*x, t.b = int(n), t.b[size:]
}

func (t *tape) day(d *record.Day) {
	n := int(*d)
	t.whole(&n)
	*d = record.Day(n)
}

func (t *tape) flag(x *bool) {
	n := 0
	if *x {
		n = 1
	}
	t.whole(&n)
	*x = n == 1
}

func (t *tape) key(x *uint64) {
	if !t.reading {
		t.b = binary.LittleEndian.AppendUint64(t.b, *x)
		return
	}
	if len(t.b) < 8 {
		t.fail()
		return
	}
	*x, t.b = binary.LittleEndian.Uint64(t.b), t.b[8:]
}

// fractions are finite in every sound state.
func (t *tape) fractions(xs ...*float64) {
	for _, x := range xs {
		n := math.Float64bits(*x)
		t.key(&n)
		*x = math.Float64frombits(n)
		if t.reading && (math.IsNaN(*x) || math.IsInf(*x, 0)) {
			t.fail()
			*x = 0
		}
	}
}

func (t *tape) list(xs []float64) {
	for i := range xs {
		t.fractions(&xs[i])
	}
}

// count passes a number of things that take least bytes each, so that no number
// read makes room for more than there can be.
func (t *tape) count(n, least int) int {
	t.whole(&n)
	if t.reading && (n < 0 || n > len(t.b)/least) {
		t.fail()
		return 0
	}
	return n
}

func (t *tape) text(s *string) {
	n := t.count(len(*s), 1)
	if !t.reading {
		t.b = append(t.b, *s...)
		return
	}
	*s, t.b = string(t.b[:n]), t.b[n:]
}

// within fails unless n is one of 0 … end-1.
func (t *tape) within(n, end int) {
	if t.reading && (n < 0 || n >= end) {
		t.fail()
	}
}

func (k *Keep) pass(t *tape) {
	version := keepVersion
	t.whole(&version)
	if version != keepVersion {
		t.fail()
	}
	t.key(&k.digest)
	k.ensemble.pass(t)
}

// pass leaves out what the log says again (see Resume) and what a Keep has none of.
func (e *Ensemble) pass(t *tape) {
	t.day(&e.day)
	t.whole(&e.newest)
	t.within(e.newest+1, math.MaxInt32)
	t.day(&e.mealDay)
	t.whole(&e.drawn)
	t.fractions(&e.usual, &e.pause, &e.size, &e.least)
	t.day(&e.known.started)
	t.whole(&e.known.looks)
	t.whole(&e.known.tested)
	t.whole(&e.known.clean)
	t.whole(&e.known.odd)
	t.flag(&e.known.hasWorms)
	e.bed.pass(t)
	e.passAsk(t)
	e.passSaid(t)
	e.passParticles(t)
}

func (b *bed) pass(t *tape) {
	t.flag(&b.read)
	t.flag(&b.ofRoom)
	t.flag(&b.squeezed)
	t.flag(&b.south)
	t.flag(&b.named)
	t.day(&b.reading)
	t.day(&b.squeeze)
	t.day(&b.phRead)
	t.fractions(&b.coolest, &b.warmest, &b.off, &b.moist, &b.ph)
}

func (e *Ensemble) passAsk(t *tape) {
	asked := e.ask != nil
	t.flag(&asked)
	if !asked {
		return
	}
	a := e.ask
	if t.reading {
		a = new(Ask)
		e.ask = a
	}
	t.text(&a.Code)
	t.text(&a.Tray)
	t.text(&a.Look)
	t.day(&a.Day)
	t.fractions(&a.Chance)
}

func (e *Ensemble) passSaid(t *tape) {
	meals := make([]string, 0, len(e.said))
	for m := range e.said {
		meals = append(meals, m)
	}
	slices.Sort(meals)
	n := t.count(len(meals), 7)
	if t.reading {
		e.said = make(map[string]Forecast, n)
		meals = make([]string, n)
	}
	for _, m := range meals {
		f := e.said[m]
		t.text(&m)
		for _, d := range []*record.Day{&f.Mid, &f.Early, &f.Late, &f.By} {
			n := int(*d - e.day)
			t.whole(&n)
			*d = e.day + record.Day(n)
		}
		t.whole(&f.Chance)
		t.flag(&f.Gone)
		if t.reading {
			e.said[m] = f
		}
	}
}

// passParticles writes each morsel as a place in a table of those that differ in
// more than their grams, because the particles share most of them.
func (e *Ensemble) passParticles(t *tape) {
	var table []Morsel
	if !t.reading {
		table = e.morsels()
	}
	n := t.count(len(table), 19)
	if t.reading {
		table = make([]Morsel, n)
	}
	trays := t.count(len(e.particles[0].Share), 1)
	t.within(trays-1, maxTrays)
	for i := range table {
		m := &table[i]
		t.whole(&m.Meal)
		t.whole(&m.Part)
		t.whole(&m.Tray)
		t.fractions(&m.Appeal, &m.Rot)
		t.within(m.Meal, e.newest+1)
		t.within(m.Tray, trays)
	}
	for i := range e.particles {
		p := &e.particles[i]
		if t.reading {
			if t.bad {
				return
			}
			p.Share, p.Sums.ByTray = make([]float64, trays), make([]float64, trays)
		}
		p.pass(t)
		t.within(p.ghost.meal, max(1, e.newest+1))
		p.passFood(t, table)
	}
}

func (p *particle) pass(t *tape) {
	t.list(p.Cocoon[:])
	t.list(p.Young[:])
	t.list(p.Adult[:])
	t.list(p.YoungSize[:])
	t.fractions(&p.AdultSize, &p.Flesh, &p.Fed)
	t.fractions(&p.Hunger, &p.Broad, &p.Fertile, &p.Frail, &p.Roomy, &p.Slow, &p.Sparing)
	t.list(p.Share)
	s := &p.Sums
	t.fractions(&s.Fed, &s.Eaten, &s.Rotted, &s.Out, &s.Corrected, &s.Night, &s.Laid)
	t.list(s.ByTray)
	t.list(p.hidden[:])
	t.fractions(&p.weight, &p.unlogged)
	t.whole(&p.strand)
	t.within(p.strand, len(strands))
	t.day(&p.ghost.day)
	t.fractions(&p.ghost.grams)
	t.whole(&p.ghost.meal)
	t.list(p.amounts[:])
}

func (p *particle) passFood(t *tape, table []Morsel) {
	n := t.count(len(p.Food), 17)
	if t.reading && n > 0 {
		p.Food = make([]Morsel, n)
	}
	at := 0
	for i := range p.Food {
		m := &p.Food[i]
		if !t.reading {
			at = placeOf(table, m, at)
		}
		t.whole(&at)
		t.within(at, len(table))
		if t.bad {
			return
		}
		if t.reading {
			*m = table[at]
		}
		t.fractions(&m.Fed, &m.Left)
	}
}

// morsels lists what lies in any particle, without its grams.
func (e *Ensemble) morsels() []Morsel {
	var table []Morsel
	at := 0
	for i := range e.particles {
		for k := range e.particles[i].Food {
			m := &e.particles[i].Food[k]
			if at = placeOf(table, m, at); at == len(table) {
				kind := *m
				kind.Fed, kind.Left = 0, 0
				table = append(table, kind)
			}
		}
	}
	return table
}

// placeOf returns where in a table a morsel's kind stands, looking first where
// the last one stood and behind it; the table's end if it does not.
func placeOf(table []Morsel, m *Morsel, last int) int {
	for n := range table {
		at := (last + n) % len(table)
		kind := table[at]
		kind.Fed, kind.Left = m.Fed, m.Left
		if kind == *m {
			return at
		}
	}
	return len(table)
}
