// Package order sorts lists of things. One routine serves every type: those of
// package slices are compiled anew for each type they sort, which together made
// the phone's engine some 30 kB larger to fetch.
package order

import "slices"

// By sorts list by compare, which is negative where a comes before b. What
// compares equal stays in its order.
func By[T any](list []T, compare func(a, b T) int) {
	from := sorted(len(list), func(i, j int) int { return compare(list[i], list[j]) })
	before := slices.Clone(list)
	for i, at := range from {
		list[i] = before[at]
	}
}

// run is how many things are put in order one by one before runs are merged
// (common practice).
const run = 12

// sorted returns the indices 0 … n-1 in the order of what they stand for. It
// moves indices and not the things, which are large: sort.SliceStable takes three
// times as long for the entries of five years.
func sorted(n int, compare func(i, j int) int) []int {
	a, b := make([]int, n), make([]int, n)
	for i := range a {
		a[i] = i
	}
	for lo := 0; lo < n; lo += run {
		for i := lo + 1; i < min(lo+run, n); i++ {
			for j := i; j > lo && compare(a[j-1], a[j]) > 0; j-- {
				a[j-1], a[j] = a[j], a[j-1]
			}
		}
	}
	for width := run; width < n; width *= 2 {
		for lo := 0; lo < n; lo += 2 * width {
			mid, hi := min(lo+width, n), min(lo+2*width, n)
			merge(b[lo:hi], a[lo:mid], a[mid:hi], compare)
		}
		a, b = b, a
	}
	return a
}

// merge fills into with the two sorted lists; what compares equal comes from the
// first.
func merge(into, first, second []int, compare func(i, j int) int) {
	for k := range into {
		if len(second) == 0 || len(first) > 0 && compare(first[0], second[0]) <= 0 {
			into[k], first = first[0], first[1:]
		} else {
			into[k], second = second[0], second[1:]
		}
	}
}
