package sheet_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/skip2/go-qrcode"

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

func write(t *testing.T, j sheet.Job) []byte {
	t.Helper()
	var out bytes.Buffer
	if j.Made = made; j.Base == (label.Base{}) {
		j.Base = base(t, "https://bins.example.org")
	}
	if err := sheet.Write(&out, j); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// file keeps a PDF for the programs that read one.
func file(t *testing.T, pdf []byte) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "made.pdf")
	if err := os.WriteFile(name, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

func TestEverySquareOpensItsTray(t *testing.T) {
	for _, s := range label.Presets() {
		t.Run(s.Name, func(t *testing.T) {
			t.Parallel() // two programs draw and read while another sheet is written
			b := base(t, "https://bins.example.org")
			labels := invented(s.PerPage() + 2)
			labels[1] = sheet.Label{Code: labels[1].Code} // a blank one
			pdf := file(t, write(t, sheet.Job{Sheet: s, Base: b, Labels: labels}))
			for _, dpi := range []int{150, 203, 300} {
				read := sheettest.DecodeAll(t, pdf, s, len(labels), dpi)
				for n, l := range labels {
					if want := b.Address(l.Code); read[n] != want {
						t.Errorf("at %d dpi label %d reads %q, want %q", dpi, n, read[n], want)
					}
					if code, err := label.FromAddress(read[n]); code != l.Code || err != nil {
						t.Errorf("at %d dpi label %d leads to %q, %v; want %q", dpi, n, code, err, l.Code)
					}
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
	sheets := label.Presets()
	// Labels as nobody sells them: narrow, flat, tiny, huge.
	for _, size := range [][2]int64{{30_000, 50_000}, {25_000, 90_000}, {36_000, 36_000}, {140_000, 26_000}, {120_000, 110_000}, {38_000, 26_000}, {61_000, 25_000}} {
		s := sheets[0]
		s.Name = fmt.Sprintf("odd-%dx%d", size[0]/1000, size[1]/1000)
		s.Columns, s.Rows, s.Left, s.Top, s.CellW, s.CellH = 1, 2, 12_000, 9_000, size[0], size[1]
		s.PitchX, s.PitchY = size[0], size[1]+1_000
		sheets = append(sheets, s)
	}
	for _, s := range sheets {
		t.Run(s.Name, func(t *testing.T) { t.Parallel(); wordsStayInside(t, s) })
	}
}

func wordsStayInside(t *testing.T, s label.Sheet) {
	labels := invented(s.PerPage())
	pdf := file(t, write(t, sheet.Job{Sheet: s, Labels: labels}))
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
		text := strings.ReplaceAll(strings.Join(said[n], " "), "- ", "-") // a code may stand in three lines
		if !strings.Contains(text, l.Code.Groups()) {
			t.Errorf("label %d says %q, want the code %s in it", n, text, l.Code.Groups())
		}
		// A long name is cut, and says so; every other stands in full.
		if !strings.Contains(text, l.Tray) && !strings.Contains(text, "…") {
			t.Errorf("label %d says %q, want the name %q in it", n, text, l.Tray)
		}
	}
}

func TestShortNamesInAnyLatinScriptArePrintedInFull(t *testing.T) {
	for _, name := range []string{"Łódź górna", "Çiğdem", "Ángel", "Ångström", "Žižka", "Ñandú", "Bếp nhà", "Գառնի", "ქვევრი", "Ɛkɔŋ", "e\u0301te\u0301", "Őrült"} {
		labels := invented(1)
		labels[0].Tray = name
		pdf := file(t, write(t, sheet.Job{Sheet: label.A4x21(), Labels: labels}))
		want := strings.ReplaceAll(name, "e\u0301", "é")
		got := strings.Join(strings.Fields(sheettest.Tool(t, "pdftotext", pdf, "-")), " ") // in one line or two
		if !strings.Contains(got, want) {
			t.Errorf("the label says %q, want %q in it", got, want)
		}
	}
}

// Which scripts a household may write its names in, so that labels show them.
func TestLettersOfTheseScriptsArePrintedAndOfThoseAreNamed(t *testing.T) {
	for _, tt := range []struct{ script, name, missing string }{
		{"Latin", "Łódź ĞİŞ ñ ø ß Ƴ Bếp ʻOkina", ""},
		{"Greek", "Κομπόστ ἀρχή", ""},
		{"Cyrillic", "Чорнозём Ґанок Њива", ""},
		{"Armenian", "Գառնի", ""},
		{"Georgian", "ქვევრი", ""},
		{"signs", "½ № “a” – ’ → ★ ♥", ""},
		{"an accent of its own", "x\u0302", ""},
		{"marks without ink", "Fe\u00adrn\u200d\u200f\ufe0f", ""},
		{"Han", "桶 A 桶", "桶"},
		{"Kana", "たい", "たい"},
		{"Hangul", "퇴비", "퇴비"},
		{"Arabic, whose letters join", "سما", "سما"},
		{"Hebrew, from right to left", "קומ", "קומ"},
		{"Devanagari", "खद", "खद"},
		{"Thai", "ปย", "ปย"},
		{"pictures", "Fern 🪱", "🪱"},
	} {
		if got := sheet.Missing(tt.name); got != tt.missing {
			t.Errorf("%s: of %q cannot be printed: %q, want %q", tt.script, tt.name, got, tt.missing)
		}
	}
}

func TestLettersThatNoFontHasAreShownAsMissing(t *testing.T) {
	labels := invented(1)
	labels[0].Tray = "桶\u200d A 🪱\ufe0f"
	pdf := file(t, write(t, sheet.Job{Sheet: label.A4x21(), Labels: labels}))
	got := strings.ReplaceAll(sheettest.Tool(t, "pdftotext", pdf, "-"), " ", "") // poppler guesses at spaces
	if !strings.Contains(got, "?A?") {
		t.Errorf("the label says %q, want %q in it", got, "?A?")
	}
}

// Cutting such a line letter by letter took minutes of a server's time.
func TestALineWithoutEndIsCutToThePageSoon(t *testing.T) {
	card := sheet.Card{Bin: strings.Repeat("Cellar ", 2000), Trays: slices.Repeat([]string{"Fern and Slate"}, 5000), Mass: "g", Temp: "C"}
	start := time.Now()
	var out bytes.Buffer
	if err := sheet.WriteCards(&out, sheet.PaperNamed("a4"), base(t, "https://bins.example.org"), "en", made, []sheet.Card{card}); err != nil {
		t.Fatal(err)
	}
	if took := time.Since(start); took > 30*time.Second {
		t.Errorf("took %v", took)
	}
	if words := sheettest.Tool(t, "pdftotext", file(t, out.Bytes()), "-"); strings.Count(words, "…") != 2 {
		t.Errorf("the card says %.400q, want two lines cut", words)
	}
}

func TestSameLabelsGiveTheSameBytes(t *testing.T) {
	labels := invented(9)
	first := write(t, sheet.Job{Sheet: label.A4x21(), Labels: labels})
	for range 5 {
		if again := write(t, sheet.Job{Sheet: label.A4x21(), Labels: labels}); !bytes.Equal(first, again) {
			t.Fatal("the same labels gave another file")
		}
	}
}

func TestWhatCannotBePrintedIsSaid(t *testing.T) {
	long := "https://" + strings.Repeat("a-very-long-name.", 14) + "example.org"
	off := label.A4x21()
	off.Left = -1
	for _, tt := range []struct {
		name   string
		sheet  label.Sheet
		base   string
		labels []sheet.Label
		want   string
	}{
		{"no labels", label.A4x21(), "https://bins.example.org", nil, "no tray has a label"},
		{"an address that needs too fine a square", label.A4x21(), long, invented(1), "shorter host name"},
		{"a sheet off its page", off, "https://bins.example.org", invented(1), "runs off its page"},
	} {
		var out bytes.Buffer
		err := sheet.Write(&out, sheet.Job{Sheet: tt.sheet, Base: base(t, tt.base), Made: made, Labels: tt.labels})
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: got %v, want an error with %q", tt.name, err, tt.want)
		}
		if out.Len() > 0 {
			t.Errorf("%s: %d bytes were written", tt.name, out.Len())
		}
	}
}

func TestNamesOfUsualLengthAreReadableAtAMetre(t *testing.T) {
	for _, s := range label.Presets() {
		labels := invented(1) // "Slate"
		var doc bbox
		if err := xml.Unmarshal([]byte(sheettest.Tool(t, "pdftotext", "-bbox", file(t, write(t, sheet.Job{Sheet: s, Labels: labels})), "-")), &doc); err != nil {
			t.Fatal(err)
		}
		w := doc.Pages[0].Words[0]
		// poppler's box is ascent to descent, 1.17 of the size; a capital is 0.73 of it (DejaVu's OS/2 table).
		if capital := (w.Y1 - w.Y0) / 1.17 * 0.73 * 25.4 / 72; w.Text != "Slate" || capital < sheet.NameLeast {
			t.Errorf("%s: the capital of %q is %.1f mm high, want %.1f", s.Name, w.Text, capital, sheet.NameLeast)
		}
	}
}

func TestModulesForThermalPrintersAreWholeDots(t *testing.T) {
	for _, s := range label.Presets() {
		if s.DPI == 0 {
			continue
		}
		pdf := file(t, write(t, sheet.Job{Sheet: s, Labels: invented(1), Run: label.Run{OffsetX: 1_001, OffsetY: -777}}))
		_, cell := s.Cell(0)
		face, ok := s.Face(cell, modulesAt(t, s))
		if !ok {
			t.Fatalf("%s: no face", s.Name)
		}
		dots := int((face.Square.Module*s.DPI + 12_700_000) / 25_400_000)
		if got := sheettest.Runs(t, pdf, int(s.DPI), face.Square.Box().Shift(1_001, -777).Inset(-200)); got%dots != 0 || dots < 4 {
			t.Errorf("%s: runs of dark dots share the divisor %d, want a multiple of the module's %d", s.Name, got, dots)
		}
	}
}

// A square says its level of error correction in its ninth row: the first module
// of it is light at levels Q and H only (ISO/IEC 18004, format information).
func TestSquaresHaveOneOfTheTwoHighestLevels(t *testing.T) {
	const dpi = 600
	for _, s := range label.Presets() {
		pdf := file(t, write(t, sheet.Job{Sheet: s, Labels: invented(1)}))
		page, err := sheettest.Render(pdf, 0, dpi)
		if err != nil {
			t.Fatal(err)
		}
		_, cell := s.Cell(0)
		face, ok := s.Face(cell, modulesAt(t, s))
		if !ok {
			t.Fatalf("%s: no face", s.Name)
		}
		dark := func(column, row int64) bool {
			dot := func(corner, module int64) int { // the middle of a module, from the quiet zone's corner
				nm := corner + (label.Quiet+module)*face.Square.Module + face.Square.Module/2
				return int(nm * dpi / 25_400_000)
			}
			return page.GrayAt(dot(face.Square.X, column), dot(face.Square.Y, row)).Y < 128
		}
		if !dark(0, 0) || dark(0, 7) || !dark(0, 6) {
			t.Errorf("%s: the square's corner is not where it was looked for", s.Name)
		}
		if dark(0, 8) {
			t.Errorf("%s: the square's level is L or M, want Q or H", s.Name)
		}
	}
}

// modulesAt returns the side of the square that the address gets on a sheet.
func modulesAt(t *testing.T, s label.Sheet) int {
	t.Helper()
	_, cell := s.Cell(0)
	for _, level := range []qrcode.RecoveryLevel{qrcode.Highest, qrcode.High} {
		q, err := qrcode.New(base(t, "https://bins.example.org").Address(invented(1)[0].Code), level)
		if err != nil {
			t.Fatal(err)
		}
		q.DisableBorder = true
		if _, ok := s.Face(cell, len(q.Bitmap())); ok {
			return len(q.Bitmap())
		}
	}
	t.Fatalf("%s takes no square", s.Name)
	return 0
}

func TestACardHasRowsAndWordsOnThePageInEachLanguage(t *testing.T) {
	card := sheet.Card{
		Bin: "Kellerstapel links hinten, der immer tropft und deshalb am Fenster steht", Trays: []string{"Slate", "Łódź", "Ochre"},
		Vessels: []sheet.CardVessel{{Name: "full mug", Amount: "300 g"}}, Mass: "oz", Temp: "F",
	}
	for _, paper := range sheet.Papers() {
		for language, date := range map[string]string{"en": "Date", "es": "Fecha", "xx": "Date"} {
			var out bytes.Buffer
			if err := sheet.WriteCards(&out, paper, base(t, "https://bins.example.org"), language, made, []sheet.Card{card, card}); err != nil {
				t.Fatal(err)
			}
			pdf := file(t, out.Bytes())
			var doc bbox
			if err := xml.Unmarshal([]byte(sheettest.Tool(t, "pdftotext", "-bbox", pdf, "-")), &doc); err != nil {
				t.Fatal(err)
			}
			if len(doc.Pages) != 2 {
				t.Fatalf("%d pages, want one a card", len(doc.Pages))
			}
			said := map[string]int{}
			for _, w := range doc.Pages[0].Words {
				said[w.Text]++
				if w.X0 < 20 || w.Y0 < 20 || w.X1 > doc.Pages[0].W-20 || w.Y1 > doc.Pages[0].H-20 {
					t.Errorf("%s, %s: %q lies at the edge of the paper", paper.Name, language, w.Text)
				}
			}
			if said[date] != 1 || said["°F"] < 12 || said["oz"] < 12 {
				t.Errorf("%s, %s: %v, want %q once and a dozen rows", paper.Name, language, said, date)
			}
			at := label.Box{X: paper.W - 42_000, Y: 0, W: 42_000, H: 45_000}
			if got := sheettest.Decode(t, pdf, 1, at); got != "https://BINS.EXAMPLE.ORG/CARD" {
				t.Errorf("%s: the square reads %q", paper.Name, got)
			}
		}
	}
}

func TestTheCalibrationPageNumbersItsRulersOnThePage(t *testing.T) {
	for _, s := range label.Presets() {
		var out bytes.Buffer
		if err := sheet.WriteCalibration(&out, s, "en", made); err != nil {
			t.Fatal(err)
		}
		var doc bbox
		if err := xml.Unmarshal([]byte(sheettest.Tool(t, "pdftotext", "-bbox", file(t, out.Bytes()), "-")), &doc); err != nil {
			t.Fatal(err)
		}
		numbers := 0
		for _, w := range doc.Pages[0].Words {
			if w.X0 < -1 || w.Y0 < -2 || w.X1 > doc.Pages[0].W+1 || w.Y1 > doc.Pages[0].H+2 {
				t.Errorf("%s: %q leaves the page: %+v", s.Name, w.Text, w)
			}
			if w.Text == "4" {
				numbers++
			}
		}
		if numbers < 2 {
			t.Errorf("%s: the number 4 stands %d times, want one on each ruler", s.Name, numbers)
		}
	}
}
