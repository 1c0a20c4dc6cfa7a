package trouble

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestBandsOfAFactMakeUpAllBins(t *testing.T) {
	whole := func(what string, shares []float64, bands int) {
		t.Helper()
		var sum float64
		for _, s := range shares {
			sum += s
			if !(s > 0 && s < 100) {
				t.Errorf("%s: a share of %g %%; what is never met or always met can never be unlearned", what, s)
			}
		}
		if len(shares) != bands || math.Abs(sum-100) > 1e-9 {
			t.Errorf("%s: %v sums to %g over %d bands, want 100 over %d", what, shares, sum, len(shares), bands)
		}
	}
	for _, f := range facts {
		whole(f.code, f.other, len(f.bands))
	}
	for _, n := range network {
		for _, h := range n.hints {
			whole(string(n.cause)+" "+facts[h.fact].code, h.with, len(facts[h.fact].bands))
		}
	}
	for f, limits := range map[fact][]int64{
		backlog: backlogFrom[:], bed: bedFrom[:], age: ageFrom[:], bedding: beddingFrom[:], density: densityFrom[:], supply: supplyFrom[:],
		animal: animalFrom[:], fruit: fruitFrom[:], citrus: citrusFrom[:], starch: starchFrom[:], nitrogen: nitrogenFrom[:], slow: slowFrom[:], salt: saltFrom[:],
	} {
		if len(limits) != len(facts[f].bands)-1 || !slices.IsSorted(limits) {
			t.Errorf("%s has the limits %v for the bands %v", facts[f].code, limits, facts[f].bands)
		}
	}
}

func TestEveryCauseShowsSignsAndHasARemedy(t *testing.T) {
	for i, n := range network {
		if !(n.prior > 0 && n.prior < 100) || len(n.shows) == 0 {
			t.Errorf("%s: prior %g, signs %v", n.cause, n.prior, n.shows)
		}
		for j, s := range n.shows {
			at := indexOf(s.sign)
			if at < 0 {
				t.Fatalf("%s shows %q, which is no sign", n.cause, s.sign)
			}
			if s.with < signs[at].other*1.25 || s.with > 95 {
				t.Errorf("%s shows %s in %g %% of bins, others in %g %%: no reason to name it", n.cause, s.sign, s.with, signs[at].other)
			}
			if slices.ContainsFunc(n.shows[:j], func(o show) bool { return o.sign == s.sign }) {
				t.Errorf("%s shows %s twice", n.cause, s.sign)
			}
		}
		m := remedyOf(n.cause)
		if m.cause == "" || len(m.tonight) == 0 || m.look < soon || m.look > later || m.feed <= 0 || m.feed > 1000 {
			t.Errorf("%s: remedy %+v", n.cause, m)
		}
		if slices.ContainsFunc(network[:i], func(o node) bool { return o.cause == n.cause }) {
			t.Errorf("%s stands twice", n.cause)
		}
	}
	if len(remedies) != len(network) {
		t.Errorf("%d remedies for %d causes", len(remedies), len(network))
	}
	for s := range bySign {
		if indexOf(s) < 0 {
			t.Errorf("%q asks for steps and is no sign", s)
		}
	}
	for a, b := range opposite {
		if opposite[b] != a {
			t.Errorf("%s undoes %s, and not the other way round", a, b)
		}
	}
}

// anyEvidence draws what is seen, what is absent and what the log says.
func anyEvidence(t *rapid.T) evidence {
	var e evidence
	for i := range signs {
		switch rapid.IntRange(0, 9).Draw(t, "sign") {
		case 0, 1:
			e.seen[i] = true
		case 2:
			e.absent[i] = true
		}
	}
	for f := range e.log {
		e.log[f] = reading{band: rapid.IntRange(-1, len(facts[f].bands)-1).Draw(t, facts[f].code)}
	}
	return e
}

// probability is that of a cause, without the rounding of what is shown.
func (e evidence) probability(at int) float64 {
	odds := e.weigh(at).odds
	return odds / (1 + odds)
}

func TestProbabilitiesAreFiniteAndAverageOut(t *testing.T) {
	// What may still be found out does not change what to believe on average: the
	// probability before is the mean of those after, weighed by how likely each is.
	rapid.Check(t, func(t *rapid.T) {
		e := anyEvidence(t)
		sign := rapid.IntRange(0, len(signs)-1).Draw(t, "open sign")
		f := fact(rapid.IntRange(0, int(factCount)-1).Draw(t, "open fact"))
		e.seen[sign], e.absent[sign], e.log[f] = false, false, unknown
		for at, n := range network {
			p := e.probability(at)
			if !(p > 0 && p < 1) {
				t.Fatalf("%s has the probability %g", n.cause, p)
			}
			var mean, all float64
			for band := range facts[f].bands {
				with := e
				with.log[f] = reading{band: band}
				met := (p*bands(at, f)[band] + (1-p)*facts[f].other[band]) / 100
				mean, all = mean+met*with.probability(at), all+met
			}
			if math.Abs(mean-p) > 1e-9 || math.Abs(all-1) > 1e-9 {
				t.Fatalf("%s: %g before a word on %s, %g on average after; the words sum to %g", n.cause, p, facts[f].code, mean, all)
			}
			shown := signs[sign].other
			if i := slices.IndexFunc(n.shows, func(s show) bool { return s.sign == signs[sign].sign }); i >= 0 {
				shown = n.shows[i].with
			}
			met := (p*shown + (1-p)*signs[sign].other) / 100
			seen, absent := e, e
			seen.seen[sign], absent.absent[sign] = true, true
			if mean := met*seen.probability(at) + (1-met)*absent.probability(at); math.Abs(mean-p) > 1e-9 {
				t.Fatalf("%s: %g before looking for %s, %g on average after", n.cause, p, signs[sign].sign, mean)
			}
		}
	})
}

func TestMatchingEvidenceNeverLowersACause(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyEvidence(t)
		sign := rapid.IntRange(0, len(signs)-1).Draw(t, "new sign")
		f := fact(rapid.IntRange(0, int(factCount)-1).Draw(t, "new fact"))
		e.seen[sign], e.absent[sign], e.log[f] = false, false, unknown
		for at, n := range network {
			before := e.weigh(at)
			for _, present := range []bool{true, false} {
				with := e
				with.seen[sign], with.absent[sign] = present, !present
				after := with.weigh(at)
				up, same := after.odds > before.odds && after.likely() >= before.likely(), after.odds == before.odds
				if shows := explains(at, signs[sign].sign); shows && up != present || shows && same || !shows && !same {
					t.Fatalf("%s goes from %g to %g by %s, seen: %v, shown by it: %v", n.cause, before.odds, after.odds, signs[sign].sign, present, shows)
				}
			}
			for band := range facts[f].bands {
				with := e
				with.log[f] = reading{band: band}
				matches := bands(at, f)[band] >= facts[f].other[band]
				if after := with.weigh(at); matches && (after.odds < before.odds || after.likely() < before.likely()) || !matches && after.odds >= before.odds {
					t.Fatalf("%s goes from %g to %g by %s %s, which matches: %v", n.cause, before.odds, after.odds, facts[f].code, facts[f].bands[band], matches)
				}
			}
		}
	})
}
