package label

import "fmt"

// Sheet is the geometry of one sheet of labels, a grid of equal cells on a page,
// or of a roll, whose page is one label. Lengths are in micrometres, so that a
// pitch of 66.675 mm is exact. Every number is meant to be edited: sheets that
// share a cell count differ by millimetres. Check says whether it can be printed.
type Sheet struct {
	Name    string `json:"name"`
	PageW   int64  `json:"pageW"`
	PageH   int64  `json:"pageH"`
	Columns int    `json:"columns"`
	Rows    int    `json:"rows"`
	Left    int64  `json:"left"` // corner of the first cell
	Top     int64  `json:"top"`
	PitchX  int64  `json:"pitchX"` // from cell to cell
	PitchY  int64  `json:"pitchY"`
	CellW   int64  `json:"cellW"`
	CellH   int64  `json:"cellH"`
	Margin  int64  `json:"margin"`        // kept free of ink inside a cell
	Edge    int64  `json:"edge"`          // kept free of ink inside the page; printers do not reach it
	DPI     int64  `json:"dpi,omitempty"` // dots per inch of a thermal printer, whose modules are whole dots; 0: any
	Cut     bool   `json:"cut,omitempty"` // plain paper: lines to cut along
}

// Bounds of what is worth printing, micrometres; our choice, wide enough for
// every preset.
const (
	pageMost   = 2_000_000
	cellsMost  = 400
	offsetMost = 10_000
	dpiLeast   = 100
	dpiMost    = 1200
)

// sheetEdge is what desktop printers commonly leave blank, common practice 5 mm.
const sheetEdge = 5_000

// roll makes a roll's geometry: w by h is the label, which is the page, and the
// printer has the 203 dots an inch that are common for label printers.
func roll(name string, w, h, margin int64) Sheet {
	return Sheet{
		Name: name, PageW: w, PageH: h, Columns: 1, Rows: 1,
		PitchX: w, PitchY: h, CellW: w, CellH: h, Margin: margin, DPI: 203,
	}
}

// grid makes a sheet's geometry with a margin of 2 mm.
func grid(name string, page [2]int64, columns, rows int, first, pitch, cell [2]int64) Sheet {
	return Sheet{
		Name: name, PageW: page[0], PageH: page[1], Columns: columns, Rows: rows,
		Left: first[0], Top: first[1], PitchX: pitch[0], PitchY: pitch[1], CellW: cell[0], CellH: cell[1],
		Margin: 2_000, Edge: sheetEdge,
	}
}

var (
	a4     = [2]int64{210_000, 297_000} // ISO 216
	letter = [2]int64{215_900, 279_400} // ANSI/ASME Y14.1, size A
)

// Presets returns the sheets and rolls that can be named, the default first.
// Their dimensions are common practice for such sheets, taken symmetric on the
// page; none is one maker's.
func Presets() []Sheet {
	cut := grid("a4-cut", a4, 2, 6, [2]int64{10_000, 13_500}, [2]int64{95_000, 45_000}, [2]int64{95_000, 45_000})
	cut.Cut = true
	letterCut := grid("letter-cut", letter, 2, 6, [2]int64{12_950, 13_700}, [2]int64{95_000, 42_000}, [2]int64{95_000, 42_000})
	letterCut.Cut = true
	return []Sheet{
		A4x21(), cut,
		grid("a4-3x8", a4, 3, 8, [2]int64{0, 500}, [2]int64{70_000, 37_000}, [2]int64{70_000, 37_000}),
		grid("a4-3x7-gapless", a4, 3, 7, [2]int64{0, 450}, [2]int64{70_000, 42_300}, [2]int64{70_000, 42_300}),
		grid("a4-2x7", a4, 2, 7, [2]int64{4_650, 15_150}, [2]int64{101_600, 38_100}, [2]int64{99_100, 38_100}),
		grid("letter-2x5", letter, 2, 5, [2]int64{3_970, 12_700}, [2]int64{106_360, 50_800}, [2]int64{101_600, 50_800}),
		grid("letter-3x10", letter, 3, 10, [2]int64{4_762, 12_700}, [2]int64{69_850, 25_400}, [2]int64{66_675, 25_400}),
		letterCut,
		roll("roll-57x32", 57_000, 32_000, 2_000),
		roll("roll-62", 62_000, 40_000, 2_000), // continuous: 62 mm wide, cut after 40
		roll("roll-100x62", 100_000, 62_000, 3_000),
		roll("roll-54x25", 54_000, 25_000, 2_000),
		roll("roll-51x25", 50_800, 25_400, 2_000), // 2 by 1 inch
		roll("roll-50x30", 50_000, 30_000, 2_000),
		roll("roll-40x30", 40_000, 30_000, 1_500),
	}
}

// A4x21 is the default: 3 by 7 labels with rounded corners.
func A4x21() Sheet {
	return grid("a4-3x7", a4, 3, 7, [2]int64{7_250, 15_150}, [2]int64{66_000, 38_100}, [2]int64{63_500, 38_100})
}

