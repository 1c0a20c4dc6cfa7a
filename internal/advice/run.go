package advice

import (
	"slices"

	"trayside/internal/colony"
	"trayside/internal/ration"
	"trayside/internal/record"
	"trayside/internal/units"
)

// run is one bin carried through the model up to the day that is asked about.
type run struct {
	bin    *record.Bin
	in     *colony.Input
	course *colony.Ensemble
	est    colony.Estimate
	takes  string // the tray that takes food, "" if the bin has none with a batch
	last   past   // the ration before the newest meal
	score  score
	needs  map[string]ration.Result // rations by tray
}

// past is a ration as it would have been said when a meal went in.
type past struct {
	known  bool
	day    record.Day
	tray   string
	days   int
	result ration.Result
	bed    units.DeciCelsius
	fed    units.Grams // what then went in
	meals  []string    // with these feedings
}

// eaten reports whether nothing is left of what went in.
func (p past) eaten(est colony.Estimate) bool {
	return !slices.ContainsFunc(est.Lefts, func(l colony.Left) bool { return slices.Contains(p.meals, l.Feeding) })
}

// chainDays is how far back the rations are worked out again, one after the
// other, to know what the last one was: each may not leap over the one before.
const chainDays = 60

// staleDays: a ration said longer ago than this does not bind today's.
const staleDays = 28

// run returns the bin's run, working it out when it is first asked for.
func (a *Advice) run(bin *record.Bin) *run {
	if r := a.runs[bin.ID]; r != nil {
		return r
	}
	r := &run{bin: bin, in: a.inputOf(bin), needs: make(map[string]ration.Result)}
	r.course = colony.Resume(r.in, a.keeps[bin.ID], func(c *colony.Ensemble, meal int) {
		m := &r.in.Meals[meal]
		if m.Day < a.day-chainDays || m.Day == a.day {
			return
		}
		if !r.last.known || r.last.day != m.Day || r.last.tray != m.Tray {
			est := c.Estimate()
			res := ration.Compute(a.rationInput(r, m.Tray, m.Day, est))
			r.last = past{known: true, day: m.Day, tray: m.Tray, days: res.Days, result: res, bed: est.Bed}
		}
		// The second meal of a day was not advised anew.
		r.last.meals = append(r.last.meals, m.Feeding)
		for _, p := range m.Parts {
			r.last.fed += units.Grams(p.Grams)
		}
	})
	if kept := r.course.Kept(); kept != nil {
		a.keeps[bin.ID] = kept
	}
	r.est = r.course.Estimate()
	r.takes = a.takes(bin, a.day)
	r.score = scoreOf(r.in, r.course)
	a.runs[bin.ID] = r
	return r
}

// takes returns the tray of a bin that takes food on a day: the highest one
// that is being fed, or else that is bedded, or else that rests.
func (a *Advice) takes(bin *record.Bin, d record.Day) string {
	for _, stages := range [][]record.Stage{{record.InUse}, {record.Bedded}, {record.Resting, record.Ready}} {
		for _, id := range slices.Backward(a.stackOf(bin)) {
			if slices.Contains(stages, a.stageOn(id, d)) {
				return id
			}
		}
	}
	return ""
}

// stackOf returns a bin's trays from the bottom up: as ordered, then those
// that no ordering names.
func (a *Advice) stackOf(bin *record.Bin) []string {
	var ids []string
	add := func(id string) {
		if t := a.trays[id]; t != nil && !t.Gone && t.Bin == bin.ID && !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	for _, id := range bin.Stack {
		add(id)
	}
	for i := range a.h.Trays {
		add(a.h.Trays[i].ID)
	}
	return ids
}

func (a *Advice) stageOn(tray string, d record.Day) record.Stage {
	b, ok := a.batchOn(tray, d)
	if !ok {
		return record.Emptied
	}
	return b.StageOn(d)
}

// need returns today's ration of one tray of a run's bin.
func (a *Advice) need(r *run, tray string) ration.Result {
	if res, ok := r.needs[tray]; ok {
		return res
	}
	in := a.rationInput(r, tray, a.day, r.est)
	in.FedToday = a.fedTray(tray)
	res := ration.Compute(in)
	r.needs[tray] = res
	return res
}

// mostAreNew: added worms settle in as those of a new bin do when they are at
// least this share of what lives there. Judgement.
const mostAreNew = 0.75

// rationInput gathers what a ration stands on, for a tray on a day.
func (a *Advice) rationInput(r *run, tray string, d record.Day, est colony.Estimate) ration.Input {
	in := ration.Input{
		Today: d, FeedEvery: r.bin.FeedEvery, Goal: r.bin.Goal, Estimate: est, Looks: r.in.Looks,
		HotWeek: r.bin.HotUntil != nil && d <= *r.bin.HotUntil, Placing: r.bin.Placing,
		Fed: ration.Tray{ID: tray, Stage: a.stageOn(tray, d)},
	}
	for _, w := range r.in.Worms {
		if w.Move == record.WormsAdded && w.Day <= d && float64(w.Mass) >= mostAreNew*est.Live.Mid {
			in.Settles = w.Day
		}
	}
	in.Trouble = a.troubled(r, tray, d, est)
	if t := a.trays[tray]; t != nil {
		in.AreaM2 = areaM2(t)
	}
	stack := a.stackOf(r.bin)
	if i := slices.Index(stack, tray); i > 0 {
		in.Fed.Below = stack[i-1]
	}
	for _, id := range stack {
		in.Open = in.Open || id != tray && a.stageOn(id, d) == record.InUse
	}
	if l := r.last; l.known && d-l.day <= staleDays {
		in.Last = ration.Last{Grams: l.result.Grams, Days: l.days, Cause: a.changed(r, tray, d, est)}
		if l.tray == tray {
			in.Last.Fed, in.Last.Day = l.fed, l.day
		}
		if l.eaten(est) { // more than was advised went in, and went: that is the step to go on from
			in.Last.Grams, in.Last.Eaten = max(in.Last.Grams, l.fed), l.fed
		}
	}
	return in
}

// warmer is how much a bed must have warmed up to be the cause of a leap, 0.1 °C:
// two degrees are about a tenth of the appetite. Judgement.
const warmer = 20

// changed names what changed since the last ration and may let it leap.
func (a *Advice) changed(r *run, tray string, d record.Day, est colony.Estimate) string {
	since := r.last
	if since.tray != tray {
		return "tray-changed"
	}
	if since.result.Hold != nil {
		return "released"
	}
	for _, w := range slices.Backward(r.in.Worms) {
		if w.Day < since.day || w.Day > d {
			continue
		}
		switch w.Move {
		case record.WormsAdded:
			return "worms-added"
		case record.WormsWeighed:
			return "worms-weighed"
		}
	}
	for _, l := range r.in.Looks {
		clean := l.Leftovers == record.LeftNone || l.Leftovers == record.LeftHard
		if clean && l.Tray == tray && l.Day > since.day && l.Day <= d && since.result.Binds == ration.ByLeftovers {
			return "leftovers-gone"
		}
	}
	if est.Bed-since.bed >= warmer {
		return "warmer"
	}
	return ""
}
