package colony

import (
	"math"
	"slices"

	"trayside/internal/record"
	"trayside/internal/units"
)

// The 80 % spans of this model are a stated widening and no inference: the
// error the colony was started or weighed with, grown by the days since, and
// what handbooks disagree about appetites, cut a little by every look that
// could have contradicted the model and grown by the days since the last.

// massErr returns the standard error of log live mass on day d.
func (c *Course) massErr(d record.Day) float64 {
	grown := min(growthMax, float64(growthErr*c.rates.Wide*float64(max(0, d-c.known.massDay))))
	return math.Sqrt(float64(c.known.massErr*c.known.massErr) + float64(grown*grown))
}

// hungerErr returns the standard error of log appetite on day d.
func (c *Course) hungerErr(d record.Day) float64 {
	e := hungerErr
	for range min(c.known.measured, 40) {
		e = float64(e * lookCut)
	}
	e = max(hungerMin, e)
	if c.known.hasLooked {
		e = min(hungerErr, e+float64(hungerAge*float64(max(0, d-c.known.lookDay))))
	}
	return float64(e * c.rates.Wide)
}

// span returns the 80 % interval of a log-normal quantity.
func span(mid, err float64) Span {
	if mid <= 0 {
		return Span{}
	}
	f := units.Exp(float64(z80 * err))
	return Span{Mid: mid, Low: mid / f, High: float64(mid * f)}
}

// Estimate returns the state of the bin on the day the course ends on.
func (c *Course) Estimate() Estimate {
	s, r, d := &c.state, c.rates, c.day
	cond := c.conditions(d)
	f := s.Factors(r, cond)
	live := s.Mass(r)
	massErr := c.massErr(d)
	base := float64(r.Appetite.Mid * s.Hunger)
	e := Estimate{
		Day: d, Live: span(live, massErr), ByTray: make(map[string]Span, len(c.trays)),
		Appetite: span(float64(base*f.Warmth)*float64(f.Damp*f.Crowd), c.hungerErr(d)),
		Base:     base, Warmth: f.Warmth, Damp: f.Damp, Crowd: f.Crowd,
		Surface: make(map[string]float64, len(c.trays)),
		Bed:     units.DeciCelsius(math.Floor(float64(cond.BedC*10) + 0.5)), BedSeen: c.bed.seen(d),
		Cocoons: s.Cocoons(), Young: s.Youngs(), Adults: s.Adults(), SoftEat: s.Sums.Night,
		CleanLooks: c.known.clean, Started: c.known.started, Looks: c.known.looks, Learned: c.known.tested,
		Eaten: make(map[string]float64, len(c.trays)),
	}
	goal := s.goal(cond.Tiers)
	for i, id := range c.trays {
		if !cond.Tiers[i].InUse || id == "" {
			continue
		}
		err := massErr
		if goal[i] > s.Share[i] { // still filling
			climb := float64(climbErr * (1 - s.Share[i]/goal[i]))
			err = math.Sqrt(float64(err*err) + float64(climb*climb))
		}
		proven := c.proofs[i].at(d, s.Share[i])
		e.ByTray[id] = span(float64(live*s.Share[i]), err).atLeast(proven)
		e.Live = e.Live.atLeast(min(proven, e.ByTray[id].Mid))
		e.Surface[id] = float64(float64(cond.Tiers[i].AreaM2*r.Surface.Mid) * s.Broad)
		e.Eaten[id] = max(0, s.Sums.ByTray[i])
	}
	e.Lefts = c.lefts()
	return e
}

// lefts lists the meals of which a gram and more is left, oldest first.
func (c *Course) lefts() []Left {
	var out []Left
	for _, p := range slices.Backward(c.state.piles()) {
		if p.left < 1 {
			continue
		}
		m := &c.in.Meals[p.meal]
		var fed float64
		for _, p := range m.Parts {
			fed += p.Grams
		}
		out = append(out, Left{Feeding: m.Feeding, Tray: m.Tray, Spot: m.Spot, Day: m.Day, Fed: fed, Soft: p.left})
	}
	return out
}

// Books returns the food's sums.
func (c *Course) Books() Sums { return c.state.Sums }
