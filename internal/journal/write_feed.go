package journal

import (
	"slices"
	"strconv"
	"strings"

	"trayside/internal/order"
	"trayside/internal/record"
	"trayside/internal/units"
)

func orScale(how record.How) record.How {
	if how == "" {
		return record.ByScale
	}
	return how
}

// feed writes one feeding of one tray.
func (w *writer) feed(in Intent) *Refusal {
	tray, r := w.checkTray("tray", in.Tray, in.InBin)
	if r != nil {
		return r
	}
	if in.Bin == "" {
		in.Bin = tray.Bin
	}
	if tray.Bin != "" && in.Bin != tray.Bin {
		return refuse(CodeTrayBin, "tray", "the tray %s stands in another bin", tray.Name)
	}
	if r := w.checkSpot("spot", in.Spot); r != nil {
		return r
	}
	in.How = orScale(in.How)
	items, r := amount("items", in.Items, in.How, in.InBin)
	if r != nil {
		return r
	}
	return w.feeding(in, items)
}

// feeding writes a feeding whose parts were checked.
func (w *writer) feeding(in Intent, items []record.Item) *Refusal {
	set := fields{
		"bin": in.Bin, "tray": in.Tray, "spot": in.Spot, "items": items, "how": string(in.How),
		"vessel": in.Vessel, "bowl": in.Bowl, "note": strings.TrimSpace(in.Note), "knew": w.knew(in.Bin),
		"about": in.About,
	}
	if r := w.who(in, set); r != nil {
		return r
	}
	w.happened(w.fresh(KindFeeding), set)
	return nil
}

// knew lists the bin's feedings of this day and the day before that the phone
// shows, newest first.
func (w *writer) knew(bin string) []string {
	if w.Record == nil {
		return nil
	}
	var list []string
	for _, f := range slices.Backward(w.Record.Feedings) {
		if f.Day < w.today-1 || len(list) == maxKnew {
			break
		}
		if f.Bin == bin && f.Day <= w.today {
			list = append(list, f.ID)
		}
	}
	return list
}

// bowl writes scraps that were weighed and wait for a bin.
func (w *writer) bowl(in Intent) *Refusal {
	in.How = orScale(in.How)
	items, r := amount("items", in.Items, in.How, in.InBin)
	if r != nil {
		return r
	}
	set := fields{"items": items, "how": string(in.How), "vessel": in.Vessel}
	if name, ok := in.Set["name"].(string); ok {
		set["name"] = strings.TrimSpace(name)
	}
	if r := w.who(in, set); r != nil {
		return r
	}
	w.happened(w.fresh(KindBowl), set)
	return nil
}

// place takes a bowl apart: each share becomes a feeding, a freezing or a
// discard. All of them are written, or none.
func (w *writer) place(in Intent) *Refusal {
	if !names(in.Bowl, KindBowl) {
		return refuse(CodeBowl, "bowl", "no bowl was named")
	}
	left, how, r := w.inBowl(in)
	if r != nil {
		return r
	}
	if len(in.Shares) == 0 {
		return refuse(CodeEmpty, "shares", "say where the scraps go")
	}
	var sum units.Grams
	for i, s := range in.Shares {
		at := "shares." + strconv.Itoa(i)
		grams := units.Grams(s.Grams)
		switch {
		case grams < 0:
			return refuse(CodeNegative, at+".grams", "%d g is less than nothing", grams)
		case grams > mostGrams:
			return refuse(CodeTooMuch, at+".grams", "%d g is more than anybody carries to a worm bin; check the unit", grams)
		case grams == 0 && record.Total(left) > 0:
			return refuse(CodeZero, at+".grams", "a share of nothing goes nowhere; leave it out")
		case s.To != ToTray && s.To != ToFreezer && s.To != ToWaste:
			return refuse(CodeShare, at+".to", "%q is no place for scraps: a tray, the freezer or the waste", s.To)
		}
		sum += grams
	}
	if total := record.Total(left); sum > total {
		return refuse(CodeBowlShort, "shares", "the shares come to %d g, but the bowl holds %d g", sum, total)
	}
	in.How = how
	for i, s := range in.Shares {
		var part []record.Item
		part, left = takeFrom(left, units.Grams(s.Grams))
		if r := w.share(in, i, s, part); r != nil {
			return r
		}
	}
	return nil
}

// inBowl returns what is in the bowl, from the record, or from the intent while
// the phone is still reading or has not heard of the bowl.
func (w *writer) inBowl(in Intent) ([]record.Item, record.How, *Refusal) {
	if w.Record == nil {
		items, r := amount("items", in.Items, record.Unweighed, false)
		return items, orScale(in.How), r
	}
	i := slices.IndexFunc(w.Record.Bowls, func(b record.Bowl) bool { return b.ID == in.Bowl })
	if i < 0 {
		return nil, "", refuse(CodeBowl, "bowl", "there is no such bowl any more; somebody may have taken it back")
	}
	left := w.Record.Left(w.Record.Bowls[i])
	if len(left) == 0 {
		return nil, "", refuse(CodeBowlEmpty, "bowl", "this bowl is empty: somebody has placed it already")
	}
	return left, orScale(w.Record.Bowls[i].How), nil
}

func (w *writer) share(in Intent, i int, s Share, part []record.Item) *Refusal {
	switch s.To {
	case ToFreezer:
		w.happened(w.fresh(KindFreezing), fields{"bowl": in.Bowl, "items": part})
	case ToWaste:
		w.happened(w.fresh(KindDiscard), fields{"bowl": in.Bowl, "items": part})
	case ToTray:
		at := "shares." + strconv.Itoa(i)
		tray, r := w.checkTray(at+".tray", s.Tray, in.InBin)
		if r != nil {
			return r
		}
		if r := w.checkSpot(at+".spot", s.Spot); r != nil {
			return r
		}
		in.Tray, in.Spot = s.Tray, s.Spot
		if tray.Bin != "" {
			in.Bin = tray.Bin
		}
		return w.feeding(in, part)
	}
	return nil
}

// takeFrom parts items so that the first result weighs grams: every kind gives
// in proportion, and the grams that rounding leaves over go to the kinds with
// the largest remainders, earlier kinds first. Parts and rest always add up.
// Without any weight the whole goes to everyone who asks.
func takeFrom(items []record.Item, grams units.Grams) (part, rest []record.Item) {
	total := record.Total(items)
	if total == 0 {
		return items, items
	}
	give := make([]units.Grams, len(items))
	ranked := make([]int, len(items))
	short := grams
	for i, it := range items {
		give[i] = it.Grams * grams / total
		short -= give[i]
		ranked[i] = i
	}
	order.By(ranked, func(a, b int) int {
		return int((items[b].Grams*grams)%total - (items[a].Grams*grams)%total)
	})
	for _, i := range ranked {
		if short > 0 && give[i] < items[i].Grams {
			give[i]++
			short--
		}
	}
	for i, it := range items {
		piece := it
		if piece.Grams = give[i]; piece.Grams > 0 {
			part = append(part, piece)
		}
		if it.Grams -= give[i]; it.Grams > 0 {
			rest = append(rest, it)
		}
	}
	return part, rest
}
