package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"time"

	"trayside/internal/demo"
	"trayside/internal/record"
	"trayside/server"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

// demoSeed makes every demo household the same on one day.
const demoSeed = 1

func runDemo(ctx context.Context, args []string, stdout, stderr io.Writer) (err error) {
	var o serveFlags
	f := newFlags("demo", "trayside demo [--listen ADDR] [--data DIR] [--json] [--entries N]", stderr)
	f.StringVar(&o.data, "data", "", "folder to keep the demo in; a temporary one by default")
	entries := f.Int("entries", 0, "invent a log of years with so many entries, for measuring; 0 is the ordinary demo")
	o.define(f)
	if err := parse(f, args); err != nil {
		return err
	}
	if *entries != 0 && *entries < demo.FewestLong {
		return usage("demo: --entries %d is too few for years of a log; take %d or more", *entries, demo.FewestLong)
	}
	if o.data == "" {
		if o.data, err = os.MkdirTemp("", "trayside-demo-*"); err != nil {
			return fmt.Errorf("make a temporary folder: %w; --data names another", err)
		}
		defer func() { err = errors.Join(err, os.RemoveAll(o.data)) }()
	}
	cfg := server.Config{Name: demo.Name, Demo: &server.Demo{Members: []string{demo.Tamsin, demo.Odell}}}
	seed := func(data *folder, s *server.Server) error { return seedDemo(data, s, *entries) }
	return serve(ctx, o, cfg, seed, stdout, stderr)
}

// seedDemo writes an invented household into an empty log: the demo, or with
// entries above 0 one whose log is that long. It refuses a folder of another kind.
func seedDemo(data *folder, s *server.Server, entries int) error {
	if s.Name() != demo.Name {
		return fmt.Errorf("the folder %q holds a household of somebody's own, and a demo lets anybody in; give it another --data, or none", data.dir)
	}
	home, err := oplog.ParseID(s.Household())
	if err != nil {
		return err
	}
	log := data.store.Log(home)
	var head exchange.Hint
	if err := log.View(func(snap exchange.Snapshot) (err error) { head, err = snap.Head(); return err }); err != nil {
		return err
	}
	if head.N > 0 {
		return nil
	}
	today, err := record.DayOf(time.Now().Format(time.DateOnly))
	if err != nil {
		return err
	}
	ops := demo.Household(demoSeed, today)
	if entries > 0 {
		ops = demo.Long(demoSeed, today, entries)
	}
	if _, err := log.Put(ops); err != nil {
		return fmt.Errorf("write the demo household: %w", err)
	}
	return nil
}
