package colony

import (
	"trayside/internal/record"
	"trayside/internal/units"
)

// What a few scoops out of a bed say of its heads.
const (
	// workedMM is how deep the worms of a tray sit: the top 75–150 mm, common
	// practice. depthErr is the standard error of its logarithm: judgement.
	workedMM = 100.0
	depthErr = 0.3
	// clump is how unevenly worms lie, the variance of a scoop's count over its mean
	// squared beside that of chance: worms lie in clumps where food is. Judgement.
	clump = 0.7
)

// sample takes in the worms counted in scoops from over the bed: how many there
// are, and how many of them are grown. Cocoons are too easily overlooked to count.
func (e *Ensemble) sample(s *record.Sample) {
	tray := e.hostOn(s.Tray, e.day)
	area := e.tiers(e.day)[tray].AreaM2
	bed := float64(area * workedMM) // litres: one on a square metre is a millimetre
	if !e.known.hasWorms || s.Scoops <= 0 || s.ML <= 0 || bed <= 0 {
		return
	}
	part := min(1, float64(float64(s.Scoops)*float64(s.ML))/1000/bed)
	purpose := e.key("sample", s.ID)
	e.noting(s.Day, s.ID, func() {
		had, off := e.massOf(tray), make([]float64, len(e.particles))
		count := float64(s.Adults+s.Young) + 0.5
		var mean float64
		for i := range e.particles {
			p := &e.particles[i]
			heads := float64(part*p.Share[tray]*(p.Adults()+p.Youngs())) + 0.5
			off[i] = units.Log(heads / count)
			mean += float64(p.weight * heads)
		}
		// None counted may be one that was missed.
		variance := max(1/mean, 0.5/count) + clump/float64(s.Scoops) + float64(depthErr*depthErr)
		e.shift(off, variance, purpose, func(p *particle, i int, by float64) { e.grow(p, tray, had[i], float64(had[i]*by)) })
		if s.Adults+s.Young == 0 {
			return
		}
		odds := units.Log((float64(s.Adults) + 0.5) / (float64(s.Young) + 0.5))
		spread := make([]float64, len(e.particles))
		for i := range e.particles {
			p := &e.particles[i]
			heads := float64(part * p.Share[tray])
			adults, youngs := float64(p.Adults()*heads)+0.5, float64(p.Youngs()*heads)+0.5
			off[i] = units.Log(adults/youngs) - odds
			spread[i] = 1/adults + 1/youngs + clump/float64(s.Scoops)
		}
		likely, _ := e.fair(off, spread)
		e.reweigh(likely)
		e.resample(purpose ^ 1)
	})
}
