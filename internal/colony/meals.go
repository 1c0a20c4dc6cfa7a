package colony

import (
	"math"

	"trayside/internal/record"
	"trayside/internal/units"
)

// How a meal really weighs: never below a fifth nor above five times what was
// logged.
const amountMost = 5.0

// soft returns g of a meal's soft part as it was logged.
func (m *Meal) soft() float64 {
	var g float64
	for _, p := range m.Parts {
		g += max(0, float64(p.Grams*p.Soft))
	}
	return g
}

// feed lays a meal down, in every particle by its own amount, and draws whether
// somebody will feed the tray again before the next meal without logging it.
func (e *Ensemble) feed(n int) {
	m := &e.in.Meals[n]
	e.soft[n] = m.soft()
	if gap := float64(m.Day - e.mealDay); e.newest >= 0 && gap > 0 {
		e.pause = max(1, e.pause+float64(0.15*(min(gap, float64(longGap*e.pause))-e.pause)))
	}
	if e.soft[n] > 0 {
		logged := units.Log(e.soft[n])
		if e.usual == 0 {
			e.usual = logged
		}
		e.usual += float64(0.1 * (logged - e.usual))
	}
	e.newest, e.mealDay = max(e.newest, n), m.Day
	tray, purpose := e.hostOn(m.Tray, e.day), e.key("meal", m.Feeding)
	rough := e.roughness(m, e.soft[n])
	for i := range e.particles {
		p, d := &e.particles[i], roll(purpose, e.day, i)
		amount := rough.draw(&d)
		p.lay(n, tray, m.Parts, amount)
		p.ghost = ghost{}
		filled, extra, later := d.unit(), d.unit(), d.unit()
		grams := units.Exp(e.usual + float64(mealErr*d.normal()))
		switch {
		case filled < e.fills(p, n) && e.late(m.Day, n):
			p.ghost = ghost{day: m.Day + e.pausing(later), meal: n, grams: grams}
		case extra < float64(ofExtra*p.unlogged):
			p.ghost = ghost{day: m.Day + 1 + record.Day(later*e.pause), meal: n, grams: grams}
		}
	}
}

// rough is what an amount really was beside what was logged: most meals are
// usual ones, and a rough amount far from the usual is then more likely rough
// than far; but now and then a caddy is tipped in, and it is as it was logged.
type rough struct {
	toward, err float64 // of the logarithm, for a usual meal
	odd         float64 // chance that it was not
	oddErr      float64
}

// oddMeals is the share of meals that have nothing to do with the usual one, and
// oddWide the standard deviation of the logarithm of theirs: judgement.
const (
	oddMeals = 0.15
	oddWide  = 1.2
)

func (e *Ensemble) roughness(m *Meal, soft float64) rough {
	usual, own := float64(mealErr*mealErr), float64(m.Err*m.Err)
	trust := usual / (usual + own)
	r := rough{err: float64(m.Err * math.Sqrt(trust)), oddErr: m.Err}
	if soft <= 0 {
		return r
	}
	off := e.usual - units.Log(soft)
	r.toward = float64((1 - trust) * off)
	fits := func(wide float64) float64 { return massChance(off, wide+own) / math.Sqrt(wide+own) }
	odd := float64(oddMeals * fits(float64(oddWide*oddWide)))
	if all := odd + float64((1-oddMeals)*fits(usual)); all > 0 {
		r.odd = odd / all
	}
	return r
}

func (r *rough) draw(d *dice) float64 {
	z, u := d.normal(), d.unit()
	log := r.toward + float64(r.err*z)
	if u < r.odd {
		log = float64(r.oddErr * z)
	}
	return max(1/amountMost, min(amountMost, units.Exp(log)))
}

// Most feedings that nobody logs stand where the log has a gap: the next meal is
// late for this household, more than longGap of its usual pause. Others come on
// top. The shares are set so that a household that feeds evenly and forgets
// three in ten is given about as many. Judgement.
const (
	longGap = 1.3
	ofGaps  = 2.0
	ofExtra = 0.25
	openGap = 0.2 // of ofGaps, for a gap that has not ended
)

// fills is the chance that a gap after meal n is a feeding that nobody logged. A
// gap that no meal has ended within ahead days is more likely a pause: nobody
// was there, or the keeper waits.
func (e *Ensemble) fills(p *particle, n int) float64 {
	fills := min(0.9, float64(ofGaps*p.unlogged))
	if next := e.next(n); next > e.in.Today || next-e.in.Meals[n].Day > ahead {
		return float64(fills * openGap)
	}
	return fills
}

// late reports whether the meal after meal n came, or has yet to come, late
// after a feeding of day d.
func (e *Ensemble) late(d record.Day, n int) bool {
	return float64(e.next(n)-d) > float64(longGap*e.pause)
}

// next returns the day of the first meal after meal n's day, the day after
// today if there is none.
func (e *Ensemble) next(n int) record.Day {
	for _, m := range e.in.Meals[n+1:] {
		if m.Day > e.in.Meals[n].Day {
			return min(m.Day, e.in.Today+1)
		}
	}
	return e.in.Today + 1
}

// pausing returns a usual pause, give or take a fifth as u says.
func (e *Ensemble) pausing(u float64) record.Day {
	return max(1, record.Day(float64(e.pause*(0.8+float64(0.4*u)))+0.5))
}

// mealErr is the standard deviation of the logarithm of a household's meals
// about its usual one, those that nobody logs among them: judgement.
const mealErr = 0.4

// appear lays down the feeding that nobody logged and draws whether there is
// another one before the next meal.
func (e *Ensemble) appear(p *particle, i int) {
	g := p.ghost
	p.haunt(g.meal, e.hostOn(e.in.Meals[g.meal].Tray, e.day), g.grams)
	p.ghost = ghost{}
	d := roll(e.key("again", ""), e.day, i)
	if d.unit() < e.fills(p, g.meal)/2 && e.late(e.day, g.meal) {
		p.ghost = ghost{day: e.day + e.pausing(d.unit()), meal: g.meal, grams: units.Exp(e.usual + float64(mealErr*d.normal()))}
	}
}
