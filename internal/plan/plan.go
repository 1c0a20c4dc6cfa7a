// Package plan sizes a new bin and says what to do about going away: from what a
// kitchen makes and how warm the room is through the year to worms, surface,
// trays, species, bedding and the order of buying, when the colony will eat
// everything, what costs nothing, and how long a bin can be left alone.
//
// Make is the door for a new bin, Away for an absence. Both return codes and
// numbers; the words are said by whoever shows them.
//
// The stock and the surface follow published rules. The time until everything is
// eaten comes from stepping the colony of package colony in a household that
// feeds all it can eat, over what its sources leave open.
package plan

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"trayside/internal/colony"
	"trayside/internal/feedstock"
	"trayside/internal/record"
	"trayside/internal/units"
)

// Code names something to be said.
type Code string

// JumpingWorms stands for Amynthas and Metaphire. They get no numbers, only the
// caution.
const JumpingWorms record.Species = "jumping-worms"

// Ask is what a household says of itself.
type Ask struct {
	ScrapsWeek   units.Grams // what the kitchen makes a week; 0 to reckon from People
	People       int
	Room         colony.Room
	Species      record.Species    // "" for the one that suits best
	Width, Depth units.Millimetres // of one tray; 0 for the usual
	Start        record.Day        // when the buying may begin
}

