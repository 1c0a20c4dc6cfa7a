package colony

import (
	"encoding/binary"
	"fmt"
	"maps"
	"math"
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
	log := stackOf(in)
	events := log.events()
	var e *Ensemble
	if from != nil && from.ensemble.day <= in.Today && from.digest == log.digest(from.ensemble.day) {
		e = from.ensemble.clone()
		e.stack, e.kept = log, from
	} else {
		e = newEnsemble(log)
		e.day = in.Today
		if len(events) > 0 {
			e.day = min(events[0].day, in.Today)
		}
	}
	known := e.soft[:e.newest+1]
	e.soft = make([]float64, len(in.Meals))
	copy(e.soft, known)
	if len(events) == 0 {
		return e
	}
	first, _ := slices.BinarySearchFunc(events, e.day, func(ev event, d record.Day) int { return int(ev.day - d) })
	e.run(events[first:], before)
	return e
}

// ahead is how far past its day a Keep depends on the log: on when the next meal
// comes, as far as that tells a gap in the log from a usual pause (late).
const ahead = 20

// digest returns a key of everything the log says of the days before d, and of
// when the next meal comes.
func (c *stack) digest(d record.Day) uint64 {
	in := c.in
	text := fmt.Appendf(nil, "%q %q %d %d %t\n", in.Bin, in.Species, in.Coolest, in.Warmest, in.South)
	upTo := func(day *record.Day) record.Day {
		if day == nil || *day >= d {
			return -1
		}
		return *day
	}
	for i := range in.Trays {
		t := &in.Trays[i]
		text = fmt.Appendf(text, "%q %x %d %d %d %d %d\n", t.ID, t.AreaM2, t.Height, upTo(&t.Bedded), upTo(t.Feeding), upTo(t.Resting), upTo(t.Emptied))
	}
	next := min(in.Today+1, d+ahead)
	for i := range in.Meals {
		m := &in.Meals[i]
		if m.Day >= d {
			next = min(next, m.Day)
			break
		}
		text = append(text, m.Feeding+"\x00"+m.Tray+"\x00"+m.Spot+"\x00"+m.At+"\x00"...)
		text = bits(text, float64(m.Day), m.Err)
		for _, p := range m.Parts {
			text = bits(text, p.Grams, p.Appeal, p.Soft, p.Rot)
		}
	}
	for i := range in.Worms {
		if w := &in.Worms[i]; w.Day < d {
			text = fmt.Appendf(text, "%+v\n", *w)
		}
	}
	for i := range in.Looks {
		l := &in.Looks[i]
		if l.Day >= d && (l.Unlogged == "" || l.Day > d+askDays) { // an answer may be to an earlier look
			continue
		}
		temp := -9999.0
		if l.Temp != nil {
			temp = float64(*l.Temp)
		}
		text = append(text, l.ID+"\x00"+l.Tray+"\x00"+l.Spot+"\x00"+l.At+"\x00"+string(l.Leftovers)+"\x00"+l.Squeeze+"\x00"+l.TempOf+"\x00"...)
		ph := 0.0
		if l.PH != nil {
			ph = float64(*l.PH)
		}
		meter := 0.0
		if l.Meter != nil {
			meter = float64(*l.Meter)
		}
		text = append(text, l.Unlogged+"\x00"...)
		text = bits(text, float64(l.Day), temp, ph, meter)
	}
	for i := range in.Samples {
		if s := &in.Samples[i]; s.Day < d {
			text = append(text, s.ID+"\x00"+s.Tray+"\x00"+s.At+"\x00"...)
			text = bits(text, float64(s.Day), float64(s.Scoops), float64(s.ML), float64(s.Adults), float64(s.Young))
		}
	}
	return hash(string(bits(text, float64(next))))
}

// bits appends numbers.
func bits(text []byte, numbers ...float64) []byte {
	for _, v := range numbers {
		text = binary.LittleEndian.AppendUint64(text, math.Float64bits(v))
	}
	return text
}
