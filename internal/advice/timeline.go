package advice

import (
	"cmp"
	"slices"
	"strings"

	"trayside/internal/order"
	"trayside/internal/record"
)

// TimelineAsk says which part of the timeline is asked for. Before and Until are
// days (2026-11-25); "" is no bound. The other fields narrow it to a bin, a kind
// of entry and a member's id; the kind "photo" is the entries that have a picture.
// What has no bin (a bowl, the freezer) is left out
// once a bin is named.
type TimelineAsk struct {
	Before string `json:"before,omitempty"` // read on from this day, not included
	Until  string `json:"until,omitempty"`  // read down to this day, included, however many entries that takes
	Bin    string `json:"bin,omitempty"`
	Kind   string `json:"kind,omitempty"`
	Who    string `json:"who,omitempty"`
}

// Timeline returns what happened, the newest day first: whole days until limit
// entries are reached, or down to ask.Until. Without a bound it starts at the
// newest, today's future too, since a clock may have been wrong.
func (a *Advice) Timeline(ask TimelineAsk, limit int) TimelineView {
	v := TimelineView{Day: a.day.String(), Mass: a.mass(), Temp: a.temp(), Days: []TimelineDay{}, Members: a.people(), Bins: []Place{}}
	for _, b := range a.open() {
		v.Bins = append(v.Bins, Place{b.ID, b.Name})
	}
	before, errBefore := record.DayOf(ask.Before)
	until, errUntil := record.DayOf(ask.Until)
	pictured := map[string]bool{}
	if ask.Kind == "photo" {
		for i := range a.h.Photos {
			pictured[a.h.Photos[i].Of] = true
		}
	}
	shown := 0
	for _, e := range a.happened() {
		if errBefore == nil && e.day >= before || !ask.wants(e, pictured) {
			continue
		}
		n := len(v.Days)
		if n == 0 || v.Days[n-1].Day != e.day.String() {
			full := n > 0 && shown >= max(1, limit)
			if errUntil == nil {
				full = e.day < until
			}
			if full {
				if v.Next = ask.Until; errUntil != nil {
					v.Next = v.Days[n-1].Day
				}
				break
			}
			v.Days = append(v.Days, TimelineDay{Day: e.day.String(), Entries: []Entry{}, Double: a.doubled[e.day]})
			n++
		}
		v.Days[n-1].Entries = append(v.Days[n-1].Entries, a.entry(e))
		shown++
	}
	return v
}

// happened returns all that happened, newest first; what happened in one second
// stands in a fixed order. It is sorted once, however many pages are asked for.
func (a *Advice) happened() []happening {
	if a.events == nil {
		a.events, a.doubled = a.entries(), a.doubleDays()
		order.By(a.events, func(x, y happening) int {
			return cmp.Or(cmp.Compare(y.day, x.day), strings.Compare(y.at, x.at), strings.Compare(y.entity, x.entity))
		})
	}
	return a.events
}

// wants reports whether an entry is asked for; pictured holds those with a picture.
func (ask TimelineAsk) wants(e happening, pictured map[string]bool) bool {
	kind := ask.Kind == "" || strings.HasPrefix(e.entity, ask.Kind+"/")
	if ask.Kind == "photo" {
		kind = pictured[e.entity]
	}
	return (ask.Bin == "" || ask.Bin == e.bin) && (ask.Who == "" || ask.Who == e.member) && kind
}

// happening is an entry in its place; show fills in what its kind has to say,
// which a long log asks of a page's entries only.
type happening struct {
	day    record.Day
	at     string
	entity string
	gone   bool
	bin    string
	member string
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
	list = a.frozenOrOut(list, h.Freezer, h.Discards, false)
	list = a.frozenOrOut(list, u.Freezer, u.Discards, true)
	list = a.countedOrTaken(list, h.Samples, h.Harvests, false)
	list = a.countedOrTaken(list, u.Samples, u.Harvests, true)
	list = a.ruled(list, h.Rules, false)
	list = a.ruled(list, u.Rules, true)
	for i := range h.Batches {
		b := &h.Batches[i]
		bin := a.binOf(b.Tray)
		for _, s := range stages(b) {
			list = append(list, happening{s.day, "", b.ID, false, bin, "", func() Entry {
				return Entry{Bin: bin, Tray: b.Tray, Code: string(s.stage)}
			}})
		}
	}
	return list
}

