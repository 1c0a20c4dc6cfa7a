package colony

import (
	"cmp"
	"slices"

	"trayside/internal/order"
	"trayside/internal/record"
)

// stack is a bin's log with its trays in place.
type stack struct {
	in    *Input
	trays []string // tray ids by index
	spans [][]Tray // the batches of each tray, in order of Bedded
}

// event is one entry of the log in its place in the day.
type event struct {
	day  record.Day
	at   string
	kind int // ties: worms, then looks, then meals, so that a look never sees a meal of the same instant
	n    int
	id   string
}

const (
	harvestEvent = iota // taken in before the day's trays turn over
	wormEvent
	lookEvent
	sampleEvent
	mealEvent
)

// stackOf lists the trays and their batches.
func stackOf(in *Input) stack {
	c := stack{in: in}
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
		order.By(s, func(a, b Tray) int { return cmp.Compare(a.Bedded, b.Bedded) })
	}
	return c
}

// plainArea is the surface of a tray whose size nobody gave, m²: 350 × 350 mm
// (judgement).
const plainArea = 0.1225

// events puts the log in order. Meals come as they were given; the others may
// come in any order.
func (c *stack) events() []event {
	var es []event
	for i := range c.in.Harvests {
		h := &c.in.Harvests[i]
		es = append(es, event{h.Day, h.At, harvestEvent, i, h.ID})
	}
	for i, w := range c.in.Worms {
		es = append(es, event{w.Day, w.At, wormEvent, i, w.ID})
	}
	for i, l := range c.in.Looks {
		es = append(es, event{l.Day, l.At, lookEvent, i, l.ID})
	}
	for i, s := range c.in.Samples {
		es = append(es, event{s.Day, s.At, sampleEvent, i, s.ID})
	}
	for i, m := range c.in.Meals {
		es = append(es, event{m.Day, m.At, mealEvent, i, ""})
	}
	es = slices.DeleteFunc(es, func(e event) bool { return e.day > c.in.Today })
	order.By(es, func(a, b event) int {
		return cmp.Or(cmp.Compare(a.day, b.day), cmp.Compare(a.at, b.at), cmp.Compare(a.kind, b.kind), cmp.Compare(a.id, b.id), cmp.Compare(a.n, b.n))
	})
	return es
}

// batch returns the batch that tray i holds on day d, and whether it holds one.
func (c *stack) batch(i int, d record.Day) (Tray, bool) {
	for k := len(c.spans[i]) - 1; k >= 0; k-- {
		t := c.spans[i][k]
		if t.Bedded <= d {
			return t, t.Emptied == nil || *t.Emptied > d
		}
	}
	return c.spans[i][0], false
}

// tiers returns the trays as they are on day d.
func (c *stack) tiers(d record.Day) []Tier {
	tiers := make([]Tier, len(c.trays))
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
		tiers[i] = t
	}
	return tiers
}

// How strongly a tray without food draws worms, 1 with food: judgement. A
// resting tray keeps some: cocoons hatch there, and castings are food of a kind.
const (
	openPull    = 0.50
	restingPull = 0.05
)

// hostOn returns the index of a tray by id. For an id nobody has described it
// is the tray worms are put into on day d: the highest in use that takes food,
// or any.
func (c *stack) hostOn(id string, d record.Day) int {
	if i := slices.Index(c.trays, id); i >= 0 {
		return i
	}
	best, rank := 0, -1
	for i := range c.trays {
		b, inUse := c.batch(i, d)
		r := b.Height
		if inUse {
			r += 1000
		}
		if inUse && b.Feeding != nil && *b.Feeding <= d {
			r += 1000
		}
		if r > rank {
			best, rank = i, r
		}
	}
	return best
}
