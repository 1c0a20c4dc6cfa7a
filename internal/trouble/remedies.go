package trouble

// What to do about each cause. Steps, what to stop and cautions are codes; where a
// step has a quantity, it comes with it. Sources stand beside the causes; "Munroe"
// is Munroe, Manual of On-Farm Vermicomposting and Vermiculture, pests and diseases,
// from memory; "Metro" Oregon Metro, "San Mateo" San Mateo County RecycleWorks,
// "Illinois" University of Illinois Extension, "NYC" the guides of the NYC Compost
// Project and NYC Department of Sanitation.

// Step is one thing to do tonight. Unit is "" for a step without a quantity.
type Step struct {
	Code   string `json:"code"`
	Amount int64  `json:"amount"`
	Unit   string `json:"unit"` // "g", "ml", "handfuls", "teaspoons", "d", "s", "nights", "mm", "%", "0.1 °C" or ""
}

// Codes of steps.
const (
	LiftOutFood   = "lift-out-food"    // g over two days of appetite; without a quantity, all that rots
	LiftOutWrong  = "lift-out-wrong"   // meat, dairy, fat: with the household waste
	BreakUpRest   = "break-up-rest"    // spread what is left
	AddDryBedding = "add-dry-bedding"  // g, or handfuls
	Mist          = "mist"             // ml of water
	Fluff         = "fluff"            // lift the bed gently with the fingers, daily for so many d
	ClearHoles    = "clear-holes"      // air and drain holes
	DrainSump     = "drain-sump"       // pour off what stands in the sump
	RampInSump    = "ramp-in-sump"     // bedding or a ramp, so that worms climb back
	LidAjar       = "lid-ajar"         // for a night or two, with the light on
	LightOver     = "light-over"       // nights with a light over the bin
	Lime          = "lime"             // calcium carbonate: g, or teaspoons
	CrushedShell  = "crushed-eggshell" // handfuls
	Grit          = "grit"             // handfuls of soil or sand
	CoverFood     = "cover-food"       // mm of bedding over every meal
	CoverSheet    = "cover-sheet"      // damp newspaper on the bed
	KillEggs      = "kill-fly-eggs"    // s in the microwave, or freeze scraps, before feeding
	Trap          = "fly-trap"         // vinegar and a drop of soap, beside the bin
	Bait          = "bait-and-lift"    // melon or potato for so many nights, then lift it out with the mites
	PickOut       = "pick-out"         // by hand
	Uncover       = "uncover-to-dry"   // for so many d
	Screen        = "screen-holes"     // mesh with openings of so many mm at most
	CloseLid      = "close-lid"        // weigh it down, bin off the ground
	WaterMoat     = "legs-in-water"    // or a band of petroleum jelly on the legs
	ToShade       = "to-cool-place"    // until the bed is below so many 0.1 °C
	SpreadFood    = "spread-food"      // in a layer of so many mm
	FrozenBottle  = "frozen-bottle"    // on top, in a cloth
	ToWarmth      = "to-warmer-place"  // until the bed is at so many 0.1 °C
	Insulate      = "insulate"         // straw, leaves or cardboard around and over it
	Chop          = "chop"             // to so many mm
	LeaveAlone    = "leave-alone"      // for so many d
	FeedEvery     = "feed-every"       // so many d, small meals
	Harvest       = "harvest"          // castings out, worms into fresh bedding
	SplitBed      = "split-bed"        // so many % of the worms into another tray or bin
	FreshBedding  = "fresh-bedding"    // move the worms that are sound
	Rinse         = "rinse-bed"        // water the bed lightly and drain it well
	KeepApart     = "keep-apart"       // nothing leaves this bin: no worms, castings or soil
	FreezeOut     = "freeze-castings"  // so many d, before any leave the bin
	Photograph    = "photograph"       // the collar, for an expert
	AskExpert     = "ask-extension"    // the local extension or invasive-species office
	Nothing       = "nothing-to-do"
)

// Codes of what to stop.
const (
	StopFeeding   = "feeding"      // only where Feeding holds
	StopThisTray  = "feeding-here" // the food goes into the tray above
	StopPiling    = "new-food-on-old"
	StopNitrogen  = "nitrogen-rich-food"
	StopAcid      = "citrus-and-acid-food"
	StopStarch    = "bread-and-starch"
	StopAnimal    = "meat-dairy-fat"
	StopSalty     = "salty-food"
	StopWatery    = "watery-food"
	StopFruit     = "fruit-uncovered"
	StopSlow      = "slow-food"
	StopWatering  = "watering"
	StopDigging   = "digging"
	StopGivingOut = "giving-away-worms-and-castings"
)

