//go:build !linux

package main

// limitMemory leaves the heap as it is: small boards run Linux.
func limitMemory() {}
