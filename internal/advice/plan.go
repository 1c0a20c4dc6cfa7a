package advice

import (
	"slices"

	"trayside/internal/colony"
	"trayside/internal/plan"
	"trayside/internal/record"
	"trayside/internal/units"
)

// PlanAsk is what a household says of itself before there is a bin. Zero is
// "nobody said", but for the two temperatures, which count where Room is true.
type PlanAsk struct {
	Week    int64  `json:"week,omitempty"` // g of scraps a week; 0 to reckon from People
	People  int    `json:"people,omitempty"`
	Room    bool   `json:"room,omitempty"`
	Coolest int64  `json:"coolest,omitempty"` // 0.1 °C, mean of the coldest month
	Warmest int64  `json:"warmest,omitempty"`
	Species string `json:"species,omitempty"` // "" for the one that suits best
	Width   int64  `json:"width,omitempty"`   // mm, of one tray
	Depth   int64  `json:"depth,omitempty"`
}

// What keeps a plan from being made.
const (
	PlanNothing = "nothing"  // neither scraps nor people were named
	PlanTooMuch = "too-much" // more than bins of a household take
	PlanRoom    = "room"     // the warmest month is colder than the coldest
)

// PlanView is a bin that does not exist yet, or what the record tells of the
// kitchen and the room (Known) until somebody asks.
type PlanView struct {
	Day   string  `json:"day"`
	Mass  string  `json:"mass"`
	Temp  string  `json:"temp"`
	Known PlanAsk `json:"known"`
	MostG int64   `json:"mostG"` // scraps a week beyond which there is no plan
	Why   string  `json:"why,omitempty"`
	Made  *Made   `json:"made,omitempty"`
}

// Made is a plan. Masses in g.
type Made struct {
	Species string       `json:"species"`
	Suits   []PlanSuit   `json:"suits"`  // the best first
	Scraps  Span         `json:"scraps"` // a week
	Worms   int64        `json:"worms"`
	WormsBy string       `json:"wormsBy"` // what set it, a code of package plan
	AreaCM2 int64        `json:"areaCM2"`
	Width   int64        `json:"width"` // mm, of a tray
	Depth   int64        `json:"depth"`
	Fed     int          `json:"fed"`    // trays that hold fresh food at a time
	All     int          `json:"all"`    // with those that ripen and one to spare
	Stacks  int          `json:"stacks"` // side by side
	BedML   int64        `json:"bedML"`  // loose bedding
	Paper   int64        `json:"paper"`
	Water   int64        `json:"water"` // ml
	Soil    int64        `json:"soil"`
	Steps   []PlanStep   `json:"steps"`
	Whole   PlanReach    `json:"whole"`
	Cheaper []PlanOption `json:"cheaper"`
	Caution []string     `json:"caution"`
}

// PlanSuit is a species with what speaks for and against it here.
type PlanSuit struct {
	Species string   `json:"species"`
	Fit     string   `json:"fit"` // suits, copes, no
	Reasons []string `json:"reasons"`
	Low     int64    `json:"low"` // 0.1 °C, limits of the bed
	High    int64    `json:"high"`
}

// PlanStep is one thing to do from a day on; without a day no day of the coming
// year fits.
type PlanStep struct {
	Code string `json:"code"`
	Day  string `json:"day,omitempty"`
	Late string `json:"late,omitempty"` // better not after
}

// PlanReach says when a colony eats everything, in days after the worms came.
// Never is true where that is not within two years; Late where it may not be.
type PlanReach struct {
	Days  Span `json:"days"`
	Never bool `json:"never,omitempty"`
	Late  bool `json:"late,omitempty"`
	Year1 int  `json:"year1"` // per cent of the kitchen's scraps
	Year2 int  `json:"year2"`
	Lives int  `json:"lives"` // per cent of the runs that live through two years
}

// PlanOption is a way to spend less.
type PlanOption struct {
	Code  string     `json:"code"`
	Worms int64      `json:"worms"` // 0 where it is not about worms
	Whole *PlanReach `json:"whole,omitempty"`
	Later int64      `json:"later"` // days later than with the full stock
	Week  int64      `json:"week"`  // scraps a week that it takes, 0 where not asked
}

