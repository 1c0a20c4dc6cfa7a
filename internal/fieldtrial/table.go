package fieldtrial

import (
	"fmt"
	"slices"
	"strings"
)

// Year is one household's outcomes, by policy.
type Year []Outcome

// Spread is a quantity over households.
type Spread struct{ Low, Mid, High float64 } // 10 %, median, 90 %

// spreadOf sorts and reads off the tenth, the middle and the last tenth.
func spreadOf(xs []float64) Spread {
	if len(xs) == 0 {
		return Spread{}
	}
	xs = slices.Clone(xs)
	slices.Sort(xs)
	at := func(q float64) float64 { return xs[int(q*float64(len(xs)-1)+0.5)] }
	return Spread{at(0.1), at(0.5), at(0.9)}
}

// Over returns a quantity of one policy over households.
func Over(years []Year, p Policy, of func(Outcome) float64) Spread {
	var xs []float64
	for _, y := range years {
		xs = append(xs, of(y[p]))
	}
	return spreadOf(xs)
}

// Mean returns the mean of a quantity of one policy over households.
func Mean(years []Year, p Policy, of func(Outcome) float64) float64 {
	var sum float64
	for _, y := range years {
		sum += of(y[p])
	}
	return sum / float64(max(1, len(years)))
}

// measure is one row of the table.
type measure struct {
	name, format string
	of           func(Outcome) float64
}

var measures = []measure{
	{"days overfed", "%.0f", func(o Outcome) float64 { return float64(o.Overfed) }},
	{"… by the rule alone", "%.0f", func(o Outcome) float64 { return float64(o.ByRule) }},
	{"days hungry", "%.0f", func(o Outcome) float64 { return float64(o.Hungry) }},
	{"scraps used, %", "%.0f", func(o Outcome) float64 { return 100 * o.Used / max(1, o.Made) }},
	{"scraps used, kg", "%.1f", func(o Outcome) float64 { return o.Used / 1000 }},
	{"worms after, of start", "%.2f", func(o Outcome) float64 { return o.EndG / max(1, o.StartG) }},
	{"castings, kg", "%.1f", func(o Outcome) float64 { return o.Castings / 1000 }},
	{"looks", "%.0f", func(o Outcome) float64 { return float64(o.Looks) }},
	{"meals", "%.0f", func(o Outcome) float64 { return float64(o.Meals) }},
}

func count(years []Year, p Policy, of func(Outcome) bool) int {
	n := 0
	for _, y := range years {
		if of(y[p]) {
			n++
		}
	}
	return n
}

// Table sums up a trial for people: medians, in brackets the middle eight of ten
// households, then how the advice's own words held.
func Table(seed uint64, days int, years []Year) string {
	var s strings.Builder
	fmt.Fprintf(&s, "field trial: %d households, %d days, seed %d; median (10–90 %%)\n\n%-22s", len(years), days, seed, "")
	for _, p := range Policies {
		fmt.Fprintf(&s, "  %-20s", p)
	}
	s.WriteString("\n")
	for _, m := range measures {
		fmt.Fprintf(&s, "%-22s", m.name)
		for _, p := range Policies {
			x := Over(years, p, m.of)
			fmt.Fprintf(&s, "  %-20s", fmt.Sprintf(m.format+" ("+m.format+"–"+m.format+")", x.Mid, x.Low, x.High))
		}
		s.WriteString("\n")
	}
	for _, row := range []struct {
		name string
		of   func(Outcome) bool
	}{
		{"starvation spirals", func(o Outcome) bool { return o.Starved }},
		{"overfeeding spirals", func(o Outcome) bool { return o.Heaped }},
	} {
		fmt.Fprintf(&s, "%-22s", row.name)
		for _, p := range Policies {
			fmt.Fprintf(&s, "  %-20d", count(years, p, row.of))
		}
		s.WriteString("\n")
	}
	w := wordsOf(years)
	fmt.Fprintf(&s, "\nthe advice: %.0f %% of its 80 %% intervals held the colony's mass, %.0f %% that of the fed tray;\n", 100*w.Live, 100*w.Fed)
	fmt.Fprintf(&s, "%.0f %% of %d promised meals were gone by the day named, %.0f %% within the span given\n", 100*w.Kept, w.Promises, 100*w.Spread)
	for _, b := range w.Bands {
		fmt.Fprintf(&s, "of %d promises said to come true in %.0f %% of cases %.0f %% did\n", b.Promises, b.Said, b.Kept)
	}
	s.WriteString("\nwanted (means over households):\n")
	for _, v := range Wanted(years) {
		mark := "no "
		if v.Yes {
			mark = "yes"
		}
		fmt.Fprintf(&s, "%s  %s: %s\n", mark, v.Wanted, v.Got)
	}
	return s.String()
}

// Words is how the advice's own claims held, over all households.
type Words struct {
	Live, Fed    float64 // share of intervals that held the truth
	Kept, Spread float64 // share of promises that came true
	Promises     int
	Bands        []Band // of the chance that was said, from low to high
}

// Band is the promises of which about the same chance was said.
type Band struct {
	Promises   int
	Said, Kept float64 // means, %
}

// bands are the chances, %, at which a new band begins.
var bands = []int{0, 80, 90}

func wordsOf(years []Year) Words {
	w := Words{Bands: make([]Band, len(bands))}
	var sights int
	for _, y := range years {
		o := y[Advised]
		for _, s := range o.Sights {
			sights++
			w.Live += one(s.Live.Holds())
			w.Fed += one(s.Fed.Holds())
		}
		for _, p := range o.Promises {
			w.Promises++
			w.Kept += one(p.Kept)
			w.Spread += one(p.Spread)
			n := len(bands) - 1
			for p.Chance < bands[n] {
				n--
			}
			b := &w.Bands[n]
			b.Promises++
			b.Said += float64(p.Chance)
			b.Kept += 100 * one(p.Kept)
		}
	}
	share := func(x *float64, of int) { *x /= float64(max(1, of)) }
	share(&w.Live, sights)
	share(&w.Fed, sights)
	share(&w.Kept, w.Promises)
	share(&w.Spread, w.Promises)
	for i := range w.Bands {
		b := &w.Bands[i]
		share(&b.Said, b.Promises)
		share(&b.Kept, b.Promises)
	}
	return w
}

func one(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// Lines writes one line of tab-separated numbers for each household and policy.
func Lines(years []Year) string {
	var s strings.Builder
	s.WriteString("household\tpolicy")
	for _, m := range measures {
		s.WriteString("\t" + m.name)
	}
	s.WriteString("\tstarved\theaped\n")
	for n, y := range years {
		for i, o := range y {
			fmt.Fprintf(&s, "%d\t%s", n, Policies[i])
			for _, m := range measures {
				fmt.Fprintf(&s, "\t"+m.format, m.of(o))
			}
			fmt.Fprintf(&s, "\t%v\t%v\n", o.Starved, o.Heaped)
		}
	}
	return s.String()
}
