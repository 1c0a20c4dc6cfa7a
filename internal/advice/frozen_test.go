package advice_test

import (
	"bytes"
	"cmp"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"trayside/internal/advice"
	"trayside/internal/record"
)

var update = flag.Bool("update", false, "write the golden views anew; read the difference before committing it")

func sortRecord(h *record.Household) {
	slices.SortStableFunc(h.Feedings, func(x, y record.Feeding) int {
		return cmp.Or(cmp.Compare(x.Day, y.Day), cmp.Compare(x.At, y.At), cmp.Compare(x.ID, y.ID))
	})
}

// The views of the frozen household. The same test runs natively and as wasm
// against the same files, so that a phone and a server that hold the same
// entries are shown to say the same, to the byte.
func TestTheFrozenHouseholdIsShownTheSameEverywhere(t *testing.T) {
	a := advice.New(household(), today, advice.Phone{Device: phoneA, Member: ana})
	weigh := a.Weigh()
	weigh.Scraps = weigh.Scraps[:2] // the catalogue has tests of its own
	for name, view := range map[string]any{
		"today": a.Today(), "tray-upper": a.Tray(upper), "tray-lower": a.Tray(lowerCode), "tray-alone": a.Tray(alone),
		"tray-removed": a.Tray(cellar), "tray-unclaimed": a.Tray("tray/of-somebody-else"), "tray-malformed": a.Tray("3N7K"),
		"weigh": weigh, "timeline": a.Timeline(advice.TimelineAsk{}, 12), "slip": a.Slip(upper, 2500, false),
	} {
		got, err := json.MarshalIndent(view, "", "  ")
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, '\n')
		file := filepath.Join("testdata", name+".golden.json")
		if *update {
			if err := os.WriteFile(file, got, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatalf("%v; run the test with -update to write it", err)
		}
		if want = bytes.ReplaceAll(want, []byte("\r\n"), []byte("\n")); !bytes.Equal(got, want) {
			t.Errorf("%s differs from %s%s", name, file, firstDifference(got, want))
		}
	}
}

func firstDifference(got, want []byte) string {
	g, w := bytes.Split(got, []byte("\n")), bytes.Split(want, []byte("\n"))
	for i := range min(len(g), len(w)) {
		if !bytes.Equal(g[i], w[i]) {
			return "\n got " + string(g[i]) + "\nwant " + string(w[i])
		}
	}
	return " in length"
}

// A list that is null breaks a screen that walks it.
func TestNoListIsNull(t *testing.T) {
	empty := advice.New(&record.Household{}, today, advice.Phone{})
	full := advice.New(household(), today, advice.Phone{})
	for name, view := range map[string]any{
		"empty today": empty.Today(), "empty tray": empty.Tray("tray/none"), "empty weigh": empty.Weigh(), "empty timeline": empty.Timeline(advice.TimelineAsk{}, 50),
		"today": full.Today(), "tray": full.Tray(upper), "removed tray": full.Tray(cellar), "weigh": full.Weigh(), "timeline": full.Timeline(advice.TimelineAsk{}, 1000),
	} {
		text, err := json.Marshal(view)
		if err != nil {
			t.Fatal(err)
		}
		if i := bytes.Index(text, []byte(":null")); i >= 0 {
			t.Errorf("%s has a null: …%s", name, text[max(0, i-40):i+5])
		}
	}
}
