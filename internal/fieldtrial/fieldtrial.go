// Package fieldtrial puts the advice to the test: virtual households that keep
// worms for a year, feed them by one rule or another, and write down what people
// write down.
//
// Draw makes a household with everything that will happen to it; Keep lets it
// feed its bin by a Policy and says how that went; Table sums up many. The worms
// are the truth here and not a model's mean: individuals that eat by their
// surface, grow in length, lay, climb and die each by its own draw (worm.go). The
// package knows the advice only through its door, as a phone does, and nothing of
// the model and the rations behind it.
//
// Nothing here reads a clock or draws from a source of its own: the same
// generator gives the same year, and all policies live through the same one.
package fieldtrial

import "math/rand/v2"

// Days is how long a trial lasts.
const Days = 365

// Policy is a rule that a household feeds by.
type Policy int

// The policies.
const (
	FixedRule   Policy = iota // a quarter to a third of the starting mass a day, for ever
	HalfRule                  // half of that
	Advised                   // what the advice says, looking when it asks
	LookingRule               // look before every meal, and feed by what is left
)

// Policies lists them in the order of the table.
var Policies = []Policy{FixedRule, HalfRule, Advised, LookingRule}

// String returns the policy's name in the table.
func (p Policy) String() string {
	return [...]string{"fixed rule", "half of it", "advised", "looking rule"}[p]
}

// Of returns the generator of a trial's household n, so that any one can be
// drawn again without those before it.
func Of(seed uint64, n int) *rand.Rand { return rand.New(rand.NewPCG(seed, uint64(n))) }

// Keep lets a household feed its bin by a policy for a number of days, at most
// Days, and says how it went. The household is not changed, so that others can
// keep the same one.
func Keep(h *Household, p Policy, days int) Outcome {
	k := newKeeper(h, p)
	for day := 0; day < min(days, Days); day++ {
		k.today(day)
	}
	return k.done()
}
