package colony

import (
	"math"

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

// sample weighs the particles by the worms counted in scoops from over the bed:
// adults and young each, on the scale of the logarithm. Cocoons are too easily
// overlooked to count.
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
		likely := make([]float64, len(e.particles))
		for i := range e.particles {
			p := &e.particles[i]
			here := float64(part * p.Share[tray])
			likely[i] = float64(countChance(s.Adults, float64(p.Adults()*here), s.Scoops) * countChance(s.Young, float64(p.Youngs()*here), s.Scoops))
		}
		e.reweigh(likely)
		e.resample(purpose)
	})
}

// countChance returns the likelihood of counting n heads in scoops where so many
// are expected, up to a constant.
func countChance(n int, expected float64, scoops int) float64 {
	mean := expected + 0.5
	variance := 1/mean + clump/float64(scoops) + float64(depthErr*depthErr)
	diff := units.Log((float64(n) + 0.5) / mean)
	return massChance(diff, variance) / math.Sqrt(variance)
}
