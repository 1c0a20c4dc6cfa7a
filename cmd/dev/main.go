// Command dev is the contributor's tool: it builds the phone app, starts the
// demo household, runs everything that continuous integration runs, and measures.
// It needs Go and Node and nothing else, and works the same on Linux, macOS and
// Windows.
//
//	go run ./cmd/dev demo     build and serve the demo household
//	go run ./cmd/dev test     everything that must hold before a change is shared
//	go run ./cmd/dev check    the quick part of it
//	go run ./cmd/dev gen      build the phone app into pwa/dist
//	go run ./cmd/dev bench    measure, by name
//	go run ./cmd/dev shots    take pictures of the screens
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"

	"trayside/cmd/dev/build"
	"trayside/cmd/dev/tree"
)

type task struct {
	name, args, about string
	run               func(ctx context.Context, t tree.Tree, args []string) error
}

func tasks() []task {
	return []task{
		{"demo", "[--listen ADDR] …", "build everything and serve the demo household; what follows goes to the program", demo},
		{"test", "", "everything that continuous integration runs", testAll},
		{"check", "", "the quick part of test: types, format, vet, lint", check},
		{"gen", "[--check]", "build the phone app into pwa/dist; --check only says whether the TypeScript types are stale", gen},
		{"bench", "[NAME …] [--entries N] [--runs N]", "measure; without a name, everything", bench},
		{"shots", "--out DIR | --readme", "take pictures of the screens of the demo household", shots},
	}
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	err := run(ctx, os.Stdout, os.Args[1:])
	switch {
	case err == nil:
	case errors.Is(err, flag.ErrHelp):
		os.Exit(2)
	case ctx.Err() != nil:
		os.Exit(130)
	default:
		fmt.Fprintln(os.Stderr, "dev:", err)
		os.Exit(1)
	}
}

func run(ctx context.Context, out io.Writer, args []string) error {
	if len(args) == 0 {
		usage(out)
		return flag.ErrHelp
	}
	for _, k := range tasks() {
		if k.name != args[0] {
			continue
		}
		t, err := tree.Find(ctx, out)
		if err != nil {
			return err
		}
		return k.run(ctx, t, args[1:])
	}
	usage(out)
	return fmt.Errorf("there is no task %q", args[0])
}

func usage(out io.Writer) {
	fmt.Fprintln(out, "usage: go run ./cmd/dev TASK")
	for _, k := range tasks() {
		fmt.Fprintf(out, "  %-24s %s\n", strings.TrimSpace(k.name+" "+k.args), k.about)
	}
}

func gen(ctx context.Context, t tree.Tree, args []string) error {
	flags := flag.NewFlagSet("gen", flag.ContinueOnError)
	only := flags.Bool("check", false, "only say whether the TypeScript types are stale")
	if err := flags.Parse(args); err != nil {
		return err
	}
	if *only {
		return checkTypes(t)
	}
	if err := writeTypes(t); err != nil {
		return err
	}
	return build.Run(ctx, t)
}
