package order

import (
	"cmp"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestSortsAsTheStableSortOfTheStandardLibraryDoes(t *testing.T) {
	type thing struct{ rank, at int }
	rapid.Check(t, func(t *rapid.T) {
		var list []thing
		for at, rank := range rapid.SliceOf(rapid.IntRange(0, 9)).Draw(t, "ranks") {
			list = append(list, thing{rank, at})
		}
		compare := func(a, b thing) int { return cmp.Compare(a.rank, b.rank) }
		want := slices.Clone(list)
		slices.SortStableFunc(want, compare)
		By(list, compare)
		if !slices.Equal(list, want) {
			t.Fatalf("By = %v, want %v", list, want)
		}
	})
}
