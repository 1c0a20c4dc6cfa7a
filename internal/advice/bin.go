package advice

import (
	"slices"

	"trayside/internal/colony"
	"trayside/internal/plan"
	"trayside/internal/record"
	"trayside/internal/units"
)

// BinSheet is what a bin is: what its keeper said of it, its trays, and how its
// worms came and went. For no bin it holds what a new one is set up with.
type BinSheet struct {
	Found     bool        `json:"found"`
	ID        string      `json:"id,omitempty"`
	Name      string      `json:"name,omitempty"`
	Day       string      `json:"day"`
	Mass      string      `json:"mass"`
	Temp      string      `json:"temp"`
	Species   string      `json:"species,omitempty"`
	Goal      string      `json:"goal,omitempty"`
	Placing   string      `json:"placing,omitempty"`
	FeedEvery int         `json:"feedEvery"` // days, 0 if nobody said
	Started   string      `json:"started,omitempty"`
	HotUntil  string      `json:"hotUntil,omitempty"` // last day of the hot week
	Room      *RoomView   `json:"room,omitempty"`
	Trays     []SheetTray `json:"trays"` // from the top down
	Moves     []WormLine  `json:"moves"` // newest first, at most wormLines
	Worms     *Span       `json:"worms,omitempty"`
	Bins      []Place     `json:"bins"` // all bins in use
	Sizes     []WormSize  `json:"sizes"`
	Fresh     FreshBed    `json:"fresh"`
}

// RoomView is where a bin stands: means of the coldest and the warmest month,
// 0.1 °C.
type RoomView struct {
	Coolest int64 `json:"coolest"`
	Warmest int64 `json:"warmest"`
}

// SheetTray is a tray as its keeper knows it.
type SheetTray struct {
	ID       string     `json:"id"`
	Name     string     `json:"name"`
	Code     string     `json:"code,omitempty"`
	Stage    string     `json:"stage"`
	StageDay int        `json:"stageDay"`        // first day is 1, 0 for an empty tray
	Batch    string     `json:"batch,omitempty"` // what lies in it
	Bedding  []ItemView `json:"bedding"`
	Width    int64      `json:"width"` // mm inside
	Depth    int64      `json:"depth"`
	Height   int64      `json:"height"`
}

// WormLine is worms that came, went, were weighed or lost.
type WormLine struct {
	ID    string `json:"id"`
	Day   string `json:"day"`
	Move  string `json:"move"`
	Grams int64  `json:"grams"`
	Share int    `json:"share,omitempty"` // per cent of the colony that was lost
	Wide  bool   `json:"wide,omitempty"`  // with bedding or by eye
	Tray  string `json:"tray,omitempty"`  // its name
}

// WormSize is what one worm of a species is taken for when worms are counted.
type WormSize struct {
	Species string `json:"species"`
	MG      int64  `json:"mg"`
}

// FreshBed is what new bedding takes for a square metre of tray: dry paper, the
// water that it soaks up, and the depth it comes to.
type FreshBed struct {
	GramsPerM2 int64 `json:"gramsPerM2"`
	WaterPerM2 int64 `json:"waterPerM2"` // ml
	DepthMM    int64 `json:"depthMM"`
	SoilG      int64 `json:"soilG"` // a tray
}

// wormLines is how many of a bin's moves of worms are shown.
const wormLines = 12

// Bin returns what a bin is; for an id that is no bin in use, what a new one needs.
func (a *Advice) Bin(id string) BinSheet {
	v := BinSheet{
		Day: a.day.String(), Mass: a.mass(), Temp: a.temp(),
		Trays: []SheetTray{}, Moves: []WormLine{}, Bins: []Place{}, Sizes: []WormSize{}, Fresh: freshBed(),
	}
	for _, b := range a.open() {
		v.Bins = append(v.Bins, Place{b.ID, b.Name})
	}
	for _, s := range plan.Species() {
		v.Sizes = append(v.Sizes, WormSize{string(s), units.Nearest(colony.RatesOf(s).AdultG.Mid * 1000)})
	}
	bin := a.bins[id]
	if bin == nil || bin.Gone {
		return v
	}
	v.Found, v.ID, v.Name = true, bin.ID, bin.Name
	v.Species, v.Goal, v.Placing = string(bin.Species), string(bin.Goal), string(bin.Placing)
	v.FeedEvery, v.Started = bin.FeedEvery, bin.Started.String()
	if bin.HotUntil != nil && *bin.HotUntil >= a.day {
		v.HotUntil = bin.HotUntil.String()
	}
	if bin.RoomCoolest != 0 || bin.RoomWarmest != 0 {
		v.Room = &RoomView{int64(bin.RoomCoolest), int64(bin.RoomWarmest)}
	}
	for _, tray := range slices.Backward(a.stackOf(bin)) {
		v.Trays = append(v.Trays, a.sheetTray(a.trays[tray]))
	}
	for _, w := range slices.Backward(a.h.Worms) {
		if w.Bin == bin.ID && len(v.Moves) < wormLines {
			v.Moves = append(v.Moves, WormLine{w.ID, w.Day.String(), string(w.Move), int64(w.Mass), w.Share, w.Wide, a.trayName(w.Tray)})
		}
	}
	if r := a.run(bin); r.est.Started != 0 {
		live := spanOf(r.est.Live, 1)
		v.Worms = &live
	}
	return v
}

func (a *Advice) sheetTray(t *record.Tray) SheetTray {
	s := SheetTray{
		ID: t.ID, Name: t.Name, Code: t.Code, Stage: string(record.Emptied), Bedding: []ItemView{},
		Width: int64(t.Width), Depth: int64(t.Depth), Height: int64(t.Height),
	}
	if b, ok := a.batchOn(t.ID, a.day); ok {
		s.Stage, s.StageDay, s.Batch, s.Bedding = string(b.StageOn(a.day)), a.stageDay(b), b.ID, a.itemViews(b.Bedding)
	}
	return s
}

// freshBed is the bed that a plan would make of a square metre.
func freshBed() FreshBed {
	b := plan.BeddingFor(plan.BedDepth, 1) // a millimetre on a m² is a litre
	return FreshBed{GramsPerM2: units.Nearest(b.PaperG), WaterPerM2: units.Nearest(b.Water), DepthMM: plan.BedDepth, SoilG: units.Nearest(b.SoilG)}
}
