package sheet

import (
	"bytes"
	"sort"
	"strings"
	"unicode"

	"codeberg.org/go-pdf/fpdf"
	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"
	"github.com/go-fonts/dejavu/dejavusansmonobold"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/norm"

	"trayside/internal/label"
)

// The DejaVu fonts (free licence of Bitstream and the DejaVu authors) come as a
// Go module, so no font file lies in the repository. They have the Latin letters
// of nearly every language, Greek, Cyrillic, Armenian and Georgian; the
// condensed cut makes a name as large as its label allows, and the mono one has a
// slashed nought for the code.
const (
	boldFont  = "bold"
	plainFont = "plain"
	codeFont  = "code"
)

var fonts = map[string][]byte{boldFont: dejavusanscondensedbold.TTF, plainFont: dejavusanscondensed.TTF, codeFont: dejavusansmonobold.TTF}

// Heights of the fonts' letters above and below the line, in parts of their
// size (the fonts' hhea table, rounded up).
const (
	ascent  = 0.93
	descent = 0.24
)

// NameLeast is the height of a capital of a tray's name that is wanted on a
// label, in millimetres. Normal sight tells letters of five minutes of arc apart
// (H. Snellen, "Probebuchstaben zur Bestimmung der Sehschärfe", 1862), 1.45 mm at
// 1 m; more than twice that serves dim basements and older eyes.
const NameLeast = 3.5

// addFonts hands over copies: the library writes into the bytes while it cuts a
// font down to the letters used, and the next sheet would differ.
func addFonts(pdf *fpdf.Fpdf) {
	for _, f := range []string{boldFont, plainFont, codeFont} {
		pdf.AddUTF8FontFromBytes(f, "", bytes.Clone(fonts[f]))
	}
}

// How large words are, in points.
const (
	nameMost   = 40
	nameSmall  = 9 // smaller names are cut instead
	binSize    = 14
	binSmall   = 7
	codeSize   = 20
	codeSmall  = 9 // smaller codes stand in three lines
	points     = 72 / 25.4
	wordsApart = 1.2 // mm
)

// name writes a tray's name as large as its box lets it be, in one line or two;
// a blank label gets a line to write on.
func (p *page) name(box label.Box, name string) {
	if name = drawable(boldFont, name); name == "" {
		y := box.Y + box.H*7/10
		p.line(box.X, y, box.X+box.W, y, 0.2)
		return
	}
	most := mm(box.H) * points / (ascent + descent)
	lines, size := []string{name}, p.widest(boldFont, name, mm(box.W), min(most, nameMost))
	if first, second, ok := halves(name); ok {
		two := min(p.widest(boldFont, first, mm(box.W), min(most/2, nameMost)), p.widest(boldFont, second, mm(box.W), min(most/2, nameMost)))
		if two > size {
			lines, size = []string{first, second}, two
		}
	}
	if size < nameSmall {
		size = min(most, nameSmall)
		lines = []string{p.cut(boldFont, name, size, mm(box.W))}
	}
	y := mm(box.Y) + (mm(box.H)-height(size)*float64(len(lines)))/2
	for _, text := range lines {
		p.text(boldFont, text, size, mm(box.X), y)
		y += height(size)
	}
}

// halves parts a name at the space that leaves the shorter longest part.
func halves(name string) (first, second string, ok bool) {
	best := len(name)
	for i, r := range name {
		if longer := max(i, len(name)-i-1); r == ' ' && longer < best {
			first, second, ok, best = name[:i], name[i+1:], true, longer
		}
	}
	return first, second, ok
}

