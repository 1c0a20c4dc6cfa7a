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
	// Newest first; of one instant, what was written last comes first.
	slices.SortStableFunc(entries, func(x, y dated) int {
		return cmp.Or(cmp.Compare(y.day, x.day), strings.Compare(y.At, x.At), strings.Compare(y.Entity, x.Entity))
	})
	v := TimelineView{Days: []TimelineDay{}}
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
		v.Days[n-1].Entries = append(v.Days[n-1].Entries, e.Entry)
		shown++
	}
	return v
}

// dated is an entry with its day.
type dated struct {
	day record.Day
	Entry
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
func (a *Advice) entries() []dated {
	var list []dated
	add := func(d record.Day, e Entry, gone bool) {
		e.Gone = gone
		e.Kind, _, _ = strings.Cut(e.Entity, "/")
		e.Names = a.names(e.Bin, e.Tray)
		list = append(list, dated{d, e})
	}
	feedings := func(fs []record.Feeding, gone bool) {
		for i := range fs {
			f := &fs[i]
			line := a.feedLine(f)
			add(f.Day, Entry{Entity: f.ID, At: f.At, Bin: f.Bin, Tray: f.Tray, Who: line.Who, Logger: line.Logger, Feed: &line, Grams: line.Grams, Edited: f.Edited}, gone)
		}
	}
	looks := func(ls []record.Look, gone bool) {
		for i := range ls {
			l := &ls[i]
			who, _ := a.whoName(l.Who)
			add(l.Day, Entry{Entity: l.ID, At: l.At, Bin: l.Bin, Tray: l.Tray, Who: who, Logger: a.loggerName(l.Who, l.Logger), Code: string(l.Leftovers), Edited: l.Edited}, gone)
		}
	}
	bowls := func(bs []record.Bowl, gone bool) {
		for i := range bs {
			b := &bs[i]
			who, _ := a.whoName(b.Who)
			add(b.Day, Entry{Entity: b.ID, At: b.At, Who: who, Logger: a.loggerName(b.Who, b.Logger), Grams: int64(record.Total(b.Items))}, gone)
		}
	}
	worms := func(ws []record.WormEvent, gone bool) {
		for _, w := range ws {
			add(w.Day, Entry{Entity: w.ID, At: w.At, Bin: w.Bin, Tray: w.Tray, Grams: int64(w.Mass), Code: string(w.Move)}, gone)
		}
	}
	freezer := func(fs []record.Freezing, gone bool) {
		for _, f := range fs {
			add(f.Day, Entry{Entity: f.ID, At: f.At, Grams: int64(record.Total(f.Items))}, gone)
		}
	}
	discards := func(ds []record.Discard, gone bool) {
		for _, d := range ds {
			add(d.Day, Entry{Entity: d.ID, At: d.At, Grams: int64(record.Total(d.Items))}, gone)
		}
	}
	h, u := a.h, &a.h.Undone
	feedings(h.Feedings, false)
	feedings(u.Feedings, true)
	looks(h.Looks, false)
	looks(u.Looks, true)
	bowls(h.Bowls, false)
	bowls(u.Bowls, true)
	worms(h.Worms, false)
	worms(u.Worms, true)
	freezer(h.Freezer, false)
	freezer(u.Freezer, true)
	discards(h.Discards, false)
	discards(u.Discards, true)
	for _, b := range h.Batches {
		for _, s := range stages(b) {
			add(s.day, Entry{Entity: b.ID, Bin: a.binOf(b.Tray), Tray: b.Tray, Code: string(s.stage)}, false)
		}
	}
	return list
}

// reached is a stage and the day a batch came to it.
type reached struct {
	stage record.Stage
	day   record.Day
}

func stages(b record.Batch) []reached {
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
