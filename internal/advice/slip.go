package advice

import (
	"trayside/internal/ration"
	"trayside/internal/units"
)

// Slip answers whether an amount may be a slip of the finger, before anything
// is saved. For an amount that goes into no tray yet (tray is ""), all of
// today's rations together are what it is held against. What is already in the
// bin is never refused.
func (a *Advice) Slip(tray string, grams int64, inBin bool) SlipView {
	var may units.Grams
	if t := a.trays[tray]; t != nil && a.bins[t.Bin] != nil {
		may = a.need(a.run(a.bins[t.Bin]), tray).Grams
	} else {
		for _, n := range a.needs("") {
			may += n.Grams
		}
	}
	s := ration.Slip(units.Grams(grams), may, inBin)
	return SlipView{Kind: s.Kind, Why: s.Why, Grams: grams, Limit: int64(s.Limit)}
}
