package fieldtrial

import (
	"math"
	"math/rand/v2"
	"slices"

	"trayside/internal/units"
)

// bin is one stack as it really is.
type bin struct {
	n       *nature
	r       *rand.Rand // the worms' own draws
	areaM2  float64
	trays   []tray // from the bottom up; the last takes food
	worms   []worm
	cocoons []cocoon
	heat    float64 // degree-days above devBase so far
	books   books
}

// books are the soft scraps' sums, g: fed = eaten + rotted + out + what lies.
type books struct{ fed, eaten, rotted, out float64 }

// tray is one tier.
type tray struct {
	id       int
	bedding  float64 // dry g still there
	bedded   float64 // dry g put in
	castings float64 // dry g
	food     []portion

	// Of today's night.
	mass, need, ate float64 // g; need is the worms' appetite
	crowd, sour     float64 // 1 is the ceiling; share of sourness
	share           float64 // of the appetite that was met, bedding counted
}

// portion is the soft part of one meal.
type portion struct {
	meal      int
	fed, left float64 // g
	rot       float64 // share a day at 20 °C
	ripe      float64 // share that microbes have softened enough to be eaten
}

// ripens is how fast worms can get at fresh scraps, of a meal a day at 20 °C; the
// first part is soft from the start. Judgement: worms eat what microbes have begun.
const (
	ripeFresh = 0.4
	ripens    = 0.3
)

// visible is the share of a meal below which people call it gone.
const visible = 0.05

// newBin returns one tray with dry bedding and grams of worms, as they are sold.
func newBin(n *nature, areaM2, bedding, grams float64, r *rand.Rand) *bin {
	b := &bin{n: n, areaM2: areaM2, r: r}
	b.bed(0, bedding)
	for b.mass() < grams {
		b.worms = append(b.worms, b.grown())
	}
	return b
}

// bed puts a tray with fresh bedding, dry g, on top.
func (b *bin) bed(id int, bedding float64) {
	b.trays = append(b.trays, tray{id: id, bedding: bedding, bedded: bedding})
}

func (b *bin) top() *tray { return &b.trays[len(b.trays)-1] }

// feed lays a meal into the top tray.
func (b *bin) feed(meal int, soft, rot float64) {
	t := b.top()
	t.food = append(t.food, portion{meal: meal, fed: soft, left: soft, rot: b.n.decay * rot, ripe: ripeFresh})
	b.books.fed += soft
}

// cover lays dry bedding over a meal.
func (b *bin) cover(grams float64) {
	b.top().bedding += grams
	b.top().bedded += grams
}

// full reports whether the top tray is filled to a height of mm.
func (b *bin) full(mm float64) bool {
	t := b.top()
	litres := t.bedding/1000/cardboardKgL/2 + t.castings/dryCastings/1000/castingsKgL + t.lying()/1000
	return litres/b.areaM2 >= mm // a litre on a square metre is a millimetre
}

// empty takes the lowest tray out; its worms go back in on top, its cocoons and
// scraps are lost with the castings.
func (b *bin) empty() {
	t := &b.trays[0]
	b.books.out += t.lying()
	b.trays = slices.Clone(b.trays[1:])
	for i := range b.worms {
		if b.worms[i].tray--; b.worms[i].tray < 0 {
			b.worms[i].tray = len(b.trays) - 1
		}
	}
	b.cocoons = slices.DeleteFunc(b.cocoons, func(c cocoon) bool { return c.tray == 0 })
	for i := range b.cocoons {
		b.cocoons[i].tray--
	}
}

func (t *tray) lying() float64 {
	var g float64
	for _, p := range t.food {
		g += p.left
	}
	return g
}

func (b *bin) lying() float64 {
	var g float64
	for i := range b.trays {
		g += b.trays[i].lying()
	}
	return g
}

func (b *bin) mass() float64 {
	var g float64
	for i := range b.worms {
		g += b.worms[i].grams()
	}
	return g
}

// hunger works out every tray's worms and their appetite for the coming night,
// and returns what could be eaten of food where it lies or would be laid.
func (b *bin) hunger(bedC, moist float64) (all, reach float64) {
	for i := range b.trays {
		b.trays[i].mass, b.trays[i].need = 0, 0
	}
	for i := range b.worms {
		w := &b.worms[i]
		area := w.long * w.long
		t := &b.trays[w.tray]
		t.mass += area * w.long
		t.need += area * w.greed
	}
	day := b.n.appetite * math.Cbrt(standardG) * warmth(bedC, b.n.mild) * wets.at(moist)
	for i := range b.trays {
		t := &b.trays[i]
		t.crowd = t.mass / b.areaM2 / b.n.ceiling
		t.sour = min(1, max(0, t.lying()/b.areaM2/sourFrom-1))
		t.need *= day / (1 + crowdAppet*t.crowd*t.crowd) * (1 - sourEats*t.sour)
		all += t.need
		if i == len(b.trays)-1 || len(t.food) > 0 {
			reach += min(t.need, b.n.surface*b.areaM2)
		}
	}
	return all, reach
}

// night lets microbes and worms eat and then the worms live through a day. The
// trays' hunger must have been worked out. It returns what worms ate.
func (b *bin) night(bedC, moist float64) (ate float64) {
	for i := range b.trays {
		t := &b.trays[i]
		b.rot(t, bedC)
		b.graze(t)
		ate += t.ate
		t.share = 1
		if t.need > 0 {
			t.share = t.ate / t.need
		}
		fill := onBedding * t.bedding / max(1, t.bedded)
		t.share += (1 - t.share) * fill
		t.weather(b.n, bedC)
	}
	b.heat += max(0, bedC-devBase)
	b.live(bedC, moist)
	b.hatch(bedC)
	b.climb()
	return ate
}

// rot lets microbes soften and take their part.
func (b *bin) rot(t *tray, bedC float64) {
	warm := 0.0
	if bedC > 0 {
		warm = units.Pow(rotTen, (bedC-20)/10)
	}
	for i := range t.food {
		p := &t.food[i]
		gone := p.left * min(1, p.rot*warm)
		p.left -= gone
		p.ripe = min(1, p.ripe+ripens*warm)
		b.books.rotted += gone
		t.castings += gone * dryScraps * b.n.keep
	}
}

// graze lets a tray's worms eat, the oldest meal first, what is soft enough of it,
// up to their appetite and what the surface can take.
func (b *bin) graze(t *tray) {
	want := min(t.need, b.n.surface*b.areaM2)
	t.ate = 0
	kept := t.food[:0]
	for _, p := range t.food {
		g := min(want-t.ate, max(0, p.left-(1-p.ripe)*p.fed))
		p.left -= g
		t.ate += g
		if p.left < 0.5 { // a crumb nobody sees goes with the rest
			b.books.rotted += p.left
			continue
		}
		kept = append(kept, p)
	}
	t.food = kept
	b.books.eaten += t.ate
	t.castings += t.ate * dryScraps * b.n.keep
}

// weather turns bedding into castings: half of it in about ten weeks at 20 °C
// (judgement; visible sinking at six weeks, University of Illinois Extension).
func (t *tray) weather(n *nature, bedC float64) {
	gone := t.bedding * 0.01 * max(0, min(2, bedC/20))
	t.bedding -= gone
	t.castings += gone * dryBedding * n.keep
}

// left returns what is left of a meal, of 1; 0 when it is gone.
func (b *bin) left(meal int) float64 {
	for i := range b.trays {
		for _, p := range b.trays[i].food {
			if p.meal == meal {
				return p.left / p.fed
			}
		}
	}
	return 0
}
