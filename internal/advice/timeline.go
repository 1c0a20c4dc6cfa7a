package advice

import (
	"cmp"
	"slices"
	"strings"

	"trayside/internal/record"
)

// Timeline returns what happened, the newest day first: whole days until limit
// entries are reached. before is a day (2026-11-25) to read on from, not
// included; "" starts at the newest, today's future too, since a clock may
// have been wrong.
func (a *Advice) Timeline(before string, limit int) TimelineView {
	entries := a.entries()
	// Newest first; what happened in one second in a fixed order.
	slices.SortStableFunc(entries, func(x, y happening) int {
		return cmp.Or(cmp.Compare(y.day, x.day), strings.Compare(y.at, x.at), strings.Compare(y.entity, x.entity))
	})
	v := TimelineView{Mass: a.mass(), Temp: a.temp(), Days: []TimelineDay{}, Members: a.people()}
	until, err := record.DayOf(before)
	bounded := err == nil
	doubles := a.doubleDays()
	shown := 0
	for _, e := range entries {
		if bounded && e.day >= until {
			continue
		}
		n := len(v.Days)
		if n == 0 || v.Days[n-1].Day != e.day.String() {
			if shown >= max(1, limit) {
				v.Next = v.Days[n-1].Day
				break
			}
			v.Days = append(v.Days, TimelineDay{Day: e.day.String(), Entries: []Entry{}, Double: doubles[e.day]})
			n++
		}
		v.Days[n-1].Entries = append(v.Days[n-1].Entries, a.entry(e))
		shown++
	}
	return v
}

// happening is an entry in its place; show fills in what its kind has to say,
// which a long log asks of a page's entries only.
type happening struct {
	day    record.Day
	at     string
	entity string
	gone   bool
	show   func() Entry
}

func (a *Advice) entry(h happening) Entry {
	e := h.show()
	e.Entity, e.At, e.Gone = h.entity, h.at, h.gone
	e.Kind, _, _ = strings.Cut(h.entity, "/")
	e.Names = a.names(e.Bin, e.Tray)
	return e
}

// doubleDays returns the bins that were fed twice out of sight, by day.
func (a *Advice) doubleDays() map[record.Day][]string {
	days := map[record.Day][]string{}
	a.pairs(func(x, y *record.Feeding) {
		for _, d := range []record.Day{x.Day, y.Day} {
			if !slices.Contains(days[d], x.Bin) {
				days[d] = append(days[d], x.Bin)
			}
		}
	})
	return days
}

// entries lists everything that happened, undone entries too, in no order.
func (a *Advice) entries() []happening {
	h, u := a.h, &a.h.Undone
	var list []happening
	list = a.fedOrLooked(list, h.Feedings, h.Looks, false)
	list = a.fedOrLooked(list, u.Feedings, u.Looks, true)
	list = a.weighedOrMoved(list, h.Bowls, h.Worms, false)
	list = a.weighedOrMoved(list, u.Bowls, u.Worms, true)
	list = frozenOrOut(list, h.Freezer, h.Discards, false)
	list = frozenOrOut(list, u.Freezer, u.Discards, true)
	for i := range h.Batches {
		b := &h.Batches[i]
		for _, s := range stages(b) {
			list = append(list, happening{s.day, "", b.ID, false, func() Entry {
				return Entry{Bin: a.binOf(b.Tray), Tray: b.Tray, Code: string(s.stage)}
			}})
		}
	}
	return list
}

func (a *Advice) fedOrLooked(list []happening, feedings []record.Feeding, looks []record.Look, gone bool) []happening {
	for i := range feedings {
		f := &feedings[i]
		list = append(list, happening{f.Day, f.At, f.ID, gone, func() Entry {
			line := a.feedLine(f)
			return Entry{Bin: f.Bin, Tray: f.Tray, Who: line.Who, Logger: line.Logger, Feed: &line, Grams: line.Grams, Edited: f.Edited}
		}})
	}
	for i := range looks {
		l := &looks[i]
		list = append(list, happening{l.Day, l.At, l.ID, gone, func() Entry {
			who, _ := a.whoName(l.Who)
			return Entry{Bin: l.Bin, Tray: l.Tray, Who: who, Logger: a.loggerName(l.Who, l.Logger), Look: lookLine(l), Edited: l.Edited}
		}})
	}
	return list
}

func lookLine(l *record.Look) *LookLine {
	line := &LookLine{Leftovers: string(l.Leftovers), Squeeze: l.Squeeze, Smell: l.Smell}
	if l.Temp != nil {
		deci := int64(*l.Temp)
		line.Temp, line.TempOf = &deci, l.TempOf
	}
	return line
}

func (a *Advice) weighedOrMoved(list []happening, bowls []record.Bowl, worms []record.WormEvent, gone bool) []happening {
	for i := range bowls {
		b := &bowls[i]
		list = append(list, happening{b.Day, b.At, b.ID, gone, func() Entry {
			who, _ := a.whoName(b.Who)
			return Entry{Who: who, Logger: a.loggerName(b.Who, b.Logger), Grams: int64(record.Total(b.Items))}
		}})
	}
	for i := range worms {
		w := &worms[i]
		list = append(list, happening{w.Day, w.At, w.ID, gone, func() Entry {
			return Entry{Bin: w.Bin, Tray: w.Tray, Grams: int64(w.Mass), Code: string(w.Move)}
		}})
	}
	return list
}

func frozenOrOut(list []happening, freezer []record.Freezing, discards []record.Discard, gone bool) []happening {
	for i := range freezer {
		f := &freezer[i]
		list = append(list, happening{f.Day, f.At, f.ID, gone, func() Entry { return Entry{Grams: int64(record.Total(f.Items))} }})
	}
	for i := range discards {
		d := &discards[i]
		list = append(list, happening{d.Day, d.At, d.ID, gone, func() Entry { return Entry{Grams: int64(record.Total(d.Items))} }})
	}
	return list
}

// reached is a stage and the day a batch came to it.
type reached struct {
	stage record.Stage
	day   record.Day
}

func stages(b *record.Batch) []reached {
	list := []reached{{record.Bedded, b.Bedded}}
	for _, s := range []struct {
		stage record.Stage
		day   *record.Day
	}{{record.InUse, b.Feeding}, {record.Resting, b.Resting}, {record.Ready, b.Ready}, {record.Emptied, b.Emptied}} {
		if s.day != nil {
			list = append(list, reached{s.stage, *s.day})
		}
	}
	return list
}

func (a *Advice) binOf(tray string) string {
	if t := a.trays[tray]; t != nil {
		return t.Bin
	}
	return ""
}

// names returns a bin's and a tray's names, as far as there are any.
func (a *Advice) names(bin, tray string) []string {
	names := []string{}
	for _, n := range []string{a.binName(bin), a.trayName(tray)} {
		if n != "" {
			names = append(names, n)
		}
	}
	return names
}
