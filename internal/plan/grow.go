package plan

import (
	"cmp"

	"trayside/internal/colony"
	"trayside/internal/feedstock"
	"trayside/internal/order"
	"trayside/internal/record"
	"trayside/internal/units"
)

// Reach says when a colony eats everything that the kitchen makes: days after
// the worms came, the first of two weeks in which all of it went in. Chance is
// the share of what the sources leave open in which that happens within Horizon;
// a day beyond it is Horizon.
type Reach struct {
	Days   Span    `json:"days"`
	Chance float64 `json:"chance"`
	// What it eats of the kitchen's scraps in its first and second year, medians.
	Year1 float64 `json:"firstYear"`
	Year2 float64 `json:"secondYear"`
	// Lives is the share in which the colony lives through Horizon.
	Lives float64 `json:"lives"`
}

// household is a kitchen and a room with one bed that is fed as much as its worms
// can eat, and no more than the kitchen makes.
type household struct {
	rates   *colony.Rates
	room    colony.Room
	areaM2  float64
	kitchen float64 // g a day
	start   record.Day
}

// members is how many colonies a Reach is drawn from: a prime, so that the
// lattice below fills the room evenly.
const members = 41

// strides spread the members over the five traits, one trait each: members of a
// lattice of rank one, numbered k, stand at k × stride mod members.
var strides = [5]int{1, 12, 18, 25, 34}

// trait returns the factor on a range's middle for place i of members. A range's
// ends are taken for those of a 90 % interval, as the model's ensemble takes them;
// between lies a logistic curve on the logarithm.
func trait(r colony.Range, place int, wide float64) float64 {
	p := (float64(place) + 0.5) / members
	z := float64(units.Log(p/(1-p))/units.Log(19)) * wide
	if z > 0 {
		return units.Pow(r.High/r.Mid, z)
	}
	return units.Pow(r.Mid/r.Low, z)
}

// traits returns what makes member k another than its species' middle.
func (h *household) traits(k int) colony.Traits {
	r := h.rates
	at := func(t int) int { return (k*strides[t] + t*7) % members }
	t := h.usual()
	t.Hunger = trait(r.Appetite, at(0), r.Wide)
	t.Broad = trait(r.Surface, at(1), 1)
	t.Fertile = trait(r.Household, at(2), r.Wide)
	t.Frail = trait(r.Die, at(3), 1)
	t.Roomy = trait(r.Capacity, at(4), r.Wide)
	return t
}

// usual is the species' middle.
func (h *household) usual() colony.Traits { return colony.NewState(h.rates, 1).Traits }

// life is one colony's years in the household.
type life struct {
	whole        int // day from which it eats everything, Horizon for never
	lives        bool
	year1, year2 float64 // share of the kitchen's scraps put in
}

// reach follows colonies that begin with so many grams of worms.
func (h *household) reach(grams float64) Reach {
	var r Reach
	days, one, two := make([]float64, members), make([]float64, members), make([]float64, members)
	var there, alive float64
	for k := range members {
		l := h.live(grams, h.traits(k))
		days[k], one[k], two[k] = float64(l.whole), l.year1, l.year2
		if l.whole < Horizon {
			there++
		}
		if l.lives {
			alive++
		}
	}
	r.Days, r.Year1, r.Year2 = spread(days), hundredths(spread(one).Mid), hundredths(spread(two).Mid)
	r.Chance, r.Lives = hundredths(there/members), hundredths(alive/members)
	return r
}

// roundTo rounds x to 1/per: nobody knows these numbers finer.
func roundTo(x, per float64) float64 { return float64(units.Nearest(float64(x*per))) / per }

// hundredths rounds a share.
func hundredths(x float64) float64 { return roundTo(x, 100) }

// spread sorts values and returns their median and 80 % interval.
func spread(values []float64) Span {
	order.By(values, cmp.Compare[float64])
	at := func(share float64) float64 { return values[units.Nearest(float64(share*float64(len(values)-1)))] }
	return Span{Mid: at(0.5), Low: at(0.1), High: at(0.9)}
}

// bed is a colony in the household's bed.
type bed struct {
	*household
	state colony.State
	cond  colony.Conditions
	meals int
}

