package tray

import "trayside/internal/record"

// The numbers of the forecasts and where they come from. "Judgement" marks one
// that no publication gives.
const (
	// kept is the share of the dry matter put in that is left as castings: half,
	// give or take a tenth (Abbasi and others, preprint on vermicomposting: 50 ±
	// 10 % of total solids go as carbon dioxide).
	kept = 0.50

	// scrapsTau is the time constant of scraps, days at 20 °C. Kitchen waste gave
	// off next to no carbon dioxide in week 15 (vermicomposting study, University
	// of Embu, Kenya); with "next to none" taken as a twentieth left, 105 d ÷ 3.
	// Worms hardly change it: C:N of cow manure fell as far in 17 weeks without
	// them (Atiyeh, Domínguez, Subler & Edwards 2000, Pedobiologia 44:709-724).
	scrapsTau = 35.0
	// beddingTau is that of paper bedding: it darkens and sinks at six weeks
	// (University of Illinois Extension), taken as half-way; 42 d ÷ ln 2.
	beddingTau = 60.6
	// rotDoubles: decay doubles per 10 °C (common practice in composting, from
	// memory), and stops in frost.
	rotDoubles = 2.0
	// What is published of first harvests, 90 to 180 days (City of Eugene; NYC
	// Compost Project) about a usual 120 (USDA), is the spread of the time
	// constants.
	fastTau, slowTau = 0.75, 1.5

	// readyShare is the part of the dry matter put in that may still be undecayed
	// when a tray is called ready. Judgement: it puts the first harvest of a tray
	// fed for two months at about 120 days (USDA).
	readyShare = 0.10
	// firstHarvest is the earliest day of a new bin's first harvest (City of Eugene;
	// NYC Compost Project: 90 to 180 days).
	firstHarvest = 90
	// restBefore: nothing is fed for two weeks before a harvest (common practice: one
	// or two).
	restBefore = 14
	// longestFed: a tray that does not fill is left to ripen after this many days of
	// feeding.
	// Castings that pile up harm the worms (University of Illinois Extension); the
	// number is judgement, such that a first harvest still falls within 180 days.
	longestFed = 75
	// bedAhead is how long before a tray is full the next one is bedded, days, so
	// that its bedding is moist through when food comes. Judgement.
	bedAhead = 7

	// castingsWater: a working tray's castings hold 65 to 80 % water (handbooks,
	// common practice).
	castingsWater = 0.70
	// castingsDensity: 0.5 to 0.8 g/ml moist (from memory).
	castingsDensity = 0.65
	// Loose densities where a put names none, g/ml: shredded cardboard 0.06
	// (Bertrand, Missouri University of Science and Technology, table of material
	// properties); a caddy of scraps 0.45 (between United States Environmental
	// Protection Agency 2016 and Bertrand).
	beddingDensity = 0.06
	scrapsDensity  = 0.45
	// sinks is what wetting and the scraps' weight leave of loose bedding's
	// volume. Judgement.
	sinks = 0.6

	// paperHolds is water that a gram of dry bedding holds after dripping, g: about
	// 2 (Voyles & Honeyman 2006, Iowa State ASL R2153, shredded paper).
	paperHolds = 2.0
	// castingsHold is the wet end of castings' 65 to 80 %: 4 g a gram of dry matter.
	castingsHold = 4.0
	// breathWater is the water that burning a gram of carbohydrate makes, g
	// (stoichiometry: 108 of 180).
	breathWater = 0.6
	// dries is what a tray under a lid with holes loses to the air, g a m² and day.
	// Judgement; a squeeze or a weighing sets the balance right.
	dries = 150.0

	// rightWater is the bed's moisture at a drop or two of a squeeze, fraction: between
	// the two words below, and the wet end of what paper in a plastic tray holds
	// without dripping (worked out from Voyles & Honeyman 2006).
	rightWater = 0.75

	// yieldErr is the standard error of ln castings before any harvest: kept from
	// 0.4 to 0.6 and water from 65 to 80 % together span about a factor of 1.43
	// either way, taken for an 80 % interval.
	yieldErr = 0.28
	// Errors of ln of what a harvest says: judgement. Weighed castings vary in
	// moisture and in how much bedding is among them; a bucket also in how it is
	// filled (0.5 to 0.8 g/ml).
	weighedErr = 0.15
	bucketErr  = 0.30
	// batchErr is how much batches of one household differ all the same: judgement.
	batchErr = 0.12
	z80      = 1.2816 // normal quantile of 0.9

	// horizon is how far ahead anything is forecast, days.
	horizon = 400
)

// squeezed is the bed's moisture that a squeeze test stands for, driest first,
// fraction of wet mass: judgement about paper bedding, where a wrung-out sponge
// is about 70–80 %. Moisture is shown as these words, never as a percentage.
var squeezed = []struct {
	word  string
	water float64
}{
	{"crumbles", 0.55}, {"holds", 0.65}, {"one-drop", 0.72}, {"few-drops", 0.79}, {"runs", 0.88},
}

// wordOf returns the squeeze test that a bed's moisture would give.
func wordOf(water float64) string {
	for i := 1; i < len(squeezed); i++ {
		if water < (squeezed[i-1].water+squeezed[i].water)/2 {
			return squeezed[i-1].word
		}
	}
	return squeezed[len(squeezed)-1].word
}

// within keeps the day of a forecast inside the horizon.
func within(d, today record.Day) bool { return d-today <= horizon }
