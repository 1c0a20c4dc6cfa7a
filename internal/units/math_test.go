package units_test

import (
	"encoding/binary"
	"fmt"
	"hash/fnv"
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/units"
)

// apart returns how many float64 lie between a and b, both finite and of one sign.
func apart(a, b float64) int64 {
	d := int64(math.Float64bits(a)) - int64(math.Float64bits(b))
	return max(d, -d)
}

func TestExpAndLogStayWithinTwoUlpOfPackageMath(t *testing.T) {
	const most = 2
	check := func(t *rapid.T, what string, got, want float64) {
		if math.IsNaN(got) || apart(got, want) > most {
			t.Fatalf("%s = %v, package math says %v (%d ulp apart)", what, got, want, apart(got, want))
		}
	}
	t.Run("exp over its whole normal range", rapid.MakeCheck(func(t *rapid.T) {
		x := rapid.Float64Range(-708, 709).Draw(t, "x")
		check(t, fmt.Sprintf("Exp(%v)", x), units.Exp(x), math.Exp(x))
	}))
	t.Run("exp near nothing", rapid.MakeCheck(func(t *rapid.T) {
		x := rapid.Float64Range(-2, 2).Draw(t, "x")
		check(t, fmt.Sprintf("Exp(%v)", x), units.Exp(x), math.Exp(x))
	}))
	t.Run("log of positive numbers", rapid.MakeCheck(func(t *rapid.T) {
		x := rapid.Float64Range(1e-300, 1e300).Draw(t, "x")
		check(t, fmt.Sprintf("Log(%v)", x), units.Log(x), math.Log(x))
	}))
	t.Run("log close to one", rapid.MakeCheck(func(t *rapid.T) {
		x := rapid.Float64Range(0.5, 2).Draw(t, "x")
		check(t, fmt.Sprintf("Log(%v)", x), units.Log(x), math.Log(x))
	}))
}

func TestAllThreeStayWithinOneUlpOfTheTruth(t *testing.T) {
	const most = 1
	check := func(t *rapid.T, what string, got float64, want *big.Float) {
		truth, _ := want.Float64()
		if math.IsNaN(got) || apart(got, truth) > most {
			t.Fatalf("%s = %v, the true value is %v (%d ulp apart)", what, got, truth, apart(got, truth))
		}
	}
	t.Run("exp", rapid.MakeCheck(func(t *rapid.T) {
		x := rapid.Float64Range(-700, 700).Draw(t, "x")
		check(t, fmt.Sprintf("Exp(%v)", x), units.Exp(x), bigExp(bigOf(x)))
	}))
	t.Run("log", rapid.MakeCheck(func(t *rapid.T) {
		x := rapid.Float64Range(1e-9, 1e9).Draw(t, "x")
		check(t, fmt.Sprintf("Log(%v)", x), units.Log(x), bigLog(x))
	}))
	t.Run("powers whose result a bin could use", rapid.MakeCheck(func(t *rapid.T) {
		x := rapid.Float64Range(1e-6, 1e6).Draw(t, "x")
		// Exponents that keep the result within 1e±17, the stated range.
		most := min(8, math.Log(1e17)/math.Abs(math.Log(x)))
		y := rapid.Float64Range(-most, most).Draw(t, "y")
		l := bigLog(x)
		want := bigExp(l.Mul(l, bigOf(y)))
		check(t, fmt.Sprintf("Pow(%v, %v)", x, y), units.Pow(x, y), want)
	}))
}

const bigPrec = 200

func bigOf(x float64) *big.Float { return new(big.Float).SetPrec(bigPrec).SetFloat64(x) }

// bigExp is a slow and plain reference: halve x until it is small, sum the
// Taylor series, square back.
func bigExp(x *big.Float) *big.Float {
	halvings := max(0, x.MantExp(nil)+10)
	r := new(big.Float).SetMantExp(x, -halvings)
	sum, term := bigOf(1), bigOf(1)
	for n := 1; n < 30; n++ {
		term.Mul(term, r)
		term.Quo(term, bigOf(float64(n)))
		sum.Add(sum, term)
	}
	for range halvings {
		sum.Mul(sum, sum)
	}
	return sum
}

