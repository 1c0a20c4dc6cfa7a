package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"trayside/cmd/dev/tree"
	"trayside/cmd/dev/typegen"
)

const (
	module    = "trayside"
	typesFile = "pwa/src/types.gen.ts"
)

// crossing lists the packages whose types cross the border to the phone app.
var crossing = []typegen.Source{
	{Dir: "internal/advice"},
	{Dir: "internal/label", Types: []string{"Sheet"}},
	{Dir: "internal/journal", Types: []string{"Intent"}},
	{Dir: "internal/record", Types: []string{"Item", "Species", "Goal", "Stage", "WormMove", "How", "Leftovers"}},
	{Dir: "sync/exchange"},
	{Dir: "pwa/engine/phone"},
}

func writeTypes(t tree.Tree) error {
	ts, err := typegen.Generate(t.Root, module, crossing)
	if err != nil {
		return err
	}
	wrote, err := t.WriteFile(typesFile, []byte(ts))
	if wrote {
		fmt.Fprintln(t.Out, "wrote", typesFile)
	}
	return err
}

var errStale = errors.New(typesFile + " is stale: a Go struct that crosses the border changed; run \"go run ./cmd/dev gen\" and commit the file")

func checkTypes(t tree.Tree) error {
	want, err := typegen.Generate(t.Root, module, crossing)
	if err != nil {
		return err
	}
	got, err := os.ReadFile(t.Path(typesFile))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if !bytes.Equal(got, []byte(want)) {
		return errStale
	}
	return nil
}
