package colony

import (
	"trayside/internal/record"
	"trayside/internal/units"
)

// crowd is how many particles an ensemble has: whole colonies, each with all
// stages, so that there is one model and no second, lighter one to keep true to
// it. What makes it affordable is that a day's weather is worked out once for
// all of them. With strata for what is drawn once, 96 give the ends of an 80 %
// interval to about a sixth of a standard deviation.
const crowd = 128

// Ensemble is a bin's log carried through many particles, each re-weighted by
// what was observed, up to Input.Today.
type Ensemble struct {
	stack
	rates  *Rates
	bed    bed
	known  known
	soft   []float64 // g of the soft part of each meal as logged
	newest int
	day    record.Day
	seed   uint64

	particles []particle
	spare     []particle // the room for a resampling
	usual     float64    // logarithm of the g of soft scraps in a usual meal, a mean of the last ones
	pause     float64    // days between meals that are not late, likewise
	mealDay   record.Day

	said    map[string]Forecast
	changes []Change
	ask     *Ask
	size    float64 // effective sample size after the last observation
	least   float64 // and the smallest so far
	drawn   int     // resamplings so far
	kept    *Keep
}

// known is what the log has told, and when.
type known struct {
	started  record.Day
	looks    int
	tested   int // looks at meals: they could have contradicted the model
	clean    int // looks in a row that found nothing left
	odd      int // looks in a row that found more than hardly any particle expected
	hasWorms bool
}

// looked counts a look that said what is left, and the clean ones in a row.
func (k *known) looked(found record.Leftovers) {
	k.looks++
	if found == record.LeftNone || found == record.LeftHard {
		k.clean++
	} else {
		k.clean = 0
	}
}

// Follow runs a bin's log through an ensemble, up to the day it ends on and what
// happened on that day. Entries after Input.Today are left out. Meals must be in
// the order they were fed; the rest is sorted here. in must not change while the
// ensemble is used.
func Follow(in *Input) *Ensemble { return Resume(in, nil, nil) }

// newEnsemble returns the ensemble before the first entry.
func newEnsemble(log stack) *Ensemble {
	in := log.in
	e := &Ensemble{
		stack: log, rates: RatesOf(in.Species), bed: newBed(in), newest: -1,
		seed: hash(in.Bin), said: make(map[string]Forecast, len(in.Meals)),
		particles: make([]particle, crowd), spare: make([]particle, crowd), pause: 3, size: crowd, least: crowd,
	}
	var draws [hiddenCount][]float64
	for k := range draws {
		draws[k] = strata(e.key("start", ""), record.Day(k), crowd)
	}
	strands := strata(e.key("start", "bed"), 0, crowd)
	for i := range e.particles {
		p := &e.particles[i]
		p.State = NewState(e.rates, len(e.trays))
		for k := range draws {
			p.hidden[k] = draws[k][i]
		}
		p.strand = strandOf(strands[i])
		p.weight = 1.0 / crowd
		p.settle(e.rates)
	}
	return e
}

// key names a purpose of this bin.
func (e *Ensemble) key(purpose, id string) uint64 { return e.seed ^ hash(purpose, id) }

// run carries the ensemble from its day on through events, all those from that
// day on.
func (e *Ensemble) run(events []event, before func(e *Ensemble, meal int)) {
	keepOn := keepDay(e.in.Today)
	for next := 0; ; {
		for _, ev := range events[next:] {
			if ev.day != e.day {
				break
			}
			if ev.kind == harvestEvent {
				e.harvest(&e.in.Harvests[ev.n])
			}
		}
		e.turnOver()
		fed := next
		for next < len(events) && events[next].day == e.day {
			if ev := events[next]; before != nil && ev.kind == mealEvent {
				before(e, ev.n)
			}
			e.take(events[next])
			next++
		}
		e.promise(events[fed:next])
		if e.day >= e.in.Today {
			return
		}
		e.night()
		if e.day == keepOn {
			e.kept = e.keep()
		}
	}
}

func (e *Ensemble) turnOver() {
	for i, spans := range e.spans {
		for _, t := range spans {
			emptied := t.Emptied != nil && *t.Emptied == e.day
			if !emptied && t.Bedded != e.day {
				continue
			}
			for k := range e.particles {
				if emptied {
					e.particles[k].clear(i, e.hostOn("", e.day))
				}
				e.particles[k].Sums.ByTray[i] = 0
			}
		}
	}
}

func (e *Ensemble) take(ev event) {
	switch ev.kind {
	case wormEvent:
		e.worms(&e.in.Worms[ev.n])
	case lookEvent:
		e.look(&e.in.Looks[ev.n])
	case sampleEvent:
		e.sample(&e.in.Samples[ev.n])
	case mealEvent:
		e.feed(ev.n)
	}
}

// drift is how the hidden numbers wander: in four weeks they keep all but a
// little of themselves and get that little anew, so that their spread stays what
// it was. What was learned of a bin half a year ago counts two thirds. The heads
// wander by headsErr beside what the model says of them. Judgement.
const (
	wandering = 28 // days
	drift     = 0.94
	headsErr  = 0.13
	newBedIn  = 0.3 // chance that a particle's bed turns to another strand meanwhile
)

// night carries every particle to the next day.
func (e *Ensemble) night() {
	weathers := e.weathers(e.day)
	tiers := e.tiers(e.day)
	for i := range e.particles {
		p := &e.particles[i]
		p.step(e.rates, &weathers[p.strand], tiers)
	}
	e.day++
	monthly := e.day%wandering == 0
	purpose := e.key("wander", "")
	for i := range e.particles {
		p := &e.particles[i]
		if p.ghost.grams > 0 && p.ghost.day <= e.day {
			e.appear(p, i)
		}
		if monthly {
			e.wander(p, roll(purpose, e.day, i))
		}
	}
}

func (e *Ensemble) wander(p *particle, d dice) {
	const fresh = 0.34117 // √(1 − drift²)
	for k := range p.hidden {
		p.hidden[k] = float64(drift*p.hidden[k]) + float64(fresh*d.normal())
	}
	p.settle(e.rates)
	p.Scale(units.Exp(float64(headsErr * d.normal())))
	if d.unit() < newBedIn {
		p.strand = d.below(len(strands))
	}
}

// strands are how far a particle's bed lies from what season and readings say,
// in standard errors: the middles of five equal parts of a normal distribution.
var strands = [...]float64{-1.2816, -0.5244, 0, 0.5244, 1.2816}

// strandOf returns the strand in whose fifth a standard normal number lies.
func strandOf(z float64) int {
	for k, end := range [...]float64{-0.8416, -0.2533, 0.2533, 0.8416} {
		if z < end {
			return k
		}
	}
	return len(strands) - 1
}

// weathers returns what day d does to a bed, strand by strand.
func (e *Ensemble) weathers(d record.Day) *[len(strands)]weather {
	var out [len(strands)]weather
	c, err := e.bed.celsius(d), e.bed.err(d)
	// A meter in dry paper or in a puddle is no ground for writing worms off.
	least, most := e.rates.livable()
	moist := max(least, min(most, e.bed.moisture(d)))
	for k, z := range strands {
		out[k] = e.rates.weather(c+float64(z*err), moist, e.bed.acidity(d))
	}
	return &out
}

// massOf returns each particle's live worms, in one tray or (tray < 0) in all.
func (e *Ensemble) massOf(tray int) []float64 {
	out := make([]float64, len(e.particles))
	for i := range e.particles {
		out[i] = e.particles[i].Mass(e.rates)
		if tray >= 0 {
			out[i] = float64(out[i] * e.particles[i].Share[tray])
		}
	}
	return out
}
