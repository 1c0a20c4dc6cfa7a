package label

import "fmt"

// Sheet is the geometry of one sheet of labels: a grid of equal cells on a page.
// Lengths are in micrometres, so that a pitch of 66.675 mm is exact. Every number
// is meant to be edited: sheets that share a cell count differ by millimetres,
// and printers start off their mark.
type Sheet struct {
	Name           string
	PageW, PageH   int64
	Columns, Rows  int
	Left, Top      int64 // corner of the first cell
	PitchX, PitchY int64 // from cell to cell
	CellW, CellH   int64
	Margin         int64 // kept free of ink inside a cell
	SquareMax      int64 // widest square for the QR code, quiet zone included, so that the words keep their room
}

// The presets. Their dimensions are common practice for such sheets, taken
// symmetric on the page; none is one maker's.
var (
	A4x21 = Sheet{
		Name: "a4-3x7", PageW: 210_000, PageH: 297_000, Columns: 3, Rows: 7,
		Left: 7_250, Top: 15_150, PitchX: 66_000, PitchY: 38_100,
		CellW: 63_500, CellH: 38_100, Margin: 2_000, SquareMax: 30_000,
	}
	Letter10 = Sheet{
		Name: "letter-2x5", PageW: 215_900, PageH: 279_400, Columns: 2, Rows: 5,
		Left: 3_970, Top: 12_700, PitchX: 106_360, PitchY: 50_800,
		CellW: 101_600, CellH: 50_800, Margin: 3_000, SquareMax: 44_000,
	}
)

// Presets returns the sheets that can be named, the default first.
func Presets() []Sheet { return []Sheet{A4x21, Letter10} }

// Quiet is the blank border a QR code needs on all sides, in modules
// (ISO/IEC 18004). It lies inside the cell: a label on a dark tray has a dark
// neighbour.
const Quiet = 4

// ModuleMin is the smallest module worth printing, in micrometres: common
// practice puts hand-held scanning at 0.4 mm and more; half a millimetre leaves
// room for wet paper.
const ModuleMin = 500

// Box is a rectangle on a page, in micrometres from its top left corner.
type Box struct{ X, Y, W, H int64 }

// Inset returns b made smaller by d on every side.
func (b Box) Inset(d int64) Box { return Box{b.X + d, b.Y + d, b.W - 2*d, b.H - 2*d} }

// Holds reports whether o lies in b.
func (b Box) Holds(o Box) bool {
	return o.X >= b.X && o.Y >= b.Y && o.X+o.W <= b.X+b.W && o.Y+o.H <= b.Y+b.H
}

// Check returns what makes the sheet impossible to print, or nil.
func (s Sheet) Check() error {
	switch {
	case s.Columns < 1 || s.Rows < 1:
		return fmt.Errorf("label: sheet %q has %d by %d labels; it needs at least one", s.Name, s.Columns, s.Rows)
	case s.CellW <= 2*s.Margin || s.CellH <= 2*s.Margin || s.Margin < 0:
		return fmt.Errorf("label: sheet %q has labels that are all margin; make the margin smaller", s.Name)
	case s.Columns > 1 && s.PitchX < s.CellW, s.Rows > 1 && s.PitchY < s.CellH:
		return fmt.Errorf("label: sheet %q has labels that lie on each other; the step must not be less than the label", s.Name)
	}
	page := Box{W: s.PageW, H: s.PageH}
	if _, last := s.Cell(s.PerPage() - 1); s.Left < 0 || s.Top < 0 || !page.Holds(last) {
		return fmt.Errorf("label: sheet %q runs off its page of %d by %d mm; check the first corner and the steps", s.Name, s.PageW/1000, s.PageH/1000)
	}
	return nil
}

// PerPage returns how many labels a page holds.
func (s Sheet) PerPage() int { return s.Columns * s.Rows }

// Cell returns the page (from 0) and the place of label n (from 0), row by row
// and on to the next page.
func (s Sheet) Cell(n int) (page int, cell Box) {
	at := n % s.PerPage()
	return n / s.PerPage(), Box{
		X: s.Left + int64(at%s.Columns)*s.PitchX,
		Y: s.Top + int64(at/s.Columns)*s.PitchY,
		W: s.CellW, H: s.CellH,
	}
}

// Module returns the module of a QR code with so many modules a side, quiet zone
// left free, in whole hundredths of a millimetre.
func (s Sheet) Module(modules int) int64 {
	side := min(s.SquareMax, s.CellW-2*s.Margin, s.CellH-2*s.Margin)
	return side / int64(modules+2*Quiet) / 10 * 10
}
