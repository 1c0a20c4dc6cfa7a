package advice_test

import (
	"testing"

	"trayside/internal/advice"
	"trayside/internal/label"
)

func TestLabelsListTraysFromTheTopDownAndSayWhichAreFree(t *testing.T) {
	h := household()
	h.Batches[1].Emptied = on(today - 1)
	v := adviceOn(h, today).Labels()
	if len(v.Bins) != 2 || len(v.Bins[0].Trays) != 2 {
		t.Fatalf("got %+v, want two bins, the first with its two trays in use", v.Bins)
	}
	b := v.Bins[0]
	if b.Trays[0].ID != upper || b.Trays[1].ID != lower || b.Width != 350 || b.Height != 150 {
		t.Errorf("got %+v, want the upper tray first and its measures", b)
	}
	if !b.Trays[0].Empty || b.Trays[1].Empty {
		t.Errorf("empty: upper %v, lower %v; want only the upper one, whose batch was emptied yesterday", b.Trays[0].Empty, b.Trays[1].Empty)
	}
	if b.Trays[0].Code != "" || b.Trays[1].Code != lowerCode {
		t.Errorf("codes %q and %q, want none and %q", b.Trays[0].Code, b.Trays[1].Code, lowerCode)
	}
	if len(v.Sheets) != len(label.Presets()) {
		t.Errorf("%d sheets, want every preset", len(v.Sheets))
	}
}

func TestACardShowsWhatIsKnownOfEachDay(t *testing.T) {
	h := household()
	evening(h, "feeding/t", phoneA, "18:00", 240)
	evening(h, "feeding/u", phoneA, "19:00", 60)
	v := adviceOn(h, today).Card()
	b := v.Bins[0]
	if b.Days[0].Day != today.String() || b.Days[0].Feeds != 2 || b.Days[0].Grams != 300 || b.Days[0].Tray != upper {
		t.Errorf("today is %+v, want two feedings, 300 g, into %s", b.Days[0], upper)
	}
	if b.Days[14].Tray != lower && b.Days[15].Tray != lower {
		t.Errorf("two weeks ago the card feeds %s, want %s, which took food then", b.Days[15].Tray, lower)
	}
	// The middle one of the last twelve weighed meals; a mug holds 180 g.
	if b.Usual < 150 || b.Usual > 260 || b.Vessel != "vessel/mug" || b.Called != "Mug" {
		t.Errorf("usual %d g, %d quarters of %s; want near a mug", b.Usual, b.Vessels, b.Called)
	}
	if v.Bins[1].Days[len(b.Days)-1].Tray != "" {
		t.Error("a bin of three weeks has a tray for a day before it began")
	}
	if v.Scrap == "" || !advice.KnownScrap(v.Scrap) {
		t.Errorf("scrap %q is not in the catalogue", v.Scrap)
	}
}

func TestAFreshCodeIsALabelsAndFollowsItsRandomBytes(t *testing.T) {
	seen := map[string]bool{}
	for i := range 200 {
		code := advice.FreshCode([]byte{byte(i), 7, 9})
		if c, err := label.Parse(code); err != nil || string(c) != code {
			t.Fatalf("%q is no code: %v", code, err)
		}
		if code != advice.FreshCode([]byte{byte(i), 7, 9}) {
			t.Fatal("the same bytes gave another code")
		}
		seen[code] = true
	}
	if len(seen) != 200 {
		t.Errorf("200 draws gave %d codes", len(seen))
	}
}
