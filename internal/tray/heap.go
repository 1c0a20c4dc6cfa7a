package tray

import (
	"cmp"

	"trayside/internal/record"
	"trayside/internal/units"
)

// heap is the matter in a tray. Decay is of the first order, so scraps and
// bedding of all ages can be kept in one pool each.
type heap struct {
	scraps, bedding float64 // g dry, not decayed yet
	done            float64 // g dry, castings
	all             float64 // g dry put in
	cells           float64 // g water inside scraps that have not decayed
	free            float64 // g water in bedding and castings
	scrapsMl        float64 // volume of the pools
	beddingMl       float64
	first           float64 // share of the first bedding not decayed yet
	fit             float64 // measured fill over the reckoned one, 1 until measured
	ran             float64 // g reckoned to have run off since somebody last poured it away
}

func (h *heap) put(p Put) {
	water := min(max(p.Water, 0), 1)
	wet := max(p.Grams, 0)
	dry := float64(wet * (1 - water))
	h.all += dry
	switch {
	case p.Bedding:
		h.bedding += dry
		h.free += float64(wet * water)
		h.beddingMl += float64(wet / orElse(p.Density, beddingDensity) * sinks)
	case dry == 0:
		h.free += wet
	default:
		h.scraps += dry
		h.cells += float64(wet * water)
		h.scrapsMl += wet / orElse(p.Density, scrapsDensity)
	}
}

func orElse(x, otherwise float64) float64 {
	if x > 0 {
		return x
	}
	return otherwise
}

// dry returns g of dry matter.
func (h *heap) dry() float64 { return h.scraps + h.bedding + h.done }

// volume returns ml.
func (h *heap) volume() float64 {
	castings := h.done / (1 - castingsWater) / castingsDensity
	return float64((h.scrapsMl + h.beddingMl + castings) * h.fit)
}

// undone returns the share of the dry matter put in that has yet to decay.
func (h *heap) undone() float64 {
	if h.all <= 0 {
		return 0
	}
	return min(1, (h.scraps+h.bedding)/h.all) // the two sums are rounded apart
}

// night lets a day's decay and drying happen at celsius, with time constants
// stretched by tau, and returns what runs off.
func (h *heap) night(celsius, tau, areaM2 float64) (drained float64) {
	var pace float64
	if celsius > 0 {
		pace = units.Pow(rotDoubles, (celsius-20)/10) / tau
	}
	left := units.Exp(-pace / scrapsTau)
	leftBedding := units.Exp(-pace / beddingTau)
	gone := float64(h.scraps*(1-left)) + float64(h.bedding*(1-leftBedding))
	h.done += float64(gone * kept)
	h.free += float64(float64(gone*(1-kept))*breathWater) + float64(h.cells*(1-left))
	h.scraps, h.cells, h.scrapsMl = float64(h.scraps*left), float64(h.cells*left), float64(h.scrapsMl*left)
	h.first = float64(h.first * leftBedding)
	h.bedding, h.beddingMl = float64(h.bedding*leftBedding), float64(h.beddingMl*leftBedding)

	h.free = max(0, h.free-float64(dries*areaM2))
	drained = max(0, h.free-h.holds())
	h.free -= drained
	h.ran += drained
	return drained
}

// holds returns the most water, g, that stays in bedding and castings.
func (h *heap) holds() float64 {
	return float64(h.bedding*paperHolds) + float64(h.done*castingsHold)
}

// see sets the heap right by what somebody measured.
func (h *heap) see(s Seen, areaM2 float64) {
	if s.Drained != nil {
		// More than is reckoned is water that nobody wrote down, and a bed that
		// drips is as wet as it gets. Less dried off, or stands in the tray below:
		// what ran off here has left the heap either way.
		if *s.Drained > h.ran {
			h.free = max(h.free, h.holds())
		}
		h.ran = 0
	}
	solid := h.bedding + h.done
	for _, q := range squeezed {
		if q.word == s.Squeeze {
			h.free = float64(solid * q.water / (1 - q.water))
		}
	}
	if s.Meter > 0 && s.Meter < 1 {
		h.free = float64(solid * s.Meter / (1 - s.Meter))
	}
	if s.Grams > 0 {
		h.free = max(0, s.Grams-h.dry()-h.cells)
	}
	if v := h.volume(); s.Fill > 0 && areaM2 > 0 && v > 0 {
		h.fit = float64(h.fit * (float64(float64(s.Fill)*areaM2*1000) / v))
	}
}

