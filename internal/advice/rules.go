package advice

import (
	"trayside/internal/feedstock"
	"trayside/internal/ration"
	"trayside/internal/record"
	"trayside/internal/units"
)

// ruleOn returns the household's rule on a scrap, the strictest if several
// keepers made one, and false if there is none or it is no stricter than the
// guides: what they keep out, no rule lets in.
func (a *Advice) ruleOn(e feedstock.Entry) (rule record.HouseRule, ok bool) {
	strictest := e.Verdict
	for _, r := range a.h.Rules {
		if v := feedstock.Verdict(r.Verdict); r.Scrap == e.ID && v.StricterThan(strictest) {
			rule, ok, strictest = r, true, v
		}
	}
	return rule, ok
}

// houseSort takes out of a bowl what the household's own rules keep out. What
// the guides say of the rest, package ration knows.
func (a *Advice) houseSort(items []record.Item) (rest []record.Item, out units.Grams) {
	for _, it := range items {
		e, _ := feedstock.Standard().Lookup(it.Scrap)
		if rule, ok := a.ruleOn(e); ok && rule.Verdict != record.RuleLittle {
			out += max(0, it.Grams)
			continue
		}
		rest = append(rest, it)
	}
	return rest, out
}

// withOut adds what goes out with the household waste to a split.
func withOut(shares []ration.Share, out units.Grams) []ration.Share {
	if out == 0 {
		return shares
	}
	for i := range shares {
		if shares[i].To == ration.ToWaste {
			shares[i].Grams += out
			return shares
		}
	}
	return append(shares, ration.Share{To: ration.ToWaste, Grams: out})
}
