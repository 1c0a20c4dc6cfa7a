package colony

import (
	"math"
	"slices"

	"trayside/internal/record"
	"trayside/internal/units"
)

// crowd is how many particles an ensemble has: whole colonies, each with all
// stages, so that there is one model and no second, lighter one to keep true to
// it. What makes it affordable is that a day's weather is worked out once for
// all of them. With strata for what is drawn once, 96 give the ends of an 80 %
// interval to about a sixth of a standard deviation.
const crowd = 96

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
	usual     float64    // g of soft scraps in a usual meal, a mean of the last ones
	pause     float64    // days between meals, likewise
	mealDay   record.Day

	said    map[string]Forecast
	changes []Change
	ask     *Ask
	size    float64 // effective sample size after the last observation
	least   float64 // and the smallest so far
	drawn   int     // resamplings so far
	kept    *Keep
}

// Gather runs a bin's log through an ensemble as Follow does through one state.
func Gather(in *Input) *Ensemble { return Resume(in, nil, nil) }

// newEnsemble returns the ensemble before the first entry.
func newEnsemble(in *Input) *Ensemble {
	e := &Ensemble{
		stack: stackOf(in), rates: RatesOf(in.Species), bed: newBed(in), newest: -1,
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
	case mealEvent:
		e.feed(ev.n)
	}
}

// How a meal really weighs: never below a fifth nor above five times what was
// logged.
const amountMost = 5.0

// feed lays a meal down, in every particle by its own amount, and draws whether
// somebody will feed the tray again before the next meal without logging it.
func (e *Ensemble) feed(n int) {
	m := &e.in.Meals[n]
	for _, p := range m.Parts {
		e.soft[n] += max(0, float64(p.Grams*p.Soft))
	}
	if e.newest >= 0 {
		e.pause += float64(0.1 * (min(14, max(1, float64(m.Day-e.mealDay))) - e.pause))
	}
	if e.usual == 0 {
		e.usual = e.soft[n]
	}
	e.usual += float64(0.1 * (e.soft[n] - e.usual))
	e.newest, e.mealDay = max(e.newest, n), m.Day
	tray, purpose := e.hostOn(m.Tray, e.day), e.key("meal", m.Feeding)
	for i := range e.particles {
		p, d := &e.particles[i], roll(purpose, e.day, i)
		amount := max(1/amountMost, min(amountMost, units.Exp(float64(m.Err*d.normal()))))
		p.lay(n, tray, m.Parts, amount)
		if d.unit() < p.unlogged {
			later := 1 + record.Day(d.unit()*e.pause)
			p.ghost = ghost{day: e.day + later, meal: n, grams: float64(e.usual * units.Exp(float64(ghostErr*d.normal())))}
		}
	}
}

// ghostErr is the standard error of the logarithm of what somebody feeds
// without logging it, beside the household's usual meal: judgement.
const ghostErr = 0.5

// drift is how the hidden numbers wander in a week: they keep all but a little
// of themselves and get that little anew, so that their spread stays what it
// was. A year of it renews about a fifth. The heads wander by headsErr beside
// what the model says of them. Judgement.
const (
	drift    = 0.9975
	headsErr = 0.012
	newBedIn = 0.1 // chance that a particle's bed turns to another strand in a week
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
	weekly := e.day%7 == 0
	purpose := e.key("week", "")
	for i := range e.particles {
		p := &e.particles[i]
		if p.ghost.grams > 0 && p.ghost.day <= e.day {
			p.haunt(p.ghost.meal, e.hostOn(e.in.Meals[p.ghost.meal].Tray, e.day), p.ghost.grams)
			p.ghost = ghost{}
		}
		if weekly {
			e.wander(p, roll(purpose, e.day, i))
		}
	}
}

