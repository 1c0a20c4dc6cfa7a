package advice

import (
	"testing"

	"trayside/internal/colony"
	"trayside/internal/record"
)

// A meal of day 100 was promised to be gone by 103, between 102 and 105.
func TestALookSettlesAPromise(t *testing.T) {
	const day = record.Day(100)
	said := colony.Forecast{Mid: day + 2, By: day + 3, Early: day + 2, Late: day + 5, Gone: true}
	look := func(after record.Day, left record.Leftovers) record.Look {
		return record.Look{Tray: "tray/a", Day: day + after, At: "08", Leftovers: left}
	}
	spot := func(l record.Look, s string) record.Look { l.Spot = s; return l }
	for _, row := range []struct {
		name          string
		looks         []record.Look
		second        *colony.Meal
		kept, settled bool
	}{
		{"nobody looked", nil, nil, false, false},
		{"gone before the promised day", []record.Look{look(2, record.LeftNone)}, nil, true, true},
		{"hard bits are no food", []record.Look{look(3, record.LeftHard)}, nil, true, true},
		{"still there before the promised day says nothing yet", []record.Look{look(2, record.LeftMost)}, nil, false, false},
		{"still there on the promised day", []record.Look{look(3, record.LeftSome)}, nil, false, true},
		{"gone within the span, first look since", []record.Look{look(5, record.LeftNone)}, nil, true, true},
		{"gone after the span: nobody knows when", []record.Look{look(6, record.LeftNone)}, nil, false, false},
		{"still there after the span", []record.Look{look(9, record.LeftHalf)}, nil, false, true},
		{"the first look from the promised day on decides", []record.Look{look(1, record.LeftMost), look(4, record.LeftSome), look(5, record.LeftNone)}, nil, false, true},
		{"a look before the meal does not count", []record.Look{{Tray: "tray/a", Day: day, At: "08", Leftovers: record.LeftNone}}, nil, false, false},
		{"a look without a word on leftovers does not count", []record.Look{look(2, "")}, nil, false, false},
		{"a look elsewhere does not count", []record.Look{spot(look(2, record.LeftNone), "right")}, nil, false, false},
		{"a newer meal in the same view hides it", []record.Look{look(4, record.LeftSome)}, &colony.Meal{Tray: "tray/a", Spot: "left", Day: day + 2, At: "18"}, false, false},
		{"a newer meal at another spot does not, if the look names the spot", []record.Look{spot(look(3, record.LeftSome), "left")}, &colony.Meal{Tray: "tray/a", Spot: "right", Day: day + 2, At: "18"}, false, true},
	} {
		t.Run(row.name, func(t *testing.T) {
			in := &colony.Input{Today: day + 30, Looks: row.looks, Meals: []colony.Meal{{Tray: "tray/a", Spot: "left", Day: day, At: "18"}}}
			if row.second != nil {
				in.Meals = append(in.Meals, *row.second)
			}
			if kept, settled := settle(in, 0, said); kept != row.kept || settled != row.settled {
				t.Errorf("kept %v, settled %v, want %v and %v", kept, settled, row.kept, row.settled)
			}
		})
	}
}
