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
	YoungBest  float64 // days from hatching to maturity at 25 °C, fed and uncrowded
	YoungPace  curve   // speed of growing up by °C, 1 at 25 °C
	Survive    Range   // share of hatchlings that grow up, uncrowded
	HatchG     float64 // g, a hatchling
	MatureG    float64 // g, at maturity
	AdultG     Range   // g, mean adult of a fed bin
	Die        Range   // adults' share that dies a day in good conditions
	Appetite   Range   // g soft scraps per g worm and day at the best temperature
	Capacity   Range   // g per m² at which laying stops
	Surface    Range   // g soft scraps that a m² of fed surface can take a day
	Eat        curve   // appetite by °C
	Lay        curve   // laying by °C
	Kill       curve   // extra deaths a day by °C
	Moist      curve   // appetite and growth by % moisture, wet basis
	Wide       float64 // factor on the spans: 1 for a known species

	youngG [youngSteps]float64 // g, a well-fed juvenile of each sub-stage
}

// grown fills in the juveniles' masses: a fixed ratio from sub-stage to
// sub-stage. In Gunadi, Blount & Edwards 2002 young worms of 0.011 g weighed
// 0.032, 0.079, 0.131 and 0.256 g after 7, 14, 21 and 28 days; the fixed ratio
// gives 0.024, 0.053, 0.116 and 0.256.
func grown(r Rates) Rates {
	for i := range r.youngG {
		r.youngG[i] = float64(r.HatchG * units.Pow(r.MatureG/r.HatchG, (float64(i)+0.5)/youngSteps))
	}
	return r
}

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
	// night's. With 10 days it has nearly stopped 20–40 days after the last
	// food, as in Reinecke & Viljoen 1990 (variable feeding series, Biol
	// Fertil Soils 10:184-187). The 10 is judgement.
	foodMemory = 10.0
	// Below this food share for good, laying stops (judgement).
	layingStops = 0.05

	// Leanness: unfed worms shrink for weeks before they die (same series:
	// 20–40 days; rates are judgement).
	shrinkADay  = 0.012 // share of the well-fed mass lost a day at most
	fattenADay  = 0.02  // share regained a day at most
	leanest     = 0.4   // condition of worms that get nothing
	starveBelow = 0.65  // condition under which starving kills
	starveADay  = 0.03  // extra deaths a day at the leanest

	// adultGrowth is the share of the way to the mean adult mass that an adult
	// grows a day: judgement; about 50 days for most of it (Gunadi, Blount &
	// Edwards 2002, Pedobiologia 46:15-23: 0.256 g on day 28, 0.46 on day 56).
	adultGrowth = 0.04

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

	// An indoor room where nobody said otherwise, 0.1 °C (judgement).
	roomCoolest = 170
	roomWarmest = 240
)

// fleshOf is the condition that worms come to by the share of their appetite
// that is met: judgement; worms of crowded, short-fed cultures weigh about half
// of well-fed ones (0.33 against 0.6 g and more: Gunadi & Edwards 2003, Gunadi,
// Blount & Edwards 2002, Reinecke & Viljoen 1990).
var fleshOf = curve{{0, leanest}, {0.3, 0.8}, {0.5, 1}}

