package colony

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"trayside/internal/record"
	"trayside/internal/units"
)

// twoTrays is a year and a half of a stack: readings, squeezes, looks of every
// kind, worms weighed, a tray weighed and harvested, a second tray.
func twoTrays() *Input {
	in := aBin(560)
	in.Coolest, in.Warmest = 120, 290
	open, rest := day0+200, day0+215
	in.Trays[0].Resting = &rest
	in.Trays = append(in.Trays, Tray{ID: "tray/top", AreaM2: 0.1225, Bedded: day0 + 190, Feeding: &open, Height: 1})
	words := []record.Leftovers{record.LeftNone, record.LeftSome, record.LeftNone, record.LeftHalf, record.LeftHard, record.LeftMost}
	squeezes := []string{"few-drops", "runs", "holds"}
	for n, d := 0, day0; d <= in.Today; n, d = n+1, d+3 {
		tray := "tray/low"
		if d >= open {
			tray = "tray/top"
		}
		m := scraps("feeding/"+d.String(), d, tray, float64(120+n%5*60))
		m.Spot = record.Spots[n%9]
		m.Parts = append(m.Parts, Part{Grams: float64(n % 4 * 25), Appeal: 0.4, Soft: 0.9, Rot: 0.02}, Part{Grams: 10})
		in.Meals = append(in.Meals, m)
		if n%4 == 2 {
			l := aLook(d, tray, words[n%len(words)])
			temp := units.DeciCelsius(150 + n%9*15)
			l.Temp, l.TempOf, l.Squeeze = &temp, "bed", squeezes[n%3]
			in.Looks = append(in.Looks, l)
		}
	}
	number := func(n int64) *int64 { return &n }
	in.Trays[0].Bedding, in.Trays[0].Empty = 700, 1200
	in.Looks = append(in.Looks,
		record.Look{Tray: "tray/low", Day: day0 + 120, Weight: number(7800), Fill: number(85), Liquid: number(150)},
		record.Look{Tray: "tray/top", Day: day0 + 470, Fill: number(120)})
	in.Harvests = []Harvest{{Tray: "tray/low", Day: day0 + 400, Grams: 6500, Err: 0.05}, {Tray: "tray/low", Day: day0 + 520, Grams: 11_000, Err: 0.25}}
	in.Worms = append(in.Worms, record.WormEvent{Move: record.WormsWeighed, Mass: 610, Wide: true, Day: day0 + 150}, record.WormEvent{Move: record.WormsLost, Share: 15, Day: day0 + 400})
	return in
}

// The same log gives the same bits natively and as wasm: both run this test
// against one file. A changed file is a changed model; write it anew with
// UPDATE_FROZEN=1 and say why in the commit.
func TestTheFrozenRunHasTheSameBitsEverywhere(t *testing.T) {
	in := twoTrays()
	in.Bin = "bin/frozen"
	compareFrozen(t, "testdata/frozen.txt", frozen(Follow(in)))
}

// compareFrozen holds a run against its file, or writes the file anew.
func compareFrozen(t *testing.T, file string, got []string) {
	t.Helper()
	if os.Getenv("UPDATE_FROZEN") != "" {
		if err := os.WriteFile(file, []byte(strings.Join(got, "\n")+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Split(strings.TrimSpace(strings.ReplaceAll(string(text), "\r\n", "\n")), "\n")
	if len(got) != len(want) {
		t.Fatalf("%d lines, the file has %d", len(got), len(want))
	}
	for i := range got {
		if got[i] != want[i] {
			t.Errorf("line %d:\n got %s\nwant %s", i+1, got[i], want[i])
		}
	}
}

// frozen lists the numbers of a course and its first particles with
// their bits.
func frozen(e *Ensemble) []string {
	var lines []string
	put := func(name string, v float64) {
		lines = append(lines, fmt.Sprintf("%-24s %016x  %.6g", name, math.Float64bits(v), v))
	}
	est := e.Estimate()
	for _, s := range []struct {
		name string
		span Span
	}{
		{"live", est.Live}, {"appetite", est.Appetite}, {"low tray", est.ByTray["tray/low"]}, {"top tray", est.ByTray["tray/top"]},
		{"top tray eats", est.Eats["tray/top"]},
	} {
		put(s.name+" mid", s.span.Mid)
		put(s.name+" low", s.span.Low)
		put(s.name+" high", s.span.High)
	}
	put("surface", est.Surface["tray/top"])
	put("sample size", e.size)
	for i := range 5 {
		p := &e.particles[i]
		name := fmt.Sprintf("particle %d ", i)
		put(name+"weight", p.weight)
		put(name+"mass", p.Mass(e.rates))
		put(name+"hunger", p.Hunger)
		put(name+"eaten", p.Sums.Eaten)
	}
	for _, l := range est.Lefts {
		put("left of "+l.Feeding, l.Soft)
	}
	f := e.Gone("tray/top", []Part{{Grams: 300, Appeal: 1, Soft: 0.95, Rot: 0.05}})
	return append(lines, fmt.Sprintf("%-24s %s %s %s", "300 g would be gone", f.Early, f.Mid, f.Late))
}