// run is what one course of a batch came to; a day of 0 is never.
type run struct {
	now                     Bed
	dark, full, next, ready record.Day
	ends                    Why
	wet                     float64 // g of castings at the harvest, or at the horizon
}

// run follows the batch with time constants stretched by tau.
func (b *Batch) run(today record.Day, tau float64) run {
	var r run
	h := heap{first: 1, fit: 1}
	rim := float64(float64(b.Height) * b.AreaM2 * 1000) // ml
	nextPut, nextSeen := 0, 0
	lastFed, lastPoured := b.Bedded, b.Bedded
	var firstFed record.Day // 0 before any food
	var drips [7]float64
	fed := b.Resting == nil // still taking food, as far as is known
	for d := b.Bedded; within(d, today); d++ {
		for ; nextPut < len(b.Puts) && b.Puts[nextPut].Day <= d && d <= today; nextPut++ {
			h.put(b.Puts[nextPut])
			if p := b.Puts[nextPut]; !p.Bedding && p.Water < 1 {
				lastFed = d
				firstFed = cmp.Or(firstFed, d)
			}
		}
		for ; nextSeen < len(b.Seen) && b.Seen[nextSeen].Day <= d && d <= today; nextSeen++ {
			h.see(b.Seen[nextSeen], b.AreaM2)
			if poured := b.Seen[nextSeen].Drained; poured != nil {
				spread(&drips, int(d-b.Bedded), int(d-lastPoured), max(0, *poured))
				lastPoured = d
			}
		}
		if d > today && fed && r.ends == "" && b.Kitchen.Scraps > 0 {
			h.put(Put{Grams: b.Kitchen.Scraps, Water: b.Kitchen.Water})
			h.put(Put{Grams: b.Kitchen.Bedding, Bedding: true})
			lastFed = d
			firstFed = cmp.Or(firstFed, d)
		}
		if r.dark == 0 && h.first <= 0.5 {
			r.dark = d
		}
		if d == today {
			r.now = h.bed(b.AreaM2, drips[:])
		}
		b.end(&r, &h, d, today, firstFed, rim)
		if r.ready == 0 && d >= today && b.isReady(&r, &h, d, lastFed) {
			r.ready, r.wet = d, h.dry()/(1-castingsWater)
		}
		drips[int(d-b.Bedded)%7] = h.night(b.Room.Celsius(d), tau, b.AreaM2)
	}
	if r.ready == 0 {
		r.wet = h.dry() / (1 - castingsWater)
	}
	return r
}

// spread puts what was poured away, g, in the place of the drips reckoned for the
// days before day back to the last time.
func spread(drips *[7]float64, day, since int, g float64) {
	if since == 0 { // again on the same day
		drips[(day+6)%7] += g
		return
	}
	for i := 1; i <= min(since, 7); i++ {
		drips[(day-i)%7] = g / float64(since)
	}
}

// end notes when the feeding ends, and why.
func (b *Batch) end(r *run, h *heap, d, today, firstFed record.Day, rim float64) {
	if b.Resting != nil {
		if r.ends == "" {
			r.ends = ByHand
		}
		return
	}
	if d < today || r.ends != "" {
		return
	}
	if rim > 0 && h.volume() >= rim {
		r.full = d
	}
	switch {
	case r.full != 0:
		r.ends, r.next = ByFill, max(today, r.full-bedAhead)
	case d-cmp.Or(firstFed, b.Bedded) >= longestFed:
		r.ends, r.next = ByAge, max(today, d-bedAhead)
	}
}

// isReady reports whether the castings can be harvested.
func (b *Batch) isReady(r *run, h *heap, d, lastFed record.Day) bool {
	return r.ends != "" && h.all > 0 && h.undone() <= readyShare && d-lastFed >= restBefore &&
		(!b.First || d-b.Bedded >= firstHarvest)
}

// bed is what a person would find.
func (h *heap) bed(areaM2 float64, drips []float64) Bed {
	v := Bed{Dry: h.dry(), Water: h.cells + h.free, Volume: h.volume(), Undone: h.undone()}
	for _, g := range drips {
		v.Drips += g
	}
	if areaM2 > 0 {
		v.Fill = units.Millimetres(units.Nearest(v.Volume / areaM2 / 1000))
	}
	if solid := h.bedding + h.done + h.free; solid > 0 {
		v.Squeeze = wordOf(h.free / solid)
	}
	switch v.Squeeze {
	case "crumbles", "holds":
		v.Moisten = float64((h.bedding+h.done)*rightWater/(1-rightWater)) - h.free
	case "runs":
		v.Soak = float64(h.free*(1-rightWater)/rightWater) - h.bedding - h.done
	}
	return v
}
