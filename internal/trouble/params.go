package trouble

// The network. Each cause is a node with two states, there or not, and several
// may be there at once; signs and what the log knows are its children, taken as
// independent once the cause is given (naive Bayes, one network for each cause).
// A cause does not take from another what it explains: leftovers that lie too
// long make a bed wet, and both want mending.
//
// Which sign goes with which cause is published advice: Oregon Metro (natural
// gardening pages on worm bins); San Mateo County RecycleWorks (worm composting);
// University of Illinois Extension (worm care pages; Gucker 2020); NYC Department of
// Sanitation and New York Botanical Garden / NYC Compost Project guides; Missouri
// Extension (Bates); City of Euless compost pages; CalRecycle (organisms of a
// compost heap); Purdue University (Turpin 1998); and from memory Oregon State EM
// 9034, Cornell Waste Management Institute (trouble table; "Invertebrates of the
// compost pile"), Munroe, Manual of On-Farm Vermicomposting (pests and diseases),
// UF/IFAS EENY-461 (Diclaro & Kaufman).
//
// None of them publishes a frequency. Every share below is judgement, set so that
// the first cause a table names for a sign leads while the log is silent; the
// limits of bands have the sources that stand beside them.

// signs holds every sign with how often it is seen at a bin that somebody worries
// about and that does not have the cause in question, in per cent.
var signs = [...]struct {
	sign  Sign
	other float64
}{
	{AmmoniaSmell, 4}, {WormsDying, 6}, {HotBed, 5}, {WormsLeaving, 12},
	{SourSmell, 12}, {RotSmell, 8}, {BeadedWorms, 2}, {Thrashing, 2},
	{WetBed, 20}, {DryBed, 12}, {ColdBed, 8}, {Packed, 12}, {MuchLiquid, 12},
	{FoodUneaten, 20}, {Mould, 20}, {FewYoung, 10}, {WormsInSump, 8}, {DarkCrumbly, 10},
	{FruitFlies, 20}, {SoldierLarvae, 4}, {Maggots, 4}, {Ants, 6}, {Centipedes, 5},
	{Springtails, 12}, {Potworms, 10}, {PaleMites, 12}, {RedMites, 4}, {Rodents, 4},
}

// facts holds what the log may know: the codes, the bands, and how often each
// band is met at a bin that does not have the cause in question, in per cent.
var facts = [factCount]struct {
	code  string
	bands []string
	other []float64
}{
	moisture: {"moisture", []string{"crumbles", "holds", "one-drop", "few-drops", "runs"}, []float64{10, 20, 35, 25, 10}},
	backlog:  {"backlog", []string{"eaten", "usual", "behind", "piled"}, []float64{35, 40, 15, 10}},
	bed:      {"bed", []string{"freezing", "cold", "fine", "warm", "hot"}, []float64{2, 5, 83, 6, 4}},
	season:   {"season", []string{string(Winter), string(Between), string(Summer)}, []float64{25, 50, 25}},
	age:      {"age", []string{"first-week", "six-weeks", "half-year", "older"}, []float64{6, 16, 30, 48}},
	bedding:  {"bedding", []string{"fresh", "working", "due", "overdue"}, []float64{25, 35, 20, 20}},
	density:  {"density", []string{"few", "usual", "many", "crowded"}, []float64{25, 55, 13, 7}},
	supply:   {"supply", []string{"starving", "short", "fair", "over"}, []float64{15, 25, 38, 22}},
	animal:   {"animal", []string{"none", "some"}, []float64{93, 7}},
	fruit:    {"fruit", []string{"none", "some", "much"}, []float64{15, 50, 35}},
	citrus:   {"citrus", []string{"little", "much"}, []float64{88, 12}},
	starch:   {"starch", []string{"little", "much"}, []float64{85, 15}},
	nitrogen: {"nitrogen", []string{"little", "much"}, []float64{80, 20}},
	slow:     {"slow", []string{"little", "some", "much"}, []float64{55, 35, 10}},
	salt:     {"salt", []string{"little", "some", "much"}, []float64{90, 7, 3}},
	species:  {"species", []string{"other", "perionyx"}, []float64{95, 5}},
}

