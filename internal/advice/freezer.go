package advice

import (
	"cmp"
	"slices"

	"trayside/internal/ration"
	"trayside/internal/record"
	"trayside/internal/units"
)

// FreezerView is what lies in the freezer, and what today's rations have room for.
type FreezerView struct {
	Day     string      `json:"day"`
	Mass    string      `json:"mass"`
	Grams   int64       `json:"grams"` // in all
	Kinds   []StockView `json:"kinds"` // what has lain longest first
	Room    []Share     `json:"room"`  // trays, with what their rations leave after the bowls that wait
	Next    string      `json:"next,omitempty"`
	Often   []ScrapView `json:"often"` // to put in: what this household uses most
	Members []Person    `json:"members"`
}

// StockView is one kind of scrap in the freezer.
type StockView struct {
	Item ItemView `json:"item"` // with its grams
	Day  string   `json:"day"`  // since which the oldest of it has lain there
}

// ThawView is what of the freezer today's rations have room for after the bowls
// that wait, the oldest first.
type ThawView struct {
	Grams  int64      `json:"grams"`
	Items  []ItemView `json:"items"`
	Shares []Share    `json:"shares"` // trays
}

// stock is one lot in the freezer.
type stock struct {
	item record.Item
	day  record.Day
}

// stocked returns what lies in the freezer, the oldest first. What is taken out
// comes off the oldest lots of its kind; what there is no lot of comes off the
// oldest of any, so that the lots sum to what went in less what came out.
func (a *Advice) stocked() []stock {
	var lots []stock
	for _, f := range a.h.Freezer {
		if f.Day > a.day {
			continue
		}
		for _, it := range f.Items {
			switch {
			case it.Grams > 0:
				lots = append(lots, stock{it, f.Day})
			case it.Grams < 0:
				rest := takeOut(lots, -it.Grams, func(s stock) bool { return sameKind(s.item, it) })
				takeOut(lots, rest, func(stock) bool { return true })
			}
		}
	}
	return slices.DeleteFunc(lots, func(s stock) bool { return s.item.Grams == 0 })
}

// takeOut takes g off the lots that fit and returns what they did not have.
func takeOut(lots []stock, g units.Grams, fits func(stock) bool) units.Grams {
	for i := range lots {
		if g > 0 && fits(lots[i]) {
			out := min(g, lots[i].item.Grams)
			lots[i].item.Grams -= out
			g -= out
		}
	}
	return g
}

func sameKind(x, y record.Item) bool {
	return x.Scrap == y.Scrap && x.Class == y.Class && x.Name == y.Name
}

// frozen returns g in the freezer.
func (a *Advice) frozen() int64 {
	var g units.Grams
	for _, s := range a.stocked() {
		g += s.item.Grams
	}
	return int64(g)
}

// Freezer returns the freezer's screen.
func (a *Advice) Freezer() FreezerView {
	_, needs := a.inTurn()
	v := FreezerView{
		Day: a.day.String(), Mass: a.mass(), Kinds: []StockView{}, Room: a.shareViews(ration.Split(sum(needs), needs, true)),
		Often: a.often(), Members: a.people(),
	}
	var kinds []stock
	for _, s := range a.stocked() {
		v.Grams += int64(s.item.Grams)
		if i := slices.IndexFunc(kinds, func(k stock) bool { return sameKind(k.item, s.item) }); i >= 0 {
			kinds[i].item.Grams += s.item.Grams
			kinds[i].item.Cut = kinds[i].item.Cut && s.item.Cut
			continue
		}
		kinds = append(kinds, s)
	}
	for _, k := range kinds {
		v.Kinds = append(v.Kinds, StockView{Item: a.itemViews([]record.Item{k.item})[0], Day: k.day.String()})
	}
	if len(v.Room) == 0 {
		v.Next = a.nextMeal()
	}
	return v
}

// nextMeal returns the first day on which a bin is to be fed again, or "".
func (a *Advice) nextMeal() string {
	var first string
	for _, r := range a.urgent() {
		if r.takes == "" || a.need(r, r.takes).Hold != nil {
			continue
		}
		if day := a.rationView(r, r.takes, a.need(r, r.takes)).NextDay; first == "" || cmp.Less(day, first) {
			first = day
		}
	}
	return first
}

func sum(needs []ration.Need) units.Grams {
	var g units.Grams
	for _, n := range needs {
		g += max(n.Grams, 0)
	}
	return g
}

// inTurn returns the bowls that wait, each split among what the bowls before it
// leave of the rations, and what all of them leave.
func (a *Advice) inTurn() ([]Bowl, []ration.Need) {
	needs := a.needs("")
	bowls := a.bowls(func(items []record.Item) []Share {
		shares := a.split(items, needs)
		for i := range needs {
			for _, s := range shares {
				if s.Tray == needs[i].Tray {
					needs[i].Grams -= units.Grams(s.Grams)
				}
			}
		}
		return shares
	})
	return bowls, needs
}

// thaw returns what of the freezer there is room for, nil if there is none.
func (a *Advice) thaw(needs []ration.Need) *ThawView {
	room := min(units.Grams(a.frozen()), sum(needs))
	if room <= 0 {
		return nil
	}
	v := &ThawView{Grams: int64(room)}
	for _, s := range a.shareViews(ration.Split(room, needs, true)) {
		if s.To == ration.ToTray {
			v.Shares = append(v.Shares, s)
		}
	}
	var items []record.Item
	for _, s := range a.stocked() {
		out := min(room, s.item.Grams)
		if out <= 0 {
			break
		}
		room -= out
		it := s.item
		it.Grams, it.Frozen = out, true
		items = append(items, it)
	}
	v.Items = a.itemViews(items)
	return v
}
