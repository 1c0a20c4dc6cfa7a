package advice

import (
	"slices"
	"strings"

	"trayside/internal/colony"
	"trayside/internal/feedstock"
	"trayside/internal/order"
	"trayside/internal/record"
	"trayside/internal/units"
)

// Relative standard errors of an amount by how it was found: a kitchen scale to
// a gram or two, a vessel that is never filled twice alike, an eye. Judgement.
var amountErr = map[record.How]float64{
	record.ByScale: 0.02, record.ByVessel: 0.15, record.AsAdvised: 0.20, record.Unweighed: 0.50,
}

// plainMeal is taken for a meal nobody weighed in a household that never
// weighed one, g: a kitchen caddy's worth. Judgement.
const plainMeal = 150

// inputOf translates one bin of the record for the model.
func (a *Advice) inputOf(bin *record.Bin) *colony.Input {
	in := &colony.Input{
		Bin: bin.ID, Species: bin.Species, Today: a.day,
		Coolest: bin.RoomCoolest, Warmest: bin.RoomWarmest, South: southern(a.h.Zone),
	}
	unseen := a.plainMealOf(bin.ID)
	for i := range a.h.Feedings {
		if f := &a.h.Feedings[i]; f.Bin == bin.ID {
			in.Meals = append(in.Meals, mealOf(f, unseen))
		}
	}
	for _, w := range a.h.Worms {
		if w.Bin == bin.ID {
			in.Worms = append(in.Worms, w)
		}
	}
	for _, l := range a.h.Looks {
		if l.Bin == bin.ID {
			in.Looks = append(in.Looks, l)
		}
	}
	for _, s := range a.h.Samples {
		if s.Bin == bin.ID {
			in.Samples = append(in.Samples, s)
		}
	}
	for i := range a.h.Trays {
		if t := &a.h.Trays[i]; t.Bin == bin.ID {
			in.Trays = append(in.Trays, a.tiersOf(bin, t)...)
			in.Harvests = append(in.Harvests, a.harvestsOf(t.ID)...)
		}
	}
	return in
}

// tiersOf lists the batches of one tray. A tray that was fed without anybody
// saying that it was bedded or opened was, at the latest, on that day.
func (a *Advice) tiersOf(bin *record.Bin, t *record.Tray) []colony.Tray {
	tier := colony.Tray{ID: t.ID, AreaM2: areaM2(t), Height: max(0, slices.Index(bin.Stack, t.ID)), Empty: float64(t.Empty)}
	var tiers []colony.Tray
	for _, b := range a.batchesOf(t.ID) {
		tier.Bedded, tier.Feeding, tier.Resting, tier.Emptied = b.Bedded, b.Feeding, b.Resting, b.Emptied
		tier.Bedding = float64(record.Total(b.Bedding))
		tiers = append(tiers, tier)
	}
	return tiers
}

// Relative standard errors of castings taken out: by scale, and by volume, of
// which a litre weighs 0.5 to 0.8 kg moist and a bucket is never filled twice
// alike. Judgement.
const (
	castingsErr   = 0.05
	byVolumeErr   = 0.25
	castingsKgL   = 0.65 // kg a litre, moist: 0.5–0.8, from memory
	sortedForDays = 7    // castings may be sorted and weighed so long before or after a tray is marked empty: judgement
)

// harvestsOf adds up the castings that came out of each batch of a tray. The last
// harvest of an emptied batch is of all that lay there, and counts on the day on
// which the tray was emptied; those before it are of so much at least.
func (a *Advice) harvestsOf(tray string) []colony.Harvest {
	var out []colony.Harvest
	for _, b := range a.batchesOf(tray) {
		sum := colony.Harvest{Tray: tray}
		for i := range a.h.Harvests {
			x := &a.h.Harvests[i]
			grams, err := float64(x.Mass), castingsErr
			if x.Mass == 0 {
				grams, err = float64(litresOf(x, a.h.Measures.Bucket)*castingsKgL)*1000, byVolumeErr
			}
			if x.Tray != tray || x.Batch != b.ID || b.ID == "" || x.Day > a.day || grams <= 0 {
				continue
			}
			sum.ID, sum.Day, sum.At = x.ID, x.Day, x.At
			sum.Grams, sum.Err = sum.Grams+grams, max(sum.Err, err)
			out = append(out, sum)
		}
		if n := len(out); sum.Grams > 0 && b.Emptied != nil && *b.Emptied <= a.day {
			last := &out[n-1]
			last.Whole = last.Day >= *b.Emptied-sortedForDays && last.Day <= *b.Emptied+sortedForDays
			if last.Whole {
				last.Day = *b.Emptied
			}
		}
	}
	return out
}

// batchesOf returns a tray's batches in order, with what its feedings imply.
func (a *Advice) batchesOf(tray string) []record.Batch {
	if known, ok := a.batches[tray]; ok {
		return known
	}
	batches := a.batchesFrom(tray)
	a.batches[tray] = batches
	return batches
}

