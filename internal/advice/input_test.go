package advice

import (
	"slices"
	"testing"

	"trayside/internal/colony"
	"trayside/internal/record"
	"trayside/internal/units"
)

func TestAVesselIsNamedOnlyIfItMeasuresOut(t *testing.T) {
	a := New(&record.Household{Vessels: []record.Vessel{{ID: "mug", Grams: 180}, {ID: "tub", Grams: 700}, {ID: "broken"}}}, 1, Phone{})
	for _, row := range []struct {
		grams    units.Grams
		id       string
		quarters int64
	}{
		{180, "mug", 4}, {350, "tub", 2}, {1400, "tub", 8}, {45, "mug", 1}, {10, "", 0}, {5000, "", 0},
	} {
		if id, n := a.vesselFor(row.grams); id != row.id || n != row.quarters {
			t.Errorf("%d g: %d quarters of %q, want %d of %q", row.grams, n, id, row.quarters, row.id)
		}
	}
}

func TestTheUsualMixIsTheLastTwoMonthsByWeight(t *testing.T) {
	fed := func(d record.Day, items ...record.Item) record.Feeding { return record.Feeding{Day: d, Items: items} }
	h := &record.Household{Feedings: []record.Feeding{
		fed(10, record.Item{Scrap: "melon-rind", Grams: 5000}), // too long ago
		fed(100, record.Item{Scrap: "kale", Grams: 100}, record.Item{Scrap: "carrot", Grams: 100, Cut: true}),
		fed(120, record.Item{Scrap: "kale", Grams: 401}, record.Item{Scrap: "carrot", Grams: 0}),
	}}
	mix := New(h, 130, Phone{}).usual
	if len(mix) != 2 || mix[0] != (record.Item{Scrap: "kale", Grams: 84}) || mix[1] != (record.Item{Scrap: "carrot", Grams: 16, Cut: true}) {
		t.Errorf("the usual mix is %+v, want 84 g of kale and 16 g of cut carrot", mix)
	}
	if mix := New(&record.Household{}, 130, Phone{}).usual; len(mix) != 1 || mix[0].Grams != 100 {
		t.Errorf("a household that has fed nothing has %+v, want 100 g of mixed scraps", mix)
	}
}

func TestScalingKeepsTheTotal(t *testing.T) {
	items := []record.Item{{Scrap: "a", Grams: 1}, {Scrap: "b", Grams: 1}, {Scrap: "c", Grams: 1}}
	for _, total := range []units.Grams{1, 2, 3, 100, 101, 12345} {
		if got := record.Total(scale(items, total)); got != total {
			t.Errorf("scaled to %d g the parts come to %d", total, got)
		}
	}
}

func TestAMealNobodyWeighedIsTakenForTheMiddleOne(t *testing.T) {
	h := &record.Household{Bins: []record.Bin{{ID: "bin/a"}}, Trays: []record.Tray{{ID: "tray/a", Bin: "bin/a", Width: 300, Depth: 300}}}
	for d, g := range []units.Grams{90, 200, 4000} {
		h.Feedings = append(h.Feedings, record.Feeding{ID: "f", Bin: "bin/a", Tray: "tray/a", How: record.ByScale, Day: record.Day(10 + d), Items: []record.Item{{Scrap: "kale", Grams: g}}})
	}
	h.Feedings = append(h.Feedings, record.Feeding{ID: "u", Bin: "bin/a", Tray: "tray/a", How: record.Unweighed, Day: 14, Items: []record.Item{{Scrap: "kale"}, {Scrap: "carrot"}}})
	a := New(h, 20, Phone{})
	m := a.inputOf(&h.Bins[0]).Meals[3]
	if m.Err != 0.5 || m.Parts[0].Grams+m.Parts[1].Grams != 200 {
		t.Errorf("the unweighed meal is %+v, want 200 g, give or take half", m)
	}
}

