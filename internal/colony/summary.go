package colony

import (
	"math"
	"slices"

	"trayside/internal/record"
	"trayside/internal/units"
)

// Change is what an observation moved: a median before and after it.
type Change struct {
	Code   string // one of the Moved codes
	Entry  string // the look or weighing
	Day    record.Day
	Before float64
	After  float64
}

// What an observation can move.
const (
	MovedWorms    = "worms"    // g live
	MovedAppetite = "appetite" // g per g and day, warm, moist and uncrowded
	MovedSurface  = "surface"  // g a day that a m² takes
)

// Ask is a question that an observation raises.
type Ask struct {
	Code   string // AskUnlogged
	Tray   string
	Look   string // the look's id
	Day    record.Day
	Chance float64 // that so much would be left, had nobody fed without logging it
}

// AskUnlogged asks whether somebody fed without logging it.
const AskUnlogged = "unlogged-feeding"

// How long an observation is news, days; and how far a median must move to be
// worth a word. Judgement.
const (
	newsDays  = 30
	newsMoves = 0.03
	askDays   = 3
)

// noting takes in an observation and notes what it changed, if that is recent.
func (e *Ensemble) noting(day record.Day, entry string, observe func()) {
	if e.in.Today-day > newsDays {
		observe()
		return
	}
	before := e.middles()
	observe()
	for k, after := range e.middles() {
		if b := before[k]; b > 0 && math.Abs(after-b) >= newsMoves*b {
			code := [...]string{MovedWorms, MovedAppetite, MovedSurface}[k]
			e.changes = append(e.changes, Change{Code: code, Entry: entry, Day: day, Before: b, After: after})
		}
	}
}

// middles returns the medians of what can change: mass, appetite, surface.
func (e *Ensemble) middles() [3]float64 {
	hunger, broad := make([]float64, len(e.particles)), make([]float64, len(e.particles))
	for i := range e.particles {
		hunger[i], broad[i] = e.particles[i].Hunger, e.particles[i].Broad
	}
	return [3]float64{
		e.spread(e.massOf(-1)).Mid,
		float64(e.rates.Appetite.Mid * e.spread(hunger).Mid),
		float64(e.rates.Surface.Mid * e.spread(broad).Mid),
	}
}

