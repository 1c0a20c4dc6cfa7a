//go:build !js

package colony

import (
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// A phone with an ARM processor runs wasm, which has no fused multiply-add; a
// server with one would use it wherever the source lets it. This looks at the
// code that the compiler makes for arm64.
func TestNothingIsFusedOnARM(t *testing.T) {
	cmd := exec.Command("go", "build", "-o", os.DevNull, "-gcflags=-S", ".")
	cmd.Env = append(os.Environ(), "GOARCH=arm64", "GOOS=linux", "CGO_ENABLED=0")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	if !strings.Contains(string(out), "FMULD") {
		t.Fatal("the compiler showed no code, so this test sees nothing")
	}
	fused := regexp.MustCompile(`\(([^()]*\.go:\d+)\)\s+FN?M(?:ADD|SUB)D`).FindAllStringSubmatch(string(out), -1)
	var places []string
	for _, f := range fused {
		if !slices.Contains(places, f[1]) {
			places = append(places, f[1])
		}
	}
	if len(places) > 0 {
		t.Errorf("fused on arm64, wrap the product in float64(): %s", strings.Join(places, ", "))
	}
}