func TestATrayThatWasFedWasBeddedAndOpen(t *testing.T) {
	opened := record.Day(40)
	h := &record.Household{
		Trays:   []record.Tray{{ID: "tray/a"}, {ID: "tray/b"}},
		Batches: []record.Batch{{ID: "batch/1", Tray: "tray/b", Bedded: 10}, {ID: "batch/2", Tray: "tray/b", Bedded: 30, Feeding: &opened}},
		Feedings: []record.Feeding{
			{ID: "f1", Tray: "tray/b", Day: 12},
			{ID: "f2", Tray: "tray/a", Day: 20},
			{ID: "f3", Tray: "tray/b", Day: 33},
		},
	}
	a := New(h, 50, Phone{})
	if b, ok := a.batchOn("tray/a", 25); !ok || b.Bedded != 20 || b.StageOn(25) != record.InUse {
		t.Errorf("a tray nobody bedded, fed on day 20, has the batch %+v (%v)", b, ok)
	}
	if s := a.stageOn("tray/b", 11); s != record.Bedded {
		t.Errorf("before its first feeding the tray is %q, want bedded", s)
	}
	if s := a.stageOn("tray/b", 15); s != record.InUse {
		t.Errorf("after its first feeding it is %q, want feeding", s)
	}
	if b, ok := a.batchOn("tray/b", 35); !ok || b.ID != "batch/2" || b.StageOn(35) != record.InUse {
		t.Errorf("bedded anew on day 30 and fed on 33 it has %+v (%v), want batch 2 in use", b, ok)
	}
	if h.Batches[0].Emptied != nil || h.Batches[0].Feeding != nil {
		t.Error("what the feedings imply was written into the record")
	}
}

// A bucket of 10 l, half full, is 5 × 0.65 = 3.25 kg.
func TestCastingsOfABatchAddUpUntilItsTrayIsEmptied(t *testing.T) {
	emptied := record.Day(90)
	h := &record.Household{
		Bins: []record.Bin{{ID: "bin/a", Stack: []string{"tray/a"}}}, Measures: record.Measures{Bucket: 10_000},
		Trays: []record.Tray{{ID: "tray/a", Bin: "bin/a", Empty: 1100}, {ID: "tray/b", Bin: "bin/b"}},
		Batches: []record.Batch{
			{ID: "batch/1", Tray: "tray/a", Bedded: 10, Emptied: &emptied, Bedding: []record.Item{{Scrap: "cardboard", Grams: 500}, {Scrap: "coir", Grams: 100}}},
			{ID: "batch/2", Tray: "tray/a", Bedded: 91},
		},
		Harvests: []record.Harvest{
			{ID: "harvest/1", Bin: "bin/a", Tray: "tray/a", Batch: "batch/1", Mass: 1000, Day: 60},
			{ID: "harvest/2", Bin: "bin/a", Tray: "tray/a", Batch: "batch/1", Day: 70}, // nobody measured
			{ID: "harvest/3", Bin: "bin/a", Tray: "tray/a", Batch: "batch/1", Buckets: 5, Day: 92},
			{ID: "harvest/4", Bin: "bin/a", Tray: "tray/a", Batch: "batch/2", Mass: 700, Day: 130},
			{ID: "harvest/5", Bin: "bin/b", Tray: "tray/b", Batch: "batch/9", Mass: 9000, Day: 80},
		},
	}
	in := New(h, 120, Phone{}).inputOf(&h.Bins[0])
	want := []colony.Harvest{
		{ID: "harvest/1", Tray: "tray/a", Grams: 1000, Err: castingsErr, Day: 60},
		{ID: "harvest/3", Tray: "tray/a", Grams: 4250, Err: byVolumeErr, Day: 90, Whole: true},
	}
	if !slices.Equal(in.Harvests, want) {
		t.Errorf("the model is given %+v, want %+v", in.Harvests, want)
	}
	if tray := in.Trays[0]; tray.Bedding != 600 || tray.Empty != 1100 {
		t.Errorf("the model is given %.0f g of bedding in a tray of %.0f g, want 600 and 1100", tray.Bedding, tray.Empty)
	}
	if later := New(h, 130, Phone{}).inputOf(&h.Bins[0]).Harvests; len(later) != 3 || later[2].Whole || later[2].Grams != 700 {
		t.Errorf("on day 130 the model is given %+v, want 700 g out of the second batch as well, which still lies there", later)
	}
}

