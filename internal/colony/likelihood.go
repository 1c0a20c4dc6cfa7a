package colony

import (
	"math"

	"trayside/internal/record"
	"trayside/internal/units"
)

// How likely an observation is, given a particle: a word about leftovers and a
// mass of worms here, worms counted in scoops in sample.go, what lies in a tray
// (castings, weight, height) in matter.go.

// A look's word is about the share of the soft part that is still there, seen
// on the scale of its square root: people tell a twentieth from a tenth as well
// as a half from two thirds. The thresholds are the middles between the bands
// of neighbouring words. Judgement.
const (
	seenSome = 0.20 // √0.04
	seenHalf = 0.61 // √0.375
	seenMost = 0.79 // √0.625
	// seenErr is the logistic scale of eye and model together.
	seenErr = 0.07
	// blunder is the part of looks that are of another tray, or a slip of the
	// finger: they say nothing.
	blunder = 0.05
	// lookCounts is what a look counts of one that stood alone, as a power of its
	// likelihood: looks days apart are at the same meals, through the same eyes,
	// in a household that forgets and guesses in its own way. With it the 80 %
	// interval holds the truth about as often as it says (the recovery tests);
	// counted in full it held it in half of the cases after forty looks.
	lookCounts = 0.3
)

// past returns the chance that a share is seen above a threshold.
func past(threshold, share float64) float64 {
	u := math.Sqrt(max(0, min(share, 1.5)))
	return 1 / (1 + units.Exp(-(u-threshold)/seenErr))
}

// wordChance returns the chance that a look at a share of leftovers says a word.
// Nothing left is censored by itself: whatever share a particle could have
// eaten beyond what it got, its share is 0.
func wordChance(word record.Leftovers, share float64) float64 {
	return blunder/4 + float64((1-blunder)*max(0, atLeast(word, share)-more(word, share)))
}

// atLeast returns the chance that the eye finds that much or more.
func atLeast(word record.Leftovers, share float64) float64 {
	switch word {
	case record.LeftSome:
		return past(seenSome, share)
	case record.LeftHalf:
		return past(seenHalf, share)
	case record.LeftMost:
		return past(seenMost, share)
	}
	return 1 // none, and hard bits, which are no food
}

// more returns the chance that the eye finds more than the word says.
func more(word record.Leftovers, share float64) float64 {
	switch word {
	case record.LeftSome:
		return past(seenHalf, share)
	case record.LeftHalf:
		return past(seenMost, share)
	case record.LeftMost:
		return 0
	}
	return past(seenSome, share)
}

// massChance returns the likelihood of a measurement, up to a constant that is
// the same for all particles, from the difference of the logarithms and its
// variance.
func massChance(diff, variance float64) float64 {
	return units.Exp(-float64(diff*diff)/(2*variance)) / math.Sqrt(variance)
}

const (
	ownErr   = 0.05 // of a particle's own log mass: judgement
	fairPart = 0.3  // effective sample size, as a share of all, that a measurement leaves
)

// fair returns how likely a measurement is, particle by particle, from how far off
// each one's logarithm is and the variance of that, and the variance of a
// particle's own that this took. What a particle holds is not exact either: it may
// have grown otherwise than its rates say. That error is taken as large as it must
// be for a fair part of the particles to stay in question.
func (e *Ensemble) fair(off, variance []float64) (likely []float64, own float64) {
	likely, own = make([]float64, len(off)), float64(ownErr*ownErr)
	for range 24 {
		var all, squares float64
		for i := range likely {
			likely[i] = massChance(off[i], own+variance[i])
			v := float64(e.particles[i].weight * likely[i])
			all += v
			squares += float64(v * v)
		}
		if squares > 0 && float64(all*all) >= fairPart*float64(len(likely))*squares {
			break
		}
		own *= 2
	}
	return likely, own
}

// believe weighs the particles by a mass of g that was measured with that standard
// error of its logarithm, and moves each by its share of the two errors toward it:
// a colony that surprises everybody is believed, not fought. move sets a
// particle's mass from what it had to what it has now.
func (e *Ensemble) believe(had []float64, g, err float64, purpose uint64, move func(p *particle, had, now float64)) {
	seen, off, variance := units.Log(max(crumb, g)), make([]float64, len(had)), make([]float64, len(had))
	for i := range had {
		off[i], variance[i] = units.Log(max(crumb, had[i]))-seen, float64(err*err)
	}
	likely, own := e.fair(off, variance)
	e.reweigh(likely)
	gain := own / (own + float64(err*err))
	rest := float64(err*err) * gain // variance of what is then left in doubt
	for i, z := range strata(purpose, e.day, len(e.particles)) {
		now := units.Exp(seen + float64((1-gain)*off[i]) + float64(math.Sqrt(rest)*z))
		move(&e.particles[i], had[i], now)
	}
	e.resample(purpose)
}

// startling is how many standard errors a count may lie off before the particles'
// own error is taken for larger than their spread: judgement.
const startling = 3

// shift moves every particle toward a count: off is how much more than was counted
// each expects, as a logarithm, and variance that of the count. A particle moves by
// the share that the particles' spread has of both errors, so that middle and
// spread come out as for two normal distributions (Evensen 1994's ensemble
// update, from memory); a wide count then moves them a little, and never leaves
// only the few that lie nearest to it.
func (e *Ensemble) shift(off []float64, variance float64, purpose uint64, move func(p *particle, i int, by float64)) {
	var mean, own float64
	for i, o := range off {
		mean += float64(e.particles[i].weight * o)
	}
	for i, o := range off {
		own += float64(e.particles[i].weight * float64((o-mean)*(o-mean)))
	}
	wide := max(own, float64(mean*mean)/(startling*startling)-variance)
	gain := wide / (wide + variance)
	rest := max(0, float64(gain*variance)-float64((1-gain)*(1-gain)*own))
	for i, z := range strata(purpose, e.day, len(off)) {
		move(&e.particles[i], i, units.Exp(float64(math.Sqrt(rest)*z)-float64(gain*off[i])))
	}
}
