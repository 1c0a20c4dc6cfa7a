// Package sheet draws what is printed for the bin: labels for trays, each with
// the square that a camera opens, the tray's and the bin's names and the code in
// letters for the day the square is too wet to read; the page that tells how far
// a printer is off its mark; and the paper card for people without a phone.
//
// Write, WriteCalibration and WriteCards are the ways in; Missing says which
// letters of a name no font here has. Codes, addresses and geometry come from
// internal/label. The same arguments give the same bytes.
package sheet

import (
	"fmt"
	"io"
	"time"

	"github.com/skip2/go-qrcode"

	"trayside/internal/label"
)

// Label is what stands on one label. A blank one has no names: it has room to
// write one, and is put on a tray by its first scan.
type Label struct {
	Code label.Code
	Tray string // the tray's name
	Bin  string // the bin's name
}

// Job is one printing of labels.
type Job struct {
	Sheet  label.Sheet
	Run    label.Run
	Base   label.Base // where phones open the household
	Made   time.Time  // the date the file says it is of
	Labels []Label    // in the order they are cut off
}

// Most is how many labels one file holds: more is a slip of a key.
const Most = 500

// Write draws the labels and writes the PDF.
func Write(w io.Writer, j Job) error {
	if err := j.Sheet.Check(); err != nil {
		return err
	}
	if err := j.Run.Check(j.Sheet); err != nil {
		return err
	}
	switch {
	case len(j.Labels) == 0:
		return fmt.Errorf("sheet: there is nothing to print: no tray has a label, and no blank ones were asked for")
	case len(j.Labels) > Most:
		return fmt.Errorf("sheet: %d labels in one file are more than the %d it holds; print them in parts", len(j.Labels), Most)
	}
	p := newPage(j.Sheet.PageW, j.Sheet.PageH, "Tray labels", j.Made)
	for n, l := range j.Labels {
		at, cell := j.Sheet.Cell(j.Run.Start + n)
		for p.pdf.PageNo() <= at {
			p.pdf.AddPage()
			p.cuts(j)
		}
		if err := p.label(j, cell, l); err != nil {
			return fmt.Errorf("sheet: label %s of %q: %w", l.Code.Groups(), l.Tray, err)
		}
	}
	return p.output(w)
}

// cuts draws the lines that labels on plain paper are cut along.
func (p *page) cuts(j Job) {
	if !j.Sheet.Cut {
		return
	}
	p.pdf.SetDrawColor(120, 120, 120)
	p.pdf.SetLineWidth(0.1)
	for n := range j.Sheet.PerPage() {
		_, cell := j.Sheet.Cell(n)
		p.outline(cell.Shift(j.Run.OffsetX, j.Run.OffsetY))
	}
}

// label fills one cell.
func (p *page) label(j Job, cell label.Box, l Label) error {
	modules, face, err := encode(j.Sheet, cell, j.Base.Address(l.Code))
	if err != nil {
		return err
	}
	x, y := j.Run.OffsetX, j.Run.OffsetY
	if d := j.Sheet.DPI; d > 0 { // whole dots, so that modules stay so
		x, y = x*d/25_400*25_400/d, y*d/25_400*25_400/d
	}
	face.Square.X, face.Square.Y = face.Square.X+x*1000, face.Square.Y+y*1000
	p.square(face.Square, modules)
	p.name(face.Name.Shift(x, y), l.Tray)
	p.words(face.Words.Shift(x, y), l)
	return nil
}

// encode makes the square with the most error correction whose modules are still
// large enough for a wet label. The library calls level H "Highest" and level Q
// "High".
func encode(s label.Sheet, cell label.Box, address string) ([][]bool, label.Face, error) {
	for _, level := range []qrcode.RecoveryLevel{qrcode.Highest, qrcode.High} {
		q, err := qrcode.New(address, level)
		if err != nil {
			continue // too long for this level at any size
		}
		q.DisableBorder = true
		m := q.Bitmap()
		if face, ok := s.Face(cell, len(m)); ok {
			return m, face, nil
		}
	}
	return nil, label.Face{}, fmt.Errorf("the address %s is too long for a square that a phone can read at this size; use a shorter host name or larger labels", address)
}
