package record

import "trayside/internal/units"

// Left returns what has not been taken from a bowl yet: its items less those of
// the feedings, freezings and discards that name it, kind by kind, in the
// bowl's order. Items without a weight stay until anything was taken. A bowl
// that two people emptied at once is empty, never negative.
func (h *Household) Left(bowl Bowl) []Item {
	taken := make([]Item, 0, len(bowl.Items))
	for i := range h.Feedings {
		if h.Feedings[i].Bowl == bowl.ID {
			taken = append(taken, h.Feedings[i].Items...)
		}
	}
	for i := range h.Freezer {
		if h.Freezer[i].Bowl == bowl.ID {
			taken = append(taken, h.Freezer[i].Items...)
		}
	}
	for i := range h.Discards {
		if h.Discards[i].Bowl == bowl.ID {
			taken = append(taken, h.Discards[i].Items...)
		}
	}
	return Less(bowl.Items, taken)
}

// Less returns items without what was taken. A taken gram that finds none of
// its own kind left is taken from the first kind that has any, because a bowl
// edited after it was placed must still add up.
func Less(items, taken []Item) []Item {
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
