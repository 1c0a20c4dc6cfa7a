package colony

import (
	"trayside/internal/record"
	"trayside/internal/units"
)

// More can lie in a tray than hardly any particle expects. Then somebody fed and
// did not log it, or the worms are fewer, or eat less, than all of them think. The
// first is asked before the second is believed.

const (
	// implausible is the chance of finding that much left, had everybody logged
	// what they fed and had all gone on as it was, under which a look is odd:
	// judgement.
	implausible = 0.08
	// failing is the chance that worms failed, where that is in question, and failed
	// the least that is left of what they could eat: judgement.
	failing = 0.1
	failed  = 0.03
	// poorest is how far the appetite of a grown worm may have fallen, in standard
	// errors of that of its species.
	poorest = -2.5
	// patience is how many odd looks in a row nobody has to explain: judgement.
	patience = 2
	// untouched is how many days worms may leave a meal alone, because it is too
	// fresh for them or they have not found it (common practice): what lies there
	// then is not odd.
	untouched = 1
)

// The answers to whether somebody fed without logging it, and the chance that
// nobody knows of one who did: judgement.
const (
	unloggedYes = "yes"
	unloggedNo  = "no"
	forgetting  = 0.1
)

// explain returns how likely each particle makes a word about leftovers. Where it
// is odd, some of them are given a reason for it.
func (e *Ensemble) explain(l *record.Look, newest int, purpose uint64) []float64 {
	likely := make([]float64, len(e.particles))
	fresh := l.Day-e.in.Meals[newest].Day <= untouched
	var surprise float64
	for i := range e.particles {
		p := &e.particles[i]
		s := e.see(p, l, newest)
		likely[i] = wordChance(l.Leftovers, s.share())
		surprise += float64(p.weight * atLeast(l.Leftovers, (s.left-s.alien)/s.all))
	}
	if e.ask != nil && e.ask.Tray == l.Tray {
		e.ask = nil
	}
	told, odd := e.told(l), surprise < implausible && !fresh
	if told == unloggedNo {
		for i := range likely {
			if s := e.see(&e.particles[i], l, newest); s.alien > 0 {
				likely[i] = float64(likely[i] * forgetting)
			}
		}
	}
	// Some odd looks may be feedings. One more of them, or nobody who fed, is the
	// worms.
	if odd && (told == unloggedNo || told == "" && e.known.odd >= patience) {
		e.blame(l, newest, likely, purpose)
	}
	if told == unloggedYes || told == "" && odd {
		e.suspect(l, newest, likely, purpose, surprise, told)
	}
	e.known.odd++
	if !odd {
		e.known.odd = 0
	}
	return likely
}

// blame lets every particle explain leftovers by worms that died or ail since what
// lies there was fed: by fewer of them, or by less that each eats. Of some losses
// it takes one, the likelier the more what it leaves fits the word.
func (e *Ensemble) blame(l *record.Look, newest int, likely []float64, purpose uint64) {
	const losses = 8
	step := units.Log(failed) / losses
	for i := range e.particles {
		p, d := &e.particles[i], roll(purpose^3, e.day, i)
		s := e.see(p, l, newest)
		var left, fits [losses]float64
		var all float64
		for k := range left {
			left[k] = units.Exp(float64(step * (float64(k) + d.unit())))
			fits[k] = wordChance(l.Leftovers, 1-float64(left[k]*(1-s.share())))
			all += fits[k]
		}
		worse, as := float64(failing*(all/losses)), float64((1-failing)*likely[i])
		likely[i] = worse + as
		if float64(d.unit()*likely[i]) >= worse {
			continue
		}
		k, at := 0, float64(d.unit()*all)
		for ; k < losses-1 && at >= fits[k]; k++ {
			at -= fits[k]
		}
		p.fail(e.rates, left[k], d.unit())
	}
}

// fail leaves that share of what a particle's worms could eat: part of the loss, as
// a power, is of each worm's appetite, the rest of their number.
func (p *particle) fail(r *Rates, left, part float64) {
	had := p.Hunger
	slack := float64(units.Log(r.Appetite.Mid/r.Appetite.Low) * (r.Wide / tail90))
	p.hidden[ofHunger] = max(min(poorest, p.hidden[ofHunger]), p.hidden[ofHunger]+float64(units.Log(left)*part)/slack)
	p.settle(r)
	p.Scale(min(1, left*(had/p.Hunger)))
}

// told returns what somebody answered to the question that a look raised: with it,
// or in an entry of its own within days and before the next look at that tray.
func (e *Ensemble) told(l *record.Look) string {
	said, day, at := l.Unlogged, l.Day+askDays+1, ""
	for i := range e.in.Looks {
		o := &e.in.Looks[i]
		after := o.Day > l.Day || o.Day == l.Day && o.At > l.At
		sooner := o.Day < day || o.Day == day && o.At < at
		if o.Tray == l.Tray && after && sooner && o.Day <= e.in.Today && (o.Unlogged != "" || o.Leftovers != "") {
			day, at = o.Day, o.At
			if said = l.Unlogged; o.Leftovers == "" {
				said = o.Unlogged
			}
		}
	}
	return said
}

// suspect lets every particle explain leftovers by a feeding that nobody logged:
// how likely that is, its own rate of such feedings says, unless somebody has told.
func (e *Ensemble) suspect(l *record.Look, newest int, likely []float64, purpose uint64, surprise float64, told string) {
	tray := e.hostOn(l.Tray, e.day)
	var by, all float64
	for i := range e.particles {
		p, d := &e.particles[i], roll(purpose^2, e.day, i)
		s := e.see(p, l, newest)
		grams := units.Exp(e.usual + float64(mealErr*d.normal()))
		lying := float64(grams * (0.3 + float64(0.7*d.unit()))) // some of it has been eaten
		fed, not := likely[i], 0.0
		if s.alien <= 0 {
			fed = float64(p.unlogged * wordChance(l.Leftovers, (s.left+lying)/s.all))
			if told == "" {
				not = float64((1 - p.unlogged) * likely[i])
			}
			if float64(d.unit()*(fed+not)) < fed {
				p.haunt(newest, tray, lying)
			}
		}
		likely[i] = fed + not
		by += float64(p.weight * fed)
		all += float64(p.weight * (fed + not))
	}
	if all > 0 && by/all > 0.5 && told == "" {
		e.ask = &Ask{Code: AskUnlogged, Tray: l.Tray, Look: l.ID, Day: l.Day, Chance: surprise}
	}
}
