package colony

import (
	"slices"

	"trayside/internal/record"
)

// join reckons g grams of worms into a tray of a colony whose mass, as the
// trays' shares now divide it, is mass.
func (s *State) join(tray int, mass, g float64) {
	if mass < crumb {
		mass = 0
	}
	all, shares := mass+g, sum(s.Share)
	if all <= 0 || shares <= 0 {
		mass, shares, all = 0, 1, max(g, crumb)
		g = all
	}
	for i := range s.Share {
		s.Share[i] = float64(s.Share[i] / shares * (mass / all))
	}
	s.Share[tray] += g / all
}

// Scale multiplies the worms' heads, cocoons left alone.
func (s *State) Scale(f float64) {
	for i := range s.Young {
		s.Young[i] = float64(s.Young[i] * f)
	}
	for i := range s.Adult {
		s.Adult[i] = float64(s.Adult[i] * f)
	}
}

// grownShare is the adults' part of the mass of worms as they are handed over,
// mixed ages out of a bed: judgement; the rest is half-grown or older.
const grownShare = 0.8

// Add puts g of worms of mixed ages into the colony.
func (s *State) Add(r *Rates, g float64) {
	had := s.Adults()
	adults := float64(grownShare*g) / r.AdultG.Mid
	mass := s.Mass(r)
	if had+adults > 0 {
		s.AdultSize = (float64(had*s.AdultSize) + float64(adults*r.adultSize)) / (had + adults)
	}
	s.Adult[0] += adults
	for i := youngSteps / 2; i < youngSteps; i++ {
		n := float64((1-grownShare)*g) / (youngSteps / 2) / cube(r.youngSize[i])
		if all := s.Young[i] + n; all > 0 {
			s.YoungSize[i] = (float64(s.Young[i]*s.YoungSize[i]) + float64(n*r.youngSize[i])) / all
		}
		s.Young[i] += n
	}
	// The new ones are well fed; the mean follows the masses.
	if now := mass + g; now > 0 && s.Flesh < 1 {
		s.Flesh = now / (s.Mass(r) / s.Flesh)
	}
}

// band is what a word about leftovers means, as a share of what was put in:
// judgement. Inside its band a look agrees with a particle.
type band struct{ low, high float64 }

// goneShare is what a look calls none.
const goneShare = 0.03

var bands = map[record.Leftovers]band{
	record.LeftNone: {0, goneShare},
	record.LeftHard: {0, goneShare}, // hard bits are no food
	record.LeftSome: {0.05, 0.40},
	record.LeftHalf: {0.35, 0.65},
	record.LeftMost: {0.60, 1},
}

// matches reports whether a look's eyes were on a meal.
func matches(l *record.Look, m *Meal) bool {
	return m.Tray == l.Tray && (l.Spot == "" || m.Spot == "" || m.Spot == l.Spot)
}

// pile is what is left of one meal, g of the soft part.
type pile struct {
	meal int
	left float64
}

// piles lists the meals of which something is left, the newest first.
func (s *State) piles() []pile {
	var piles []pile
	for _, m := range slices.Backward(s.Food) {
		if n := len(piles); n > 0 && piles[n-1].meal == m.Meal {
			piles[n-1].left += m.Left
			continue
		}
		piles = append(piles, pile{m.Meal, m.Left})
	}
	return piles
}
