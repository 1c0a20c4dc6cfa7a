package ration

import (
	"slices"

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
		case slices.ContainsFunc(in.Others, func(n Need) bool { return n.Grams > 0 }):
			r.Answer = Elsewhere
		default:
			r.Answer = Cover
		}
		return
	}
	food, out := Sort(in.InHand)
	first := min(food, here.Grams)
	if slack := units.StepForPeople(here.Grams, 0) / 2; here.Grams > 0 && food <= here.Grams+slack {
		first = food // the ration is no finer than its step
	}
	add(&r.Shares, Share{To: ToTray, Tray: here.Tray, Grams: first})
	r.Shares = append(r.Shares, Split(food-first, in.Others, !in.NoFreezer)...)
	add(&r.Shares, Share{To: ToWaste, Grams: out})
	r.Shares = merge(r.Shares)
	r.Answer = answerOf(r.Shares, food, first, r.Hold != nil)
}

// answerOf names what is done with food in hand of which here goes into this tray.
func answerOf(shares []Share, food, here units.Grams, hold bool) string {
	has := func(to string) bool {
		return slices.ContainsFunc(shares, func(s Share) bool { return s.To == to })
	}
	switch {
	case food == 0:
		return Waste
	case here == food:
		return All
	case here > 0:
		return Part
	case hold:
		return Cover
	case has(ToTray):
		return Elsewhere
	case has(ToFreezer):
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
