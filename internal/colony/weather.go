package colony

import "trayside/internal/units"

// weather is what a day's bed does to any colony of a species, worked out once
// for all the states that step through the day.
type weather struct {
	bedC  float64
	eat   float64 // share of the appetite that the warmth leaves
	lay   float64 // share of the laying that warmth, moisture and acidity leave
	kill  float64 // extra deaths
	damp  float64 // share of appetite and growth that moisture and acidity leave
	hatch float64 // share of a cocoon's development that the day is worth
	pace  float64 // share of growing up, fed and uncrowded
	speed float64 // share of the way to its full size that a worm grows
	lost  float64 // share of the uncrowded young that die on the way
	rot   float64 // the microbes' speed, 1 at 20 °C
}

// weather returns what a bed at bedC °C and moist % moisture does; ph
// is 0 if nobody measured it.
func (r *Rates) weather(bedC, moist, ph float64) weather {
	w := weather{
		bedC: bedC, eat: r.Eat.at(bedC), kill: min(1, r.Kill.at(bedC)+r.parched(moist)), damp: r.damp(moist, ph),
		hatch: max(0, bedC-r.CocoonBase) / r.CocoonDays,
	}
	wet := w.damp
	if r.LayMoist != nil {
		wet = r.LayMoist.at(moist)
		if ph > 0 {
			wet = float64(wet * acid.at(ph))
		}
	}
	w.lay = float64(r.Lay.at(bedC) * wet)
	grow := r.YoungPace.at(bedC)
	w.speed = float64(grow * r.GrowADay)
	// Where the food lets worms grow less, they also mature later (judgement).
	w.pace = float64(grow/r.YoungBest) * r.Rich
	if ph > 0 {
		w.kill = min(1, w.kill+acidKill.at(ph))
	}
	// Deaths on the way to maturity: ln(1/survive) spread over the growing time.
	w.lost = float64(-units.Log(r.Survive.Mid) * w.pace)
	if bedC > 0 {
		w.rot = units.Pow(rotDoubles, (bedC-20)/10)
	}
	return w
}

// damp is what moisture and acidity leave of appetite, laying and growth.
func (r *Rates) damp(moist, ph float64) float64 {
	d := r.Moist.at(moist)
	if ph > 0 {
		d = float64(d * acid.at(ph))
	}
	return d
}

// parched is the extra deaths a day in a bed far too dry or too wet.
func (r *Rates) parched(moist float64) float64 {
	least, most := r.livable()
	return max(0, float64(dryKills*(least-moist)), float64(wetKills*(moist-most)))
}

// livable is the moisture, %, between whose ends nobody dries out or drowns.
func (r *Rates) livable() (least, most float64) {
	return r.Moist[0].x - dryLeast, r.Moist[len(r.Moist)-1].x
}
