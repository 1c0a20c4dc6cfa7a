package ration

// The numbers behind a ration, each with its source. "Judgement" marks a choice
// of this project that no publication supports as such; "common practice" a rule
// of the trade without a source.
const (
	// Meals are planned this far apart; common practice.
	maxFeedEvery   = 14
	usualFeedEvery = 3

	// mostDays is the appetite that one meal may hold, in days: what lies longer
	// sours before it is eaten, and guides feed in thin layers every one to three
	// days (from memory). Judgement.
	mostDays = 4

	// mostAppetite bounds what is believed of a model, thousandths of their weight a
	// day: no published rate reaches twice it (Johnston et al. 2014, Ecological
	// Modelling 280:5-17, 1.9 for the smallest worms at 25 °C).
	mostAppetite = 4000

	// The rule of thumb: a quarter to a third of the worms' weight a day. Common
	// practice; published guides run from 0.21 to 1.0 (0.50 in the NYC Compost Project
	// brochure 2012, 0.5 to 1 in Illinois Extension 2020).
	thumbLow  = 0.25
	thumbHigh = 1.0 / 3

	// Until two clean looks have been seen, the ration stays below this many times
	// the top of the rule of thumb. Judgement.
	thumbMost = 1.5

	// Two clean looks in a row make a trial step of 15 % over what was eaten. Two
	// looks that could have contradicted the model make a number learned rather than
	// guessed; so do several clean ones, since all of those meals were eaten.
	// Judgement.
	looksForTrial = 2
	looksToLearn  = 2
	cleanToLearn  = 6
	trialMilli    = 1150

	// A ration rises by at most a fifth over the last one without a named cause.
	// Judgement, after the advice to know the weekly amount before raising it
	// (Illinois Extension).
	leapMilli = 1200

	// New worms settle for three days and get a quarter of what they could eat; from
	// then on the share rises evenly from a half to the whole at six weeks. Feeding
	// what guides allow from the first day piles food up for about two months
	// (own dry run of the stage model); six weeks is when the bedding has visibly
	// changed (Illinois Extension). The shares are judgement.
	settleDays    = 3
	settleMilli   = 250
	rampDays      = 42
	rampFromMilli = 500

	// From 28 °C up the bed may be heating itself, so that more food makes it worse:
	// act at 28, urgent at 30. The share is judgement; the limits are in tenths of a
	// degree. Cold has no share of its own: the appetite is that of a cold bed
	// already, and to cut twice starved the colonies of the field trial in winter.
	warmFrom  = 280
	warmMilli = 500
	hotFrom   = 300 // a hold

	// The limits of a bed: 60 to 90 % water and a pH above 5 (Edwards 2004, Earthworm
	// Ecology, 2nd edition, table 18.3), in tenths.
	dryMeter = 600
	wetMeter = 900
	sourPH   = 50

	// In a hot week meals are halved before a thermometer has seen it: food heats a
	// bed, and a bed follows its room within a day or two. Judgement.
	hotWeekMilli = 500

	// Nothing new goes on half of the last meal or more: nothing new until the last is
	// gone, common practice. That holds on the day of the look and the next, and then
	// until less than a tenth of a day's meal is reckoned to lie there, for as long as
	// a look is news. Judgement.
	seenDays  = 7
	seenLeast = 1
	seenGone  = 0.1

	// How deep food may lie: thin layers, and a pocket no deeper than 50 mm, within
	// the 75 to 150 mm that worms work (common practice). A litre of scraps is about
	// 600 g (judgement), and a tray has nine places.
	layerMM  = 25
	pocketMM = 50
	scrapsGL = 600
	places   = 9

	// What the colony gets of what it could eat, by goal. Halving the food about
	// halves the worms within a year (own dry run of the stage model), and worms grew
	// best on 1.25 and composted best on 0.75 kg per kg and day (Ndegwa, Thompson &
	// Das 2000). The shares are judgement.
	holdMilli = 900
	slowMilli = 600

	// A resting tray that stands alone gets a quarter, so that its worms stay alive
	// while it finishes. Judgement.
	restMilli = 250

	// The surface is said to bind only where it takes less than this share of what
	// the worms could eat. Judgement.
	asGood = 0.98

	// A handful, g, goes where the cautious side finds hardly any worms and the middle
	// as much as would eat it: to see whether it is eaten. Judgement.
	handful = 25

	// Rounding in coarse steps adds at most one part in mostAdded. What is less than
	// the finest step and goes to worms with nothing to eat comes in pinches of 5 g.
	// Judgement.
	mostAdded = 4
	pinch     = 5

	// A lure for a tray that worms have yet to climb into: a quarter of what its
	// surface takes in a day, and no more than a day's appetite of the tray below.
	// Judgement.
	lureParts = 4

	// Ammonia is a gas and toxic to worms (limit 0.5 mg per g of waste, Edwards &
	// Arancon 2004, Earthworm Ecology 2nd ed., table 18.3), so it holds the whole bin;
	// a sour spot holds its own tray.
	// A hold for a smell ends after a week at the latest: stop feeding for at least
	// one week after a sour or rotten smell (Oregon Metro; San Mateo County
	// RecycleWorks). A hold for heat is looked at again after three days, when a
	// reading has faded.
	// Until somebody has smelled again meals are then halved, for at most so many days
	// since; judgement.
	smellDays  = 7
	heatDays   = 3
	smellMilli = 500
	smellFades = 28

	// Questions about amounts: over 2 kg and four times the ration it asks, over
	// 200 kg it refuses. Judgement.
	slipAbove  = 2000
	slipTimes  = 4
	slipRefuse = 200_000

	// A cause is said to bind if it leaves less than this share, in thousandths; above
	// it, there are simply as many worms as there are. Judgement.
	bindingMilli = 850

	// Part of a bowl that may be food to avoid before it is picked out: a trace does
	// no harm. Judgement.
	traceShare = 0.05
)
