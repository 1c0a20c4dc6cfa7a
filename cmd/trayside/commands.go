package main

import (
	"context"
	"io"
)

// command is one thing the program does. Its run gets the arguments after the
// name; what a program may read goes to stdout, the rest to stderr.
type command struct {
	name, does string
	run        func(ctx context.Context, args []string, stdout, stderr io.Writer) error
}

// commands is every command, in the order help lists them.
var commands = []command{
	{"serve", "serve a household: its log, its phones, its app", runServe},
	{"demo", "serve an invented household to try things out", runDemo},
	{"invite", "make an invite for a new phone", runInvite},
	{"export", "write the household's entries as plain lines, or its feedings as CSV", runExport},
	{"import", "read such lines into the household's log", runImport},
	{"advise", "say what may go into each bin, and why", runAdvise},
	{"labels", "print the labels of the household's trays into a PDF", runLabels},
	{"plan", "size a new bin: worms, surface, bedding, what to buy when", runPlan},
	{"mix", "tell what bedding and water scraps want", runMix},
	{"simulate", "run a trial with worms in a dish, as laboratories do", runSimulate},
	{"version", "print the version", runVersion},
}
