package feedstock

import (
	"slices"
	"strings"
)

// Search returns the entries that fit what a person typed, best first: those
// whose name begins with it, then those with a word that begins with it, then
// those that contain it; everyday things before rare ones, then by the order of
// the catalogue. Nothing typed returns everything everyday.
func (c Catalogue) Search(typed string) []Entry {
	typed = strings.ToLower(strings.Join(strings.Fields(typed), " "))
	type hit struct {
		entry Entry
		rank  int
	}
	var hits []hit
	for _, e := range c.Entries {
		rank := fit(e, typed)
		if typed == "" && e.Rare || rank < 0 {
			continue
		}
		rank *= 2
		if e.Rare {
			rank++
		}
		hits = append(hits, hit{e, rank})
	}
	slices.SortStableFunc(hits, func(a, b hit) int { return a.rank - b.rank })
	out := make([]Entry, len(hits))
	for i, h := range hits {
		out[i] = h.entry
	}
	return out
}

// fit ranks an entry for a search, 0 best, or -1 if it does not fit.
func fit(e Entry, typed string) int {
	name := strings.ToLower(e.Name)
	switch {
	case strings.HasPrefix(name, typed):
		return 0
	case strings.Contains(" "+strings.NewReplacer("(", " ", "/", " ", ",", " ", "-", " ").Replace(name), " "+typed):
		return 1
	case strings.Contains(name, typed) || strings.Contains(e.ID, strings.ReplaceAll(typed, " ", "-")):
		return 2
	}
	return -1
}
