package ration

import (
	"math"

	"trayside/internal/colony"
	"trayside/internal/record"
	"trayside/internal/units"
)

// situation is everything about a tray that shapes the ledger, in whole
// thousandths, so that the same chain can be run for the cautious mass and for
// both ends of the likely range.
type situation struct {
	reach      colony.Span
	counts     float64 // of them, g on the cautious side
	appetite   int64   // thousandths, per day
	cautious   int64   // the appetite that goes with the cautious mass
	hunger     colony.Span
	takes      colony.Span // g a day that goes there, the surface allowing
	days       int         // until the next meal
	next       record.Day
	shares     []share // settling, heat, goal, resting
	trial      int64   // thousandths, 1000 for none
	hold       bool
	surface    int64 // caps, thousandths of a gram
	goes       int64 // what goes there in these days on the cautious side
	lure       int64
	placing    string // how the meal is put in, and what goes there at most
	place      int64
	lying      int64
	lyingDay   record.Day
	fed        int64
	rule       Rule
	thumb      int64 // what the rule allows at most, thousandths of a gram
	leapTo     int64
	unfinished int64 // the last meal, if a look found half of it or more
	last       Last
}

// share is one factor of the chain.
type share struct {
	code, cause string
	milli       int64
}

func situationOf(in Input, days int, r Result) situation {
	e := in.Estimate
	s := situation{
		reach: e.ByTray[in.Fed.ID], appetite: min(milli(e.Appetite.Mid), mostAppetite),
		hunger: e.Appetite,
		days:   days, next: r.Next, hold: r.Hold != nil,
		fed: int64(max(in.FedToday, 0)) * 1000, last: in.Last,
		goes: unlimited, rule: r.Rule, thumb: unlimited, leapTo: unlimited, unfinished: unlimited,
	}
	s.counts, s.cautious = s.reach.Low, s.appetite
	if eats, ok := e.Eats[in.Fed.ID]; ok && e.Appetite.Mid > 0 && s.reach.Low > 0 {
		// Mass and appetite err together, and a look speaks of both: the cautious side
		// is what nine in ten such beds would eat. More worms than the fewest, or the
		// fewest with less appetite than the middle, come to it.
		least := min(s.reach.Mid, eats.Low/e.Appetite.Mid)
		if least < s.reach.Low {
			s.cautious, least = min(s.appetite, milli(eats.Low/s.reach.Low)), s.reach.Low
		}
		s.counts = least
	}
	s.shares = sharesOf(in)
	surface := int64(wholeGrams(e.Surface[in.Fed.ID])) * 1000
	s.surface = surface * int64(min(days, mostDays))
	if s.takes = e.Takes[in.Fed.ID]; s.takes.Mid > 0 {
		// Which of the two binds, worms or surface, a look seldom tells; what goes
		// there in a day, it does, and no rounding adds to it.
		s.goes = milli(s.takes.Low) * int64(min(days, mostDays))
		if s.takes.Low < asGood*e.Eats[in.Fed.ID].Low {
			s.surface = s.goes
		}
	}
	if look := lastFound(in); look != nil && mostLeft(look) && in.Last.Fed > 0 && look.Day >= in.Last.Day {
		s.unfinished = int64(in.Last.Fed) * 1000
	}
	if in.Fed.Stage == record.Bedded || in.Fed.Stage == record.InUse {
		below := e.ByTray[in.Fed.Below]
		s.lure = min(units.Round(surface, lureParts), int64(wholeGrams(below.Low))*s.appetite)
	}
	s.surface = max(s.surface, s.lure)
	s.trial = s.trialOf(in)
	s.placing, s.place = placeOf(in)
	s.lying, s.lyingDay = lyingIn(in)
	if e.CleanLooks < looksForTrial {
		s.thumb = milli(float64(r.Rule.High) * thumbMost)
	}
	if in.Last.Grams > 0 && in.Last.Cause == "" {
		s.leapTo = s.leapLimit()
	}
	return s
}

// sharesOf returns what tempers the appetite on this day, in the order a keeper
// would say it.
func sharesOf(in Input) []share {
	var out []share
	e := in.Estimate
	if part := settling(in); part < 1000 {
		out = append(out, share{"settling", BySettling, part})
	}
	switch {
	case e.Bed >= warmFrom:
		out = append(out, share{"warm-bed", ByWarmth, warmMilli})
	case in.HotWeek:
		out = append(out, share{"hot-week", ByWarmth, hotWeekMilli})
	}
	if seenLeft(in) {
		out = append(out, share{"seen-left", ByLeftovers, 0})
	}
	if badSmell(in, smellFades) != nil && badSmell(in, smellDays) == nil {
		out = append(out, share{"after-smell", ByTrouble, smellMilli})
	}
	if in.Trouble.Milli > 0 && in.Trouble.Milli < 1000 {
		out = append(out, share{"trouble", ByTrouble, in.Trouble.Milli})
	}
	switch in.Goal {
	case record.SlowDown:
		out = append(out, share{"goal-slow-down", ByWorms, slowMilli})
	case record.Hold:
		out = append(out, share{"goal-hold", ByWorms, holdMilli})
	}
	switch in.Fed.Stage {
	case record.Resting, record.Ready, record.Emptied:
		part := int64(restMilli)
		if in.Open || in.Fed.Stage == record.Emptied {
			part = 0
		}
		out = append(out, share{"resting", ByResting, part})
	}
	return out
}

