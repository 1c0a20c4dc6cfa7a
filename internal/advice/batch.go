package advice

import (
	"slices"

	"trayside/internal/colony"
	"trayside/internal/feedstock"
	"trayside/internal/record"
	"trayside/internal/tray"
	"trayside/internal/units"
)

// BatchView is what lies in a tray and what becomes of it. Moisture is told as
// what a squeeze would give, never as a percentage.
type BatchView struct {
	Found     bool          `json:"found"` // false: no such tray, or it stands empty
	Tray      string        `json:"tray"`
	Name      string        `json:"name"`
	Bin       string        `json:"bin"`
	BinName   string        `json:"binName"`
	Batch     string        `json:"batch,omitempty"` // "" if only its feedings tell of it
	Day       string        `json:"day"`
	Mass      string        `json:"mass"`
	Stage     string        `json:"stage"`
	StageDay  int           `json:"stageDay"` // first day is 1
	Bedded    string        `json:"bedded,omitempty"`
	FillMM    int64         `json:"fillMM"`
	HeightMM  int64         `json:"heightMM"`
	Squeeze   string        `json:"squeeze"`   // crumbles, holds, one-drop, few-drops, runs
	DripsML   int64         `json:"dripsML"`   // ran off in the last seven days, as poured away or else as reckoned
	MoistenML int64         `json:"moistenML"` // water that brings a dry bed right, 0 for none
	SoakG     int64         `json:"soakG"`     // dry paper that brings a wet one right
	Done      int64         `json:"done"`      // share of the dry matter that has decayed, of 1000
	Darkens   string        `json:"darkens,omitempty"`
	Full      *WhenView     `json:"full,omitempty"`
	NextTray  *WhenView     `json:"nextTray,omitempty"`
	Ready     *WhenView     `json:"ready,omitempty"`
	Ends      string        `json:"ends,omitempty"` // what ends the feeding: full, old, resting
	Castings  Span          `json:"castings"`       // g, moist, at the harvest
	Volume    Span          `json:"volume"`         // ml
	Yield     YieldView     `json:"yield"`
	Harvests  []HarvestLine `json:"harvests"` // of this tray, newest first, at most harvestLines
	BucketML  int64         `json:"bucketML"` // the household's bucket, 0 if none
	Members   []Person      `json:"members"`
}

// WhenView is a day with the ends of its likely range, 8 times of 10.
type WhenView struct {
	Day   string `json:"day"`
	First string `json:"first"`
	Last  string `json:"last"`
}

// YieldView is the household's own yield against the published one, learned
// from its harvests.
type YieldView struct {
	Milli int64 `json:"milli"` // 1000 is as published
	Seen  int   `json:"seen"`  // harvests it stands on
}

// HarvestLine is one harvest in a list. Amounts are 0 where nobody measured.
type HarvestLine struct {
	ID      string `json:"id"`
	Day     string `json:"day"`
	Method  string `json:"method,omitempty"`
	Grams   int64  `json:"grams"`
	ML      int64  `json:"ml"`
	Buckets int64  `json:"buckets"` // tenths
	Worms   int64  `json:"worms"`   // g put back
	Who     string `json:"who"`
}

// harvestLines is how many of a tray's harvests are shown.
const harvestLines = 8

// Batch returns what lies in a tray and what becomes of it.
func (a *Advice) Batch(id string) BatchView {
	v := BatchView{
		Tray: id, Day: a.day.String(), Mass: a.mass(), Stage: string(record.Emptied),
		Harvests: []HarvestLine{}, BucketML: a.h.Measures.Bucket, Members: a.people(), Yield: YieldView{Milli: 1000},
	}
	t := a.trays[id]
	if t == nil || a.bins[t.Bin] == nil {
		return v
	}
	v.Name, v.Bin, v.BinName, v.HeightMM = t.Name, t.Bin, a.binName(t.Bin), int64(t.Height)
	v.harvested(a, id)
	if y := a.yieldOf(); y.Seen > 0 {
		v.Yield = YieldView{Milli: units.Nearest(y.Factor * 1000), Seen: y.Seen}
	}
	b, ok := a.batchOn(id, a.day)
	if !ok {
		return v
	}
	v.Found, v.Batch, v.Stage, v.StageDay, v.Bedded = true, b.ID, string(b.StageOn(a.day)), a.stageDay(b), b.Bedded.String()
	o := a.outlook(t, b)
	v.FillMM, v.Squeeze, v.Ends = int64(o.Now.Fill), o.Now.Squeeze, string(o.Ends)
	v.DripsML, v.MoistenML, v.SoakG = units.Nearest(o.Now.Drips), units.Nearest(o.Now.Moisten), units.Nearest(o.Now.Soak)
	v.Done = 1000 - units.Nearest(o.Now.Undone*1000)
	if o.Darkens > a.day {
		v.Darkens = o.Darkens.String()
	}
	v.Full, v.NextTray, v.Ready = whenOf(o.Full), whenOf(o.NextTray), whenOf(o.Ready)
	v.Castings, v.Volume = spanOf(o.Castings, 1), spanOf(o.Litres, 1000)
	return v
}