// What an 80 % span stands on.
const (
	// z80 is the normal quantile of 0.9.
	z80 = 1.2816
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

// household is judgement: in the one direct comparison kitchen residues bred
// worst of five feeds (Durán & Henríquez 2009, Agronomía Costarricense
// 33:275-281).
var household = Range{0.6, 0.2, 0.9}

// surface: one square foot per pound of scraps a week is 700 g/m² and day
// (Nebraska Extension 2023; Wisconsin DNR magazine 1998); Loehr et al. 1984
// comes to about 1000; Ndegwa, Thompson & Das 2000, Bioresource Technol
// 71:5-12, to 1200–2000 on biosolids.
var surface = Range{1000, 700, 2000}

// eisenia stands for E. fetida and E. andrei.
var eisenia = grown(Rates{
	// Reinecke & Viljoen 1990, Biol Fertil Soils 10:184-187: 0.386 a day at
	// 25 °C; Edwards 1988: 3.8 a week (from memory).
	Cocoons:   Range{2.6, 2.0, 3.8},
	Household: household,
	// Venter & Reinecke 1988: 73 %; Edwards 1988: 83.2 % (both from memory).
	Hatch: Range{0.75, 0.70, 0.83},
	// Venter & Reinecke 1988: 2.7; Edwards 1988: 3.3 (both from memory).
	Hatchlings: Range{2.7, 2.2, 3.3},
	// Fitted to 21 d at 25 °C (Neuhauser, Hartenstein & Kaplan 1980, Oikos
	// 35:93-98) and 25–28 d at 20 °C (OECD earthworm test guideline).
	CocoonBase: 4, CocoonDays: 450,
	// 1000 degree-days above 4 °C: 48 d at 25 °C, 62 d at 20 °C; the OECD
	// guideline's culture gives 49–56 d.
	YoungBest: 1000.0 / 21,
	YoungPace: curve{{4, 0}, {32, 28.0 / 21}, {35, 0}},
	Survive:   Range{0.6, 0.2, 0.9}, // judgement
	// Gunadi, Blount & Edwards 2002, Pedobiologia 46:15-23.
	HatchG:  0.011,
	MatureG: 0.30,
	// 1000 to the pound is 0.45 g (Texas A&M AgriLife 2014); 500 to the pound
	// would be 0.9 (Illinois Extension 2020).
	AdultG: Range{0.45, 0.33, 0.70},
	// 0.00045 in the laboratory (median life 4.25 years, Age 29:229-231,
	// 2007); the rest is what a bin adds: judgement.
	Die: Range{0.002, 0.0005, 0.005},
	// NYC Compost Project 2012, Texas A&M AgriLife 2014: 0.5; Cornell school
	// book: 0.21–0.36; Illinois Extension 2020: up to 1.
	Appetite: Range{0.5, 0.25, 1.0},
	// Between 0.77–2.9 kg/m² in dishes (Neuhauser et al. 1980) and working
	// populations of 10–15 (from memory): judgement.
	Capacity: Range{10000, 4000, 15000},
	Surface:  surface,
	// Judgement inside the bands of Kaplan, Hartenstein, Neuhauser & Malecki
	// 1980, Soil Biol Biochem 12 (best 20–29 °C), Edwards & Arancon 2004,
	// table 18.3 (limits 4 and 30 °C), and Johnston et al. 2014, Ecol Model
	// 280:5-17 (0.60 at 10, 0.71 at 15 °C as the mild edge in the cold).
	Eat: curve{{0, 0}, {4, .05}, {10, .30}, {15, .60}, {20, .85}, {25, 1}, {28, .95}, {30, .75}, {33, .25}, {35, 0}},
	Lay: curve{{0, 0}, {4, 0}, {10, .10}, {15, .45}, {20, .80}, {25, 1}, {28, .90}, {30, .60}, {33, .10}, {35, 0}},
	// Judgement between the guides' limits: 32 °C (Oregon Metro), 38 °C (Texas
	// A&M AgriLife 2014), 4 °C (Colorado State University Extension 2015).
	Kill: curve{{0, .3}, {2, .01}, {4, 0}, {30, 0}, {32, .02}, {34, .10}, {36, .40}, {38, .9}},
	// Kaplan et al. 1980: 70–85 %; Edwards & Arancon 2004: limits 60–90 %.
	Moist: curve{{50, 0}, {70, 1}, {85, 1}, {90, .3}, {93, 0}},
	Wide:  1,
})

// dendrobaena stands for D. veneta and D. hortensis.
var dendrobaena = grown(Rates{
	// Viljoen, Reinecke & Hartman 1991, S Afr J Zool 26:43-48: 0.28 a day;
	// Fayolle et al. 1997, Soil Biol Biochem 29:747-750: up to 0.74.
	Cocoons:   Range{2.0, 2.0, 5.2},
	Household: household,
	// Domínguez 2004: 20 %; Edwards 1988: 81 % (from memory): unresolved.
	Hatch:      Range{0.30, 0.20, 0.81},
	Hatchlings: Range{1.1, 1.1, 1.2}, // Domínguez 2004
	// Through 42.1 d at 25 °C (Viljoen et al. 1991) and 71 d at 15 °C (Viljoen
	// et al. 1992).
	CocoonBase: 0.4, CocoonDays: 1034,
	// 65 d at 25 °C (Domínguez 2004), 77 at 15 (Viljoen et al. 1992), 104 at
	// 10 (Fayolle et al. 1997); the ends are judgement.
	YoungBest: 65,
	YoungPace: curve{{0, 0}, {10, 65.0 / 104}, {15, 65.0 / 77}, {25, 1}, {30, .5}, {32, 0}},
	Survive:   Range{0.6, 0.2, 0.9}, // judgement
	// Viljoen et al. and Fayolle et al. in a published energy-budget data file.
	HatchG:   0.02,
	MatureG:  1.1,
	AdultG:   Range{1.5, 0.9, 3.0},
	Die:      Range{0.002, 0.0005, 0.005}, // judgement
	Appetite: Range{0.35, 0.2, 0.6},       // judgement
	Capacity: Range{8000, 4000, 13000},    // judgement
	Surface:  surface,
	// Fayolle et al. 1997, mean of two feeds at 10–25 °C; the ends are
	// judgement (mild preference: Edwards & Arancon 2004).
	Eat:   curve{{0, 0}, {5, .10}, {10, .31}, {15, .74}, {20, .89}, {25, 1}, {27, .80}, {30, .20}, {32, 0}},
	Lay:   curve{{5, 0}, {10, .20}, {15, .71}, {20, .77}, {25, 1}, {27, .70}, {30, .10}, {32, 0}},
	Kill:  curve{{0, .3}, {2, .01}, {4, 0}, {28, 0}, {30, .02}, {32, .10}, {34, .40}, {36, .9}}, // judgement: danger above 30 °C
	Moist: curve{{50, 0}, {65, 1}, {85, 1}, {93, 0}},                                            // judgement: tolerates a wider range (Domínguez 2004)
	Wide:  1.2,
})

// eudrilus is Eudrilus eugeniae.
var eudrilus = grown(Rates{
	// Domínguez 2004 and Edwards 1988: 3.5 (from memory), between 0.9
	// (Shagoti et al. 2001, J Environ Biol 22:213-217) and 11.6 (Viljoen &
	// Reinecke 1989, S Afr J Zool 24:27).
	Cocoons:    Range{3.5, 0.9, 11.6},
	Household:  household,
	Hatch:      Range{0.80, 0.75, 0.84}, // Viljoen & Reinecke 1989: 84 %
	Hatchlings: Range{2.5, 2.0, 2.7},    // Viljoen & Reinecke 1989: 2.7
	CocoonBase: 10, CocoonDays: 250,     // 16.6 d at 25 °C, same
	YoungBest: 45, // 40–50 d at 25 °C, same
	// No maturity at 35–37.5 °C (Shagoti et al. 2001); the cold side is judgement.
	YoungPace: curve{{12, 0}, {16, .17}, {20, .56}, {25, 1}, {30, 1}, {32, .6}, {35, 0}},
	Survive:   Range{0.6, 0.2, 0.9}, // judgement
	HatchG:    0.02,                 // judgement
	MatureG:   1.0,                  // Shagoti et al. 2001
	AdultG:    Range{2.5, 1.5, 4.0}, // Domínguez 2004 (from memory)
	Die:       Range{0.003, 0.001, 0.006},
	Appetite:  Range{0.5, 0.3, 1.0},
	Capacity:  Range{8000, 4000, 13000},
	Surface:   surface,
	// Optimum between 25 and 35 °C (Shagoti et al. 2001), 16–30 tolerated
	// (Domínguez 2004, from memory).
	Eat: curve{{12, 0}, {16, .15}, {20, .5}, {25, .9}, {28, 1}, {30, 1}, {32, .6}, {35, .1}, {37, 0}},
	Lay: curve{{12, 0}, {16, .15}, {20, .5}, {25, .9}, {28, 1}, {30, 1}, {32, .6}, {35, .1}, {37, 0}},
	// All dead within week 10 at 37.5 °C and week 1 at 40 °C (same); cold side
	// judgement.
	Kill:  curve{{8, .5}, {10, .2}, {12, .05}, {15, 0}, {32, 0}, {35, .01}, {37.5, .06}, {40, .6}},
	Moist: curve{{65, 0}, {77, 1}, {82, 1}, {90, 0}}, // Viljoen & Reinecke: adults prefer 80–82 %
	Wide:  1.5,
})

// perionyx is Perionyx excavatus.
var perionyx = grown(Rates{
	// Hallatt, Reinecke & Viljoen 1990, S Afr J Zool: 1.1 a day; Edwards 1988:
	// 19.5 a week (from memory).
	Cocoons:    Range{7.7, 7.0, 19.5},
	Household:  household,
	Hatch:      Range{0.63, 0.40, 0.91}, // same: 63.4 and 40.4 %
	Hatchlings: Range{1.0, 1.0, 1.1},    // same
	CocoonBase: 10, CocoonDays: 280,     // 18.7 d at 25 °C, same
	YoungBest: 24, // maturity 21 d, first cocoon at 24 d, same
	// Edwards, Domínguez & Neuhauser 1998, Biol Fertil Soils 27:155-161: fastest
	// at 30 °C; values between are judgement.
	YoungPace: curve{{9, 0}, {15, .33}, {20, .72}, {25, 1}, {30, 1.11}, {33, .56}, {35, .11}},
	Survive:   Range{0.6, 0.2, 0.9},    // judgement
	HatchG:    0.01,                    // judgement
	MatureG:   0.25,                    // judgement
	AdultG:    Range{0.5, 0.35, 0.6},   // Domínguez 2004 (from memory)
	Die:       Range{.003, .001, .006}, // judgement
	Appetite:  Range{0.5, 0.25, 1.0},   // judgement
	Capacity:  Range{7000, 3000, 11000},
	Surface:   surface,
	// CTAHR HG-46, 2005: tolerates 7–32 °C, best 21–27.
	Eat:   curve{{7, 0}, {9, .05}, {15, .30}, {20, .65}, {25, .9}, {30, 1}, {33, .5}, {35, .1}, {37, 0}},
	Lay:   curve{{9, 0}, {15, .2}, {20, .6}, {25, 1}, {30, .8}, {33, .3}, {35, 0}},
	Kill:  curve{{5, .3}, {7, .05}, {9, 0}, {32, 0}, {35, .02}, {38, .3}}, // judgement
	Moist: curve{{60, 0}, {75, 1}, {85, 1}, {92, 0}},                      // Hallatt et al. cultured at 76–83 %
	Wide:  1.2,
})

// notSure is the common compost worm with less room, slower breeding and wider
// spans: judgement, because trade names are no species (Domínguez 2018).
var notSure = func() Rates {
	r := eisenia
	r.Household.Mid = 0.5
	r.Capacity.Mid = 8000
	r.Wide = 1.4
	return r
}()
