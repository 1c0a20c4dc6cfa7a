package trouble

import (
	"math"
	"slices"

	"trayside/internal/feedstock"
	"trayside/internal/record"
	"trayside/internal/units"
)

// Log is what the household's log knows of the bin and of the tray in question.
// The zero value knows nothing. Names in brackets are the codes of reasons.
type Log struct {
	Species record.Species // [species]
	// Squeeze is the newest squeeze test of the tray, as in record.Look [moisture].
	Squeeze string
	// Lying is the soft food that still lies in the tray, and Eats what the worms
	// in it eat a day; their quotient counts [backlog]. Eats 0: nobody knows.
	Lying units.Grams
	Eats  units.Grams
	// Bed is the temperature read in the bed in the last days, nil if nobody did
	// [bed].
	Bed    *units.DeciCelsius
	Season Season // [season]
	// Age is the days since worms came, Bedded the days since this tray was bedded
	// [age, bedding]; nil if unknown.
	Age    *int
	Bedded *int
	// Density is live worms per bedded surface, g/m², 0 if unknown [density].
	Density int64
	// Supply is what was fed in the last two weeks, in per cent of what the worms
	// could have eaten, nil if unknown [supply].
	Supply *int
	// Foods are the scraps of the last two weeks [animal, fruit, citrus, starch,
	// nitrogen, slow, salt]. None: nobody knows.
	Foods []record.Item
	// AreaCM2 is the tray's surface, 0 if unknown: it sets the quantities of steps.
	AreaCM2 int64
}

// Season is the time of year where the bin stands; "" where it makes no difference.
type Season string

// The seasons that matter to a bin.
const (
	Winter  Season = "winter"
	Between Season = "between"
	Summer  Season = "summer"
)

// fact is one thing the log may know, sorted into bands.
type fact int

const (
	moisture fact = iota
	backlog
	bed
	season
	age
	bedding
	density
	supply
	animal
	fruit
	citrus
	starch
	nitrogen
	slow
	salt
	species
	factCount
)

// reading is a fact's value and the band it lies in; band −1 is unknown.
type reading struct {
	band  int
	value int64
	unit  string
}

var unknown = reading{band: -1}

// within returns the reading of a value among bands that begin at these limits;
// the first band has no lower limit.
func within(value int64, unit string, limits ...int64) reading {
	r := reading{0, value, unit}
	for _, from := range limits {
		if value >= from {
			r.band++
		}
	}
	return r
}

// named returns the reading of a word among bands with these names.
func named(f fact, word string) reading {
	for i, b := range facts[f].bands {
		if b == word && word != "" {
			return reading{band: i}
		}
	}
	return unknown
}

// read sorts everything the log knows into bands. The limits stand beside the
// bands in params.go.
func (l Log) read() (out [factCount]reading) {
	for f := range out {
		out[f] = unknown
	}
	out[moisture] = named(moisture, l.Squeeze)
	out[season] = named(season, string(l.Season))
	if l.Eats > 0 && l.Lying >= 0 {
		out[backlog] = within(units.Round(int64(min(l.Lying, mostGrams))*10, int64(l.Eats)), "0.1 d", backlogFrom[:]...)
	}
	if l.Bed != nil {
		out[bed] = within(int64(*l.Bed), "0.1 °C", bedFrom[:]...)
	}
	if l.Age != nil && *l.Age >= 0 {
		out[age] = within(int64(*l.Age), "d", ageFrom[:]...)
	}
	if l.Bedded != nil && *l.Bedded >= 0 {
		out[bedding] = within(int64(*l.Bedded), "d", beddingFrom[:]...)
	}
	if l.Density > 0 {
		out[density] = within(l.Density, "g/m²", densityFrom[:]...)
	}
	if l.Supply != nil && *l.Supply >= 0 {
		out[supply] = within(int64(*l.Supply), "%", supplyFrom[:]...)
	}
	switch l.Species {
	case record.Perionyx:
		out[species] = named(species, "perionyx")
	case record.Eisenia, record.Dendrobaena, record.Eudrilus:
		out[species] = named(species, "other")
	}
	l.readFoods(&out)
	return out
}

// mostGrams bounds what is believed of an amount, so that sums stay whole numbers.
const mostGrams = 1_000_000_000

// readFoods sorts the scraps by what each may do to a bed. An item without a
// weight counts as unweighedItem.
func (l Log) readFoods(out *[factCount]reading) {
	cat := feedstock.Standard()
	var share [factCount]int64
	var total, salted int64 // salt in thousandths of a gram
	for _, it := range l.Foods {
		class := feedstock.Class(it.Class)
		entry, known := cat.Lookup(it.Scrap)
		if known {
			class = entry.Class
		}
		if class == feedstock.Paper || class == feedstock.Grit {
			continue // bedding and grit are no food
		}
		g := int64(it.Grams)
		if g <= 0 {
			g = unweighedItem
		}
		g = min(g, mostGrams/1000)
		total += g
		for _, f := range doings(entry, class, cat.Judge(it.Scrap, class).Verdict) {
			share[f] += g
		}
		if known && entry.Salt != nil {
			salted += units.Nearest(math.Min(*entry.Salt, 1) * float64(g) * 1000)
		}
	}
	if total == 0 {
		return
	}
	for _, b := range []struct {
		f      fact
		limits []int64
	}{
		{animal, animalFrom[:]}, {fruit, fruitFrom[:]}, {citrus, citrusFrom[:]},
		{starch, starchFrom[:]}, {nitrogen, nitrogenFrom[:]}, {slow, slowFrom[:]},
	} {
		// A trace rounds to 0 %, and of meat a trace counts.
		percent := units.Round(share[b.f]*100, total)
		if share[b.f] > 0 {
			percent = max(percent, 1)
		}
		out[b.f] = within(percent, "%", b.limits...)
	}
	out[salt] = within(units.Round(salted*10, total), "0.01 %", saltFrom[:]...)
}

// doings lists the facts that a scrap adds to.
func doings(e feedstock.Entry, class feedstock.Class, v feedstock.Verdict) []fact {
	var out []fact
	has := func(codes ...string) bool {
		return slices.ContainsFunc(codes, func(c string) bool { return slices.Contains(e.Reasons, c) })
	}
	if has("meat", "dairy") || class == feedstock.Rich && (v == feedstock.Never || v == feedstock.Avoid) {
		out = append(out, animal)
	}
	switch class {
	case feedstock.SoftFruit:
		out = append(out, fruit)
	case feedstock.Citrus:
		out = append(out, fruit, citrus, slow)
	case feedstock.Starch:
		out = append(out, starch)
	case feedstock.Allium, feedstock.Hard:
		out = append(out, slow)
	case feedstock.Leafy, feedstock.Root:
		if has("starchy") {
			out = append(out, starch)
		}
	}
	if class == feedstock.Manure || class == feedstock.Garden || class == feedstock.Rich || e.N != nil && *e.N >= richN {
		out = append(out, nitrogen)
	}
	return out
}