func (a *Advice) fedOrLooked(list []happening, feedings []record.Feeding, looks []record.Look, gone bool) []happening {
	for i := range feedings {
		f := &feedings[i]
		list = append(list, happening{f.Day, f.At, f.ID, gone, f.Bin, f.Who.Member, func() Entry {
			line := a.feedLine(f)
			e := Entry{Bin: f.Bin, Tray: f.Tray, Feed: &line, Grams: line.Grams, Spot: f.Spot, Note: f.Note, About: f.About, Edited: f.Edited}
			return a.by(e, f.Who, f.Logger)
		}})
	}
	for i := range looks {
		l := &looks[i]
		list = append(list, happening{l.Day, l.At, l.ID, gone, l.Bin, l.Who.Member, func() Entry {
			e := Entry{Bin: l.Bin, Tray: l.Tray, Look: lookLine(l), Spot: l.Spot, Note: l.Note, Edited: l.Edited}
			return a.by(e, l.Who, l.Logger)
		}})
	}
	return list
}

// by says in an entry who did it and whose phone it was.
func (a *Advice) by(e Entry, w record.Who, logger string) Entry {
	e.Who, e.Guest = a.whoName(w)
	e.Member, e.Logger = w.Member, a.loggerName(w, logger)
	return e
}

func lookLine(l *record.Look) *LookLine {
	line := &LookLine{
		Leftovers: string(l.Leftovers), Squeeze: l.Squeeze, Smell: l.Smell, Visitors: l.Visitors, Cover: l.Cover, Covered: l.Covered,
		Liquid: l.Liquid, Fill: l.Fill, Weight: l.Weight, Meter: l.Meter, PH: l.PH, Unlogged: l.Unlogged,
	}
	if l.Temp != nil {
		deci := int64(*l.Temp)
		line.Temp, line.TempOf = &deci, l.TempOf
	}
	return line
}

func (a *Advice) weighedOrMoved(list []happening, bowls []record.Bowl, worms []record.WormEvent, gone bool) []happening {
	for i := range bowls {
		b := &bowls[i]
		list = append(list, happening{b.Day, b.At, b.ID, gone, "", b.Who.Member, func() Entry {
			return a.by(Entry{Grams: int64(record.Total(b.Items)), Items: a.itemViews(b.Items)}, b.Who, b.Logger)
		}})
	}
	for i := range worms {
		w := &worms[i]
		list = append(list, happening{w.Day, w.At, w.ID, gone, w.Bin, "", func() Entry {
			return Entry{Bin: w.Bin, Tray: w.Tray, Grams: int64(w.Mass), Share: w.Share, Code: string(w.Move)}
		}})
	}
	return list
}

func (a *Advice) frozenOrOut(list []happening, freezer []record.Freezing, discards []record.Discard, gone bool) []happening {
	for i := range freezer {
		f := &freezer[i]
		list = append(list, happening{f.Day, f.At, f.ID, gone, "", "", func() Entry {
			return Entry{Grams: int64(record.Total(f.Items)), Items: a.itemViews(f.Items)}
		}})
	}
	for i := range discards {
		d := &discards[i]
		list = append(list, happening{d.Day, d.At, d.ID, gone, "", "", func() Entry {
			return Entry{Grams: int64(record.Total(d.Items)), Items: a.itemViews(d.Items)}
		}})
	}
	return list
}

func (a *Advice) countedOrTaken(list []happening, samples []record.Sample, harvests []record.Harvest, gone bool) []happening {
	for i := range samples {
		s := &samples[i]
		list = append(list, happening{s.Day, s.At, s.ID, gone, s.Bin, s.Who.Member, func() Entry {
			line := SampleLine{Scoops: int64(s.Scoops), ML: s.ML, Adults: int64(s.Adults), Young: int64(s.Young), Cocoons: int64(s.Cocoons)}
			return a.by(Entry{Bin: s.Bin, Tray: s.Tray, Sample: &line}, s.Who, s.Logger)
		}})
	}
	for i := range harvests {
		x := &harvests[i]
		list = append(list, happening{x.Day, x.At, x.ID, gone, x.Bin, x.Who.Member, func() Entry {
			e := Entry{Bin: x.Bin, Tray: x.Tray, Grams: int64(x.Mass), ML: x.ML, Buckets: x.Buckets, Code: string(x.Method), Note: x.Note}
			return a.by(e, x.Who, x.Logger)
		}})
	}
	return list
}

func (a *Advice) ruled(list []happening, rules []record.HouseRule, gone bool) []happening {
	for i := range rules {
		r := &rules[i]
		list = append(list, happening{r.Day, r.At, r.ID, gone, "", r.Logger, func() Entry {
			e := Entry{Items: a.itemViews([]record.Item{{Scrap: r.Scrap}}), Code: string(r.Verdict), Note: r.Note, Edited: r.Edited}
			return a.by(e, record.Who{Member: r.Logger}, r.Logger)
		}})
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
