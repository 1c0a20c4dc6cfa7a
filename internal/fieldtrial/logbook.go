package fieldtrial

import (
	"fmt"
	"math"
	"slices"

	"trayside/internal/advice"
	"trayside/internal/record"
	"trayside/internal/units"
)

// logbook is what the household writes down, and what it is told from it.
type logbook struct {
	h     *Household
	rec   record.Household
	start record.Day
	keeps advice.Keeps
}

const theBin = "bin/1"

func trayID(n int) string { return fmt.Sprintf("tray/%d", n) }

// firstDay of every trial's calendar: 2023-01-01 and the household's own start.
const firstDay = record.Day(19358)

func newLogbook(h *Household) *logbook {
	l := &logbook{h: h, start: firstDay + record.Day(h.Start), keeps: advice.Keeps{}}
	l.rec = record.Household{
		ID: "household/home", Name: "trial", Zone: "Europe/Berlin",
		Bins: []record.Bin{{
			ID: theBin, Species: record.Eisenia, Goal: record.Grow, FeedEvery: h.Every, Started: l.start,
			RoomCoolest: units.DeciCelsius(h.Said[0] * 10), RoomWarmest: units.DeciCelsius(h.Said[1] * 10),
		}},
		Worms: []record.WormEvent{{
			ID: "worms/1", Bin: theBin, Tray: trayID(0), Move: record.WormsAdded, Mass: units.Grams(h.Bought), Day: l.start, At: l.at(0, "10:00"),
		}},
	}
	l.bedded(0, 0)
	return l
}

func (l *logbook) at(day int, clock string) string {
	return (l.start + record.Day(day)).String() + "T" + clock + ":00+01:00"
}

// bedded writes down a tray put on top and fed from now on. A tray that was in the
// stack before has been emptied; the one below it rests.
func (l *logbook) bedded(day, n int) {
	d, id, b := l.start+record.Day(day), trayID(n), &l.rec.Bins[0]
	if slices.Contains(b.Stack, id) {
		b.Stack = slices.DeleteFunc(slices.Clone(b.Stack), func(s string) bool { return s == id })
	} else {
		l.rec.Trays = append(l.rec.Trays, record.Tray{
			ID: id, Bin: theBin, Width: units.Millimetres(l.h.Side), Depth: units.Millimetres(l.h.Side), Height: units.Millimetres(l.h.Height),
		})
	}
	for i := range l.rec.Batches {
		x := &l.rec.Batches[i]
		if x.Tray == id && x.Emptied == nil {
			x.Emptied = &d
		}
		if x.Resting == nil {
			x.Resting = &d
		}
	}
	b.Stack = append(b.Stack, id)
	l.rec.Batches = append(l.rec.Batches, record.Batch{
		ID: fmt.Sprintf("batch/%d", len(l.rec.Batches)), Tray: id, Bedded: d, Feeding: &d,
		Bedding: []record.Item{{Scrap: "cardboard", Grams: units.Grams(l.h.beddingG())}},
	})
}

// top is the tray that takes food.
func (l *logbook) top() string {
	s := l.rec.Bins[0].Stack
	return s[len(s)-1]
}

// fed writes down a meal.
func (l *logbook) fed(day int, grams float64, how record.How) {
	l.rec.Feedings = append(l.rec.Feedings, record.Feeding{
		ID: fmt.Sprintf("feeding/%04d", len(l.rec.Feedings)), Bin: theBin, Tray: l.top(), How: how,
		Items: []record.Item{{Scrap: "kitchen-mixed", Grams: units.Grams(math.Round(grams))}},
		Day:   l.start + record.Day(day), At: l.at(day, "18:30"),
	})
}

// looked writes down a look.
func (l *logbook) looked(day int, left record.Leftovers) {
	d := &l.h.days[day]
	look := record.Look{
		ID: fmt.Sprintf("look/%04d", len(l.rec.Looks)), Bin: theBin, Tray: l.top(), Leftovers: left,
		Day: l.start + record.Day(day), At: l.at(day, "18:00"),
	}
	if l.h.Meter {
		c := units.DeciCelsius(math.Round(10 * (d.bedC + d.reads)))
		look.Temp, look.TempOf = &c, "bed"
	}
	if d.squeezed {
		look.Squeeze = squeeze(d.moist)
	}
	l.rec.Looks = append(l.rec.Looks, look)
}

// squeeze is what a hand feels of a moisture, %. Judgement: a wrung-out sponge is
// about 70 to 80 % for paper bedding.
func squeeze(moist float64) string {
	switch {
	case moist < 60:
		return "crumbles"
	case moist < 68:
		return "holds"
	case moist < 75:
		return "one-drop"
	case moist < 84:
		return "few-drops"
	}
	return "runs"
}

// told is what the advice says on a day.
type told struct {
	grams       float64
	job, ask    bool
	sure, binds string
	promise     *advice.Promise
	live, fed   Believed
}

// ask gets the advice for a day.
func (l *logbook) ask(day int) told {
	a := advice.Resume(&l.rec, l.start+record.Day(day), advice.Phone{}, l.keeps)
	today := a.Today()
	b := today.Bins[0]
	t := told{grams: float64(b.Ration.Grams), sure: b.Ration.Sure, binds: b.Ration.Binds, promise: b.Ration.Promise}
	for _, j := range today.Jobs {
		t.job = t.job || j.Kind == advice.JobLook
	}
	t.ask = a.Tray(l.top()).Ask != nil
	// The trays' ends add up to the bin's, or a little wider while one fills.
	for _, tier := range b.Stack {
		w := Believed{Low: float64(tier.Worms.Low), Mid: float64(tier.Worms.Mid), High: float64(tier.Worms.High)}
		t.live.Low += w.Low
		t.live.Mid += w.Mid
		t.live.High += w.High
		if tier.ID == l.top() {
			t.fed = w
		}
	}
	return t
}

// day turns a date of the advice into a day of the trial.
func (l *logbook) day(date string) int {
	d, err := record.DayOf(date)
	if err != nil {
		return 0 // the advice writes no other dates
	}
	return int(d - l.start)
}

// advised does what the advice says: looks if it asks, then feeds what it names.
func (k *keeper) advised(day int) (grams float64, p pledge) {
	l := k.log
	t := l.ask(day)
	top := k.bin.top()
	t.live.True, t.fed.True = k.bin.mass(), top.mass
	k.tally.Sights = append(k.tally.Sights, Sight{
		Day: day, Live: t.live, Fed: t.fed, Grams: t.grams, Could: min(top.need, k.h.nature.surface*k.h.AreaM2), Lying: top.lying(),
		Sure: t.sure, Binds: t.binds, Asked: t.ask, JobLook: t.job,
	})
	if t.job || t.ask {
		l.looked(day, k.look(day))
		t = l.ask(day)
	}
	p.meal = -1
	if t.promise != nil {
		p = pledge{meal: k.meals, chance: t.promise.Chance, said: l.day(t.promise.Day), first: l.day(t.promise.First), last: l.day(t.promise.Last)}
	}
	return t.grams, p
}