// Codes of cautions. Every result with a sign carries WashHands, LocalRules and
// NoLaboratory.
const (
	// WashHands: wash after handling; gloves over cuts. Composts can hold Legionella
	// and tetanus (Stewart, Reduce Landfill; general public-health advice).
	WashHands = "wash-hands-gloves-for-cuts"
	// MouldAsthma: people with asthma, mould allergy or a weak immune system keep
	// away or wear a mask, and the bed is kept moist (Recycle Now: Aspergillus
	// fumigatus and endotoxin are the main airborne hazards of compost).
	MouldAsthma = "mould-asthma"
	// Pathogens: a worm bin is no hygiene treatment (Hill et al. 2013, Journal of
	// Sustainable Development 6(4): no drop in Ascaris eggs after 90 days).
	Pathogens = "not-treated-for-pathogens"
	// NoRelease: no worms and no live castings outdoors or into woodland (University
	// of Washington Botanic Gardens).
	NoRelease = "no-release-outdoors"
	// JumpingLaw: possession, purchase and transport are forbidden in some places, as
	// in Minnesota since 1 July 2024 (Minnesota DNR); the law differs and changes.
	JumpingLaw = "jumping-worms-restricted"
	// JumpingLooks: a collar that is smooth, milky and flush all round; composting
	// worms have a raised saddle (Texas Invasive Species Institute), and some of them,
	// Perionyx above all, twitch when touched too (CTAHR HG-46, 2005). Only an expert
	// can tell.
	JumpingLooks = "jumping-worms-look-alikes"
	// OnlyCarbonate: calcium carbonate, never slaked or quick lime: it burns skin,
	// eyes and worms.
	OnlyCarbonate = "only-carbonate-never-slaked-lime"
	// NoPoison: no bait, spray or powder in or near the bed (San Mateo).
	NoPoison = "no-poison-in-bin"
	// LiquidOutdoors: what drains is raw: outdoors on ornamental plants, thinned at
	// least tenfold, or away with it; never on food (common practice).
	LiquidOutdoors = "liquid-not-on-food"
	// DroppingsIll: rodents' droppings carry disease: wet them before wiping, gloves
	// on (general public-health advice, from memory).
	DroppingsIll = "droppings-carry-disease"
	// AmmoniaFumes: the gas stings eyes and lungs: open a window, do not lean over the
	// bed (general public-health advice, from memory).
	AmmoniaFumes = "ammonia-fumes"
	// LocalRules: local codes and those licensed to judge come first.
	LocalRules   = "local-rules-first"
	NoLaboratory = "advice-from-a-log"
)

// Days to the next look: judgement, but for the week that guides give a bad smell
// (Metro; San Mateo).
const (
	soon  = 1
	usual = 3
	later = 7
)

// remedy is what a cause asks for.
type remedy struct {
	cause    Cause
	tonight  []dose
	stop     []string
	cautions []string
	look     int   // days to the next look
	feed     int64 // of the ration, in thousandths
	counted  bool  // the ration reckons with it by itself, with about this share
}

