package main

import (
	"math"
	"runtime/debug"
	"syscall"
)

// limitMemory lets the program's heap grow to a quarter of the machine's memory
// unless GOMEMLIMIT says otherwise: on a small board the collector would else
// let it grow to twice what the database needs.
func limitMemory() {
	var info syscall.Sysinfo_t
	if debug.SetMemoryLimit(-1) != math.MaxInt64 || syscall.Sysinfo(&info) != nil {
		return
	}
	const least = 48 << 20 // below this the collector would run all the time
	debug.SetMemoryLimit(max(least, int64(info.Totalram)*int64(info.Unit)/4))
}
