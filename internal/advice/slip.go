package advice

import (
	"math"

	"trayside/internal/ration"
	"trayside/internal/units"
)

// Slip answers whether an amount may be a slip of the finger, before anything
// is saved. For an amount that goes into no tray yet (tray is ""), all of
// today's rations together are what it is held against. What is already in the
// bin is never refused.
func (a *Advice) Slip(tray string, grams int64, inBin bool) SlipView {
	s := ration.Slip(units.Grams(grams), a.mayTake(tray), inBin)
	return SlipView{Kind: s.Kind, Why: s.Why, Grams: grams, Limit: int64(s.Limit)}
}

// slipLimits returns the amounts from which on Slip asks and refuses.
func (a *Advice) slipLimits(tray string) SlipLimits {
	may := a.mayTake(tray)
	ask, refuse := ration.Slip(0, may, false), ration.Slip(math.MaxInt64, may, false)
	return SlipLimits{Tray: tray, Ask: int64(ask.Limit), Refuse: int64(refuse.Limit)}
}

// mayTake returns what a tray takes today, or what all of them take together.
func (a *Advice) mayTake(tray string) units.Grams {
	if t := a.trays[tray]; t != nil && a.bins[t.Bin] != nil {
		return a.need(a.run(a.bins[t.Bin]), tray).Grams
	}
	var may units.Grams
	for _, n := range a.needs("") {
		may += n.Grams
	}
	return may
}
