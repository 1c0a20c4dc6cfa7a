// Command trayside serves a household's log and its phone app, and does what
// the machine's owner does at a terminal. commands.go lists what it can do; each
// command has a file of its own.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
)

func main() {
	limitMemory()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	err := run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(exitCode(err, os.Stderr))
}

// exitCode tells the error, if any, and is 0 for success, 2 for a command that
// was written wrongly, 1 for one that failed.
func exitCode(err error, stderr io.Writer) int {
	var wrong *usageError
	switch {
	case err == nil, errors.Is(err, flag.ErrHelp):
		return 0
	case errors.As(err, &wrong):
		fmt.Fprintln(stderr, "trayside:", err)
		return 2
	}
	fmt.Fprintln(stderr, "trayside:", err)
	return 1
}

// usageError is a command written wrongly; its text says how to write it.
type usageError struct{ text string }

func (e *usageError) Error() string { return e.text }

func usage(format string, args ...any) error { return &usageError{fmt.Sprintf(format, args...)} }

// run is the whole program, so that tests can start it: the first argument
// names a command. It returns when the command is done or ctx ends.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	if len(args) == 0 {
		list(stderr)
		return usage("say what to do, for example: trayside serve --data DIR")
	}
	switch args[0] {
	case "help", "-h", "-help", "--help":
		list(stdout)
		return nil
	}
	for _, c := range commands {
		if c.name == args[0] {
			return c.run(ctx, args[1:], stdout, stderr)
		}
	}
	list(stderr)
	return usage("there is no command %q", args[0])
}

func list(w io.Writer) {
	fmt.Fprint(w, "trayside COMMAND [flags]   (trayside COMMAND --help tells a command's flags)\n\n")
	for _, c := range commands {
		fmt.Fprintf(w, "  %-9s %s\n", c.name, c.does)
	}
}

// newFlags makes a command's flags: how is the line that its help begins with.
func newFlags(name, how string, stderr io.Writer) *flag.FlagSet {
	f := flag.NewFlagSet(name, flag.ContinueOnError)
	f.SetOutput(stderr)
	f.Usage = func() {
		fmt.Fprintf(stderr, "%s\n\n", how)
		f.PrintDefaults()
	}
	return f
}

// parse reads a command's flags; none of the commands takes bare words.
func parse(f *flag.FlagSet, args []string) error {
	switch err := f.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return err
	case err != nil:
		return usage("%s: %v", f.Name(), err)
	case f.NArg() > 0:
		return usage("%s: %q is not a flag; flags begin with --", f.Name(), f.Arg(0))
	}
	return nil
}
