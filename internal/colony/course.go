package colony

import (
	"cmp"
	"slices"

	"trayside/internal/record"
)

// Course is a bin's log run through the model up to Input.Today. It does not
// change; its methods may be called in any order.
type Course struct {
	in     *Input
	rates  *Rates
	trays  []string // tray ids by index
	spans  [][]Tray // the batches of each tray, in order of Bedded
	state  State
	bed    bed
	known  known
	soft   []float64 // g of the soft part of each meal when fed
	newest int       // the newest meal fed so far, -1 before the first
	said   map[string]Forecast
	day    record.Day

	proofs []proof // by tray
}

// known is what the log has told, and when.
type known struct {
	started   record.Day
	massErr   float64    // of log live mass when last told
	massDay   record.Day // when worms were last added or weighed
	looks     int
	tested    int        // looks at meals: they could have contradicted the model
	measured  int        // those that bounded the appetite on both sides
	lookDay   record.Day // of the last of these
	clean     int
	hasWorms  bool
	hasLooked bool
}

// event is one entry of the log in its place in the day.
type event struct {
	day  record.Day
	at   string
	kind int // ties: worms, then looks, then meals, so that a look never sees a meal of the same instant
	n    int
}

const (
	wormEvent = iota
	lookEvent
	mealEvent
)

// Follow runs a bin's log through the model, up to the day it ends on and what
// happened on that day. Entries after Input.Today are left out. Meals must be
// in the order they were fed; the rest is sorted here. in must not change while
// the course is used.
func Follow(in *Input) *Course { return Watch(in, nil) }

// Watch follows a log as Follow does and calls before for every meal, with the
// course as it stands when the meal goes in: what would have been advised then.
func Watch(in *Input, before func(c *Course, meal int)) *Course {
	c := &Course{in: in, rates: RatesOf(in.Species), bed: newBed(in), said: make(map[string]Forecast, len(in.Meals))}
	c.newest = -1
	c.index()
	c.state = NewState(c.rates, len(c.trays))
	c.proofs = make([]proof, len(c.trays))
	c.soft = make([]float64, len(in.Meals))
	events := c.events()
	if len(events) == 0 {
		c.day = in.Today
		return c
	}
	c.day = min(events[0].day, in.Today)
	for next := 0; ; c.day++ {
		c.turnOver()
		fed := next
		for next < len(events) && events[next].day == c.day {
			if e := events[next]; before != nil && e.kind == mealEvent {
				before(c, e.n)
			}
			c.take(events[next])
			next++
		}
		c.promise(events[fed:next])
		if c.day >= in.Today {
			return c
		}
		c.night()
	}
}

// index lists the trays and their batches.
func (c *Course) index() {
	for _, t := range c.in.Trays {
		i := slices.Index(c.trays, t.ID)
		if i < 0 {
			if len(c.trays) == maxTrays {
				continue
			}
			i = len(c.trays)
			c.trays = append(c.trays, t.ID)
			c.spans = append(c.spans, nil)
		}
		c.spans[i] = append(c.spans[i], t)
	}
	if len(c.trays) == 0 {
		// A bin that nobody has described still has a bed.
		c.trays = []string{""}
		c.spans = [][]Tray{{{AreaM2: plainArea}}}
	}
	for _, s := range c.spans {
		slices.SortStableFunc(s, func(a, b Tray) int { return cmp.Compare(a.Bedded, b.Bedded) })
	}
}

// plainArea is the surface of a tray whose size nobody gave, m²: 350 × 350 mm
// (judgement).
const plainArea = 0.1225

// events puts the log in order.
func (c *Course) events() []event {
	var es []event
	for i, w := range c.in.Worms {
		es = append(es, event{w.Day, w.At, wormEvent, i})
	}
	for i, l := range c.in.Looks {
		es = append(es, event{l.Day, l.At, lookEvent, i})
	}
	for i, m := range c.in.Meals {
		es = append(es, event{m.Day, m.At, mealEvent, i})
	}
	es = slices.DeleteFunc(es, func(e event) bool { return e.day > c.in.Today })
	slices.SortStableFunc(es, func(a, b event) int {
		return cmp.Or(cmp.Compare(a.day, b.day), cmp.Compare(a.at, b.at), cmp.Compare(a.kind, b.kind), cmp.Compare(a.n, b.n))
	})
	return es
}

