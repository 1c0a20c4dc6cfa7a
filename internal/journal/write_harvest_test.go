package journal_test

import (
	"reflect"
	"strings"
	"testing"

	"trayside/internal/journal"
	"trayside/internal/record"
)

func TestALookKeepsWhatItSaidAndTellsNothingFromZero(t *testing.T) {
	b := newBench(t)
	nothing, meter := int64(0), int64(785)
	ent := b.do(journal.Intent{
		Do: journal.DoLook, Tray: b.fern, Visitors: []string{"mites", "pale-worms"}, Cover: "dry", Covered: true,
		Liquid: &nothing, Meter: &meter, Signs: []string{"sour-smell"}, Unlogged: "no",
	})
	looks := b.reader.Household().Looks
	l := looks[len(looks)-1]
	if l.ID != ent || !reflect.DeepEqual(l.Visitors, []string{"mites", "pale-worms"}) || l.Cover != "dry" || !l.Covered ||
		l.Liquid == nil || *l.Liquid != 0 || l.Meter == nil || *l.Meter != 785 || l.PH != nil || l.Fill != nil || l.Weight != nil ||
		!reflect.DeepEqual(l.Signs, []string{"sour-smell"}) || l.Unlogged != "no" {
		t.Errorf("look %+v; want what was said, and nil where nobody said anything", l)
	}
	b.do(journal.Intent{Do: journal.DoEdit, Entity: ent, Set: map[string]any{"visitors": []string{}, "liquid": 120, "meter": nil}})
	looks = b.reader.Household().Looks
	if l := looks[len(looks)-1]; len(l.Visitors) != 0 || *l.Liquid != 120 || l.Meter != nil || !l.Edited {
		t.Errorf("look after the edit %+v; want no visitors, 120 ml, no meter", l)
	}
}

func TestHarvestsSamplesAndScrapsAreWrittenTakenBackAndBroughtBack(t *testing.T) {
	b := newBench(t)
	harvest := b.do(journal.Intent{Do: journal.DoHarvest, Tray: b.fern, Method: record.ByLight, Grams: 2_400, Worms: 35, Guest: "Ida"})
	sample := b.do(journal.Intent{Do: journal.DoSample, Tray: b.fern, Scoops: 3, ML: 250, Adults: 14, Young: 20})
	frozen := b.do(journal.Intent{Do: journal.DoFreeze, Items: []record.Item{{Scrap: "carrot", Grams: 300}}})
	b.do(journal.Intent{Do: journal.DoFreeze, Items: []record.Item{{Scrap: "carrot", Grams: -120}}})
	b.do(journal.Intent{Do: journal.DoDiscard, Items: []record.Item{{Scrap: "carrot", Grams: 40}}})
	h := b.reader.Household()
	if x := h.Harvests[0]; x.ID != harvest || x.Batch != b.batch || x.Bin != b.bin || x.Mass != 2_400 || x.Worms != 35 || x.Who.Guest != "Ida" {
		t.Errorf("harvest %+v; want 2400 g of Fern's batch by Ida", x)
	}
	if s := h.Samples[0]; s.ID != sample || s.Bin != b.bin || s.Scoops != 3 || s.ML != 250 || s.Adults != 14 || s.Young != 20 || s.Cocoons != 0 || s.Who.Member != b.tamsin {
		t.Errorf("sample %+v; want 14 adults and 20 young in three scoops", s)
	}
	if len(h.Freezer) != 2 || record.Total(h.Freezer[0].Items)+record.Total(h.Freezer[1].Items) != 180 || record.Total(h.Discards[0].Items) != 40 {
		t.Errorf("freezer %+v, waste %+v; want 180 g and 40 g", h.Freezer, h.Discards)
	}
	for _, ent := range []string{harvest, sample, frozen} {
		b.do(journal.Intent{Do: journal.DoUndo, Entity: ent})
	}
	h = b.reader.Household()
	if len(h.Harvests)+len(h.Samples) != 0 || len(h.Freezer) != 1 || len(h.Undone.Harvests) != 1 || len(h.Undone.Samples) != 1 || len(h.Undone.Freezer) != 1 {
		t.Errorf("after undo: %+v, undone %+v; want all three taken back", h.Harvests, h.Undone)
	}
	b.do(journal.Intent{Do: journal.DoRedo, Entity: harvest})
	b.do(journal.Intent{Do: journal.DoEdit, Entity: harvest, Set: map[string]any{"grams": 2_500}})
	if h = b.reader.Household(); len(h.Harvests) != 1 || h.Harvests[0].Mass != 2_500 || len(h.Undone.Harvests) != 0 {
		t.Errorf("harvests %+v; want one of 2500 g again", h.Harvests)
	}
}

