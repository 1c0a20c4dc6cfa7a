package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"runtime"
	"slices"
	"strings"
	"time"

	"trayside/cmd/dev/build"
	"trayside/cmd/dev/tree"
)

// buildProgram compiles trayside with the phone app of this moment in it.
func buildProgram(ctx context.Context, t tree.Tree) (string, error) {
	out := t.Path(build.WorkDir + "/trayside")
	if runtime.GOOS == "windows" {
		out += ".exe"
	}
	return out, t.Run(ctx, tree.Cmd{Name: "go", Args: []string{"build", "-o", out, "./cmd/trayside"}})
}

// genAnyWeight is gen, but an app that grew too heavy is only said, not refused:
// it can still be looked at and measured.
func genAnyWeight(ctx context.Context, t tree.Tree) error {
	err := gen(ctx, t, nil)
	if errors.Is(err, build.ErrBudget) {
		fmt.Fprintln(t.Out, err)
		return nil
	}
	return err
}

// demo builds everything and runs the program in the foreground until it is
// stopped; an interrupt reaches it, and it gets time to stop in order. What the
// build says goes to the standard error, so that the program's own output can be read.
func demo(ctx context.Context, t tree.Tree, args []string) error {
	out := t.Out
	t.Out = os.Stderr
	fmt.Fprintln(t.Out, "building the phone app, then the program; the first time takes some minutes")
	if err := genAnyWeight(ctx, t); err != nil {
		return err
	}
	program, err := buildProgram(ctx, t)
	if err != nil {
		return err
	}
	cmd := exec.CommandContext(ctx, program, append([]string{"demo"}, args...)...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = os.Stdin, out, os.Stderr
	cmd.Cancel = func() error { return cmd.Process.Signal(os.Interrupt) }
	cmd.WaitDelay = 15 * time.Second
	err = cmd.Run()
	if cmd.ProcessState != nil && cmd.ProcessState.Success() {
		return nil // stopped in order, if by an interrupt
	}
	return err
}

// programs are the benches that are no scripts of the phone app. They are run
// as processes, because cmd/dev imports nothing of the product.
var programs = map[string]func(ctx context.Context, t tree.Tree) error{
	"engine": benchEngine,
	"scan":   benchDecoders,
	"fieldtrial": func(ctx context.Context, t tree.Tree) error {
		return t.Run(ctx, tree.Cmd{Name: "go", Args: []string{"run", "./cmd/dev/fieldtrial"}})
	},
	"labels": func(ctx context.Context, t tree.Tree) error {
		return t.Run(ctx, tree.Cmd{Name: "go", Args: []string{"run", "./cmd/dev/soil"}})
	},
}

// bench runs the named measurements: those of pwa/e2e/bench-NAME.ts, and programs.
// Flags after the names go to the former.
func bench(ctx context.Context, t tree.Tree, args []string) error {
	var flags []string
	if at := slices.IndexFunc(args, func(a string) bool { return strings.HasPrefix(a, "-") }); at >= 0 {
		args, flags = args[:at], args[at:]
	}
	files, err := tsFiles(t, "e2e", ".ts")
	if err != nil {
		return err
	}
	byName := map[string]string{}
	var names []string
	for _, f := range files {
		if name, ok := strings.CutPrefix(f, "e2e/bench-"); ok {
			name = strings.TrimSuffix(name, ".ts")
			byName[name], names = f, append(names, name)
		}
	}
	names = append(names, slices.Sorted(maps.Keys(programs))...)
	if len(args) == 0 {
		args = names
	}
	var run []string
	for _, name := range args {
		if program, ok := programs[name]; ok {
			if err := program(ctx, t); err != nil {
				return err
			}
			continue
		}
		f, ok := byName[name]
		if !ok {
			return fmt.Errorf("there is no bench %q; there are: %s", name, strings.Join(names, ", "))
		}
		run = append(run, f)
	}
	if len(run) == 0 {
		return nil
	}
	return runInBrowser(ctx, t, "bench", run, flags)
}

// benchEngine times the engine's calls on a log of 20,000 entries, natively and
// as the phone runs them.
func benchEngine(ctx context.Context, t tree.Tree) error {
	args := []string{"test", "-run", "^$", "-bench", ".", "-benchtime", "5x", "./pwa/engine/phone"}
	if err := t.Run(ctx, tree.Cmd{Name: "go", Args: args}); err != nil {
		return err
	}
	return runWasm(ctx, t, args[1:]...)
}

// readmePicture is the picture at the top of README.md.
const readmePicture = "pwa/e2e/readme.png"

// shots takes pictures of the screens: all of them by pwa/e2e/shots.ts, or the
// README's one by pwa/e2e/shots-readme.ts.
func shots(ctx context.Context, t tree.Tree, args []string) error {
	flags := flag.NewFlagSet("shots", flag.ContinueOnError)
	dir := flags.String("out", "", "folder for the pictures, made if missing")
	readme := flags.Bool("readme", false, "make the README's picture anew instead")
	if err := flags.Parse(args); err != nil {
		return err
	}
	if *readme {
		return runInBrowser(ctx, t, "shots", []string{"e2e/shots-readme.ts"}, []string{t.Path(readmePicture)})
	}
	if *dir == "" {
		return fmt.Errorf("say where the pictures go: go run ./cmd/dev shots --out DIR")
	}
	if err := os.MkdirAll(*dir, 0o755); err != nil {
		return err
	}
	return runInBrowser(ctx, t, "shots", []string{"e2e/shots.ts"}, []string{*dir})
}

// runInBrowser builds the app and the program, then runs scripts for Node one
// after the other.
func runInBrowser(ctx context.Context, t tree.Tree, name string, files, args []string) error {
	if err := genAnyWeight(ctx, t); err != nil {
		return err
	}
	env, err := browserEnv(ctx, t)
	if err != nil {
		return err
	}
	made, err := build.Bundle(ctx, t, name, files)
	if err != nil {
		return err
	}
	for _, script := range made {
		if err := t.Run(ctx, tree.Cmd{Env: env, Name: "node", Args: append([]string{script}, args...)}); err != nil {
			return err
		}
	}
	return nil
}
