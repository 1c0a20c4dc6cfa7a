package colony

import (
	"math"

	"trayside/internal/units"
)

// The stages pass through sub-stages, so that hatching and growing up take real
// time with a spread: mean 1, standard deviation about 1/√n of it.
const (
	cocoonSteps = 10
	youngSteps  = 12
	layingSteps = 4
)

// State is a colony and its food at one moment. It is a value: Clone it and
// step the copies apart.
type State struct {
	Cocoon [cocoonSteps]float64
	Young  [youngSteps]float64      // heads
	Adult  [layingSteps + 1]float64 // heads; the last is past laying
	AdultG float64                  // g, a well-fed adult's mean mass
	Flesh  float64                  // condition: body mass as a share of the well-fed one
	Fed    float64                  // share of the appetite met, mean of about foodMemory days
	Hunger float64                  // this colony's appetite as a factor on its species'; looks move it
	Broad  float64                  // what the surface takes as a factor on the usual; looks move it
	Bound  []bool                   // by tray: the surface, not the appetite, left food lying the last time some was
	Share  []float64                // of the worms, in each tray; sums to 1 once there are any
	Food   []Morsel                 // oldest first
	Sums   Sums
}

// Morsel is the soft part of one kind of scrap of one meal.
type Morsel struct {
	Meal   int // index of the meal
	Part   int // index of the part in it
	Tray   int // index of the tray
	Appeal float64
	Rot    float64
	Fed    float64 // g when fed
	Left   float64 // g
}

// Sums are the food's books, in g of the soft part since the beginning:
// Fed = Eaten + Rotted + Out + Corrected + what is left.
type Sums struct {
	Fed, Eaten, Rotted, Out float64
	Corrected               float64   // what looks took away (positive) or put back
	Night                   float64   // eaten by the worms in the last step
	ByTray                  []float64 // eaten, rotted and corrected, in each tray since it was bedded
}

// Conditions are what one day does to a bin.
type Conditions struct {
	BedC  float64 // °C
	Moist float64 // % moisture, wet basis
	Tiers []Tier
}

// Tier is a tray on one day.
type Tier struct {
	AreaM2 float64
	Pull   float64 // how strongly it draws worms when no food lies in it; 0 for none
	InUse  bool    // holds a batch
}

// NewState returns an empty bin with n trays.
func NewState(rates *Rates, n int) State {
	return State{
		AdultG: rates.AdultG.Mid, Flesh: 1, Fed: 1, Hunger: 1, Broad: 1,
		Bound: make([]bool, n), Share: make([]float64, n), Sums: Sums{ByTray: make([]float64, n)},
	}
}

// Clone returns a copy that shares nothing with s.
func (s *State) Clone() State {
	c := *s
	c.Bound = append([]bool(nil), s.Bound...)
	c.Share = append([]float64(nil), s.Share...)
	c.Food = append([]Morsel(nil), s.Food...)
	c.Sums.ByTray = append([]float64(nil), s.Sums.ByTray...)
	return c
}

// Cocoons, Youngs and Adults return heads.
func (s *State) Cocoons() float64 { return sum(s.Cocoon[:]) }

// Youngs returns the juveniles' heads.
func (s *State) Youngs() float64 { return sum(s.Young[:]) }

// Adults returns the adults' heads.
func (s *State) Adults() float64 { return sum(s.Adult[:]) }

// Mass returns g of live worms, cocoons not counted.
func (s *State) Mass(r *Rates) float64 {
	m := float64(s.Adults() * s.AdultG)
	for i, n := range s.Young {
		m += float64(n * r.youngG[i])
	}
	return float64(m * s.Flesh)
}

// Factors are what a day leaves of the appetite, each 0 to 1.
type Factors struct {
	Warmth, Damp, Crowd float64
	Room                float64 // 1 − density/capacity, mean over the worms
}

// Factors returns what the conditions leave of the appetite.
func (s *State) Factors(r *Rates, c *Conditions) Factors {
	f := Factors{Warmth: r.Eat.at(c.BedC), Damp: r.Moist.at(c.Moist), Room: s.room(r, c)}
	f.Crowd = crowdedAppetite + float64((1-crowdedAppetite)*f.Room)
	return f
}

// room is how much space the average worm finds, 1 for all of it.
func (s *State) room(r *Rates, c *Conditions) float64 {
	mass := s.Mass(r)
	var free, all float64
	for i, share := range s.Share {
		if share <= 0 || c.Tiers[i].AreaM2 <= 0 {
			continue
		}
		density := float64(mass*share) / c.Tiers[i].AreaM2
		free += float64(share * max(0, 1-density/r.Capacity.Mid))
		all += share
	}
	if all <= 0 {
		return 1
	}
	return free / all
}

// Step runs one day: microbes and worms eat, worms climb, then the colony
// breeds, grows and dies. It is deterministic and draws nothing from outside.
func (s *State) Step(r *Rates, c *Conditions) {
	f := s.Factors(r, c)
	s.rot(c)
	met := s.eat(r, c, f)
	s.Fed += float64((met - s.Fed) / foodMemory)
	s.climb(c)
	s.live(r, c, f)
}