func (e *Ensemble) wander(p *particle, d dice) {
	const fresh = 0.0706 // √(1 − drift²)
	for _, k := range [...]int{ofHunger, ofSurface} {
		p.hidden[k] = float64(drift*p.hidden[k]) + float64(fresh*d.normal())
	}
	p.Hunger = e.rates.Appetite.factor(p.hidden[ofHunger], e.rates.Wide)
	p.Broad = e.rates.Surface.factor(p.hidden[ofSurface], 1)
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
	c, err, moist := e.bed.celsius(d), e.bed.err(d), e.bed.moisture(d)
	for k, z := range strands {
		out[k] = e.rates.weather(c+float64(z*err), moist)
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

// sampleSize returns the effective sample size of the weights.
func (e *Ensemble) sampleSize() float64 {
	var all, squares float64
	for i := range e.particles {
		w := e.particles[i].weight
		all += w
		squares += float64(w * w)
	}
	if squares <= 0 {
		return 0
	}
	return float64(all*all) / squares
}

// reweigh multiplies the weights by likelihoods and makes them sum to 1. When
// nothing is likely it leaves them alone.
func (e *Ensemble) reweigh(likely []float64) {
	var all float64
	for i := range e.particles {
		all += float64(e.particles[i].weight * likely[i])
	}
	if !(all > 0) || math.IsInf(all, 0) {
		return
	}
	for i := range e.particles {
		p := &e.particles[i]
		p.weight = float64(p.weight*likely[i]) / all
	}
	e.size = e.sampleSize()
	e.least = min(e.least, e.size)
}

// resampleBelow is the effective sample size, as a share of the particles, at
// which they are drawn anew.
const resampleBelow = 0.5

// resample draws the particles anew by their weights when few of them carry
// most of it: systematic, so that none is drawn oftener than its weight and one
// more. Copies are then told apart by moving every hidden number, and the mass,
// a little toward the ensemble's mean and as much at random, so that mean and
// spread stay what they were (Liu & West 2001, from memory).
func (e *Ensemble) resample(purpose uint64) {
	if e.size >= resampleBelow*float64(len(e.particles)) {
		return
	}
	mean, dev := e.moments()
	d := roll(purpose, e.day, -2)
	n := len(e.particles)
	at, next := d.unit()/float64(n), 0.0
	k := 0
	for i := range e.particles {
		next += e.particles[i].weight
		for k < n && (at < next || i == n-1) {
			e.spare[k].copyFrom(&e.particles[i])
			e.spare[k].weight = 1 / float64(n)
			k++
			at += 1 / float64(n)
		}
	}
	e.particles, e.spare = e.spare, e.particles
	for i := range e.particles {
		e.jitter(&e.particles[i], roll(purpose, e.day, i), mean, dev)
	}
	e.drawn++
	e.size = float64(n)
}

// kernel is how much of the ensemble's spread tells copies apart: judgement.
const kernel = 0.15

func (e *Ensemble) jitter(p *particle, d dice, mean, dev [hiddenCount + 1]float64) {
	const stay = 0.98869 // √(1 − kernel²)
	move := func(x float64, k int) float64 {
		return mean[k] + float64(stay*(x-mean[k])) + float64(float64(kernel*dev[k])*d.normal())
	}
	for k := range p.hidden {
		p.hidden[k] = move(p.hidden[k], k)
	}
	p.settle(e.rates)
	if mass := p.Mass(e.rates); mass > crumb && dev[hiddenCount] > 0 {
		old := units.Log(mass)
		p.Scale(units.Exp(move(old, hiddenCount) - old))
	}
}

// moments returns the weighted means and standard deviations of the hidden
// numbers and, last, of the logarithm of the mass.
func (e *Ensemble) moments() (mean, dev [hiddenCount + 1]float64) {
	values := make([][hiddenCount + 1]float64, len(e.particles))
	for i := range e.particles {
		p := &e.particles[i]
		copy(values[i][:], p.hidden[:])
		values[i][hiddenCount] = units.Log(max(crumb, p.Mass(e.rates)))
		for k, v := range values[i] {
			mean[k] += float64(p.weight * v)
		}
	}
	for i, v := range values {
		for k := range v {
			dev[k] += float64(e.particles[i].weight * float64((v[k]-mean[k])*(v[k]-mean[k])))
		}
	}
	for k := range dev {
		dev[k] = math.Sqrt(dev[k])
	}
	return mean, dev
}

// spread returns the weighted quantiles of a quantity: the middle and the ends
// of its 80 % interval.
func (e *Ensemble) spread(values []float64) Span {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case values[a] < values[b]:
			return -1
		case values[a] > values[b]:
			return 1
		}
		return 0
	})
	at := func(q float64) float64 {
		// Each particle stands in the middle of its own weight; between two of
		// them the quantile is straight.
		var below, lastAt, last float64
		for n, i := range order {
			w := e.particles[i].weight
			mid := below + w/2
			if q <= mid {
				if n == 0 || mid <= lastAt {
					return values[i]
				}
				return last + float64((values[i]-last)*((q-lastAt)/(mid-lastAt)))
			}
			below += w
			lastAt, last = mid, values[i]
		}
		return last
	}
	return Span{Mid: at(0.5), Low: at(0.1), High: at(0.9)}
}
