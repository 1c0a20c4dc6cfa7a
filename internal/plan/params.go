package plan

import (
	"trayside/internal/record"
	"trayside/internal/units"
)

// The numbers of a plan and where they come from. "Judgement" marks one that no
// publication gives. What a colony does with its food stands in package colony.
const (
	// perPerson is what a person's kitchen makes a week that worms may have, g: 500
	// to 1000. Own estimate, no publication: all food waste of a household comes to
	// about 1500 (UNEP 2024, Food Waste Index: 79 kg a year), meat, dairy, cooked and
	// packaged things included; vegetable, fruit, coffee and tea trimmings alone to
	// 600 and more.
	perPerson, perPersonLow, perPersonHigh = 750, 500, 1000
	// MostWeek is the largest kitchen that Make plans for, g a week. Judgement: beyond
	// it this is a farm, with other rules.
	MostWeek = 100_000

	// onePound is common practice's least stock to start with, g.
	onePound = 453.59237
	// squareFoot in m².
	squareFoot = 0.09290304
	// areaPerGram: a square foot of surface for a pound of scraps a week, m² per g
	// (Wisconsin Natural Resources magazine 1998; University of Nebraska-Lincoln
	// Extension, Lancaster County 2023).
	areaPerGram = squareFoot / onePound
	// densest is a pound of worms a square foot, g per m² (common practice).
	densest = onePound / squareFoot

	// A tray of the usual size, mm. Judgement.
	usualWidth, usualDepth units.Millimetres = 400, 400
	// fedInStack: so many trays of one stack hold fresh food at a time; worms come
	// up through a fed tray, not through two. Judgement.
	fedInStack = 2

	// BedDepth is the bedding of a new tray, mm; guides give 130 to 200 for a box
	// (a school waste-reduction resource book naming Cornell Cooperative Extension
	// offices), a tray is lower. Judgement.
	BedDepth = 100
	// paperPerLitre is shredded newspaper in a bin, g per litre: 2.5 lb a cubic foot
	// (Grand Traverse County, Michigan).
	paperPerLitre = 2.5 * onePound / 28.316846592
	// soaked is the moisture that paper keeps after soaking and dripping off: about
	// 2 g of water a gram (Voyles & Honeyman 2006, Iowa State ASL R2153) and what it
	// held.
	soaked = 0.70
	// soilPerTray is a handful or two of soil as grit in new bedding, g (New Mexico
	// State University, Dickerson; the amount is judgement).
	soilPerTray = 100

	// Days of the order of buying: worms one to two weeks after the bedding, a few
	// days without food, half of what they could eat for two weeks. Common practice.
	wormsAfter, wormsWithin = 7, 14
	firstMealAfter          = 3
	settling                = 14
	settlingShare           = 0.5
	// No worms travel when it is colder or hotter than this, °C: the alert band of
	// the model's species; none are shipped in frost or heat (common practice).
	travelCold, travelHot = 10.0, 28.0

	// inHand is the food that a keeper who feeds to capacity leaves lying, in days of
	// appetite. Judgement.
	inHand = 2
	// steady is how long the whole kitchen must be taken before it counts, days.
	steady = 14
	// Horizon is how far ahead a colony is followed, days.
	Horizon = 2 * 365
	// bedMoist is the bed's moisture, %: a wrung-out sponge.
	bedMoist = 78.0
	// died is the share of the stock below which a colony counts as dead.
	died = 0.02

	// Absence, days. Several weeks without food are tolerated (UF/IFAS Extension
	// Sarasota 2023); laying stops after 20 to 40 days (Reinecke & Viljoen 1990,
	// variable-feeding series). A bed left alone may dry out: judgement.
	leaveAlone = 14
	getHelp    = 42
)

// bands are the temperatures of the bed that a species is kept at, °C.
type band struct {
	species   record.Species
	low, high float64 // limits
	from, to  float64 // comfortable
	because   []Code  // for and against, apart from the temperature
}

// bands lists the species in the order in which they are recommended where
// several fit.
var bands = []band{
	// Limits: Edwards & Arancon 2004, Earthworm Ecology, 2nd edition, table 18.3.
	// Comfort: 15–25 °C, the band inside all sources (Edwards & Arancon 15–20,
	// Kaplan and others 1980 20–29, van Gestel and others 1992 20, USDA 15–25).
	{record.Eisenia, 4, 30, 15, 25, []Code{EasyToGet, BreedsFast}},
	// Mild preference: Edwards & Arancon 2004. Limits: slow above 27, danger above 30
	// (from memory); cold end judgement.
	{record.Dendrobaena, 4, 30, 15, 25, []Code{Big, BreedsSlowly}},
	// 16 to 30 °C with 25 best (Domínguez 2004, from memory); above 25 good (Shagoti
	// and others 2001, J Environ Biol 22:213-217).
	{record.Eudrilus, 16, 32, 22, 30, []Code{Big, BreedsFast, NeedsWarmth}},
	// CTAHR HG-46, 2005: tolerates 7–32 °C, best 21–27; leaves bins readily (from
	// memory).
	{record.Perionyx, 7, 32, 21, 27, []Code{BreedsFast, Wanders, NeedsWarmth}},
}

// bandOf returns the band of a species; not sure counts as the common one.
func bandOf(s record.Species) band {
	for _, b := range bands {
		if b.species == s {
			return b
		}
	}
	b := bands[0]
	b.species, b.because = s, nil
	return b
}
