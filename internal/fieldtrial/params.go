package fieldtrial

import "trayside/internal/units"

// Numbers of the truth. They come from the publications that the model of
// internal/colony stands on, since there are no others, but through forms of
// their own: an individual eats by its surface and grows in length, where the
// model has stages and one mean appetite. What publications disagree about is
// drawn for each household from the whole of their range, and no default of the
// model is used. "Judgement" marks a choice that no publication supports.

// span is a range to draw from.
type span struct{ low, high float64 }

// What is drawn for each household. Rates are drawn evenly by ratio, shares and
// temperatures evenly.
var (
	// appetites: g of soft scraps per g of half-gram worms and day at 25 °C. Cornell's
	// school book: 0.21–0.36; NYC Compost Project 2012: 0.5; Illinois Extension 2020:
	// up to 1.
	appetites = span{0.25, 1.0}
	// cocoons per adult and week at 25 °C: 2.7 (Reinecke & Viljoen 1990, Biol Fertil
	// Soils 10:184-187), 3.8 (Edwards 1988, from memory).
	cocoons = span{2.0, 3.8}
	// kitchens: what kitchen scraps leave of laying on manure. Judgement, after Durán
	// & Henríquez 2009, Agronomía Costarricense 33:275-281, where household residues
	// bred worst of five feeds.
	kitchens = span{0.2, 0.9}
	// hatching: share of cocoons; 0.73 (Venter & Reinecke 1988) to 0.832 (Edwards
	// 1988), both from memory.
	hatching = span{0.70, 0.83}
	// litters: hatchlings per hatched cocoon; 2.7 (Venter & Reinecke 1988), 3.3
	// (Edwards 1988), both from memory.
	litters = span{2.2, 3.3}
	// incubations: degree-days above devBase; 21 d at 25 °C (Neuhauser, Hartenstein &
	// Kaplan 1980, Oikos 35:93-98), 25–28 d at 20 °C (OECD earthworm test guideline).
	incubations = span{420, 550}
	// childhoods: degree-days above devBase from hatching to maturity; 49–56 d in OECD
	// culture, up to 76 (Edwards 1988, from memory).
	childhoods = span{850, 1300}
	// growths: pace of growing on kitchen scraps beside cattle solids: worms reach a
	// quarter of a gram in 28 d on these (Gunadi et al. 2002) and maturity in 49–76 d
	// in ordinary culture (OECD; Edwards 1988, from memory).
	growths = span{0.4, 0.9}
	// survivals: share of hatchlings that grow up, uncrowded. Judgement.
	survivals = span{0.2, 0.9}
	// deaths of adults a day; 0.00045 in the laboratory (median life 4.25 years, Age
	// 29:229-231, 2007), the upper end is judgement.
	deaths = span{0.0005, 0.005}
	// sizes: g, a well-fed adult of a bin; 0.33 (Gunadi & Edwards 2003) to 0.7
	// (between 1000 to the pound, Texas A&M AgriLife 2014, and 500, Illinois Extension
	// 2020).
	sizes = span{0.33, 0.70}
	// ceilings: g of worms per m² at which laying stops; from 0.77–2.9 kg in dishes
	// (Neuhauser et al. 1980) to 10–15 in working beds (from memory).
	ceilings = span{4000, 15000}
	// surfaces: g of soft scraps that a m² takes a day; 700 by the area rule (Nebraska
	// Extension 2023), about 1000 (Loehr et al. 1984), up to 2000 (Ndegwa, Thompson &
	// Das 2000, Bioresource Technol 71:5-12).
	surfaces = span{700, 2000}
	// climbs: days in which four fifths of the worms have followed into a new tray:
	// two to eight weeks (handbooks, from memory).
	climbs = span{14, 56}
	// decays: share of soft scraps that microbes take a day at 20 °C; 0.04 leaves
	// 1.5 % after the 105 d of a kitchen waste trial (University of Embu, abstract).
	// The ends are judgement.
	decays = span{0.02, 0.08}
	// keeps: dry matter that is left of the dry matter eaten, 50 ± 10 % (Abbasi group,
	// preprint).
	keeps = span{0.4, 0.6}
)

