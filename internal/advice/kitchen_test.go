package advice_test

import (
	"testing"

	"trayside/internal/advice"
	"trayside/internal/record"
)

func TestAKitchenIsAMeanWeekOfWhatItMade(t *testing.T) {
	h := &record.Household{
		Zone: "Australia/Hobart",
		Bins: []record.Bin{{ID: "bin/gone", Gone: true, RoomCoolest: 10}, {ID: "bin/1", RoomCoolest: 90, RoomWarmest: 240}},
		Feedings: []record.Feeding{
			{Bin: "bin/1", Day: today - 300, Items: []record.Item{{Scrap: "carrot", Grams: 9_000}}},
			{Bin: "bin/1", Day: today - 13, How: record.ByScale, Items: []record.Item{{Scrap: "carrot", Grams: 800}}},
			{Bin: "bin/1", Day: today - 3, How: record.ByScale, Items: []record.Item{{Scrap: "other", Class: "leafy", Name: "nettles", Grams: 400}}},
			{Bin: "bin/1", Day: today, How: record.Unweighed, Items: []record.Item{{Scrap: "carrot"}}},
		},
		Freezer: []record.Freezing{
			{Day: today - 9, Items: []record.Item{{Scrap: "melon-rind", Grams: 600}}},
			{Day: today - 3, Items: []record.Item{{Scrap: "melon-rind", Grams: -200}}},
		},
		Discards: []record.Discard{{Day: today - 2, Items: []record.Item{{Scrap: "carrot", Grams: 200}}}},
	}
	k := advice.KitchenOf(h, today)
	want := []record.Item{{Scrap: "carrot", Grams: 900}, {Scrap: "kitchen-mixed", Grams: 200}, {Scrap: "melon-rind", Grams: 200}}
	if len(k.Week) != 3 || k.Week[0] != want[0] || k.Week[1] != want[1] || k.Week[2] != want[2] {
		t.Errorf("week %+v; want %+v: two weeks, the meal not weighed taken for the bin's usual 800 g", k.Week, want)
	}
	if !k.Room || k.Coolest != 90 || k.Warmest != 240 || !k.South {
		t.Errorf("room %+v; want that of the bin in use, in the south", k)
	}
	if empty := advice.KitchenOf(&record.Household{}, today); empty.Week != nil || empty.Room {
		t.Errorf("an empty record tells %+v; want nothing", empty)
	}
}
