package journal_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/internal/units"
	"trayside/sync/oplog"
	"trayside/sync/replica"
)

// drawIntent draws something that a person could ask for, good or bad.
func drawIntent(t *rapid.T, b *bench, entries []string) journal.Intent {
	grams := func(label string) units.Grams { return units.Grams(rapid.IntRange(-1, 400).Draw(t, label)) }
	tray := rapid.SampledFrom([]string{b.fern, b.slate, b.old}).Draw(t, "tray")
	entry := rapid.SampledFrom(entries).Draw(t, "entry")
	items := []record.Item{
		{Scrap: "carrot", Grams: grams("carrot"), Cut: rapid.Bool().Draw(t, "cut")},
		{Scrap: "other", Class: "leafy", Name: rapid.SampledFrom([]string{"", "soupe à l'oignon", `"quoted"`}).Draw(t, "name"), Grams: grams("other")},
	}
	spot := rapid.SampledFrom(record.Spots[:]).Draw(t, "spot")
	count := func(label string) int64 { return rapid.Int64Range(-1, 60).Draw(t, label) }
	switch rapid.IntRange(0, 16).Draw(t, "do") {
	case 0, 1:
		return journal.Intent{Do: journal.DoFeed, Tray: tray, Spot: spot, Items: items, Guest: rapid.StringN(0, 5, 40).Draw(t, "guest")}
	case 2:
		return journal.Intent{Do: journal.DoBowl, Items: items}
	case 3:
		return journal.Intent{Do: journal.DoPlace, Bowl: entry, Shares: []journal.Share{
			{To: journal.ToTray, Tray: tray, Spot: spot, Grams: int64(grams("share"))}, {To: journal.ToFreezer, Grams: 20},
		}}
	case 4:
		temp := int64(rapid.IntRange(-50, 400).Draw(t, "temp"))
		return journal.Intent{Do: journal.DoLook, Tray: tray, Leftovers: record.LeftSome, Temp: &temp, Note: rapid.StringN(0, 8, 60).Draw(t, "note")}
	case 5:
		return journal.Intent{Do: journal.DoUndo, Entity: entry}
	case 6:
		return journal.Intent{Do: journal.DoRedo, Entity: entry}
	case 7:
		return journal.Intent{Do: journal.DoEdit, Entity: entry, Set: map[string]any{"items": items[:1]}, Day: rapid.SampledFrom([]string{"", "2026-09-20"}).Draw(t, "day")}
	case 8:
		return journal.Intent{Do: journal.DoStack, Bin: b.bin, Set: map[string]any{"trays": []string{tray}}}
	case 9:
		liquid, fill := count("liquid"), count("fill")
		return journal.Intent{
			Do: journal.DoLook, Tray: tray, Visitors: rapid.SliceOfN(rapid.SampledFrom(record.Visitors), 0, 3).Draw(t, "visitors"),
			Covered: rapid.Bool().Draw(t, "covered"), Liquid: &liquid, Fill: &fill, Signs: []string{"sour-smell"},
			Unlogged: rapid.SampledFrom([]string{"", "yes", "no"}).Draw(t, "unlogged"),
		}
	case 10:
		return journal.Intent{Do: journal.DoSample, Tray: tray, Scoops: count("scoops"), ML: 250, Adults: count("adults"), Cocoons: count("cocoons")}
	case 11:
		return journal.Intent{Do: journal.DoHarvest, Tray: tray, Method: record.ByLight, Grams: count("castings"), Worms: count("back")}
	case 12:
		return journal.Intent{Do: journal.DoPhoto, Of: entry, Hash: strings.Repeat("0a", 32), Type: "image/jpeg", Bytes: count("bytes")}
	case 13:
		return journal.Intent{Do: journal.DoRule, Scrap: "onion", Verdict: rapid.SampledFrom([]record.RuleVerdict{"little", "never"}).Draw(t, "verdict")}
	case 14:
		return journal.Intent{Do: journal.DoFreeze, Items: items}
	case 15:
		return journal.Intent{Do: journal.DoDiscard, Items: items[:1], Bowl: entry}
	default:
		return journal.Intent{Do: journal.DoWorms, Bin: b.bin, Tray: tray, Set: map[string]any{"move": "added", "mass": int64(grams("worms"))}}
	}
}

func TestWhateverPeopleDoTheOrderOfArrivalDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := newBench(t)
		entries := []string{b.feeding, b.bowl}
		var ops []oplog.Sealed
		for range rapid.IntRange(1, 25).Draw(rt, "intents") {
			w, err := journal.Write(b.scene(), drawIntent(rt, b, entries))
			if err != nil {
				continue // refused: nothing was written
			}
			ops = append(ops, w.Ops...)
			entries = append(entries, w.Entities...)
			if rapid.Bool().Draw(rt, "seen") {
				b.add(ops...) // otherwise the next intent is written without knowing of this one
			}
		}
		b.add(ops...)
		want := b.reader.Household() // touched entry by entry
		if len(want.Aside) != 0 || want.Unread != 0 {
			rt.Fatalf("the journal wrote what its own schema sets aside: %v", want.Aside)
		}

		others := replica.New(journal.Schema())
		early := journal.NewReader(others)
		all := slices.Concat(b.founding, ops)
		order := rand.New(rand.NewPCG(rapid.Uint64().Draw(rt, "order"), 0))
		order.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
		for i, op := range all {
			others.Add(op)
			early.Touch(op.Op.Ent)
			if i == len(all)/2 {
				early.Household()
			}
		}
		same(rt, "a phone that read half way", early.Household(), want)
		same(rt, "a phone that reads everything at the end", journal.Read(others), want)

		kept, err := replica.Restore(others.Snapshot(), journal.Schema())
		if err != nil {
			rt.Fatal(err)
		}
		same(rt, "a phone that starts from a checkpoint", journal.Read(kept), want)
	})
}

func same(t *rapid.T, what string, got, want *record.Household) {
	if plainly(got) == plainly(want) {
		return
	}
	t.Fatalf("%s: record\n%s\nwant\n%s", what, plainly(got), plainly(want))
}

// plainly shows a record; to its readers an empty list and none are the same.
func plainly(h *record.Household) string {
	b, err := json.Marshal(h)
	if err != nil {
		return fmt.Sprint(err)
	}
	return strings.ReplaceAll(string(b), ":[]", ":null")
}
