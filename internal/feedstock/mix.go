package feedstock

import (
	"errors"
	"fmt"
	"math"

	"trayside/internal/units"
)

// Ingredient is a mass of one material with its composition.
type Ingredient struct {
	Grams float64 // wet mass
	Water float64 // fraction of wet mass, 0 to below 1
	N     float64 // nitrogen, fraction of dry mass
	CN    float64 // carbon : nitrogen by mass
}

// ErrCannot says that no amount of what was offered reaches the target. The
// error that wraps it says why.
var ErrCannot = errors.New("cannot be reached")

// ErrUnknown says that the composition of a material is not known.
var ErrUnknown = errors.New("composition not known")

// Dry returns the dry mass in grams.
func (i Ingredient) Dry() float64 { return float64(i.Grams * (1 - i.Water)) }

// Nitrogen returns the nitrogen in grams.
func (i Ingredient) Nitrogen() float64 { return float64(i.Dry() * i.N) }

// Carbon returns the carbon in grams.
func (i Ingredient) Carbon() float64 { return float64(i.Nitrogen() * i.CN) }

// waterGrams returns the water in grams.
func (i Ingredient) waterGrams() float64 { return float64(i.Grams * i.Water) }

// WaterByDrying returns the water fraction of a sample from its mass before and
// after drying, both less the container. Drying at 105 to 110 °C for 24 hours:
// Richard & Trautmann (1996), Cornell Waste Management Institute, moisture
// content.
func WaterByDrying(wet, dry float64) (float64, error) {
	if !(wet > 0) || !(dry >= 0) || dry > wet {
		return 0, fmt.Errorf("%w: a sample of %g g cannot weigh %g g when dry", ErrCannot, wet, dry)
	}
	return (wet - dry) / wet, nil
}

// MixWater returns the water fraction of a mix: all the water over all the mass.
func MixWater(mix ...Ingredient) (float64, error) {
	var water, mass float64
	for _, i := range mix {
		water += i.waterGrams()
		mass += i.Grams
	}
	if !(mass > 0) {
		return 0, fmt.Errorf("%w: there is nothing in the mix", ErrCannot)
	}
	return water / mass, nil
}

// MixCN returns the C:N of a mix: all the carbon over all the nitrogen. It is
// never a mean of ratios, neither by mass nor by volume: a dry, nitrogen-poor
// material weighs far less in the sum than its ratio suggests.
func MixCN(mix ...Ingredient) (float64, error) {
	var carbon, nitrogen float64
	for _, i := range mix {
		carbon += i.Carbon()
		nitrogen += i.Nitrogen()
	}
	if !(nitrogen > 0) {
		return 0, fmt.Errorf("%w: there is no nitrogen in the mix", ErrCannot)
	}
	return carbon / nitrogen, nil
}

// ForWater returns how many grams of add bring the mix to the water fraction
// target; add.Grams is ignored. The two-material form is that of Richard &
// Trautmann (1996), Cornell Waste Management Institute. It refuses a target that
// does not lie strictly between the two, since only more than everything or less
// than nothing would reach it.
func ForWater(target float64, add Ingredient, mix ...Ingredient) (float64, error) {
	have, err := MixWater(mix...)
	if err != nil {
		return 0, err
	}
	if have == target {
		return 0, nil
	}
	if !between(target, have, add.Water) {
		return 0, fmt.Errorf("%w: %s water does not lie between the mix with %s and the addition with %s", ErrCannot, pct(target), pct(have), pct(add.Water))
	}
	var mass, water float64
	for _, i := range mix {
		mass += i.Grams
		water += i.waterGrams()
	}
	return (water - float64(target*mass)) / (target - add.Water), nil
}

// nearEnough is how near two water fractions are when a tenth of a per cent, as far as
// anybody can measure and the words go, does not tell them apart.
const nearEnough = 0.0005

// WaterFor returns how many grams of plain water bring the mix to the water
// fraction target. A mix that is wetter already is refused, unless by less than nearEnough:
// drain it, dry it, or add dry bedding (ForWater).
func WaterFor(target float64, mix ...Ingredient) (float64, error) {
	have, err := MixWater(mix...)
	switch {
	case err != nil:
		return 0, err
	case have > target+nearEnough:
		return 0, fmt.Errorf("%w: the mix holds %s water already, more than %s, and water only makes it wetter: drain it, dry it or add dry bedding", ErrCannot, pct(have), pct(target))
	case have >= target:
		return 0, nil
	}
	return ForWater(target, Ingredient{Water: 1}, mix...)
}

