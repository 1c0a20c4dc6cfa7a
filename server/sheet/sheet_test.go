package sheet_test

import (
	"bytes"
	"encoding/xml"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"trayside/internal/label"
	"trayside/server/sheet"
	"trayside/server/sheet/sheettest"
)

var made = time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)

func base(t *testing.T, s string) label.Base {
	t.Helper()
	b, err := label.ParseBase(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// invented returns n labels with names as households give them.
func invented(n int) []sheet.Label {
	names := []string{"Slate", "Łódź górna", "Çiğdem", "Fern, the one by the stairs that always drips", "Ñandú №3", "Ångström", "Дальний", "Ž"}
	var out []sheet.Label
	random := uint64(42)
	for i := range n {
		out = append(out, sheet.Label{
			Code: label.Draw(func() uint64 { random = random*6364136223846793005 + 1442695040888963407; return random >> 20 }),
			Tray: names[i%len(names)], Bin: "Kellerstapel links hinten",
		})
	}
	return out
}

func write(t *testing.T, s label.Sheet, b label.Base, labels []sheet.Label) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := sheet.Write(&out, s, b, made, labels); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestEverySquareOpensItsTray(t *testing.T) {
	for _, s := range label.Presets() {
		t.Run(s.Name, func(t *testing.T) {
			b := base(t, "https://bins.example.org")
			labels := invented(s.PerPage() + 2)
			pdf := filepath.Join(t.TempDir(), "labels.pdf")
			if err := os.WriteFile(pdf, write(t, s, b, labels), 0o600); err != nil {
				t.Fatal(err)
			}
			for n, l := range labels {
				page, cell := s.Cell(n)
				got := sheettest.Decode(t, pdf, page, cell)
				if want := b.Address(l.Code); got != want {
					t.Errorf("label %d reads %q, want %q", n, got, want)
				}
				if code, err := label.FromAddress(got); code != l.Code || err != nil {
					t.Errorf("label %d leads to %q, %v; want %q", n, code, err, l.Code)
				}
			}
		})
	}
}

type bbox struct {
	Pages []struct {
		W     float64 `xml:"width,attr"`
		H     float64 `xml:"height,attr"`
		Words []struct {
			X0   float64 `xml:"xMin,attr"`
			Y0   float64 `xml:"yMin,attr"`
			X1   float64 `xml:"xMax,attr"`
			Y1   float64 `xml:"yMax,attr"`
			Text string  `xml:",chardata"`
		} `xml:"word"`
	} `xml:"body>doc>page"`
}

func TestWordsStayInsideTheirLabel(t *testing.T) {
	for _, s := range label.Presets() {
		t.Run(s.Name, func(t *testing.T) {
			labels := invented(s.PerPage())
			pdf := filepath.Join(t.TempDir(), "labels.pdf")
			if err := os.WriteFile(pdf, write(t, s, base(t, "https://bins.example.org"), labels), 0o600); err != nil {
				t.Fatal(err)
			}
			var doc bbox
			if err := xml.Unmarshal([]byte(sheettest.Tool(t, "pdftotext", "-bbox", pdf, "-")), &doc); err != nil {
				t.Fatal(err)
			}
			if len(doc.Pages) != 1 {
				t.Fatalf("the sheet has %d pages, want 1", len(doc.Pages))
			}
			const pt = 25400.0 / 72 // µm
			said := make([][]string, len(labels))
			for _, w := range doc.Pages[0].Words {
				box := label.Box{X: int64(w.X0 * pt), Y: int64(w.Y0 * pt), W: int64((w.X1 - w.X0) * pt), H: int64((w.Y1 - w.Y0) * pt)}
				inside := false
				for n := range labels {
					_, cell := s.Cell(n)
					if cell.Inset(s.Margin - 100).Holds(box) { // a tenth of a millimetre for rounding
						said[n], inside = append(said[n], w.Text), true
					}
				}
				if !inside {
					t.Errorf("%q at %+v lies on no label", w.Text, box)
				}
			}
			for n, l := range labels {
				text := strings.Join(said[n], " ")
				if !strings.Contains(text, l.Code.Groups()) {
					t.Errorf("label %d says %q, want the code %s in it", n, text, l.Code.Groups())
				}
				// A long name is cut, and says so; every other stands in full.
				if !strings.Contains(text, l.Tray) && !strings.Contains(text, "…") {
					t.Errorf("label %d says %q, want the name %q in it", n, text, l.Tray)
				}
			}
		})
	}
}

func TestShortNamesInAnyLatinScriptArePrintedInFull(t *testing.T) {
	for _, name := range []string{"Łódź górna", "Çiğdem", "Ángel", "Ångström", "Žižka", "Ñandú", "e\u0301te\u0301", "Őrült"} {
		labels := invented(1)
		labels[0].Tray = name
		pdf := filepath.Join(t.TempDir(), "labels.pdf")
		if err := os.WriteFile(pdf, write(t, label.A4x21, base(t, "https://bins.example.org"), labels), 0o600); err != nil {
			t.Fatal(err)
		}
		want := strings.ReplaceAll(name, "e\u0301", "é")
		if got := sheettest.Tool(t, "pdftotext", pdf, "-"); !strings.Contains(got, want) {
			t.Errorf("the label says %q, want %q in it", got, want)
		}
	}
}

func TestLettersThatNoFontHasAreShownAsMissing(t *testing.T) {
	labels := invented(1)
	labels[0].Tray = "桶 A 🪱"
	pdf := filepath.Join(t.TempDir(), "labels.pdf")
	if err := os.WriteFile(pdf, write(t, label.A4x21, base(t, "https://bins.example.org"), labels), 0o600); err != nil {
		t.Fatal(err)
	}
	got := strings.ReplaceAll(sheettest.Tool(t, "pdftotext", pdf, "-"), " ", "") // poppler guesses at spaces
	if !strings.Contains(got, "?A?") {
		t.Errorf("the label says %q, want %q in it", got, "?A?")
	}
}

func TestSameLabelsGiveTheSameBytes(t *testing.T) {
	labels := invented(9)
	first := write(t, label.A4x21, base(t, "https://bins.example.org"), labels)
	for range 5 {
		if again := write(t, label.A4x21, base(t, "https://bins.example.org"), labels); !bytes.Equal(first, again) {
			t.Fatal("the same labels gave another file")
		}
	}
}

func TestWhatCannotBePrintedIsSaid(t *testing.T) {
	long := "https://" + strings.Repeat("a-very-long-name.", 9) + "example.org"
	off := label.A4x21
	off.Left = -1
	for _, tt := range []struct {
		name   string
		sheet  label.Sheet
		base   string
		labels []sheet.Label
		want   string
	}{
		{"no labels", label.A4x21, "https://bins.example.org", nil, "no tray has a label"},
		{"an address that needs too fine a square", label.A4x21, long, invented(1), "shorter host name"},
		{"a sheet off its page", off, "https://bins.example.org", invented(1), "runs off its page"},
	} {
		var out bytes.Buffer
		err := sheet.Write(&out, tt.sheet, base(t, tt.base), made, tt.labels)
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: got %v, want an error with %q", tt.name, err, tt.want)
		}
		if out.Len() > 0 {
			t.Errorf("%s: %d bytes were written", tt.name, out.Len())
		}
	}
}
