// Package colony says how many worms a bin holds, how hungry they are, and what
// is left of each meal: a stage-structured daily model (cocoons, juveniles,
// adults) driven by temperature, moisture, crowding and food.
//
// Follow carries a bin's log through an Ensemble: 128 whole colonies, each with
// its own appetite, losses and unlogged feedings, weighed by every look and
// weighing. It answers for the day it ends on (Estimate), for a meal that might
// go in today (Gone) and for what would have been promised for each past meal
// (Said). A Keep of it lets a longer log go on from there (Resume). State.Step is
// the whole deterministic day of one colony: a function of a state, a set of rates
// and a day's conditions. The 80 % intervals hold a known truth in 70 to 90 % of
// cases (recovery_test.go); how rations drawn from them do over a year,
// internal/fieldtrial tells.
//
// A Trial is the same State in a laboratory's dish: Run carries one out. Most of
// what is published of compost worms is held by checks_test.go, trial_test.go and
// published_test.go. What cannot be, and why:
//
//   - Venter & Reinecke 1988, 23 % of 600 days' offspring by day 200: here it is
//     about two fifths. In the model grown worms lay at one rate until laying
//     declines; their curve, whose unit is not clear, rises to day 300. The days
//     300, 400 and 480 hold.
//   - Shagoti et al. 2001, 11–15 cocoons a Eudrilus in 16 weeks, and Viljoen &
//     Reinecke 1989, 3.74 young a day: they differ by more than ten times. The rate
//     lies between (about 50 cocoons), the range spans both; time to hatch and to
//     mature are as measured.
//   - Reeh 1992: breeding peaks about day 175 in one litre of pig manure; here it
//     does after 90–130 days. How the vessels were fed, and their surface, is not
//     in the abstract. That no more are born by day 230 and a crowd of small worms
//     is left holds. Ingestion falling from 1.0 to 0.14 body masses a day is a
//     wider span than an appetite for manure of 0.19 and a crowding factor of 0.4
//     can have.
//   - Durán & Henríquez 2009, 600 worms that became 408 on household residues: here
//     kitchen scraps breed less than half as well as manure, and still breed.
//     Nothing is told of what killed those; the 28-fold growth on coffee pulp holds.
//   - Kaplan et al. 1980 on salts and ammonium, Sicken et al. 1999 on daylight, the
//     Wisconsin DNR on jumping worms in heat: a log holds no salt, no ammonia but
//     by smell and no light, and jumping worms have no numbers here.
//   - Harvest dates and castings are internal/tray's, sizing internal/plan's.
//   - Atiyeh et al. 2000, C:N from 36 to 21 and respiration down by half in cow
//     manure: carbon, nitrogen and a bed's own breath are no state here. What of
//     kitchen waste is left to breathe holds (University of Embu).
//
// It takes values and returns values. Scraps arrive as numbers (Part), so that
// the package needs no catalogue; the advice package does the translating.
package colony

import (
	"trayside/internal/record"
	"trayside/internal/units"
)

// Part is one kind of scrap inside a meal, as the worms see it.
type Part struct {
	Grams  float64 // wet mass
	Appeal float64 // eaten relative to soft scraps; 0 for grit
	Soft   float64 // share that disappears; the rest is hard bits and does not count
	Rot    float64 // share of the soft part that microbes take per day at 20 °C
}

// Meal is one feeding of one tray.
type Meal struct {
	Feeding string
	Tray    string
	Spot    string
	Day     record.Day
	At      string // instant with offset, RFC 3339; orders what happened on one day
	Parts   []Part
	Err     float64 // relative standard error of the amount: 0.02 by scale, more by vessel or unweighed
}

// Tray is one tier over the time that it held a batch. A tray that held several
// batches appears once for each, with the same ID.
type Tray struct {
	ID      string
	AreaM2  float64
	Bedded  record.Day
	Feeding *record.Day // worms are invited up from here
	Resting *record.Day // no new food from here
	Emptied *record.Day
	Height  int     // position from the bottom, 0 first
	Bedding float64 // g of dry bedding it was bedded with, 0 if nobody said
	Empty   float64 // g, the tray's own weight, 0 if nobody weighed it
}

