package advice

import (
	"slices"

	"trayside/internal/label"
	"trayside/internal/record"
)

// LabelsView is what the Labels screen prints from, and what a scanned blank
// label can be put on.
type LabelsView struct {
	Bins   []LabelBin    `json:"bins"`
	Sheets []label.Sheet `json:"sheets"` // presets, the default first
	Mass   string        `json:"mass"`
	Temp   string        `json:"temp"`
	// Vessels are what amounts on a paper card may be counted in.
	Vessels []VesselView `json:"vessels"`
}

// LabelBin is a bin whose trays carry labels.
type LabelBin struct {
	ID    string      `json:"id"`
	Name  string      `json:"name"`
	Trays []LabelTray `json:"trays"` // from the top down
	// Width, Depth and Height are those of its top tray, mm: a new tray of the
	// same bin is taken to be like it. 0 if it has none.
	Width  int64 `json:"width"`
	Depth  int64 `json:"depth"`
	Height int64 `json:"height"`
}

// LabelTray is a tray that carries a label or may get one.
type LabelTray struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Code  string `json:"code,omitempty"`
	Empty bool   `json:"empty,omitempty"` // washed and free: nothing is bedded in it
}

// Labels returns the trays in use, bin by bin.
func (a *Advice) Labels() LabelsView {
	v := LabelsView{Bins: []LabelBin{}, Sheets: label.Presets(), Mass: a.mass(), Temp: a.temp(), Vessels: a.vessels()}
	for _, bin := range a.open() {
		b := LabelBin{ID: bin.ID, Name: bin.Name, Trays: []LabelTray{}}
		for _, id := range slices.Backward(a.stackOf(bin)) {
			t := a.trays[id]
			if len(b.Trays) == 0 {
				b.Width, b.Depth, b.Height = int64(t.Width), int64(t.Depth), int64(t.Height)
			}
			b.Trays = append(b.Trays, LabelTray{ID: id, Name: t.Name, Code: t.Code, Empty: a.stageOn(id, a.day) == record.Emptied})
		}
		v.Bins = append(v.Bins, b)
	}
	return v
}

// vessels lists the household's own vessels.
func (a *Advice) vessels() []VesselView {
	views := []VesselView{}
	for _, x := range a.h.Vessels {
		views = append(views, VesselView{ID: x.ID, Name: x.Name, Grams: int64(x.Grams)})
	}
	return views
}
