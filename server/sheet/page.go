package sheet

import (
	"fmt"
	"io"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"trayside/internal/label"
)

// page draws on a PDF whose unit is the millimetre; boxes come in micrometres.
type page struct {
	pdf    *fpdf.Fpdf
	height int64 // µm
}

func newPage(w, h int64, title string, made time.Time) *page {
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: mm(w), Ht: mm(h)}})
	pdf.SetMargins(0, 0, 0)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(made)
	pdf.SetModificationDate(made)
	pdf.SetProducer("Trayside", false)
	pdf.SetTitle(title, true)
	pdf.SetCellMargin(0)
	pdf.SetTextColor(0, 0, 0)
	addFonts(pdf)
	return &page{pdf, h}
}

func (p *page) output(w io.Writer) error {
	if err := p.pdf.Output(w); err != nil {
		return fmt.Errorf("sheet: write PDF: %w", err)
	}
	return nil
}

// square draws the dark modules as one path, runs within a row merged: single
// rectangles would show hairlines between them on many screens and printers.
func (p *page) square(at label.Square, modules [][]bool) {
	left, top := at.X+label.Quiet*at.Module, at.Y+label.Quiet*at.Module
	p.pdf.SetFillColor(0, 0, 0)
	var path strings.Builder
	for y, row := range modules {
		for x := 0; x < len(row); {
			end := x
			for end < len(row) && row[end] {
				end++
			}
			if end > x {
				// PDF 32000-1, 8.5.2: "re" adds a rectangle to the path.
				fmt.Fprintf(&path, "%.4f %.4f %.4f %.4f re\n",
					pt(left+int64(x)*at.Module), pt(p.height*1000-top-int64(y+1)*at.Module),
					pt(int64(end-x)*at.Module), pt(at.Module))
			}
			x = max(end, x+1)
		}
	}
	p.pdf.RawWriteStr(path.String() + "f\n")
}

func (p *page) outline(b label.Box) { p.pdf.Rect(mm(b.X), mm(b.Y), mm(b.W), mm(b.H), "D") }

// line draws a line from one place to another, µm, of so many millimetres' width.
func (p *page) line(x1, y1, x2, y2 int64, width float64) {
	p.pdf.SetDrawColor(0, 0, 0)
	p.pdf.SetLineWidth(width)
	p.pdf.Line(mm(x1), mm(y1), mm(x2), mm(y2))
}

func mm(um int64) float64 { return float64(um) / 1000 }

// pt is nanometres in points.
func pt(nm int64) float64 { return float64(nm) / 25.4e6 * 72 }