// trialOf returns the step up after two clean looks in a row, in thousandths: as
// far as the cautious estimate does not already hold a step more than what was
// eaten last. Nothing left says only that the worms could eat at least as much, so
// the meals must grow until a look can say more.
func (s situation) trialOf(in Input) int64 {
	could := units.Round(milli(s.counts)*s.cautious, 1000) * int64(s.days)
	if in.Estimate.CleanLooks < looksForTrial || could <= 0 {
		return 1000
	}
	eaten := units.Round(int64(in.Last.Eaten)*1000*int64(s.days), int64(max(in.Last.Days, 1)))
	could = min(could, s.surface)
	return max(1000, min(trialMilli, units.Round(eaten*trialMilli, max(could, 1))))
}

// settling returns the share of a young colony's appetite that is fed.
func settling(in Input) int64 {
	age := int64(in.Today) - int64(max(in.Settles, in.Estimate.Started))
	switch {
	case age < settleDays:
		return settleMilli
	case age < rampDays:
		return rampFromMilli + units.Round((1000-rampFromMilli)*(age-settleDays), rampDays-settleDays)
	}
	return 1000
}

// same is the last ration for as many days as this one, 0 if there was none.
func (s situation) same() int64 {
	return units.Round(int64(s.last.Grams)*1000*int64(s.days), int64(max(s.last.Days, 1)))
}

// leapLimit is what the last ration may rise to: a fifth more, but always one
// step of rounding, or a small ration could never grow.
func (s situation) leapLimit() int64 {
	same := s.same()
	step := int64(units.StepForPeople(units.Grams(same/1000), 0)) * 1000
	return max(units.Round(same*leapMilli, 1000), same+step)
}

// leap names the cause of a rise of more than a fifth.
func (s situation) leap(grams units.Grams) string {
	if s.last.Grams > 0 && s.last.Cause != "" && int64(grams)*1000 > s.leapLimit() {
		return s.last.Cause
	}
	return ""
}

// ledger runs the chain for the cautious mass, up to and without the rounding. A
// lure goes into a tray that no worms are in yet, where the rule of thumb has
// nothing to say.
func (s situation) ledger() *ledger {
	l := s.bed(wholeGrams(s.counts), s.cautious)
	l.cap("rule-cap", ByWorms, max(s.thumb, s.lure))
	l.cap("last-ration", ByWorms, s.leapTo)
	l.cap("last-meal", ByLeftovers, s.unfinished)
	if s.hold {
		l.factor("hold", "", 0)
	}
	return l
}

// bed runs the part of the chain that tells of this bed and these worms, leaving
// out the limits that only caution sets.
func (s situation) bed(mass units.Grams, appetite int64) *ledger {
	l := start(Reason{Code: "worms", Milli: int64(mass) * 1000, Unit: "g", From: wholeGrams(s.reach.Low), To: wholeGrams(s.reach.High)})
	l.row(Reason{Code: "appetite", Op: opTimes, Milli: appetite, Unit: "per day"})
	perDay := l.running
	l.row(Reason{Code: "days", Op: opTimes, Milli: int64(s.days) * 1000, Unit: "d", Day: s.next})
	l.sum("could-finish")
	l.cap("days-of-appetite", ByDays, perDay*mostDays)
	l.row(Reason{Code: RuleOfThumb, Op: opBeside, Milli: int64(s.rule.High) * 1000, Unit: "g", From: s.rule.Low, To: s.rule.High})
	if lack := s.lure - l.running; lack > 0 {
		l.row(Reason{Code: "lure", Op: opPlus, Milli: lack, Unit: "g"})
	}
	for _, f := range s.shares {
		l.factor(f.code, f.cause, f.milli)
	}
	l.limits = unlimited // what the worms can do is an estimate; what follows are limits
	l.cap(s.placing, BySurface, s.place)
	l.cap("surface", BySurface, s.surface)
	if s.trial > 1000 {
		l.factor("trial", ByWorms, s.trial)
	}
	l.less("lying", ByLeftovers, Reason{Milli: s.lying, Day: s.lyingDay})
	l.less("fed-today", ByLeftovers, Reason{Milli: s.fed})
	return l
}