// bigLog solves bigExp(y) = x by Newton's method from package math's value.
func bigLog(x float64) *big.Float {
	y := bigOf(math.Log(x))
	for range 3 {
		step := bigExp(new(big.Float).Neg(y))
		step.Mul(step, bigOf(x))
		y.Add(y, step.Sub(step, bigOf(1)))
	}
	return y
}

// The bits below were written by this package once and hold on every machine: a
// test on amd64 and one in WebAssembly both read them.
func TestFrozenBitPatterns(t *testing.T) {
	sum := fnv.New64a()
	add := func(f float64) { sum.Write(binary.LittleEndian.AppendUint64(nil, math.Float64bits(f))) }
	for i := 1; i < 4000; i++ {
		x := float64(i) * 0.0173
		add(units.Exp(x))
		add(units.Exp(-x))
		add(units.Log(x))
		add(units.Pow(x, 2.0/3))
		add(units.Pow(1/x, 1.5))
	}
	if got, want := sum.Sum64(), uint64(0x3e81740f229bd15e); got != want {
		t.Errorf("checksum of 19,995 results: got %#x, want %#x", got, want)
	}
	for _, c := range []struct {
		name string
		got  float64
		bits uint64
	}{
		{"Exp(1)", units.Exp(1), 0x4005bf0a8b145769},
		{"Exp(-0.05)", units.Exp(-0.05), 0x3fee7078b0a726a6},
		{"Log(10)", units.Log(10), 0x40026bb1bbb55516},
		{"Pow(0.45, 2/3)", units.Pow(0.45, 2.0/3), 0x3fe2ca96e0218c00},
		{"Pow(0.8, 1.5)", units.Pow(0.8, 1.5), 0x3fe6e5b7d16657e2},
	} {
		if got := math.Float64bits(c.got); got != c.bits {
			t.Errorf("%s has bits %#x, want %#x", c.name, got, c.bits)
		}
	}
}

func TestADenseGridStaysWithinTwoUlp(t *testing.T) {
	var worstExp, worstLog int64
	for i := 1; i < 200_000; i++ {
		x := float64(i) * 0.0007
		worstExp = max(worstExp, apart(units.Exp(x), math.Exp(x)), apart(units.Exp(-x), math.Exp(-x)))
		if x != 1 {
			worstLog = max(worstLog, apart(units.Log(x), math.Log(x)))
		}
	}
	if worstExp > 2 || worstLog > 2 {
		t.Errorf("worst distance in ulp: Exp %d, Log %d, want at most 2", worstExp, worstLog)
	}
}

func TestEdgesOfTheFunctions(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"e to the nothing is one", units.Exp(0), 1},
		{"exp overflows to infinity", units.Exp(710), inf},
		{"exp underflows to nothing", units.Exp(-746), 0},
		{"exp of infinity", units.Exp(inf), inf},
		{"exp of minus infinity", units.Exp(-inf), 0},
		{"exp of no number", units.Exp(nan), nan},
		{"the smallest numbers come out right", units.Exp(-745), math.Exp(-745)},
		{"log of one is nothing", units.Log(1), 0},
		{"log of nothing", units.Log(0), -inf},
		{"log of infinity", units.Log(inf), inf},
		{"log below nothing", units.Log(-1), nan},
		{"a subnormal has a log", units.Log(5e-324), -744.4400719213812},
		{"anything to the nothing is one", units.Pow(nan, 0), 1},
		{"one to the anything is one", units.Pow(1, nan), 1},
		{"nothing squared", units.Pow(0, 2), 0},
		{"one over nothing", units.Pow(0, -2), inf},
		{"infinity squared", units.Pow(inf, 2), inf},
		{"one over infinity", units.Pow(inf, -1), 0},
		{"a half, endlessly", units.Pow(0.5, inf), 0},
		{"two, endlessly divided", units.Pow(2, -inf), 0},
		{"a half, endlessly divided", units.Pow(0.5, -inf), inf},
		{"a huge exponent overflows", units.Pow(10, 1e300), inf},
		{"a huge negative exponent underflows", units.Pow(10, -1e300), 0},
		{"powers below nothing are refused", units.Pow(-8, 3), nan},
		{"a square is exact", units.Pow(3, 2), 9},
		{"a root is exact", units.Pow(2.25, 0.5), 1.5},
	} {
		if c.got != c.want && !(math.IsNaN(c.got) && math.IsNaN(c.want)) {
			t.Errorf("%s: got %v, want %v", c.name, c.got, c.want)
		}
	}
}
