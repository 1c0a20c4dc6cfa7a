package advice

import (
	"trayside/internal/ration"
	"trayside/internal/record"
	"trayside/internal/units"
)

// bowls returns the bowls that wait, the oldest first, each with the split the
// advice would make of it if it were the only one.
func (a *Advice) bowls(split func([]record.Item) []Share) []Bowl {
	bowls := []Bowl{}
	for _, b := range a.h.Waiting() {
		left := b.Items
		if b.Day > a.day {
			continue
		}
		who, _ := a.whoName(b.Who)
		bowls = append(bowls, Bowl{
			ID: b.ID, Name: b.Name, Grams: int64(record.Total(left)), How: string(b.How),
			Items: a.itemViews(left), Who: who, At: b.At, Split: split(left),
		})
	}
	return bowls
}

// needs lists what every bin's open tray takes today, in the order of the
// screen; skip names a tray to leave out.
func (a *Advice) needs(skip string) []ration.Need {
	var needs []ration.Need
	for _, r := range a.urgent() {
		if r.takes == "" || r.takes == skip {
			continue
		}
		needs = append(needs, ration.Need{Bin: r.bin.ID, Tray: r.takes, Grams: a.need(r, r.takes).Grams})
	}
	return needs
}

// splitAmong shares a bowl among all bins.
func (a *Advice) splitAmong(items []record.Item) []Share { return a.split(items, a.needs("")) }

// split shares a bowl among trays by what they still take; what is no food for
// worms, or not by a rule of the house, goes out.
func (a *Advice) split(items []record.Item, needs []ration.Need) []Share {
	rest, kept := a.houseSort(items)
	food, out := ration.Sort(rest)
	return a.shareViews(withOut(ration.Split(food, needs, true), out+kept))
}

// splitAt returns the split for a person who stands at one tray: that tray
// first, then the others.
func (a *Advice) splitAt(r *run, tray string) func([]record.Item) []Share {
	others := a.needs(tray)
	return func(items []record.Item) []Share {
		in := a.rationInput(r, tray, a.day, r.est)
		in.FedToday = a.fedTray(tray)
		rest, kept := a.houseSort(items)
		in.InHand, in.Others = rest, others
		shares := withOut(ration.Compute(in).Shares, kept)
		for i := range shares {
			if shares[i].Tray == tray && shares[i].Bin == "" {
				shares[i].Bin = r.bin.ID
			}
		}
		return a.shareViews(shares)
	}
}

// fedTray returns g fed to a tray today, with what nobody weighed.
func (a *Advice) fedTray(tray string) units.Grams {
	var g units.Grams
	for i := range a.h.Feedings {
		if f := &a.h.Feedings[i]; f.Tray == tray && f.Day == a.day {
			g += record.Total(weighed(f.Items, a.plainMealOf(f.Bin)))
		}
	}
	return g
}

func (a *Advice) shareViews(shares []ration.Share) []Share {
	views := []Share{}
	for _, s := range shares {
		views = append(views, Share{To: s.To, Bin: s.Bin, Tray: s.Tray, Name: a.trayName(s.Tray), Grams: int64(s.Grams)})
	}
	return views
}
