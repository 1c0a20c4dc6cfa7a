package feedstock

import (
	"errors"
	"fmt"
)

// What food tables and laboratories print, turned into what the mixing
// arithmetic needs. All of these are fractions, not per cent. Volume to mass is
// Catalogue.MassOf.

// CarbonFromAsh returns the carbon fraction of dry matter from its ash fraction:
// (1 − ash)/1.8, good to 2–10 % (Gotaas 1956, as given by Polprasert 2007,
// Organic Waste Recycling; Cornell Waste Management Institute, carbon from ash).
func CarbonFromAsh(ash float64) (float64, error) {
	if !(ash >= 0 && ash <= 1) {
		return 0, fmt.Errorf("an ash content of %s is not between 0 and 100 %%", pct(ash))
	}
	return (1 - ash) / 1.8, nil
}

// NitrogenFromProtein returns the nitrogen fraction of dry matter from the
// protein and water fractions of the wet food and the factor that the protein
// was reckoned with, 6.25 unless the table says another (United States
// Department of Agriculture 2015, National Nutrient Database for Standard
// Reference, release 28, documentation).
func NitrogenFromProtein(protein, factor, water float64) (float64, error) {
	switch {
	case !(water >= 0 && water < 1):
		return 0, fmt.Errorf("a water content of %s leaves no dry matter", pct(water))
	case !(factor > 0):
		return 0, fmt.Errorf("a protein factor of %g is not above 0", factor)
	case !(protein >= 0) || protein > 1-water:
		return 0, fmt.Errorf("%s protein does not fit beside %s water", pct(protein), pct(water))
	}
	return protein / factor / (1 - water), nil
}

// Check refuses a composition that no material has: fractions outside their
// range, or a nitrogen and a C:N that together make more carbon than dry matter
// can hold (MostCarbon), as they do in printed tables that average the two apart.
func (i Ingredient) Check() error {
	switch carbon := float64(i.N*i.CN) * 100; {
	case !(i.Water >= 0 && i.Water < 1):
		return fmt.Errorf("moisture must be from 0 to below 100 %%, not %s", pct(i.Water))
	case !(i.N >= 0 && i.N <= 1):
		return fmt.Errorf("nitrogen must be from 0 to 100 %% of dry mass, not %s", pct(i.N))
	case !(i.CN >= 0):
		return errors.New("C:N must not be below 0")
	case carbon > MostCarbon:
		return fmt.Errorf("nitrogen %.3g %% and C:N %.4g together make %.0f %% carbon, and dry matter holds at most %d %%: the two come from different averages, set one from the other", i.N*100, i.CN, carbon, MostCarbon)
	}
	return nil
}
