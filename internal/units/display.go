package units

import "fmt"

// PoundsOunces shows w in whole pounds and tenths of an ounce: "1 lb 0.0 oz".
// The tenths are rounded first and split afterwards, or 453 g would read "0 lb
// 16.0 oz". A mass that rounds to nothing without being nothing is "< 0.1 oz"; a
// net weight below nothing, from a wrong tare, has one sign in front.
func (w Weight) PoundsOunces() string {
	tenths := Round(int64(w), int64(OneOunce)/10)
	sign := ""
	switch {
	case tenths == 0 && w != 0:
		return "< 0.1 oz"
	case tenths < 0:
		sign, tenths = "-", -tenths
	}
	return fmt.Sprintf("%s%d lb %d.%d oz", sign, tenths/160, tenths%160/10, tenths%10)
}

// Metric shows w in whole grams, and from a kilogram on in kilograms with at most
// two decimals: "465 g", "1.1 kg", "1.25 kg". A mass that rounds to nothing
// without being nothing is "< 1 g".
func (w Weight) Metric() string {
	g := int64(w.Grams())
	sign := ""
	switch {
	case g == 0 && w != 0:
		return "< 1 g"
	case g < 0:
		sign, g = "-", -g
	}
	if g < 1000 {
		return fmt.Sprintf("%s%d g", sign, g)
	}
	hundredths := Round(g, 10)
	switch {
	case hundredths%100 == 0:
		return fmt.Sprintf("%s%d kg", sign, hundredths/100)
	case hundredths%10 == 0:
		return fmt.Sprintf("%s%d.%d kg", sign, hundredths/100, hundredths/10%10)
	}
	return fmt.Sprintf("%s%d.%02d kg", sign, hundredths/100, hundredths%100)
}

// Show shows w in the household's unit, Gram or Ounce.
func (w Weight) Show(unit MassUnit) string {
	if unit == Ounce || unit == Pound {
		return w.PoundsOunces()
	}
	return w.Metric()
}

// FahrenheitTenths returns c, counted in parts of 1/per °C, in tenths of °F.
// F = C × 9/5 + 32 (Unified Code for Units of Measure, function of [degF]).
func FahrenheitTenths(c, per int64) int64 { return Round(c*18+320*per, per) }

// Show shows t in the household's unit to a tenth of a degree, without a decimal
// where it is 0: "16 °C", "98.6 °F".
func (t DeciCelsius) Show(unit TempUnit) string {
	tenths := int64(t)
	if unit == Fahrenheit {
		tenths = FahrenheitTenths(int64(t), 10)
	} else {
		unit = Celsius
	}
	sign := ""
	if tenths < 0 {
		sign, tenths = "-", -tenths
	}
	if tenths%10 == 0 {
		return fmt.Sprintf("%s%d °%s", sign, tenths/10, unit)
	}
	return fmt.Sprintf("%s%d.%d °%s", sign, tenths/10, tenths%10, unit)
}
