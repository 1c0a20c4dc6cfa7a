package advice

import (
	"trayside/internal/colony"
	"trayside/internal/feedstock"
	"trayside/internal/ration"
	"trayside/internal/record"
	"trayside/internal/units"
)

// weighedDays: a number stands on a weighing of the worms for this long.
// Judgement: a fed colony grows by a fifth in about a month.
const weighedDays = 30

// Ration returns what may go into a tray today, and why. A tray the household
// does not have gets an empty one.
func (a *Advice) Ration(tray string) RationView {
	t := a.trays[tray]
	if t == nil || a.bins[t.Bin] == nil {
		return RationView{Reasons: []Reason{}, Moved: []Moved{}, Answer: ration.Freeze, Sure: ration.Guess}
	}
	r := a.run(a.bins[t.Bin])
	return a.rationView(r, tray, a.need(r, tray))
}

func (a *Advice) rationView(r *run, tray string, res ration.Result) RationView {
	v := RationView{
		Grams:  int64(res.Grams),
		Likely: Span{int64(res.Likely.Mid), int64(res.Likely.Low), int64(res.Likely.High)},
		Answer: res.Answer, Sure: a.sure(r, res), Binds: res.Binds, Move: res.Move,
		Rule:  RuleView{int64(res.Rule.Low), int64(res.Rule.High)},
		Knows: Knows(r.est.Knows), Moved: movedOf(r.est.Changes),
		Reasons: []Reason{}, NextDay: res.Next.String(),
		BedTemp: int64(r.est.Bed), BedSeen: r.est.BedSeen,
		Feeds: int64(a.fedToday(r.bin.ID)),
		Spot:  a.nextSpot(tray),
	}
	for _, row := range res.Reasons {
		reason := Reason{Code: row.Code, Op: row.Op, Milli: row.Milli, Unit: row.Unit, Sum: row.Sum, From: int64(row.From), To: int64(row.To)}
		if row.Day != 0 {
			reason.Day = row.Day.String()
		}
		v.Reasons = append(v.Reasons, reason)
	}
	if h := res.Hold; h != nil {
		v.Hold = &Hold{Cause: h.Cause, Until: h.Until, End: h.End.String(), Entry: h.Entry}
	}
	if res.Grams > 0 {
		meal := scale(a.usual, res.Grams)
		v.BeddingG = int64(feedstock.Standard().BeddingFor(meal, feedstock.Cardboard))
		v.Promise = promiseView(r.course.Gone(tray, partsOf(meal)), r.score)
		if id, quarters := a.vesselFor(res.Grams); id != "" {
			v.Vessel, v.Vessels = a.vesselName(id), quarters
		}
	}
	return v
}

func movedOf(changes []colony.Change) []Moved {
	moved := []Moved{}
	for _, c := range changes {
		moved = append(moved, Moved{Code: c.Code, Entry: c.Entry, Day: c.Day.String(), Before: units.Nearest(c.Before * 1000), After: units.Nearest(c.After * 1000)})
	}
	return moved
}

// sure tells how far the number can be trusted. A first guess never wears the
// face of a learned number; worms that were weighed lately do.
func (a *Advice) sure(r *run, res ration.Result) string {
	if res.Sure == ration.Trial {
		return ration.Trial
	}
	for _, w := range r.in.Worms {
		if w.Move == record.WormsWeighed && !w.Wide && w.Day <= a.day && a.day-w.Day <= weighedDays {
			return SureWeighed
		}
	}
	return res.Sure
}

func promiseView(f colony.Forecast, s score) *Promise {
	return &Promise{Day: f.By.String(), Chance: f.Chance, First: f.Early.String(), Last: f.Late.String(), Kept: s.kept, Of: s.of}
}

// fedToday returns g already fed to a bin today.
func (a *Advice) fedToday(bin string) units.Grams {
	var g units.Grams
	for i := range a.h.Feedings {
		if f := &a.h.Feedings[i]; f.Bin == bin && f.Day == a.day {
			g += record.Total(f.Items)
		}
	}
	return g
}

// How the household's vessel is chosen: in quarters, at most this many, and
// only if the amount is met within a fifth. Judgement.
const (
	mostQuarters = 16
	vesselMiss   = 5 // one part in so many
)

// vesselFor returns the household's vessel that measures out grams best, and
// how many quarters of it; the largest of those that are equally near.
func (a *Advice) vesselFor(grams units.Grams) (id string, quarters int64) {
	best := grams/vesselMiss + 1
	var size units.Grams
	for _, v := range a.h.Vessels {
		if v.Grams <= 0 {
			continue
		}
		n := units.Round(int64(grams)*4, int64(v.Grams))
		if n < 1 || n > mostQuarters {
			continue
		}
		miss := grams - v.Grams*units.Grams(n)/4
		if miss = max(miss, -miss); miss < best || miss == best && v.Grams > size && id != "" {
			best, size, id, quarters = miss, v.Grams, v.ID, n
		}
	}
	return id, quarters
}

// vesselName returns what the household calls a vessel.
func (a *Advice) vesselName(id string) string {
	for _, v := range a.h.Vessels {
		if v.ID == id {
			return v.Name
		}
	}
	return ""
}

// usualDays is how long a scrap counts toward the household's usual mix.
const usualDays = 60

// usualMix returns the household's usual mix for 100 g: what it fed in the last
// two months, by weight, or mixed scraps for one that has fed nothing yet.
func (a *Advice) usualMix() []record.Item {
	var mix []record.Item
	for i := range a.h.Feedings {
		f := &a.h.Feedings[i]
		if f.Day > a.day || f.Day < a.day-usualDays {
			continue
		}
		for _, it := range f.Items {
			if it.Grams > 0 {
				mix = addItem(mix, it)
			}
		}
	}
	if len(mix) == 0 {
		mix = []record.Item{{Scrap: feedstock.Mixed, Grams: 100}}
	}
	return scale(mix, 100)
}

// addItem adds an item to those of its own kind.
func addItem(items []record.Item, it record.Item) []record.Item {
	for i := range items {
		have := items[i]
		have.Grams = it.Grams
		if have == it {
			items[i].Grams += it.Grams
			return items
		}
	}
	return append(items, it)
}

// scale returns items that weigh total together, in the same proportions; what
// whole grams leave over goes to the largest. Kinds that come to nothing are
// left out.
func scale(items []record.Item, total units.Grams) []record.Item {
	sum := record.Total(items)
	if sum <= 0 || total <= 0 {
		return nil
	}
	out := make([]record.Item, 0, len(items))
	rest, most := total, 0
	for _, it := range items {
		it.Grams = it.Grams * total / sum
		rest -= it.Grams
		if it.Grams > 0 {
			out = append(out, it)
			if it.Grams > out[most].Grams {
				most = len(out) - 1
			}
		}
	}
	if len(out) == 0 {
		out = append(out, items[0])
		out[0].Grams = 0
	}
	out[most].Grams += rest
	return out
}
