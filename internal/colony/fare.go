package colony

// Fare is a food of a Trial.
type Fare struct {
	Appeal float64 // eaten relative to soft scraps, by fresh weight
	Soft   float64 // share that can be eaten
	Rot    float64 // share that microbes take in a day at 20 °C
	Rich   float64 // how far it lets worms grow, as in Rates
	Breed  float64 // share of the laboratory's laying that it allows
	// Kitchen says that Rich and Breed are those of the species on kitchen scraps.
	Kitchen bool
}

// FareOf returns a food that laboratories feed and kitchens do not, and whether
// there is one of that name.
func FareOf(name string) (Fare, bool) {
	switch name {
	// Manures hold about three times the dry matter of kitchen scraps, so a
	// third of the weight fills a worm. Ten worms of 0.65 g grew and laid at the
	// full rate on 1 g a day (Reinecke & Viljoen 1990); five lived half a year on
	// 150 g and lost weight at the end (Gunadi, Blount & Edwards 2002): the rot
	// is set so that this food comes to its end then.
	case "cattle-manure":
		return Fare{Appeal: 0.31, Soft: 1, Rot: 0.016, Rich: 1, Breed: 1}, true
	// Neuhauser, Hartenstein & Kaplan 1980: in the cube root of mass single worms
	// grew toward nine tenths of what they did on cow manure. 250 g carried no
	// more than 6 g of worms, so they need more of it.
	case "horse-manure":
		return Fare{Appeal: 1.5, Soft: 1, Rot: 0.015, Rich: 0.89, Breed: 1}, true
	// The same: a tenth more than on cow manure, and the dish that carried 6 g of
	// worms on horse manure carried more than 23 on sludge, whether a few worms
	// began in it or many. Worms put on most where they got more than 0.75 of their
	// weight a day of biosolids (Ndegwa, Thompson & Das 2000, Bioresource Technol
	// 71:5-12).
	case "activated-sludge":
		return Fare{Appeal: 1.05, Soft: 1, Rot: 0.003, Rich: 1.11, Breed: 1}, true
	// Durán & Henríquez 2009, Agronomía Costarricense 33:275-281: of five feeds
	// the one in which E. fetida bred best, 28-fold in 90 days; the masses are
	// those of a good feed. Judgement.
	case "coffee-pulp":
		return Fare{Appeal: 1, Soft: 1, Rot: 0.03, Rich: 0.95, Breed: 1}, true
	}
	return Fare{}, false
}

// FareNames are the names FareOf knows.
func FareNames() []string {
	return []string{"cattle-manure", "horse-manure", "activated-sludge", "coffee-pulp"}
}
