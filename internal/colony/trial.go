package colony

import (
	"slices"

	"trayside/internal/record"
)

// Trial is an experiment as laboratories set it up: a dish, worms, food by the
// gram. Days count from 0, the day it is set up; what happens on a day happens
// in its morning, after that day's Row is written.
type Trial struct {
	Species     record.Species
	AreaM2      float64
	Temps       []Setting // by day; the first one holds before its day too
	Moist       float64   // % moisture, wet basis
	Start       Stock
	Feed        []Dose
	Remove      []Take
	TakeCocoons int // the cocoons are counted and taken out every so many days; 0 for never
	Days        int
	Every       int // days from row to row
}

// Setting is a temperature that holds from a day on.
type Setting struct {
	Day int
	C   float64
}

// Stock is what a trial begins with. Masses are of the mean worm, fresh.
type Stock struct {
	Adults, AdultMG       float64
	Juveniles, JuvenileMG float64
	Cocoons               float64
}

// Dose is food put in.
type Dose struct {
	Day   int
	Grams float64 // fresh
	Fare  Fare
}

// Take is uneaten food taken out: that many grams, the oldest first, or all.
type Take struct {
	Day   int
	Grams float64
	All   bool
}

// Row is what is there on a day, and what was laid and eaten since the last row.
type Row struct {
	Day       int     `json:"day"`
	Adults    float64 `json:"adults"`
	Juveniles float64 `json:"juveniles"`
	Cocoons   float64 `json:"cocoons"`
	Laid      float64 `json:"laid"`
	MeanMG    float64 `json:"mean_mg"` // of adults and juveniles together; 0 if there are none
	LiveG     float64 `json:"live_g"`
	EatenG    float64 `json:"eaten_g"`
	LeftG     float64 `json:"left_g"`
}

// bench is a trial that is under way.
type bench struct {
	*Trial
	rates Rates
	state State
	cond  Conditions
	fares []Fare // by Morsel.Part
	meals int    // days on which food went in
	doses []Dose // still to come, by day
	temps int    // settings that have come into force
	hard  []bit  // in the dish, one for each rate
}

// bit is food that no worm eats: stalks, stones, shells.
type bit struct{ grams, rot float64 } // rot is the share a day at 20 °C

// hardRots is how fast stalks rot where the soft part of their food is 1:
// judgement.
const hardRots = 0.5

// Run carries a trial out and returns a row for every Every days and the last.
func (t *Trial) Run() []Row {
	b := newBench(t)
	var rows []Row
	var laid, eaten float64
	for day := range t.Days {
		b.morning(day)
		b.night()
		laid += b.state.Sums.Laid
		eaten += b.state.Sums.Night
		if today := day + 1; today%t.Every == 0 || today == t.Days {
			rows = append(rows, b.row(today, laid, eaten))
			laid, eaten = 0, 0
		}
	}
	return rows
}

// fromDishes is the share of hatchlings that grow up in a laboratory's dish:
// judgement.
const fromDishes = 0.95

// newBench sets a trial up.
func newBench(t *Trial) *bench {
	b := &bench{Trial: t, rates: laboratoryOf(t.Species)}
	b.state = NewState(&b.rates, 1)
	b.state.Share[0] = 1
	b.state.stock(&b.rates, t.Start)
	b.doses = slices.Clone(t.Feed)
	slices.SortStableFunc(b.doses, func(a, b Dose) int { return a.Day - b.Day })
	b.cond = Conditions{BedC: t.Temps[0].C, Moist: t.Moist, Tiers: []Tier{{AreaM2: t.AreaM2, Pull: openPull, InUse: true}}}
	return b
}

// laboratoryOf is a species as laboratories keep it: few young die, adults as
// seldom as the range allows, and food is mixed into the whole of the dish.
func laboratoryOf(s record.Species) Rates {
	r := *RatesOf(s)
	r.Die.Mid, r.Survive.Mid, r.Surface.Mid = r.Die.Low, fromDishes, r.Surface.High
	return r
}