// Where bands begin; the first begins at nothing.
var (
	// Food for more than five to seven days goes sour before it is eaten; four days
	// are as many as a ration ever holds. Judgement after the advice to wait until
	// the last food is mostly gone (Illinois Extension).
	backlogFrom = [...]int64{10, 40, 70} // 0.1 d

	// Worms will not live below 4 °C (Colorado State University Extension 2015); feed
	// less below 10 °C (Oregon Metro). A bed of 28 °C may be heating itself and one of
	// 30 °C is urgent: 32 °C and more can kill (Oregon Metro), 38 °C kills (Texas A&M
	// AgriLife 2014). 28 and 30 are judgement, with room before harm.
	bedFrom = [...]int64{40, 100, 280, 300} // 0.1 °C; bands bedFreezing to bedHot

	// New worms wander in the first days (from memory); six weeks until the bedding
	// has visibly changed (Illinois Extension); half a year is judgement.
	ageFrom = [...]int64{7, 42, 180} // d

	// The first harvest comes after 90 to 180 days, about 120 (City of Eugene; NYC
	// Compost Project; USDA); up to 180 to finish (Oregon State EM 9034, 2011).
	beddingFrom = [...]int64{42, 120, 180} // d

	// Best conversion at 1.6 kg/m² (Ndegwa, Thompson & Das 2000, Bioresource
	// Technology 71:5-12); common practice stocks 4.9 (1 lb per square foot); small
	// worms that do not breed near saturation (Reeh 1992, Soil Biol Biochem
	// 24:1327-1331), for which 7.5 is judgement.
	densityFrom = [...]int64{1000, 5000, 7500} // g/m²

	// Judgement: guides differ twofold in what worms eat, and not every meal is logged.
	supplyFrom = [...]int64{20, 60, 130} // %

	// Shares of the scraps. A tenth of a meal is what this project calls a little
	// (feedstock.LittleShare); the other limits are judgement.
	animalFrom   = [...]int64{1}
	fruitFrom    = [...]int64{1, 40}
	citrusFrom   = [...]int64{11}
	starchFrom   = [...]int64{11}
	nitrogenFrom = [...]int64{40}
	slowFrom     = [...]int64{20, 60}

	// Salts above 0.5 % of the bed are lethal (Kaplan, Hartenstein, Neuhauser &
	// Malecki 1980, Soil Biology and Biochemistry 12; Edwards & Arancon 2004,
	// Earthworm Ecology 2nd ed., table 18.3). Scraps lose water as they rot, so that
	// 0.3 % in them is worth a look: judgement.
	saltFrom = [...]int64{30, 50} // 0.01 % of wet mass
)

// Bands of bed that mean something by themselves.
const (
	bedFreezing = 0
	bedCold     = 1
	bedHot      = 4
)

// backlogBehind is the first band in which more food lies there than should.
const backlogBehind = 2

// richN is the nitrogen, of dry mass, from which a scrap counts as rich in it: with
// 45 % carbon that is a C:N of 9, where ammonia escapes. Judgement.
const richN = 0.05

// unweighedItem is taken for scraps that nobody weighed, g. Judgement.
const unweighedItem = 100

// show is how often a cause shows a sign, in per cent.
type show struct {
	sign Sign
	with float64
}

// hint is how often each band of a fact is met where the cause is, in per cent.
type hint struct {
	fact fact
	with []float64
}

// node is one cause: how common it is among bins that somebody worries about, the
// signs it shows, and what the log then says. A fact that it does not name is as it
// is anywhere.
type node struct {
	cause Cause
	prior float64 // per cent
	shows []show
	hints []hint
}