func (v *BatchView) harvested(a *Advice, tray string) {
	for _, x := range slices.Backward(a.h.Harvests) {
		if x.Tray == tray && x.Day <= a.day && len(v.Harvests) < harvestLines {
			who, _ := a.whoName(x.Who)
			v.Harvests = append(v.Harvests, HarvestLine{
				ID: x.ID, Day: x.Day.String(), Method: string(x.Method), Grams: int64(x.Mass), ML: x.ML, Buckets: x.Buckets, Worms: int64(x.Worms), Who: who,
			})
		}
	}
}

func whenOf(w tray.When) *WhenView {
	if !w.Known {
		return nil
	}
	return &WhenView{Day: w.Mid.String(), First: w.Early.String(), Last: w.Late.String()}
}

func spanOf(s colony.Span, scale float64) Span {
	return Span{units.Nearest(s.Mid * scale), units.Nearest(s.Low * scale), units.Nearest(s.High * scale)}
}

// outlook forecasts the batch that a tray holds today.
func (a *Advice) outlook(t *record.Tray, b record.Batch) tray.Outlook {
	in := a.batchIn(t, b, a.day)
	in.Kitchen = a.kitchenOf(t.ID, b)
	in.Yield = a.yieldOf()
	return tray.Forecast(in, a.day)
}

// batchIn translates a batch for the forecast, with what was known on a day.
func (a *Advice) batchIn(t *record.Tray, b record.Batch, d record.Day) tray.Batch {
	in := tray.Batch{AreaM2: areaM2(t), Height: t.Height, Bedded: b.Bedded, First: a.firstOfBin(t.Bin, b), Puts: beddingPuts(b)}
	if b.Resting != nil && *b.Resting <= d {
		in.Resting = b.Resting
	}
	if bin := a.bins[t.Bin]; bin != nil {
		in.Room = colony.Room{Coolest: bin.RoomCoolest, Warmest: bin.RoomWarmest, South: southern(a.h.Zone)}
	}
	within := func(day record.Day) bool {
		return day >= b.Bedded && day <= d && (b.Emptied == nil || day <= *b.Emptied)
	}
	unseen := a.plainMealOf(t.Bin)
	for i := range a.h.Feedings {
		if f := &a.h.Feedings[i]; f.Tray == t.ID && within(f.Day) {
			for _, it := range weighed(f.Items, unseen) {
				in.Puts = append(in.Puts, putOf(it, f.Day))
			}
		}
	}
	for i := range a.h.Looks {
		if l := &a.h.Looks[i]; l.Tray == t.ID && within(l.Day) {
			if s, ok := seenOf(l, t.Empty); ok {
				in.Seen = append(in.Seen, s)
			}
		}
	}
	return in
}

// soaked is the water that dry bedding takes up before worms come, g a gram: what
// paper holds after dripping is about 2 (Voyles & Honeyman 2006, Iowa State ASL
// R2153, shredded paper). Nobody beds a tray dry, and nobody logs the water.
const soaked = 2.0

// beddingPuts is the bedding of a batch with its water.
func beddingPuts(b record.Batch) []tray.Put {
	var puts []tray.Put
	for _, it := range b.Bedding {
		p := putOf(it, b.Bedded)
		p.Bedding = true
		puts = append(puts, p, tray.Put{Day: b.Bedded, Grams: float64(p.Grams * soaked), Water: 1})
	}
	return puts
}

// Water of what the catalogue does not know, fraction of wet mass: kitchen scraps
// 0.80 and air-dry paper 0.08, common practice.
const (
	scrapsWater = 0.80
	paperWater  = 0.08
)

// putOf translates an item. Paper and cardboard among the scraps are bedding.
func putOf(it record.Item, d record.Day) tray.Put {
	e, known := feedstock.Standard().Lookup(it.Scrap)
	class := feedstock.Class(it.Class)
	if known {
		class = e.Class
	}
	p := tray.Put{Day: d, Grams: float64(max(0, it.Grams)), Water: scrapsWater, Bedding: class == feedstock.Paper}
	if p.Bedding {
		p.Water = paperWater
	}
	if known && e.Water != nil {
		p.Water = *e.Water
	}
	if known && e.Density != nil {
		p.Density = *e.Density
	}
	return p
}

