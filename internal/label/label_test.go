package label_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/label"
)

func TestParse(t *testing.T) {
	const code = label.Code("00018HWZF")
	tests := []struct {
		name string
		in   string
		want label.Code
		why  label.Reason
	}{
		{name: "as printed", in: "000-18H-WZF", want: code},
		{name: "without hyphens", in: "00018HWZF", want: code},
		{name: "in lower case", in: "00018hwzf", want: code},
		{name: "with spaces that a keyboard put in", in: " 000 18h\u00a0wzf ", want: code},
		{name: "with a word processor's hyphens", in: "000\u201118H\u2013WZF", want: code},
		{name: "with the letter o for nought and i, l for one", in: "ooOI8hwzf", want: code},
		{name: "nothing", in: " - ", why: label.Empty},
		{name: "one symbol short", in: "00018HWZ", why: label.Short},
		{name: "one symbol too many", in: "00018HWZFF", why: label.Long},
		{name: "u is on no label", in: "0001UHWZF", why: label.Symbol},
		{name: "punctuation", in: "0001_HWZF", why: label.Symbol},
		{name: "a letter of another script that looks alike", in: "00018НWZF", why: label.Symbol},
		{name: "a misread symbol", in: "00018HWZG", why: label.Check},
		{name: "two swapped symbols", in: "000H81WZF", why: label.Check},
		// The check symbol of 7K3M9QX2 is U, which we never print.
		{name: "a code that is never drawn", in: "7K3M9QX2U", why: label.Symbol},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := label.Parse(tt.in)
			if got != tt.want || label.ReasonOf(err) != tt.why {
				t.Errorf("Parse(%q) = %q, %v; want %q, reason %q", tt.in, got, err, tt.want, tt.why)
			}
			if (err == nil) != (tt.why == "") {
				t.Errorf("Parse(%q) error %v is no *label.Error", tt.in, err)
			}
		})
	}
}

func codes() *rapid.Generator[label.Code] {
	return rapid.Custom(func(t *rapid.T) label.Code {
		v := rapid.Uint64Range(0, 1<<40-1).Draw(t, "bits")
		return label.Draw(func() uint64 { v++; return v })
	})
}

func TestEveryCodeReadsBackFromWhatIsPrinted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := codes().Draw(t, "code")
		for _, s := range []string{string(c), c.Groups(), strings.ToLower(c.Groups())} {
			if got, err := label.Parse(s); got != c || err != nil {
				t.Fatalf("Parse(%q) = %q, %v; want %q", s, got, err, c)
			}
		}
	})
}

func TestOneWrongSymbolOrSwapIsAlwaysCaught(t *testing.T) {
	const alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
	random := rand.New(rand.NewPCG(7, 11))
	for range 200 {
		c := []byte(label.Draw(random.Uint64))
		for i := range c {
			for j := range len(alphabet) {
				wrong := append([]byte(nil), c...)
				wrong[i] = alphabet[j]
				if _, err := label.Parse(string(wrong)); wrong[i] != c[i] && label.ReasonOf(err) != label.Check {
					t.Fatalf("Parse(%q) for %q: got %v, want reason check", wrong, c, err)
				}
			}
			if i > 0 && c[i] != c[i-1] {
				swapped := append([]byte(nil), c...)
				swapped[i], swapped[i-1] = c[i-1], c[i]
				if _, err := label.Parse(string(swapped)); label.ReasonOf(err) != label.Check {
					t.Fatalf("Parse(%q) for %q: got %v, want reason check", swapped, c, err)
				}
			}
		}
	}
}

func TestDrawnCodesStayInTheSquareCodesAlphabet(t *testing.T) {
	drawn := 0
	for v := range uint64(37 * 100) {
		c, ok := label.New(v * 7919)
		if !ok {
			continue
		}
		drawn++
		if strings.ContainsAny(string(c), "*~$=U") {
			t.Errorf("New(%d) = %q, want no symbol outside the label's alphabet", v*7919, c)
		}
	}
	// 32 of 37 remainders have a printable check symbol.
	if want := 32 * 100; drawn != want {
		t.Errorf("of 3700 values in every remainder, %d were drawn; want %d", drawn, want)
	}
}

func TestAddress(t *testing.T) {
	const code = label.Code("00018HWZF")
	base, err := label.ParseBase("https://Bins.Example.org:8443/")
	if err != nil {
		t.Fatal(err)
	}
	const want = "https://BINS.EXAMPLE.ORG:8443/T/00018HWZF"
	if got := base.Address(code); got != want {
		t.Errorf("Address = %q, want %q", got, want)
	}
	tests := []struct {
		name string
		in   string
		want label.Code
		why  label.Reason
	}{
		{name: "as printed", in: want, want: code},
		{name: "all in lower case", in: strings.ToLower(want), want: code},
		{name: "a scheme in upper case, as some printed", in: strings.ToUpper(want), want: code},
		{name: "with a slash at its end", in: want + "/", want: code},
		{name: "with what a messenger added", in: want + "?from=chat#top", want: code},
		{name: "with hyphens", in: "https://bins.example.org/t/000-18H-WZF", want: code},
		{name: "only the path", in: "/t/00018hwzf", want: code},
		{name: "a bare code", in: "000-18H-WZF", want: code},
		{name: "another page", in: "https://bins.example.org/join", why: label.Shape},
		{name: "nothing after the t", in: "https://bins.example.org/t/", why: label.Shape},
		{name: "a longer path", in: "https://bins.example.org/t/00018HWZF/x", why: label.Shape},
		{name: "no address at all", in: "https://%zz/", why: label.Shape},
		{name: "a damaged code", in: "https://bins.example.org/t/00018HWZG", why: label.Check},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := label.FromAddress(tt.in)
			if got != tt.want || label.ReasonOf(err) != tt.why {
				t.Errorf("FromAddress(%q) = %q, %v; want %q, reason %q", tt.in, got, err, tt.want, tt.why)
			}
		})
	}
}

func TestBaseIsABareAddress(t *testing.T) {
	for _, bad := range []string{"", "bins.example.org", "ftp://bins.example.org", "https://", "https://a.example/path", "https://a.example/?q", "https://me@a.example", "https://a.example/#x"} {
		if b, err := label.ParseBase(bad); label.ReasonOf(err) != label.Shape {
			t.Errorf("ParseBase(%q) = %v, %v; want reason shape", bad, b, err)
		}
	}
}