// network holds the causes, the commonest first.
var network = [...]node{
	{MoreThanEaten, 28, []show{
		{FoodUneaten, 75}, {SourSmell, 50}, {Mould, 50}, {FruitFlies, 40}, {WetBed, 35}, {RotSmell, 30},
		{MuchLiquid, 25}, {PaleMites, 20}, {Springtails, 20}, {WormsLeaving, 18}, {SoldierLarvae, 10}, {AmmoniaSmell, 8},
	}, []hint{
		{backlog, []float64{5, 30, 30, 35}},
		{supply, []float64{8, 18, 36, 38}},
	}},
	{TooWet, 20, []show{
		{WetBed, 85}, {MuchLiquid, 60}, {SourSmell, 45}, {PaleMites, 45}, {WormsLeaving, 45}, {WormsInSump, 40},
		{Springtails, 30}, {RotSmell, 25}, {Packed, 25}, {Potworms, 20}, {ColdBed, 12}, {RedMites, 8}, {SoldierLarvae, 8},
	}, []hint{
		{moisture, []float64{1, 3, 11, 35, 50}},
		{fruit, []float64{5, 40, 55}},
	}},
	{UncoveredFood, 20, []show{
		{FruitFlies, 85}, {Mould, 40}, {SoldierLarvae, 30}, {Ants, 15}, {Maggots, 6},
	}, []hint{
		{fruit, []float64{3, 37, 60}},
		{season, []float64{15, 50, 35}},
	}},
	{OrdinaryLife, 15, []show{
		{Springtails, 80}, {Mould, 45}, {Potworms, 30}, {PaleMites, 25}, {WormsInSump, 25},
		{Centipedes, 15}, {RedMites, 10}, {Thrashing, 3},
	}, []hint{
		{backlog, []float64{45, 50, 4, 1}},
		{moisture, []float64{4, 20, 45, 28, 3}},
	}},
	{TooDry, 12, []show{
		{DryBed, 85}, {Ants, 50}, {WormsLeaving, 35}, {FoodUneaten, 25}, {Mould, 25}, {FewYoung, 15}, {WormsDying, 10},
	}, []hint{
		{moisture, []float64{50, 35, 11, 3, 1}},
	}},
	{Finished, 12, []show{
		{DarkCrumbly, 85},
	}, []hint{
		{bedding, []float64{1, 25, 37, 37}},
		{backlog, []float64{65, 30, 3, 2}},
	}},
	{NoAir, 10, []show{
		{Packed, 70}, {SourSmell, 50}, {RotSmell, 30}, {WetBed, 25}, {WormsInSump, 25}, {WormsLeaving, 20}, {AmmoniaSmell, 10},
	}, []hint{
		{moisture, []float64{4, 12, 30, 34, 20}},
		{bedding, []float64{15, 30, 25, 30}},
	}},
	{AcidBed, 10, []show{
		{Potworms, 70}, {WormsDying, 35}, {PaleMites, 35}, {SourSmell, 30}, {WormsLeaving, 25},
		{BeadedWorms, 20}, {RedMites, 20}, {FewYoung, 15},
	}, []hint{
		{citrus, []float64{45, 55}},
		{starch, []float64{65, 35}},
	}},
	{OldCastings, 10, []show{
		{DarkCrumbly, 60}, {FewYoung, 40}, {Packed, 40}, {WormsDying, 25}, {WormsLeaving, 25},
	}, []hint{
		{bedding, []float64{1, 14, 30, 55}},
	}},
	{SettlingIn, 8, []show{
		{WormsLeaving, 50}, {FoodUneaten, 50}, {FewYoung, 30}, {Mould, 30},
	}, []hint{
		{age, []float64{45, 45, 8, 2}},
		{backlog, []float64{15, 35, 25, 25}},
	}},
	{Starved, 8, []show{
		{FewYoung, 50}, {DarkCrumbly, 30}, {WormsLeaving, 25}, {WormsDying, 20},
	}, []hint{
		{supply, []float64{55, 30, 11, 4}},
		{backlog, []float64{60, 36, 3, 1}},
		{age, []float64{1, 12, 33, 54}},
	}},
	{Crowded, 8, []show{
		{FewYoung, 60}, {WormsLeaving, 30}, {WormsInSump, 15},
	}, []hint{
		{density, []float64{2, 20, 35, 43}},
		{age, []float64{1, 7, 30, 62}},
	}},
	{ColdPlace, 7, []show{
		{ColdBed, 85}, {FoodUneaten, 70}, {FewYoung, 35}, {Mould, 30}, {WormsDying, 15},
	}, []hint{
		{bed, []float64{20, 62, 17, 0.5, 0.5}},
		{season, []float64{65, 32, 3}},
		{backlog, []float64{10, 25, 30, 35}},
	}},
	{MuchNitrogen, 7, []show{
		{AmmoniaSmell, 80}, {WormsLeaving, 25}, {WormsDying, 20}, {HotBed, 15}, {Maggots, 10},
	}, []hint{
		{nitrogen, []float64{35, 65}},
	}},
	{SlowFood, 7, []show{
		{FoodUneaten, 75}, {Mould, 30},
	}, []hint{
		{slow, []float64{10, 30, 60}},
		{backlog, []float64{10, 30, 30, 30}},
	}},
	{AnimalFood, 6, []show{
		{RotSmell, 70}, {Maggots, 70}, {Rodents, 50}, {SourSmell, 30}, {SoldierLarvae, 25}, {AmmoniaSmell, 15},
	}, []hint{
		{animal, []float64{25, 75}},
	}},
	{OpenBin, 6, []show{
		{Rodents, 75}, {FruitFlies, 30}, {Maggots, 15}, {SoldierLarvae, 15}, {Ants, 10}, {Centipedes, 10},
	}, nil},
	{SelfHeating, 5, []show{
		{HotBed, 85}, {WormsDying, 40}, {WormsLeaving, 30}, {WetBed, 30}, {AmmoniaSmell, 15}, {DryBed, 15},
	}, []hint{
		{bed, []float64{0.5, 0.5, 14, 28, 57}},
		{backlog, []float64{5, 25, 30, 40}},
		{starch, []float64{65, 35}},
		{nitrogen, []float64{50, 50}},
	}},
	{HotPlace, 5, []show{
		{HotBed, 75}, {WormsDying, 40}, {WormsLeaving, 35}, {DryBed, 30},
	}, []hint{
		{bed, []float64{0.5, 0.5, 14, 28, 57}},
		{season, []float64{5, 30, 65}},
		{backlog, []float64{45, 40, 10, 5}},
	}},
	{SoilVisitors, 5, []show{
		{Centipedes, 70}, {Ants, 20},
	}, nil},
	{SaltyFood, 3, []show{
		{WormsDying, 50}, {WormsLeaving, 40},
	}, []hint{
		{salt, []float64{30, 35, 35}},
	}},
	{FermentingFood, 3, []show{
		{BeadedWorms, 80}, {SourSmell, 40}, {WormsDying, 30}, {WormsLeaving, 25}, {Potworms, 20},
	}, []hint{
		{starch, []float64{35, 65}},
		{nitrogen, []float64{60, 40}},
	}},
	{ParasiticMites, 3, []show{
		{RedMites, 80}, {WormsDying, 15},
	}, []hint{
		{moisture, []float64{2, 8, 25, 35, 30}},
	}},
	{JumpingWorms, 1, []show{
		{Thrashing, 90},
	}, []hint{
		{species, []float64{99, 1}},
	}},
}

// Where one fit ends and the next begins, in thousandths: judgement. A cause could be
// if it is not much less likely than the first. mostLikely keeps what is shown from
// ever claiming to be certain.
const (
	bestFrom   = 200
	couldFrom  = 80
	couldPart  = 4 // a quarter as likely as the first
	mostLikely = 970
)

// Evidence that is less than this far from even, in thousandths, is no reason
// worth a line. Judgement.
const (
	speaksFor     = 1250
	speaksAgainst = 800
)

// tells is how far apart two causes must expect a measurement, in per cent of all
// bins, before it is worth asking for. Judgement.
const tells = 40
