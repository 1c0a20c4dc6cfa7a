package advice

import (
	"cmp"

	"trayside/internal/feedstock"
	"trayside/internal/record"
	"trayside/internal/units"
)

// FillAsk is a bowl that is being filled.
type FillAsk struct {
	Items []record.Item `json:"items"`
	Tray  string        `json:"tray,omitempty"` // tray it is weighed for, "" if none
}

// FillView says what goes with it, and what it does to today's rations.
type FillView struct {
	Bedding     int64   `json:"bedding"`     // g of dry bedding to go with it
	BeddingName string  `json:"beddingName"` // in the phone's language
	Handful     int64   `json:"handful"`     // g of it in one of the household's handfuls, 0 if nobody weighed one
	Halves      int64   `json:"halves"`      // half handfuls that come to it, 0 if nobody weighed one
	Shares      []After `json:"shares"`      // where it would go, trays first
}

// After is a place, what of the bowl goes there, and what its ration becomes.
type After struct {
	Share  Share `json:"share"`
	Ration int64 `json:"ration"` // g it takes today; of a tray only
	Left   int64 `json:"left"`   // g it takes after that
}

// Filling answers for a bowl that is being filled.
func (a *Advice) Filling(ask FillAsk) FillView {
	bedding := cmp.Or(a.h.Measures.HandfulOf, feedstock.Cardboard)
	v := FillView{
		Bedding:     int64(feedstock.Standard().BeddingFor(ask.Items, bedding)),
		BeddingName: a.words(bedding).Name, Handful: int64(a.h.Measures.Handful), Shares: []After{},
	}
	if v.Handful > 0 && v.Bedding > 0 {
		v.Halves = max(1, units.Round(2*v.Bedding, v.Handful))
	}
	may := map[string]int64{}
	for _, n := range a.needs("") {
		may[n.Tray] = int64(n.Grams)
	}
	split := a.splitAmong
	if t := a.trays[ask.Tray]; t != nil && a.bins[t.Bin] != nil {
		r := a.run(a.bins[t.Bin])
		split, may[t.ID] = a.splitAt(r, t.ID), int64(a.need(r, t.ID).Grams)
	}
	if record.Total(ask.Items) == 0 {
		return v
	}
	for _, s := range split(ask.Items) {
		after := After{Share: s, Ration: may[s.Tray]}
		after.Left = max(0, after.Ration-s.Grams)
		v.Shares = append(v.Shares, after)
	}
	return v
}