// Plan sizes a bin for what was asked.
func (a *Advice) Plan(ask PlanAsk) PlanView {
	v := PlanView{Day: a.day.String(), Mass: a.mass(), Temp: a.temp(), MostG: plan.MostWeek, Known: a.knownPlan()}
	in := plan.Ask{
		ScrapsWeek: units.Grams(max(0, ask.Week)), People: max(0, ask.People), Species: record.Species(ask.Species), Start: a.day,
		Width: units.Millimetres(max(0, ask.Width)), Depth: units.Millimetres(max(0, ask.Depth)),
		Room: colony.Room{South: southern(a.h.Zone)},
	}
	if !slices.Contains(plan.Species(), in.Species) && !plan.Jumping(in.Species) {
		in.Species = "" // of another version: the one that suits best
	}
	if ask.Room {
		in.Room.Coolest, in.Room.Warmest = units.DeciCelsius(ask.Coolest), units.DeciCelsius(ask.Warmest)
		if in.Room.Coolest == 0 && in.Room.Warmest == 0 {
			in.Room.Warmest = 1 // two zeros would stand for a room that nobody described
		}
	}
	switch {
	case ask == (PlanAsk{}):
		return v
	case in.ScrapsWeek == 0 && in.People == 0:
		v.Why = PlanNothing
	case in.Room.Warmest < in.Room.Coolest:
		v.Why = PlanRoom
	default:
		p, err := plan.Make(in)
		if err != nil { // the rest was seen to above
			v.Why = PlanTooMuch
			return v
		}
		v.Made = madeOf(p)
	}
	return v
}

// knownPlan is what the record tells of a kitchen and a room, for the form to
// begin with.
func (a *Advice) knownPlan() PlanAsk {
	k := KitchenOf(a.h, a.day)
	ask := PlanAsk{Week: int64(record.Total(k.Week)), Room: k.Room}
	if k.Room {
		ask.Coolest, ask.Warmest = int64(k.Coolest), int64(k.Warmest)
	}
	return ask
}

func madeOf(p plan.Plan) *Made {
	m := &Made{
		Species: string(p.Species), Suits: []PlanSuit{}, Scraps: planSpan(p.Scraps), Worms: units.Nearest(p.WormsG), WormsBy: string(p.WormsBy),
		AreaCM2: units.Nearest(p.AreaM2 * 10_000), Width: int64(p.Trays.Width), Depth: int64(p.Trays.Depth),
		Fed: p.Trays.Fed, All: p.Trays.All, Stacks: p.Trays.Stacks,
		BedML: units.Nearest(p.Bedding.Litres * 1000), Paper: units.Nearest(p.Bedding.PaperG), Water: units.Nearest(p.Bedding.Water), Soil: units.Nearest(p.Bedding.SoilG),
		Steps: []PlanStep{}, Whole: reachOf(p.Whole), Cheaper: []PlanOption{}, Caution: codesOf(p.Cautions),
	}
	for _, s := range p.Suits {
		m.Suits = append(m.Suits, PlanSuit{string(s.Species), string(s.Fit), codesOf(s.Reasons), units.Nearest(s.LowC * 10), units.Nearest(s.HighC * 10)})
	}
	for _, s := range p.Steps {
		m.Steps = append(m.Steps, PlanStep{string(s.Code), dayOrNone(s.Day), dayOrNone(s.Late)})
	}
	for _, o := range p.Cheaper {
		option := PlanOption{Code: string(o.Code), Worms: units.Nearest(o.WormsG), Later: units.Nearest(o.Later), Week: units.Nearest(o.WeekG)}
		if o.Whole != nil {
			r := reachOf(*o.Whole)
			option.Whole = &r
		}
		m.Cheaper = append(m.Cheaper, option)
	}
	return m
}

func reachOf(r plan.Reach) PlanReach {
	percent := func(share float64) int { return int(units.Nearest(share * 100)) }
	return PlanReach{
		Days: planSpan(r.Days), Never: r.Chance == 0 || r.Days.Mid >= plan.Horizon, Late: r.Days.High >= plan.Horizon,
		Year1: percent(r.Year1), Year2: percent(r.Year2), Lives: percent(r.Lives),
	}
}

func planSpan(s plan.Span) Span { return spanOf(colony.Span(s), 1) }

func dayOrNone(d record.Day) string {
	if d == 0 {
		return ""
	}
	return d.String()
}

func codesOf(list []plan.Code) []string {
	codes := make([]string, 0, len(list))
	for _, c := range list {
		codes = append(codes, string(c))
	}
	return codes
}