func (a *Advice) batchesFrom(tray string) []record.Batch {
	var batches []record.Batch
	for _, b := range a.h.Batches {
		if b.Tray == tray {
			batches = append(batches, b)
		}
	}
	order.By(batches, func(x, y record.Batch) int { return int(x.Bedded - y.Bedded) })
	for i := range batches {
		// A tray that is bedded anew has been emptied.
		if i+1 < len(batches) && (batches[i].Emptied == nil || *batches[i].Emptied > batches[i+1].Bedded) {
			batches[i].Emptied = &batches[i+1].Bedded
		}
	}
	for i := range a.h.Feedings {
		f := &a.h.Feedings[i]
		if f.Tray != tray {
			continue
		}
		n := len(batches) - 1
		for n > 0 && batches[n].Bedded > f.Day {
			n--
		}
		if n < 0 {
			batches = append(batches, record.Batch{Tray: tray, Bedded: f.Day})
			n = 0
		}
		b := &batches[n]
		b.Bedded = min(b.Bedded, f.Day)
		if b.Feeding == nil || *b.Feeding > f.Day {
			b.Feeding = &f.Day
		}
	}
	return batches
}

// batchOn returns the batch a tray holds on a day.
func (a *Advice) batchOn(tray string, d record.Day) (record.Batch, bool) {
	batches := a.batchesOf(tray)
	for i := len(batches) - 1; i >= 0; i-- {
		if b := batches[i]; b.Bedded <= d {
			return b, b.StageOn(d) != record.Emptied
		}
	}
	return record.Batch{}, false
}

func areaM2(t *record.Tray) float64 { return float64(t.AreaCM2()) / 10000 }

// mealOf translates a feeding; unseen is taken for one without any weight.
func mealOf(f *record.Feeding, unseen units.Grams) colony.Meal {
	m := colony.Meal{Feeding: f.ID, Tray: f.Tray, Spot: f.Spot, Day: f.Day, At: f.At, Err: amountErr[record.Unweighed]}
	if e, ok := amountErr[f.How]; ok {
		m.Err = e
	}
	m.Parts = partsOf(weighed(f.Items, unseen))
	return m
}

// weighed returns items with weights: as they are, or sharing total if none
// has any.
func weighed(items []record.Item, total units.Grams) []record.Item {
	if record.Total(items) > 0 {
		return items
	}
	if len(items) == 0 {
		return []record.Item{{Scrap: feedstock.Mixed, Grams: total}}
	}
	out := slices.Clone(items)
	for i := range out {
		out[i].Grams = total / units.Grams(len(out))
	}
	return out
}

// partsOf translates scraps for the model.
func partsOf(items []record.Item) []colony.Part {
	parts := make([]colony.Part, 0, len(items))
	for _, it := range items {
		f := feedstock.Standard().FactorsOf(it.Scrap, feedstock.Class(it.Class), it.Cut, it.Frozen)
		parts = append(parts, colony.Part{Grams: float64(max(0, it.Grams)), Appeal: f.Appeal, Soft: f.Soft, Rot: f.Rot})
	}
	return parts
}

// plainMealOf returns what a meal nobody weighed is taken for: the middle one
// of the bin's last 15 that were weighed.
func (a *Advice) plainMealOf(bin string) units.Grams {
	var seen []units.Grams
	for i := len(a.h.Feedings) - 1; i >= 0 && len(seen) < 15; i-- {
		f := &a.h.Feedings[i]
		if g := record.Total(f.Items); f.Bin == bin && f.Day <= a.day && f.How != record.Unweighed && g > 0 {
			seen = append(seen, g)
		}
	}
	if len(seen) == 0 {
		return plainMeal
	}
	slices.Sort(seen)
	return seen[len(seen)/2]
}

// southern reports whether an IANA zone lies where January is summer. Zones
// near the equator have no season to speak of and count as northern.
func southern(zone string) bool {
	for _, area := range []string{"Australia/", "Antarctica/", "America/Argentina/"} {
		if strings.HasPrefix(zone, area) {
			return true
		}
	}
	_, city, _ := strings.Cut(zone, "/")
	return slices.Contains([]string{
		"Johannesburg", "Maputo", "Harare", "Gaborone", "Windhoek", "Maseru", "Mbabane", "Lusaka", "Blantyre",
		"Auckland", "Chatham", "Fiji", "Tongatapu", "Noumea", "Sao_Paulo", "Campo_Grande", "Cuiaba", "Asuncion",
		"Montevideo", "Santiago", "Punta_Arenas", "Coyhaique", "Buenos_Aires", "La_Paz", "Lima", "Antananarivo",
		"Mauritius", "Reunion", "Stanley",
	}, city)
}
