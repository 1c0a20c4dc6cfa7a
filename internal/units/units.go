// Package units holds the quantities of the bin: integers in fixed units, so
// that two devices which hold the same entries compute the same numbers.
//
// It parses what people type (ParseMass, ParseTemp), rounds in one place (Round:
// half away from zero, as scales do), and keeps the project's own pure Exp, Log
// and Pow, because those of package math are assembly on some machines and may
// be fused on others, and a single last bit can change what two phones advise.
package units

// Grams is a mass in whole grams. Negative values appear only as differences.
type Grams int64

// Millimetres is a length in whole millimetres.
type Millimetres int64

// DeciCelsius is a temperature in tenths of a degree Celsius.
type DeciCelsius int64

// MassUnit is a unit that a weight may be typed or shown in.
type MassUnit string

// The mass units. An unmarked weight is read in the household's own, which is
// Gram or Ounce.
const (
	Gram     MassUnit = "g"
	Kilogram MassUnit = "kg"
	Ounce    MassUnit = "oz"
	Pound    MassUnit = "lb"
)

// TempUnit is a unit that a temperature may be typed or shown in.
type TempUnit string

// The temperature units.
const (
	Celsius    TempUnit = "C"
	Fahrenheit TempUnit = "F"
)

// Weight is an exact mass in picograms. It is wide enough (9,000 kg) and fine
// enough (a thousandth of an ounce is a whole number of it) to add up what was
// typed in any unit without a rounding in between.
type Weight int64

// Exact sizes of the units. The pound is 0.45359237 kg by the international
// agreement of 1959 (Unified Code for Units of Measure, [lb_av] = 7000 grains of
// 64.79891 mg); the ounce is a sixteenth of it.
const (
	OneGram     Weight = 1_000_000_000_000
	OneKilogram        = 1000 * OneGram
	OneOunce    Weight = 28_349_523_125_000
	OnePound           = 16 * OneOunce
)

// Weight returns g exactly. Masses beyond 9,000 kg do not fit; ParseMass never
// makes one.
func (g Grams) Weight() Weight { return Weight(g) * OneGram }

// Grams returns w to the nearest gram.
func (w Weight) Grams() Grams { return Grams(Round(int64(w), int64(OneGram))) }

// Round divides num by den (den > 0) and rounds half away from zero. It is the
// only rounding rule of the program.
func Round(num, den int64) int64 {
	q, r := num/den, num%den
	switch {
	case r >= 0 && r >= den-r:
		return q + 1
	case r < 0 && -r >= den+r:
		return q - 1
	}
	return q
}

// Nearest rounds x half away from zero; a value that is not finite, or too large
// for a whole number, is 0.
func Nearest(x float64) int64 {
	const most = 1 << 53
	if !(x > -most && x < most) {
		return 0
	}
	if x < 0 {
		return -Nearest(-x)
	}
	whole := int64(x)
	if x-float64(whole) >= 0.5 { // exact below 2^53
		whole++
	}
	return whole
}

// StepForPeople returns the step that g is rounded to for people: 25 g up to
// 250 g, 50 g up to 1 kg, 100 g above, and never finer than a quarter of the
// interval (High − Low) that g is known to.
func StepForPeople(g, interval Grams) Grams {
	step := Grams(100)
	switch g = max(g, -g); {
	case g <= 250:
		step = 25
	case g <= 1000:
		step = 50
	}
	for _, coarser := range [...]Grams{50, 100, 150, 200, 250, 300, 400, 500} {
		if step*4 < interval {
			step = max(step, coarser)
		}
	}
	for step*4 < interval {
		step *= 2
	}
	return step
}

// RoundToStep rounds g to the nearest multiple of step, half away from zero.
func RoundToStep(g, step Grams) Grams { return Grams(Round(int64(g), int64(step))) * step }

// RoundForPeople rounds g to the step of StepForPeople.
func RoundForPeople(g, interval Grams) Grams { return RoundToStep(g, StepForPeople(g, interval)) }
