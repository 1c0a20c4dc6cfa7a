package colony

import (
	"cmp"
	"slices"

	"trayside/internal/record"
)

// worms takes in worms added, removed, weighed or lost.
func (c *Course) worms(w *record.WormEvent) {
	s := &c.state
	mass, g := s.Mass(c.rates), float64(w.Mass)
	tray := c.host(w.Tray)
	switch w.Move {
	case record.WormsAdded:
		if g <= 0 {
			return
		}
		err := addedErr
		if w.Wide {
			err = wideErr
		}
		if !c.known.hasWorms {
			c.known.hasWorms, c.known.started = true, w.Day
		}
		// What was there keeps its doubt, what comes brings its own.
		c.known.massErr = (float64(c.massErr(w.Day)*mass) + float64(err*g)) / (mass + g)
		c.known.massDay = w.Day
		s.join(tray, mass, g)
		s.Add(c.rates, g)
	case record.WormsRemoved:
		if mass > 0 {
			c.lose(max(0, 1-g/mass))
		}
	case record.WormsLost:
		c.lose(max(0, 1-float64(w.Share)/100))
	case record.WormsWeighed:
		c.weighed(w, tray, mass, g)
	}
}

// lose leaves a share of the colony, and of what is proven about it.
func (c *Course) lose(left float64) {
	c.state.Scale(left)
	for i := range c.proofs {
		c.proofs[i].worms = float64(c.proofs[i].worms * left)
	}
}

// weighed sets the colony to what was weighed: the whole of it, or in a stack
// the worms of one tray when the entry names one.
func (c *Course) weighed(w *record.WormEvent, tray int, mass, g float64) {
	s := &c.state
	switch there := float64(mass * s.Share[tray]); {
	case mass <= 0 && g > 0:
		s.join(tray, 0, g)
		s.Add(c.rates, g)
		if !c.known.hasWorms {
			c.known.hasWorms, c.known.started = true, w.Day
		}
	case mass <= 0:
		return
	case w.Tray != "" && len(s.Share) > 1:
		s.Scale((mass - there + g) / mass)
		s.Share[tray] = 0
		s.join(tray, mass-there, g)
	default:
		s.Scale(g / mass)
	}
	c.known.massErr, c.known.massDay = weighErr, w.Day
	if w.Wide {
		c.known.massErr = wideErr
	}
}

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
// judgement. Inside its band a look agrees with the model and changes nothing.
type band struct{ low, high float64 }

// mid is what a contradicted model is set to; nothing is nothing.
func (b band) mid() float64 {
	if b.low <= 0 {
		return 0
	}
	return (b.low + b.high) / 2
}

// goneShare is what a look calls none.
const goneShare = 0.03

var bands = map[record.Leftovers]band{
	record.LeftNone: {0, goneShare},
	record.LeftHard: {0, goneShare}, // hard bits are no food
	record.LeftSome: {0.05, 0.40},
	record.LeftHalf: {0.35, 0.65},
	record.LeftMost: {0.60, 1},
}

// How far one look may move the appetite (or what the surface takes), and all of
// them together. This is a bounded adjustment, no inference: a look that
// contradicts the model moves it by at most a tenth. Judgement.
const (
	lookStep   = 0.10
	lookGain   = 0.3
	hungerLow  = 0.5
	hungerHigh = 2.0
)

// look takes in a check: temperature, moisture and what is left of the meals
// of its tray, or of its spot when it names one.
func (c *Course) look(l *record.Look) {
	c.bed.look(l)
	b, ok := bands[l.Leftovers]
	if !ok {
		return
	}
	c.known.looked(l.Leftovers)
	piles := c.view(l)
	var fed, left float64
	for _, p := range piles {
		fed += c.soft[p.meal]
		left += p.left
	}
	if fed <= 0 {
		return
	}
	share := left / fed
	c.known.tested++
	if share > goneShare || b.low > 0 {
		// Nothing left where the model too sees nothing tells only that the
		// worms could have eaten more.
		c.known.measured++
		c.known.hasLooked, c.known.lookDay = true, l.Day
	}
	tray := c.host(l.Tray)
	if l.Spot == "" {
		c.prove(tray, l.Day, b, fed)
	}
	if share >= b.low && share <= b.high {
		return
	}
	c.learn(tray, share, b)
	c.set(piles, float64(b.mid()*fed))
}