// Estimate returns the state of the bin on the day the ensemble ends on.
func (e *Ensemble) Estimate() Estimate {
	d, r := e.day, e.rates
	tiers, weathers := e.tiers(d), e.weathers(d)
	mid := weathers[len(strands)/2]
	n := len(e.particles)
	factors := make([]Factors, n)
	for i := range e.particles {
		p := &e.particles[i]
		factors[i] = p.factors(r, &weathers[p.strand], tiers, p.Mass(r))
	}
	of := func(f func(i int, p *particle) float64) Span {
		values := make([]float64, n)
		for i := range e.particles {
			values[i] = f(i, &e.particles[i])
		}
		return e.spread(values)
	}
	hunger := of(func(_ int, p *particle) float64 { return p.Hunger })
	out := Estimate{
		Day: d, Live: e.spread(e.massOf(-1)), ByTray: make(map[string]Span, len(e.trays)),
		Base: float64(r.Appetite.Mid * hunger.Mid), Warmth: mid.eat, Damp: mid.damp,
		Crowd:   of(func(i int, _ *particle) float64 { return factors[i].Crowd }).Mid,
		Surface: make(map[string]float64, len(e.trays)), Eats: make(map[string]Span, len(e.trays)), Takes: make(map[string]Span, len(e.trays)),
		Lying: make(map[string]float64, len(e.trays)),
		Bed:   units.DeciCelsius(math.Floor(float64(e.bed.celsius(d)*10) + 0.5)), BedSeen: e.bed.seen(d),
		Cocoons: of(func(_ int, p *particle) float64 { return p.Cocoons() }).Mid,
		Young:   of(func(_ int, p *particle) float64 { return p.Youngs() }).Mid,
		Adults:  of(func(_ int, p *particle) float64 { return p.Adults() }).Mid,
		SoftEat: of(func(_ int, p *particle) float64 { return p.Sums.Night }).Mid,

		CleanLooks: e.known.clean, Started: e.known.started, Looks: e.known.looks, Learned: e.known.tested,
		Eaten: make(map[string]float64, len(e.trays)), Changes: slices.Clone(e.changes), Knows: e.knows(),
	}
	appetite := func(i int, p *particle) float64 {
		return float64(float64(r.Appetite.Mid*p.Hunger)*factors[i].Warmth) * float64(factors[i].Damp*factors[i].Crowd)
	}
	out.Appetite = of(appetite)
	// The parts that a keeper is shown multiply to the middle.
	out.Appetite.Mid = float64(out.Base*out.Warmth) * float64(out.Damp*out.Crowd)
	out.Appetite.Low = min(out.Appetite.Low, out.Appetite.Mid)
	out.Appetite.High = max(out.Appetite.High, out.Appetite.Mid)
	for t, id := range e.trays {
		if !tiers[t].InUse || id == "" {
			continue
		}
		out.ByTray[id] = e.spread(e.massOf(t))
		surface := func(p *particle) float64 { return float64(float64(tiers[t].AreaM2*r.Surface.Mid) * p.Broad) }
		eats := func(i int, p *particle) float64 {
			return float64(float64(p.Mass(r)*p.Share[t]) * appetite(i, p))
		}
		out.Surface[id] = of(func(_ int, p *particle) float64 { return surface(p) }).Mid
		out.Eats[id] = of(eats)
		out.Takes[id] = of(func(i int, p *particle) float64 { return min(eats(i, p), surface(p)) })
		out.Lying[id] = e.lying(t)
		out.Eaten[id] = of(func(_ int, p *particle) float64 { return max(0, p.Sums.ByTray[t]) }).Mid
	}
	out.Lefts = e.lefts()
	if e.ask != nil && d-e.ask.Day <= askDays {
		ask := *e.ask
		out.Ask = &ask
	}
	return out
}

// surer: a hidden quantity counts as learned when its spread is below this
// share of what the handbook leaves open: judgement.
const surer = 0.75

// knows tells which quantities the log, and no longer the handbook, sets.
func (e *Ensemble) knows() Knows {
	_, dev := e.moments()
	return Knows{Appetite: dev[ofHunger] < surer, Surface: dev[ofSurface] < surer, Breeding: dev[ofFertility] < surer}
}

// lefts lists the meals of which a gram and more is left, oldest first.
func (e *Ensemble) lefts() []Left {
	var meals []int
	for i := range e.particles {
		for _, m := range e.particles[i].Food {
			if !slices.Contains(meals, m.Meal) {
				meals = append(meals, m.Meal)
			}
		}
	}
	slices.Sort(meals)
	var out []Left
	values := make([]float64, len(e.particles))
	for _, n := range meals {
		for i := range e.particles {
			values[i] = e.particles[i].leftOf(n)
		}
		soft := e.spread(values).Mid
		if soft < 1 {
			continue
		}
		m := &e.in.Meals[n]
		var fed float64
		for _, p := range m.Parts {
			fed += p.Grams
		}
		out = append(out, Left{Feeding: m.Feeding, Tray: m.Tray, Spot: m.Spot, Day: m.Day, Fed: fed, Soft: soft})
	}
	return out
}

// lying returns g of the soft part of earlier days' meals in a tray, the mean: a
// caddy that may lie there untouched counts by its chance.
func (e *Ensemble) lying(tray int) float64 {
	var mean float64
	for i := range e.particles {
		p := &e.particles[i]
		for _, m := range p.Food {
			if m.Tray == tray && e.in.Meals[m.Meal].Day < e.day {
				mean += float64(p.weight * m.Left)
			}
		}
	}
	return mean
}
