package advice

import (
	"slices"

	"trayside/internal/record"
	"trayside/internal/units"
)

// The heights of the drawing are reckoned from the record and are an estimate:
// nobody measures a bed with worms in it.
const (
	// beddingHalf: bedding sinks to half in about two months (judgement; visible
	// sinking at six weeks: University of Illinois Extension).
	beddingHalf = 60.0
	// castingsOfScraps is g of moist castings per g of soft scraps: 15 % dry, half
	// of that lost as carbon dioxide (50 ± 10 %, about 2 kg dry feed per kg dry
	// castings: Abbasi group, preprint on vermicompost yield), at 70 % moisture.
	castingsOfScraps = 0.15 * 0.5 / 0.3
	// castingsOfBedding is the same for dry paper, 93 % dry.
	castingsOfBedding = 0.93 * 0.5 / 0.3
	// castingsDensity is kg per litre of moist castings: 0.5–0.8, from memory.
	castingsDensity = 0.65
)

// BedView is what was read of a tray's bedding lately. Parts nobody read are
// missing.
type BedView struct {
	Temp       *int64 `json:"temp,omitempty"` // 0.1 °C
	TempDay    string `json:"tempDay,omitempty"`
	Squeeze    string `json:"squeeze,omitempty"`
	SqueezeDay string `json:"squeezeDay,omitempty"`
}

// Counted is how many cocoons somebody found in the scoops of a tray's last
// sample.
type Counted struct {
	Count int64  `json:"count"`
	Day   string `json:"day"`
}

// BaseView is the base under a stack, where somebody drained liquid from it.
// What stands in it now is reckoned from how much came how fast.
type BaseView struct {
	HeightMM int64  `json:"heightMM"`
	LiquidMM int64  `json:"liquidMM"`
	LiquidML int64  `json:"liquidML"`
	Drained  int64  `json:"drained"` // ml, the last time
	Day      string `json:"day"`     // of the last time
}

// baseHeight is how high a base is drawn, mm: nobody writes it down. From memory.
const baseHeight = 70

// readDays is how long a reading of the bed is shown: a month later it says
// nothing of today. Judgement.
const readDays = 28

// tiers returns a bin's trays from the top down.
func (a *Advice) tiers(r *run) []TierView {
	tiers := []TierView{}
	for _, id := range slices.Backward(a.stackOf(r.bin)) {
		tiers = append(tiers, a.tier(r, a.trays[id]))
	}
	return tiers
}

func (a *Advice) tier(r *run, t *record.Tray) TierView {
	v := TierView{
		ID: t.ID, Name: t.Name, Code: t.Code, Stage: string(record.Emptied),
		WidthMM: int64(t.Width), HeightMM: int64(t.Height), Scraps: []Portion{}, Takes: t.ID == r.takes,
	}
	if w, ok := r.est.ByTray[t.ID]; ok {
		v.Worms = Span{units.Nearest(w.Mid), units.Nearest(w.Low), units.Nearest(w.High)}
	}
	for _, l := range r.est.Lefts {
		if l.Tray == t.ID {
			v.Scraps = append(v.Scraps, Portion{Feeding: l.Feeding, Day: l.Day.String(), Spot: l.Spot, Fed: units.Nearest(l.Fed), Left: units.Nearest(l.Soft)})
		}
	}
	b, ok := a.batchOn(t.ID, a.day)
	if !ok {
		return v
	}
	v.Stage, v.StageDay = string(b.StageOn(a.day)), a.stageDay(b)
	v.BeddingMM, v.CastingsMM, v.CastingsG = a.layers(t, b, r.est.Eaten[t.ID])
	v.Bed = a.bedOf(r, t.ID, b.Bedded)
	v.Cocoons = a.cocoonsIn(r, t.ID, b.Bedded)
	return v
}

// cocoonsIn returns the cocoons of a tray's last sample since it was bedded, at
// most readDays ago; nil if none were found.
func (a *Advice) cocoonsIn(r *run, tray string, bedded record.Day) *Counted {
	var v *Counted
	for _, s := range r.in.Samples { // the oldest first
		if s.Tray != tray || s.Day < max(bedded, a.day-readDays) || s.Day > a.day {
			continue
		}
		v = nil
		if s.Cocoons > 0 {
			v = &Counted{Count: int64(s.Cocoons), Day: s.Day.String()}
		}
	}
	return v
}

