package advice

import (
	"strings"

	"trayside/internal/feedstock"
)

// mostFound is how many scraps a search shows.
const mostFound = 12

// FoodAsk is what a person wants to know of the catalogue.
type FoodAsk struct {
	Typed string `json:"typed,omitempty"` // "can they eat this?", in the phone's language
	Group string `json:"group,omitempty"` // with nothing typed: all of this group
}

// FoodView answers it.
type FoodView struct {
	Found   []Food      `json:"found"`   // best first; with nothing asked, what this household uses most
	Rules   []ScrapView `json:"rules"`   // what a house rule is stricter about
	Groups  []string    `json:"groups"`  // to look through
	Classes []ClassView `json:"classes"` // for what the catalogue lacks
}

// Food is a scrap with all that the catalogue says of it.
type Food struct {
	Scrap  ScrapView `json:"scrap"`
	Differ string    `json:"differ,omitempty"` // where published guides disagree, in the phone's language
	Guides []string  `json:"guides"`           // who published a verdict on it
}

// ClassView is the verdict on a kind of food.
type ClassView struct {
	Class   string `json:"class"`
	Verdict string `json:"verdict"`
}

// House says that the household is stricter with a scrap than the guides.
type House struct {
	Rule   string `json:"rule"`           // the entry that made the rule
	Guides string `json:"guides"`         // verdict of the guides
	Note   string `json:"note,omitempty"` // why, in the keeper's words
}

// Food answers whether the worms may have something.
func (a *Advice) Food(ask FoodAsk) FoodView {
	v := FoodView{Found: []Food{}, Rules: []ScrapView{}, Groups: feedstock.Groups(), Classes: []ClassView{}}
	c := feedstock.Standard()
	switch {
	case strings.TrimSpace(ask.Typed) != "":
		found := c.Search(ask.Typed, a.phone.Language)
		for _, e := range found[:min(len(found), mostFound)] {
			v.Found = append(v.Found, a.food(&e))
		}
	case ask.Group != "":
		for _, e := range c.Entries {
			if e.Group == ask.Group {
				v.Found = append(v.Found, a.food(&e))
			}
		}
	default:
		for _, s := range a.often() {
			if e, ok := c.Lookup(s.ID); ok {
				v.Found = append(v.Found, a.food(&e))
			}
		}
	}
	for _, e := range c.Entries {
		if s := a.scrapView(&e); s.House != nil {
			v.Rules = append(v.Rules, s)
		}
	}
	for _, class := range feedstock.Classes() {
		v.Classes = append(v.Classes, ClassView{string(class), string(c.Judge(feedstock.Other, class).Verdict)})
	}
	return v
}

func (a *Advice) food(e *feedstock.Entry) Food {
	return Food{
		Scrap: a.scrapView(e), Differ: a.words(e.ID).Differ,
		Guides: append([]string{}, feedstock.Standard().Guides(e.ID)...),
	}
}

// scrapView shows an entry of the catalogue, with the verdict that holds in this
// household.
func (a *Advice) scrapView(e *feedstock.Entry) ScrapView {
	v := ScrapView{
		ID: e.ID, Name: a.words(e.ID).Name, Group: e.Group, Class: string(e.Class), Verdict: string(e.Verdict),
		Reasons: append([]string{}, e.Reasons...), Prep: append([]string{}, e.Prep...),
	}
	if rule, ok := a.ruleOn(*e); ok {
		v.Verdict, v.House = string(rule.Verdict), &House{Rule: rule.ID, Guides: string(e.Verdict), Note: rule.Note}
	}
	return v
}
