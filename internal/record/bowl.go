package record

import "trayside/internal/units"

// Left returns what has not been taken from a bowl yet: its items less those of
// the feedings, freezings and discards that name it, kind by kind, in the
// bowl's order. Items without a weight stay until anything was taken. A bowl
// that two people emptied at once is empty, never negative.
func (h *Household) Left(bowl Bowl) []Item {
	var taken []Item
	h.placed(func(from string, items []Item) {
		if from == bowl.ID {
			taken = append(taken, items...)
		}
	})
	return less(bowl.Items, taken)
}

// Waiting returns the bowls in which something is left, each with what is left
// as its items. It passes over the record once, however many bowls there were.
func (h *Household) Waiting() []Bowl {
	taken := make(map[string][]Item, len(h.Bowls))
	h.placed(func(from string, items []Item) {
		if _, more := taken[from]; !more {
			taken[from] = items[:len(items):len(items)]
		} else {
			taken[from] = append(taken[from], items...)
		}
	})
	var waiting []Bowl
	for _, b := range h.Bowls {
		if b.Items = less(b.Items, taken[b.ID]); len(b.Items) > 0 {
			waiting = append(waiting, b)
		}
	}
	return waiting
}

// placed shows every amount that was taken from a bowl.
func (h *Household) placed(show func(bowl string, items []Item)) {
	for i := range h.Feedings {
		if f := &h.Feedings[i]; f.Bowl != "" {
			show(f.Bowl, f.Items)
		}
	}
	for i := range h.Freezer {
		if f := &h.Freezer[i]; f.Bowl != "" {
			show(f.Bowl, f.Items)
		}
	}
	for i := range h.Discards {
		if d := &h.Discards[i]; d.Bowl != "" {
			show(d.Bowl, d.Items)
		}
	}
}

// less returns items without what was taken. A taken gram that finds none of
// its own kind left is taken from the first kind that has any, because a bowl
// edited after it was placed must still add up.
func less(items, taken []Item) []Item {
	if len(taken) == 0 {
		return items
	}
	left := append([]Item(nil), items...)
	var stray units.Grams
	for _, t := range taken {
		grams := t.Grams
		for i := range left {
			if grams > 0 && left[i].Scrap == t.Scrap && left[i].Name == t.Name {
				cut := min(grams, left[i].Grams)
				left[i].Grams -= cut
				grams -= cut
			}
		}
		stray += grams
	}
	for i := range left {
		cut := max(0, min(stray, left[i].Grams))
		left[i].Grams -= cut
		stray -= cut
	}
	kept := left[:0]
	for _, it := range left {
		if it.Grams > 0 {
			kept = append(kept, it)
		}
	}
	return kept
}
