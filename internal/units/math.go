package units

import "math"

// The functions below use only additions, multiplications and divisions in a
// fixed order, and wrap every product in float64() so that no compiler fuses it
// with a sum. IEEE 754 fixes each of those results, so a phone, a server and a
// test machine get the same bits.
//
// Accuracy, measured in the tests: Exp and Log stay within 2 units in the last
// place of package math, and all three within 1 of the true value, Pow wherever
// the result lies between 1e-17 and 1e17 (package math's own Pow is up to 4 off
// there).

// ln 2 in two parts: the first has 21 trailing zero bits, so that its product
// with an exponent is exact.
const (
	ln2Hi = 0x1.62e42fee00000p-1
	ln2Lo = 0x1.a39ef35793c76p-33
)

// Exp returns e to the power x. Exp(+Inf) and overflow are +Inf, Exp(-Inf) and
// underflow 0, Exp(NaN) is NaN.
func Exp(x float64) float64 { return expSum(x, 0) }

// expSum returns e to the power hi+lo, lo being small beside hi.
func expSum(hi, lo float64) float64 {
	switch {
	case math.IsNaN(hi):
		return hi
	case hi > 709.79:
		return math.Inf(1)
	case hi < -745.14:
		return 0
	}
	k := math.Floor(float64(hi*(1/math.Ln2)) + 0.5)
	head := hi - float64(k*ln2Hi)     // exact: |head| ≤ ln2/2 and both share their upper bits
	tail := lo - float64(k*ln2Lo)     // what head lacks
	r, rest := fastTwoSum(head, tail) // the reduced argument in two parts
	small := float64(float64(r*r)*expTail(r)) + float64(rest*(1+r))
	return math.Ldexp(1+(r+small), int(k))
}

// expTail returns (e^r - 1 - r) / r² for |r| ≤ ln2/2, from the Taylor series to
// r^14/14!.
func expTail(r float64) float64 {
	p := 1.0 / 87178291200
	p = float64(p*r) + 1.0/6227020800
	p = float64(p*r) + 1.0/479001600
	p = float64(p*r) + 1.0/39916800
	p = float64(p*r) + 1.0/3628800
	p = float64(p*r) + 1.0/362880
	p = float64(p*r) + 1.0/40320
	p = float64(p*r) + 1.0/5040
	p = float64(p*r) + 1.0/720
	p = float64(p*r) + 1.0/120
	p = float64(p*r) + 1.0/24
	p = float64(p*r) + 1.0/6
	return float64(p*r) + 1.0/2
}

// Log returns the natural logarithm. Log(0) is -Inf, Log(+Inf) is +Inf, and the
// logarithm of NaN or of a negative number is NaN.
func Log(x float64) float64 {
	switch {
	case math.IsNaN(x) || x < 0:
		return math.NaN()
	case x == 0:
		return math.Inf(-1)
	case math.IsInf(x, 1):
		return x
	}
	hi, lo := logParts(x)
	return hi + lo
}

// Pow returns x to the power y for x ≥ 0. Pow(x, 0) and Pow(1, y) are 1, Pow of
// a negative x is NaN: nothing in the bin is raised from below zero.
func Pow(x, y float64) float64 {
	switch {
	case y == 0 || x == 1:
		return 1
	case math.IsNaN(x) || math.IsNaN(y) || x < 0:
		return math.NaN()
	case x == 0 || math.IsInf(x, 1) || math.IsInf(y, 0):
		return powEdge(x, y)
	}
	hi, lo := logParts(x)
	p, e := twoProd(hi, y)
	if math.IsInf(p, 0) || math.IsNaN(e) {
		return expSum(p, 0) // far beyond any result that is a number
	}
	return expSum(fastTwoSum(p, e+float64(lo*y)))
}

// powEdge answers for x or y at an end of its range; x is not 1 and y not 0.
func powEdge(x, y float64) float64 {
	if (x > 1) == (y > 0) {
		return math.Inf(1)
	}
	return 0
}

// logParts returns the logarithm of a positive finite number as an unevaluated
// sum: hi is the nearest float64, lo about what it lacks.
func logParts(x float64) (hi, lo float64) {
	m, k := math.Frexp(x)
	if m < math.Sqrt2/2 {
		m, k = m*2, k-1
	}
	// ln m = 2 artanh s with s = (m-1)/(m+1); |s| ≤ 0.1716. The quotient is kept
	// in two parts because its error would grow with the logarithm.
	num := m - 1               // exact: m lies within a factor of two of 1
	den, denLo := twoSum(m, 1) // m+1
	s := num / den
	p, e := twoProd(s, den)
	sLo := ((num - p) - e - float64(s*denLo)) / den
	z := float64(s * s)
	q := 1.0 / 23
	for n := 21; n >= 3; n -= 2 {
		q = float64(q*z) + 1/float64(n)
	}
	// The cubic and later terms: under a hundredth of the whole, so plain
	// precision is enough for them.
	tail := 2 * (sLo + float64(float64(s*z)*q))
	hi, lo = twoSum(float64(float64(k)*ln2Hi), 2*s)
	return fastTwoSum(hi, lo+(tail+float64(float64(k)*ln2Lo)))
}

// twoSum returns a+b and its exact rounding error (Knuth, The Art of Computer
// Programming 2, 4.2.2, theorem B; from memory).
func twoSum(a, b float64) (sum, err float64) {
	sum = a + b
	bb := sum - a
	return sum, (a - (sum - bb)) + (b - bb)
}

// fastTwoSum is twoSum where a is the larger one or 0 (Dekker 1971, from memory).
func fastTwoSum(a, b float64) (sum, err float64) {
	sum = a + b
	return sum, b - (sum - a)
}

// twoProd returns a·b and its rounding error, splitting each factor into halves
// whose products are exact (after Dekker 1971, from memory).
func twoProd(a, b float64) (prod, err float64) {
	prod = float64(a * b)
	ah, al := halves(a)
	bh, bl := halves(b)
	err = float64(ah*bh) - prod
	err += float64(ah * bl)
	err += float64(al * bh)
	return prod, err + float64(al*bl)
}

// halves splits a into its upper 26 bits and the rest.
func halves(a float64) (hi, lo float64) {
	hi = math.Float64frombits(math.Float64bits(a) &^ (1<<27 - 1))
	return hi, a - hi
}