func TestTheSouthHasItsSeasons(t *testing.T) {
	for zone, want := range map[string]bool{
		"Europe/Berlin": false, "America/New_York": false, "Australia/Hobart": true, "Africa/Johannesburg": true,
		"America/Argentina/Cordoba": true, "Pacific/Auckland": true, "": false, "UTC": false,
	} {
		if got := southern(zone); got != want {
			t.Errorf("%q lies in the south: %v, want %v", zone, got, want)
		}
	}
}

// 600 g of cardboard are half castings after 60 days: 300 g × 0.93 × 0.5 / 0.3 =
// 465 g, and 2 kg of scraps another 500 g; at 0.65 kg a litre these are 12.1 mm
// on 350 × 350 mm. 150 mm of them would be 18.375 litres.
func TestCastingsAreReckonedFromWhatWasEatenAndTheBedding(t *testing.T) {
	measured := &record.Tray{Width: 350, Depth: 350, Height: 150}
	batch := record.Batch{Bedding: []record.Item{{Scrap: "cardboard", Grams: 600}}, Bedded: 100}
	for _, row := range []struct {
		name  string
		tray  *record.Tray
		day   record.Day
		eaten float64
		grams int64
		mm    int64
	}{
		{"fresh", measured, 100, 0, 0, 0},
		{"60 days and 2 kg later", measured, 160, 2000, 965, 12},
		{"more than it holds", measured, 160, 1e9, 11944, 150},
		{"a tray nobody measured", &record.Tray{}, 160, 2000, 0, 0},
	} {
		if g, mm := castingsIn(row.tray, batch, row.day, row.eaten); units.Nearest(g) != row.grams || units.Nearest(mm) != row.mm {
			t.Errorf("%s: %.0f g, %.1f mm, want %d g and %d mm", row.name, g, mm, row.grams, row.mm)
		}
	}
}

func TestReadingsOfTheBedAreShownWhileTheySayAnything(t *testing.T) {
	const bedded = record.Day(200)
	temp := func(d units.DeciCelsius) *units.DeciCelsius { return &d }
	looks := []record.Look{
		{Tray: "tray/a", Day: bedded - 1, Squeeze: "runs"}, // of the batch before
		{Tray: "tray/a", Day: bedded + 10, Squeeze: "few-drops", Temp: temp(171), TempOf: "bed"},
		{Tray: "tray/b", Day: bedded + 20, Squeeze: "crumbles"},
		{Tray: "tray/a", Day: bedded + 20, Temp: temp(90), TempOf: "room"},
		{Tray: "tray/a", Day: bedded + 21, Temp: temp(160), TempOf: "bed"},
	}
	at := func(day record.Day) *BedView {
		a := &Advice{day: day}
		return a.bedOf(&run{in: &colony.Input{Looks: looks}}, "tray/a", bedded)
	}
	if v := at(bedded + 5); v != nil {
		t.Errorf("before any reading: %+v, want none", v)
	}
	v := at(bedded + 25)
	if v == nil || v.Temp == nil || *v.Temp != 160 || v.TempDay != (bedded+21).String() || v.Squeeze != "few-drops" || v.SqueezeDay != (bedded+10).String() {
		t.Errorf("the newest of each: %+v, want 16.0 °C of day 21 and a few drops of day 10", v)
	}
	if v := at(bedded + 40); v == nil || v.Squeeze != "" || v.Temp == nil {
		t.Errorf("30 days after the squeeze: %+v, want only the temperature", v)
	}
	if v := at(bedded + 60); v != nil {
		t.Errorf("a month after the last: %+v, want none", v)
	}
}

func TestTheLastSampleSaysWhetherThereAreCocoons(t *testing.T) {
	const bedded = record.Day(200)
	samples := []record.Sample{
		{Tray: "tray/a", Day: bedded - 1, Cocoons: 9}, // of the batch before
		{Tray: "tray/a", Day: bedded + 10, Cocoons: 4},
		{Tray: "tray/b", Day: bedded + 12, Cocoons: 7},
		{Tray: "tray/a", Day: bedded + 20, Adults: 3},
	}
	for _, row := range []struct {
		name string
		day  record.Day
		want int64
	}{
		{"none of this batch yet", bedded + 5, 0},
		{"four were counted", bedded + 15, 4},
		{"none in the newest sample", bedded + 25, 0},
	} {
		a := &Advice{day: row.day}
		v := a.cocoonsIn(&run{in: &colony.Input{Samples: samples}}, "tray/a", bedded)
		if (v == nil) != (row.want == 0) || v != nil && (v.Count != row.want || v.Day != (bedded+10).String()) {
			t.Errorf("%s: %+v, want %d", row.name, v, row.want)
		}
	}
	a := &Advice{day: bedded + 12 + readDays + 1}
	if v := a.cocoonsIn(&run{in: &colony.Input{Samples: samples}}, "tray/b", bedded); v != nil {
		t.Errorf("more than %d days after the count: %+v, want none", readDays, v)
	}
}

