package ration_test

import (
	"testing"

	"trayside/internal/ration"
	"trayside/internal/record"
	"trayside/internal/units"
)

func TestHoldsHaveACauseAReleaseAndAnEnd(t *testing.T) {
	look := func(id string, ago record.Day, tray, smell string) record.Look {
		return record.Look{ID: id, Tray: tray, Smell: smell, Day: today - ago}
	}
	hot, warm, mild := units.DeciCelsius(310), units.DeciCelsius(290), units.DeciCelsius(270)
	for _, c := range []struct {
		name  string
		looks []record.Look
		bed   units.DeciCelsius
		cause string
		entry string
		end   record.Day
	}{
		{"ammonia yesterday", []record.Look{look("a", 1, "top", "ammonia")}, 220, "ammonia", "a", today + 6},
		{"ammonia in another tray of the bin", []record.Look{look("a", 1, "old", "ammonia")}, 220, "ammonia", "a", today + 6},
		{"a sour smell here", []record.Look{look("a", 0, "top", "sour")}, 220, "sour", "a", today + 7},
		{"rot here", []record.Look{look("a", 6, "top", "rot")}, 220, "rot", "a", today + 1},
		{"a sour smell in another tray", []record.Look{look("a", 1, "old", "sour")}, 220, "", "", 0},
		{"a sour smell a week ago", []record.Look{look("a", 7, "top", "sour")}, 220, "", "", 0},
		{"a sour smell that has gone since", []record.Look{look("a", 3, "top", "sour"), look("b", 1, "top", "earthy")}, 220, "", "", 0},
		{"a later look that noted no smell", []record.Look{look("a", 3, "top", "sour"), look("b", 1, "top", "")}, 220, "sour", "a", today + 4},
		{"a smell noted for tomorrow", []record.Look{look("a", -1, "top", "sour")}, 220, "", "", 0},
		{"ammonia of another tray, while this one smells of earth", []record.Look{look("a", 2, "old", "ammonia"), look("b", 1, "top", "earthy")}, 220, "ammonia", "a", today + 5},
		{"a hot bed, read", []record.Look{{ID: "t", Tray: "top", Temp: &hot, TempOf: "bed", Day: today - 1}}, 305, "hot-bed", "t", today + 2},
		{"a hot bed, worked out", nil, 300, "hot-bed", "", today + 3},
		{"heat comes before smells", []record.Look{look("a", 1, "top", "sour")}, 300, "hot-bed", "", today + 3},
		{"a hot bed read yesterday, whose reading has faded", []record.Look{{ID: "t", Tray: "top", Temp: &hot, TempOf: "bed", Day: today - 1}}, 270, "hot-bed", "t", today + 2},
		{"a hot bed read three days ago", []record.Look{{ID: "t", Tray: "top", Temp: &hot, TempOf: "bed", Day: today - 3}}, 270, "", "", 0},
		{"a hot bed that reads below 28 °C again", []record.Look{{ID: "t", Tray: "top", Temp: &hot, TempOf: "bed", Day: today - 1}, {ID: "u", Tray: "top", Temp: &mild, TempOf: "bed", Day: today}}, 270, "", "", 0},
		{"a hot bed that reads 29 °C", []record.Look{{ID: "t", Tray: "top", Temp: &hot, TempOf: "bed", Day: today - 1}, {ID: "u", Tray: "top", Temp: &warm, TempOf: "bed", Day: today}}, 290, "hot-bed", "t", today + 2},
		{"a hot room", []record.Look{{ID: "t", Tray: "top", Temp: &hot, TempOf: "room", Day: today - 1}}, 270, "", "", 0},
		{"nothing amiss", nil, 220, "", "", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := checked(t, with(established(), func(in *ration.Input) {
				in.Looks, in.Estimate.Bed = c.looks, c.bed
				in.InHand = []record.Item{{Scrap: "carrot", Grams: 300}}
			}))
			if c.cause == "" {
				if r.Hold != nil || r.Grams == 0 {
					t.Fatalf("got %d g and hold %+v, want food", r.Grams, r.Hold)
				}
				return
			}
			if r.Hold == nil {
				t.Fatal("no hold")
			}
			if h := *r.Hold; h.Cause != c.cause || h.Entry != c.entry || h.End != c.end || h.Until == "" || h.Look < today || h.Look > h.End {
				t.Errorf("got %+v, want cause %s, entry %q, end %s", h, c.cause, c.entry, c.end)
			}
			wantShares(t, r, ration.Cover, ration.Share{To: "freezer", Grams: 300})
			if r.Move == "" || r.Binds == "" {
				t.Errorf("a hold without a move or a cause that binds: %q, %q", r.Move, r.Binds)
			}
		})
	}
}

func TestAfterAHoldMealsAreHalvedUntilSomebodyHasSmelledAgain(t *testing.T) {
	full := checked(t, established()).Grams
	for _, c := range []struct {
		name   string
		looks  []record.Look
		halved bool
	}{
		{"nobody since", []record.Look{{ID: "a", Tray: "top", Smell: "rot", Day: today - 8}}, true},
		{"nobody for a month", []record.Look{{ID: "a", Tray: "top", Smell: "rot", Day: today - 28}}, false},
		{"earthy since", []record.Look{{ID: "a", Tray: "top", Smell: "rot", Day: today - 8}, {ID: "b", Tray: "top", Smell: "earthy", Day: today - 1}}, false},
		{"another tray's", []record.Look{{ID: "a", Tray: "old", Smell: "rot", Day: today - 8}}, false},
	} {
		r := checked(t, with(established(), func(in *ration.Input) { in.Looks = c.looks }))
		if r.Hold != nil || hasRow(r, "after-smell") != c.halved || c.halved && (r.Grams > full*6/10 || r.Grams == 0 || r.Move != "look") {
			t.Errorf("%s: %d g of %d, move %s, hold %v; halved should be %v", c.name, r.Grams, full, r.Move, r.Hold, c.halved)
		}
	}
}
