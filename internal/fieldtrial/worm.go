package fieldtrial

import (
	"math"
	"slices"

	"trayside/internal/units"
)

// worm is one animal. Its size is a length, the cube root of its grams, because
// that is what it eats by (length squared) and grows in.
type worm struct {
	tray  int
	long  float64 // g^(1/3)
	full  float64 // the length it comes to with all it wants
	most  float64 // the longest it has been
	greed float64 // its appetite among its like, mean 1
	lays  float64 // its fertility among its like, mean 1
	fed   float64 // share of its appetite met, over about remembers days
	life  float64 // of the chance of death that it will stand; drawn at birth
	child float64 // share of its childhood that has passed
	adult float64 // days since it matured, 0 before
	egg   float64 // share of the next cocoon
}

func (w *worm) grams() float64 { return w.long * w.long * w.long }

// cocoon hatches when the bed has seen enough warmth since it was laid.
type cocoon struct {
	tray int
	at   float64 // of the bin's heat
}

// Individuals differ by about so much, as standard deviations of the logarithm.
// Judgement.
const (
	differSize  = 0.06 // of length: a fifth of mass
	differGreed = 0.20
	differLays  = 0.30
	differTime  = 0.08 // of degree-days
)

// about draws around 1.
func (b *bin) about(sd float64) float64 { return units.Exp(sd*b.r.NormFloat64() - sd*sd/2) }

// hatchling is a worm just hatched.
func (b *bin) hatchling(tray int) worm {
	w := worm{
		tray: tray, full: math.Cbrt(b.n.size) * b.about(differSize), greed: b.about(differGreed), lays: b.about(differLays),
		fed: 1, life: b.r.ExpFloat64(),
	}
	w.long = math.Cbrt(hatchlingG) * b.about(differSize)
	w.most = w.long
	return w
}

// grown is a worm as worms are sold: mature or nearly, four of five.
func (b *bin) grown() worm {
	w := b.hatchling(0)
	w.long = w.full * (0.7 + 0.3*b.r.Float64())
	w.most = w.long
	w.child = 0.7 + 0.3*b.r.Float64()
	if b.r.Float64() < 0.8 {
		w.long = w.full * (0.85 + 0.15*b.r.Float64())
		w.most, w.child, w.adult = w.long, 1, 200*b.r.Float64()
	}
	return w
}

// live takes every worm through a day: it eats its share of what its tray's worms
// got, grows or shrinks, lays, and may die.
func (b *bin) live(bedC, moist float64) {
	wet := wets.at(moist)
	pace := b.n.grow * lengthens * warmth(bedC, b.n.mild) / warmth(20, b.n.mild) * wet
	develop := max(0, bedC-devBase) / b.n.childhood
	if bedC > 32 {
		develop = 0
	}
	kill := kills.at(bedC)
	young := -units.Log(b.n.survive) // over a whole childhood
	lay := b.n.cocoons / 7 * b.n.kitchen * breeds.at(bedC) * wet
	alive := b.worms[:0]
	for _, w := range b.worms {
		t := &b.trays[w.tray]
		packed := min(1.5, t.crowd*t.crowd)
		w.fed += (t.share - w.fed) / remembers
		root := math.Sqrt(w.fed)

		goal := math.Sqrt(root)*(1-crowdSize*packed) - w.long/w.full
		if goal < 0 {
			goal *= shrinks
		}
		w.long += pace * w.long * goal
		w.most = max(w.most, w.long)

		risk := kill + sourKills*t.sour
		if w.grams() < starvedAt*w.most*w.most*w.most {
			risk += starving
		}
		if w.adult > 0 {
			w.adult++
			risk += b.n.die
			if size := w.grams() / (w.full * w.full * w.full); size > layShare {
				w.egg += lay * w.lays * w.fed * root * max(0, 1-packed) * late(w.adult)
			}
			for w.egg >= 1 {
				w.egg--
				b.cocoons = append(b.cocoons, cocoon{w.tray, b.heat + b.n.incubate*b.about(differTime)})
			}
		} else {
			step := develop * (0.3 + 0.7*w.fed) * max(0.2, 1-packed/2)
			w.child += step
			risk += max(b.n.die, young*step*2*max(0, 1-w.child)*(1+crowdDeath*packed)) // most die early
			if w.child >= 1 && w.grams() >= matureShare*w.full*w.full*w.full {
				w.adult = 1
			}
		}
		if w.life -= risk; w.life > 0 {
			alive = append(alive, w)
		}
	}
	b.worms = alive
}

func late(adult float64) float64 {
	if adult > lateAfter {
		return lateShare
	}
	return 1
}

// hatch opens the cocoons whose time has come.
func (b *bin) hatch(bedC float64) {
	if bedC >= 35 {
		b.cocoons = b.cocoons[:0] // nothing develops there: judgement
	}
	b.cocoons = slices.DeleteFunc(b.cocoons, func(c cocoon) bool {
		if c.at > b.heat {
			return false
		}
		if b.r.Float64() < b.n.hatch {
			// One at least, the others by chance, so that the mean comes out.
			for n := 1 + b.few(b.n.litter-1); n > 0; n-- {
				b.worms = append(b.worms, b.hatchling(c.tray))
			}
		}
		return true
	})
}

// few draws a count with a mean (Poisson, by multiplying draws; Knuth, The Art of
// Computer Programming 2, 3.4.1, from memory).
func (b *bin) few(mean float64) int {
	n, p, end := 0, b.r.Float64(), units.Exp(-mean)
	for p > end {
		n++
		p *= b.r.Float64()
	}
	return n
}

// climb lets worms follow food up, each when it happens to: fast where food lies
// above and none around them.
func (b *bin) climb() {
	if len(b.trays) < 2 {
		return
	}
	daily := units.Log(5) / b.n.climb // four fifths after climb days
	var chance [mostTrays]float64
	for i := range b.trays[:len(b.trays)-1] {
		chance[i] = daily
		if len(b.trays[i+1].food) == 0 {
			chance[i] *= 0.3
		}
		if len(b.trays[i].food) > 0 {
			chance[i] *= 0.3
		}
	}
	for i := range b.worms {
		if w := &b.worms[i]; w.tray < len(b.trays)-1 && b.r.Float64() < chance[w.tray] {
			w.tray++
		}
	}
}
