package trouble

import (
	"slices"

	"trayside/internal/feedstock"
	"trayside/internal/record"
	"trayside/internal/units"
)

// Quantities of the steps.
const (
	coverMM   = 50  // bedding over a meal: two inches, common practice
	spreadMM  = 25  // a thin layer: an inch, common practice (2.5 to 5 cm)
	chopMM    = 50  // 25 to 50 mm or smaller (NYC Compost Project)
	coolBelow = 280 // 0.1 °C; a warm bed is one of 28 °C and more, see bedFrom
	warmFrom  = 150 // 0.1 °C; comfort begins at 13 to 15 °C (Illinois Extension 2020; USDA)

	layerMM  = 20 // dry bedding as a loose layer; judgement
	mistMM   = 2  // water over the surface; judgement
	limeGM2  = 50 // g of calcium carbonate per m²: a teaspoon on a small tray; judgement
	limeStep = 5  // g; a level teaspoon holds about 5 g: from memory
	keepDays = 2  // days of appetite that stay when food is lifted out; judgement
	cm2InM2  = 10_000
)

// dose is a step whose quantity may depend on the tray: by, where there is one,
// works it out. It is data and not a function, so that the tables of remedies
// cost the phone no code.
type dose struct {
	code   string
	amount int64
	unit   string
	by     func(Log) Step
}

func (d dose) step(l Log) Step {
	if d.by != nil {
		return d.by(l)
	}
	return Step{d.code, d.amount, d.unit}
}

// dryBedding is a loose layer of the bedding that every household has, or two
// handfuls where nobody measured the tray.
func dryBedding(l Log) Step {
	entry, ok := feedstock.Standard().Lookup(feedstock.Cardboard)
	if area := l.area(); ok && entry.Density != nil && area > 0 {
		// A layer of 1 mm on 1 cm² is 0.1 ml.
		g := units.Nearest(float64(area*layerMM) / 10 * *entry.Density)
		return Step{AddDryBedding, int64(atLeastAStep(units.Grams(g))), "g"}
	}
	return Step{AddDryBedding, 2, "handfuls"}
}

func mist(l Log) Step {
	if area := l.area(); area > 0 {
		return Step{Mist, int64(atLeastAStep(units.Grams(area * mistMM / 10))), "ml"} // a gram a millilitre
	}
	return Step{Mist, 250, "ml"}
}

func lime(l Log) Step {
	if area := l.area(); area > 0 {
		return Step{Lime, max(limeStep, units.Round(area*limeGM2, cm2InM2*limeStep)*limeStep), "g"}
	}
	return Step{Lime, 1, "teaspoons"}
}

// liftOut takes out what lies there beyond two days of appetite; with no idea of
// either it takes out what rots.
func liftOut(l Log) Step {
	if l.Eats > 0 {
		if over := min(l.Lying, mostGrams) - keepDays*min(l.Eats, mostGrams); over > 0 {
			return Step{LiftOutFood, int64(atLeastAStep(over)), "g"}
		}
	}
	return Step{LiftOutFood, 0, ""}
}

// area returns the tray's surface in cm², 0 for what cannot be: no household tray
// is larger than 10 m².
func (l Log) area() int64 {
	if l.AreaCM2 < 0 || l.AreaCM2 > 10*cm2InM2 {
		return 0
	}
	return l.AreaCM2
}

func atLeastAStep(g units.Grams) units.Grams {
	return max(units.RoundForPeople(g, 0), units.StepForPeople(g, 0))
}

// opposite holds steps that undo each other: of two, the likelier cause's stands.
var opposite = map[string]string{
	AddDryBedding: Mist, Mist: AddDryBedding, Uncover: CoverSheet, CoverSheet: Uncover,
	ToShade: ToWarmth, ToWarmth: ToShade, LidAjar: CloseLid, CloseLid: LidAjar,
}

