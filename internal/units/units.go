// Package units holds the quantities of the bin: integers in fixed units, so
// that two devices which hold the same entries compute the same numbers.
//
// It parses what people type, rounds for display in one place (half away from
// zero, as scales do), and keeps the project's own pure Exp and Pow, because
// math.Exp differs by an ulp between amd64 and WebAssembly.
package units

// Grams is a mass in whole grams. Negative values appear only as differences.
type Grams int64

// Millimetres is a length in whole millimetres.
type Millimetres int64

// DeciCelsius is a temperature in tenths of a degree Celsius.
type DeciCelsius int64
