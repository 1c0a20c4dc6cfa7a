package feedstock

import "slices"

// Class groups foods by how fast worms take them.
type Class string

// The classes. Foreign is what is no food at all; Unsorted is what nobody has
// classed, taken as mixed kitchen scraps.
const (
	SoftFruit Class = "soft-fruit" // watery fruit, cucurbits
	Leafy     Class = "leafy"      // leaves, soft and cooked vegetables, mixed trimmings
	Root      Class = "root"       // raw roots and their peel
	Grounds   Class = "grounds"    // coffee, tea, spent grain
	Starch    Class = "starch"     // bread, pasta, rice, sweets
	Citrus    Class = "citrus"
	Allium    Class = "allium" // onion, garlic, leek
	Rich      Class = "rich"   // protein and fat
	Garden    Class = "garden" // soft green cuttings
	Manure    Class = "manure"
	Hard      Class = "hard"  // stones, stalks, shells of nuts, woody bits
	Paper     Class = "paper" // paper, card and other bedding
	Grit      Class = "grit"  // eggshell, sand, lime
	Foreign   Class = "foreign"
	Unsorted  Class = ""
)

// Classes returns the classes a person may pick for a scrap that the catalogue
// lacks, the commonest first.
func Classes() []Class {
	return []Class{SoftFruit, Leafy, Root, Grounds, Starch, Citrus, Allium, Rich, Garden, Manure, Hard, Paper, Grit}
}

// Known reports whether c is a class that can be picked.
func (c Class) Known() bool { return slices.Contains(Classes(), c) }

// Factors are the worms' view of a food.
type Factors struct {
	Appeal float64 // rate at which it is eaten relative to mixed soft scraps; 0 for grit
	Soft   float64 // share of the wet mass that disappears; the rest is hard bits
	Rot    float64 // share of the soft part that microbes take in a day at 20 °C
}

// Worked is how much faster frozen-and-thawed or finely cut scraps go. Freezing
// and cutting both open the cells, so the second adds nothing. Judgement; no
// published table supports it.
const Worked = 1.3

// FactorsOf returns the factors of a class. Every value is judgement: no
// published table of eating rates by food was found, only the common remark that
// melon, cucurbits and banana go fast, and onion, citrus, raw potato and woody
// matter slowly. The rates of rot straddle 0.04 a day, at which 1.5 % of a meal
// is left after 105 days, the time in which kitchen waste stops giving off carbon
// dioxide (vermicomposting study, University of Embu, Kenya; abstract).
// Paper counts as bedding: its soft share is 0, so that it is never "left over".
func FactorsOf(c Class, cut, frozen bool) Factors {
	var f Factors
	switch c {
	case SoftFruit:
		f = Factors{1.2, 0.95, 0.06}
	case Leafy, Unsorted:
		f = Factors{1.0, 0.95, 0.05}
	case Root:
		f = Factors{0.7, 0.95, 0.03}
	case Grounds:
		f = Factors{0.8, 1.0, 0.03}
	case Starch:
		f = Factors{0.8, 1.0, 0.06}
	case Citrus:
		f = Factors{0.4, 0.9, 0.02}
	case Allium:
		f = Factors{0.4, 0.9, 0.02}
	case Rich:
		f = Factors{0.5, 0.95, 0.06}
	case Garden:
		f = Factors{0.8, 0.85, 0.05}
	case Manure:
		f = Factors{1.0, 0.95, 0.03}
	case Hard:
		f = Factors{0.2, 0.2, 0.01}
	case Paper:
		f = Factors{0.1, 0, 0}
	default: // grit and foreign things
		return Factors{}
	}
	if (cut || frozen) && f.Soft > 0 {
		f.Appeal, f.Rot = float64(f.Appeal*Worked), float64(f.Rot*Worked)
	}
	return f
}

// classVerdict judges a scrap of which only the class is known, by what most of
// the catalogue's entries of that class say.
func classVerdict(c Class) Verdict {
	switch c {
	case SoftFruit, Leafy, Root, Grounds, Paper, Grit, Manure:
		return Good
	case Allium, Hard:
		return Avoid
	case Rich:
		return Avoid // meat, dairy and fat are Never, beans and nuts Little
	case Foreign:
		return Never
	}
	return Little
}
