package units

import (
	"fmt"
	"strconv"
	"strings"
)

// Fault says what is wrong with something a person typed. What was typed is
// kept, so that nothing is lost on the way back to the field.
type Fault struct {
	Code  string // empty, not-a-number, ambiguous, negative, unknown-unit, ounces, decimals, too-much, out-of-range
	Typed string
	Say   string // one sentence that says how to mend it
}

// Error returns the sentence.
func (f *Fault) Error() string { return f.Say }

func fault(code, typed, format string, args ...any) error {
	return &Fault{code, typed, fmt.Sprintf(format, args...)}
}

// MostTyped is the largest weight that ParseMass takes: a tonne, far above what
// any bin holds and far below what a Weight can.
const MostTyped = 1000 * OneKilogram

// ParseMass reads a weight as people type it: "250", "250 g", "1.2 kg", "1,2kg",
// "2 lb 3.5 oz", "2:3.5" (pounds:ounces), "35.5oz". A number without a unit is
// read in bare. Comma and point both mark decimals, at most three of them.
//
// "1,500" is refused, because some read it as one and a half and others as one
// thousand five hundred; so is "1.500" in grams. A weight below nothing is
// refused too. The error is a *Fault.
func ParseMass(typed string, bare MassUnit) (Weight, error) {
	text := tidy(typed)
	if text == "" {
		return 0, fault("empty", typed, "Type a weight, such as 250 g or 8.5 oz.")
	}
	if rest, neg := cutSign(text); neg {
		return 0, fault("negative", typed, "A weight cannot be below nothing: type %s without the minus, or set the tare again.", rest)
	}
	if lb, oz, ok := strings.Cut(text, ":"); ok {
		return poundsAndOunces(typed, lb, oz)
	}
	number, word, rest := splitUnit(text)
	unit, ok := massWord(word)
	switch {
	case word == "":
		unit = bare
	case !ok:
		return 0, fault("unknown-unit", typed, "%q is not a unit of weight here: use g, kg, oz or lb.", word)
	}
	if rest != "" {
		oz, word, more := splitUnit(rest)
		if second, _ := massWord(word); unit != Pound || second != Ounce || more != "" {
			return 0, fault("not-a-number", typed, "%q is not one weight: type it like 250 g, 1.2 kg or 2 lb 3.5 oz.", typed)
		}
		return poundsAndOunces(typed, number, oz)
	}
	return amount(typed, number, unit)
}

// massWord returns the unit that a word stands for.
func massWord(word string) (MassUnit, bool) {
	switch word {
	case "g", "gr", "gram", "grams", "gramme", "grammes":
		return Gram, true
	case "kg", "kgs", "kilo", "kilos", "kilogram", "kilograms":
		return Kilogram, true
	case "oz", "ounce", "ounces":
		return Ounce, true
	case "lb", "lbs", "pound", "pounds":
		return Pound, true
	}
	return "", false
}

// size returns the exact size of a unit, 0 for none.
func (u MassUnit) size() Weight {
	switch u {
	case Gram:
		return OneGram
	case Kilogram:
		return OneKilogram
	case Ounce:
		return OneOunce
	case Pound:
		return OnePound
	}
	return 0
}

// poundsAndOunces reads the two halves of "2 lb 3.5 oz".
func poundsAndOunces(typed, lb, oz string) (Weight, error) {
	pounds, err := amount(typed, strings.TrimSpace(lb), Pound)
	if err != nil {
		return 0, err
	}
	ounces, err := amount(typed, strings.TrimSpace(oz), Ounce)
	switch {
	case err != nil:
		return 0, err
	case pounds%OnePound != 0:
		return 0, fault("ounces", typed, "Pounds beside ounces must be whole: type 2 lb 8 oz, or 2.5 lb alone.")
	case ounces >= OnePound:
		return 0, fault("ounces", typed, "There are 16 ounces in a pound: type ounces below 16 beside pounds, or ounces alone.")
	case pounds+ounces > MostTyped:
		return 0, tooMuch(typed)
	}
	return pounds + ounces, nil
}

func tooMuch(typed string) error {
	return fault("too-much", typed, "%s is more than a tonne: check the unit.", typed)
}

// amount reads a plain number of a unit.
func amount(typed, number string, unit MassUnit) (Weight, error) {
	thousandths, err := decimal(typed, number, unit == Gram)
	if err != nil {
		return 0, err
	}
	size := unit.size()
	if size == 0 {
		return 0, fault("unknown-unit", typed, "%q is not a unit of weight here: use g, kg, oz or lb.", unit)
	}
	if thousandths > int64(MostTyped/(size/1000)) {
		return 0, tooMuch(typed)
	}
	return Weight(thousandths) * (size / 1000), nil // exact: every size is a whole number of thousandths
}

