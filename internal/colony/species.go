package colony

// The sets of numbers by species.

// household is judgement: in the one direct comparison kitchen residues bred
// worst of five feeds (Durán & Henríquez 2009, Agronomía Costarricense
// 33:275-281).
var household = Range{0.45, 0.2, 0.9}

// How far kitchen scraps let worms grow, cattle manure being 1: judgement. With
// kitchen, adults of an uncrowded bin come to 0.57 g (0.58 g on the household
// residues of Durán & Henríquez 2009) and to 0.4–0.5 at the usual crowding; with
// kitchenDendrobaena to what Podolak et al. 2020, J Ecol Eng 21:40-45, weighed on
// kitchen waste.
const (
	kitchen            = 0.80
	kitchenDendrobaena = 0.89
)

// surface: one square foot per pound of scraps a week is 700 g/m² and day
// (Nebraska Extension 2023; Wisconsin DNR magazine 1998); Loehr et al. 1984
// comes to about 1000; Ndegwa, Thompson & Das 2000, Bioresource Technol
// 71:5-12, to 1200–2000 on biosolids.
var surface = Range{1000, 700, 2000}

// eisenia stands for E. fetida and E. andrei.
var eisenia = grown(Rates{
	// Reinecke & Viljoen 1990, Biol Fertil Soils 10:184-187: 0.386 a day at
	// 25 °C; Domínguez 2004: 0.35–0.5 a day, Edwards 1988: 3.8 a week (both from
	// memory).
	Cocoons:   Range{2.9, 2.0, 3.8},
	Household: household,
	// Venter & Reinecke 1988: 73 %; Edwards 1988: 83.2 % (both from memory).
	Hatch: Range{0.75, 0.70, 0.83},
	// Venter & Reinecke 1988: 2.7; Edwards 1988: 3.3 (both from memory).
	Hatchlings: Range{2.7, 2.2, 3.3},
	// Fitted to 21 d at 25 °C (Neuhauser, Hartenstein & Kaplan 1980, Oikos
	// 35:93-98) and 25–28 d at 20 °C (OECD earthworm test guideline).
	CocoonBase: 4, CocoonDays: 450,
	// The OECD guideline's culture on manure at 20 °C gives 49–56 d and UK Centre
	// for Ecology & Hydrology 2016 60; ten worms that weighed 0.31 g on day 25 laid
	// at the full rate before day 45 (Reinecke & Viljoen 1990, 25 °C). So 37 d at
	// 25 °C and 49 at 20; on kitchen scraps 46 and 61.
	YoungBest: 37,
	// From the length scales in Gunadi, Blount & Edwards 2002 at 20 °C and
	// Neuhauser, Hartenstein & Kaplan 1980 at 25; Kaplan et al. 1980: best
	// 20–29 °C; Johnston et al. 2014: 0.60 at 10 and 0.71 at 15 °C as the mild
	// edge in the cold; judgement between.
	YoungPace: curve{{4, 0}, {10, .32}, {15, .54}, {20, .76}, {25, 1}, {29, 1}, {32, .6}, {35, 0}},
	Survive:   Range{0.6, 0.2, 0.9}, // judgement
	// Gunadi, Blount & Edwards 2002, Pedobiologia 46:15-23.
	HatchG: 0.011,
	// Between 0.25 (energy-budget models of Gunadi's series) and 0.60 g
	// (Reinecke & Viljoen 1990).
	MatureG: 0.40,
	// Single worms on cow manure at 25 °C weighed 0.675 g on day 49 and 1.60 on
	// day 112 and came to about 2.2 (Neuhauser, Hartenstein & Kaplan 1980): in
	// the cube root of mass a straight approach of 1.9 % a day, and 2.2 in
	// Reinecke & Viljoen's dishes. Worms that lay
	// stayed at 0.64–0.69 g (Reinecke & Viljoen 1990).
	FullG: 2.2, BreedG: 0.70, GrowADay: 0.0203, Rich: kitchen,
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
	// Laying at 20 °C: 2.3 a week (UK Centre for Ecology & Hydrology 2016) against
	// 2.7 at 25 °C. Judgement inside the bands of Kaplan, Hartenstein, Neuhauser & Malecki
	// 1980, Soil Biol Biochem 12 (best 20–29 °C), Edwards & Arancon 2004,
	// table 18.3 (limits 4 and 30 °C), and Johnston et al. 2014, Ecol Model
	// 280:5-17 (0.60 at 10, 0.71 at 15 °C as the mild edge in the cold).
	Eat: curve{{0, 0}, {4, .05}, {10, .30}, {15, .60}, {20, .85}, {25, 1}, {28, .95}, {30, .75}, {33, .25}, {35, 0}},
	Lay: curve{{0, 0}, {4, 0}, {10, .10}, {15, .50}, {20, .86}, {25, 1}, {28, .90}, {30, .60}, {33, .10}, {35, 0}},
	// Judgement between the guides' limits: 32 °C (Oregon Metro), 38 °C (Texas
	// A&M AgriLife 2014), 4 °C (Colorado State University Extension 2015).
	Kill: curve{{0, .3}, {2, .01}, {4, 0}, {30, 0}, {32, .02}, {34, .10}, {36, .40}, {38, .9}},
	// Kaplan et al. 1980: 70–85 %; Edwards & Arancon 2004: limits 60–90 %.
	Moist: curve{{50, 0}, {70, 1}, {85, 1}, {90, .3}, {93, 0}},
	// Reinecke & Venter 1987, Biol Fertil Soils 3:135-141: laying likes it drier
	// than growth, best at 65–70 %.
	LayMoist: curve{{50, 0}, {65, 1}, {85, 1}, {90, .3}, {93, 0}},
	Wide:     1,
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
	// 65 d at 25 °C on manure (Domínguez 2004; 20–130 in Viljoen et al. 1991) and
	// 77 at 15 (Viljoen et al. 1992). One curve serves growth and growing up: drawn
	// through Fayolle's masses it gives 125–140 d at 10 °C, where Fayolle et al. 1997
	// counted 104.
	YoungBest: 60,
	// The cube roots of the masses on two feeds on day 60 in Fayolle et al. 1997;
	// the ends are judgement.
	YoungPace: curve{{0, 0}, {5, .22}, {10, .47}, {15, .78}, {20, .88}, {25, 1}, {27, .9}, {30, .4}, {32, 0}},
	Survive:   Range{0.6, 0.2, 0.9}, // judgement
	// Viljoen et al. and Fayolle et al. in a published energy-budget data file.
	HatchG:  0.02,
	MatureG: 1.1,
	// Fitted to 0.89 g on day 60 at 25 °C (Fayolle et al. 1997) and 2.98 g after
	// 252 d on kitchen waste at 18 °C (Podolak et al. 2020).
	FullG: 4.4, BreedG: 3.7, GrowADay: 0.015, Rich: kitchenDendrobaena,
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
	YoungBest: 43, // 40–50 d at 25 °C, same
	// No maturity at 35–37.5 °C (Shagoti et al. 2001); the cold side is judgement.
	YoungPace: curve{{12, 0}, {16, .17}, {20, .56}, {25, 1}, {30, 1}, {32, .6}, {35, 0}},
	Survive:   Range{0.6, 0.2, 0.9}, // judgement
	HatchG:    0.02,                 // judgement
	MatureG:   1.0,                  // Shagoti et al. 2001
	// Adults of 2.7–3.5 g (Domínguez 2004, from memory), mature at 1 g after
	// 40–50 d (Viljoen & Reinecke 1989): judgement through these.
	FullG: 3.7, BreedG: 2.8, GrowADay: 0.02, Rich: kitchen,
	AdultG:   Range{2.5, 1.5, 4.0}, // Domínguez 2004 (from memory)
	Die:      Range{0.003, 0.001, 0.006},
	Appetite: Range{0.5, 0.3, 1.0},
	Capacity: Range{8000, 4000, 13000},
	Surface:  surface,
	// Optimum between 25 and 35 °C (Shagoti et al. 2001), 16–30 tolerated
	// (Domínguez 2004, from memory).
	Eat: curve{{12, 0}, {16, .15}, {20, .5}, {25, .9}, {28, 1}, {30, 1}, {32, .6}, {35, .1}, {37, 0}},
	Lay: curve{{12, 0}, {16, .15}, {20, .5}, {25, .9}, {28, 1}, {30, 1}, {32, .6}, {35, .1}, {37, 0}},
	// All dead within week 10 at 37.5 °C and week 1 at 40 °C (same), of a hundred
	// too; cold side judgement.
	Kill:  curve{{8, .5}, {10, .2}, {12, .05}, {15, 0}, {32, 0}, {35, .01}, {37.5, .08}, {40, .6}},
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
	YoungBest: 23, // maturity 21 d, first cocoon at 24 d, same
	// Edwards, Domínguez & Neuhauser 1998, Biol Fertil Soils 27:155-161: fastest
	// at 30 °C; values between are judgement.
	YoungPace: curve{{9, 0}, {15, .33}, {20, .72}, {25, 1}, {30, 1.11}, {33, .56}, {35, .11}},
	Survive:   Range{0.6, 0.2, 0.9}, // judgement
	HatchG:    0.01,                 // judgement
	MatureG:   0.25,                 // judgement
	// Mature at 21 d (Hallatt et al. 1990), adults of 0.5–0.6 g: judgement
	// through these. Lays without a mate (same).
	FullG: 0.8, BreedG: 0.55, GrowADay: 0.042, Rich: kitchen, Alone: true,
	AdultG:   Range{0.5, 0.35, 0.6},   // Domínguez 2004 (from memory)
	Die:      Range{.003, .001, .006}, // judgement
	Appetite: Range{0.5, 0.25, 1.0},   // judgement
	Capacity: Range{7000, 3000, 11000},
	Surface:  surface,
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
	r.Household.Mid = 0.35
	r.Capacity.Mid = 8000
	r.Wide = 1.4
	return r
}()
