package colony

import (
	"trayside/internal/record"
	"trayside/internal/units"
)

// This file holds the numbers of the model, by species. Beside each stands
// where it comes from. "Judgement" marks a number that no publication gives and
// that was set inside the range the named publications leave open; the ranges
// are what an ensemble may later draw from.

// Range is a quantity with the ends of what its sources can support.
type Range struct{ Mid, Low, High float64 }

// Rates is everything that sets how a colony lives. All rates are per day and
// hold for the bed, not the room; masses are fresh grams.
type Rates struct {
	Cocoons    Range // laid per adult and week at the best temperature, in the laboratory
	Household  Range // share of the laboratory's laying that kitchen scraps allow
	Hatch      Range // share of cocoons that hatch
	Hatchlings Range // young per hatched cocoon
	CocoonBase float64
	CocoonDays float64 // degree-days above CocoonBase to hatch
	YoungBest  float64 // days from hatching to maturity at 25 °C on cattle manure, uncrowded
	YoungPace  curve   // speed of growing and of growing up by °C, 1 at 25 °C
	Survive    Range   // share of hatchlings that grow up, uncrowded
	HatchG     float64 // g, a hatchling
	MatureG    float64 // g, at maturity, fed and uncrowded
	FullG      float64 // g, what a worm that lays nothing grows toward on cattle manure
	BreedG     float64 // g, what one that lays at the laboratory's full rate grows toward on it
	GrowADay   float64 // of the way to its full size that a worm grows a day at 25 °C
	Rich       float64 // how far the food lets worms grow, cattle manure 1: factor on the size (the cube root of mass)
	Alone      bool    // lays without a mate
	AdultG     Range   // g, mean adult of a fed bin
	Die        Range   // adults' share that dies a day in good conditions
	Appetite   Range   // g soft scraps per g worm and day at the best temperature
	Capacity   Range   // g per m² at which laying stops
	Surface    Range   // g soft scraps that a m² of fed surface can take a day
	Eat        curve   // appetite by °C
	Lay        curve   // laying by °C
	Kill       curve   // extra deaths a day by °C
	Moist      curve   // appetite and growth by % moisture, wet basis
	LayMoist   curve   // laying by it; none for the same
	Wide       float64 // factor on the spans: 1 for a known species

	// Sizes, g^(1/3): the cube roots of masses.
	youngSize           [youngSteps]float64 // a juvenile of each sub-stage, as worms are handed over
	hatchSize           float64
	fullSize, adultSize float64
	layCost             float64 // what an adult does not grow for each cocoon it lays
}

// grown fills in the sizes. The juveniles of a bed as it is handed over
// are even steps from hatching to maturity.
func grown(r Rates) Rates {
	hatch, mature := root(r.HatchG), root(r.MatureG)
	for i := range r.youngSize {
		r.youngSize[i] = hatch + float64((mature-hatch)*((float64(i)+0.5)/youngSteps))
	}
	r.hatchSize = hatch
	r.fullSize, r.adultSize = root(r.FullG), root(r.AdultG.Mid)
	r.layCost = float64(r.GrowADay*(r.fullSize-root(r.BreedG))) / (r.Cocoons.Mid / 7)
	return r
}

// root is the cube root of a mass in g.
func root(g float64) float64 { return units.Pow(g, 1.0/3) }

// cube is the mass in g of a size.
func cube(l float64) float64 { return float64(float64(l*l) * l) }

