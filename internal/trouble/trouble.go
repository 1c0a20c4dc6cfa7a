// Package trouble says what may be wrong in a bin: from signs that a person sees
// and from what the log knows to causes, each with its reasons, and on to what to
// do tonight and when to look again.
//
// Diagnose is the door; LogOf draws what it needs of the log, and SeenIn the signs
// that looks have noted already. The network behind it is in params.go, what to do
// in remedies.go. Whoever computes a ration multiplies it by Result.Feeding.OfRation.
// The package knows nothing of screens or rations: it gives codes and numbers, and
// holds no sentence that a person reads. Its answers are advice from a log and not a
// laboratory's.
package trouble

import (
	"slices"

	"trayside/internal/record"
)

// Input is one bin with something wrong, on one day.
type Input struct {
	Today record.Day
	// Signs are what the person sees, in any order; a repeat counts once and a
	// sign that is not in Signs() not at all.
	Signs []Sign
	// Absent are signs that the person looked for and did not find. One that is
	// also in Signs counts as seen.
	Absent []Sign
	Log    Log
}

// How well a cause fits.
const (
	Best  = "best"  // fits best
	Could = "could" // could be
	Not   = "not"   // a sign points to it, and the rest speaks against it
)

// Result is what a screen shows. Lists are never nil, so that they cross to
// TypeScript as lists. Without a sign it is empty: nothing is diagnosed from
// nothing, however odd the log.
type Result struct {
	// Findings hold the causes worth naming, those that fit best first, the
	// likeliest of each kind first.
	Findings []Finding `json:"findings"`
	// Unexplained are signs that no cause which fits best explains.
	Unexplained []Sign `json:"unexplained"`
	// Tonight are the steps of the causes that fit best, in order, those of the
	// likeliest first; Stop is what to leave off until the next look.
	Tonight  []Step   `json:"tonight"`
	Stop     []string `json:"stop"`
	Cautions []string `json:"cautions"`
	// Urgent: worms die within days if nothing is done.
	Urgent bool `json:"urgent"`
	// Look is the day to look again; 0 without a sign.
	Look record.Day `json:"look"`
	// Check is what would best tell the causes apart that are named and is not known
	// yet: CheckSqueeze, CheckBed, CheckLeftovers, or "".
	Check   string  `json:"check"`
	Feeding Feeding `json:"feeding"`
}

// What to measure next.
const (
	CheckSqueeze   = "squeeze"
	CheckBed       = "bed-temperature"
	CheckLeftovers = "leftovers"
)

// Finding is one cause and how well it fits.
type Finding struct {
	Cause Cause  `json:"cause"`
	Fit   string `json:"fit"`
	// Likely is how probable the cause is, in thousandths, on its own: several
	// causes may be at work together, so that findings need not sum to 1000.
	Likely  int64    `json:"likely"`
	Reasons []Reason `json:"reasons"` // the weightiest first
}

// Where a Reason comes from.
const (
	OfSign   = "sign"
	OfAbsent = "absent" // a sign that was looked for and not found
	OfLog    = "log"
)

// Reason is one piece of evidence for or against a cause.
type Reason struct {
	Of   string `json:"of"`
	Code string `json:"code"` // the sign, or what of the log: see Log
	Band string `json:"band"` // of the log: in which band its value lies, else ""
	// Value and Unit are of the log, for the words to name; Unit is "" where the
	// band says it all.
	Value int64  `json:"value"`
	Unit  string `json:"unit"` // "0.1 d", "0.1 °C", "d", "g/m²", "%", "0.01 %" or ""
	// Times says how many times as likely the evidence is with the cause as
	// without it, in thousandths: above 1000 it speaks for the cause, below against.
	Times int64 `json:"times"`
}

// Kinds of Feeding.
const (
	Hold   = "hold"
	Reduce = "reduce"
)

// Feeding says what the causes that fit best mean for feeding.
type Feeding struct {
	// Kind is Hold, Reduce, or "" for no change. Only a smell of ammonia, sour or rot
	// and a bed of 30 °C hold; everything else reduces.
	Kind string `json:"kind"`
	// Milli is what to feed of a usual meal, in thousandths: for the words.
	Milli int64 `json:"milli"`
	// Cause is what holds ("hot-bed", "ammonia", "sour", "rot"), or the Cause that
	// reduces most.
	Cause string `json:"cause"`
	// OfRation is what to feed of a computed ration, in thousandths: 1000 where the
	// ration reckons with the cause by itself, as with leftovers, warmth and settling
	// in, so that it is not reduced twice.
	OfRation int64 `json:"ofRation"`
}

// Diagnose weighs every cause against the signs and the log. It never fails: what
// the log does not know says nothing, and values that cannot be count as unknown.
func Diagnose(in Input) Result {
	r := Result{
		Findings: []Finding{}, Unexplained: []Sign{}, Tonight: []Step{},
		Stop: []string{}, Cautions: []string{}, Feeding: fed,
	}
	e := evidenceOf(in)
	if !slices.Contains(e.seen[:], true) {
		return r
	}
	all := e.weighAll()
	best := bestOf(all, e)
	r.Findings = findings(all, best)
	r.Unexplained = e.unexplained(best)
	r.Check = e.check(all)
	r.advise(in, e, best)
	return r
}
