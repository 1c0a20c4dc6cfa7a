package feedstock

import "fmt"

// Target is what a mix should come to; a zero leaves that side alone.
type Target struct {
	Water float64 // fraction of wet mass
	CN    float64
}

// Recipe is what goes in with a meal, and what the whole then comes to.
type Recipe struct {
	Bedding float64 // g, as it lies
	Plain   float64 // g (ml) of water
	Water   float64 // fraction of wet mass
	CN      float64 // 0 if there is no nitrogen in it
}

// The band that worms do well in: 80–90 % water with limits at 60 and 90 %
// (Edwards 2004, Earthworm Ecology, 2nd edition, table 18.3) was measured in
// manures and sludges; a bed of paper in a plastic tray lets water pool from
// 70–75 % on (worked out from Voyles & Honeyman 2006, Iowa State ASL R2153). C:N
// 25 gave the best product (Ndegwa & Thompson 2000, Bioresource Technology), 30
// the most worms (Ibrahim et al. 2014). The edges are our reading of these.
const (
	BandDry   = 0.70
	BandWet   = MealWater
	BandLowCN = 20
	BandTopCN = 35
)

// Fit returns the bedding and water that bring the mix to exactly the target;
// bedding.Grams is ignored. Water alone: bedding makes a mix drier, plain water
// makes it wetter. C:N alone: bedding, and no water. Both: bedding for the C:N,
// then plain water. It refuses what these cannot reach, and says why.
func Fit(t Target, bedding Ingredient, mix ...Ingredient) (Recipe, error) {
	switch {
	case !(t.Water >= 0 && t.Water < 1):
		return Recipe{}, fmt.Errorf("%w: no mix comes to %s water: ask for less than 100 %%", ErrCannot, pct(t.Water))
	case !(t.CN >= 0):
		return Recipe{}, fmt.Errorf("%w: no mix has a C:N of %.4g: ask for one above 0", ErrCannot, t.CN)
	}
	have, err := MixWater(mix...)
	if err != nil {
		return Recipe{}, err
	}
	var r Recipe
	switch {
	case t.Water > 0 && t.CN > 0:
		if r.Bedding, r.Plain, err = ForBoth(t.CN, t.Water, bedding, mix...); err != nil {
			return Recipe{}, fmt.Errorf("%w%s", err, instead(t, bedding, mix))
		}
	case t.CN > 0:
		r.Bedding, err = ForCN(t.CN, bedding, mix...)
	case t.Water > have:
		r.Plain, err = WaterFor(t.Water, mix...)
	case t.Water > 0:
		r.Bedding, err = ForWater(t.Water, bedding, mix...)
	}
	if err != nil {
		return Recipe{}, err
	}
	return r.of(bedding, mix), nil
}

// instead says what one of two targets alone would take, where that is possible.
func instead(t Target, bedding Ingredient, mix []Ingredient) string {
	r, err := Fit(Target{Water: t.Water}, bedding, mix...)
	if err != nil || r.Bedding <= 0 || r.CN <= 0 {
		return ""
	}
	return fmt.Sprintf("; for the water alone %.0f g of this bedding would do, at C:N %.3g", r.Bedding, r.CN)
}

// FitBand returns the least that brings the mix into the worms' band: bedding
// until it is no wetter than BandWet and its C:N no lower than BandLowCN, then
// water until it is no drier than BandDry. Water sets the bedding of most
// kitchen scraps, so the C:N often ends higher than it needs to; a mix whose C:N
// is above BandTopCN all by itself is left so, since bedding cannot lower it.
func FitBand(bedding Ingredient, mix ...Ingredient) (Recipe, error) {
	now := Recipe{}.of(bedding, mix)
	if _, err := MixWater(mix...); err != nil {
		return Recipe{}, err
	}
	var bed float64
	if now.Water > BandWet {
		g, err := ForWater(BandWet, bedding, mix...)
		if err != nil {
			return Recipe{}, err
		}
		bed = g
	}
	if now.CN > 0 && now.CN < BandLowCN {
		g, err := ForCN(BandLowCN, bedding, mix...)
		if err != nil {
			return Recipe{}, err
		}
		bed = max(bed, g)
	}
	r := Recipe{Bedding: bed}.of(bedding, mix)
	if r.Water < BandDry {
		bedding.Grams = bed
		whole := append(append([]Ingredient(nil), mix...), bedding)
		plain, err := WaterFor(BandDry, whole...)
		if err != nil {
			return Recipe{}, err
		}
		r.Plain = plain
		r = r.of(bedding, mix)
	}
	return r, nil
}

// of fills in what the mix comes to with the recipe's bedding and water.
func (r Recipe) of(bedding Ingredient, mix []Ingredient) Recipe {
	bedding.Grams = r.Bedding
	whole := append(append([]Ingredient(nil), mix...), bedding, Ingredient{Grams: r.Plain, Water: 1})
	r.Water, r.CN = 0, 0
	if w, err := MixWater(whole...); err == nil {
		r.Water = w
	}
	if cn, err := MixCN(whole...); err == nil {
		r.CN = cn
	}
	return r
}