// learn moves toward what a contradicting look says: the surface's limit, if
// that was what kept the worms of this tray from eating more, else their
// appetite.
func (c *Course) learn(tray int, share float64, b band) {
	s := &c.state
	if s.Mass(c.rates) <= 0 {
		return
	}
	miss := share - b.high // more gone than thought
	if share < b.low {
		miss = share - b.low
	}
	step := 1 + max(-lookStep, min(lookStep, float64(lookGain*miss)))
	if s.Bound[tray] {
		s.Broad = max(c.rates.Surface.Low/c.rates.Surface.Mid, min(c.rates.Surface.High/c.rates.Surface.Mid, float64(s.Broad*step)))
		return
	}
	s.Hunger = max(hungerLow, min(hungerHigh, float64(s.Hunger*step)))
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

// view lists the meals a look is about, newest first: the newest in its sight,
// whatever is left of it, and the older ones of which the model thinks
// something is.
func (c *Course) view(l *record.Look) []pile {
	newest := c.newest
	for newest >= 0 && (c.soft[newest] <= 0 || !matches(l, &c.in.Meals[newest])) {
		newest--
	}
	if newest < 0 {
		return nil
	}
	view := []pile{{meal: newest}}
	for _, p := range c.state.piles() {
		switch {
		case p.meal == newest:
			view[0].left = p.left
		case p.left > float64(goneShare*c.soft[p.meal]) && matches(l, &c.in.Meals[p.meal]):
			view = append(view, p)
		}
	}
	return view
}

// set makes the meals of a view add up to target grams. What is left lies in
// the newest, because the oldest are eaten first.
func (c *Course) set(view []pile, target float64) {
	for _, p := range view {
		want := min(target, c.soft[p.meal])
		target -= want
		c.setMeal(p.meal, p.left, want)
	}
	c.state.drop()
}

// setMeal moves what is left of meal n from had to want grams: down, every part
// by the same share of what is left of it; up, by the same share of what is gone.
func (c *Course) setMeal(n int, had, want float64) {
	s := &c.state
	if want > had {
		c.restore(n)
	}
	for i := range s.Food {
		m := &s.Food[i]
		if m.Meal != n {
			continue
		}
		left := m.Left
		if want > had {
			// Rounding must not leave more than was fed.
			left = min(m.Fed, left+float64((m.Fed-m.Left)*((want-had)/(c.soft[n]-had))))
		} else if had > 0 {
			left = float64(m.Left * (want / had))
		}
		s.Sums.Corrected += m.Left - left
		s.Sums.ByTray[m.Tray] += m.Left - left
		m.Left = left
	}
}

// restore brings back the parts of meal n that were forgotten as eaten up.
func (c *Course) restore(n int) {
	s := &c.state
	m := &c.in.Meals[n]
	tray := c.host(m.Tray)
	for k, p := range m.Parts {
		soft := float64(p.Grams * p.Soft)
		if soft <= 0 || slices.ContainsFunc(s.Food, func(f Morsel) bool { return f.Meal == n && f.Part == k }) {
			continue
		}
		s.Food = append(s.Food, Morsel{Meal: n, Part: k, Tray: tray, Appeal: max(0, p.Appeal), Rot: p.Rot, Fed: soft})
	}
	slices.SortStableFunc(s.Food, func(a, b Morsel) int { return cmp.Or(cmp.Compare(a.Meal, b.Meal), cmp.Compare(a.Part, b.Part)) })
}
