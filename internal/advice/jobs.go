package advice

import (
	"trayside/internal/record"
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

// ask returns the one question of a visit: what is left of the last meal, but
// only if the answer could change the ration by a fifth. Nil if there is none.
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
	for _, l := range r.in.Looks {
		if l.Leftovers != "" && l.Tray == tray && l.Day <= a.day && (l.Day > meal.Day || l.Day == meal.Day && l.At > meal.At) {
			return nil // looked at since
		}
	}
	var lying, soft float64
	for _, l := range r.est.Lefts {
		if l.Tray == tray {
			lying += l.Soft
		}
	}
	for _, p := range partsOf(weighed(meal.Items, a.plainMealOf(meal.Bin))) {
		soft += float64(p.Grams * p.Soft)
	}
	// The answers run from nothing to most of it.
	change := max(lying, float64(mostLeft*soft)-lying)
	if would := float64(a.need(r, tray).Grams) + lying; would <= 0 || change < would/5 {
		return nil
	}
	return &Ask{Kind: "leftovers", Tray: tray, Day: meal.Day.String()}
}

// mostLeft is the share that "most" stands for.
const mostLeft = 0.8
