package ration

import (
	"math"

	"trayside/internal/colony"
	"trayside/internal/feedstock"
	"trayside/internal/record"
	"trayside/internal/units"
)

// Where a share of a bowl goes.
const (
	ToTray    = "tray"
	ToFreezer = "freezer"
	ToWaste   = "waste"
)

// Share is one part of what is in hand.
type Share struct {
	To    string
	Bin   string // of ToTray
	Tray  string
	Grams units.Grams
}

// answer settles what to do with what is in hand, or, if nothing is, what would
// be done with a bowl.
func (r *Result) answer(in Input) {
	here := Need{Tray: in.Fed.ID, Grams: r.Grams}
	if len(in.InHand) == 0 {
		switch {
		case r.Grams > 0:
			r.Answer = All
		case r.Hold != nil:
			r.Answer = Cover
		case anyNeed(in.Others):
			r.Answer = Elsewhere
		default:
			r.Answer = Cover
		}
		return
	}
	food, out := Sort(in.InHand)
	first := min(food, here.Grams)
	add(&r.Shares, Share{To: ToTray, Tray: here.Tray, Grams: first})
	r.Shares = append(r.Shares, Split(food-first, in.Others, !in.NoFreezer)...)
	add(&r.Shares, Share{To: ToWaste, Grams: out})
	r.Shares = merge(r.Shares)
	r.Answer = answerOf(r.Shares, here, food, r.Hold != nil)
}

func answerOf(shares []Share, here Need, food units.Grams, hold bool) string {
	var there, frozen units.Grams
	for _, s := range shares {
		switch {
		case s.To == ToTray && s.Tray != here.Tray:
			there += s.Grams
		case s.To == ToFreezer:
			frozen += s.Grams
		}
	}
	switch {
	case food == 0:
		return Waste
	case here.Grams >= food:
		return All
	case here.Grams > 0:
		return Part
	case there > 0:
		return Elsewhere
	case hold:
		return Cover
	case frozen > 0:
		return Freeze
	}
	return Waste
}

// Sort divides what is in hand into food and what stays out of a worm bin: what
// the catalogue says never to feed, and what it advises against if that is more
// than a trace. "Already in the bin" is another matter and is never refused.
func Sort(items []record.Item) (food, out units.Grams) {
	var avoid units.Grams
	for _, it := range items {
		g := max(it.Grams, 0)
		switch feedstock.Standard().Judge(it.Scrap, feedstock.Class(it.Class)).Verdict {
		case feedstock.Never:
			out += g
		case feedstock.Avoid:
			avoid += g
		default:
			food += g
		}
	}
	if float64(avoid) <= traceShare*float64(food+avoid) {
		return food + avoid, out
	}
	return food, out + avoid
}

// Split shares a bowl of food among places by what each still takes, and sends
// the rest to the freezer, or out with the household waste if there is none. A
// bowl that falls short is shared in proportion, in steps of 25 g, and the place
// that takes most gets what the steps leave over. The shares sum to the bowl; a
// place that gets nothing is left out.
func Split(bowl units.Grams, needs []Need, freezer bool) []Share {
	bowl = max(bowl, 0)
	var total units.Grams
	most := -1
	for i, n := range needs {
		total += max(n.Grams, 0)
		if n.Grams > 0 && (most < 0 || n.Grams > needs[most].Grams) {
			most = i
		}
	}
	rest := bowl
	got := make([]units.Grams, len(needs))
	for i, n := range needs {
		if n.Grams <= 0 {
			continue
		}
		got[i] = n.Grams
		if bowl < total {
			got[i] = bowl * n.Grams / total / splitStep * splitStep
		}
		rest -= got[i]
	}
	if most >= 0 && bowl < total {
		// What the steps leave over stays within each need: first where most is
		// needed, then in order.
		for _, i := range append([]int{most}, indices(len(needs))...) {
			more := min(rest, max(needs[i].Grams, 0)-got[i])
			got[i] += more
			rest -= more
		}
	}
	var out []Share
	for i, n := range needs {
		add(&out, Share{To: ToTray, Bin: n.Bin, Tray: n.Tray, Grams: got[i]})
	}
	to := ToFreezer
	if !freezer {
		to = ToWaste
	}
	add(&out, Share{To: to, Grams: rest})
	return out
}

const splitStep = 25

func indices(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

func add(to *[]Share, s Share) {
	if s.Grams > 0 {
		*to = append(*to, s)
	}
}

// merge joins the two shares that may both go out with the waste.
func merge(shares []Share) []Share {
	var out []Share
	for _, s := range shares {
		if n := len(out); n > 0 && s.To == ToWaste && out[n-1].To == ToWaste {
			out[n-1].Grams += s.Grams
			continue
		}
		out = append(out, s)
	}
	return out
}

func anyNeed(needs []Need) bool {
	for _, n := range needs {
		if n.Grams > 0 {
			return true
		}
	}
	return false
}

// promiseOf says when a meal of this size should be gone.
func promiseOf(in Input, grams units.Grams) *Promise {
	reach, appetite := in.Estimate.ByTray[in.Fed.ID], in.Estimate.Appetite
	lying := float64(grams) + float64(in.FedToday)
	for _, left := range in.Estimate.Lefts {
		if left.Tray == in.Fed.ID && left.Day < in.Today {
			lying += max(left.Soft, 0)
		}
	}
	by := func(mass, perDay float64) record.Day {
		eaten := mass * perDay
		if !(eaten > 0) {
			return in.Today + promiseMost
		}
		return in.Today + record.Day(min(math.Ceil(lying/eaten), promiseMost))
	}
	down, up := spread(reach, appetite)
	return &Promise{
		Day:   by(reach.Mid, appetite.Mid),
		First: by(reach.Mid*(1+up), appetite.Mid),
		Last:  by(reach.Mid*(1-down), appetite.Mid),
	}
}

// spread returns how far mass times appetite may lie below and above its middle,
// of 1. The two err apart from each other, so their errors add up as squares.
func spread(mass, appetite colony.Span) (down, up float64) {
	square := func(a, b float64) float64 { return math.Sqrt(float64(a*a) + float64(b*b)) }
	return min(1, square(below(mass), below(appetite))), square(above(mass), above(appetite))
}
