package feedstock

import (
	"fmt"
	"strconv"
	"strings"
)

// MostCarbon is the largest N % × C:N, the carbon in per cent of dry mass, that
// an entry may claim. Cellulose holds 44 %, lignin about 63 %; printed tables
// average nitrogen and C:N apart from each other and reach 88 % and more.
const MostCarbon = 64

// Load reads a catalogue: lines of comment (#), a [sources] and an [entries]
// section, each with a heading line, columns separated by tabs. It refuses what
// cannot be: the error names the line and how to mend it.
func Load(text string) (Catalogue, error) {
	c := Catalogue{byID: map[string]int{}}
	section := ""
	var columns map[string]int
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimSuffix(line, "\r")
		switch {
		case line == "" || strings.HasPrefix(line, "#"):
			continue
		case line == "[sources]" || line == "[entries]":
			section, columns = line, nil
			continue
		}
		cells := strings.Split(line, "\t")
		if columns == nil {
			columns = map[string]int{}
			for k, name := range cells {
				columns[name] = k
			}
			continue
		}
		if len(cells) != len(columns) {
			return Catalogue{}, fmt.Errorf("line %d has %d columns where its heading has %d: put a tab between columns, also beside empty ones", i+1, len(cells), len(columns))
		}
		row := row{columns: columns, cells: cells}
		if section == "[sources]" {
			c.Sources = append(c.Sources, Source{row.text("code"), row.text("source"), row.text("how")})
		} else {
			e := row.entry()
			if row.err == nil {
				row.err = e.check()
			}
			if _, twice := c.byID[e.ID]; twice {
				row.err = fmt.Errorf("id %q stands twice: give each entry its own", e.ID)
			}
			c.byID[e.ID] = len(c.Entries)
			c.Entries = append(c.Entries, e)
		}
		if row.err != nil {
			return Catalogue{}, fmt.Errorf("line %d: %w", i+1, row.err)
		}
	}
	return c, nil
}

// check refuses an entry that cannot be true.
func (e Entry) check() error {
	switch e.Verdict {
	case Good, Little, Avoid, Never:
	default:
		return fmt.Errorf("%s: verdict %q is none of good, little, avoid, never", e.ID, e.Verdict)
	}
	if e.Class != Foreign && !e.Class.Known() {
		return fmt.Errorf("%s: class %q is not one of class.go", e.ID, e.Class)
	}
	for _, share := range []struct {
		name  string
		value *float64
	}{{"water_pct", e.Water}, {"n_pct_dry", e.N}, {"salt_pct_wet", e.Salt}} {
		if share.value != nil && (*share.value < 0 || *share.value >= 1) {
			return fmt.Errorf("%s: %s is not between 0 and 100", e.ID, share.name)
		}
	}
	if e.N != nil && e.CN != nil {
		if err := (Ingredient{N: *e.N, CN: *e.CN}).Check(); err != nil {
			return fmt.Errorf("%s: %w", e.ID, err)
		}
	}
	return nil
}

// row is one line under its heading; the first fault is kept.
type row struct {
	columns map[string]int
	cells   []string
	err     error
}

func (r *row) text(name string) string {
	k, ok := r.columns[name]
	if !ok {
		if r.err == nil {
			r.err = fmt.Errorf("column %q is missing from the heading", name)
		}
		return ""
	}
	return r.cells[k]
}

func (r *row) list(name string) []string {
	if s := r.text(name); s != "" {
		return strings.Split(s, ";")
	}
	return nil
}

// number returns the cell divided by per, or nil if it is empty.
func (r *row) number(name string, per float64) *float64 {
	s := r.text(name)
	if s == "" {
		return nil
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || v < 0 {
		if r.err == nil {
			r.err = fmt.Errorf("%s: %q is not a number of 0 or more: write it like 87.5, or leave it empty", name, s)
		}
		return nil
	}
	v /= per
	return &v
}

func (r *row) entry() Entry {
	return Entry{
		ID: r.text("id"), Group: r.text("group"),
		Class: Class(r.text("class")), Verdict: Verdict(r.text("verdict")),
		Reasons: r.list("reasons"), Prep: r.list("prep"),
		Water: r.number("water_pct", 100), N: r.number("n_pct_dry", 100),
		CN: r.number("c_n", 1), CNLow: r.number("c_n_proximate", 1),
		Density: r.number("bulk_kg_m3", 1000), Salt: r.number("salt_pct_wet", 100),
		Proxy: r.text("proxy"), Rare: r.text("tier") == "2",
		WaterFrom: r.text("src_water"), NFrom: r.text("src_n_cn"),
		DensityFrom: r.text("src_bulk"), VerdictFrom: r.text("verdict_src"),
		Status: r.text("status"), Disagree: r.text("disagree"),
	}
}
