package advice

import (
	"cmp"
	"slices"

	"trayside/internal/feedstock"
	"trayside/internal/order"
	"trayside/internal/record"
)

// How many scraps the screen shows first, and how long a use counts, days.
const (
	oftenShown = 8
	oftenDays  = 90
)

// Weigh returns what the Weigh screen needs before the first key is pressed.
func (a *Advice) Weigh() WeighView {
	v := WeighView{
		Mass: a.mass(), Usual: a.itemViews(a.usual), Often: a.often(), Scraps: []ScrapView{}, Vessels: []VesselView{},
		Classes: []string{}, Members: a.people(), Rations: []Share{}, Bowls: a.bowls(a.splitAmong),
		Limits: []SlipLimits{a.slipLimits("")},
	}
	for _, e := range feedstock.Standard().Entries {
		v.Scraps = append(v.Scraps, a.scrapView(&e))
	}
	for _, x := range a.h.Vessels {
		v.Vessels = append(v.Vessels, VesselView{ID: x.ID, Name: x.Name, Grams: int64(x.Grams)})
	}
	for _, c := range feedstock.Classes() {
		v.Classes = append(v.Classes, string(c))
	}
	for _, n := range a.needs("") {
		v.Rations = append(v.Rations, Share{To: "tray", Bin: n.Bin, Tray: n.Tray, Name: a.trayName(n.Tray), Grams: int64(n.Grams)})
		v.Limits = append(v.Limits, a.slipLimits(n.Tray))
	}
	return v
}

// often returns the catalogue's entries that the household used most, in bowls
// and feedings that came from none, the commonest first.
func (a *Advice) often() []ScrapView {
	type use struct {
		id    string
		times int
	}
	var uses []use
	count := func(items []record.Item, d record.Day) {
		if d > a.day || d < a.day-oftenDays {
			return
		}
		for _, it := range items {
			i := slices.IndexFunc(uses, func(u use) bool { return u.id == it.Scrap })
			if i < 0 {
				i = len(uses)
				uses = append(uses, use{id: it.Scrap})
			}
			uses[i].times++
		}
	}
	for i := range a.h.Bowls {
		count(a.h.Bowls[i].Items, a.h.Bowls[i].Day)
	}
	for i := range a.h.Feedings {
		if f := &a.h.Feedings[i]; f.Bowl == "" {
			count(f.Items, f.Day)
		}
	}
	order.By(uses, func(x, y use) int {
		return cmp.Or(cmp.Compare(y.times, x.times), cmp.Compare(x.id, y.id))
	})
	views := []ScrapView{}
	for _, u := range uses {
		if e, ok := feedstock.Standard().Lookup(u.id); ok && len(views) < oftenShown {
			views = append(views, a.scrapView(&e))
		}
	}
	return views
}
