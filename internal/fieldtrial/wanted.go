package fieldtrial

import "fmt"

// Verdict is one thing that is wanted of the advice, and how it came out.
type Verdict struct {
	Wanted string
	Got    string
	Yes    bool
}

// Wanted holds a trial against what the advice is to achieve. Quantities are means
// over all households, so that the few for whom it goes badly count in full;
// medians, which the table shows, would hide them.
func Wanted(years []Year) []Verdict {
	overfed := func(p Policy) float64 {
		return Mean(years, p, func(o Outcome) float64 { return float64(o.Overfed) })
	}
	used := func(p Policy) float64 {
		return 100 * Mean(years, p, func(o Outcome) float64 { return o.Used / max(1, o.Made) })
	}
	looks := func(p Policy) float64 {
		return Mean(years, p, func(o Outcome) float64 { return float64(o.Looks) })
	}
	atMost := func(wanted, unit string, got, limit float64) Verdict {
		return Verdict{wanted, fmt.Sprintf("%.1f%s, limit %.1f", got, unit, limit), got <= limit}
	}
	atLeast := func(wanted, unit string, got, limit float64) Verdict {
		return Verdict{wanted, fmt.Sprintf("%.1f%s, limit %.1f", got, unit, limit), got >= limit}
	}
	starved := float64(count(years, Advised, func(o Outcome) bool { return o.Starved }))
	held := 100 * wordsOf(years).Live
	return []Verdict{
		atMost("overfed on at most a third of the days of the fixed rule", " days", overfed(Advised), overfed(FixedRule)/3),
		atLeast("at least as much of the scraps used as by half the fixed rule", " %", used(Advised), used(HalfRule)),
		atMost("no more days overfed than by the looking rule", " days", overfed(Advised), overfed(LookingRule)),
		atLeast("no less of the scraps used than by the looking rule", " %", used(Advised), used(LookingRule)),
		atMost("at most half the looks of the looking rule", " looks", looks(Advised), looks(LookingRule)/2),
		atMost("no starvation spiral", " households", starved, 0),
		{"the 80 % interval holds the truth in 70–90 % of the days asked", fmt.Sprintf("%.1f %%", held), held >= 70 && held <= 90},
	}
}
