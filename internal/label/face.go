package label

// Quiet is the blank border a QR code needs on all sides, in modules
// (ISO/IEC 18004). It lies inside the cell: a label on a dark tray has a dark
// neighbour.
const Quiet = 4

// ModuleMin is the smallest module worth printing, in micrometres: common
// practice puts hand-held scanning at 0.4 mm and more; half a millimetre leaves
// room for wet paper.
const ModuleMin = 500

// wordsLeast is the narrowest column that takes the code in three lines of
// three symbols, in micrometres.
const wordsLeast = 12_000

// How high the line of the name is over a square: a fifth of the label, but no
// more than is plenty at a metre, and less where the square needs the room;
// micrometres. With three tenths, cameras read a blurred square or one 30 to 40 cm
// off much less often (go run ./cmd/dev bench scan).
const (
	nameLeast = 6_000
	nameMost  = 15_000
)

// Face is how one label is laid out. The boxes lie in the label's inked part and
// do not meet.
type Face struct {
	Name   Box // the tray's name, as large as it gets
	Words  Box // the bin's name and the code
	Square Square
}

// Square is where a QR code goes. On a thermal printer its corner and its
// modules are whole dots, which are no whole micrometres, so these are
// nanometres.
type Square struct {
	X, Y   int64 // nm, corner of the quiet zone
	Module int64 // nm
	Side   int   // modules a side, quiet zone included
}

// Box returns the least box that holds the square, quiet zone included.
func (q Square) Box() Box {
	x, y := q.X/1000, q.Y/1000
	return Box{x, y, up(q.X+q.Module*int64(q.Side), 1000)/1000 - x, up(q.Y+q.Module*int64(q.Side), 1000)/1000 - y}
}

// up rounds v up to a multiple of step.
func up(v, step int64) int64 { return (v + step - 1) / step * step }

// inked returns the part of a cell that may carry ink.
func (s Sheet) inked(cell Box) Box {
	return cell.Inset(s.Margin).within(Box{W: s.PageW, H: s.PageH}.Inset(s.Edge))
}

// Face lays out a label in a cell, for a QR code of so many modules a side. It
// reports false where the cell is too small for a square that a phone reads.
//
// Labels 1.7 times as wide as high, which are most, have the square at the left
// and everything else beside it, so that it is as large as it gets. Others have
// the name over the whole width, the square below it at the left; narrow ones
// have one below the other.
func (s Sheet) Face(cell Box, modules int) (Face, bool) {
	in := s.inked(cell)
	line := func(h int64) (line, below Box) { return Box{in.X, in.Y, in.W, h}, Box{in.X, in.Y + h, in.W, in.H - h} }
	over := func(h int64) (Face, bool) {
		name, below := line(h)
		return s.split(below, below.W-wordsLeast, modules, func(right Box) (Box, Box) { return name, right })
	}
	beside := func() (Face, bool) {
		return s.split(in, min(in.W*55/100, in.W-wordsLeast), modules, func(right Box) (Box, Box) {
			return Box{right.X, right.Y, right.W, right.H / 2}, Box{right.X, right.Y + right.H/2, right.W, right.H - right.H/2}
		})
	}
	high := func() (Face, bool) { return over(min(max(in.H/5, nameLeast), nameMost)) }
	low := func() (Face, bool) { return over(nameLeast) }
	stacked := func() (Face, bool) {
		name, below := line(nameLeast)
		q, ok := s.square(Box{below.X, below.Y, below.W, below.H - nameLeast}, below.W, modules)
		at := q.Box()
		return Face{Name: name, Square: q, Words: Box{in.X, at.Y + at.H, in.W, in.Y + in.H - at.Y - at.H}}, ok
	}
	layouts := []func() (Face, bool){high, low, beside, stacked}
	if in.W*10 >= in.H*17 {
		layouts = []func() (Face, bool){beside, high, low, stacked}
	}
	for _, lay := range layouts {
		if f, ok := lay(); ok {
			return f, true
		}
	}
	return Face{}, false
}

// split puts a square of at most so many micrometres at the left of a box and
// lets rest part what remains.
func (s Sheet) split(b Box, most int64, modules int, rest func(right Box) (name, words Box)) (Face, bool) {
	q, ok := s.square(b, most, modules)
	if !ok {
		return Face{}, false
	}
	at := q.Box()
	right := Box{at.X + at.W, b.Y, b.X + b.W - at.X - at.W, b.H}
	f := Face{Square: q}
	f.Name, f.Words = rest(right)
	return f, true
}

// square puts the largest square of at most so many micrometres into a box, at
// its left and in the middle of its height.
func (s Sheet) square(b Box, most int64, modules int) (Square, bool) {
	side := int64(modules + 2*Quiet)
	step := int64(10_000) // nm; modules are whole hundredths of a millimetre
	left, top := b.X*1000, b.Y*1000
	if s.DPI > 0 {
		left, top = s.dotUp(left), s.dotUp(top)
	}
	room := min(most*1000, (b.X+b.W)*1000-left, (b.Y+b.H)*1000-top)
	q := Square{X: left, Y: top, Side: int(side)}
	slack := func() int64 { return ((b.Y+b.H)*1000 - top - q.Module*side) / 2 }
	if s.DPI > 0 {
		dots := room * s.DPI / inch / side
		q.Module = dots * inch / s.DPI
		q.Y = s.dot(top + slack())
	} else {
		q.Module = room / side / step * step
		q.Y = top + slack()/1000*1000
	}
	return q, room > 0 && q.Module >= ModuleMin*1000
}

// inch is an inch in nanometres.
const inch = 25_400_000

// dot returns the last edge of a printer's dot at or before v, nm; dotUp the
// first one at or after it.
func (s Sheet) dot(v int64) int64 { return v * s.DPI / inch * inch / s.DPI }

func (s Sheet) dotUp(v int64) int64 {
	if d := s.dot(v); d == v {
		return v
	}
	return s.dot(v + inch/s.DPI)
}