// seenOf translates a look. A weight counts where the empty tray's own is known.
func seenOf(l *record.Look, empty units.Grams) (tray.Seen, bool) {
	s := tray.Seen{Day: l.Day, Squeeze: l.Squeeze}
	if l.Meter != nil {
		s.Meter = float64(*l.Meter) / 1000
	}
	if l.Liquid != nil {
		g := float64(*l.Liquid)
		s.Drained = &g
	}
	if l.Fill != nil {
		s.Fill = units.Millimetres(*l.Fill)
	}
	if l.Weight != nil && empty > 0 {
		s.Grams = float64(max(0, *l.Weight-int64(empty)))
	}
	return s, s != tray.Seen{Day: l.Day}
}

// firstOfBin reports whether no tray of the bin held a batch before this one.
func (a *Advice) firstOfBin(bin string, b record.Batch) bool {
	for i := range a.h.Trays {
		if t := &a.h.Trays[i]; t.Bin == bin {
			if list := a.batchesOf(t.ID); len(list) > 0 && list[0].Bedded < b.Bedded {
				return false
			}
		}
	}
	return true
}

// kitchenDays is how many of the last days tell what a tray will get: four weeks
// hold every weekday four times. Judgement.
const kitchenDays = 28

// kitchenOf is what goes into a tray a day, by the last weeks of its feeding; a
// tray that was bedded, or opened, lately has the bin's.
func (a *Advice) kitchenOf(id string, b record.Batch) tray.Kitchen {
	from := a.day - kitchenDays + 1
	bin := a.trays[id].Bin
	own := b.Feeding != nil && *b.Feeding <= from
	unseen := a.plainMealOf(bin)
	var k tray.Kitchen
	var water, days float64
	first := a.day
	for i := range a.h.Feedings {
		f := &a.h.Feedings[i]
		if f.Bin != bin || own && f.Tray != id || f.Day < from || f.Day > a.day {
			continue
		}
		first = min(first, f.Day)
		for _, it := range weighed(f.Items, unseen) {
			if p := putOf(it, f.Day); p.Bedding {
				k.Bedding += p.Grams
			} else {
				k.Scraps += p.Grams
				water += float64(p.Grams * p.Water)
			}
		}
	}
	if k.Scraps > 0 {
		k.Water = water / k.Scraps
	}
	if days = float64(kitchenDays); !own { // a young bin's weeks are fewer
		days = float64(max(a.day-first+1, 7))
	}
	k.Scraps, k.Bedding = k.Scraps/days, k.Bedding/days
	return k
}

// yieldOf is the household's own yield, learned once.
func (a *Advice) yieldOf() tray.Yield {
	if a.yield == nil {
		y := a.learnYield()
		a.yield = &y
	}
	return *a.yield
}

// learnYield compares what came of each batch with what was expected of it. A
// batch that still lies in its tray teaches nothing: what was taken out so far is a
// part, and would pass for a poor yield of the whole.
func (a *Advice) learnYield() tray.Yield {
	var batches []string // in the order of their first harvest
	byBatch := map[string]*tray.Harvest{}
	for i := range a.h.Harvests {
		x := &a.h.Harvests[i]
		t, b, ok := a.batchOf(x)
		if !ok || x.Day > a.day || b.StageOn(a.day) != record.Emptied {
			continue
		}
		if byBatch[b.ID] == nil {
			in := a.batchIn(t, b, x.Day)
			if in.Resting == nil {
				in.Resting = &x.Day
			}
			byBatch[b.ID] = &tray.Harvest{Expected: tray.Forecast(in, x.Day).Castings.Mid}
			batches = append(batches, b.ID)
		}
		// A batch may be harvested bit by bit.
		sum := byBatch[b.ID]
		sum.Grams += float64(x.Mass)
		if x.Mass == 0 {
			sum.Litres += litresOf(x, a.h.Measures.Bucket)
		}
	}
	list := make([]tray.Harvest, 0, len(batches))
	for _, id := range batches {
		list = append(list, *byBatch[id])
	}
	return tray.Learn(list)
}

// litresOf is a harvest's volume, measured or counted in buckets.
func litresOf(x *record.Harvest, bucket int64) float64 {
	if x.ML > 0 {
		return float64(x.ML) / 1000
	}
	return float64(float64(x.Buckets)/10*float64(bucket)) / 1000
}

// batchOf finds the batch that a harvest is of.
func (a *Advice) batchOf(x *record.Harvest) (*record.Tray, record.Batch, bool) {
	t := a.trays[x.Tray]
	if t == nil {
		return nil, record.Batch{}, false
	}
	list := a.batchesOf(t.ID)
	i := slices.IndexFunc(list, func(b record.Batch) bool { return b.ID == x.Batch && x.Batch != "" })
	if i < 0 {
		return nil, record.Batch{}, false
	}
	return t, list[i], true
}
