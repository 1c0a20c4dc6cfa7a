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

// keep copies the ensemble as it stands at the start of its day, without what
// the log says again.
func (e *Ensemble) keep() *Keep {
	c := e.clone()
	c.stack, c.rates, c.seed, c.soft, c.changes, c.kept = stack{}, nil, 0, nil, nil, nil
	return &Keep{ensemble: c, digest: e.digest(e.day)}
}

func (e *Ensemble) clone() *Ensemble {
	c := *e
	c.particles, c.spare = make([]particle, len(e.particles)), nil
	for i := range e.particles {
		c.particles[i].copyFrom(&e.particles[i])
	}
	c.said = maps.Clone(e.said)
	return &c
}

// fits reports whether a Keep is a state of this log.
func (k *Keep) fits(log *stack) bool {
	e := k.ensemble
	return e.day <= log.in.Today && e.newest < len(log.in.Meals) && len(e.particles[0].Share) == len(log.trays) &&
		k.digest == log.digest(e.day)
}

// resume returns the ensemble of a Keep that fits the log.
func (k *Keep) resume(log stack) *Ensemble {
	e := k.ensemble.clone()
	e.stack, e.rates, e.seed, e.kept = log, RatesOf(log.in.Species), hash(log.in.Bin), k
	e.spare = make([]particle, len(e.particles))
	e.soft = make([]float64, len(log.in.Meals))
	for i := range log.in.Meals {
		if m := &log.in.Meals[i]; m.Day < e.day {
			e.soft[i] = m.soft()
			if log.in.Today-m.Day > remembered {
				delete(e.said, m.Feeding)
			}
		}
	}
	return e
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
	if from != nil && from.fits(&log) {
		e = from.resume(log)
	} else {
		e = newEnsemble(log)
		e.soft = make([]float64, len(in.Meals))
		e.day = in.Today
		if len(events) > 0 {
			e.day = min(events[0].day, in.Today)
		}
	}
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

// digest returns a key of everything the log says of the days before d, of when
// the next meal comes, and of the species' rates.
func (c *stack) digest(d record.Day) uint64 {
	in := c.in
	text := fmt.Appendf(nil, "%q %q %d %d %t\n", in.Bin, in.Species, in.Coolest, in.Warmest, in.South)
	text = fmt.Appendf(text, "%v\n", *RatesOf(in.Species))
	upTo := func(day *record.Day) record.Day {
		if day == nil || *day >= d {
			return -1
		}
		return *day
	}
	for i := range in.Trays {
		t := &in.Trays[i]
		text = fmt.Appendf(text, "%q %x %x %x %d %d %d %d %d\n", t.ID, t.AreaM2, t.Bedding, t.Empty, t.Height, upTo(&t.Bedded), upTo(t.Feeding), upTo(t.Resting), upTo(t.Emptied))
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
		for _, n := range []*int64{l.Weight, l.Fill, l.Liquid} {
			measured := -1.0
			if n != nil {
				measured = float64(*n)
			}
			text = bits(text, measured)
		}
	}
	for i := range in.Samples {
		if s := &in.Samples[i]; s.Day < d {
			text = append(text, s.ID+"\x00"+s.Tray+"\x00"+s.At+"\x00"...)
			text = bits(text, float64(s.Day), float64(s.Scoops), float64(s.ML), float64(s.Adults), float64(s.Young))
		}
	}
	for i := range in.Harvests {
		if h := &in.Harvests[i]; h.Day < d {
			text = fmt.Appendf(text, "%q %q %q %x %x %t %d\n", h.ID, h.Tray, h.At, h.Grams, h.Err, h.Whole, h.Day)
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