// base returns the base of a bin, nil if nobody ever told of liquid in it.
func (a *Advice) base(r *run) *BaseView {
	var first, last record.Day
	var all, newest int64
	for _, l := range r.in.Looks { // the oldest first
		if l.Liquid == nil || l.Day > a.day {
			continue
		}
		if first == 0 {
			first = l.Day
		} else {
			all += *l.Liquid
		}
		last, newest = l.Day, *l.Liquid
	}
	stack := a.stackOf(r.bin)
	if first == 0 || len(stack) == 0 {
		return nil
	}
	// What was there the first time came since the bin was begun.
	days := last - first
	if days == 0 {
		all, days = newest, last-r.bin.Started
	}
	v := &BaseView{HeightMM: baseHeight, Drained: newest, Day: last.String()}
	now := units.Round(all*int64(a.day-last), int64(max(days, 1)))
	if area := areaM2(a.trays[stack[0]]); area > 0 {
		now = min(now, units.Nearest(area*baseHeight*1000))
		v.LiquidMM = units.Nearest(float64(now) / 1000 / area)
	}
	v.LiquidML = now
	return v
}

// bedOf returns what was read of a tray's bedding since it was bedded, at most
// readDays ago; nil if nothing was.
func (a *Advice) bedOf(r *run, tray string, bedded record.Day) *BedView {
	var v BedView
	for _, l := range r.in.Looks { // the oldest first
		if l.Tray != tray || l.Day < max(bedded, a.day-readDays) || l.Day > a.day {
			continue
		}
		if l.Temp != nil && l.TempOf != "room" {
			deci := int64(*l.Temp)
			v.Temp, v.TempDay = &deci, l.Day.String()
		}
		if l.Squeeze != "" {
			v.Squeeze, v.SqueezeDay = l.Squeeze, l.Day.String()
		}
	}
	if v == (BedView{}) {
		return nil
	}
	return &v
}

// stageDay returns how many days the batch has been in its stage, from 1.
func (a *Advice) stageDay(b record.Batch) int {
	since := b.Bedded
	for _, d := range []*record.Day{b.Feeding, b.Resting, b.Ready} {
		if d != nil && *d <= a.day {
			since = max(since, *d)
		}
	}
	return int(a.day-since) + 1
}

// layers returns how high bedding and castings stand in a tray, mm, and the
// castings in g. The whole height is the forecast's, so that the drawing, the
// batch and what somebody measured agree; the castings are what has been made.
func (a *Advice) layers(t *record.Tray, b record.Batch, eaten float64) (bedding, castings, grams int64) {
	fill := min(float64(a.outlook(t, b).Now.Fill), float64(t.Height))
	made, mm := castingsIn(t, b, a.day, eaten)
	mm = min(mm, fill)
	return units.Nearest(fill - mm), units.Nearest(mm), units.Nearest(made)
}

// castingsIn returns the castings of a tray in g and in mm, from what was eaten
// and from the bedding that has become castings; no more than the tray holds.
func castingsIn(t *record.Tray, b record.Batch, d record.Day, eaten float64) (grams, mm float64) {
	area := areaM2(t)
	if area <= 0 {
		return 0, 0
	}
	gone := 1 - units.Exp(-0.6931471805599453*float64(d-b.Bedded)/beddingHalf)
	dry := float64(record.Total(b.Bedding))
	grams = float64(castingsOfScraps*eaten) + float64(castingsOfBedding*float64(dry*gone))
	// A litre on a square metre is a millimetre.
	mm = min(grams/1000/castingsDensity/area, float64(t.Height))
	return mm * area * castingsDensity * 1000, mm
}

// spots returns the nine places of a tray: when each was fed last in this
// batch, what is left there, and which is next.
func (a *Advice) spots(r *run, tray string) []SpotView {
	next := a.nextSpot(tray)
	spots := make([]SpotView, 0, len(record.Spots))
	for _, s := range record.Spots {
		v := SpotView{Spot: s, Next: s == next}
		if d, ok := a.fedLast(tray, s); ok {
			v.Day = d.String()
		}
		for _, l := range r.est.Lefts {
			if l.Tray == tray && l.Spot == s {
				v.Left += units.Nearest(l.Soft)
			}
		}
		spots = append(spots, v)
	}
	return spots
}

// fedLast returns the day a spot was fed last in the tray's present batch.
func (a *Advice) fedLast(tray, spot string) (record.Day, bool) {
	b, ok := a.batchOn(tray, a.day)
	if !ok {
		return 0, false
	}
	for i := len(a.h.Feedings) - 1; i >= 0; i-- {
		f := &a.h.Feedings[i]
		if f.Tray == tray && f.Spot == spot && f.Day >= b.Bedded && f.Day <= a.day {
			return f.Day, true
		}
	}
	return 0, false
}

// nextSpot returns the spot that was fed longest ago, never before ever; of
// equals the first in the order of record.Spots. "" for a tray without a batch.
func (a *Advice) nextSpot(tray string) string {
	if _, ok := a.batchOn(tray, a.day); !ok {
		return ""
	}
	best, oldest := "", record.Day(0)
	for _, s := range record.Spots {
		d, ok := a.fedLast(tray, s)
		if !ok {
			return s
		}
		if best == "" || d < oldest {
			best, oldest = s, d
		}
	}
	return best
}