// ForCN returns how many grams of add bring the mix to the C:N target; add.Grams
// is ignored. It refuses a target that does not lie strictly between the mix and
// the addition.
func ForCN(target float64, add Ingredient, mix ...Ingredient) (float64, error) {
	have, err := MixCN(mix...)
	if err != nil {
		return 0, err
	}
	if have == target {
		return 0, nil
	}
	perGram := float64((1 - add.Water) * add.N)
	if !between(target, have, add.CN) || !(perGram > 0) {
		return 0, fmt.Errorf("%w: C:N %.4g does not lie between the mix at %.4g and the addition at %.4g", ErrCannot, target, have, add.CN)
	}
	var carbon, nitrogen float64
	for _, i := range mix {
		carbon += i.Carbon()
		nitrogen += i.Nitrogen()
	}
	return (float64(target*nitrogen) - carbon) / float64(perGram*(add.CN-target)), nil
}

// ForBoth returns the grams of bedding that bring the mix to a C:N and then the
// grams of plain water that bring the whole to a water fraction. Water carries
// neither carbon nor nitrogen, so the second step leaves the first alone.
func ForBoth(cn, water float64, bedding Ingredient, mix ...Ingredient) (bed, plain float64, err error) {
	bed, err = ForCN(cn, bedding, mix...)
	if err != nil {
		return 0, 0, err
	}
	bedding.Grams = bed
	whole := append(append([]Ingredient(nil), mix...), bedding)
	plain, err = WaterFor(water, whole...)
	if err != nil {
		return 0, 0, fmt.Errorf("with %.0f g of bedding for the C:N: %w", bed, err)
	}
	return bed, plain, nil
}

// ForBothWithTwo returns the grams of two solid materials, x and y, that
// together bring the mix to a C:N and a water fraction at once: two balances,
// one of carbon over nitrogen and one of water, in two unknowns. It refuses when
// that would take less than nothing of either, or when the two are so alike that
// they cannot move the balances apart.
func ForBothWithTwo(cn, water float64, x, y Ingredient, mix ...Ingredient) (ofX, ofY float64, err error) {
	if _, err := MixCN(mix...); err != nil {
		return 0, 0, err
	}
	var carbon, nitrogen, wet, mass float64
	for _, i := range mix {
		carbon += i.Carbon()
		nitrogen += i.Nitrogen()
		wet += i.waterGrams()
		mass += i.Grams
	}
	x.Grams, y.Grams = 1, 1
	// What a gram of each moves, and what is wanted.
	xCarbon, yCarbon := float64(x.Nitrogen()*(x.CN-cn)), float64(y.Nitrogen()*(y.CN-cn))
	xWater, yWater := x.Water-water, y.Water-water
	needCarbon, needWater := float64(cn*nitrogen)-carbon, float64(water*mass)-wet
	det := float64(xCarbon*yWater) - float64(yCarbon*xWater)
	if size := math.Abs(float64(xCarbon*yWater)) + math.Abs(float64(yCarbon*xWater)); !(math.Abs(det) > 1e-12*size) {
		return 0, 0, fmt.Errorf("%w: the two additions are too alike to set C:N and water apart", ErrCannot)
	}
	ofX = (float64(needCarbon*yWater) - float64(yCarbon*needWater)) / det
	ofY = (float64(xCarbon*needWater) - float64(needCarbon*xWater)) / det
	if ofX < 0 || ofY < 0 {
		return 0, 0, fmt.Errorf("%w: C:N %.4g at %s water would take less than nothing of one of the two additions", ErrCannot, cn, pct(water))
	}
	return ofX, ofY, nil
}

// Holds returns the water fraction of a bedding that has soaked up all it can:
// uptake is grams of water per gram of bedding as it lies, water what it held
// before.
func Holds(water, uptake float64) float64 { return (water + uptake) / (1 + uptake) }

func between(x, a, b float64) bool { return a < x && x < b || b < x && x < a }

func pct(fraction float64) string { return fmt.Sprintf("%.1f %%", fraction*100) }

// Ingredient returns grams of an entry for the mixing arithmetic. Where the
// nitrogen or C:N of the entry is not known, that of the mixed kitchen scraps
// stands in; a material without a water content is refused.
func (c Catalogue) Ingredient(id string, grams units.Grams) (Ingredient, error) {
	e, ok := c.Lookup(id)
	if !ok || e.Water == nil {
		return Ingredient{}, fmt.Errorf("%q: %w", id, ErrUnknown)
	}
	i := Ingredient{Grams: float64(grams), Water: *e.Water}
	if e.N != nil && e.CN != nil {
		i.N, i.CN = *e.N, *e.CN
	} else if mixed, ok := c.Lookup(Mixed); ok {
		i.N, i.CN = *mixed.N, *mixed.CN
	}
	return i, nil
}
