package colony

import (
	"math"

	"trayside/internal/units"
)

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
	if e.size >= float64(resampleBelow*float64(len(e.particles))) {
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
const kernel = 0.2

func (e *Ensemble) jitter(p *particle, d dice, mean, dev [hiddenCount + 1]float64) {
	const stay = 0.9798 // √(1 − kernel²)
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
// of its 80 % interval. Each particle stands in the middle of its own weight;
// between two of them the quantile is straight.
func (e *Ensemble) spread(values []float64) Span {
	points := make([]point, len(values))
	for i, v := range values {
		points[i] = point{v, e.particles[i].weight}
	}
	sortPoints(points)
	at := func(q float64) float64 {
		var below, lastAt, last float64
		for n, p := range points {
			mid := below + float64(p.weight/2)
			if q <= mid {
				if n == 0 || mid <= lastAt {
					return p.value
				}
				return last + float64((p.value-last)*((q-lastAt)/(mid-lastAt)))
			}
			below += p.weight
			lastAt, last = mid, p.value
		}
		return last
	}
	return Span{Mid: at(0.5), Low: at(0.1), High: at(0.9)}
}

// point is one particle's value of a quantity.
type point struct{ value, weight float64 }

func (a point) before(b point) bool {
	return a.value < b.value || a.value == b.value && a.weight < b.weight
}

// sortPoints sorts by value, then weight (Shell's sort). A cold start takes some
// thousand spreads, and the routine for all types took half of its time.
func sortPoints(points []point) {
	for gap := len(points) / 2; gap > 0; gap /= 2 {
		for i := gap; i < len(points); i++ {
			p, k := points[i], i
			for ; k >= gap && p.before(points[k-gap]); k -= gap {
				points[k] = points[k-gap]
			}
			points[k] = p
		}
	}
}
