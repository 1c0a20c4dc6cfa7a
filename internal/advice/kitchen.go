package advice

import (
	"cmp"

	"trayside/internal/feedstock"
	"trayside/internal/order"
	"trayside/internal/record"
	"trayside/internal/units"
)

// Kitchen is what a record tells of the place that a bin is planned for.
type Kitchen struct {
	Week []record.Item // scraps of a mean week, by catalogue id, the most first; nil if nobody weighed any
	// The room of the first bin in use that has one; Room is false if none does.
	Room             bool
	Coolest, Warmest units.DeciCelsius
	South            bool
}

// weeksSeen is how many of the last days tell what a kitchen makes: eight weeks.
// Judgement: shorter follows a holiday, longer another season.
const weeksSeen = 56

// KitchenOf returns what a record tells of the household's kitchen and room. What
// the worms got, what went out with the waste and what the freezer gained count;
// a meal that nobody weighed counts as a plain one of its bin.
func KitchenOf(h *record.Household, today record.Day) Kitchen {
	k := Kitchen{South: southern(h.Zone)}
	for _, b := range h.Bins {
		if !b.Gone && !k.Room && (b.RoomCoolest != 0 || b.RoomWarmest != 0) {
			k.Room, k.Coolest, k.Warmest = true, b.RoomCoolest, b.RoomWarmest
		}
	}
	a := New(h, today, Phone{})
	grams := map[string]units.Grams{}
	first := today
	add := func(d record.Day, items []record.Item) {
		if d > today || d <= today-weeksSeen {
			return
		}
		first = min(first, d)
		for _, it := range items {
			id := it.Scrap
			if _, known := feedstock.Standard().Lookup(id); !known {
				id = feedstock.Mixed
			}
			grams[id] += it.Grams
		}
	}
	for i := range h.Feedings {
		f := &h.Feedings[i]
		add(f.Day, weighed(f.Items, a.plainMealOf(f.Bin)))
	}
	for _, f := range h.Freezer { // what comes out was counted when it went in
		add(f.Day, f.Items)
	}
	for _, d := range h.Discards {
		add(d.Day, d.Items)
	}
	days := units.Grams(max(today-first+1, 7))
	for id, g := range grams {
		if week := units.Grams(units.Round(int64(g)*7, int64(days))); week > 0 {
			k.Week = append(k.Week, record.Item{Scrap: id, Grams: week})
		}
	}
	order.By(k.Week, func(x, y record.Item) int {
		return cmp.Or(cmp.Compare(y.Grams, x.Grams), cmp.Compare(x.Scrap, y.Scrap))
	})
	return k
}
