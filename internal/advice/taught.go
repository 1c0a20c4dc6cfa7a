package advice

import (
	"cmp"
	"slices"
	"time"

	"trayside/internal/record"
	"trayside/internal/units"
)

// TaughtView says what the newest observation of a bin changed, with what else
// was seen on that visit: the same day worked out with it and without it. Known is false if nobody observed anything
// lately; the other fields are then empty.
type TaughtView struct {
	Known  bool      `json:"known"`
	Tray   string    `json:"tray"`
	Name   string    `json:"name"` // of the tray
	Mass   string    `json:"mass"`
	Temp   string    `json:"temp"`
	Today  string    `json:"today"`
	Entity string    `json:"entity,omitempty"`
	Kind   string    `json:"kind,omitempty"` // "look", "worms" or "sample"
	Day    string    `json:"day,omitempty"`
	Who    string    `json:"who,omitempty"`
	Look   *LookLine `json:"look,omitempty"`
	Grams  int64     `json:"grams,omitempty"` // of worms that were weighed
	Ration Change    `json:"ration"`          // of the tray, g
	Worms  Change    `json:"worms"`           // of the bin, g
	Lying  Change    `json:"lying"`           // soft scraps in the tray, g
	// Held says that the tray's feeding stops because of it, Freed that it may go
	// on again.
	Held  bool `json:"held,omitempty"`
	Freed bool `json:"freed,omitempty"`
}

// Change is a figure before and after an observation.
type Change struct {
	Before int64 `json:"before"`
	After  int64 `json:"after"`
}

// taughtDays is how long a screen tells what an observation changed, days: a
// look is due after a week. Judgement.
const taughtDays = 8

// observation is one thing that somebody saw of a bin.
type observation struct {
	day    record.Day
	at     string
	entity string
}

// visit is how far apart entries of one visit may lie. Judgement: a look at a
// whole stack, place by place.
const visit = 10 * time.Minute

// withIt reports whether something was seen on the same visit.
func (o observation) withIt(day record.Day, at string) bool {
	then, err := time.Parse(time.RFC3339, at)
	now, err2 := time.Parse(time.RFC3339, o.at)
	return day == o.day && (at == o.at || err == nil && err2 == nil && now.Sub(then) <= visit)
}

// Taught says what the newest observation of a tray's bin changed.
func (a *Advice) Taught(tray string) TaughtView {
	v := TaughtView{Tray: tray, Name: a.trayName(tray), Mass: a.mass(), Temp: a.temp(), Today: a.day.String()}
	bin := a.bins[a.binOf(tray)]
	if bin == nil || bin.Gone {
		return v
	}
	newest, ok := a.observed(bin.ID)
	if !ok || a.day-newest.day >= taughtDays {
		return v
	}
	v.Known, v.Entity, v.Day = true, newest.entity, newest.day.String()
	without := *a.h
	without.Looks = slices.DeleteFunc(slices.Clone(a.h.Looks), func(l record.Look) bool {
		if l.ID == newest.entity {
			v.Kind, v.Look = "look", lookLine(&l)
			v.Who, _ = a.whoName(l.Who)
		}
		return l.Bin == bin.ID && newest.withIt(l.Day, l.At)
	})
	without.Worms = slices.DeleteFunc(slices.Clone(a.h.Worms), func(w record.WormEvent) bool {
		if w.ID == newest.entity {
			v.Kind, v.Grams = "worms", int64(w.Mass)
		}
		return w.Bin == bin.ID && w.Move == record.WormsWeighed && newest.withIt(w.Day, w.At)
	})
	without.Samples = slices.DeleteFunc(slices.Clone(a.h.Samples), func(s record.Sample) bool {
		if s.ID == newest.entity {
			v.Kind = "sample"
			v.Who, _ = a.whoName(s.Who)
		}
		return s.Bin == bin.ID && newest.withIt(s.Day, s.At)
	})
	before := Resume(&without, a.day, a.phone, a.keeps.Clone())
	was, is := before.standing(bin.ID, tray), a.standing(bin.ID, tray)
	v.Ration = Change{was.ration, is.ration}
	v.Worms = Change{was.worms, is.worms}
	v.Lying = Change{was.lying, is.lying}
	v.Held, v.Freed = is.held && !was.held, was.held && !is.held
	return v
}

// observed returns the newest observation of a bin that a ration could stand
// on, up to today.
func (a *Advice) observed(bin string) (observation, bool) {
	var seen []observation
	for _, l := range a.h.Looks {
		if l.Bin == bin && l.Day <= a.day && l.Says() {
			seen = append(seen, observation{l.Day, l.At, l.ID})
		}
	}
	for _, w := range a.h.Worms {
		if w.Bin == bin && w.Day <= a.day && w.Move == record.WormsWeighed {
			seen = append(seen, observation{w.Day, w.At, w.ID})
		}
	}
	for _, s := range a.h.Samples {
		if s.Bin == bin && s.Day <= a.day {
			seen = append(seen, observation{s.Day, s.At, s.ID})
		}
	}
	if len(seen) == 0 {
		return observation{}, false
	}
	return slices.MaxFunc(seen, func(x, y observation) int {
		return cmp.Or(cmp.Compare(x.day, y.day), cmp.Compare(x.at, y.at), cmp.Compare(x.entity, y.entity))
	}), true
}

// standing is how a bin and one of its trays stand today, g.
type standing struct {
	ration, worms, lying int64
	held                 bool
}

func (a *Advice) standing(bin, tray string) standing {
	r := a.run(a.bins[bin])
	res := a.need(r, tray)
	s := standing{ration: int64(res.Grams), worms: units.Nearest(r.est.Live.Mid), held: res.Hold != nil}
	for _, l := range r.est.Lefts {
		if l.Tray == tray {
			s.lying += units.Nearest(l.Soft)
		}
	}
	return s
}