func TestAPictureThatIsRemovedStaysAway(t *testing.T) {
	b := newBench(t)
	picture := journal.Intent{Do: journal.DoPhoto, Of: b.look, Hash: strings.Repeat("0a", 32), Type: "image/jpeg", Width: 1200, Height: 900, Bytes: 80_000}
	ent := b.do(picture)
	if p := b.reader.Household().Photos[0]; p.ID != ent || p.Of != b.look || p.Hash != picture.Hash || p.Width != 1200 || p.Bytes != 80_000 {
		t.Errorf("photo %+v; want the picture of the look", p)
	}
	b.do(journal.Intent{Do: journal.DoUndo, Entity: ent})
	if _, err := b.write(journal.Intent{Do: journal.DoRedo, Entity: ent}); err == nil || len(b.reader.Household().Photos) != 0 {
		t.Errorf("photos %v, redo %v; want none, and a refusal", b.reader.Household().Photos, err)
	}
	if gone := b.reader.Household().Undone.Photos; len(gone) != 1 || gone[0].Hash != picture.Hash {
		t.Errorf("removed photos %+v; want its hash, so that the picture is deleted", gone)
	}
}

func TestRulesMeasuresAndHotWeeksAreTheHouseholdsOwn(t *testing.T) {
	b := newBench(t)
	ent := b.do(journal.Intent{Do: journal.DoRule, Scrap: "onion", Verdict: record.RuleLittle, Note: "smells for days"})
	b.do(journal.Intent{Do: journal.DoRule, Entity: ent, Verdict: record.RuleNever})
	b.do(journal.Intent{Do: journal.DoHousehold, Set: map[string]any{"handful": 12, "handfulOf": "corrugated-cardboard", "bucket": 9_000}})
	b.do(journal.Intent{Do: journal.DoBin, Entity: b.bin, Set: map[string]any{"placing": "layer", "hotUntil": "2026-08-01"}})
	b.do(journal.Intent{Do: journal.DoTray, Entity: b.fern, Set: map[string]any{"empty": 900}})
	h := b.reader.Household()
	if len(h.Rules) != 1 {
		t.Fatalf("rules %+v; want onion never", h.Rules)
	}
	rule := h.Rules[0]
	want := record.HouseRule{ID: ent, Scrap: "onion", Verdict: record.RuleNever, Note: "smells for days", Edited: true}
	want.Logger, want.At, want.Day = rule.Logger, rule.At, rule.Day
	if rule != want || rule.Logger == "" || rule.At == "" || rule.Day < record.Earliest {
		t.Errorf("rule %+v; want onion never, changed once, with who and when", rule)
	}
	if h.Measures != (record.Measures{Handful: 12, HandfulOf: "corrugated-cardboard", Bucket: 9_000}) || h.Trays[0].Empty != 900 {
		t.Errorf("measures %+v, empty tray %d g; want 12 g, 9 l, 900 g", h.Measures, h.Trays[0].Empty)
	}
	if bin := h.Bins[0]; bin.Placing != record.Layer || bin.HotUntil == nil || bin.HotUntil.String() != "2026-08-01" || h.Bins[1].Placing != record.Pocket {
		t.Errorf("bins %+v; want the first fed in layers and hot until August, the second in pockets", h.Bins)
	}
	b.do(journal.Intent{Do: journal.DoUndo, Entity: ent})
	if got := b.reader.Household().Rules; len(got) != 0 {
		t.Errorf("rules %+v; want none", got)
	}
}

func TestAFeedingWrittenDownLaterSaysSo(t *testing.T) {
	b := newBench(t)
	b.do(journal.Intent{Do: journal.DoFeed, Tray: b.fern, About: true, Day: "2026-09-20", Items: []record.Item{{Scrap: "carrot", Grams: 50}}})
	h := b.reader.Household()
	for _, f := range h.Feedings {
		if f.About != (f.Day.String() == "2026-09-20") {
			t.Errorf("feeding of %s about: %v", f.Day, f.About)
		}
	}
}