// decimal reads digits with at most one mark, comma or point, in thousandths.
// pointGroups says that a point before three digits could group thousands too.
func decimal(typed, number string, pointGroups bool) (int64, error) {
	at := strings.IndexAny(number, ".,")
	whole, frac := number, ""
	if at >= 0 {
		whole, frac = number[:at], number[at+1:]
	}
	bad := func() error {
		return fault("not-a-number", typed, "%q is not a number: type it with digits, such as 250 or 8.5.", typed)
	}
	if strings.ContainsAny(frac, ".,") {
		return 0, fault("ambiguous", typed, "%q has two marks: type it without grouping, such as 1500 or 1500.5.", number)
	}
	if whole+frac == "" || !digits(whole) || !digits(frac) || (at >= 0 && frac == "") {
		return 0, bad()
	}
	if len(frac) == 3 && len(whole) <= 3 && strings.TrimLeft(whole, "0") == whole && whole != "" && (number[at] == ',' || pointGroups) {
		return 0, fault("ambiguous", typed, "%q can be read in two ways: type %s%s for thousands or %s for a fraction.", number, whole, frac, hundredths(whole+frac))
	}
	if len(frac) > 3 {
		return 0, fault("decimals", typed, "%q has more than three decimals: no scale is that fine.", number)
	}
	if len(strings.TrimLeft(whole, "0")) > 9 {
		return 0, tooMuch(typed)
	}
	var v int64
	for _, c := range whole + frac + "000"[len(frac):] {
		v = v*10 + int64(c-'0')
	}
	return v, nil
}

// hundredths writes thousandths with at most two decimals, which nobody reads as
// a group of thousands.
func hundredths(thousandths string) string {
	v, _ := strconv.ParseInt(thousandths, 10, 64) // at most six digits
	return strconv.FormatFloat(float64(Round(v, 10))/100, 'f', -1, 64)
}

func digits(s string) bool {
	for _, c := range s {
		if c < '0' || c > '9' {
			return false
		}
	}
	return true
}

// tidy lowers the case and turns every kind of space and minus into the plain one.
func tidy(s string) string {
	s = strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ", "\u2212", "-", "\u2013", "-").Replace(s)
	return strings.Join(strings.Fields(strings.ToLower(s)), " ")
}

// cutSign takes a sign off the front and tells whether it was a minus.
func cutSign(s string) (rest string, negative bool) {
	switch {
	case strings.HasPrefix(s, "-"):
		return strings.TrimSpace(s[1:]), true
	case strings.HasPrefix(s, "+"):
		return strings.TrimSpace(s[1:]), false
	}
	return s, false
}

// splitUnit divides "2 lb 3 oz" into its first number, the word after it and the
// rest.
func splitUnit(s string) (number, word, rest string) {
	i := 0
	for i < len(s) && (s[i] >= '0' && s[i] <= '9' || s[i] == '.' || s[i] == ',') {
		i++
	}
	number = s[:i]
	s = strings.TrimSpace(s[i:])
	i = 0
	for i < len(s) && s[i] != ' ' && (s[i] < '0' || s[i] > '9') {
		i++
	}
	return number, s[:i], strings.TrimSpace(s[i:])
}

// The coldest and warmest a thermometer in a bin may be read at; beyond is a slip.
const (
	coldest DeciCelsius = -600
	warmest DeciCelsius = 900
)

// ParseTemp reads a temperature as people type it: "16", "16,5 °C", "61 F",
// "-3". A number without a unit is read in bare. The error is a *Fault.
func ParseTemp(typed string, bare TempUnit) (DeciCelsius, error) {
	text := tidy(typed)
	if text == "" {
		return 0, fault("empty", typed, "Type a temperature, such as 16 °C or 61 °F.")
	}
	text, negative := cutSign(text)
	if !negative {
		text = strings.TrimPrefix(text, "+")
	}
	number, word, rest := splitUnit(text)
	switch strings.TrimSpace(strings.TrimPrefix(word+rest, "°")) {
	case "":
	case "c", "celsius":
		bare = Celsius
	case "f", "fahrenheit":
		bare = Fahrenheit
	default:
		return 0, fault("unknown-unit", typed, "%q is not a unit of temperature here: use °C or °F.", strings.TrimSpace(word+" "+rest))
	}
	thousandths, err := decimal(typed, number, false)
	if err != nil {
		return 0, err
	}
	if negative {
		thousandths = -thousandths
	}
	t := DeciCelsius(Round(thousandths, 100))
	if bare == Fahrenheit {
		t = DeciCelsius(Round((thousandths-32_000)*5, 900))
	}
	if t < coldest || t > warmest {
		return 0, fault("out-of-range", typed, "%s is no temperature of a bin: check the unit.", typed)
	}
	return t, nil
}
