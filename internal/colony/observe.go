package colony

import (
	"trayside/internal/record"
	"trayside/internal/units"
)

// worms takes in worms added, removed, weighed or lost.
func (e *Ensemble) worms(w *record.WormEvent) {
	g, purpose := float64(w.Mass), e.key("worms "+string(w.Move), w.ID)
	tray := e.hostOn(w.Tray, e.day)
	switch w.Move {
	case record.WormsAdded:
		if g > 0 {
			e.add(w, tray, g, purpose)
		}
	case record.WormsRemoved:
		for i, z := range strata(purpose, e.day, len(e.particles)) {
			p := &e.particles[i]
			if mass := p.Mass(e.rates); mass > 0 {
				p.Scale(max(0, 1-float64(g*units.Exp(float64(weighErr*z)))/mass))
			}
		}
	case record.WormsLost:
		// A few, half, most: the share that is left is as rough as the word.
		left := max(0, 1-float64(w.Share)/100)
		for i, z := range strata(purpose, e.day, len(e.particles)) {
			e.particles[i].Scale(min(1, float64(left*units.Exp(float64(lostErr*z)))))
		}
	case record.WormsWeighed:
		e.noting(w.Day, w.ID, func() { e.weighed(w, tray, g, purpose) })
	}
}

// lostErr is the standard error of the logarithm of the share of worms that a
// word like half leaves: judgement.
const lostErr = 0.2

func (e *Ensemble) add(w *record.WormEvent, tray int, g float64, purpose uint64) {
	if !e.known.hasWorms {
		e.known.hasWorms, e.known.started = true, w.Day
	}
	err := addedErr
	if w.Wide {
		err = wideErr
	}
	for i, z := range strata(purpose, e.day, len(e.particles)) {
		p := &e.particles[i]
		came := float64(g * units.Exp(float64(err*z)))
		p.join(tray, p.Mass(e.rates), came)
		p.Add(e.rates, came)
	}
}

// weighed takes in worms that were weighed: all of them, or in a stack those of
// one tray when the entry names one.
func (e *Ensemble) weighed(w *record.WormEvent, tray int, g float64, purpose uint64) {
	if !e.known.hasWorms {
		if g > 0 {
			e.add(w, tray, g, purpose)
		}
		return
	}
	part := -1
	if w.Tray != "" && len(e.trays) > 1 {
		part = tray
	}
	err := weighErr
	if w.Wide {
		err = wideErr
	}
	e.believe(e.massOf(part), g, err, purpose, func(p *particle, had, now float64) { e.grow(p, part, had, now) })
}

// grow sets the worms of one tray, or of all, from had to now grams.
func (e *Ensemble) grow(p *particle, part int, had, now float64) {
	mass := p.Mass(e.rates)
	switch {
	case mass <= crumb:
		tray := max(0, part)
		p.join(tray, mass, now)
		p.Add(e.rates, now)
	case part >= 0:
		p.Scale((mass - had + now) / mass)
		p.Share[part] = 0
		p.join(part, mass-had, now)
	default:
		p.Scale(now / mass)
	}
}

// sight is what one particle holds where a look's eyes are.
type sight struct {
	piles []pile    // newest meal first
	fed   []float64 // g of the soft part, of each
	all   float64   // of fed
	left  float64   // g, with what nobody logged
	alien float64   // g of left that nobody logged
}

func (s *sight) share() float64 { return s.left / s.all }

// see returns what a particle holds where a look's eyes are: the newest meal in
// sight, whatever is left of it, and the older ones of which something is.
func (e *Ensemble) see(p *particle, l *record.Look, newest int) sight {
	s := sight{piles: []pile{{meal: newest}}}
	for _, o := range p.piles() {
		switch {
		case o.meal == newest:
			s.piles[0].left = o.left
		case o.left > float64(goneShare*e.soft[o.meal]) && matches(l, &e.in.Meals[o.meal]):
			s.piles = append(s.piles, o)
		}
	}
	for _, o := range s.piles {
		fed := p.fed(o.meal, e.newest, e.soft[o.meal])
		s.fed = append(s.fed, fed)
		s.all += fed
		s.left += o.left
		for i := range p.Food {
			if m := &p.Food[i]; m.Part == ghostPart && m.Meal == o.meal {
				s.alien += m.Left
			}
		}
	}
	return s
}

