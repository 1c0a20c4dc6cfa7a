// Package sheet draws the PDF of tray labels: for each tray the square code that
// a camera opens, the tray's and the bin's names, and the code in letters for the
// day the square is too wet to read.
//
// Write is the way in. Codes, addresses and geometry come from internal/label.
package sheet

import (
	"fmt"
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"github.com/skip2/go-qrcode"

	"trayside/internal/label"
)

// Label is what stands on one label.
type Label struct {
	Code label.Code
	Tray string // the tray's name
	Bin  string // the bin's name
}

// Write draws labels in order onto sheets of the given geometry and writes the
// PDF. base is where phones open the household; made is the date the file says
// it is of. The same arguments give the same bytes.
func Write(w io.Writer, s label.Sheet, base label.Base, made time.Time, labels []Label) error {
	if err := s.Check(); err != nil {
		return err
	}
	if len(labels) == 0 {
		return fmt.Errorf("sheet: no tray has a label; add a tray first")
	}
	p := newPage(s, made)
	for n, l := range labels {
		at, cell := s.Cell(n)
		for p.pdf.PageNo() <= at {
			p.pdf.AddPage()
		}
		if err := p.draw(cell, base.Address(l.Code), l); err != nil {
			return fmt.Errorf("sheet: label %s of %q: %w", l.Code.Groups(), l.Tray, err)
		}
	}
	if err := p.pdf.Output(w); err != nil {
		return fmt.Errorf("sheet: write PDF: %w", err)
	}
	return nil
}

// page draws in micrometres on a PDF whose unit is the millimetre.
type page struct {
	pdf   *fpdf.Fpdf
	sheet label.Sheet
}

func newPage(s label.Sheet, made time.Time) *page {
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: mm(s.PageW), Ht: mm(s.PageH)}})
	pdf.SetMargins(0, 0, 0)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(made)
	pdf.SetModificationDate(made)
	pdf.SetProducer("Trayside", false)
	pdf.SetTitle("Tray labels", false)
	addFonts(pdf)
	return &page{pdf, s}
}

// draw fills one cell: the square at the left, the words right of it.
func (p *page) draw(cell label.Box, address string, l Label) error {
	modules, err := square(p.sheet, address)
	if err != nil {
		return err
	}
	inner := cell.Inset(p.sheet.Margin)
	module := p.sheet.Module(len(modules))
	side := module * int64(len(modules)+2*label.Quiet)
	p.square(label.Box{X: inner.X, Y: inner.Y + (inner.H-side)/2, W: side, H: side}, module, modules)
	p.words(label.Box{X: inner.X + side, Y: inner.Y, W: inner.W - side, H: inner.H}, l)
	return nil
}

// square encodes address with the most error correction whose modules are still
// large enough for a wet label. The library calls level H "Highest" and level Q
// "High".
func square(s label.Sheet, address string) ([][]bool, error) {
	for _, level := range []qrcode.RecoveryLevel{qrcode.Highest, qrcode.High} {
		q, err := qrcode.New(address, level)
		if err != nil {
			continue // too long for this level at any size
		}
		q.DisableBorder = true
		if m := q.Bitmap(); s.Module(len(m)) >= label.ModuleMin {
			return m, nil
		}
	}
	return nil, fmt.Errorf("the address %s is too long for a square that a phone can read at this size; use a shorter host name or larger labels", address)
}

// square draws the dark modules as one path, runs within a row merged: single
// rectangles would show hairlines between them on many screens and printers.
func (p *page) square(box label.Box, module int64, modules [][]bool) {
	left, top := box.X+label.Quiet*module, box.Y+label.Quiet*module
	p.pdf.SetFillColor(0, 0, 0)
	for y, row := range modules {
		for x := 0; x < len(row); {
			end := x
			for end < len(row) && row[end] {
				end++
			}
			if end > x {
				p.rectangle(label.Box{
					X: left + int64(x)*module, Y: top + int64(y)*module,
					W: int64(end-x) * module, H: module,
				})
			}
			x = max(end, x+1)
		}
	}
	p.pdf.RawWriteStr("f\n")
}

// rectangle adds a rectangle to the current path (PDF 32000-1, 8.5.2: "re").
func (p *page) rectangle(b label.Box) {
	p.pdf.RawWriteStr(fmt.Sprintf("%.3f %.3f %.3f %.3f re\n", pt(b.X), pt(p.sheet.PageH-b.Y-b.H), pt(b.W), pt(b.H)))
}

func mm(um int64) float64 { return float64(um) / 1000 }

func pt(um int64) float64 { return float64(um) / 25400 * 72 }