// live ages every stage by one day.
func (s *State) live(r *Rates, c *Conditions, f Factors) {
	food := min(1, s.Fed)
	grow := float64(crowdedGrowth+float64((1-crowdedGrowth)*f.Room)) * food * f.Damp

	// Deaths: the ordinary ones, heat and cold, starving.
	extra := r.Kill.at(c.BedC)
	if s.Flesh < starveBelow {
		extra += float64(starveADay * (starveBelow - s.Flesh) / (starveBelow - leanest))
	}
	keepAdult := max(0, 1-r.Die.Mid-extra)
	pace := r.YoungPace.at(c.BedC) / r.YoungBest
	// Deaths on the way to maturity: ln(1/survive) spread over the growing time.
	lost := float64(-units.Log(r.Survive.Mid)*pace) * (1 + float64(crowdedDeaths*(1-f.Room)))
	keepYoung := max(0, 1-max(lost, r.Die.Mid)-extra)
	keepCocoon := 1.0
	if c.BedC > 32 { // cocoons outlast drought and cold, not heat: judgement
		keepCocoon = max(0, 1-extra)
	}

	laid := 0.0
	if food > layingStops {
		layers := sum(s.Adult[:layingSteps]) + float64(lateLaying*s.Adult[layingSteps])
		hungry := float64(food * math.Sqrt(food)) // to the power 1.5: judgement
		laid = float64(float64(layers*r.Cocoons.Mid/7*r.Household.Mid) * r.Lay.at(c.BedC) * f.Damp * hungry * f.Room)
	}

	hatched := advance(s.Cocoon[:], laid, max(0, c.BedC-r.CocoonBase)/r.CocoonDays, keepCocoon)
	if c.BedC >= 35 {
		hatched = 0 // nothing develops there: judgement
	}
	born := float64(hatched * r.Hatch.Mid * r.Hatchlings.Mid)
	grown := advance(s.Young[:], born, float64(pace*grow), keepYoung)

	before := s.Adults()
	advance(s.Adult[:layingSteps], 0, 0, keepAdult)
	s.Adult[layingSteps] = float64(s.Adult[layingSteps] * keepAdult)
	s.Adult[layingSteps] += advance(s.Adult[:layingSteps], grown, 1/daysOfYouth, 1)
	if before = float64(before * keepAdult); before+grown > 0 {
		s.AdultG = (float64(before*s.AdultG) + float64(grown*r.MatureG)) / (before + grown)
	}
	s.AdultG += float64((r.AdultG.Mid - s.AdultG) * adultGrowth * grow)

	// Condition follows the food of the last days, slowly.
	goal := fleshOf.at(food)
	s.Flesh = max(s.Flesh-shrinkADay, min(s.Flesh+fattenADay, goal))
}

// advance moves heads through the sub-stages of one stage: a share keep
// survives, in joins the first, and what leaves the last is returned. progress
// is the share of the whole stage that one day is worth.
func advance(stage []float64, in, progress, keep float64) float64 {
	move := min(1, float64(progress*float64(len(stage))))
	for i, n := range stage {
		n = float64(n * keep)
		out := float64(n * move)
		stage[i] = n - out + in
		in = out
	}
	return in
}

// climb moves worms toward where the food is.
func (s *State) climb(c *Conditions) {
	goal := s.goal(c)
	if sum(goal[:len(s.Share)]) <= 0 || sum(s.Share) <= 0 {
		return
	}
	for i := range s.Share {
		s.Share[i] += float64((goal[i] - s.Share[i]) / climbDays)
	}
}

// drawsG is the food that draws worms into a tray as strongly as any amount
// does, g: a handful, judgement.
const drawsG = 20.0

// goal is the share of the worms that each tray would hold if the day lasted;
// all zero when no tray draws any.
func (s *State) goal(c *Conditions) [maxTrays]float64 {
	var pulls [maxTrays]float64
	var all float64
	for i := range s.Share {
		pulls[i] = c.Tiers[i].Pull
		if food := s.softIn(i); c.Tiers[i].InUse && food > 0 {
			pulls[i] += float64((1 - pulls[i]) * min(1, food/drawsG))
		}
		all += pulls[i]
	}
	if all > 0 {
		for i := range s.Share {
			pulls[i] = pulls[i] / all
		}
	}
	return pulls
}

// maxTrays is how many trays of one bin the model follows; a taller pile than
// this is no household's.
const maxTrays = 32

func (s *State) softIn(tray int) float64 {
	var g float64
	for i := range s.Food {
		if s.Food[i].Tray == tray {
			g += s.Food[i].Left
		}
	}
	return g
}

// rot lets microbes take their part of every morsel.
func (s *State) rot(c *Conditions) {
	warm := 0.0
	if c.BedC > 0 {
		warm = units.Pow(rotDoubles, (c.BedC-20)/10)
	}
	for i := range s.Food {
		m := &s.Food[i]
		taken := float64(m.Left * min(1, float64(m.Rot*warm)))
		m.Left -= taken
		s.Sums.Rotted += taken
		s.Sums.ByTray[m.Tray] += taken
	}
}

func sum(xs []float64) float64 {
	var t float64
	for _, x := range xs {
		t += x
	}
	return t
}
