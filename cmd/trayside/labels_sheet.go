package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"strconv"
	"strings"

	"trayside/internal/label"
)

// sheetFlags say what labels are printed on: a preset or a file, and what of it
// is another.
type sheetFlags struct {
	name, file                                  string
	page, grid, size, first, pitch, margin, dpi string
}

func (s *sheetFlags) register(f *flag.FlagSet) {
	f.StringVar(&s.name, "sheet", label.Presets()[0].Name, "sheet or roll to print on: "+sheetNames())
	f.StringVar(&s.file, "geometry", "", "file with the geometry of a sheet of one's own, as --list --json writes one (µm)")
	f.StringVar(&s.page, "page", "", "the page is WxH mm instead")
	f.StringVar(&s.grid, "grid", "", "there are COLUMNSxROWS labels instead")
	f.StringVar(&s.size, "label", "", "a label is WxH mm instead")
	f.StringVar(&s.first, "first", "", "the first label begins at XxY mm instead")
	f.StringVar(&s.pitch, "pitch", "", "from label to label it is XxY mm instead")
	f.StringVar(&s.margin, "margin", "", "mm kept free inside a label instead")
	f.StringVar(&s.dpi, "dpi", "", "dots an inch of a thermal printer instead; 0 for any other")
}

// geometry returns the sheet that the flags describe, checked.
func (s *sheetFlags) geometry() (label.Sheet, error) {
	on, err := s.start()
	if err != nil {
		return on, err
	}
	for _, two := range []struct {
		flag, value string
		a, b        *int64
	}{
		{"page", s.page, &on.PageW, &on.PageH},
		{"label", s.size, &on.CellW, &on.CellH},
		{"first", s.first, &on.Left, &on.Top},
		{"pitch", s.pitch, &on.PitchX, &on.PitchY},
	} {
		if two.value == "" {
			continue
		}
		if *two.a, *two.b, err = pair(two.flag, two.value, "x"); err != nil {
			return on, err
		}
	}
	if s.grid != "" {
		if _, err := fmt.Sscanf(s.grid, "%dx%d", &on.Columns, &on.Rows); err != nil {
			return on, usage("--grid %q: want COLUMNSxROWS, for instance 3x8", s.grid)
		}
	}
	if s.margin != "" {
		if on.Margin, err = micrometres("margin", s.margin); err != nil {
			return on, err
		}
	}
	if s.dpi != "" {
		if on.DPI, err = strconv.ParseInt(s.dpi, 10, 32); err != nil {
			return on, usage("--dpi %q: want a whole number, for instance 203", s.dpi)
		}
	}
	return on, on.Check()
}

// start returns the sheet that the other flags change.
func (s *sheetFlags) start() (label.Sheet, error) {
	if s.file == "" {
		on, ok := label.Named(s.name)
		if !ok {
			return on, usage("there is no sheet %q; there are: %s", s.name, sheetNames())
		}
		return on, nil
	}
	text, err := os.ReadFile(s.file)
	if err != nil {
		return label.Sheet{}, fmt.Errorf("read the sheet's geometry: %w", err)
	}
	var on label.Sheet
	dec := json.NewDecoder(strings.NewReader(string(text)))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&on); err != nil {
		return on, fmt.Errorf("%s is no geometry of one sheet (trayside labels --list --json shows how one is written): %w", s.file, err)
	}
	return on, nil
}

func sheetNames() string {
	var names []string
	for _, s := range label.Presets() {
		names = append(names, s.Name)
	}
	return strings.Join(names, ", ")
}

// pair reads two lengths in millimetres.
func pair(name, value, between string) (a, b int64, err error) {
	first, second, ok := strings.Cut(value, between)
	if !ok {
		return 0, 0, usage("--%s %q: want two lengths in mm with %q between them", name, value, between)
	}
	if a, err = micrometres(name, first); err != nil {
		return 0, 0, err
	}
	b, err = micrometres(name, second)
	return a, b, err
}

// micrometres reads a length in millimetres.
func micrometres(name, value string) (int64, error) {
	mm, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
	if err != nil || mm < -2000 || mm > 2000 {
		return 0, usage("--%s: %q is no length in mm", name, value)
	}
	if mm < 0 {
		return int64(mm*1000 - 0.5), nil
	}
	return int64(mm*1000 + 0.5), nil
}
