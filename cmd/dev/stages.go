package main

import (
	"bytes"
	"context"
	"fmt"
	"time"

	"trayside/cmd/dev/tree"
)

// stage is one step of a check: a name, what to do when it fails, and whether
// its output is worth reading when it passes.
type stage struct {
	name string
	mend string
	show bool
	run  func(ctx context.Context, t tree.Tree) error
}

// runStages runs stages in order and stops at the first that fails, with its
// output and what to do.
func runStages(ctx context.Context, t tree.Tree, stages []stage) error {
	began := time.Now()
	for _, s := range stages {
		var said bytes.Buffer
		start := time.Now()
		err := s.run(ctx, tree.Tree{Root: t.Root, Out: &said})
		took := time.Since(start).Round(100 * time.Millisecond)
		if err != nil {
			fmt.Fprintf(t.Out, "FAIL  %-28s %8s\n%s\n", s.name, took, said.Bytes())
			return fmt.Errorf("%s: %w\n%s", s.name, err, s.mend)
		}
		fmt.Fprintf(t.Out, "ok    %-28s %8s\n", s.name, took)
		if s.show {
			t.Out.Write(said.Bytes())
		}
	}
	fmt.Fprintf(t.Out, "all well in %s\n", time.Since(began).Round(time.Second))
	return nil
}
