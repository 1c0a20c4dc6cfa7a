package main

import (
	"fmt"
	"strings"

	"trayside/internal/plan"
	"trayside/internal/record"
	"trayside/internal/units"
)

// What plan says. Codes and numbers come from internal/plan; every code has its
// words here, and a test holds the two together.

// speciesWords name the worms.
var speciesWords = map[record.Species]string{
	record.Eisenia:     "red compost worm, Eisenia fetida or andrei",
	record.Dendrobaena: "European nightcrawler, Dendrobaena hortensis or veneta",
	record.Eudrilus:    "African nightcrawler, Eudrilus eugeniae",
	record.Perionyx:    "blue worm, Perionyx excavatus",
	record.NotSure:     "compost worms of a kind nobody is sure of",
}

var planCodeWords = map[plan.Code]string{
	plan.ByAppetite: "what eats that kitchen's scraps at half its weight a day, or as its kind does",
	plan.LeastStock: "never less than a pound to start, as common practice has it",

	plan.EatsAllYear:  "comfortable here all year",
	plan.SlowInWinter: "eats slowly in the coldest months",
	plan.SlowInSummer: "suffers in the warmest months",
	plan.TooCold:      "too cold for it here",
	plan.TooHot:       "too hot for it here",
	plan.EasyToGet:    "the stock most keepers have to give or sell",
	plan.BreedsFast:   "breeds fast",
	plan.BreedsSlowly: "breeds slowly: bins fill up with worms late",
	plan.Big:          "a big worm",
	plan.NeedsWarmth:  "needs warmth",
	plan.Wanders:      "leaves a bin readily when something displeases it",

	plan.BinAndBedding: "get the bin; put in the moist bedding and the soil, lid on, and let it stand",
	plan.BuyWorms:      "get the worms, when no frost or heat threatens on the way",
	plan.SettleIn:      "lay them on the bedding, leave a light on for a night or two, then leave them alone",
	plan.FirstMeal:     "the first meal: half of what they could eat, under the bedding",
	plan.FullMeals:     "from here on what they clear: nothing new until the last is gone",

	plan.HalfStock:    "half the worms",
	plan.QuarterStock: "a quarter of the worms",
	plan.OneTray:      "one tray only, and the rest of the scraps to the freezer or the waste",
	plan.AnyBox:       "any box of the same surface, 20–30 cm deep, with holes below and in the lid, does the work of trays",
	plan.OwnPaper:     "bedding out of the recycling: newspaper, egg boxes, plain cardboard without tape",
	plan.FromAFriend:  "worms from a keeper who has too many",

	plan.DoNothing:   "nothing needs doing: worms live for weeks on what lies there and on their bedding",
	plan.Moisten:     "moisten the bed until a handful gives a drop",
	plan.Cover:       "cover it with moist newspaper",
	plan.MoreBedding: "put in more moist bedding: it is food that cannot go sour",
	plan.NoHeap:      "feed no more than usual before you leave: a heap heats and sours",
	plan.CoolPlace:   "move the bin to a cooler place: this room gets hot meanwhile",
	plan.FrostFree:   "move the bin to a warmer place: this room gets too cold meanwhile",
	plan.AskSomebody: "ask somebody to moisten it and give a small meal every two or three weeks",
	plan.LookFirst:   "look for leftovers and dry bedding before feeding",
	plan.NoCatchUp:   "begin with an ordinary meal; there is nothing to catch up on",

	plan.JumpingCaution: "Jumping worms (Amynthas, Metaphire) harm woodland soils and are banned in places: Minnesota " +
		"(since July 2024) allows nobody to keep, buy or move them without a permit. They thrash, shed their tails, " +
		"have a smooth milky ring flush with the body and leave dry gritty castings. Ask the local authority what to do with a find.",
	plan.CheckName:    "Trade names are no species and stocks are often mixed: look at what you were sold, and choose \"not-sure\" if you are not.",
	plan.NoRelease:    "Do not let worms out into woods or wild places. Some kinds are restricted: local rules decide.",
	plan.AnotherRoom:  "None of the worms lives through the year in this room: look for one that stays between 4 and 30 °C, or insulate the bin.",
	plan.WrongSpecies: "The worms you asked for do not live through the year in this room; those listed first would.",
	plan.HotDays:      "A month's mean hides hotter days: keep the bed below 28 °C, and act at 30.",
	plan.ColdDays:     "A month's mean hides colder days: in a cold room feed less, and keep the bin off the floor.",
	plan.BigKitchen:   "This is a lot for trays: a wide, low box takes the same surface with less work.",
}

// cautionWords lists cautions, one a line.
func cautionWords(list []plan.Code) string {
	var b strings.Builder
	b.WriteString("\nTake care\n")
	for _, c := range list {
		fmt.Fprintf(&b, "  %s\n", planCodeWords[c])
	}
	return b.String()
}

