package sheet

import (
	"fmt"
	"io"
	"strings"
	"time"

	"trayside/internal/label"
)

// How far the rulers reach to either side of an edge, µm.
const (
	reach      = 8_000
	millimetre = 1_000
	barLength  = 100_000
)

// WriteCalibration draws the page that tells how far a printer is off its mark:
// rulers that cross the edges of the first and of the last label, numbered with
// the offset to enter, and a bar to tell whether the printer scales. It is drawn
// without an offset. language is "en" or "es".
func WriteCalibration(w io.Writer, s label.Sheet, language string, made time.Time) error {
	if err := s.Check(); err != nil {
		return err
	}
	p := newPage(s.PageW, s.PageH, "Calibration page", made)
	p.pdf.AddPage()
	words := wordsIn(language)
	_, first := s.Cell(0)
	_, last := s.Cell(s.PerPage() - 1)
	p.rulers(s, first)
	if s.PerPage() == 1 {
		in := first.Inset(s.Margin)
		p.paragraph(label.Box{X: in.X + reach + 3_000, Y: in.Y + reach + 3_000, W: in.W - reach - 3_000, H: in.H - reach - 3_000}, 7, words.roll)
		return p.output(w)
	}
	p.rulers(s, last)
	left := max(s.Edge, (s.PageW-barLength-20_000)/2)
	y := s.PageH / 2
	p.line(left, y, left+barLength, y, 0.3)
	for i := range int64(11) {
		p.line(left+i*10_000, y-1_500, left+i*10_000, y+1_500, 0.2)
	}
	p.paragraph(label.Box{X: left, Y: y + 4_000, W: barLength + 20_000, H: 60_000}, 12, words.bar, words.check, words.edge)
	return p.output(w)
}

// rulers draws a cell's edges and the two rulers that cross its left and upper
// edge. Where the ruler leaves the page it is not drawn.
func (p *page) rulers(s label.Sheet, cell label.Box) {
	p.pdf.SetDrawColor(0, 0, 0)
	p.pdf.SetLineWidth(0.1)
	p.outline(cell)
	const size = 6 // pt
	at := reach + 1_000
	for d := int64(-reach); d <= reach; d += millimetre {
		long := int64(1_500)
		if d%(5*millimetre) == 0 {
			long = 3_000
		}
		if x := cell.X + d; x >= 0 && x <= s.PageW {
			y := cell.Y + int64(at)
			p.line(x, y, x, y+long, 0.15)
			if d%(2*millimetre) == 0 {
				p.digits(d, size, mm(x)-p.width(plainFont, digitsOf(d), size)/2, mm(y+3_200))
			}
		}
		if y := cell.Y + d; y >= 0 && y <= s.PageH {
			x := cell.X + int64(at)
			p.line(x, y, x+long, y, 0.15)
			if d%(2*millimetre) == 0 {
				p.digits(d, size, mm(x+3_400), mm(y)-size*ascent/points/2)
			}
		}
	}
}

// digits writes a ruler's number unless part of it would leave the page.
func (p *page) digits(um int64, size, x, y float64) {
	text := digitsOf(um)
	if x >= 0 && y >= 0 && y+height(size) <= mm(p.height) {
		p.text(plainFont, text, size, x, y)
	}
}

func digitsOf(um int64) string {
	if um < 0 {
		return fmt.Sprintf("−%d", -um/millimetre)
	}
	return fmt.Sprint(um / millimetre)
}

// paragraph writes sentences one below the other, smaller until they fit.
func (p *page) paragraph(box label.Box, size float64, sentences ...string) {
	for ; size > 4; size -= 0.5 {
		var lines []string
		for _, s := range sentences {
			lines = append(lines, p.wrap(s, size, mm(box.W))...)
		}
		if height(size)*float64(len(lines)) > mm(box.H) && size > 4.5 {
			continue
		}
		y := mm(box.Y)
		for _, text := range lines {
			p.text(plainFont, text, size, mm(box.X), y)
			y += height(size)
		}
		return
	}
}

// wrap parts a sentence into lines.
func (p *page) wrap(sentence string, size, width float64) []string {
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(sentence) {
		longer := word
		if line != "" {
			longer = line + " " + word
		}
		if line != "" && p.width(plainFont, longer, size) > width {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	return append(lines, line)
}
