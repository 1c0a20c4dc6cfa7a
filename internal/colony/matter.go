package colony

import (
	"math"
	"slices"

	"trayside/internal/record"
	"trayside/internal/units"
)

// What lies in a tray tells how much has gone through it: castings harvested, the
// whole tray weighed, how high it stands. Each is a wide word about what nobody
// logged, and about amounts; none of them counts worms.
//
// The matter is reckoned from what the worms have had and from the bedding that
// was logged, with the same yields as the drawing of a tray (advice).
const (
	// castingsOfScraps is g of moist castings a g of soft scraps, castingsOfBedding a
	// g of paper: 15 and 93 % dry, half of it lost as carbon dioxide (50 ± 10 %:
	// Abbasi group, preprint on vermicompost yield), at 70 % moisture.
	castingsOfScraps  = 0.15 * 0.5 / 0.3
	castingsOfBedding = 0.93 * 0.5 / 0.3
	castingsWater     = 0.70
	// beddingHalf is the days in which half of the bedding has become castings:
	// judgement; it sinks visibly at six weeks (University of Illinois Extension).
	beddingHalf = 60.0
	paperDry    = 0.93
	// Densities, kg a litre: moist castings 0.5–0.8 (from memory); loose cardboard
	// 0.06 (Bertrand, Missouri University of Science and Technology, table of
	// material properties), of whose height wetting leaves 0.6 (judgement); scraps
	// in a caddy 0.45 (between United States Environmental Protection Agency 2016
	// and Bertrand).
	castingsKgL = 0.65
	beddingKgL  = 0.06 / 0.6
	scrapsKgL   = 0.45
	// plainBedding is the bedding of a tray of which nobody logged any, g of dry
	// paper on a square metre: 100 mm of loose shreds (common practice).
	plainBedding = 6000.0
)

// Standard errors of the logarithm: judgement, but for the first.
const (
	// yieldErr: kept from 40 to 60 % and moisture from 65 to 80 % together span about
	// a factor of 1.43 either way, taken for an 80 % interval.
	yieldErr = 0.28
	// wetErr is what not knowing the moisture does to a tray's weight: from 70 to 80 %
	// the same dry matter weighs half as much again. felt is when somebody has felt
	// or measured it within days.
	wetErr  = 0.35
	feltErr = 0.22
	// fillErr: a bed is heaped, settles and is fluffed up again.
	fillErr = 0.40
	// Bedding as logged, and as guessed.
	beddedErr = 0.15
	guessed   = 0.7
	// matterCounts is what one weight or height counts of one that stood alone, as a
	// power of its likelihood: the next one errs the same way, with the same bedding
	// and the same yield.
	matterCounts = 0.4
)

// Harvest is castings taken out of a tray.
type Harvest struct {
	ID    string
	Tray  string
	Grams float64 // moist castings out of this batch so far, this harvest included
	Err   float64 // standard error of the logarithm of Grams
	Whole bool    // the tray was emptied with it; otherwise at least so much was there
	Day   record.Day
	At    string
}

// matter is what lies in one tray of one particle, g.
type matter struct {
	castings float64 // moist, as they are harvested
	paper    float64 // dry bedding that is none yet
	lying    float64 // soft scraps
	bedding  float64 // share of castings and paper that comes from bedding
}

// matterOf reckons what lies in a tray of a particle on a day.
func (e *Ensemble) matterOf(p *particle, tray int, b *Tray, d record.Day) matter {
	bedded := b.Bedding
	if bedded <= 0 {
		area := b.AreaM2
		if area <= 0 {
			area = plainArea
		}
		bedded = float64(plainBedding * area)
	}
	stays := units.Exp(-float64(math.Ln2*float64(max(0, d-b.Bedded))) / beddingHalf)
	ofBedding := float64(float64(castingsOfBedding*bedded) * (1 - stays))
	m := matter{
		castings: float64(castingsOfScraps*max(0, p.Sums.ByTray[tray])) + ofBedding,
		paper:    float64(bedded * stays),
		lying:    p.softIn(tray),
	}
	m.bedding = (ofBedding + m.paper) / (m.castings + m.paper)
	return m
}

