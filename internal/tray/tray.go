// Package tray forecasts a batch, a tray's life from bedding to emptying: how
// full it is, how wet, when it is full, when to bed the next tray, when its
// castings are ready and how much they will come to.
//
// Forecast is the door: a batch as plain values and a day in, an Outlook out.
// Learn turns what a household's harvests came to into its own yield.
//
// The package knows dry matter, water and volume, no worms: published trials
// found the same decay with and without them. It reads no record and no catalogue:
// harvests, too, come as values.
package tray

import (
	"slices"

	"trayside/internal/colony"
	"trayside/internal/order"
	"trayside/internal/record"
	"trayside/internal/units"
)

// Put is something that went into a tray: bedding, scraps or, with Water 1,
// plain water.
type Put struct {
	Day     record.Day
	Grams   float64 // wet mass
	Water   float64 // fraction of wet mass, 0 to 1
	Density float64 // g per ml, loose; 0 for the usual of bedding or scraps
	Bedding bool    // decays slowly, and lies loosely until wet
}

// Seen is what somebody measured of a tray; every part may be missing.
type Seen struct {
	Day     record.Day
	Squeeze string            // a squeeze test of the bed, "" if none
	Meter   float64           // the bed's moisture by a meter, fraction of wet mass, 0 if none
	Fill    units.Millimetres // height of what lies in the tray, 0 if not measured
	Grams   float64           // all that lies in it, less the tray, 0 if not weighed
	Drained *float64          // g of liquid poured away since the last time; nil if nobody looked
}

// Kitchen is what goes in a day from now on, on the mean.
type Kitchen struct {
	Scraps  float64 // g
	Water   float64 // fraction of wet mass
	Bedding float64 // g of dry bedding with it
}

// Batch is everything a forecast needs. Puts and Seen need no order. Resting is
// the day from which nothing is fed, nil while the tray is fed.
type Batch struct {
	AreaM2  float64
	Height  units.Millimetres
	Bedded  record.Day
	Resting *record.Day
	First   bool // the first batch of a new bin
	Puts    []Put
	Seen    []Seen
	Kitchen Kitchen
	Room    colony.Room
	Yield   Yield // zero for a household that has not harvested yet
}

// When is a day with the ends of its 80 % interval. Known is false if the middle
// lies beyond the horizon; an end that lies beyond it is the horizon's last day.
type When struct {
	Mid, Early, Late record.Day
	Known            bool
}

// Bed is what lies in a tray on one day.
type Bed struct {
	Dry     float64 // g of dry matter
	Water   float64 // g
	Volume  float64 // ml
	Fill    units.Millimetres
	Squeeze string  // the squeeze test its bedding would give: crumbles … runs
	Drips   float64 // g of liquid that ran off in the last seven days, by what was poured away where somebody measured it
	Undone  float64 // share of the dry matter put in that has yet to decay
	// What brings a bed that gives no drop, or that runs, back to a drop or two; 0 for
	// one that is right.
	Moisten float64 // ml of water
	Soak    float64 // g of dry paper
}

// Why says what ends the feeding of a tray.
type Why string

// The reasons.
const (
	ByFill Why = "full" // what lies in it reaches the rim
	ByAge  Why = "old"  // fed for long enough; it does not fill
	ByHand Why = "resting"
)

// Outlook is the forecast of a batch.
type Outlook struct {
	Now      Bed
	Darkens  record.Day  // the bedding looks dark and sinks; 0 if not within the horizon
	Full     When        // the rim is reached
	NextTray When        // the next tray is bedded
	Ready    When        // castings can be harvested
	Ends     Why         // what ends the feeding
	Castings colony.Span // g wet at the harvest
	Litres   colony.Span
}

// Forecast runs a batch from its bedding on. What happened up to and on today is
// taken from Puts and Seen, what comes after from Kitchen. Without an area or a
// height it cannot tell fill, and the tray ends by age.
func Forecast(b Batch, today record.Day) Outlook {
	b.Puts = slices.Clone(b.Puts)
	order.By(b.Puts, func(x, y Put) int { return int(x.Day - y.Day) })
	b.Seen = slices.Clone(b.Seen)
	order.By(b.Seen, func(x, y Seen) int { return int(x.Day - y.Day) })

	mid := b.run(today, 1)
	fast, slow := b.run(today, fastTau), b.run(today, slowTau)
	// Fast decay makes room: the tray fills late and is ready early.
	o := Outlook{Now: mid.now, Darkens: mid.dark, Ends: mid.ends}
	o.Full = when(today, mid.full, slow.full, fast.full)
	o.NextTray = when(today, mid.next, slow.next, fast.next)
	o.Ready = when(today, mid.ready, fast.ready, slow.ready)
	o.Castings = b.Yield.of(mid.wet)
	o.Litres = litres(o.Castings)
	return o
}

// when makes an interval of three days, 0 standing for never.
func when(today, mid, early, late record.Day) When {
	last := today + horizon
	w := When{Mid: mid, Early: early, Late: late, Known: mid != 0}
	for _, d := range []*record.Day{&w.Mid, &w.Early, &w.Late} {
		if *d == 0 {
			*d = last
		}
	}
	w.Early, w.Late = min(w.Early, w.Mid), max(w.Late, w.Mid)
	return w
}
