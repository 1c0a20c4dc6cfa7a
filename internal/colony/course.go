package colony

import "trayside/internal/record"

// Course is a bin's log run through the model up to Input.Today. It does not
// change; its methods may be called in any order.
type Course struct {
	stack
	rates  *Rates
	state  State
	bed    bed
	known  known
	soft   []float64 // g of the soft part of each meal when fed
	newest int       // the newest meal fed so far, -1 before the first
	said   map[string]Forecast
	day    record.Day

	proofs []proof // by tray
}

// known is what the log has told, and when.
type known struct {
	started   record.Day
	massErr   float64    // of log live mass when last told
	massDay   record.Day // when worms were last added or weighed
	looks     int
	tested    int        // looks at meals: they could have contradicted the model
	measured  int        // those that bounded the appetite on both sides
	lookDay   record.Day // of the last of these
	clean     int
	hasWorms  bool
	hasLooked bool
}

// looked counts a look that said what is left, and the clean ones in a row.
func (k *known) looked(found record.Leftovers) {
	k.looks++
	if found == record.LeftNone || found == record.LeftHard {
		k.clean++
	} else {
		k.clean = 0
	}
}

// Follow runs a bin's log through the model, up to the day it ends on and what
// happened on that day. Entries after Input.Today are left out. Meals must be
// in the order they were fed; the rest is sorted here. in must not change while
// the course is used.
func Follow(in *Input) *Course { return Watch(in, nil) }

// Watch follows a log as Follow does and calls before for every meal, with the
// course as it stands when the meal goes in: what would have been advised then.
func Watch(in *Input, before func(c *Course, meal int)) *Course {
	c := &Course{stack: stackOf(in), rates: RatesOf(in.Species), bed: newBed(in), said: make(map[string]Forecast, len(in.Meals))}
	c.newest = -1
	c.state = NewState(c.rates, len(c.trays))
	c.proofs = make([]proof, len(c.trays))
	c.soft = make([]float64, len(in.Meals))
	events := c.events()
	if len(events) == 0 {
		c.day = in.Today
		return c
	}
	c.day = min(events[0].day, in.Today)
	for next := 0; ; c.day++ {
		c.turnOver()
		fed := next
		for next < len(events) && events[next].day == c.day {
			if e := events[next]; before != nil && e.kind == mealEvent {
				before(c, e.n)
			}
			c.take(events[next])
			next++
		}
		c.promise(events[fed:next])
		if c.day >= in.Today {
			return c
		}
		c.night()
	}
}

// conditions returns what day d does to the bin.
func (c *Course) conditions(d record.Day) *Conditions {
	return &Conditions{BedC: c.bed.celsius(d), Moist: c.bed.moisture(d), PH: c.bed.acidity(d), Tiers: c.tiers(d)}
}

// turnOver empties the trays whose batch ended today: food goes out with it,
// the worms are put back among the others (what was lost or taken is logged on
// its own).
func (c *Course) turnOver() {
	for i, spans := range c.spans {
		for _, t := range spans {
			if t.Emptied != nil && *t.Emptied == c.day {
				c.empty(i)
			}
			if t.Bedded == c.day {
				c.state.Sums.ByTray[i] = 0
			}
		}
	}
}

func (c *Course) empty(tray int) {
	c.state.clear(tray, c.host(""))
	c.proofs[tray] = proof{}
}

// host returns the index of a tray by id on the course's day.
func (c *Course) host(id string) int { return c.hostOn(id, c.day) }

func (c *Course) take(e event) {
	switch e.kind {
	case wormEvent:
		c.worms(&c.in.Worms[e.n])
	case lookEvent:
		c.look(&c.in.Looks[e.n])
	case mealEvent:
		c.feed(e.n)
	}
}

// feed lays a meal down.
func (c *Course) feed(n int) {
	m := &c.in.Meals[n]
	c.newest = max(c.newest, n)
	tray := c.host(m.Tray)
	for k, p := range m.Parts {
		soft := max(0, float64(p.Grams*p.Soft))
		c.soft[n] += soft
		if soft > 0 {
			c.state.Food = append(c.state.Food, Morsel{Meal: n, Part: k, Tray: tray, Appeal: max(0, p.Appeal), Rot: p.Rot, Fed: soft, Left: soft})
		}
	}
	c.state.Sums.Fed += c.soft[n]
	c.proofs[tray].fed(m.Day, c.soft[n], m.Err)
	if c.state.Share[tray] < settleShare && sum(c.state.Share) > 0 {
		c.state.moveTo(tray, settleShare)
	}
}

func (c *Course) night() { c.state.Step(c.rates, c.conditions(c.day)) }