func TestTheBaseFillsAsFastAsItWasDrained(t *testing.T) {
	const began = record.Day(200)
	ml := func(n int64) *int64 { return &n }
	at := func(day record.Day, looks ...record.Look) *BaseView {
		h := &record.Household{
			Bins:  []record.Bin{{ID: "bin/a", Started: began, Stack: []string{"tray/a"}}},
			Trays: []record.Tray{{ID: "tray/a", Bin: "bin/a", Width: 400, Depth: 250, Height: 150}},
		}
		a := New(h, day, Phone{})
		return a.base(&run{bin: &h.Bins[0], in: &colony.Input{Looks: looks}})
	}
	one := record.Look{Day: began + 20, Liquid: ml(400)}
	two := record.Look{Day: began + 30, Liquid: ml(600)}
	if v := at(began+25, record.Look{Day: began + 5}); v != nil {
		t.Errorf("nobody told of liquid: %+v, want no base", v)
	}
	// 400 ml in 20 days are 20 ml a day; 0.1 m² hold 1 mm in 100 ml.
	if v := at(began+25, one, two); v == nil || v.LiquidML != 100 || v.LiquidMM != 1 || v.Drained != 400 {
		t.Errorf("5 days after the first: %+v, want 100 ml, 1 mm, 400 drained", v)
	}
	// 600 ml came in the 10 days between: 60 ml a day.
	if v := at(began+35, one, two); v == nil || v.LiquidML != 300 || v.LiquidMM != 3 || v.Day != two.Day.String() {
		t.Errorf("5 days after the second: %+v, want 300 ml, 3 mm", v)
	}
	if v := at(began+30, one, two); v == nil || v.LiquidML != 0 {
		t.Errorf("on the day it was drained: %+v, want none", v)
	}
	if v := at(began+900, one, two); v == nil || v.LiquidMM != baseHeight {
		t.Errorf("long after: %+v, want no more than the base holds", v)
	}
	if v := at(began+25, record.Look{Day: began + 20, Liquid: ml(0)}); v == nil || v.LiquidML != 0 {
		t.Errorf("an empty base: %+v, want a base without liquid", v)
	}
}

// As a keeper would see it three days later: what was cut, frozen or soft to begin
// with is further gone, in that order against a whole root.
func TestCutThawedAndSoftScrapsAreFurtherGone(t *testing.T) {
	left := func(item record.Item) float64 {
		item.Grams = 400
		h := &record.Household{
			Bins:     []record.Bin{{ID: "bin/a"}},
			Trays:    []record.Tray{{ID: "tray/a", Bin: "bin/a", Width: 400, Depth: 400}},
			Worms:    []record.WormEvent{{ID: "worms/a", Bin: "bin/a", Tray: "tray/a", Move: record.WormsAdded, Mass: 300, Day: 100}},
			Feedings: []record.Feeding{{ID: "feeding/a", Bin: "bin/a", Tray: "tray/a", How: record.ByScale, Day: 100, Items: []record.Item{item}}},
		}
		e := colony.Follow(New(h, 103, Phone{}).inputOf(&h.Bins[0])).Estimate()
		return e.Lying["tray/a"]
	}
	whole := left(record.Item{Scrap: "carrot"})
	for name, item := range map[string]record.Item{
		"cut":               {Scrap: "carrot", Cut: true},
		"frozen and thawed": {Scrap: "carrot", Frozen: true},
		"of a soft kind":    {Scrap: "melon-rind"},
	} {
		if l := left(item); l >= whole || l <= 0 {
			t.Errorf("%s: %.0f of 400 g lie there after three days, %.0f g of a whole carrot", name, l, whole)
		}
	}
}
