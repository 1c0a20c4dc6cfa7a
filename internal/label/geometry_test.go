package label_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/label"
)

// modulesMost is the side of a version 4 square: more than an address of usual
// length needs at the highest level.
const modulesMost = 33

func TestPresetsFitTheirPage(t *testing.T) {
	names := map[string]bool{}
	for _, s := range label.Presets() {
		t.Run(s.Name, func(t *testing.T) {
			if err := s.Check(); err != nil {
				t.Fatal(err)
			}
			if names[s.Name] {
				t.Errorf("two presets are called %s", s.Name)
			}
			names[s.Name] = true
			_, last := s.Cell(s.PerPage() - 1)
			right, bottom := s.PageW-last.X-last.W, s.PageH-last.Y-last.H
			// A printer that turns the page must not shift the labels.
			if abs(right-s.Left) > 10 || abs(bottom-s.Top) > 10 {
				t.Errorf("remainders right %d and bottom %d µm, want left %d and top %d within 10", right, bottom, s.Left, s.Top)
			}
			for n := range s.PerPage() {
				_, cell := s.Cell(n)
				if _, ok := s.Face(cell, modulesMost); !ok {
					t.Errorf("cell %d takes no square of %d modules", n, modulesMost)
				}
			}
			if named, ok := label.Named(s.Name); !ok || named != s {
				t.Errorf("Named gave %+v", named)
			}
		})
	}
}

func TestCellsFillRowByRowAndRollOver(t *testing.T) {
	s := label.A4x21()
	for _, tt := range []struct {
		n, page int
		x, y    int64
	}{
		{0, 0, 7_250, 15_150},
		{1, 0, 73_250, 15_150},
		{3, 0, 7_250, 53_250},
		{20, 0, 139_250, 243_750},
		{21, 1, 7_250, 15_150},
	} {
		page, cell := s.Cell(tt.n)
		if page != tt.page || cell.X != tt.x || cell.Y != tt.y {
			t.Errorf("cell %d is on page %d at %d, %d; want page %d at %d, %d", tt.n, page, cell.X, cell.Y, tt.page, tt.x, tt.y)
		}
	}
}

func TestCheckNamesWhatIsWrong(t *testing.T) {
	for _, tt := range []struct {
		name string
		edit func(*label.Sheet)
		want string
	}{
		{"no columns", func(s *label.Sheet) { s.Columns = 0 }, "at least one"},
		{"a million rows", func(s *label.Sheet) { s.Rows = 1e6 }, "at most 400"},
		{"a page of a kilometre", func(s *label.Sheet) { s.PageW = 1e9 }, "longer than"},
		{"wider than the page", func(s *label.Sheet) { s.Columns = 4 }, "runs off"},
		{"starts left of the page", func(s *label.Sheet) { s.Left = -1 }, "runs off"},
		{"labels on each other", func(s *label.Sheet) { s.PitchX = 60_000 }, "on each other"},
		{"all margin", func(s *label.Sheet) { s.Margin = 20_000 }, "all margin"},
		{"labels as small as a stamp", func(s *label.Sheet) { s.CellW, s.CellH = 20_000, 20_000 }, "too small"},
		{"ten dots an inch", func(s *label.Sheet) { s.DPI = 10 }, "dots an inch"},
	} {
		s := label.A4x21()
		tt.edit(&s)
		if err := s.Check(); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: Check = %v, want an error with %q", tt.name, err, tt.want)
		}
	}
}

func TestARunNamesWhatIsWrong(t *testing.T) {
	roll, _ := label.Named("roll-40x30")
	for _, tt := range []struct {
		name  string
		sheet label.Sheet
		run   label.Run
		want  string
	}{
		{"as it is", label.A4x21(), label.Run{}, ""},
		{"the last cell, 3 mm off", label.A4x21(), label.Run{Start: 20, OffsetX: -3000, OffsetY: 3000}, ""},
		{"a cell that is not there", label.A4x21(), label.Run{Start: 21}, "there is no cell 22"},
		{"before the first cell", label.A4x21(), label.Run{Start: -1}, "there is no cell 0"},
		{"more off than any printer", label.A4x21(), label.Run{OffsetX: 11_000}, "at most 10 mm"},
		{"off the label of a roll", roll, label.Run{OffsetY: -2_000}, "run off the page"},
	} {
		err := tt.run.Check(tt.sheet)
		if (tt.want == "") != (err == nil) || err != nil && !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: Check = %v, want %q", tt.name, err, tt.want)
		}
	}
}

// sheets draws geometries as people may type them.
func sheets(t *rapid.T) label.Sheet {
	mm := func(least, most int64, what string) int64 {
		return rapid.Int64Range(least*100, most*100).Draw(t, what) * 10
	}
	s := label.Sheet{
		Name:    "typed",
		Columns: rapid.IntRange(1, 5).Draw(t, "columns"), Rows: rapid.IntRange(1, 12).Draw(t, "rows"),
		CellW: mm(20, 140, "label width"), CellH: mm(15, 110, "label height"),
		Left: mm(0, 20, "left"), Top: mm(0, 20, "top"),
		Margin: mm(0, 5, "margin"), Edge: mm(0, 8, "edge"),
		DPI: rapid.SampledFrom([]int64{0, 203, 300, 600}).Draw(t, "dpi"),
	}
	s.PitchX, s.PitchY = s.CellW+mm(0, 6, "gap across"), s.CellH+mm(0, 6, "gap down")
	s.PageW = s.Left + int64(s.Columns)*s.PitchX + mm(0, 20, "right")
	s.PageH = s.Top + int64(s.Rows)*s.PitchY + mm(0, 20, "bottom")
	return s
}

func TestEveryFaceLiesInItsLabelAndOnThePage(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		s := sheets(t)
		if s.Check() != nil {
			return
		}
		modules := rapid.SampledFrom([]int{25, 29, 33, 37, 41}).Draw(t, "modules")
		page := label.Box{W: s.PageW, H: s.PageH}
		for n := range s.PerPage() {
			_, cell := s.Cell(n)
			f, ok := s.Face(cell, modules)
			if !ok {
				continue
			}
			drawn++
			ink := cell.Inset(s.Margin)
			square := f.Square.Box()
			for what, box := range map[string]label.Box{"name": f.Name, "words": f.Words, "square": square} {
				if box.W <= 0 || box.H <= 0 || !ink.Holds(box) || !page.Inset(s.Edge).Holds(box) {
					t.Fatalf("cell %d: the %s at %+v leaves the label's ink %+v or the page", n, what, box, ink)
				}
			}
			if f.Name.Meets(f.Words) || f.Name.Meets(square) || f.Words.Meets(square) {
				t.Fatalf("cell %d: parts lie on each other: %+v", n, f)
			}
			if f.Square.Module < label.ModuleMin*1000 || f.Square.Side != modules+2*label.Quiet {
				t.Fatalf("cell %d: module %d nm, %d a side", n, f.Square.Module, f.Square.Side)
			}
			if s.DPI > 0 {
				for what, v := range map[string]int64{"left": f.Square.X, "top": f.Square.Y, "module": f.Square.Module} {
					if dots := float64(v) * float64(s.DPI) / 25.4e6; abs(int64((dots-float64(int64(dots+0.5)))*1e4)) > 1 {
						t.Fatalf("cell %d: %s is %v dots, want whole ones", n, what, dots)
					}
				}
			}
		}
	})
	if drawn == 0 {
		t.Error("no geometry drawn could be printed; the test says nothing")
	}
}

func abs(v int64) int64 { return max(v, -v) }