// weighs returns g of all of it at a moisture, of 1, less castings taken out.
func (m matter) weighs(moist, taken float64) float64 {
	dry := float64(max(0, m.castings-taken)*(1-castingsWater)) + float64(m.paper*paperDry)
	return dry/(1-min(moist, 0.95)) + m.lying
}

// litres returns how much room it takes, less castings taken out.
func (m matter) litres(taken float64) float64 {
	return (max(0, m.castings-taken)/castingsKgL + m.paper/beddingKgL + m.lying/scrapsKgL) / 1000
}

// harvest weighs the particles by castings that were taken out: by all of them
// when the tray was emptied, otherwise by there having been so many. It is taken
// in before the day's trays turn over.
func (e *Ensemble) harvest(h *Harvest) {
	tray := slices.Index(e.trays, h.Tray)
	if tray < 0 || h.Grams <= 0 || !e.known.hasWorms {
		return
	}
	b, inUse := e.batch(tray, e.day-1)
	if !inUse {
		return
	}
	e.noting(h.Day, h.ID, func() {
		e.weighMatter(e.key("harvest", h.ID), 1, func(p *particle) float64 {
			m := e.matterOf(p, tray, &b, e.day)
			// Bedding that is not castings yet comes out with them.
			there := m.castings + float64(m.paper*paperDry)/(1-castingsWater)
			diff := units.Log(h.Grams / max(1, there))
			if !h.Whole && diff < 0 {
				return 1
			}
			return massChance(diff, variance(yieldErr, m.bedding, &b)+float64(h.Err*h.Err))
		})
	})
}

// lump takes in a look's weight of a whole tray and the height of what lies in it.
func (e *Ensemble) lump(l *record.Look) {
	tray := slices.Index(e.trays, l.Tray)
	if tray < 0 || !e.known.hasWorms {
		return
	}
	b, inUse := e.batch(tray, e.day)
	if !inUse {
		return
	}
	taken := e.taken(l, b.Bedded)
	if l.Weight != nil && b.Empty > 0 && float64(*l.Weight) > b.Empty {
		err := wetErr
		if e.bed.felt(e.day) {
			err = feltErr
		}
		seen, moist := float64(*l.Weight)-b.Empty, e.bed.moisture(e.day)/100
		e.noting(l.Day, l.ID, func() {
			e.weighMatter(e.key("weight", l.ID), matterCounts, func(p *particle) float64 {
				m := e.matterOf(p, tray, &b, e.day)
				all := m.weighs(moist, taken) + float64(p.Mass(e.rates)*p.Share[tray])
				return massChance(units.Log(seen/max(1, all)), variance(err, m.bedding, &b))
			})
		})
	}
	if l.Fill != nil && *l.Fill > 0 && b.AreaM2 > 0 {
		e.noting(l.Day, l.ID, func() {
			e.weighMatter(e.key("fill", l.ID), matterCounts, func(p *particle) float64 {
				m := e.matterOf(p, tray, &b, e.day)
				mm := m.litres(taken) / b.AreaM2 // a litre on a square metre is a millimetre
				return massChance(units.Log(float64(*l.Fill)/max(1, mm)), variance(fillErr, m.bedding, &b))
			})
		})
	}
}

// variance adds the error of the bedding to an observation's own.
func variance(err, bedding float64, b *Tray) float64 {
	of := beddedErr
	if b.Bedding <= 0 {
		of = guessed
	}
	of = float64(of * bedding)
	return float64(err*err) + float64(of*of)
}

// weighMatter weighs the particles by a likelihood. A blunder, another tray's
// number or bedding that nobody logged, says nothing.
func (e *Ensemble) weighMatter(purpose uint64, counts float64, chance func(p *particle) float64) {
	likely := make([]float64, len(e.particles))
	for i := range e.particles {
		likely[i] = units.Pow(blunder+float64((1-blunder)*chance(&e.particles[i])), counts)
	}
	e.reweigh(likely)
	e.resample(purpose)
}

// taken returns g of castings harvested before a look out of the batch that its
// tray holds.
func (e *Ensemble) taken(l *record.Look, bedded record.Day) float64 {
	var g float64
	for i := range e.in.Harvests {
		h := &e.in.Harvests[i]
		before := h.Day < l.Day || h.Day == l.Day && h.At <= l.At
		if h.Tray == l.Tray && !h.Whole && h.Day >= bedded && before {
			g = max(g, h.Grams)
		}
	}
	return g
}
