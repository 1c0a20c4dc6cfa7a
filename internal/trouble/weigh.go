package trouble

import (
	"cmp"
	"slices"

	"trayside/internal/order"
	"trayside/internal/units"
)

// evidence is the input as the network reads it, free of order and repeats.
type evidence struct {
	seen   [len(signs)]bool
	absent [len(signs)]bool
	log    [factCount]reading
}

func evidenceOf(in Input) evidence {
	e := evidence{log: in.Log.read()}
	for _, s := range in.Signs {
		if i := indexOf(s); i >= 0 {
			e.seen[i] = true
		}
	}
	// What a person sees goes before what a model reckons from meals that not
	// everybody logs.
	if e.has(FoodUneaten) && e.log[backlog].band < backlogBehind {
		e.log[backlog] = unknown
	}
	for _, s := range in.Absent {
		if i := indexOf(s); i >= 0 && !e.seen[i] {
			e.absent[i] = true
		}
	}
	return e
}

// weighed is a cause with everything that speaks for and against it.
type weighed struct {
	at      int // in network
	odds    float64
	kindly  float64 // the odds with what speaks against it left out
	matched bool    // a sign that was seen points to it
	reasons []Reason
}

func (w weighed) cause() Cause { return network[w.at].cause }

// likely returns the probability in thousandths.
func (w weighed) likely() int64 { return likely(w.odds) }

func likely(odds float64) int64 { return min(units.Nearest(1000*odds/(1+odds)), mostLikely) }

// weighAll weighs every cause and sorts them, the likeliest first.
func (e evidence) weighAll() []weighed {
	all := make([]weighed, 0, len(network))
	for i := range network {
		all = append(all, e.weigh(i))
	}
	order.By(all, func(a, b weighed) int { return cmp.Compare(b.odds, a.odds) })
	return all
}

// weigh multiplies the prior odds of a cause by how many times as likely each
// piece of evidence is with the cause as without it, always in the order of the
// tables, so that every device reckons the same.
func (e evidence) weigh(at int) weighed {
	n := network[at]
	prior := n.prior / (100 - n.prior)
	w := weighed{at: at, odds: prior, kindly: prior}
	for _, s := range n.shows {
		i := indexOf(s.sign)
		with, other := s.with, signs[i].other
		switch {
		case e.seen[i]:
			w.matched = true
			w.take(Reason{Of: OfSign, Code: string(s.sign)}, with/other)
		case e.absent[i]:
			w.take(Reason{Of: OfAbsent, Code: string(s.sign)}, (100-with)/(100-other))
		}
	}
	for _, h := range n.hints {
		if r := e.log[h.fact]; r.band >= 0 {
			w.take(Reason{
				Of: OfLog, Code: facts[h.fact].code, Band: facts[h.fact].bands[r.band], Value: r.value, Unit: r.unit,
			}, h.with[r.band]/facts[h.fact].other[r.band])
		}
	}
	order.By(w.reasons, func(a, b Reason) int { return cmp.Compare(b.weight(), a.weight()) })
	return w
}

func (w *weighed) take(r Reason, times float64) {
	r.Times = units.Nearest(times * 1000)
	w.odds = float64(w.odds * times)
	if r.Times > speaksAgainst {
		w.kindly = float64(w.kindly * times)
	}
	if r.Times <= speaksAgainst || r.Times >= speaksFor {
		w.reasons = append(w.reasons, r)
	}
}

// weight is how far a reason moves the odds, either way.
func (r Reason) weight() float64 {
	t := float64(max(r.Times, 1))
	return max(t/1000, 1000/t)
}

// explains reports whether a cause shows a sign.
func explains(at int, s Sign) bool {
	return slices.ContainsFunc(network[at].shows, func(x show) bool { return x.sign == s })
}

// bestOf returns the causes that fit best: the likeliest of those that a sign
// points to, and for every sign that it leaves open the likeliest that explains
// it, as far as they are likely enough.
func bestOf(all []weighed, e evidence) []weighed {
	fits := func(w weighed) bool { return w.matched && w.likely() >= bestFrom }
	i := slices.IndexFunc(all, fits)
	if i < 0 {
		return nil
	}
	best := []weighed{all[i]}
	for _, s := range e.unexplained(best) {
		shows := func(w weighed) bool { return explains(w.at, s) }
		if slices.ContainsFunc(best, shows) {
			continue // one that was added for another sign
		}
		if i := slices.IndexFunc(all, func(w weighed) bool { return fits(w) && shows(w) }); i >= 0 {
			best = append(best, all[i])
		}
	}
	order.By(best, func(a, b weighed) int { return cmp.Compare(b.odds, a.odds) })
	return best
}

// unexplained lists the signs seen that none of these causes shows.
func (e evidence) unexplained(by []weighed) []Sign {
	out := []Sign{}
	for i, seen := range e.seen {
		s := signs[i].sign
		if seen && !slices.ContainsFunc(by, func(w weighed) bool { return explains(w.at, s) }) {
			out = append(out, s)
		}
	}
	return out
}

// couldAt returns how likely a cause must be to be named beside the likeliest that a
// sign points to.
func couldAt(all []weighed) int64 {
	if i := slices.IndexFunc(all, func(w weighed) bool { return w.matched }); i >= 0 {
		return max(couldFrom, all[i].likely()/couldPart)
	}
	return couldFrom
}

// findings sorts the causes that a sign points to by how they fit. One that could be
// were it not for what speaks against it does not fit; one that was never likely is
// left out.
func findings(all, best []weighed) []Finding {
	by := map[string][]Finding{}
	from := couldAt(all)
	for _, w := range all {
		fit := ""
		switch {
		case slices.ContainsFunc(best, func(b weighed) bool { return b.at == w.at }):
			fit = Best
		case !w.matched:
			continue
		case w.likely() >= from:
			fit = Could
		case likely(w.kindly) >= from:
			fit = Not
		default:
			continue
		}
		reasons := w.reasons
		if reasons == nil {
			reasons = []Reason{}
		}
		by[fit] = append(by[fit], Finding{Cause: w.cause(), Fit: fit, Likely: w.likely(), Reasons: reasons})
	}
	return append(append(append([]Finding{}, by[Best]...), by[Could]...), by[Not]...)
}

// asks lists the measurements that a person can make on the spot.
var asks = [...]struct {
	fact fact
	code string
}{{moisture, CheckSqueeze}, {bed, CheckBed}, {backlog, CheckLeftovers}}

// check names the measurement, not made yet, that would best tell the causes that
// fit best or could be from each other: likely pairs count most.
func (e evidence) check(all []weighed) string {
	from := couldAt(all)
	named := slices.DeleteFunc(slices.Clone(all), func(w weighed) bool { return !w.matched || w.likely() < from })
	code, most := "", 0.0
	for _, a := range asks {
		if e.log[a.fact].band >= 0 {
			continue
		}
		sum, worth := 0.0, false
		for i, v := range named {
			for _, w := range named[:i] {
				d := apart(bands(v.at, a.fact), bands(w.at, a.fact))
				worth = worth || d > tells
				sum += float64(float64(v.likely()*w.likely()) * d)
			}
		}
		if worth && sum > most {
			code, most = a.code, sum
		}
	}
	return code
}

// bands returns how often each band of a fact is met where a cause is.
func bands(at int, f fact) []float64 {
	for _, h := range network[at].hints {
		if h.fact == f {
			return h.with
		}
	}
	return facts[f].other
}

// apart returns the per cent of bins in which two causes expect different bands.
func apart(a, b []float64) float64 {
	var sum float64
	for i := range a {
		sum += max(a[i]-b[i], 0)
	}
	return sum
}
