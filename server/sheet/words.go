package sheet

import (
	"bytes"
	"strings"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gomonobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/norm"

	"trayside/internal/label"
)

// The Go fonts (Bigelow & Holmes, BSD licence) come as a Go module, so no font
// file lies in the repository. They cover the Latin, Greek and Cyrillic letters
// of the WGL4 set; the mono one has a slashed nought for the code.
const (
	nameFont = "name"
	binFont  = "bin"
	codeFont = "code"
)

var fonts = map[string][]byte{nameFont: gobold.TTF, binFont: goregular.TTF, codeFont: gomonobold.TTF}

// addFonts hands over copies: the library writes into the bytes while it cuts a
// font down to the letters used, and the next sheet would differ.
func addFonts(pdf *fpdf.Fpdf) {
	for _, f := range []string{nameFont, binFont, codeFont} {
		pdf.AddUTF8FontFromBytes(f, "", bytes.Clone(fonts[f]))
	}
}

// line is one line of words on a label.
type line struct {
	font  string
	text  string
	size  float64 // pt
	least float64 // pt, the smallest it may shrink to before it is cut
	after float64 // mm to the next line
}

// words writes the names and the code, centred in height, each line shrunk or
// cut to the width.
func (p *page) words(box label.Box, l Label) {
	lines := []line{
		{nameFont, l.Tray, 15, 9, 1.2},
		{binFont, l.Bin, 10.5, 8, 2.6},
		{codeFont, l.Code.Groups(), 12, 8, 0},
	}
	height := 0.0
	for i := range lines {
		lines[i] = p.fit(lines[i], mm(box.W))
		height += lineHeight(lines[i]) + lines[i].after
	}
	p.pdf.SetTextColor(0, 0, 0)
	p.pdf.SetCellMargin(0)
	y := mm(box.Y) + (mm(box.H)-height)/2
	for _, ln := range lines {
		p.pdf.SetFont(ln.font, "", ln.size)
		p.pdf.SetXY(mm(box.X), y)
		p.pdf.CellFormat(mm(box.W), lineHeight(ln), ln.text, "", 0, "LM", false, 0, "")
		y += lineHeight(ln) + ln.after
	}
}

// lineHeight is the height of the line's letters with their accents, in mm.
func lineHeight(l line) float64 { return l.size * 1.2 * 25.4 / 72 }

// fit makes the line small enough for width (mm): smaller letters first, then
// fewer of them.
func (p *page) fit(l line, width float64) line {
	l.text = drawable(l.font, norm.NFC.String(strings.TrimSpace(l.text)))
	fits := func(text string, size float64) bool {
		p.pdf.SetFont(l.font, "", size)
		return p.pdf.GetStringWidth(text) <= width
	}
	for l.size > l.least && !fits(l.text, l.size) {
		l.size = max(l.least, l.size-0.5)
	}
	if fits(l.text, l.size) {
		return l
	}
	letters := []rune(l.text)
	for len(letters) > 1 && !fits(string(letters)+"…", l.size) {
		letters = letters[:len(letters)-1]
	}
	l.text = strings.TrimRight(string(letters), " ") + "…"
	return l
}

// drawable puts a question mark in the place of every letter that the font has
// not: a gap would look like a name that was never there.
func drawable(font, text string) string {
	f, err := sfnt.Parse(fonts[font])
	if err != nil {
		panic("sheet: the font that is built in does not parse: " + err.Error())
	}
	var b sfnt.Buffer
	return strings.Map(func(r rune) rune {
		if i, err := f.GlyphIndex(&b, r); err != nil || i == 0 {
			return '?'
		}
		return r
	}, text)
}
