package advice_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"trayside/internal/advice"
	"trayside/internal/record"
	"trayside/internal/units"
)

func frozen(day record.Day, items ...record.Item) record.Freezing {
	return record.Freezing{ID: fmt.Sprintf("freezing/%d-%d", day, len(items)), Items: items, Day: day, At: clock(day, "20:00")}
}

func TestTheFreezerCountsByKindAndTheOldestComesOutFirst(t *testing.T) {
	h := household()
	h.Bowls = nil
	h.Freezer = []record.Freezing{
		frozen(today-30, record.Item{Scrap: "melon-rind", Grams: 500}),
		frozen(today-20, record.Item{Scrap: "carrot", Grams: 200}, record.Item{Scrap: "melon-rind", Grams: 100}),
		frozen(today-10, record.Item{Scrap: "melon-rind", Grams: -550}),
		frozen(today+1, record.Item{Scrap: "kale", Grams: 900}), // not yet
	}
	v := advice.New(h, today, advice.Phone{}).Freezer()
	if v.Grams != 250 || len(v.Kinds) != 2 {
		t.Fatalf("%d g in %d kinds, want 250 g in 2: %+v", v.Grams, len(v.Kinds), v.Kinds)
	}
	if k := v.Kinds[0]; k.Item.Scrap != "carrot" || k.Item.Grams != 200 || k.Day != (today-20).String() {
		t.Errorf("first %+v, want the 200 g of carrot that lie there longest", k)
	}
	if k := v.Kinds[1]; k.Item.Scrap != "melon-rind" || k.Item.Grams != 50 || k.Day != (today-20).String() {
		t.Errorf("second %+v, want the 50 g of melon that the newer lot has left", k)
	}
}

func TestWhatComesOutWithoutALotOfItsKindComesOffTheOldest(t *testing.T) {
	h := household()
	h.Freezer = []record.Freezing{
		frozen(today-9, record.Item{Scrap: "carrot", Grams: 300}),
		frozen(today-5, record.Item{Scrap: "kale", Grams: -120}),
	}
	if v := advice.New(h, today, advice.Phone{}).Freezer(); v.Grams != 180 {
		t.Errorf("%d g, want 180", v.Grams)
	}
}

func TestTheLotsOfTheFreezerNeverFallBelowNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := household()
		h.Freezer, h.Bins, h.Trays = nil, nil, nil // the freezer is the household's, whatever its bins need
		var in, out units.Grams
		for i := range rapid.IntRange(0, 12).Draw(t, "freezings") {
			g := units.Grams(rapid.Int64Range(-900, 900).Draw(t, "g"))
			in, out = in+max(g, 0), out+max(-g, 0)
			f := frozen(today-20+record.Day(i), record.Item{Scrap: rapid.SampledFrom([]string{"carrot", "kale", "melon-rind"}).Draw(t, "scrap"), Grams: g})
			h.Freezer = append(h.Freezer, f)
		}
		a := advice.New(h, today, advice.Phone{})
		v := a.Freezer()
		var kinds int64
		for _, k := range v.Kinds {
			if k.Item.Grams <= 0 {
				t.Fatalf("%d g of %s", k.Item.Grams, k.Item.Scrap)
			}
			kinds += k.Item.Grams
		}
		if kinds != v.Grams || v.Grams > int64(in) || v.Grams < int64(in-out) {
			t.Fatalf("%d g in kinds, %d in all, of %d in and %d out", kinds, v.Grams, in, out)
		}
		if got := a.Today().Freezer; got != v.Grams {
			t.Fatalf("Today says %d g, the freezer %d", got, v.Grams)
		}
	})
}

func TestBowlsAreSplitOneAfterTheOther(t *testing.T) {
	h := household()
	h.Bowls = nil
	one := advice.New(h, today, advice.Phone{}).Today()
	may := map[string]int64{}
	for _, b := range one.Bins {
		may[b.Tray] = b.Ration.Grams
	}
	for i := range 3 {
		h.Bowls = append(h.Bowls, record.Bowl{ID: fmt.Sprintf("bowl/%d", i), How: record.ByScale, Day: today, At: clock(today, "12:00"), Items: []record.Item{{Scrap: "carrot", Grams: 300}}})
	}
	v := advice.New(h, today, advice.Phone{}).Today()
	got := map[string]int64{}
	for _, b := range v.Bowls {
		var all int64
		for _, s := range b.Split {
			got[s.Tray] += s.Grams
			all += s.Grams
		}
		if all != b.Grams {
			t.Errorf("%s is split into %d g of %d", b.ID, all, b.Grams)
		}
	}
	for tray, grams := range may {
		if got[tray] > grams {
			t.Errorf("%s gets %d g of three bowls, its ration is %d", tray, got[tray], grams)
		}
	}
	if got[""] == 0 {
		t.Error("900 g are more than the rations; the rest must go to the freezer")
	}
}

func TestTheFreezerIsOfferedOnlyTheRoomThatBowlsLeave(t *testing.T) {
	h := household()
	h.Bowls = nil
	h.Freezer = []record.Freezing{frozen(today-3, record.Item{Scrap: "carrot", Grams: 5000})}
	v := advice.New(h, today, advice.Phone{}).Today()
	var rations, shares int64
	for _, b := range v.Bins {
		rations += b.Ration.Grams
	}
	if v.Thaw == nil || rations == 0 || v.Thaw.Grams != rations {
		t.Fatalf("no bowl waits: %+v to thaw, want the rations' %d g", v.Thaw, rations)
	}
	for _, s := range v.Thaw.Shares {
		shares += s.Grams
	}
	if it := v.Thaw.Items; shares != rations || len(it) != 1 || it[0].Grams != rations || !it[0].Frozen {
		t.Errorf("%d g in shares and %+v, want %d g in both", shares, it, rations)
	}
	h.Bowls = []record.Bowl{{ID: "bowl/big", How: record.ByScale, Day: today, At: clock(today, "12:00"), Items: []record.Item{{Scrap: "carrot", Grams: 5000}}}}
	if v := advice.New(h, today, advice.Phone{}).Today(); v.Thaw != nil {
		t.Errorf("a bowl takes all the room: %+v to thaw, want nothing", v.Thaw)
	}
	room := advice.New(h, today, advice.Phone{}).Freezer()
	if len(room.Room) != 0 || room.Next == "" {
		t.Errorf("a bowl takes all the room: %+v and next %q, want none and the next meal's day", room.Room, room.Next)
	}
}
