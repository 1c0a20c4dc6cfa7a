package record_test

import (
	"reflect"
	"testing"

	"trayside/internal/record"
	"trayside/internal/units"
)

func item(scrap string, grams units.Grams) record.Item {
	return record.Item{Scrap: scrap, Grams: grams}
}

func TestWhatIsLeftInABowl(t *testing.T) {
	full := []record.Item{item("carrot", 200), item("tea-leaves", 100)}
	for _, tc := range []struct {
		name  string
		bowl  []record.Item
		taken [][]record.Item
		want  []record.Item
	}{
		{"nothing was taken", full, nil, full},
		{"a part of one kind", full, [][]record.Item{{item("carrot", 50)}}, []record.Item{item("carrot", 150), item("tea-leaves", 100)}},
		{"one kind and a part of the other, in two goes", full, [][]record.Item{{item("carrot", 200)}, {item("tea-leaves", 60)}}, []record.Item{item("tea-leaves", 40)}},
		{"all of it", full, [][]record.Item{full}, nil},
		{"all of it, twice, out of sight", full, [][]record.Item{full, full}, nil},
		{"a kind that an edit took out of the bowl", full, [][]record.Item{{item("kale", 250)}}, []record.Item{item("tea-leaves", 50)}},
		{"something that nobody weighed", []record.Item{item("carrot", 0)}, nil, []record.Item{item("carrot", 0)}},
		{"something that nobody weighed, placed", []record.Item{item("carrot", 0)}, [][]record.Item{{item("carrot", 0)}}, nil},
	} {
		t.Run(tc.name, func(t *testing.T) {
			bowl := record.Bowl{ID: "bowl/1", Items: tc.bowl}
			h := record.Household{Bowls: []record.Bowl{bowl}, Feedings: []record.Feeding{{Bowl: "bowl/2", Items: full}, {Items: full}}}
			for i, items := range tc.taken {
				if i == 0 {
					h.Feedings = append(h.Feedings, record.Feeding{Bowl: bowl.ID, Items: items})
				} else {
					h.Freezer = append(h.Freezer, record.Freezing{Bowl: bowl.ID, Items: items})
				}
			}
			left := h.Left(bowl)
			if len(left) != len(tc.want) || len(left) > 0 && !reflect.DeepEqual(left, tc.want) {
				t.Errorf("Left = %v; want %v", left, tc.want)
			}
			waiting := h.Waiting()
			if len(tc.want) == 0 && len(waiting) != 0 || len(tc.want) > 0 && (len(waiting) != 1 || !reflect.DeepEqual(waiting[0].Items, tc.want)) {
				t.Errorf("Waiting = %v; want one bowl with %v, or none", waiting, tc.want)
			}
		})
	}
}