// Input is everything the model needs to know of one bin, sorted by day.
type Input struct {
	Bin     string
	Species record.Species
	Today   record.Day
	Trays   []Tray
	Worms   []record.WormEvent
	Meals   []Meal
	Looks   []record.Look
	Samples []record.Sample
	// Harvests are castings taken out.
	Harvests []Harvest
	// Coolest and Warmest are the room's monthly means of the coldest and the
	// warmest month (northern seasons unless South); readings override them and
	// fade back over about three days. Both zero means nobody said: an indoor
	// room is assumed.
	Coolest, Warmest units.DeciCelsius
	South            bool
}

// Span is a median with the ends of its 80 % interval.
type Span struct{ Mid, Low, High float64 }

// Left is what remains of one meal.
type Left struct {
	Feeding string
	Tray    string
	Spot    string
	Day     record.Day
	Fed     float64 // g, all parts
	Soft    float64 // g of the soft part still there
}

// Estimate is the state of a bin on one day, after what the log says of that
// day and before its night.
type Estimate struct {
	Day      record.Day
	Live     Span            // g of live worms in the bin
	ByTray   map[string]Span // g of live worms in each tray that holds a batch
	Appetite Span            // g soft scraps per g worm and day, at today's bed, moisture and crowding
	// Base × Warmth × Damp × Crowd = Appetite.Mid.
	Base   float64 // g per g and day of this bin's worms, warm, moist and uncrowded; looks have moved it
	Warmth float64 // 0..1, what today's bed temperature leaves of the appetite
	Damp   float64 // 0..1, what the bed's moisture leaves of it
	Crowd  float64 // 0..1, what crowding leaves of it
	// Surface is what the surface of each tray can take, g of soft scraps a day.
	Surface map[string]float64
	Bed     units.DeciCelsius
	BedSeen bool   // from a reading of the last three days
	Lefts   []Left // oldest first; a gram and more
	Cocoons float64
	Young   float64 // heads
	Adults  float64 // heads
	SoftEat float64 // g of soft scraps the worms ate last night
	// CleanLooks counts the looks in a row, up to today, that found nothing left.
	CleanLooks int
	// Started is the first day worms were in the bin, 0 before there were any;
	// Looks counts the looks that said something of leftovers.
	Started record.Day
	Looks   int
	// Learned counts the looks at meals: each could have contradicted the model.
	Learned int
	// Eaten is g of soft scraps that worms and microbes have taken in each tray
	// since its batch was bedded; castings are reckoned from it. No interval is
	// told: the particles differ less in what was fed than homes with a known truth
	// do (matter_test.go).
	Eaten map[string]float64
	// Eats is what the worms of each tray could eat in a day of soft scraps, g,
	// whatever the surface takes: mass and appetite together are often surer than
	// either. Empty without an ensemble.
	Eats map[string]Span
	// Takes is what then goes in a day, g: Eats, or what the surface takes if that
	// is less.
	Takes map[string]Span
	// Lying is g of soft scraps of earlier days that a careful keeper reckons with
	// in each tray: the mean over all that may be, where Lefts hold the middle.
	Lying   map[string]float64
	Knows   Knows
	Changes []Change // what the observations of the last weeks moved, oldest first
	Ask     *Ask     // a question that the newest look raises
}

// Knows tells which quantities the log, and no longer the handbook, sets.
type Knows struct{ Appetite, Surface, Breeding bool }

// Forecast says when a meal should be gone: its soft part down to what a look
// calls none. Early and Late are the ends of the 80 % interval, Mid its middle; By
// is the first day by which it is gone in two runs of three, and Chance in how
// many of a hundred it then is, at most 95. Gone is false when the middle run still has food
// after Horizon days; Late then is the last day of the horizon.
type Forecast struct {
	Mid, Early, Late, By record.Day
	Chance               int // %
	Gone                 bool
}