// remedies has one entry a cause; a table and not a map, which code would have to
// build at every start. The shares in feed are judgement, except the half for food
// that piles up (Illinois; NYC: feed half).
var remedies = [...]remedy{
	// Stop at least a week at a bad smell, take out what rots, break up the rest, fluff
	// daily (Metro; San Mateo); feed half, wait until mostly gone (Illinois; NYC).
	{
		cause:   MoreThanEaten,
		tonight: []dose{{by: liftOut}, {code: BreakUpRest}, {by: dryBedding}, {code: CoverFood, amount: coverMM, unit: "mm"}, {code: Fluff, amount: later, unit: "d"}},
		stop:    []string{StopPiling}, look: usual, feed: 500, counted: true,
	},
	// Dry paper on top, drain, lid ajar, less watery food (City of Euless; Illinois).
	{
		cause:   TooWet,
		tonight: []dose{{code: DrainSump}, {code: ClearHoles}, {by: dryBedding}, {code: Fluff, amount: later, unit: "d"}, {code: LidAjar, amount: 2, unit: "nights"}},
		stop:    []string{StopWatery, StopWatering}, cautions: []string{LiquidOutdoors}, look: usual, feed: 500,
	},
	// Mist, wetter food, a cover sheet (Illinois; San Mateo).
	{
		cause:    TooDry,
		tonight:  []dose{{by: mist}, {code: CoverSheet}, {code: CloseLid}},
		cautions: []string{MouldAsthma}, look: usual, feed: 1000,
	},
	// Air holes, fluffing, dry bedding (Metro; San Mateo).
	{
		cause:   NoAir,
		tonight: []dose{{code: ClearHoles}, {code: Fluff, amount: later, unit: "d"}, {by: dryBedding}, {code: DrainSump}},
		look:    usual, feed: 500,
	},
	// Take citrus out, powdered limestone, crushed shell (San Mateo; Illinois).
	{
		cause:   AcidBed,
		tonight: []dose{{code: LiftOutFood}, {by: lime}, {code: CrushedShell, amount: 1, unit: "handfuls"}, {by: dryBedding}},
		stop:    []string{StopAcid, StopStarch}, cautions: []string{OnlyCarbonate}, look: usual, feed: 500,
	},
	// No nitrogen-rich food, shredded paper, air (Cornell Waste Management Institute,
	// trouble table, from memory); ammonia is toxic above 0.5 mg/g (Edwards & Arancon
	// 2004, table 18.3).
	{
		cause:   MuchNitrogen,
		tonight: []dose{{by: liftOut}, {by: dryBedding}, {code: Fluff, amount: later, unit: "d"}, {code: LidAjar, amount: 2, unit: "nights"}},
		stop:    []string{StopNitrogen}, look: soon, feed: 500,
	},
	// Keep animal products out (Cornell, Fong & Hewitt; Illinois; NYC).
	{
		cause:   AnimalFood,
		tonight: []dose{{code: LiftOutWrong}, {code: PickOut}, {by: dryBedding}, {code: CoverFood, amount: coverMM, unit: "mm"}, {code: CloseLid}},
		stop:    []string{StopAnimal}, cautions: []string{Pathogens}, look: usual, feed: 500,
	},
	// Shade, spread, stop feeding, air (Metro; Texas A&M AgriLife 2014); frozen bottle
	// from memory.
	{
		cause:   SelfHeating,
		tonight: []dose{{code: SpreadFood, amount: spreadMM, unit: "mm"}, {by: liftOut}, {code: ToShade, amount: coolBelow, unit: "0.1 °C"}, {code: FrozenBottle}, {code: LidAjar, amount: 1, unit: "nights"}},
		stop:    []string{StopPiling, StopStarch}, look: soon, feed: 500, counted: true,
	},
	{
		cause:   HotPlace,
		tonight: []dose{{code: ToShade, amount: coolBelow, unit: "0.1 °C"}, {code: FrozenBottle}, {by: mist}},
		stop:    []string{StopPiling}, look: soon, feed: 500, counted: true,
	},
	// Insulate with straw or leaves, bring in, feed less (Metro).
	{
		cause:   ColdPlace,
		tonight: []dose{{code: ToWarmth, amount: warmFrom, unit: "0.1 °C"}, {code: Insulate}},
		stop:    []string{StopPiling}, look: later, feed: 250, counted: true,
	},
	// A light over a new bin (Oregon State EM 9034, from memory); a few explorers in
	// the first days are normal (from memory).
	{
		cause:   SettlingIn,
		tonight: []dose{{code: LightOver, amount: 2, unit: "nights"}, {code: LeaveAlone, amount: usual, unit: "d"}},
		stop:    []string{StopDigging}, look: usual, feed: 500, counted: true,
	},
	// Feed regularly (Reinecke & Viljoen 1990, Biol Fertil Soils 10:184-187: laying
	// stops 20 to 40 days after the last food).
	{
		cause:   Starved,
		tonight: []dose{{code: FeedEvery, amount: usual, unit: "d"}},
		look:    later, feed: 1000,
	},
	// Harvest, split, re-bed (Reeh 1992).
	{
		cause:    Crowded,
		tonight:  []dose{{code: SplitBed, amount: 50, unit: "%"}, {code: Harvest}},
		cautions: []string{NoRelease}, look: later, feed: 1000,
	},
	// Castings that build up kill worms unless harvested or re-bedded (Illinois).
	{
		cause:    OldCastings,
		tonight:  []dose{{code: Harvest}, {code: FreshBedding}},
		cautions: []string{NoRelease, Pathogens}, look: later, feed: 1000,
	},
	{
		cause:   Finished,
		tonight: []dose{{code: Harvest}},
		stop:    []string{StopThisTray}, cautions: []string{NoRelease, Pathogens}, look: later, feed: 1000,
	},
	// Salty food little or not at all (NYC). Rinsing is judgement.
	{
		cause:   SaltyFood,
		tonight: []dose{{code: LiftOutFood}, {code: Rinse}, {code: DrainSump}, {by: dryBedding}},
		stop:    []string{StopSalty}, look: soon, feed: 500,
	},
	// Bury or cover, vinegar-and-soap trap; wash, freeze, microwave 10 s or chop
	// scraps first (Metro; San Mateo; NYC; Illinois).
	{
		cause:   UncoveredFood,
		tonight: []dose{{code: CoverFood, amount: coverMM, unit: "mm"}, {by: dryBedding}, {code: Trap}, {code: KillEggs, amount: 10, unit: "s"}},
		stop:    []string{StopFruit}, look: usual, feed: 1000,
	},
	// Remove food, split the bed, dry carbon, calcium carbonate, less protein (Munroe).
	{
		cause:   FermentingFood,
		tonight: []dose{{code: LiftOutFood}, {code: SplitBed, amount: 50, unit: "%"}, {by: dryBedding}, {by: lime}, {code: Grit, amount: 1, unit: "handfuls"}},
		stop:    []string{StopStarch, StopNitrogen}, cautions: []string{OnlyCarbonate}, look: soon, feed: 250,
	},
	// Chop, check the temperature, wait (Illinois; NYC: pieces of 25 to 50 mm).
	{
		cause:   SlowFood,
		tonight: []dose{{code: Chop, amount: chopMM, unit: "mm"}, {code: LiftOutFood}, {code: LeaveAlone, amount: later, unit: "d"}},
		stop:    []string{StopSlow}, look: later, feed: 500,
	},
	// Remove clusters, fresh bedding, dry, bait (Munroe).
	{
		cause:   ParasiticMites,
		tonight: []dose{{code: Bait, amount: 1, unit: "nights"}, {code: Uncover, amount: 1, unit: "d"}, {by: lime}, {code: FreshBedding}},
		stop:    []string{StopWatering}, cautions: []string{OnlyCarbonate, NoPoison}, look: usual, feed: 500,
	},
	// Out by hand (Munroe); ants: barriers on the legs (San Mateo).
	{
		cause:    SoilVisitors,
		tonight:  []dose{{code: PickOut}, {code: WaterMoat}, {code: CloseLid}},
		cautions: []string{NoPoison}, look: later, feed: 1000,
	},
	// Springtails, potworms and most mites break down what worms leave (Turpin 1998,
	// Purdue University; CalRecycle): nothing needs doing.
	{
		cause:   OrdinaryLife,
		tonight: []dose{{code: Nothing}},
		look:    later, feed: 1000,
	},
	// Tight lid, mesh of 6 mm at most (common practice).
	{
		cause:    OpenBin,
		tonight:  []dose{{code: CloseLid}, {code: Screen, amount: 6, unit: "mm"}, {code: CoverFood, amount: coverMM, unit: "mm"}},
		cautions: []string{NoPoison, DroppingsIll}, look: usual, feed: 1000,
	},
	// Freeze castings for one to four weeks before they leave (University of Washington
	// Botanic Gardens); 40 °C for more than three days kills worms and cocoons
	// (Wisconsin DNR). Photograph and ask: judgement.
	{
		cause:   JumpingWorms,
		tonight: []dose{{code: KeepApart}, {code: Photograph}, {code: AskExpert}, {code: FreezeOut, amount: 28, unit: "d"}},
		stop:    []string{StopGivingOut}, cautions: []string{JumpingLooks, JumpingLaw, NoRelease}, look: later, feed: 1000,
	},
}

