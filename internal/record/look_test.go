package record_test

import (
	"testing"

	"trayside/internal/record"
)

func TestALookThatOnlyTellsOfCoveringSaysNothingOfTheBed(t *testing.T) {
	nothing := int64(0)
	for _, tc := range []struct {
		name string
		look record.Look
		want bool
	}{
		{"covered as told", record.Look{Covered: true, Tray: "tray/1", Spot: "left"}, false},
		{"covered, and leftovers", record.Look{Covered: true, Leftovers: record.LeftNone}, true},
		{"nothing drained", record.Look{Liquid: &nothing}, true},
		{"a visitor", record.Look{Visitors: []string{"mites"}}, true},
		{"a sign of trouble", record.Look{Signs: []string{"sour-smell"}}, true},
		{"nobody fed in secret", record.Look{Unlogged: "no"}, true},
	} {
		if got := tc.look.Says(); got != tc.want {
			t.Errorf("%s: Says() = %v; want %v", tc.name, got, tc.want)
		}
	}
}