// advise fills in what the causes that fit best ask for.
func (r *Result) advise(in Input, e evidence, best []weighed) {
	days := usual
	for i, w := range best {
		m := remedyOf(w.cause())
		r.take(in.Log, m.tonight)
		r.Stop = union(r.Stop, m.stop)
		r.Cautions = union(r.Cautions, m.cautions)
		if i == 0 || m.look < days {
			days = m.look
		}
	}
	for i := range signs {
		if e.seen[i] {
			extra := bySign[signs[i].sign]
			r.take(in.Log, extra.tonight)
			r.Cautions = union(r.Cautions, extra.cautions)
		}
	}
	if len(r.Tonight) > 1 { // one step is enough to make it untrue
		r.Tonight = slices.DeleteFunc(r.Tonight, func(s Step) bool { return s.Code == Nothing })
	}
	r.Feeding = e.feeding(best)
	if r.Feeding.Kind == Hold {
		r.Stop = union([]string{StopFeeding}, r.Stop)
		days = min(days, usual)
	}
	if days == soon || e.deadly(r.Feeding) {
		r.Urgent, days = true, soon
	}
	r.Look = in.Today + record.Day(days)
	r.Cautions = union(r.Cautions, []string{WashHands, LocalRules, NoLaboratory})
}

// needless reports whether the newest squeeze speaks against water or dry bedding.
func (l Log) needless(s Step) bool {
	switch l.Squeeze {
	case "few-drops", "runs":
		return s.Code == Mist
	case "crumbles":
		return s.Code == AddDryBedding
	}
	return false
}

// take adds steps in order. Of two alike the larger quantity stands, and one that
// would undo an earlier one is left out.
func (r *Result) take(l Log, doses []dose) {
	for _, d := range doses {
		step := d.step(l)
		if l.needless(step) || slices.ContainsFunc(r.Tonight, func(s Step) bool { return s.Code == opposite[step.Code] }) {
			continue
		}
		i := slices.IndexFunc(r.Tonight, func(s Step) bool { return s.Code == step.Code })
		switch {
		case i < 0:
			r.Tonight = append(r.Tonight, step)
		case step.Amount > r.Tonight[i].Amount:
			r.Tonight[i] = step
		}
	}
}

// union appends what is not there yet.
func union(to, more []string) []string {
	for _, s := range more {
		if !slices.Contains(to, s) {
			to = append(to, s)
		}
	}
	return to
}

// feeding says whether to hold or to reduce. A hold is for what was smelt or read
// and needs no cause; of several, the one that kills fastest is named.
func (e evidence) feeding(best []weighed) Feeding {
	hot := e.log[bed].band == bedHot
	if e.has(HotBed) && e.log[bed].band < 0 {
		hot = slices.ContainsFunc(best, func(w weighed) bool { return w.cause() == SelfHeating || w.cause() == HotPlace })
	}
	for _, h := range []struct {
		there bool
		cause string
	}{{hot, "hot-bed"}, {e.has(AmmoniaSmell), "ammonia"}, {e.has(SourSmell), "sour"}, {e.has(RotSmell), "rot"}} {
		if h.there {
			return Feeding{Kind: Hold, Cause: h.cause}
		}
	}
	f := fed
	for _, w := range best {
		m := remedyOf(w.cause())
		if m.feed < f.Milli {
			f.Kind, f.Milli, f.Cause = Reduce, m.feed, string(w.cause())
		}
		if !m.counted {
			f.OfRation = min(f.OfRation, m.feed)
		}
	}
	return f
}

// fed is feeding as usual.
var fed = Feeding{Milli: 1000, OfRation: 1000}

// deadly reports whether worms die within days.
func (e evidence) deadly(f Feeding) bool {
	return f.Cause == "hot-bed" || f.Cause == "ammonia" || e.has(WormsDying) || e.log[bed].band == bedFreezing
}

func (e evidence) has(s Sign) bool { return e.seen[indexOf(s)] }