// Numbers that do not depend on the species.
const (
	// daysOfYouth: laying falls to lateLaying of its rate after 480 days
	// (Venter & Reinecke 1988, "The life-cycle of the compost worm Eisenia
	// fetida", cumulative curve as digitised in a published energy-budget
	// data file; shape only). The same for all species: judgement.
	daysOfYouth = 480.0
	lateLaying  = 0.2

	// Crowding (judgement, after Reeh 1992, Soil Biol Biochem 24:1327-1331:
	// small sterile worms and falling ingestion near saturation). With room =
	// 1 − density/capacity: growth × (0.3 + 0.7 room), young deaths
	// × (1 + 3 (1 − room)), appetite × (0.4 + 0.6 room), laying × room.
	crowdedGrowth   = 0.3
	crowdedDeaths   = 3.0
	crowdedAppetite = 0.4

	// Food memory: laying follows the mean of the last days' food, not one
	// night's. With 7 days it has stopped 20–40 days after the last food, as in
	// Reinecke & Viljoen 1990 (variable feeding series, Biol Fertil Soils
	// 10:184-187). The 7 is judgement.
	foodMemory = 7.0
	// Below this food share for good, laying stops (judgement).
	layingStops = 0.05

	// Leanness: unfed worms shrink for weeks before they die (same series:
	// 20–40 days; rates are judgement).
	shrinkADay  = 0.012 // share of the well-fed mass lost a day at most
	fattenADay  = 0.02  // share regained a day at most
	leanest     = 0.4   // condition of worms that get nothing
	starveBelow = 0.65  // condition under which starving kills
	starveADay  = 0.03  // extra deaths a day at the leanest

	// enough is the share of the appetite that has to be met for full growth and
	// laying: Reinecke & Viljoen 1990 gave ten worms 20 g of manure in 20 days,
	// less than such worms eat where there is more, and they grew and laid at
	// the full rate. The number is judgement.
	enough = 0.85

	// crowdedSize: crowded worms stay small (Reeh 1992: many worms of little
	// more than 0.1 g): the size they grow toward × (0.5 + 0.5 room).
	// Judgement.
	crowdedSize = 0.5
	// hungrySize: and so do hungry ones: × (1 + hungrySize) food/(food +
	// hungrySize). Judgement.
	hungrySize = 0.15

	// upkeepCold: worms in the cold lose less: upkeep follows the warmth as
	// ingestion does, but not below this share; Johnston et al. 2014, Ecol
	// Model 280:5-17, scale ingestion and upkeep by one Arrhenius factor of 0.25
	// eV, which is 0.50 at 5 °C and 0.60 at 10 °C.
	upkeepCold = 0.4

	// rotDoubles: microbial decay doubles per 10 °C: common practice in
	// composting, from memory.
	rotDoubles = 2.0

	// climbDays is the time constant of worms following food into a tray above:
	// the bulk (four fifths) up in about four weeks, inside the two to eight
	// weeks that handbooks give (common practice; no measured source found).
	climbDays = 17.0
	// settleShare: a new tray is entered by a few explorers at once
	// (judgement): its first meals are a handful.
	settleShare = 0.02

	// readingFades: a temperature reading fades back to the season over about
	// three days (judgement).
	readingFades = 3.0
	// squeezeFades: a squeeze test says little about the bed ten days later
	// (judgement).
	squeezeFades = 10.0
	// phFades: nor does a pH, because the keeper mends what is too sour
	// (judgement).
	phFades = 10.0

	// An indoor room where nobody said otherwise, 0.1 °C (judgement).
	roomCoolest = 170
	roomWarmest = 240
)

// fleshOf is the condition that worms come to by the share of their appetite
// that is met: judgement; worms of crowded, short-fed cultures weigh about half
// of well-fed ones (0.33 against 0.6 g and more: Gunadi & Edwards 2003, Gunadi,
// Blount & Edwards 2002, Reinecke & Viljoen 1990).
var fleshOf = curve{{0, leanest}, {0.3, 0.8}, {0.5, 1}}

// acid is what a bed's pH leaves of appetite, growth and laying, and acidKill the
// extra deaths a day: E. fetida dies within a week outside about 5 to 9 and does
// best near 7 (Kaplan, Hartenstein, Neuhauser & Malecki 1980, Soil Biol Biochem
// 12; the lower limit is from memory); Edwards & Arancon 2004, table 18.3, give
// the same limits. The shapes between are judgement; used for all species.
var (
	acid     = curve{{4.5, 0}, {6, 1}, {8, 1}, {9.2, 0}}
	acidKill = curve{{4.5, .6}, {5, .05}, {5.3, 0}, {8.8, 0}, {9, .05}, {9.4, .6}}
)

// Deaths a day by moisture, for each percentage point: worms dry out from dryLeast
// points under the moisture at which they stop eating, and drown or choke above
// the one at which they stop at the other end. Edwards & Arancon 2004, table 18.3,
// give 60 and 90 % as the limits of E. fetida and no pace: the paces are judgement,
// some weeks in a bed a little beyond and some days in one far beyond.
const (
	dryLeast = 10.0
	dryKills = 0.005
	wetKills = 0.01
)

// What an 80 % span stands on.
const (
	// Standard errors are of the natural logarithm, so about relative ones.
	addedErr  = 0.15  // worms bought or given by weight, bedding clinging to them: judgement
	wideErr   = 0.35  // weighed with bedding or by eye: judgement
	weighErr  = 0.10  // a colony picked out and weighed: judgement
	growthErr = 0.003 // per day since then: doubling anywhere from 50 to 110 days is 0.0139 to 0.0063 a day
	growthMax = 0.5   // capacity known to a factor of two either way at most: judgement
	hungerErr = 0.40  // appetite before any look: handbooks span 0.25–1.0 kg per kg and day about 0.5
	hungerMin = 0.15  // no run of looks makes it surer than this: judgement
	hungerAge = 0.004 // per day since the last look that said something: judgement
	lookCut   = 0.94  // each such look takes 6 % off hungerErr: judgement, a stated rule and no inference
	// of what the surface takes: 700 to 2000 about 1000 (see surface), less because
	// the ends are other foods and other bins: judgement.
	surfaceErr = 0.25
	climbErr   = 0.5 // of the worms in a tray that still fills: two to eight weeks
)

// RatesOf returns the rates of a species. Unknown names count as not sure.
func RatesOf(s record.Species) *Rates {
	switch s {
	case record.Eisenia:
		return &eisenia
	case record.Dendrobaena:
		return &dendrobaena
	case record.Eudrilus:
		return &eudrilus
	case record.Perionyx:
		return &perionyx
	}
	return &notSure
}
