package store

import (
	"go/build"
	"testing"
)

// A 32-bit build must end at the sentence in narrow.go, a 64-bit one never.
func TestOnlyA64BitSystemGetsTheDatabase(t *testing.T) {
	for arch, wide := range map[string]bool{"386": false, "arm": false, "mips": false, "mipsle": false, "amd64": true, "arm64": true, "riscv64": true, "wasm": true} {
		ctx := build.Default
		ctx.GOARCH = arch
		for file, want := range map[string]bool{"narrow.go": !wide, "badger.go": wide, "shelf.go": wide, "locked.go": wide, "audit.go": wide} {
			if got, err := ctx.MatchFile(".", file); err != nil || got != want {
				t.Errorf("%s on %s: built %v (%v), want %v", file, arch, got, err, want)
			}
		}
	}
}