// look takes in a check: temperature, moisture, weight and height, and what is
// left of the meals of its tray, or of its spot when it names one.
func (e *Ensemble) look(l *record.Look) {
	e.bed.look(l)
	e.lump(l)
	band, ok := bands[l.Leftovers]
	if !ok {
		return
	}
	e.known.looked(l.Leftovers)
	newest := e.newest
	for newest >= 0 && (e.soft[newest] <= 0 || !matches(l, &e.in.Meals[newest])) {
		newest--
	}
	if newest < 0 || !e.known.hasWorms {
		return
	}
	e.known.tested++
	e.noting(l.Day, l.ID, func() { e.leftovers(l, newest, band) })
}

// leftovers weighs the particles by a word about leftovers and puts right what
// lies in those that it contradicts.
func (e *Ensemble) leftovers(l *record.Look, newest int, b band) {
	purpose := e.key("look", l.ID)
	likely := e.explain(l, newest, purpose)
	for i := range likely {
		likely[i] = units.Pow(likely[i], lookCounts)
	}
	e.reweigh(likely)
	e.resample(purpose)
	weathers, tiers := e.weathers(e.day), e.tiers(e.day)
	for i := range e.particles {
		p, d := &e.particles[i], roll(purpose^1, e.day, i)
		s := e.see(p, l, newest)
		share, u := s.share(), d.unit()
		// The nearer end of the word's band is the likelier.
		var target float64
		switch {
		case share > b.high && b.low <= 0:
			target = 0
		case share > b.high:
			target = float64(s.all * (b.high - float64((b.high-b.low)*float64(u*u))))
		case share < b.low:
			target = float64(s.all * (b.low + float64((b.high-b.low)*float64(u*u))))
		default:
			continue
		}
		if gone := s.left - target; gone > 0 {
			// It went into worms, faster than this particle thought.
			f := p.factors(e.rates, &weathers[p.strand], tiers, p.Mass(e.rates))
			p.dined(e.rates, f, gone)
		}
		e.setLeft(p, &s, target)
	}
}

// dined gives the worms the good of grams that they ate unseen.
func (p *particle) dined(r *Rates, f Factors, grams float64) {
	appetite := float64(float64(p.Mass(r)*r.Appetite.Mid*p.Hunger) * f.Warmth * f.Damp * f.Crowd)
	if appetite > 0 {
		p.Fed = min(1, p.Fed+float64(grams/appetite)/foodMemory)
	}
}

// setLeft makes the meals in sight add up to target grams. What is left lies in
// the newest, because the oldest are eaten first.
func (e *Ensemble) setLeft(p *particle, s *sight, target float64) {
	for k, o := range s.piles {
		want := min(target, s.fed[k])
		target -= want
		if want > o.left {
			e.bringBack(p, o.meal)
		}
		var room float64
		for i := range p.Food {
			if m := &p.Food[i]; m.Meal == o.meal {
				room += m.Fed - m.Left
			}
		}
		for i := range p.Food {
			m := &p.Food[i]
			if m.Meal != o.meal {
				continue
			}
			left := m.Left
			if want > o.left && room > 0 {
				left = min(m.Fed, left+float64((m.Fed-left)*((want-o.left)/room)))
			} else if o.left > 0 {
				left = float64(left * min(1, want/o.left))
			}
			p.Sums.Corrected += m.Left - left
			p.Sums.ByTray[m.Tray] += m.Left - left
			m.Left = left
		}
	}
	p.drop()
}

// bringBack puts parts of a meal that were forgotten as eaten up back in place.
func (e *Ensemble) bringBack(p *particle, n int) {
	amount := 1.0
	if e.newest-n < recent {
		amount = p.amounts[n%recent]
	}
	tray := e.hostOn(e.in.Meals[n].Tray, e.day)
	for k, part := range e.in.Meals[n].Parts {
		soft := float64(max(0, float64(part.Grams*part.Soft)) * amount)
		at, have := len(p.Food), false
		for i := range p.Food {
			m := &p.Food[i]
			have = have || m.Meal == n && m.Part == k
			if at == len(p.Food) && (m.Meal > n || m.Meal == n && m.Part > k) {
				at = i
			}
		}
		if have || soft <= 0 {
			continue
		}
		p.Food = append(p.Food, Morsel{})
		copy(p.Food[at+1:], p.Food[at:])
		p.Food[at] = Morsel{Meal: n, Part: k, Tray: tray, Appeal: max(0, part.Appeal), Rot: part.Rot, Fed: soft}
	}
}
