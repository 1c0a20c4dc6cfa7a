package fieldtrial

import (
	"math/rand/v2"

	"trayside/internal/record"
)

// keeper is a household at its bin: it sees what people see and follows its
// policy.
type keeper struct {
	h      *Household
	policy Policy
	bin    *bin
	tally  tally
	pantry float64 // g of scraps waiting, the freezer's included
	fresh  float64 // g of them that came since the last visit: the caddy
	meals  int

	usual float64 // g, what the looking rule feeds
	log   *logbook
	open  []pledge
}

// pledge is a promise not yet settled.
type pledge struct {
	meal        int
	said, first int
	last        int
	chance      int
}

// Ways of bedding a tray.
const (
	beddedShare = 1.0 / 3 // of a tray's height, with damp bedding: common practice
	coverShare  = 0.10    // dry bedding over a meal, of its mass: common practice
	trayFull    = 0.9     // of its height
	mostTrays   = 4       // a stack's; then the lowest is harvested
)

func newKeeper(h *Household, p Policy) *keeper {
	k := &keeper{h: h, policy: p}
	// The worms' draws begin alike in every policy and part as their lives do.
	k.bin = newBin(&h.nature, h.AreaM2, h.beddingG(), h.Put, rand.New(rand.NewPCG(h.seed, 0)))
	k.tally.StartG = k.bin.mass()
	k.usual = h.Rule / 2 * h.Bought * float64(h.Every)
	if p == Advised {
		k.log = newLogbook(h)
	}
	return k
}

// beddingG is the dry bedding of a new tray, g.
func (h *Household) beddingG() float64 {
	return beddedShare * h.Height * h.AreaM2 * cardboardKgL * 1000 // a litre on a square metre is a millimetre
}

// done weighs the castings and sums up.
func (k *keeper) done() Outcome {
	for i := range k.bin.trays {
		k.tally.Castings += k.bin.trays[i].moist()
	}
	return k.tally.close()
}

// today lives through one day: the kitchen, the bin, the night.
func (k *keeper) today(day int) {
	d := &k.h.days[day]
	k.tally.made[day] = d.scraps
	k.pantry += d.scraps
	k.fresh += d.scraps
	k.bin.hunger(d.bedC, d.moist)
	if d.meal {
		k.visit(day)
	}
	k.pantry = min(k.pantry, k.h.Store)
	all, reach := k.bin.hunger(d.bedC, d.moist)
	ate := k.bin.night(d.bedC, d.moist)
	k.settle(day + 1)
	k.tally.evening(day, all, reach, ate, k.bin.lying(), k.bin.mass())
}

// visit is somebody at the bin with scraps.
func (k *keeper) visit(day int) {
	d := &k.h.days[day]
	if k.bin.full(trayFull * k.h.Height) {
		k.openTray(day)
	}
	var want float64
	pledged := pledge{meal: -1}
	switch k.policy {
	case FixedRule, HalfRule:
		want = k.h.Rule * k.h.Bought * float64(k.h.Every)
		if k.policy == HalfRule {
			want /= 2
		}
	case LookingRule:
		want = k.looking(day)
	case Advised:
		want, pledged = k.advised(day)
	}
	advised := want
	if d.ignored {
		want = k.fresh
	}
	k.fresh = 0
	meant := min(want, k.pantry)
	if meant < 1 {
		return
	}
	if d.ignored {
		k.tally.tipped = day + 1
	}
	// Amounts are guessed; what is not there cannot go in.
	fed := min(meant*d.guess, k.pantry)
	k.pantry -= fed
	k.tally.used[day] += fed
	k.tally.Meals++
	k.bin.feed(k.meals, fed*d.soft, d.rot)
	k.bin.cover(coverShare * fed)
	if k.log != nil {
		if d.logged {
			how := record.AsAdvised
			if meant != advised {
				how = record.Unweighed
			}
			k.log.fed(day, meant, how)
		}
		if pledged.meal >= 0 && meant == advised {
			k.open = append(k.open, pledged)
		}
	}
	k.meals++
}

// openTray beds a tray on top of the full one, and harvests the lowest of a stack
// that is high enough.
func (k *keeper) openTray(day int) {
	id := len(k.bin.trays)
	if id == mostTrays {
		id = k.bin.trays[0].id
		k.tally.Castings += k.bin.trays[0].moist()
		k.bin.empty()
	}
	k.bin.bed(id, k.h.beddingG())
	k.usual /= 2 // a good keeper begins small in a tray that worms have yet to reach
	if k.log != nil {
		k.log.bedded(day, id)
	}
}

// moist returns a tray's castings as they are weighed, g.
func (t *tray) moist() float64 { return t.castings / dryCastings }

// looking is the rule of a good keeper: gone → the same and a tenth; some left →
// half; much left → none today. What the kitchen could not give is not built on.
func (k *keeper) looking(day int) float64 {
	switch k.look(day) {
	case record.LeftNone:
		if k.tally.Meals > 0 && k.pantry >= k.usual {
			k.usual *= 1.1
		}
	case record.LeftSome:
		k.usual /= 2
	default:
		return 0
	}
	return k.usual
}

// words are the answers of a look from the least to the most, and the share of the
// last meal at which each begins.
var (
	words  = []record.Leftovers{record.LeftNone, record.LeftSome, record.LeftHalf, record.LeftMost}
	begins = []float64{0, visible, 0.35, 0.65}
)

// look lifts the lid: what lies in the fed tray beside what went in last. Now and
// then it is read one word too low or too high.
func (k *keeper) look(day int) record.Leftovers {
	k.tally.Looks++
	t := k.bin.top()
	var share float64
	if n := len(t.food); n > 0 {
		share = t.lying() / t.food[n-1].fed
	}
	word := 0
	for i, from := range begins {
		if share > from {
			word = i
		}
	}
	switch m := k.h.days[day].misread; {
	case m < misreads/2:
		word = max(0, word-1)
	case m > 1-misreads/2:
		word = min(len(words)-1, word+1)
	}
	return words[word]
}

// settle closes the promises whose meal has gone by the morning of a day, or whose
// span is over.
func (k *keeper) settle(day int) {
	kept := k.open[:0]
	for _, p := range k.open {
		gone := k.bin.left(p.meal) <= visible
		switch {
		case gone:
			k.tally.Promises = append(k.tally.Promises, Promise{Chance: p.chance, Kept: day <= p.said, Spread: day >= p.first && day <= p.last})
		case day > p.last:
			k.tally.Promises = append(k.tally.Promises, Promise{Chance: p.chance})
		default:
			kept = append(kept, p)
		}
	}
	k.open = kept
}