// Numbers that all worms share.
const (
	devBase = 4.0 // °C, development stands still below: fitted to the incubations above

	hatchlingG = 0.011 // Gunadi, Blount & Edwards 2002, Pedobiologia 46:15-23
	// lengthens is the rate of growth in length at 20 °C, well fed: a logistic curve in
	// length through the same authors' eleven weighings (0.032 g on day 7 to 0.49 g on
	// day 84) has a rate of 0.072 to 0.091 between any two of them.
	lengthens = 0.080
	// shrinks is how much slower hunger takes away than food adds: 2.9 % of the mass a
	// day without any food. Adults shrink for weeks before they die (Reinecke & Viljoen
	// 1990, variable feeding); the rate is judgement.
	shrinks = 0.12
	// standardG is the worm whose appetite per gram is the household's. Intake goes by
	// mass to the two thirds (Johnston et al. 2014, Ecol Model 280:5-17).
	standardG = 0.45

	matureShare = 0.5    // of the well-fed mass at which a worm can mature: 0.25–0.30 g of 0.5 (Gunadi et al. 2002)
	layShare    = 0.35   // below it no energy is left for laying; judgement
	lateAfter   = 480.0  // days of laying after which it falls (Venter & Reinecke 1988, shape only)
	lateShare   = 0.2    // to this
	starvedAt   = 0.4    // of the most a worm ever weighed: below it hunger kills; judgement
	starving    = 0.03   // deaths a day then; judgement
	remembers   = 8.0    // days over which a worm's food counts; laying dwindles for 20–40 d (Reinecke & Viljoen 1990)
	onBedding   = 0.2    // of a full meal that bedding alone stands for: worms outlast several weeks unfed (UF/IFAS Sarasota 2023); judgement
	crowdAppet  = 1.5    // appetite is divided by 1 + this × crowding²: ingestion fell from 1.0 to 0.14 of body mass (Reeh 1992, Soil Biol Biochem 24:1327-1331)
	crowdSize   = 0.25   // and size falls with it: small sterile worms (same source); judgement
	crowdDeath  = 3.0    // and the young die; judgement
	sourFrom    = 6000.0 // g of soft scraps per m² from which a bed turns sour, fully at twice that; judgement, a layer of about 10 mm
	sourEats    = 0.6    // of the appetite that a sour bed takes; judgement
	sourKills   = 0.01   // deaths a day in one; judgement

	arrhenius = 2901.0 // K, 0.25 eV over Boltzmann's constant (Johnston et al. 2014)
	kelvin    = 273.15
	rotTen    = 2.0 // microbes work twice as fast 10 °C warmer: common practice in composting, from memory

	dryScraps    = 0.15 // dry share of kitchen scraps: 80–90 % water (City of Euless)
	dryBedding   = 0.93
	dryCastings  = 0.30 // moist castings hold 65–80 % water (handbooks, from memory)
	castingsKgL  = 0.65 // kg per litre moist: 0.5–0.8, from memory
	cardboardKgL = 0.06 // shredded cardboard, judgement
)

// line is a quantity given at points, straight between and level outside.
type line [][2]float64

func (l line) at(x float64) float64 {
	if x <= l[0][0] {
		return l[0][1]
	}
	for i := 1; i < len(l); i++ {
		if a, b := l[i-1], l[i]; x <= b[0] {
			return a[1] + (b[1]-a[1])*(x-a[0])/(b[0]-a[0])
		}
	}
	return l[len(l)-1][1]
}

var (
	// steep is appetite and growth by °C as household guides imply it; the mild edge
	// is Arrhenius' law, and each household's worms lie somewhere between. Inside the
	// bands of Kaplan et al. 1980, Soil Biol Biochem 12, and Edwards & Arancon 2004,
	// table 18.3; judgement.
	steep = line{{0, 0}, {4, .05}, {10, .30}, {15, .60}, {20, .85}, {25, 1}}
	hot   = line{{25, 1}, {28, .95}, {30, .75}, {33, .25}, {35, 0}}
	// breeds is laying by °C: 15–20 best with limits of 4 and 30 (Edwards & Arancon
	// 2004) against 25 (manure studies).
	breeds = line{{4, 0}, {10, .10}, {15, .45}, {20, .80}, {25, 1}, {28, .90}, {30, .60}, {33, .10}, {35, 0}}
	// kills is extra deaths a day by °C, between the guides' limits (32 °C Oregon
	// Metro, 38 °C Texas A&M AgriLife 2014, 4 °C Colorado State University 2015).
	kills = line{{0, .3}, {2, .01}, {4, 0}, {30, 0}, {32, .02}, {34, .10}, {36, .40}, {38, .9}}
	// wets is appetite and growth by % moisture: 70–85 best (Kaplan et al. 1980),
	// limits 60–90 (Edwards & Arancon 2004).
	wets = line{{50, 0}, {70, 1}, {85, 1}, {90, .3}, {93, 0}}
)

// warmth returns what a bed temperature leaves of appetite and growth, 1 at 25 °C;
// mild is 1 for worms that keep to Arrhenius' law in the cold, 0 for those of the
// guides.
func warmth(bedC, mild float64) float64 {
	if bedC >= 25 {
		return hot.at(bedC)
	}
	if bedC <= 0 {
		return 0
	}
	law := units.Exp(arrhenius * (1/(25+kelvin) - 1/(bedC+kelvin)))
	law *= min(1, bedC/devBase) // nothing moves in a frozen bed
	return mild*law + (1-mild)*steep.at(bedC)
}
