package label_test

import (
	"strings"
	"testing"

	"trayside/internal/label"
)

func TestPresetsFitTheirPage(t *testing.T) {
	for _, s := range label.Presets() {
		t.Run(s.Name, func(t *testing.T) {
			if err := s.Check(); err != nil {
				t.Fatal(err)
			}
			_, last := s.Cell(s.PerPage() - 1)
			right, bottom := s.PageW-last.X-last.W, s.PageH-last.Y-last.H
			// A printer that turns the page must not shift the labels.
			if abs(right-s.Left) > 10 || abs(bottom-s.Top) > 10 {
				t.Errorf("remainders right %d and bottom %d µm, want left %d and top %d within 10", right, bottom, s.Left, s.Top)
			}
			// 33 modules (version 4) is more than any address we print needs.
			if m := s.Module(33); m < label.ModuleMin {
				t.Errorf("module of a 33-module square is %d µm, want at least %d", m, label.ModuleMin)
			}
		})
	}
}

func TestCellsFillRowByRowAndRollOver(t *testing.T) {
	s := label.A4x21
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
		{"wider than the page", func(s *label.Sheet) { s.Columns = 4 }, "runs off"},
		{"starts left of the page", func(s *label.Sheet) { s.Left = -1 }, "runs off"},
		{"labels on each other", func(s *label.Sheet) { s.PitchX = 60_000 }, "on each other"},
		{"all margin", func(s *label.Sheet) { s.Margin = 20_000 }, "all margin"},
	} {
		s := label.A4x21
		tt.edit(&s)
		if err := s.Check(); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: Check = %v, want an error with %q", tt.name, err, tt.want)
		}
	}
}

func abs(v int64) int64 { return max(v, -v) }
