package main

import (
	"context"
	"fmt"
	"io"
	"runtime/debug"
)

func runVersion(_ context.Context, args []string, stdout, stderr io.Writer) error {
	if err := parse(newFlags("version", "trayside version", stderr), args); err != nil {
		return err
	}
	_, err := fmt.Fprintln(stdout, "trayside", version())
	return err
}

// version is the release, or the commit that the program was built from.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && len(s.Value) > 12 {
			return "commit " + s.Value[:12]
		}
	}
	return "unknown"
}
