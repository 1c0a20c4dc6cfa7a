package advice

import (
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

// 600 g of shredded cardboard at 60 g a litre are 10 litres: 81.6 mm on 350 × 350
// mm when fresh and half of that 60 days later, when half has become castings:
// 300 g × 0.93 × 0.5 / 0.3 = 465 g, and 2 kg of scraps another 500 g; at 0.65 kg
// a litre these are 12 mm.
func TestTheDrawingIsToScale(t *testing.T) {
	tray := &record.Tray{Width: 350, Depth: 350, Height: 150}
	batch := record.Batch{Bedding: []record.Item{{Scrap: "cardboard", Grams: 600}}, Bedded: 100}
	if bed, made, _ := heights(tray, batch, 100, 0); bed != 82 || made != 0 {
		t.Errorf("fresh: %d mm of bedding and %d of castings, want 82 and 0", bed, made)
	}
	if bed, made, grams := heights(tray, batch, 160, 2000); bed != 41 || made != 12 || grams != 965 {
		t.Errorf("60 days and 2 kg later: %d mm of bedding and %d of castings, %d g, want 41, 12 and 965", bed, made, grams)
	}
	// 350 × 350 × 150 mm are 18.375 litres.
	if bed, made, grams := heights(tray, batch, 160, 1e9); bed != 0 || made != 150 || grams != 11944 {
		t.Errorf("more than it holds: %d and %d mm, %d g, want 0, the tray's 150 and 11944", bed, made, grams)
	}
	if bed, made, grams := heights(&record.Tray{}, batch, 160, 2000); bed != 0 || made != 0 || grams != 0 {
		t.Errorf("a tray nobody measured: %d and %d mm, %d g, want nothing drawn", bed, made, grams)
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