// Span is a middle with the ends of its 80 % interval.
type Span struct {
	Mid  float64 `json:"mid"`
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

// Plan is the answer. Masses in g.
type Plan struct {
	Species  record.Species `json:"species"`
	Suits    []Suit         `json:"suits"`
	Scraps   Span           `json:"scrapsWeekG"`
	WormsG   float64        `json:"wormsG"`
	WormsBy  Code           `json:"wormsBy"` // what set it: by-appetite or least-stock
	AreaM2   float64        `json:"areaM2"`
	Trays    Trays          `json:"trays"`
	Bedding  Bedding        `json:"bedding"`
	Steps    []Step         `json:"steps"`
	Whole    Reach          `json:"everything"`
	Cheaper  []Option       `json:"cheaper"`
	Cautions []Code         `json:"cautions"`
}

// What sets the stock.
const (
	ByAppetite Code = "by-appetite"
	LeastStock Code = "least-stock"
)

// The cautions.
const (
	JumpingCaution Code = "jumping-worms"   // law and field marks; no numbers
	CheckName      Code = "check-name"      // trade names are no species
	NoRelease      Code = "no-release"      // local rules decide; never outdoors
	AnotherRoom    Code = "another-room"    // no species lives through this year here
	WrongSpecies   Code = "wrong-species"   // the one asked for does not live through it
	HotDays        Code = "hot-days"        // a monthly mean hides hotter days
	ColdDays       Code = "cold-days"       // and colder ones
	BigKitchen     Code = "more-than-a-bin" // the surface takes several stacks
)

// Trays is what to put the surface into.
type Trays struct {
	Width  units.Millimetres `json:"widthMM"`
	Depth  units.Millimetres `json:"depthMM"`
	Fed    int               `json:"fed"`    // hold fresh food at a time
	All    int               `json:"all"`    // with those that ripen and one to spare
	Stacks int               `json:"stacks"` // side by side
}

// Bedding is what day 0 takes, all fed trays together.
type Bedding struct {
	Litres float64 `json:"litres"` // loose
	PaperG float64 `json:"paperG"` // shredded newspaper or plain cardboard, dry
	Water  float64 `json:"waterMl"`
	SoilG  float64 `json:"soilG"`
}

// ErrNothing says that neither scraps nor people were named.
var ErrNothing = errors.New("say what the kitchen makes a week, or how many people it feeds")

// Make plans a bin. It refuses a kitchen that makes nothing or more than MostWeek,
// and a room whose warmest month is colder than its coldest.
func Make(a Ask) (Plan, error) {
	if Jumping(a.Species) {
		return Plan{Species: JumpingWorms, Suits: []Suit{}, Steps: []Step{}, Cheaper: []Option{}, Cautions: []Code{JumpingCaution, NoRelease}}, nil
	}
	if a.Species != "" && !slices.Contains(Species(), a.Species) {
		return Plan{}, fmt.Errorf("there are no numbers for a species %q; there are for %v", a.Species, Species())
	}
	scraps := Span{float64(a.ScrapsWeek), float64(a.ScrapsWeek), float64(a.ScrapsWeek)}
	if a.ScrapsWeek == 0 {
		n := float64(a.People)
		scraps = Span{float64(n * perPerson), float64(n * perPersonLow), float64(n * perPersonHigh)}
	}
	switch {
	case !(scraps.Mid > 0):
		return Plan{}, ErrNothing
	case scraps.Mid > MostWeek:
		return Plan{}, fmt.Errorf("%.0f kg of scraps a week is more than bins for a household take; plan for %d kg or less", scraps.Mid/1000, MostWeek/1000)
	case a.Room.Warmest < a.Room.Coolest:
		return Plan{}, errors.New("the warmest month cannot be colder than the coldest: swap the two")
	}
	p := Plan{Scraps: scraps, Suits: suits(a.Room), Species: a.Species}
	if p.Species == "" {
		p.Species = p.Suits[0].Species
	}
	r := colony.RatesOf(p.Species)
	p.size(r.Appetite.Mid, a.Width, a.Depth)
	p.Steps = steps(a.Room, a.Start)
	keep := household{rates: r, room: a.Room, areaM2: p.AreaM2, kitchen: scraps.Mid / 7, start: worms(p.Steps, a.Start)}
	p.Whole = keep.reach(p.WormsG)
	p.Cheaper = keep.options(p)
	p.Cautions = cautions(p, a)
	return p, nil
}

// size sets worms, surface, trays and bedding by the scraps.
func (p *Plan) size(appetite float64, width, depth units.Millimetres) {
	p.WormsG, p.WormsBy = stock(p.Scraps.Mid, appetite)
	p.AreaM2 = math.Ceil(max(float64(p.Scraps.Mid*areaPerGram), p.WormsG/densest)*1000) / 1000
	p.Trays = traysFor(p.AreaM2, width, depth)
	p.Bedding = BeddingFor(float64(p.AreaM2*BedDepth), p.Trays.Fed) // a millimetre on a m² is a litre
}

// stock returns the worms to buy: those that eat the kitchen's scraps when they
// have room and warmth, rounded up to 50 g, and never less than a pound. At half
// their weight a day a pound eats 3.5 lb a week (NYC Compost Project 2012).
func stock(week, appetite float64) (float64, Code) {
	g := math.Ceil(week/7/appetite/50) * 50
	if least := math.Floor(onePound/50) * 50; g <= least {
		return least, LeastStock
	}
	return g, ByAppetite
}

// traysFor divides the surface into trays: those that are fed, as many that
// ripen, since a tray takes about as long to ripen as it was fed, and one to spare.
func traysFor(areaM2 float64, width, depth units.Millimetres) Trays {
	if width <= 0 || depth <= 0 {
		width, depth = usualWidth, usualDepth
	}
	one := float64(int64(width)*int64(depth)) / 1e6
	// A twentieth of a tray is within what the rule is good for.
	t := Trays{Width: width, Depth: depth, Fed: max(1, int(math.Ceil(areaM2/one-0.05)))}
	t.All = 2*t.Fed + 1
	t.Stacks = (t.Fed + fedInStack - 1) / fedInStack
	return t
}

// BeddingFor returns the paper, water and soil that so many litres of new bedding
// in so many trays take.
func BeddingFor(litres float64, trays int) Bedding {
	b := Bedding{Litres: roundTo(litres, 10), PaperG: roundTo(litres*paperPerLitre, 1), SoilG: float64(trays * soilPerTray)}
	if paper, err := feedstock.Standard().Ingredient("newsprint", 0); err == nil {
		paper.Grams = b.PaperG
		ml, _ := feedstock.WaterFor(soaked, paper) // an empty bed takes none
		b.Water = roundTo(ml, 1)
	}
	return b
}

// Species lists the species that have numbers.
func Species() []record.Species {
	list := []record.Species{}
	for _, b := range bands {
		list = append(list, b.species)
	}
	return append(list, record.NotSure)
}

// Jumping reports whether a name means jumping worms.
func Jumping(s record.Species) bool { return record.Jumping(s) }

// cautions lists what must be said beside the numbers.
func cautions(p Plan, a Ask) []Code {
	list := []Code{CheckName, NoRelease}
	low, high := extremes(a.Room)
	b := bandOf(p.Species)
	switch {
	case p.Suits[0].Fit == Unfit:
		list = append(list, AnotherRoom)
	case low < b.low || high > b.high:
		list = append(list, WrongSpecies)
	}
	if high > b.to {
		list = append(list, HotDays)
	}
	if low < b.from {
		list = append(list, ColdDays)
	}
	if p.Trays.Stacks > 2 {
		list = append(list, BigKitchen)
	}
	return list
}