// stock puts a trial's worms into an empty state: juveniles in the sub-stage that
// their mass tells, cocoons fresh.
func (s *State) stock(r *Rates, with Stock) {
	s.Cocoon[0] = with.Cocoons
	s.Adult[0] = with.Adults
	if with.Adults > 0 {
		s.AdultSize = root(with.AdultMG / 1000)
	}
	if with.Juveniles > 0 {
		size := root(with.JuvenileMG / 1000)
		i := int(float64(youngSteps * (size - r.hatchSize) / (root(r.MatureG) - r.hatchSize)))
		i = max(0, min(youngSteps-1, i))
		s.Young[i], s.YoungSize[i] = with.Juveniles, size
	}
}

// morning does what the trial says of a day.
func (b *bench) morning(day int) {
	for ; b.temps < len(b.Temps) && b.Temps[b.temps].Day <= day; b.temps++ {
		b.cond.BedC = b.Temps[b.temps].C
	}
	if n := b.TakeCocoons; n > 0 && day > 0 && day%n == 0 {
		b.state.Cocoon = [cocoonSteps]float64{}
	}
	for _, t := range b.Remove {
		if t.Day == day {
			b.remove(t)
		}
	}
	// What goes in on one day is one meal: worms find its foods side by side.
	meal := b.meals
	for ; len(b.doses) > 0 && b.doses[0].Day <= day; b.doses = b.doses[1:] {
		if d := b.doses[0]; d.Grams > 0 {
			soft := float64(d.Grams * d.Fare.Soft)
			b.leave(d.Grams-soft, float64(hardRots*d.Fare.Rot))
			b.fares, b.meals = append(b.fares, d.Fare), meal+1
			b.state.Food = append(b.state.Food, Morsel{Meal: meal, Part: len(b.fares) - 1, Appeal: d.Fare.Appeal, Rot: d.Fare.Rot, Fed: soft, Left: soft})
			b.state.Sums.Fed += soft
		}
	}
	b.taste()
}

// remove takes uneaten food out, the oldest first, what no worm eats last.
func (b *bench) remove(t Take) {
	want := t.Grams
	kept := b.state.Food[:0]
	for _, m := range b.state.Food {
		g := m.Left
		if !t.All {
			g = min(g, want)
		}
		m.Left -= g
		want -= g
		b.state.Sums.Out += g
		if m.Left > 0 {
			kept = append(kept, m)
		}
	}
	b.state.Food = kept
	for i := range b.hard {
		g := b.hard[i].grams
		if !t.All {
			g = min(g, max(0, want))
		}
		b.hard[i].grams -= g
		want -= g
	}
}

// leave puts in what no worm eats.
func (b *bench) leave(grams, rot float64) {
	for i := range b.hard {
		if b.hard[i].rot == rot {
			b.hard[i].grams += grams
			return
		}
	}
	b.hard = append(b.hard, bit{grams, rot})
}

// night lets a day pass.
func (b *bench) night() {
	b.state.Step(&b.rates, &b.cond)
	warm := b.rates.weather(b.cond.BedC, b.cond.Moist, b.cond.PH).rot
	for i := range b.hard {
		h := &b.hard[i]
		h.grams -= float64(h.grams * min(1, float64(h.rot*warm)))
	}
}

// uneaten is what lies in the dish, g.
func (b *bench) uneaten() float64 {
	g := b.state.softIn(0)
	for _, h := range b.hard {
		g += h.grams
	}
	return g
}

// taste sets growth and laying by what lies in the dish, each food by what it
// would be eaten; in an empty dish by what lay there last.
func (b *bench) taste() {
	usual := RatesOf(b.Species)
	var liked, rich, breed float64
	for _, m := range b.state.Food {
		weight := float64(m.Left * m.Appeal)
		fare := b.fares[m.Part]
		if fare.Kitchen {
			fare.Rich, fare.Breed = usual.Rich, usual.Household.Mid
		}
		liked += weight
		rich += float64(weight * fare.Rich)
		breed += float64(weight * fare.Breed)
	}
	if liked > 0 {
		b.rates.Rich, b.rates.Household.Mid = rich/liked, breed/liked
	}
}

func (b *bench) row(day int, laid, eaten float64) Row {
	s := &b.state
	r := Row{Day: day, Adults: s.Adults(), Juveniles: s.Youngs(), Cocoons: s.Cocoons(), Laid: laid, LiveG: s.Mass(&b.rates), EatenG: eaten, LeftG: b.uneaten()}
	if heads := r.Adults + r.Juveniles; heads > 0 {
		r.MeanMG = float64(1000*r.LiveG) / heads
	}
	return r
}