// batch returns the batch that tray i holds on day d, and whether it holds one.
func (c *Course) batch(i int, d record.Day) (Tray, bool) {
	for k := len(c.spans[i]) - 1; k >= 0; k-- {
		t := c.spans[i][k]
		if t.Bedded <= d {
			return t, t.Emptied == nil || *t.Emptied > d
		}
	}
	return c.spans[i][0], false
}

// conditions returns what day d does to the bin.
func (c *Course) conditions(d record.Day) *Conditions {
	cond := &Conditions{BedC: c.bed.celsius(d), Moist: c.bed.moisture(d), Tiers: make([]Tier, len(c.trays))}
	for i := range c.trays {
		b, inUse := c.batch(i, d)
		t := Tier{AreaM2: b.AreaM2, InUse: inUse}
		if t.AreaM2 <= 0 {
			t.AreaM2 = plainArea
		}
		switch {
		case !inUse:
		case b.Resting != nil && *b.Resting <= d:
			t.Pull = restingPull
		case b.Feeding != nil && *b.Feeding <= d || len(c.trays) == 1:
			t.Pull = openPull
		}
		cond.Tiers[i] = t
	}
	return cond
}

// How strongly a tray without food draws worms, 1 with food: judgement. A
// resting tray keeps some: cocoons hatch there, and castings are food of a kind.
const (
	openPull    = 0.50
	restingPull = 0.05
)

// turnOver empties the trays whose batch ended today: food goes out with it,
// the worms are put back among the others (what was lost or taken is logged on
// its own).
func (c *Course) turnOver() {
	for i, spans := range c.spans {
		for _, t := range spans {
			if t.Emptied != nil && *t.Emptied == c.day {
				c.empty(i)
			}
			if t.Bedded == c.day {
				c.state.Sums.ByTray[i] = 0
			}
		}
	}
}

func (c *Course) empty(tray int) {
	s := &c.state
	kept := s.Food[:0]
	for _, m := range s.Food {
		if m.Tray == tray {
			s.Sums.Out += m.Left
			continue
		}
		kept = append(kept, m)
	}
	s.Food = kept
	s.Sums.ByTray[tray] = 0
	c.proofs[tray] = proof{}
	moved := s.Share[tray]
	s.Share[tray] = 0
	if rest := sum(s.Share); rest > 0 {
		for i := range s.Share {
			s.Share[i] = float64(s.Share[i] / rest)
		}
	} else if moved > 0 {
		s.Share[c.host("")] = 1
	}
}

// host returns the index of a tray by id. For an id nobody has described it is
// the tray worms are put into: the highest in use that takes food, or any.
func (c *Course) host(id string) int {
	if i := slices.Index(c.trays, id); i >= 0 {
		return i
	}
	best, rank := 0, -1
	for i := range c.trays {
		b, inUse := c.batch(i, c.day)
		r := b.Height
		if inUse {
			r += 1000
		}
		if inUse && b.Feeding != nil && *b.Feeding <= c.day {
			r += 1000
		}
		if r > rank {
			best, rank = i, r
		}
	}
	return best
}

func (c *Course) take(e event) {
	switch e.kind {
	case wormEvent:
		c.worms(&c.in.Worms[e.n])
	case lookEvent:
		c.look(&c.in.Looks[e.n])
	case mealEvent:
		c.feed(e.n)
	}
}

// feed lays a meal down.
func (c *Course) feed(n int) {
	m := &c.in.Meals[n]
	c.newest = max(c.newest, n)
	tray := c.host(m.Tray)
	for k, p := range m.Parts {
		soft := max(0, float64(p.Grams*p.Soft))
		c.soft[n] += soft
		if soft > 0 {
			c.state.Food = append(c.state.Food, Morsel{Meal: n, Part: k, Tray: tray, Appeal: max(0, p.Appeal), Rot: p.Rot, Fed: soft, Left: soft})
		}
	}
	c.state.Sums.Fed += c.soft[n]
	c.proofs[tray].fed(m.Day, c.soft[n], m.Err)
	if c.state.Share[tray] < settleShare && sum(c.state.Share) > 0 {
		c.moveTo(tray, settleShare)
	}
}

// moveTo raises the share of one tray to at least share, at the others' cost.
func (c *Course) moveTo(tray int, share float64) {
	s := c.state.Share
	if len(s) == 1 || s[tray] >= share {
		return
	}
	keep := (1 - share) / (1 - s[tray])
	for i := range s {
		s[i] = float64(s[i] * keep)
	}
	s[tray] = share
}

func (c *Course) night() { c.state.Step(c.rates, c.conditions(c.day)) }
