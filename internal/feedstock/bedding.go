package feedstock

import (
	"trayside/internal/record"
	"trayside/internal/units"
)

// Ids of entries that stand for something.
const (
	Other     = "other"         // a scrap that the catalogue lacks
	Mixed     = "kitchen-mixed" // stands in for scraps of unknown make
	Cardboard = "cardboard"     // the bedding that every household has
)

// MealWater is the water fraction a meal is bedded down to. The worms thrive at
// 70 to 85 % (Kaplan, Hartenstein, Neuhauser & Malecki 1980, Soil Biology and
// Biochemistry 12, abstract), but paper in a plastic tray lets water pool near 70
// to 75 % (worked out from Voyles & Honeyman 2006, Iowa State ASL R2153): 75 % is
// the wet end that does not drip. Judgement.
const MealWater = 0.75

// unknownWater is taken for a scrap whose water content nobody published: kitchen
// scraps hold 80 to 90 % (City of Euless, compost pages).
const unknownWater = 0.85

// BeddingFor returns the grams of dry bedding that go in with a meal so that it
// does not leave the bed wetter than MealWater; 0 if the meal is dry enough. Grit
// counts as what it is; a bedding that is itself too wet to help returns 0.
func (c Catalogue) BeddingFor(meal []record.Item, bedding string) units.Grams {
	add, err := c.Ingredient(bedding, 0)
	if err != nil {
		return 0
	}
	mix := make([]Ingredient, 0, len(meal))
	for _, item := range meal {
		i, err := c.Ingredient(item.Scrap, item.Grams)
		if err != nil {
			i = Ingredient{Grams: float64(item.Grams), Water: unknownWater}
		}
		mix = append(mix, i)
	}
	grams, err := ForWater(MealWater, add, mix...)
	if err != nil { // nothing there, dry enough already, or a bedding that is no drier
		return 0
	}
	return units.Grams(units.Nearest(grams))
}

// Densities of mixed scraps in g per ml where the entry has none: 0.45 in a caddy
// lies between 0.455 printed per gallon (United States Environmental Protection
// Agency 2016, volume-to-weight factors) and 0.42 for table waste (Bertrand,
// Missouri University of Science and Technology, table of material properties).
// The value for cut scraps is judgement inside those figures.
const (
	caddyDensity = 0.45
	cutDensity   = 0.55
)

// MassOf returns the mass of a vessel full of one scrap, from its volume. It is
// an estimate and must be shown as one: printed densities of the same material
// differ twofold.
func (c Catalogue) MassOf(id string, millilitres int64, cut bool) units.Grams {
	density := caddyDensity
	if cut {
		density = cutDensity
	}
	if e, ok := c.Lookup(id); ok && e.Density != nil && id != Mixed {
		density = *e.Density
	}
	return units.Grams(units.Nearest(float64(max(millilitres, 0)) * density))
}