// Named returns the preset of that name.
func Named(name string) (Sheet, bool) {
	for _, s := range Presets() {
		if s.Name == name {
			return s, true
		}
	}
	return Sheet{}, false
}

// Box is a rectangle on a page, in micrometres from its top left corner.
type Box struct{ X, Y, W, H int64 }

// Inset returns b made smaller by d on every side.
func (b Box) Inset(d int64) Box { return Box{b.X + d, b.Y + d, b.W - 2*d, b.H - 2*d} }

// Shift returns b moved.
func (b Box) Shift(x, y int64) Box { return Box{b.X + x, b.Y + y, b.W, b.H} }

// Holds reports whether o lies in b.
func (b Box) Holds(o Box) bool {
	return o.X >= b.X && o.Y >= b.Y && o.X+o.W <= b.X+b.W && o.Y+o.H <= b.Y+b.H
}

// Meets reports whether b and o share any area.
func (b Box) Meets(o Box) bool {
	return b.X < o.X+o.W && o.X < b.X+b.W && b.Y < o.Y+o.H && o.Y < b.Y+b.H
}

// within returns what of b lies in o.
func (b Box) within(o Box) Box {
	x, y := max(b.X, o.X), max(b.Y, o.Y)
	return Box{x, y, min(b.X+b.W, o.X+o.W) - x, min(b.Y+b.H, o.Y+o.H) - y}
}

// Check returns what makes the sheet impossible to print, or nil.
func (s Sheet) Check() error {
	bad := func(format string, args ...any) error {
		return fmt.Errorf("label: sheet %q "+format, append([]any{s.Name}, args...)...)
	}
	switch {
	case s.Columns < 1 || s.Rows < 1:
		return bad("has %d by %d labels; it needs at least one", s.Columns, s.Rows)
	case s.Columns > cellsMost || s.Rows > cellsMost || s.Columns*s.Rows > cellsMost:
		return bad("has %d by %d labels; a page holds at most %d", s.Columns, s.Rows, cellsMost)
	case s.DPI != 0 && (s.DPI < dpiLeast || s.DPI > dpiMost):
		return bad("has %d dots an inch; give %d to %d, or none", s.DPI, dpiLeast, dpiMost)
	}
	for _, v := range []int64{s.PageW, s.PageH, s.Left, s.Top, s.PitchX, s.PitchY, s.CellW, s.CellH, s.Margin, s.Edge} {
		if v < -pageMost || v > pageMost {
			return bad("has a length of %d mm; nothing on it can be longer than %d", v/1000, pageMost/1000)
		}
	}
	switch {
	case s.Margin < 0 || s.Edge < 0 || s.CellW <= 2*s.Margin || s.CellH <= 2*s.Margin:
		return bad("has labels that are all margin; make the margin smaller")
	case s.Columns > 1 && s.PitchX < s.CellW, s.Rows > 1 && s.PitchY < s.CellH:
		return bad("has labels that lie on each other; the step must not be less than the label")
	}
	page := Box{W: s.PageW, H: s.PageH}
	_, first := s.Cell(0)
	_, last := s.Cell(s.PerPage() - 1)
	if !page.Holds(first) || !page.Holds(last) {
		return bad("runs off its page of %d by %d mm; check the first corner and the steps", s.PageW/1000, s.PageH/1000)
	}
	for _, cell := range []Box{first, last} {
		if _, ok := s.Face(cell, modulesLeast); !ok {
			return bad("has labels of %d by %d mm, too small for a square that a phone can read and the code beside it; take larger labels or a smaller margin",
				s.CellW/1000, s.CellH/1000)
		}
	}
	return nil
}

// modulesLeast is the side of the least square an address of ours needs: version 2.
const modulesLeast = 25

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

// Run is one printing on sheets: the first free cell of a started sheet, and how
// far the printer is off its mark, as its calibration page tells.
type Run struct {
	Start            int   // cells of the first page that are used already
	OffsetX, OffsetY int64 // micrometres to the right and down
}

// Check returns why the run does not fit the sheet, or nil.
func (r Run) Check(s Sheet) error {
	if r.Start < 0 || r.Start >= s.PerPage() {
		return fmt.Errorf("label: sheet %q has cells 1 to %d; there is no cell %d to start at", s.Name, s.PerPage(), r.Start+1)
	}
	if max(r.OffsetX, -r.OffsetX, r.OffsetY, -r.OffsetY) > offsetMost {
		return fmt.Errorf("label: an offset is at most %d mm either way; look at the calibration page again", offsetMost/1000)
	}
	page := Box{W: s.PageW, H: s.PageH}
	for _, n := range []int{0, s.PerPage() - 1} {
		if _, cell := s.Cell(n); !page.Holds(s.inked(cell).Shift(r.OffsetX, r.OffsetY)) {
			return fmt.Errorf("label: with this offset, labels run off the page of sheet %q; make the offset smaller or the margin larger", s.Name)
		}
	}
	return nil
}
