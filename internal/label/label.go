// Package label makes and reads the codes that stand on trays: eight symbols
// and a check symbol that a person can read aloud and type with wet hands, the
// web address a phone's camera finds in the square beside them, and the
// geometry of the sheet they are printed on.
//
// Parse reads whatever a person typed or a camera saw, New draws a code from
// random bits, Address and FromAddress turn a code into a link and back. The
// package knows nothing of households: a code names a tray and grants nothing.
// The PDF itself is drawn in server/sheet.
package label

import (
	"errors"
	"fmt"
	"strings"
)

// The alphabet is Douglas Crockford's Base32 (Crockford, "Base32 Encoding",
// crockford.com): no I, L, O, which are read as 1, 1, 0, and no U.
const alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

// checks is the alphabet of the check symbol, which is the code's value modulo
// 37 (same source). It catches every single wrong symbol and every swap of two
// neighbours. The last five never stand on our labels: ~ and = are not in the
// QR code's alphanumeric set (ISO/IEC 18004), and none is easy to say.
const checks = alphabet + "*~$=U"

// Symbols is how many symbols a code has before its check symbol: 40 bits,
// enough that two trays of one household never share one, far from a secret.
const Symbols = 8

// Length is the whole code, check symbol included.
const Length = Symbols + 1

// Code is a label's code in its one written form: nine upper-case symbols, the
// check symbol last, no hyphens. The zero value is no code.
type Code string

// Reason says what is wrong with something that was taken for a code.
type Reason string

// The reasons. They are the codes the screens' words hang on.
const (
	Empty  Reason = "empty"  // nothing was given
	Short  Reason = "short"  // symbols are missing
	Long   Reason = "long"   // too many symbols
	Symbol Reason = "symbol" // a character that no code has
	Check  Reason = "check"  // the check symbol does not fit: one symbol was misread or two swapped
	Shape  Reason = "shape"  // an address that does not lead to a label
)

// Error is why Parse or FromAddress refused its input.
type Error struct {
	Reason Reason
	Input  string // as given, cut to 60 characters
	Detail string // a sentence for people: what, where, how to mend it
}

func (e *Error) Error() string { return "label: " + e.Detail }

// ReasonOf returns the reason in err, or "" if err is no *Error.
func ReasonOf(err error) Reason {
	var e *Error
	if errors.As(err, &e) {
		return e.Reason
	}
	return ""
}

func refuse(reason Reason, input, format string, args ...any) error {
	if r := []rune(input); len(r) > 60 {
		input = string(r[:60])
	}
	return &Error{Reason: reason, Input: input, Detail: fmt.Sprintf(format, args...)}
}

// Parse reads a code in any case; hyphens and spaces are ignored, I and L are
// read as 1, O as 0. The error is an *Error.
func Parse(s string) (Code, error) {
	var read strings.Builder
	at := 0
	for _, r := range s {
		if ignored(r) {
			continue
		}
		at++
		c := fold(r)
		if strings.IndexByte(alphabet, c) < 0 {
			return "", refuse(Symbol, s, "%q (symbol %d) stands on no label; a code has only digits and letters, and no U", r, at)
		}
		read.WriteByte(c)
	}
	switch {
	case at == 0:
		return "", refuse(Empty, s, "no code was given; type the %d symbols printed under the square", Length)
	case at < Length:
		return "", refuse(Short, s, "a code has %d symbols, this one has %d; type the missing ones", Length, at)
	case at > Length:
		return "", refuse(Long, s, "a code has %d symbols, this one has %d; look for one typed twice", Length, at)
	}
	code := read.String()
	if code[Symbols] != checkSymbol(value(code[:Symbols])) {
		return "", refuse(Check, s, "the last symbol does not fit the others, so one was misread or two swapped; compare with the label")
	}
	return Code(code), nil
}

// New makes a code from 40 random bits (the low ones of random). It reports
// false for the values whose check symbol is awkward to print (5 of 37): draw
// again.
func New(random uint64) (Code, bool) {
	v := random & (1<<(5*Symbols) - 1)
	if v%37 >= 32 {
		return "", false
	}
	var b [Length]byte
	b[Symbols] = checkSymbol(v)
	for i := Symbols - 1; i >= 0; i-- {
		b[i] = alphabet[v&31]
		v >>= 5
	}
	return Code(b[:]), true
}

// Draw calls random until it yields a code.
func Draw(random func() uint64) Code {
	for {
		if c, ok := New(random()); ok {
			return c
		}
	}
}

// Groups returns the code as it is printed: three groups of three.
func (c Code) Groups() string {
	if len(c) != Length {
		return string(c)
	}
	return string(c[:3] + "-" + c[3:6] + "-" + c[6:])
}

func ignored(r rune) bool {
	switch r {
	// Hyphens that a keyboard or a word processor may put in, and spaces.
	case '-', '\u00ad', '\u2010', '\u2011', '\u2012', '\u2013', '\u2212', ' ', '\t', '\r', '\n', '\u00a0', '\u202f':
		return true
	}
	return false
}

// fold returns the symbol that r stands for, or 0 if r is none.
func fold(r rune) byte {
	if r >= 'a' && r <= 'z' {
		r -= 'a' - 'A'
	}
	switch r {
	case 'I', 'L':
		return '1'
	case 'O':
		return '0'
	}
	if r > '~' {
		return 0
	}
	return byte(r)
}

// value reads symbols that are known to be in the alphabet.
func value(symbols string) uint64 {
	var v uint64
	for i := range len(symbols) {
		v = v<<5 | uint64(strings.IndexByte(alphabet, symbols[i]))
	}
	return v
}

func checkSymbol(v uint64) byte { return checks[v%37] }
