package phone_test

import (
	"testing"

	"trayside/internal/advice"
	"trayside/internal/journal"
	"trayside/internal/label"
	"trayside/internal/units"
	"trayside/sync/exchange"
)

func TestABlankLabelIsPutOnATrayAndAWashedTraysLabelOnAnother(t *testing.T) {
	w := newWorld(t)
	h := w.tamsin // a keeper
	h.open()
	h.event(exchange.Event{Kind: exchange.EventStart})
	labels := func() map[string]advice.LabelTray {
		byName := map[string]advice.LabelTray{}
		for _, bin := range view[advice.LabelsView](h, "labels", "").Bins {
			for _, tray := range bin.Trays {
				byName[tray.Name] = tray
			}
		}
		return byName
	}
	fern, slate := labels()["Fern"], labels()["Slate"]
	if fern.ID == "" || slate.ID == "" {
		t.Fatalf("the demo's trays are %+v; this test needs Fern and Slate", labels())
	}
	blank := label.Draw(func() uint64 { return 77 })
	opens := func(code label.Code) advice.TrayView { return view[advice.TrayView](h, "tray", string(code)) }
	if v := opens(blank); v.Found != advice.FoundUnclaimed || v.Code != string(blank) {
		t.Fatalf("a blank label opens %q, code %q; want unclaimed and its code", v.Found, v.Code)
	}
	claim := func(tray, code string) {
		t.Helper()
		h.save(journal.Intent{Do: journal.DoClaim, Tray: tray, Set: map[string]any{"code": code}})
	}

	// At the bin: scan, choose the tray. The label it had still opens it, on its
	// other face.
	claim(fern.ID, blank.Groups())
	for _, code := range []label.Code{blank, label.Code(fern.Code)} {
		if v := opens(code); v.ID != fern.ID || v.Found != advice.FoundTray {
			t.Errorf("%s opens %q (%s), want Fern", code.Groups(), v.Name, v.Found)
		}
	}

	// Fern is washed and put away; its label goes on Slate.
	h.save(journal.Intent{Do: journal.DoUndo, Entity: fern.ID})
	if v := opens(blank); v.Found != advice.FoundRemoved || v.Code != string(blank) {
		t.Errorf("the label of a removed tray opens %q, code %q", v.Found, v.Code)
	}
	claim(slate.ID, string(blank))
	if v := opens(blank); v.ID != slate.ID {
		t.Errorf("the label opens %q (%s), want Slate", v.Name, v.Found)
	}

	// Two trays that get a label in the app get two codes.
	claim(slate.ID, advice.NewLabel)
	first := labels()["Slate"].Code
	claim(slate.ID, advice.NewLabel)
	second := labels()["Slate"].Code
	for _, code := range []string{first, second} {
		if c, err := label.Parse(code); err != nil || opens(c).ID != slate.ID {
			t.Errorf("the new label %q opens %q: %v", code, opens(c).Name, err)
		}
	}
	if first == second || first == string(blank) {
		t.Errorf("new labels %q and %q, want fresh ones", first, second)
	}
}

func TestACardThatIsTypedInShowsOnItsDays(t *testing.T) {
	w := newWorld(t)
	h := w.tamsin
	h.open()
	h.event(exchange.Event{Kind: exchange.EventStart})
	bin := func() advice.CardBin { return view[advice.CardView](h, "card", "").Bins[0] }
	at := 0
	for at < len(bin().Days) && (bin().Days[at].Feeds > 0 || bin().Days[at].Looked || bin().Days[at].Tray == "") {
		at++
	}
	day := bin().Days[at]
	scrap := view[advice.CardView](h, "card", "").Scrap
	items := carrots(units.Grams(bin().Usual))
	items[0].Scrap = scrap
	h.save(journal.Intent{
		Do: journal.DoFeed, Bin: bin().ID, Tray: day.Tray, Day: day.Day, At: day.Day + "T12:00:00Z", How: "vessel", About: true, Items: items,
	})
	if got := bin().Days[at]; got.Feeds != 1 || got.Grams != bin().Usual {
		t.Errorf("%s shows %d meals, %d g; want one of %d g", day.Day, got.Feeds, got.Grams, bin().Usual)
	}
}
