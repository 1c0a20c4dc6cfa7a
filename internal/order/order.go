// Package order sorts lists of things. One routine serves every type: those of
// package slices are compiled anew for each type they sort, which together made
// the phone's engine some 30 kB larger to fetch.
package order

import "sort"

// By sorts list by compare, which is negative where a comes before b. What
// compares equal stays in its order.
func By[T any](list []T, compare func(a, b T) int) {
	sort.SliceStable(list, func(i, j int) bool { return compare(list[i], list[j]) < 0 })
}