// words writes the bin's name and the code, in the middle of the box's height.
func (p *page) words(box label.Box, l Label) {
	width, room := mm(box.W), mm(box.H)
	code := []string{l.Code.Groups()}
	size := p.widest(codeFont, code[0], width, codeSize)
	if size < codeSmall {
		code = strings.SplitAfter(l.Code.Groups(), "-")
		size = p.widest(codeFont, code[0], width, codeSize)
	}
	size = min(size, room*points/(ascent+descent)/float64(len(code)))
	tall := height(size) * float64(len(code))
	bin := drawable(plainFont, l.Bin)
	small := max(binSmall, p.widest(plainFont, bin, width, binSize))
	if bin != "" && tall+wordsApart+height(small) > room {
		small = (room - tall - wordsApart) * points / (ascent + descent)
	}
	if small < binSmall {
		bin = "" // no room: the name and the code are what is needed
	}
	if bin != "" {
		tall += wordsApart + height(small)
	}
	y := mm(box.Y) + (room-tall)/2
	if bin != "" {
		p.text(plainFont, p.cut(plainFont, bin, small, width), small, mm(box.X), y)
		y += height(small) + wordsApart
	}
	for _, group := range code {
		p.text(codeFont, group, size, mm(box.X), y)
		y += height(size)
	}
}

// height is what a line of letters takes, mm.
func height(size float64) float64 { return size * (ascent + descent) / points }

// text writes a line whose letters begin at x and hang from y, mm.
func (p *page) text(font, text string, size, x, y float64) {
	p.pdf.SetFont(font, "", size)
	p.pdf.Text(x, y+size*ascent/points, text)
}

// width is the length of a line, mm.
func (p *page) width(font, text string, size float64) float64 {
	p.pdf.SetFont(font, "", size)
	return p.pdf.GetStringWidth(text)
}

// widest is the largest size, at most most, in which the text fits into width.
func (p *page) widest(font, text string, width, most float64) float64 {
	if text == "" {
		return most
	}
	// Half a percent is left for rounding to the font's units.
	return min(most, 0.995*width/p.width(font, text, 100)*100)
}

// cut takes letters off the end until the text fits, and says so.
func (p *page) cut(font, text string, size, width float64) string {
	if p.width(font, text, size) <= width {
		return text
	}
	letters := []rune(text)
	first := func(n int) string { return strings.TrimRight(string(letters[:n]), " ") + "…" }
	tooWide := sort.Search(len(letters), func(n int) bool { return p.width(font, first(n), size) > width })
	return first(max(1, tooWide-1))
}

// Missing lists the letters of texts that cannot be printed, each once, in the
// order they come. In their place stands a question mark.
func Missing(texts ...string) string {
	var out strings.Builder
	seen := map[rune]bool{}
	for _, text := range texts {
		for _, r := range inked(text) {
			if !seen[r] && !unicode.IsSpace(r) && !has(plainFont, r) {
				out.WriteRune(r)
			}
			seen[r] = true
		}
	}
	return out.String()
}

// drawable puts a question mark in the place of every letter that cannot be
// printed: a gap would look like a name that was never there.
func drawable(font, text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case !has(font, r):
			return '?'
		}
		return r
	}, inked(strings.TrimSpace(text)))
}

// inked composes letters with their accents and leaves out what puts no ink on
// paper: joiners, marks of direction, soft hyphens and the choice of a picture's
// style, which come along when a name is pasted.
func inked(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.In(r, unicode.Cf, unicode.Variation_Selector) {
			return -1
		}
		return r
	}, norm.NFC.String(text))
}

// has reports whether a letter can be printed: the font has it, and it stands
// for itself wherever it stands. Arabic letters join, Hebrew runs from right to
// left, and this page can do neither.
func has(font string, r rune) bool {
	const plane = 0xffff // the PDF library writes no letter beyond it
	if r > plane || unicode.In(r, unicode.Arabic, unicode.Hebrew, unicode.Nko, unicode.Lao) || !unicode.IsPrint(r) {
		return false
	}
	f := parsed[font]
	i, err := f.GlyphIndex(&sfnt.Buffer{}, r)
	return err == nil && i != 0
}

var parsed = func() map[string]*sfnt.Font {
	out := map[string]*sfnt.Font{}
	for name, b := range fonts {
		f, err := sfnt.Parse(b)
		if err != nil {
			panic("sheet: the font that is built in does not parse: " + err.Error())
		}
		out[name] = f
	}
	return out
}()
