package colony

import (
	"slices"

	"trayside/internal/record"
	"trayside/internal/units"
)

// Horizon is how far a forecast looks, days.
const Horizon = 60

// remembered is for how many days past promises are worked out again: a year is
// more than any score looks at, and a log of five would spend most of its time
// on promises nobody asks for.
const remembered = 366

// How far a meal differs from what is foreseen of it, standard errors of the
// logarithm. The kitchen's own variety is no error of what is known of the worms:
// one bowl is softer or finer than the next. Judgement, set so that promises come
// true about as often as is said of them in the field trial.
const (
	unweighed = 0.20 // the amount of a meal nobody has put in yet
	relished  = 0.30 // how fast a meal is eaten and rots
)

// softens is how long microbes at 20 °C take until worms can eat the last of a
// meal, days: worms eat what has begun to rot (common practice), so that no meal
// is gone the next morning, however many they are. Only a forecast needs it: it
// delays a meal and hardly changes how much is eaten in a week. The number is
// judgement, set, as relished is, by how often promises come true in the field
// trial.
const softens = 1.8

// surest is the most that is said of a chance, %: the runs know nothing of what no
// model foresees.
const surest = 95

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
		amount := units.Exp(float64(unweighed * d.normal()))
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
	days, hard := make([]record.Day, len(picks)), make([]float64, len(picks))
	for i, z := range strata(e.key("relish", ""), e.day+record.Day(n), len(picks)) {
		picks[i].relish(n, units.Exp(float64(relished*z)))
		hard[i] = softens
	}
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
			hard[i] -= weathers[p.strand].rot
			if hard[i] <= 0 && p.leftOf(n) <= float64(goneShare*softs[i]) {
				days[i] = d + 1
				open--
			}
		}
	}
	slices.Sort(days)
	mid, by := days[len(days)/2], days[(2*len(days)+2)/3-1]
	gone := 0
	for gone < len(days) && days[gone] <= by {
		gone++
	}
	return Forecast{
		By: e.day + by, Chance: min(surest, 100*gone/len(days)),
		Mid: e.day + mid, Early: e.day + days[len(days)/10], Late: e.day + days[len(days)-1-len(days)/10],
		Gone: mid < Horizon,
	}
}

func (s *State) leftOf(meal int) float64 {
	var g float64
	for i := range s.Food {
		if s.Food[i].Meal == meal {
			g += s.Food[i].Left
		}
	}
	return g
}

// relish makes the worms of a particle eat, and microbes take, so many times as
// fast, and the surface take as much more, in a forecast of meal n.
func (p *particle) relish(n int, times float64) {
	p.Hunger = float64(p.Hunger * times)
	p.Broad = float64(p.Broad * times)
	for i := range p.Food {
		if m := &p.Food[i]; m.Meal == n {
			m.Rot = float64(m.Rot * times)
		}
	}
}
