package fieldtrial

// Outcome is how a household's year went under a policy.
type Outcome struct {
	Days     int
	Overfed  int     // days with more lying than three days' appetite
	ByRule   int     // days of these on which nobody had ignored the rule lately
	Hungry   int     // days on which worms wanted more and nothing was left
	Made     float64 // g of scraps that the kitchen made
	Used     float64 // g of it that went into the bin
	StartG   float64 // g of live worms
	EndG     float64
	Castings float64 // g, moist
	Meals    int
	Looks    int
	Starved  bool // a spiral: see starvedDays
	Heaped   bool // a spiral: see heapedDays

	// Only where the advice is followed.
	Sights   []Sight
	Promises []Promise // those that time has settled
}

// Sight is what the advice believed on a day that it was asked, beside the truth.
type Sight struct {
	Day            int
	Live           Believed // g of worms in the whole bin
	Fed            Believed // g of worms in the tray that takes food
	Grams          float64  // the ration
	Could          float64  // g that the worms there really ate in a day at most
	Lying          float64  // g that really lay there
	Sure, Binds    string
	Asked, JobLook bool
}

// Promise is one that was given for a meal that then went in as advised, once it is
// settled.
type Promise struct {
	Chance int  // %, as said
	Kept   bool // gone by the day named
	Spread bool // gone within the span
}

// Believed is an estimate with its 80 % interval and the truth.
type Believed struct{ Low, Mid, High, True float64 }

// Holds reports whether the interval holds the truth.
func (b Believed) Holds() bool { return b.Low <= b.True && b.True <= b.High }

// What is called a day overfed and a day hungry.
const (
	overfedDays = 3    // of the appetite of the worms that reach the food
	trifle      = 25.0 // g that is never too much: a handful
	lately      = 10   // days that a meal against the rule may explain; most of one is gone by then
	hungerLeast = 0.05 // of the appetite that must be unmet
)

// Two ways to go round in circles, counted over the last third of the year or over
// days on end.
const (
	// Starved: in the last starvedDays the worms were hungry four days of five, lost
	// a quarter of their mass, and the kitchen threw away half of what it made: food
	// was there and the rule withheld it.
	starvedDays = 120
	// Heaped: overfed on so many days on end with twice as much lying as is overfed.
	heapedDays = 60
)

// tally follows the outcome day by day.
type tally struct {
	Outcome
	tipped int // the last day on which the rule was ignored, from 1
	heap   int // days on end
	hungry [Days]bool
	mass   [Days]float64
	made   [Days]float64
	used   [Days]float64
}

// evening counts a day once its night is over.
func (t *tally) evening(day int, appetite, reach, ate, lying, mass float64) {
	t.Days = day + 1
	limit := max(trifle, overfedDays*reach)
	if lying > limit {
		t.Overfed++
		if t.tipped == 0 || t.Days-t.tipped > lately {
			t.ByRule++
		}
	}
	if lying > 2*limit {
		t.heap++
		t.Heaped = t.Heaped || t.heap >= heapedDays
	} else {
		t.heap = 0
	}
	if lying < 1 && ate < (1-hungerLeast)*appetite {
		t.Hungry++
		t.hungry[day] = true
	}
	t.mass[day] = mass
}

// close sums up.
func (t *tally) close() Outcome {
	from := max(0, t.Days-starvedDays)
	hungry, made, used := 0, 0.0, 0.0
	for d := range t.Days {
		t.Made += t.made[d]
		t.Used += t.used[d]
		if d >= from {
			made += t.made[d]
			used += t.used[d]
			if t.hungry[d] {
				hungry++
			}
		}
	}
	if t.Days > 0 {
		t.EndG = t.mass[t.Days-1]
		t.Starved = t.Days >= starvedDays && hungry*5 >= starvedDays*4 && used < made/2 && t.EndG < 0.75*t.mass[from]
	}
	return t.Outcome
}
