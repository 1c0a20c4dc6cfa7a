package colony

import (
	"math"

	"trayside/internal/record"
	"trayside/internal/units"
)

// Horizon is how far a forecast looks, days.
const Horizon = 60

// remembered is for how many days past promises are worked out again: a year is
// more than any score looks at, and a log of five would spend most of its time
// on promises nobody asks for.
const remembered = 366

// usual is the relative error of a meal nobody has put in yet.
const usual = 0.05

// Gone forecasts when a meal put into a tray today would be gone. Nothing else
// is fed in the forecast, and the bed follows the season.
func (c *Course) Gone(tray string, parts []Part) Forecast {
	n := len(c.soft)
	s := c.state.Clone()
	at := c.host(tray)
	var soft float64
	for k, p := range parts {
		if g := float64(p.Grams * p.Soft); g > 0 {
			soft += g
			s.Food = append(s.Food, Morsel{Meal: n, Part: k, Tray: at, Appeal: max(0, p.Appeal), Rot: p.Rot, Fed: g, Left: g})
		}
	}
	return c.forecast(&s, []int{n}, []float64{soft}, usual)[0]
}

// Said returns what would have been promised for a past meal on the day it was
// fed, from what the log, complete as it is now, says of that day and before.
// It reports false for a meal that the course does not hold or that is more
// than a year old.
func (c *Course) Said(feeding string) (Forecast, bool) {
	f, ok := c.said[feeding]
	return f, ok
}

// promise forecasts the meals of the day that has just been taken in.
func (c *Course) promise(es []event) {
	if c.in.Today-c.day > remembered {
		return
	}
	var meals []int
	var softs []float64
	var err float64
	for _, e := range es {
		if e.kind == mealEvent {
			meals = append(meals, e.n)
			softs = append(softs, c.soft[e.n])
			err = max(err, c.in.Meals[e.n].Err)
		}
	}
	if len(meals) == 0 {
		return
	}
	for i, f := range c.forecast(&c.state, meals, softs, err) {
		c.said[c.in.Meals[meals[i]].Feeding] = f
	}
}

// forecast runs three copies of a state on, with a middling, a strong and a
// weak appetite (and surface), until the meals are down to what a look calls none. mealErr is
// the relative error of their amounts: half again as much food takes about as
// long as a third less appetite.
func (c *Course) forecast(s *State, meals []int, softs []float64, mealErr float64) []Forecast {
	m, h := c.massErr(c.day), c.hungerErr(c.day)
	err := math.Sqrt(float64(m*m) + float64(h*h) + float64(mealErr*mealErr))
	f, g := units.Exp(float64(z80*err)), units.Exp(z80*surfaceErr)
	mid := c.run(s, 1, 1, meals, softs)
	early := c.run(s, f, g, meals, softs)
	late := c.run(s, 1/f, 1/g, meals, softs)
	out := make([]Forecast, len(meals))
	for i := range meals {
		out[i] = Forecast{
			Mid: c.day + mid[i], Early: c.day + min(early[i], mid[i]), Late: c.day + max(late[i], mid[i]),
			Gone: mid[i] < Horizon,
		}
	}
	return out
}

// run steps a copy of s, its appetite times hunger and its surface times broad,
// and returns the days until each meal is gone, at most Horizon.
func (c *Course) run(s *State, hunger, broad float64, meals []int, softs []float64) []record.Day {
	copied := s.Clone()
	copied.Hunger = float64(copied.Hunger * hunger)
	copied.Broad = float64(copied.Broad * broad)
	days := make([]record.Day, len(meals))
	for i := range days {
		days[i] = Horizon
	}
	open := len(meals)
	for i := range meals {
		if softs[i] <= 0 {
			days[i] = 0
			open--
		}
	}
	for d := record.Day(0); open > 0 && d < Horizon; d++ {
		copied.Step(c.rates, c.conditions(c.day+d))
		for i, n := range meals {
			if days[i] < Horizon {
				continue
			}
			if copied.leftOf(n) <= float64(goneShare*softs[i]) {
				days[i] = d + 1
				open--
			}
		}
	}
	return days
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
