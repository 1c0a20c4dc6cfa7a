// Command scan makes the frames that decoders of labels are compared on, and runs
// the one that is written in Go. It is what "go run ./cmd/dev bench scan" starts,
// a program of its own because cmd/dev imports nothing of the product; the other
// decoders and the table are in pwa/e2e/decoders.ts.
//
//	scan render DIR    draws labels as server/sheet prints them and photographs them
//	scan read DIR      reads the frames by gozxing; built for js/wasm, as the engine would
//
// The frames are invented: they rank decoders, and tell no phone's rate of reads.
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
)

// frame is one photograph: a file of eight-bit grey in DIR.
type frame struct {
	File      string `json:"file"`
	Condition string `json:"condition"`
	Text      string `json:"text"` // what the label says
	Width     int    `json:"width"`
	Height    int    `json:"height"`
}

// index names the list of frames.
const index = "frames.json"

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "scan:", err)
		os.Exit(1)
	}
}

func run(args []string) error {
	if len(args) != 2 || (args[0] != "render" && args[0] != "read") {
		return fmt.Errorf("usage: scan render|read DIR")
	}
	if args[0] == "render" {
		return render(args[1])
	}
	return read(args[1])
}

func frames(dir string) ([]frame, error) {
	b, err := os.ReadFile(filepath.Join(dir, index))
	if err != nil {
		return nil, err
	}
	var all []frame
	return all, json.Unmarshal(b, &all)
}

func writeJSON(path string, v any) error {
	b, err := json.Marshal(v)
	if err != nil {
		return err
	}
	return os.WriteFile(path, b, 0o644)
}