// planWords is a plan for people.
func planWords(p plan.Plan, a plan.Absence, people int) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	if people > 0 {
		line("For %d people, who make about %s of scraps a week that worms may have (%s to %s; weigh yours when you can)", people, mass(p.Scraps.Mid), mass(p.Scraps.Low), mass(p.Scraps.High))
	} else {
		line("For %s of scraps a week", mass(p.Scraps.Mid))
	}
	line("  worms    %s: %s (%.1f lb)", speciesWords[p.Species], mass(p.WormsG), p.WormsG/453.59237)
	line("           %s", planCodeWords[p.WormsBy])
	line("  surface  %.2f m² (%.1f square feet): %s of %d × %d mm fed at a time", p.AreaM2, p.AreaM2/0.09290304, count(p.Trays.Fed, "tray"), p.Trays.Width, p.Trays.Depth)
	line("           with those that ripen and one to spare %d trays, in %s", p.Trays.All, count(p.Trays.Stacks, "stack"))
	line("  bedding  %.0f l: %s of shredded newspaper or plain cardboard, %.1f l of water, %s of soil", p.Bedding.Litres, about(p.Bedding.PaperG), p.Bedding.Water/1000, mass(p.Bedding.SoilG))

	line("\nIn this order")
	for _, s := range p.Steps {
		by := ""
		if s.Late != 0 {
			by = " (by " + s.Late.String() + ")"
		}
		line("  %-10s  %s%s", stepDay(s), planCodeWords[s.Code], by)
	}
	line("\nWhen it eats everything")
	line("  %s", reachWords(p.Whole))
	line("  In the first year it takes about %.0f %% of the scraps, in the second %.0f %%.", p.Whole.Year1*100, p.Whole.Year2*100)
	if p.Whole.Lives < 0.9 && p.Whole.Lives >= 0.5 {
		line("  In %.0f of 100 runs of the model the colony is dead after two years.", (1-p.Whole.Lives)*100)
	}

	line("\nWhat costs less")
	for _, o := range p.Cheaper {
		line("  %s%s", planCodeWords[o.Code], optionWords(o))
	}
	line("\nWhich worms, in this room")
	for _, s := range p.Suits {
		line("  %-5s  %s (bed of %.0f to %.0f °C)", s.Fit, speciesWords[s.Species], s.LowC, s.HighC)
		line("         %s", join(s.Reasons))
	}
	line("\nAway for %s", count(a.Days, "day"))
	line("  before  %s", join(a.Before))
	line("  during  %s", join(a.During))
	line("  after   %s", join(a.After))
	line("  Without any food the model leaves %.0f %% of the worms and %.0f %% of their weight; lean worms fill out again.", min(1, a.Heads)*100, min(1, a.Mass)*100)
	b.WriteString(cautionWords(p.Cautions))
	return b.String()
}

func join(codes []plan.Code) string {
	var all []string
	for _, c := range codes {
		all = append(all, planCodeWords[c])
	}
	return strings.Join(all, "; ")
}

func mass(g float64) string { return units.Grams(units.Nearest(g)).Weight().Metric() }

// about rounds to what people weigh.
func about(g float64) string { return mass(float64(units.RoundForPeople(units.Grams(g), 0))) }

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func stepDay(s plan.Step) string {
	if s.Day == 0 {
		return "no day"
	}
	return s.Day.String()
}

// reachWords says when everything is eaten, with how sure that is.
func reachWords(r plan.Reach) string {
	switch {
	case r.Lives < 0.5:
		return fmt.Sprintf("This room kills them: in %.0f of 100 runs of the model the colony is dead after two years.", (1-r.Lives)*100)
	case r.Chance == 0:
		return "Not within two years: this room is too cold or too hot for that."
	case r.Days.Mid >= plan.Horizon:
		return fmt.Sprintf("Perhaps never: in %.0f of 100 runs of the model it does within two years.", r.Chance*100)
	}
	late := fmt.Sprintf("%.0f days", r.Days.High)
	if r.Days.High >= plan.Horizon {
		late = "more than two years"
	}
	return fmt.Sprintf("About %.0f days after the worms come (%.0f days to %s in 8 of 10 runs of the model).", r.Days.Mid, r.Days.Low, late)
}

func optionWords(o plan.Option) string {
	if o.Whole == nil {
		if o.WeekG > 0 {
			return fmt.Sprintf(": it takes about %s a week", about(o.WeekG))
		}
		return ""
	}
	var words string
	switch {
	case o.Whole.Lives < 0.5:
		words = fmt.Sprintf(" (%s): they do not live through the year here either", mass(o.WormsG))
	case o.Whole.Days.Mid >= plan.Horizon:
		words = fmt.Sprintf(" (%s): perhaps too few ever to eat everything here", mass(o.WormsG))
	case o.Later < 1:
		words = fmt.Sprintf(" (%s): everything is eaten as soon", mass(o.WormsG))
	default:
		words = fmt.Sprintf(" (%s): everything is eaten about %.0f days later, %.0f %% in the first year", mass(o.WormsG), o.Later, o.Whole.Year1*100)
	}
	if o.WormsG < 450 {
		words += "; guides say never less than a pound, the model says slower"
	}
	return words
}
