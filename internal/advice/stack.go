package advice

import (
	"slices"

	"trayside/internal/feedstock"
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
	// beddingDensity is taken where the catalogue has none: 40 g of dry newspaper
	// fill a litre of bin (2.5 lb per cubic foot, Grand Traverse County FAQ).
	beddingDensity = 0.040
)

// BedView is what was read of a tray's bedding lately. Parts nobody read are
// missing.
type BedView struct {
	Temp       *int64 `json:"temp,omitempty"` // 0.1 °C
	TempDay    string `json:"tempDay,omitempty"`
	Squeeze    string `json:"squeeze,omitempty"`
	SqueezeDay string `json:"squeezeDay,omitempty"`
}

// BaseView is the base under a stack, drawn when somebody told of liquid in it.
type BaseView struct {
	HeightMM int64  `json:"heightMM"`
	LiquidMM int64  `json:"liquidMM"`
	LiquidML int64  `json:"liquidML"`
	Day      string `json:"day"` // on which it was drained
}

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
	v.BeddingMM, v.CastingsMM, v.CastingsG = heights(t, b, a.day, r.est.Eaten[t.ID])
	v.Bed = a.bedOf(r, t.ID, b.Bedded)
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

// heights returns how high bedding and castings stand in a tray, mm, and the
// castings in g, from the bedding that went in, its age, and what was eaten;
// together no more than the tray holds.
func heights(t *record.Tray, b record.Batch, d record.Day, eaten float64) (bedding, castings, grams int64) {
	area := areaM2(t)
	if area <= 0 {
		return 0, 0, 0
	}
	kept := units.Exp(-0.6931471805599453 * float64(d-b.Bedded) / beddingHalf)
	var litres, dry float64
	for _, it := range b.Bedding {
		density := beddingDensity
		if e, ok := feedstock.Standard().Lookup(it.Scrap); ok && e.Density != nil && *e.Density > 0 {
			density = *e.Density
		}
		litres += float64(it.Grams) / 1000 / density
		dry += float64(it.Grams)
	}
	// A litre on a square metre is a millimetre.
	bed := float64(litres*kept) / area
	made := (float64(castingsOfScraps*eaten) + float64(castingsOfBedding*float64(dry*(1-kept)))) / 1000 / castingsDensity / area
	room := float64(t.Height)
	made = min(made, room)
	bed = min(bed, room-made)
	return units.Nearest(bed), units.Nearest(made), units.Nearest(made * area * castingsDensity * 1000)
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