func (h *household) bed(grams float64, traits colony.Traits) *bed {
	b := &bed{household: h, state: colony.NewState(h.rates, 1)}
	b.state.Traits = traits
	b.state.Share[0] = 1
	b.state.Add(h.rates, grams)
	b.cond = colony.Conditions{Moist: bedMoist, Tiers: []colony.Tier{{AreaM2: h.areaM2, Pull: 1, InUse: true}}}
	return b
}

// capacity returns what the worms could eat today, g of soft scraps.
func (b *bed) capacity() float64 {
	f := b.state.Factors(b.rates, &b.cond)
	eat := float64(float64(b.state.Mass(b.rates)*b.rates.Appetite.Mid*b.state.Hunger) * f.Warmth * f.Damp * f.Crowd)
	return min(eat, float64(float64(b.areaM2*b.rates.Surface.Mid)*b.state.Broad))
}

// scraps is what a kitchen's mixed scraps are to the worms.
var scraps = feedstock.FactorsOf(feedstock.Unsorted, false, false)

// feed puts in what there is room for, share of the worms' capacity, and returns
// g put in.
func (b *bed) feed(share float64) float64 {
	var lying float64
	for _, m := range b.state.Food {
		lying += m.Left
	}
	room := float64(float64(b.capacity()*inHand)*share) - lying
	put := min(b.kitchen, max(0, room)/scraps.Soft)
	if put > 0 {
		soft := float64(put * scraps.Soft)
		b.meals++
		b.state.Food = append(b.state.Food, colony.Morsel{Meal: b.meals, Appeal: scraps.Appeal, Rot: scraps.Rot, Fed: soft, Left: soft})
		b.state.Sums.Fed += soft
	}
	return put
}

// night steps the bed through a night.
func (b *bed) night() { b.state.Step(b.rates, &b.cond) }

// dawn sets the weather of day n.
func (b *bed) dawn(n int) { b.cond.BedC = b.room.Celsius(b.start + record.Day(n)) }

// live follows one colony to the horizon.
func (h *household) live(grams float64, traits colony.Traits) life {
	b := h.bed(grams, traits)
	l := life{whole: Horizon}
	run := 0 // days in a row that took the whole kitchen
	for n := range Horizon {
		b.dawn(n)
		var put float64
		switch {
		case n < firstMealAfter:
		case n < settling:
			put = b.feed(settlingShare)
		default:
			put = b.feed(1)
		}
		if put >= h.kitchen-1e-9 {
			run++
		} else {
			run = 0
		}
		if run == steady && l.whole == Horizon {
			l.whole = n - steady + 1
		}
		switch {
		case n < 365:
			l.year1 += put
		default:
			l.year2 += put
		}
		b.night()
	}
	l.lives = b.state.Mass(h.rates) > float64(died*grams)
	l.year1 = l.year1 / h.kitchen / 365
	l.year2 = l.year2 / h.kitchen / 365
	return l
}

// Option is a way to spend less.
type Option struct {
	Code   Code    `json:"code"`
	WormsG float64 `json:"wormsG"` // 0 where it is not about worms
	Whole  *Reach  `json:"everything"`
	Later  float64 `json:"laterDays"` // median days later than with the full stock
	WeekG  float64 `json:"weekG"`     // scraps a week that it takes, 0 where not asked
}

// The ways.
const (
	HalfStock    Code = "half-stock"
	QuarterStock Code = "quarter-stock"
	OneTray      Code = "one-tray"    // feed what one tray takes, the rest to the waste or freezer
	AnyBox       Code = "any-box"     // a box of the same surface, 20–30 cm deep, with holes
	OwnPaper     Code = "own-paper"   // newspaper and plain card from the recycling
	FromAFriend  Code = "from-friend" // a keeper with too many worms
)

// options are the ways for a plan.
func (h *household) options(p Plan) []Option {
	var list []Option
	for _, o := range []struct {
		code  Code
		share float64
	}{{HalfStock, 0.5}, {QuarterStock, 0.25}} {
		g := roundTo(p.WormsG*o.share, 1)
		r := h.reach(g)
		list = append(list, Option{Code: o.code, WormsG: g, Whole: &r, Later: r.Days.Mid - p.Whole.Days.Mid})
	}
	if p.Trays.Fed > 1 {
		one := float64(int64(p.Trays.Width)*int64(p.Trays.Depth)) / 1e6
		list = append(list, Option{Code: OneTray, WeekG: roundTo(one/areaPerGram, 1)})
	}
	return append(list, Option{Code: AnyBox}, Option{Code: OwnPaper}, Option{Code: FromAFriend})
}
