// Package feedstock knows scraps and bedding: what they are made of, whether
// they belong in a worm bin, how fast the worms take them, and what a mix of
// them comes to.
//
// Standard is the door: the catalogue with its sources, embedded and parsed once.
// Words and Search know what people call things, in each language.
// Mix and its siblings in mix.go are the arithmetic of moisture and C:N.
// The package knows nothing of bins, worms in a tray or rations.
package feedstock

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"
)

//go:embed catalogue.tsv
var catalogueTSV string

// Standard returns the catalogue that comes with the program. It is parsed on
// the first call; the value is shared and must not be changed. The embedded file
// is checked by the tests, so a file that does not load is a fault of the build.
var Standard = sync.OnceValue(func() Catalogue {
	c, err := Load(catalogueTSV)
	if err != nil {
		panic(fmt.Sprintf("feedstock: the embedded catalogue: %v", err))
	}
	for i := range c.Entries {
		c.Entries[i].Name = english()[c.Entries[i].ID].Name
	}
	return c
})

// Verdict says whether a scrap belongs in a household worm bin.
type Verdict string

// The verdicts.
const (
	Good   Verdict = "good"   // within the ration
	Little Verdict = "little" // at most LittleShare of a meal
	Avoid  Verdict = "avoid"  // not advised, a trace does no harm
	Never  Verdict = "never"  // disease, plastic, poison, meat, dairy, fat: keep out
)

// strictness orders the verdicts; what is none is the mildest.
func (v Verdict) strictness() int { return slices.Index([]Verdict{Good, Little, Avoid, Never}, v) }

// StricterThan reports whether v lets less in than w.
func (v Verdict) StricterThan(w Verdict) bool { return v.strictness() > w.strictness() }

// LittleShare is the part of a meal that a scrap marked Little may be. Judgement.
const LittleShare = 0.10

// Entry is one kind of scrap or bedding. A number that nobody published is nil;
// fractions are of 1, not per cent.
type Entry struct {
	ID      string
	Name    string // in English; Words has the other languages
	Group   string // fruit, vegetable, starch, drink-grounds, grit, bedding, garden, animal, other
	Class   Class
	Verdict Verdict
	Reasons []string // codes, such as citrus-oil
	Prep    []string // codes, such as freeze-thaw
	Water   *float64 // fraction of wet mass
	N       *float64 // nitrogen, fraction of dry mass
	CN      *float64 // carbon : nitrogen by mass
	CNLow   *float64 // second opinion on CN from carbohydrate, protein and fat
	Density *float64 // g per ml, loose, in the state that DensityFrom names
	Salt    *float64 // fraction of wet mass
	Proxy   string   // same-part, edible, class or none: what the numbers were measured on
	Rare    bool

	WaterFrom, NFrom, DensityFrom, VerdictFrom string // source codes with remarks
	Status                                     string // seen or from memory, by number
	Disagree                                   string // where guides differ, and remarks about the data
}

// Source is one publication that numbers or verdicts come from.
type Source struct {
	Code string
	Text string // author, year, title
	How  string // "seen", "memory" or "-"
}

// Catalogue is the loaded table, in the order of its file.
type Catalogue struct {
	Entries []Entry
	Sources []Source
	byID    map[string]int
}

// Lookup returns the entry with this id.
func (c Catalogue) Lookup(id string) (Entry, bool) {
	i, ok := c.byID[id]
	if !ok {
		return Entry{}, false
	}
	return c.Entries[i], true
}

// Judgement is the catalogue's word on one scrap.
type Judgement struct {
	Verdict Verdict
	Reasons []string
	Prep    []string
	Known   bool // false: not in the catalogue, judged by its class
}

// Judge returns the verdict on a catalogue id, or for "other" on its class. What
// nobody has classed is judged Little: it may go in, but not as the whole meal.
func (c Catalogue) Judge(id string, class Class) Judgement {
	if e, ok := c.Lookup(id); ok {
		return Judgement{e.Verdict, e.Reasons, e.Prep, true}
	}
	return Judgement{Verdict: classVerdict(class)}
}

// Guides returns who published a verdict on an entry, one a line of text; none
// where the verdict is only from memory.
func (c Catalogue) Guides(id string) []string {
	e, _ := c.Lookup(id)
	var guides []string
	for _, code := range strings.Split(e.VerdictFrom, ";") {
		for _, s := range c.Sources {
			if s.Code == strings.TrimSpace(code) {
				guides = append(guides, s.Text)
			}
		}
	}
	return guides
}

// Groups returns the groups of entries, in the order of a kitchen.
func Groups() []string {
	return []string{"fruit", "vegetable", "starch", "drink-grounds", "grit", "bedding", "garden", "animal", "other"}
}

// FactorsOf returns how the worms take a scrap: its entry's class, or for
// "other" the class that was picked, or Unsorted.
func (c Catalogue) FactorsOf(id string, class Class, cut, frozen bool) Factors {
	if e, ok := c.Lookup(id); ok {
		class = e.Class
	}
	return FactorsOf(class, cut, frozen)
}
