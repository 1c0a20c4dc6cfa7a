package colony

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"

	"trayside/internal/record"
)

var allSpecies = []record.Species{record.Eisenia, record.Dendrobaena, record.Eudrilus, record.Perionyx, record.NotSure}

// growth is the rate a day at which an uncrowded colony comes to grow, run long
// enough for its stages to settle.
func growth(t *testing.T, r *Rates, bedC float64) float64 {
	t.Helper()
	d := newDish(uncapped(*r), 1e4, 1e12, bedC)
	var last float64
	for day := 0; day < 3000; day++ {
		before := heads(&d.state)
		d.fill()
		d.step()
		last = heads(&d.state) / before
		if day%100 == 0 { // keep it uncrowded for ever
			shrink(&d.state, heads(&d.state)/1e4)
		}
	}
	return math.Log(last)
}

func heads(s *State) float64 { return s.Cocoons() + s.Youngs() + s.Adults() }

func shrink(s *State, by float64) {
	s.Scale(1 / by)
	for i := range s.Cocoon {
		s.Cocoon[i] /= by
	}
}

// The projection matrix of the uncrowded, fed colony, written from the rates
// and not from Step: its dominant eigenvalue (gonum) is the growth rate the
// daily step must come to.
func TestUncrowdedGrowthIsTheProjectionMatrixsEigenvalue(t *testing.T) {
	for _, species := range allSpecies {
		for _, bedC := range []float64{18, 20, 25} {
			r := RatesOf(species)
			want := math.Log(dominant(t, projection(r, bedC)))
			got := growth(t, r, bedC)
			if math.Abs(got-want) > 1e-6 {
				t.Errorf("%s at %.0f °C grows %.8f a day, the matrix says %.8f", species, bedC, got, want)
			}
		}
	}
}

func dominant(t *testing.T, m *mat.Dense) float64 {
	t.Helper()
	var eig mat.Eigen
	if !eig.Factorize(m, mat.EigenNone) {
		t.Fatal("no eigenvalues")
	}
	best := 0.0
	for _, v := range eig.Values(nil) {
		if math.Abs(imag(v)) < 1e-12 {
			best = max(best, real(v))
		}
	}
	return best
}

// projection maps one day's heads (cocoons, young, adults by sub-stage) to the
// next day's.
func projection(r *Rates, bedC float64) *mat.Dense {
	const c, y, a = 0, cocoonSteps, cocoonSteps + youngSteps
	const n = a + layingSteps + 1
	m := mat.NewDense(n, n, nil)
	chain := func(from, steps int, keep, progress float64) (out float64) {
		move := progress * float64(steps)
		for i := from; i < from+steps; i++ {
			m.Set(i, i, keep*(1-move))
			if i > from {
				m.Set(i, i-1, keep*move)
			}
		}
		return keep * move
	}
	pace := r.YoungPace.at(bedC) / r.YoungBest * r.Rich
	keepYoung := 1 - max(-math.Log(r.Survive.Mid)*pace, r.Die.Mid)
	keepAdult := 1 - r.Die.Mid
	hatch := chain(c, cocoonSteps, 1, (bedC-r.CocoonBase)/r.CocoonDays)
	mature := chain(y, youngSteps, keepYoung, pace)
	age := chain(a, layingSteps, keepAdult, 1/daysOfYouth)
	m.Set(y, y-1, hatch*r.Hatch.Mid*r.Hatchlings.Mid)
	// Who matures today begins to age tomorrow.
	m.Set(a, a-1, mature)
	m.Set(n-1, n-1, keepAdult)
	m.Set(n-1, n-2, age)
	lay := r.Cocoons.Mid / 7 * r.Household.Mid * r.Lay.at(bedC)
	for i := range layingSteps {
		m.Set(c, a+i, m.At(c, a+i)+lay)
	}
	m.Set(c, n-1, m.At(c, n-1)+lay*lateLaying)
	return m
}
