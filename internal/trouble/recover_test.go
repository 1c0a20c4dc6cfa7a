package trouble

import (
	"math/rand/v2"
	"testing"
)

// bin draws signs and a log as the network says they are where this cause is and no
// other, of which the log knows a part.
func bin(r *rand.Rand, at int) evidence {
	var e evidence
	for i, s := range signs {
		with := s.other / 3 // most of what the worried see has a cause; here there is but one
		for _, x := range network[at].shows {
			if x.sign == s.sign {
				with = x.with
			}
		}
		e.seen[i] = r.Float64()*100 < with
	}
	for f := range e.log {
		e.log[f] = unknown
		if r.Float64() < 0.6 {
			draw, band := r.Float64()*100, 0
			for shares := bands(at, fact(f)); band < len(shares)-1 && draw >= shares[band]; band++ {
				draw -= shares[band]
			}
			e.log[f].band = band
		}
	}
	return e
}

// The network must tell its own causes apart: drawn as it says, a cause is named
// among a few others, and mostly it fits best. The floors lie a little under what is
// reached, so that a change of the tables that blurs a cause is seen.
func TestACauseIsFoundAgainFromWhatItShows(t *testing.T) {
	const bins = 400
	var named, best, answers int
	for at, n := range network {
		r := rand.New(rand.NewPCG(7, uint64(at)))
		found := 0
		for asked := 0; asked < bins; {
			e := bin(r, at)
			if !e.weigh(at).matched {
				continue // it shows nothing, so nobody asks
			}
			asked++
			all := e.weighAll()
			for _, f := range findings(all, bestOf(all, e)) {
				if f.Fit == Not {
					continue
				}
				answers++
				if f.Cause == n.cause {
					found++
					if f.Fit == Best {
						best++
					}
				}
			}
		}
		named += found
		if found*10 < bins*7 {
			t.Errorf("%s is named in %d of %d bins that have it, want seven of ten", n.cause, found, bins)
		}
	}
	total := bins * len(network)
	t.Logf("named in %d of 100, best in %d, beside %.1f others", 100*named/total, 100*best/total, float64(answers-named)/float64(total))
	if named*10 < total*9 || best*10 < total*6 || answers > total*6 {
		t.Errorf("named %d, best %d of %d, with %d answers in all; want nine and six of ten, and no more than six answers a bin", named, best, total, answers)
	}
}
