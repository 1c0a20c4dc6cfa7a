package advice

import (
	"slices"

	"trayside/internal/colony"
	"trayside/internal/ration"
	"trayside/internal/record"
	"trayside/internal/units"
)

// The jobs.
const (
	JobLook    = "look"       // nobody has looked for a while
	JobBedNext = "bed-next"   // the fed tray fills up: bed one on top
	JobRest    = "rest"       // it is full and the next one is bedded: stop feeding it
	JobHarvest = "harvest"    // a resting tray's castings are ready
	JobAgain   = "look-again" // the day to look again at trouble has come
)

// lookEvery: a look a week. Common practice.
const lookEvery = 7

// jobs lists what is due in a bin.
func (a *Advice) jobs(r *run) []Job {
	jobs := []Job{}
	if r.takes == "" || r.est.Started == 0 {
		return jobs
	}
	job := Job{Bin: r.bin.ID, Tray: r.takes, Name: a.trayName(r.takes)}
	if since, day, due := a.lookDue(r); due {
		look := job
		look.Kind, look.Days, look.Day = JobLook, since, day.String()
		jobs = append(jobs, look)
	}
	jobs = append(jobs, a.again(r)...)
	if r.est.Live.Mid < 1 { // a bin whose worms have died needs worms, not trays
		return jobs
	}
	return append(jobs, a.trayJobs(r, job)...)
}

// lookDue tells when the bin's meals were last looked at, and whether a look is
// due: a week after the last, or after the first meal since it.
func (a *Advice) lookDue(r *run) (since int, due record.Day, yes bool) {
	var from record.Day
	for _, l := range r.in.Looks {
		if l.Leftovers != "" && l.Day <= a.day {
			from = l.Day
		}
	}
	for _, m := range r.in.Meals {
		if m.Day <= a.day && (from == 0 || m.Day >= from) {
			if from == 0 {
				from = m.Day
			}
			due = from + lookEvery
			return int(a.day - from), due, a.day >= due
		}
	}
	return 0, 0, false
}

// ask returns the one question of a visit, and only one whose answer could change
// the ration by a fifth: whether somebody fed without logging it, which a look has
// raised, or what is left of the last meal. Nil if there is none.
func (a *Advice) ask(r *run, tray string) *Ask {
	var meal *record.Feeding
	for i := range a.h.Feedings {
		if f := &a.h.Feedings[i]; f.Tray == tray && f.Day < a.day {
			meal = f
		}
	}
	if meal == nil || r.est.Started == 0 {
		return nil
	}
	last := a.lastLook(r, tray)
	if q := r.est.Ask; q != nil && q.Tray == tray && !a.answered(last) && a.unloggedMatters(r, tray) {
		return &Ask{Kind: "unlogged", Tray: tray, Day: q.Day.String()}
	}
	// After a look that found leftovers, or where as much may lie now, what is left
	// could change the ration.
	seen := last != nil && (last.Day > meal.Day || last.Day == meal.Day && last.At > meal.At)
	clean := last != nil && (last.Leftovers == record.LeftNone || last.Leftovers == record.LeftHard)
	lying := r.est.Lying[tray]
	some := lying >= float64(worthAsking*(float64(a.need(r, tray).Grams)+lying)) && lying > 0
	switch {
	case last != nil && last.Day == a.day:
		return nil
	case seen && (clean || last.Leftovers == record.LeftSome):
		return nil // nothing new has gone in since
	case last != nil && !clean, some:
		return &Ask{Kind: "leftovers", Tray: tray, Day: meal.Day.String()}
	}
	return nil
}

// worthAsking is the share of a ration that an answer must be able to change.
const worthAsking = 0.2

// answered reports whether a look of today is, or may be, the answer to the
// visit's question: it says what is left and nothing else.
func (a *Advice) answered(look *record.Look) bool {
	if look == nil || look.Day != a.day {
		return false
	}
	rest := *look
	rest.Leftovers = ""
	return !rest.Says()
}

// unloggedMatters reports whether the two answers to whether somebody fed without
// logging it lead to rations that lie a fifth apart, once what lies there is gone.
func (a *Advice) unloggedMatters(r *run, tray string) bool {
	yes, no := a.onceGone(r, tray, "yes"), a.onceGone(r, tray, "no")
	return float64(max(yes, no)-min(yes, no)) >= worthAsking*float64(max(yes, no)) && yes != no
}

// onceGone returns the ration of a tray as it would be had somebody answered so
// today, with nothing lying there and whatever was said before.
func (a *Advice) onceGone(r *run, tray, answer string) units.Grams {
	in := *r.in
	in.Looks = slices.Clone(in.Looks)
	after := len(in.Looks)
	for after > 0 && in.Looks[after-1].Day > a.day {
		after--
	}
	in.Looks = slices.Insert(in.Looks, after, record.Look{
		ID: "look/answer", Bin: r.bin.ID, Tray: tray, Unlogged: answer, Day: a.day, At: a.day.String() + "T~", // after every other
	})
	est := colony.Resume(&in, a.keeps[r.bin.ID], nil).Estimate()
	est.Lefts, est.Lying = nil, nil
	then := a.rationInput(r, tray, a.day, est)
	then.Looks, then.Last = nil, ration.Last{}
	return ration.Compute(then).Grams
}

// lastLook returns the newest look that said what is left in a tray, nil if
// there is none.
func (a *Advice) lastLook(r *run, tray string) *record.Look {
	for i := len(r.in.Looks) - 1; i >= 0; i-- {
		if l := &r.in.Looks[i]; l.Tray == tray && l.Day <= a.day && l.Leftovers != "" {
			return l
		}
	}
	return nil
}
