package colony

import (
	"trayside/internal/record"
	"trayside/internal/units"
)

// The hidden quantities of a particle, each a standard normal number that
// traits turns into a factor. Nothing that is done to such a number can leave
// the range that the sources support by more than its tails.
const (
	ofHunger = iota
	ofSurface
	ofFertility
	ofFrailty
	ofRoom
	ofClimb
	ofUnlogged
	ofBedding
	hiddenCount
)

// particle is one way the bin may be: a whole colony with its food, and what
// makes it another than its species' middle.
type particle struct {
	State
	hidden   [hiddenCount]float64
	weight   float64
	strand   int             // which of the strands of weather its bed follows
	unlogged float64         // feedings that nobody logs for each that somebody does
	ghost    ghost           // the next of those
	amounts  [recent]float64 // what was really fed of the last meals, as a factor on what was logged
}

// recent is how many meals back a particle remembers what an amount really was.
const recent = 16

// ghost is a feeding that nobody logged, about to happen.
type ghost struct {
	day   record.Day
	grams float64 // 0 for none
	meal  int     // the logged meal it is near
}

// ghostPart is the part number of a morsel that nobody logged.
const ghostPart = -1

// tail90 is the normal quantile of 0.95: a range's ends are taken for those of
// a 90 % interval.
const tail90 = 1.6449

// factor returns the factor on a range's middle that a standard normal number
// stands for: log-normal, with a spread of its own on either side.
func (r Range) factor(z, wide float64) float64 {
	if z > 0 {
		return units.Pow(r.High/r.Mid, float64(z*wide)/tail90)
	}
	return units.Pow(r.Mid/r.Low, float64(z*wide)/tail90)
}

// unloggedUsual is the middle of what a household forgets to log, feedings for
// each that it logs (three in ten of all), and unloggedErr the standard error of
// its logarithm: nine in ten households lie between one in five and one in one.
// Judgement.
const (
	unloggedUsual = 0.43
	unloggedErr   = 0.5
)

// onBedding is what bedding, and what grows on it, stands for of a full meal to
// hungry worms: they outlast several weeks unfed (UF/IFAS Extension Sarasota
// 2023), and paper is eaten, at about a tenth of the speed of scraps. Judgement.
var onBedding = Range{0.15, 0.05, 0.40}

// surfaceWide narrows what a surface may take: the ends of that range are other
// foods and other bins. Judgement.
const surfaceWide = 0.7

// settle works the traits out of the hidden numbers.
func (p *particle) settle(r *Rates) {
	h := &p.hidden
	p.Hunger = r.Appetite.factor(h[ofHunger], r.Wide)
	p.Broad = r.Surface.factor(h[ofSurface], surfaceWide)
	p.Fertile = r.Household.factor(h[ofFertility], r.Wide)
	p.Frail = r.Die.factor(h[ofFrailty], 1)
	p.Roomy = r.Capacity.factor(h[ofRoom], r.Wide)
	p.Slow = units.Exp(float64(climbErr * h[ofClimb]))
	p.Sparing = min(0.6, float64(onBedding.Mid*onBedding.factor(h[ofBedding], 1)))
	p.unlogged = min(1, float64(unloggedUsual*units.Exp(float64(unloggedErr*h[ofUnlogged]))))
}

// copyFrom makes p a copy of q that shares nothing with it, in the room that p
// already has.
func (p *particle) copyFrom(q *particle) {
	share, food, byTray := p.Share, p.Food, p.Sums.ByTray
	*p = *q
	p.Share = append(share[:0], q.Share...)
	p.Food = append(food[:0], q.Food...)
	p.Sums.ByTray = append(byTray[:0], q.Sums.ByTray...)
}

// lay puts a meal of this particle's own amount into a tray.
func (p *particle) lay(n, tray int, parts []Part, amount float64) {
	p.amounts[n%recent] = amount
	for k, part := range parts {
		if soft := float64(max(0, float64(part.Grams*part.Soft)) * amount); soft > 0 {
			p.put(Morsel{Meal: n, Part: k, Tray: tray, Appeal: max(0, part.Appeal), Rot: part.Rot, Fed: soft, Left: soft})
		}
	}
	if p.Share[tray] < settleShare && sum(p.Share) > 0 {
		p.moveTo(tray, settleShare)
	}
}

func (p *particle) put(m Morsel) {
	p.Food = append(p.Food, m)
	p.Sums.Fed += m.Left
}

// plain is what a feeding nobody logged is taken to be: soft scraps.
var plain = Morsel{Part: ghostPart, Appeal: 1, Rot: 0.04}

// haunt lays down a feeding that nobody logged, with the meal it is near.
func (p *particle) haunt(meal, tray int, grams float64) {
	m := plain
	m.Meal, m.Tray, m.Fed, m.Left = meal, tray, grams, grams
	at := len(p.Food)
	for at > 0 && p.Food[at-1].Meal > meal {
		at--
	}
	p.put(m)
	copy(p.Food[at+1:], p.Food[at:])
	p.Food[at] = m
}

// fed returns what was really fed of meal n, g of the soft part.
func (p *particle) fed(n, newest int, soft float64) float64 {
	if newest-n >= recent {
		return soft
	}
	return float64(soft * p.amounts[n%recent])
}
