package tray

import (
	"math"

	"trayside/internal/colony"
	"trayside/internal/units"
)

// Yield is what a household's castings come to against the forecast.
type Yield struct {
	Factor float64 // on the forecast; 0 counts as 1
	Err    float64 // standard error of ln Factor for one more batch; 0 before any harvest
	Seen   int     // harvests it was learned from
}

// Harvest is what one batch came to: Grams of what was weighed, and Litres of what
// was only measured, as buckets counted times what one holds.
type Harvest struct {
	Expected float64 // Outlook.Castings.Mid of a forecast with no yield learned, g
	Grams    float64
	Litres   float64
}

// Learn weighs what harvests came to against what a household without any would
// be told, each by its error: one harvest moves the factor part of the way, many
// nearly all of it. Harvests without an amount are passed over.
func Learn(harvests []Harvest) Yield {
	precision := 1 / float64(yieldErr*yieldErr)
	var sum float64
	n := 0
	for _, h := range harvests {
		weighed, counted := max(0, h.Grams), float64(max(0, h.Litres)*castingsDensity)*1000
		g := weighed + counted
		if g <= 0 || h.Expected <= 0 {
			continue
		}
		err := (float64(weighed*weighedErr) + float64(counted*bucketErr)) / g
		weight := 1 / (float64(err*err) + float64(batchErr*batchErr))
		sum += float64(weight * units.Log(g/h.Expected))
		precision += weight
		n++
	}
	if n == 0 {
		return Yield{}
	}
	return Yield{Factor: units.Exp(sum / precision), Err: math.Sqrt(1/precision + float64(batchErr*batchErr)), Seen: n}
}

// of spreads a forecast of g grams by the yield.
func (y Yield) of(g float64) colony.Span {
	if y.Seen == 0 {
		y = Yield{Factor: 1, Err: yieldErr}
	}
	mid, ends := float64(g*y.Factor), units.Exp(float64(z80*y.Err))
	return colony.Span{Mid: mid, Low: mid / ends, High: float64(mid * ends)}
}

// litres is the volume of moist castings.
func litres(g colony.Span) colony.Span {
	const perGram = 1 / (castingsDensity * 1000)
	return colony.Span{Mid: float64(g.Mid * perGram), Low: float64(g.Low * perGram), High: float64(g.High * perGram)}
}