// remedyOf returns what a cause asks for; nothing for one without a remedy.
func remedyOf(c Cause) remedy {
	for i := range remedies {
		if remedies[i].cause == c {
			return remedies[i]
		}
	}
	return remedy{}
}

// bySign adds what a sign itself asks for, whatever its cause turns out to be.
var bySign = map[Sign]struct {
	tonight  []dose
	cautions []string
}{
	Mould:         {tonight: []dose{{code: CoverFood, amount: coverMM, unit: "mm"}}, cautions: []string{MouldAsthma}},    // San Mateo
	PaleMites:     {tonight: []dose{{code: Bait, amount: 1, unit: "nights"}}, cautions: []string{MouldAsthma, NoPoison}}, // Munroe
	DryBed:        {cautions: []string{MouldAsthma}},
	AmmoniaSmell:  {cautions: []string{AmmoniaFumes}},
	RotSmell:      {cautions: []string{Pathogens}},
	Maggots:       {tonight: []dose{{code: PickOut}}, cautions: []string{Pathogens}},
	SoldierLarvae: {tonight: []dose{{code: PickOut}}},
	Ants:          {tonight: []dose{{code: WaterMoat}}, cautions: []string{NoPoison}}, // San Mateo
	Rodents:       {cautions: []string{DroppingsIll, NoPoison}},
	MuchLiquid:    {cautions: []string{LiquidOutdoors}},
	WormsInSump:   {tonight: []dose{{code: DrainSump}, {code: RampInSump}}, cautions: []string{LiquidOutdoors}},   // common practice
	WormsLeaving:  {tonight: []dose{{code: LightOver, amount: 1, unit: "nights"}}, cautions: []string{NoRelease}}, // common practice
	WormsDying:    {cautions: []string{NoRelease}},
}
