package colony

import (
	"slices"

	"trayside/internal/record"
	"trayside/internal/units"
)

// outlooks is how many particles a forecast follows: enough for the ends of an
// 80 % interval in whole days.
const outlooks = 20

// Gone forecasts when a meal put into a tray today would be gone. Nothing else
// is fed in the forecast, and the bed follows the season.
func (e *Ensemble) Gone(tray string, parts []Part) Forecast {
	n := len(e.soft)
	at, purpose := e.hostOn(tray, e.day), e.key("gone", tray)
	picks := e.picks()
	softs := make([]float64, len(picks))
	for i := range picks {
		p := &picks[i]
		d := roll(purpose, e.day, i)
		amount := units.Exp(float64(usual * d.normal()))
		for k, part := range parts {
			if g := float64(float64(part.Grams*part.Soft) * amount); g > 0 {
				softs[i] += g
				p.Food = append(p.Food, Morsel{Meal: n, Part: k, Tray: at, Appeal: max(0, part.Appeal), Rot: part.Rot, Fed: g, Left: g})
			}
		}
	}
	return e.forecast(picks, n, softs)
}

// Said returns what would have been promised for a past meal on the day it was
// fed, from what the log, complete as it is now, says of that day and before.
// It reports false for a meal that the ensemble does not hold or that is more
// than a year old.
func (e *Ensemble) Said(feeding string) (Forecast, bool) {
	f, ok := e.said[feeding]
	return f, ok
}

// promise forecasts the meals of the day that has just been taken in.
func (e *Ensemble) promise(events []event) {
	if e.in.Today-e.day > remembered {
		return
	}
	for _, ev := range events {
		if ev.kind != mealEvent {
			continue
		}
		picks := e.picks()
		softs := make([]float64, len(picks))
		for i := range picks {
			softs[i] = picks[i].fed(ev.n, e.newest, e.soft[ev.n])
		}
		e.said[e.in.Meals[ev.n].Feeding] = e.forecast(picks, ev.n, softs)
	}
}

// picks returns copies of a few particles, drawn evenly by their weights.
func (e *Ensemble) picks() []particle {
	picks := make([]particle, 0, outlooks)
	at, next := 0.5/outlooks, 0.0
	for i := range e.particles {
		next += e.particles[i].weight
		for len(picks) < outlooks && (at < next || i == len(e.particles)-1) {
			picks = picks[:len(picks)+1]
			picks[len(picks)-1].copyFrom(&e.particles[i])
			at += 1.0 / outlooks
		}
	}
	return picks
}

// forecast steps particles on until meal n is down to what a look calls none.
func (e *Ensemble) forecast(picks []particle, n int, softs []float64) Forecast {
	days := make([]record.Day, len(picks))
	open := 0
	for i := range picks {
		if softs[i] > 0 {
			days[i] = Horizon
			open++
		}
	}
	for d := record.Day(0); open > 0 && d < Horizon; d++ {
		weathers, tiers := e.weathers(e.day+d), e.tiers(e.day+d)
		for i := range picks {
			p := &picks[i]
			if days[i] < Horizon {
				continue
			}
			p.step(e.rates, &weathers[p.strand], tiers)
			if p.leftOf(n) <= float64(goneShare*softs[i]) {
				days[i] = d + 1
				open--
			}
		}
	}
	slices.Sort(days)
	mid := days[len(days)/2]
	return Forecast{
		Mid: e.day + mid, Early: e.day + days[len(days)/10], Late: e.day + days[len(days)-1-len(days)/10],
		Gone: mid < Horizon,
	}
}