// likely runs the chain, without any trial and without the place that a meal has,
// at both ends of what the worms may finish; nothing goes in under a hold.
func (s situation) likely() Span {
	if s.hold {
		return Span{}
	}
	s.trial, s.place = 1000, unlimited
	mid := float64(wholeGrams(s.reach.Mid))
	at := func(mass, surface float64) units.Grams {
		if s.takes.Mid > 0 {
			s.surface = max(s.lure, milli(surface)*int64(min(s.days, mostDays)))
		}
		return units.Grams(units.Round(s.bed(wholeGrams(mass), s.appetite).running, 1000))
	}
	down, up := spread(s.reach, s.hunger)
	middle := at(mid, s.takes.Mid)
	return Span{Mid: middle, Low: min(middle, at(mid*(1-down), s.takes.Low)), High: max(middle, at(mid*(1+up), s.takes.High))}
}

// kept returns the last ration if it may stand as it was: it was for as many
// days. Otherwise it returns 0.
func (s situation) kept() units.Grams {
	if s.last.Days != s.days {
		return 0
	}
	return max(0, s.last.Grams)
}

// spread returns how far mass times appetite may lie below and above its middle,
// of 1. The two err apart from each other, so their errors add up as squares.
func spread(mass, appetite colony.Span) (down, up float64) {
	square := func(a, b float64) float64 { return math.Sqrt(float64(a*a) + float64(b*b)) }
	return min(1, square(below(mass), below(appetite))), square(above(mass), above(appetite))
}

// below returns how far the low end of a span lies from its middle, of 1.
func below(s colony.Span) float64 {
	if !(s.Mid > 0) || !(s.Low < s.Mid) {
		return 0
	}
	return min((s.Mid-s.Low)/s.Mid, 1)
}

// above returns how far the high end of a span lies from its middle, of 1; five
// times the middle is as far as it is believed.
func above(s colony.Span) float64 {
	if !(s.Mid > 0) || !(s.High > s.Mid) {
		return 0
	}
	return min((s.High-s.Mid)/s.Mid, 4)
}

// milli returns x in whole thousandths, 0 for what cannot be.
func milli(x float64) int64 { return min(max(0, units.Nearest(x*1000)), 1_000_000_000) }

// lastFound returns the newest look that says what is left in the fed tray, nil
// if there is none.
func lastFound(in Input) *record.Look {
	for i := len(in.Looks) - 1; i >= 0; i-- {
		if look := &in.Looks[i]; look.Leftovers != "" && look.Day <= in.Today && look.Tray == in.Fed.ID {
			return look
		}
	}
	return nil
}

func mostLeft(look *record.Look) bool {
	return look.Leftovers == record.LeftMost || look.Leftovers == record.LeftHalf
}

// seenLeft reports whether what was seen to lie in the tray keeps the next meal
// out: how much it is nobody can say.
func seenLeft(in Input) bool {
	look := lastFound(in)
	if look == nil || !mostLeft(look) || in.Today-look.Day > seenDays {
		return false
	}
	for _, left := range in.Estimate.Lefts {
		if left.Tray == in.Fed.ID && left.Day >= look.Day {
			return false // fed since, against the look: what lies there is known again
		}
	}
	if in.Today-look.Day <= seenLeast {
		return true
	}
	lying, _ := lyingIn(in)
	return float64(lying) >= seenGone*1000*in.Estimate.Takes[in.Fed.ID].Mid
}

// lyingIn returns thousandths of a gram of the soft part of earlier days' meals
// in the fed tray, and the day of the newest of them.
func lyingIn(in Input) (lying int64, newest record.Day) {
	for _, left := range in.Estimate.Lefts {
		if left.Tray == in.Fed.ID && left.Day < in.Today {
			lying += int64(wholeGrams(left.Soft)) * 1000
			if left.Soft >= 0.5 {
				newest = max(newest, left.Day)
			}
		}
	}
	if mean, ok := in.Estimate.Lying[in.Fed.ID]; ok {
		lying = int64(wholeGrams(mean)) * 1000
	}
	return lying, newest
}

// placeOf returns how a meal is put in, and what goes there at most: a pocket in
// one of the nine places of a tray, or a thin layer over the whole of it.
func placeOf(in Input) (string, int64) {
	if in.AreaM2 <= 0 {
		return "pocket", unlimited
	}
	if in.Placing == record.Layer {
		return "layer", milli(float64(in.AreaM2*layerMM) * scrapsGL)
	}
	return "pocket", milli(float64(in.AreaM2*pocketMM) * scrapsGL / places)
}
