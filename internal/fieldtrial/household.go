package fieldtrial

import (
	"math"
	"math/rand/v2"

	"trayside/internal/units"
)

// Household is a virtual household, its worms' nature, and all that will happen
// to it in a year. Nothing in it depends on how it feeds.
type Household struct {
	Bought float64 // g of worms as the label said
	Put    float64 // g that really came
	AreaM2 float64
	Side   float64 // mm, of a square tray
	Height float64 // mm
	Every  int     // days between meals
	Rule   float64 // of the starting mass a day, by the fixed rule
	Start  int     // day of the year
	Room   [2]float64
	Said   [2]float64 // what the household takes its room to be
	Store  float64    // g of scraps that caddy and freezer hold
	Meter  bool       // has a thermometer in the bed

	nature nature
	days   [Days]dayOf
	seed   uint64 // of the worms' own draws
}

// nature is what is true of a household's worms and bed and what nobody knows.
type nature struct {
	appetite, cocoons, kitchen, hatch, litter, incubate, childhood float64
	grow, survive, die, size, ceiling, surface, climb, decay, keep float64
	mild                                                           float64 // 1: the cold slows them as Arrhenius' law has it, 0: as guides do
}

// dayOf is what one day brings.
type dayOf struct {
	bedC, moist float64
	scraps      float64 // g from the kitchen
	meal        bool    // somebody goes to the bin
	ignored     bool    // and tips in the caddy, whatever the rule
	logged      bool    // and writes it down
	guess       float64 // what went in, of what was meant
	soft, rot   float64 // of what went in: soft share; decay relative to the usual
	misread     float64 // 0 to 1: a small one and a large one misread the leftovers
	reads       float64 // error of a reading, °C
	squeezed    bool
}

// How people are. All of it is judgement, and meant to be harder than life.
const (
	unlogged  = 0.30 // feedings that nobody writes down
	guessed   = 0.40 // amounts lie this far off at most …
	handed    = 0.20 // … of which this far always the same way in one household
	misreads  = 0.15 // looks that come out one word wrong
	ignores   = 0.06 // meals for which the caddy is tipped in, whatever the rule says
	forgetful = 0.15 // meals that come a day late
)

// Draw draws a household.
func Draw(r *rand.Rand) *Household {
	h := &Household{seed: r.Uint64()}
	h.nature = nature{
		appetite: byRatio(r, appetites), cocoons: byRatio(r, cocoons), kitchen: byRatio(r, kitchens),
		hatch: evenly(r, hatching), litter: evenly(r, litters), incubate: byRatio(r, incubations),
		childhood: byRatio(r, childhoods), grow: evenly(r, growths), survive: byRatio(r, survivals), die: byRatio(r, deaths),
		size: byRatio(r, sizes), ceiling: byRatio(r, ceilings), surface: byRatio(r, surfaces),
		climb: byRatio(r, climbs), decay: byRatio(r, decays), keep: evenly(r, keeps), mild: r.Float64(),
	}
	h.Bought = math.Round(byRatio(r, span{250, 1000})/50) * 50
	h.Put = h.Bought * evenly(r, span{0.8, 1.1})
	// At most about a pound to the square foot: common practice.
	h.AreaM2 = max(evenly(r, span{0.10, 0.22}), h.Bought/4900)
	h.Side = math.Round(math.Sqrt(h.AreaM2)*100) * 10
	h.AreaM2 = h.Side * h.Side / 1e6
	h.Height = evenly(r, span{140, 220})
	h.Every = 2 + r.IntN(3)
	h.Rule = evenly(r, span{0.25, 1.0 / 3})
	h.Start = r.IntN(365)
	h.room(r)
	weekly := byRatio(r, span{800, 4000}) // g of scraps; one to five people, judgement
	h.Store = weekly
	if r.IntN(2) == 0 {
		h.Store = 3 * weekly // a drawer of the freezer
	}
	h.Meter = r.IntN(3) == 0
	h.weather(r)
	h.kitchen(r, weekly)
	h.people(r)
	return h
}

// room draws where the bin stands: seven of ten indoors, the rest in cellars,
// sheds and garages. The household knows it to about two degrees.
func (h *Household) room(r *rand.Rand) {
	cold, warm := span{15, 20}, span{21, 26}
	if r.Float64() < 0.3 {
		cold, warm = span{5, 12}, span{20, 28}
	}
	h.Room = [2]float64{evenly(r, cold), evenly(r, warm)}
	for i, c := range h.Room {
		h.Said[i] = math.Round(c + evenly(r, span{-2, 2}))
	}
}

// weather draws bed temperature and moisture day by day: a season whose coldest
// day lies within two weeks of 20 January, and noise that lasts.
func (h *Household) weather(r *rand.Rand) {
	coldest := 20 + evenly(r, span{-14, 14})
	swing := evenly(r, span{0.7, 1.8}) // °C, of the noise
	wet := evenly(r, span{70, 82})
	var noise, damp float64
	for i := range h.days {
		noise = 0.85*noise + math.Sqrt(1-0.85*0.85)*swing*r.NormFloat64()
		damp = 0.97*damp + math.Sqrt(1-0.97*0.97)*4*r.NormFloat64()
		t := 2 * math.Pi * (float64(h.Start+i) - coldest) / 365.25
		h.days[i].bedC = (h.Room[0]+h.Room[1])/2 - (h.Room[1]-h.Room[0])/2*math.Cos(t) + noise
		h.days[i].moist = wet + damp
	}
}

// kitchen draws the scraps: weeks differ by half, days by more, none while away.
func (h *Household) kitchen(r *rand.Rand, weekly float64) {
	var week float64
	for i := range h.days {
		if i%7 == 0 {
			week = weekly * units.Exp(0.4*r.NormFloat64()-0.08)
		}
		h.days[i].scraps = week / 7 * (0.25 + 1.5*r.Float64())
	}
	for range r.IntN(4) { // journeys of four days to three weeks
		from, long := r.IntN(Days), 4+r.IntN(18)
		for i := from; i < min(from+long, Days); i++ {
			h.days[i].scraps = -1
		}
	}
}

// people draws who goes to the bin when, and how sloppily.
func (h *Household) people(r *rand.Rand) {
	hand := 1 + evenly(r, span{-handed, handed})
	next := 2
	for i := range h.days {
		d := &h.days[i]
		d.logged = r.Float64() >= unlogged
		d.ignored = r.Float64() < ignores
		d.guess = hand + evenly(r, span{-(guessed - handed), guessed - handed})
		d.soft, d.rot = evenly(r, span{0.85, 1}), evenly(r, span{0.7, 1.3})
		d.misread, d.reads, d.squeezed = r.Float64(), r.NormFloat64(), r.IntN(2) == 0
		late := r.Float64() < forgetful
		if away := d.scraps < 0; away {
			d.scraps = 0
			next = max(next, i+1)
			continue
		}
		if i >= next && !late {
			d.meal, next = true, i+h.Every
		}
	}
}

func evenly(r *rand.Rand, s span) float64 { return s.low + (s.high-s.low)*r.Float64() }

// byRatio draws so that a doubling is as likely anywhere in the range.
func byRatio(r *rand.Rand, s span) float64 {
	return s.low * units.Exp(units.Log(s.high/s.low)*r.Float64())
}
