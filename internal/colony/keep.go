package colony

import (
	"fmt"
	"maps"
	"slices"

	"trayside/internal/record"
)

// Keep is an ensemble at the start of a past day, for a caller to hold on to: a
// log to which entries of that day and later have been added goes on from there
// (Resume). It does not change and may be used any number of times.
type Keep struct {
	ensemble *Ensemble
	digest   uint64 // of everything the log says of the days before
}

// A Keep is taken on the last day that keepEvery divides and that lies keepBack
// days back: what is written down late is mostly written within days, and the
// chain of past rations is worked out again over two months.
const (
	keepBack  = 61
	keepEvery = 16
)

func keepDay(today record.Day) record.Day {
	d := today - keepBack
	return d - d%keepEvery
}

// Kept returns the newest state worth keeping, nil if the log is too short.
func (e *Ensemble) Kept() *Keep { return e.kept }

// keep copies the ensemble as it stands at the start of its day.
func (e *Ensemble) keep() *Keep {
	return &Keep{ensemble: e.clone(), digest: e.digest(e.day)}
}

func (e *Ensemble) clone() *Ensemble {
	c := *e
	c.particles, c.spare = make([]particle, len(e.particles)), make([]particle, len(e.particles))
	for i := range e.particles {
		c.particles[i].copyFrom(&e.particles[i])
	}
	c.soft = slices.Clone(e.soft)
	c.said = maps.Clone(e.said)
	c.changes, c.kept = nil, nil
	return &c
}

// Resume runs a bin's log through an ensemble as Gather does, from a Keep of an
// earlier run if what the log says of the days before it is still the same, and
// calls before, if there is one, for every meal that it then passes, with the
// ensemble as it stands when the meal goes in. The numbers are those of a whole
// run, to the last bit.
func Resume(in *Input, from *Keep, before func(e *Ensemble, meal int)) *Ensemble {
	e := newEnsemble(in)
	events := e.events()
	if from != nil && from.ensemble.day <= in.Today && from.digest == e.digest(from.ensemble.day) {
		kept := from.ensemble.clone()
		kept.stack, kept.kept = e.stack, from
		e = kept
	} else {
		e.day = in.Today
		if len(events) > 0 {
			e.day = min(events[0].day, in.Today)
		}
	}
	e.soft = append(e.soft, make([]float64, max(0, len(in.Meals)-len(e.soft)))...)[:len(in.Meals)]
	for n := max(0, e.newest+1); n < len(in.Meals); n++ {
		e.soft[n] = 0
	}
	if len(events) == 0 {
		return e
	}
	first := slices.IndexFunc(events, func(ev event) bool { return ev.day >= e.day })
	if first < 0 {
		first = len(events)
	}
	e.run(events[first:], before)
	return e
}

// digest returns a key of everything the log says of the days before d.
func (c *stack) digest(d record.Day) uint64 {
	in := c.in
	text := fmt.Appendf(nil, "%q %q %d %d %t\n", in.Bin, in.Species, in.Coolest, in.Warmest, in.South)
	upTo := func(day *record.Day) record.Day {
		if day == nil || *day >= d {
			return -1
		}
		return *day
	}
	for _, t := range in.Trays {
		text = fmt.Appendf(text, "%q %x %d %d %d %d %d\n", t.ID, t.AreaM2, t.Height, upTo(&t.Bedded), upTo(t.Feeding), upTo(t.Resting), upTo(t.Emptied))
	}
	for _, ev := range c.events() {
		if ev.day >= d {
			break
		}
		switch ev.kind {
		case wormEvent:
			text = fmt.Appendf(text, "%+v\n", in.Worms[ev.n])
		case lookEvent:
			l := in.Looks[ev.n]
			temp := -9999
			if l.Temp != nil {
				temp = int(*l.Temp)
			}
			text = fmt.Appendf(text, "%q %q %q %d %s %q %q %d %q\n", l.ID, l.Tray, l.Spot, l.Day, l.At, l.Leftovers, l.Squeeze, temp, l.TempOf)
		case mealEvent:
			text = fmt.Appendf(text, "%d %+v\n", ev.n, in.Meals[ev.n])
		}
	}
	return hash(string(text))
}
