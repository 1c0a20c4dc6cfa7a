//go:build !(js && wasm)

package main

import (
	"fmt"
	"os"
)

// main exists so that the whole module builds and vets on any machine.
func main() {
	fmt.Fprintln(os.Stderr, "engine: this program runs in the phone app; build it with GOOS=js GOARCH=wasm, or run `go run ./cmd/dev gen`")
	os.Exit(2)
}
