// Package ration says what may go into a tray today, and why.
//
// Compute is the door: an estimate of the colony and the state of one tray in, a
// Result out that always has an answer with grams. Split shares a bowl among
// bins, Slip catches amounts that look like a slip of the finger, and Check adds
// up a ledger again. The package knows nothing of screens: it gives codes and
// numbers, and holds no sentence that a person reads.
package ration

import (
	"trayside/internal/colony"
	"trayside/internal/record"
	"trayside/internal/units"
)

// Tray is what the ration needs to know of one tray of the bin.
type Tray struct {
	ID    string
	Stage record.Stage
	Below string // id of the tray directly below, "" at the bottom
}

// Input is one bin on one day, seen from the tray that is to be fed.
type Input struct {
	Today     record.Day
	Fed       Tray       // the tray that is asked about
	Settles   record.Day // the day from which most of the worms settle in; 0 for Estimate.Started
	Open      bool       // another tray of this bin is in its feeding stage
	FeedEvery int        // days to the next meal, 1 to 14; anything else is 3
	Goal      record.Goal
	Estimate  colony.Estimate
	Looks     []record.Look // of this bin, sorted by day; older ones do no harm
	HotWeek   bool          // the household says that hot days are on
	Placing   record.Placing
	AreaM2    float64     // of the fed tray; 0 if nobody said
	FedToday  units.Grams // already fed into Fed today; meals of today in Estimate.Lefts are not counted again
	Last      Last
	Trouble   Trouble       // that somebody noted in Fed; zero for none
	InHand    []record.Item // what the person holds; nil if nothing is in hand
	Others    []Need        // what other bins and trays take today
	NoFreezer bool          // the household has no room in a freezer
}

// Last is the ration before this one, which the new one may not leap over.
type Last struct {
	Grams units.Grams // 0 if there was none
	Days  int         // days that it was to last
	Eaten units.Grams // what went in at the last meal, if nothing is left of it
	Fed   units.Grams // what went in at the last meal
	Day   record.Day  // of the last meal
	// Cause names what changed since, if anything did: worms-added, worms-weighed,
	// warmer, leftovers-gone, tray-changed, released. With a cause there is no limit.
	Cause string
}

// Trouble is what signs that somebody noted mean for feeding.
type Trouble struct {
	Milli int64  // of the ration, in thousandths; 0 for no change
	Hold  string // what stops feeding, as Hold.Cause; "" if nothing does
	Look  record.Day
	End   record.Day // the day from which it no longer counts
	Entry string     // the look that shows it
}

// Need is what another place takes today.
type Need struct {
	Bin   string
	Tray  string
	Grams units.Grams
}

// The answers; each comes with grams.
const (
	All       = "all"       // all of it here
	Part      = "part"      // part of it here
	Elsewhere = "elsewhere" // another tray or bin
	Freeze    = "freeze"
	Cover     = "cover" // cover and wait
	Waste     = "waste" // out with the household waste
)

// How sure the number is.
const (
	Guess   = "guess"   // a first guess, from published figures and not from this bin
	Learned = "learned" // looks at this bin stand behind it
	Trial   = "trial"   // stepped up after two clean looks
)

// What binds a ration.
const (
	ByWorms     = "worms"
	BySurface   = "surface"
	ByWarmth    = "warmth"
	ByMoisture  = "moisture" // the bed is too dry, too wet or too sour
	ByKitchen   = "kitchen"
	ByLeftovers = "leftovers"
	BySettling  = "settling"
	ByTrouble   = "trouble"
	ByResting   = "resting"
	ByDays      = "days"
)

// Result is what may go in today, and why.
type Result struct {
	Grams   units.Grams // rounded for people
	Likely  Span        // what the worms would finish, 8 times of 10, with Grams in it
	Answer  string
	Shares  []Share // where what is in hand should go; sums to it
	Sure    string
	Reasons []Reason // a ledger: see Reason and Check
	Binds   string
	Move    string // cheapest next move, a code
	Cause   string // why the ration rose by more than a fifth, "" if it did not
	Rule    Rule
	Hold    *Hold // nil unless feeding here stops
	Next    record.Day
	Days    int // days of appetite it is reckoned for
}

// Span is a quantity with its likely range.
type Span struct{ Mid, Low, High units.Grams }

// RuleOfThumb is the code of the row that stands in every ledger to compare with.
const RuleOfThumb = "rule_of_thumb"

// Rule is the rule of thumb for the same worms and days: common practice.
type Rule struct{ Low, High units.Grams }

// Compute returns the ration of one tray. It never fails: a value that is
// missing or cannot be (an empty estimate, a tray without surface) leads to less
// food, never to more.
func Compute(in Input) Result {
	days := in.FeedEvery
	if days < 1 || days > maxFeedEvery {
		days = usualFeedEvery
	}
	reach := in.Estimate.ByTray[in.Fed.ID]
	r := Result{
		Next: in.Today + record.Day(days),
		Days: min(days, mostDays),
		Hold: holdOf(in),
		Rule: ruleOf(reach, min(days, mostDays)),
	}
	s := situationOf(in, days, r)
	led := s.ledger()
	r.Likely = s.likely()
	led.handful(r.Likely.Mid, s)
	led.nothingOver(s.goes - s.lying - s.fed)
	led.round(r.Likely.High-r.Likely.Low, s.kept(), s.lying+s.fed <= led.running)
	r.Grams, r.Reasons = led.result(), led.rows
	r.Likely.Low, r.Likely.High = min(r.Likely.Low, r.Grams), max(r.Likely.High, r.Grams)
	r.Sure = s.sure(in.Estimate, r.Grams)
	r.Binds, r.Move = led.binds(in, r)
	r.Cause = s.leap(r.Grams)
	r.answer(in)
	return r
}

// sure tells a first guess from a number that looks at this bin stand behind,
// and from one that has been stepped up to see whether it is eaten.
func (s situation) sure(e colony.Estimate, grams units.Grams) string {
	switch {
	case s.trial > 1000 && grams > 0 && int64(grams)*1000 > s.same():
		return Trial
	case e.Learned >= looksToLearn || e.CleanLooks >= cleanToLearn:
		return Learned
	}
	return Guess
}

func ruleOf(reach colony.Span, days int) Rule {
	weight := float64(wholeGrams(reach.Mid)) * float64(days)
	return Rule{
		Low:  units.Grams(units.Nearest(weight * thumbLow)),
		High: units.Grams(units.Nearest(weight * thumbHigh)),
	}
}

// wholeGrams turns the model's mass into grams. What cannot be counts for
// nothing, and no bin holds more than a tonne.
func wholeGrams(g float64) units.Grams { return units.Grams(min(max(0, units.Nearest(g)), 1_000_000)) }
