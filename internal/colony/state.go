package colony

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
	// A worm's size is the cube root of what it weighs when it is well fed,
	// g^(1/3): in it growth is a straight approach. The mean of each sub-stage of
	// the young, and of all adults. Hunger does not shrink it: Flesh shrinks and
	// fattens.
	YoungSize [youngSteps]float64
	AdultSize float64
	Flesh     float64   // condition: body mass as a share of the well-fed one
	Fed       float64   // share of the appetite met, mean of about foodMemory days
	Traits              // what makes this colony another than its species' middle
	Share     []float64 // of the worms, in each tray; sums to 1 once there are any
	Food      []Morsel  // oldest first
	Sums      Sums
}

// Traits are a colony's own factors on what is usual for its species; 1 is the
// middle. Looks move the first two; an ensemble draws all of them.
type Traits struct {
	Hunger  float64 // on the appetite
	Broad   float64 // on what the surface takes
	Fertile float64 // on the laying
	Frail   float64 // on the ordinary deaths
	Roomy   float64 // on the capacity
	Slow    float64 // on the time that worms take to follow food into another tray
	Sparing float64 // share of a full meal that bedding alone stands for; 0 in the middle run
}

// usualTraits is a species' middle.
var usualTraits = Traits{Hunger: 1, Broad: 1, Fertile: 1, Frail: 1, Roomy: 1, Slow: 1}

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
	Laid                    float64   // cocoons laid in the last step
	ByTray                  []float64 // eaten, rotted and corrected, in each tray since it was bedded
}

// Conditions are what one day does to a bin.
type Conditions struct {
	BedC  float64 // °C
	Moist float64 // % moisture, wet basis
	PH    float64 // 0 for nobody measured it
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
		YoungSize: rates.youngSize, AdultSize: rates.adultSize, Flesh: 1, Fed: 1, Traits: usualTraits,
		Share: make([]float64, n), Sums: Sums{ByTray: make([]float64, n)},
	}
}

// Clone returns a copy that shares nothing with s.
func (s *State) Clone() State {
	c := *s
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
	m := float64(s.Adults() * cube(s.AdultSize))
	for i, n := range s.Young {
		m += float64(n * cube(s.YoungSize[i]))
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
	w := weather{eat: r.Eat.at(c.BedC), damp: r.damp(c.Moist, c.PH)}
	return s.factors(r, &w, c.Tiers, s.Mass(r))
}

func (s *State) factors(r *Rates, w *weather, tiers []Tier, mass float64) Factors {
	f := Factors{Warmth: w.eat, Damp: w.damp, Room: s.room(r, tiers, mass)}
	f.Crowd = crowdedAppetite + float64((1-crowdedAppetite)*f.Room)
	return f
}

// room is how much space the average worm finds, 1 for all of it.
func (s *State) room(r *Rates, tiers []Tier, mass float64) float64 {
	capacity := float64(r.Capacity.Mid * s.Roomy)
	var free, all float64
	for i, share := range s.Share {
		if share <= 0 || tiers[i].AreaM2 <= 0 {
			continue
		}
		density := float64(mass*share) / tiers[i].AreaM2
		free += float64(share * max(0, 1-density/capacity))
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
	w := r.weather(c.BedC, c.Moist, c.PH)
	s.step(r, &w, c.Tiers)
}

func (s *State) step(r *Rates, w *weather, tiers []Tier) {
	mass := s.Mass(r)
	f := s.factors(r, w, tiers, mass)
	s.rot(w.rot)
	met := s.eat(r, tiers, f, mass)
	met += float64((1 - met) * s.Sparing)
	s.Fed += float64((met - s.Fed) / foodMemory)
	s.climb(tiers)
	s.live(r, w, f)
}

// climb moves worms toward where the food is.
func (s *State) climb(tiers []Tier) {
	if len(s.Share) == 1 {
		return
	}
	goal := s.goal(tiers)
	if sum(goal[:len(s.Share)]) <= 0 || sum(s.Share) <= 0 {
		return
	}
	days := float64(climbDays * s.Slow)
	for i := range s.Share {
		s.Share[i] += float64((goal[i] - s.Share[i]) / days)
	}
}

// drawsG is the food that draws worms into a tray as strongly as any amount
// does, g: a handful, judgement.
const drawsG = 20.0

// goal is the share of the worms that each tray would hold if the day lasted;
// all zero when no tray draws any.
func (s *State) goal(tiers []Tier) [maxTrays]float64 {
	var pulls [maxTrays]float64
	var all float64
	for i := range s.Share {
		pulls[i] = tiers[i].Pull
		if food := s.softIn(i); tiers[i].InUse && food > 0 {
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

// clear takes out all food of a tray that is emptied. Its worms join the
// others, or tray host if there are none.
func (s *State) clear(tray, host int) {
	kept := s.Food[:0]
	for _, m := range s.Food {
		if m.Tray == tray {
			s.Sums.Out += m.Left
			continue
		}
		kept = append(kept, m)
	}
	s.Food = kept
	s.Sums.ByTray[tray] = 0
	moved := s.Share[tray]
	s.Share[tray] = 0
	if rest := sum(s.Share); rest > 0 {
		for i := range s.Share {
			s.Share[i] = float64(s.Share[i] / rest)
		}
	} else if moved > 0 {
		s.Share[host] = 1
	}
}

// moveTo raises the share of one tray to at least share, at the others' cost.
func (s *State) moveTo(tray int, share float64) {
	if len(s.Share) == 1 || s.Share[tray] >= share {
		return
	}
	keep := (1 - share) / (1 - s.Share[tray])
	for i := range s.Share {
		s.Share[i] = float64(s.Share[i] * keep)
	}
	s.Share[tray] = share
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

// rot lets microbes take their part of every morsel; warm is their speed, 1 at
// 20 °C.
func (s *State) rot(warm float64) {
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
