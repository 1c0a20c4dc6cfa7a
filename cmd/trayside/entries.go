package main

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strings"
	"time"

	"trayside/internal/advice"
	"trayside/internal/entries"
	"trayside/internal/feedstock"
	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/server"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
	"trayside/sync/replica"
	"trayside/sync/roster"
	"trayside/sync/roster/p256"
)

// aboutFolder tells whose log a command may read: the database is locked while a
// server runs, so the command then asks that server, as the data folder's own
// key, which only the machine's owner can read. There is no other way to the
// whole log, and no address of the server gives it away.
const aboutFolder = "the household's data folder; a server may have it open"

const entriesHelp = `
A file of entries is JSON lines. The first says what it is, each other is one entry:

  {"format":"trayside-entries","version":1}
  {"kind":"bin","name":"Cellar","species":"eisenia-fetida","feedEvery":3}
  {"kind":"tray","bin":"Cellar","name":"Fern","width":400,"depth":400,"height":150}
  {"kind":"feeding","day":"2026-05-03","tray":"Fern","items":[{"scrap":"carrot","g":120}]}

Kinds are household, member, bin, tray, vessel, rule, label, stack, batch, worms, feeding,
look, sample, harvest, bowl, freezing, discard and photo. Amounts are whole g, ml, mm,
0.1 °C. internal/entries/FORMAT.md describes all of it.

CSV holds feedings, one row a scrap, with these columns in any order:
  day,at,bin,tray,spot,scrap,class,name,grams,cut,frozen,how,about,by,note,id`

func runExport(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	f := newFlags("export", "trayside export --data DIR [--csv] [--out FILE]\n\n"+
		"Writes what the household wrote down as plain entries, or its feedings as CSV.\n"+entriesHelp, stderr)
	data := f.String("data", "", aboutFolder)
	asCSV := f.Bool("csv", false, "write the feedings as CSV for a spreadsheet")
	out := f.String("out", "", "file to write; by default the terminal")
	if err := parse(f, args); err != nil {
		return err
	}
	if *data == "" {
		return usage("export: say whose entries: trayside export --data DIR")
	}
	rep, err := readReplica(ctx, *data)
	if err != nil {
		return err
	}
	text := entries.Export(rep)
	if *asCSV {
		text = entries.ExportFeedings(journal.Read(rep))
	}
	if *out == "" {
		_, err = stdout.Write(text)
		return err
	}
	if err := writeWhole(*out, text); err != nil {
		return fmt.Errorf("write the entries: %w", err)
	}
	return nil
}

func runImport(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	f := newFlags("import", "trayside import FILE --data DIR [--check] [--json]\n\n"+
		"Reads entries, or feedings as CSV, into the household's log. What is there already is\n"+
		"left as it is, so the same file twice adds nothing. A bad line is named, and the rest\n"+
		"comes in. An empty folder becomes a household of its own. A file that a phone\n"+
		"exported comes in as it is.\n"+entriesHelp, stderr)
	data := f.String("data", "", aboutFolder)
	check := f.Bool("check", false, "only say what would come in, and write nothing")
	asJSON := f.Bool("json", false, "print one JSON object")
	name, err := parseFile(f, args)
	if err != nil {
		return err
	}
	if name == "" || *data == "" {
		return usage("import: say what comes in, and where: trayside import FILE --data DIR")
	}
	file, err := os.ReadFile(name)
	if err != nil {
		return fmt.Errorf("read the entries: %w", err)
	}
	if !*check {
		if err := foundIfEmpty(*data); err != nil {
			return err
		}
	}
	rep, err := readReplica(ctx, *data)
	if err != nil {
		return err
	}
	key, err := consoleKey(*data)
	if err != nil {
		return err
	}
	pub, err := p256.PublicKey(key)
	if err != nil {
		return err
	}
	r, err := entries.Import(file, entries.Scene{Replica: rep, Device: roster.DeviceID(pub), Now: time.Now().UnixMilli(), Scrap: scrapCalled})
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if !*check {
		if err := writeLog(ctx, *data, r.Ops); err != nil {
			return err
		}
	}
	if *asJSON {
		err = json.NewEncoder(stdout).Encode(r)
	} else {
		err = sayImported(stdout, r, *check)
	}
	if err == nil && len(r.Bad) > 0 {
		err = fmt.Errorf("%s: %s stayed out; mend the file and import it again: what is in already is not written twice", name, badLines(len(r.Bad)))
	}
	return err
}

func sayImported(w io.Writer, r entries.Result, check bool) error {
	var b strings.Builder
	for _, bad := range r.Bad {
		fmt.Fprintf(&b, "line %d: %s\n", bad.Line, bad.Why)
	}
	lines := 0
	for _, kind := range slices.Sorted(maps.Keys(r.Added)) {
		fmt.Fprintf(&b, "%6d %s\n", r.Added[kind], kind)
		lines += r.Added[kind]
	}
	verb := "came in"
	if check {
		verb = "would come in"
	}
	fmt.Fprintf(&b, "%d entries %s, %d were there already, %s.\n", lines, verb, r.Already, badLines(len(r.Bad)))
	_, err := io.WriteString(w, b.String())
	return err
}

func badLines(n int) string {
	if n == 1 {
		return "1 bad line"
	}
	return fmt.Sprintf("%d bad lines", n)
}

// parseFile reads flags and one bare word, before, among or after them.
func parseFile(f *flag.FlagSet, args []string) (string, error) {
	word := ""
	if len(args) > 0 && !strings.HasPrefix(args[0], "-") {
		word, args = args[0], args[1:]
	}
	err := f.Parse(args)
	if err == nil && word == "" && f.NArg() > 1 {
		word = f.Arg(0)
		err = f.Parse(f.Args()[1:])
	}
	switch {
	case errors.Is(err, flag.ErrHelp):
		return "", err
	case err != nil:
		return "", usage("%s: %v", f.Name(), err)
	case word == "" && f.NArg() == 1:
		return f.Arg(0), nil
	case f.NArg() > 0:
		return "", usage("%s: %q is one file too many", f.Name(), f.Arg(0))
	}
	return word, nil
}

// scrapCalled finds a scrap by its catalogue id or, in any language, its name.
func scrapCalled(text string) (string, bool) {
	c := feedstock.Standard()
	id := strings.ToLower(strings.Join(strings.Fields(text), "-")) // "Coffee grounds" is coffee-grounds
	if e, ok := c.Lookup(id); ok {
		return e.ID, true
	}
	if text == journal.OtherScrap {
		return text, true // needs a class, which the entry tells
	}
	for _, language := range feedstock.Languages() {
		for _, e := range c.Entries {
			w := c.Words(e.ID, language)
			if slices.ContainsFunc(append([]string{w.Name}, w.Also...), func(name string) bool { return strings.EqualFold(name, strings.TrimSpace(text)) }) {
				return e.ID, true
			}
		}
	}
	return "", false
}

// readReplica folds the log of a data folder.
func readReplica(ctx context.Context, dir string) (*replica.Replica, error) {
	ops, err := readLog(ctx, dir)
	if err != nil {
		return nil, err
	}
	rep := replica.New(journal.Schema())
	for _, op := range ops {
		rep.Add(op)
	}
	return rep, nil
}

// writeLog puts operations into a data folder's log, whether a server runs or not.
func writeLog(ctx context.Context, dir string, ops []oplog.Sealed) error {
	if len(ops) == 0 {
		return nil
	}
	return withFolder(ctx, dir, func(data *folder) error {
		s, err := server.New(server.Config{Store: data.store, Console: data.console})
		if err != nil {
			return err
		}
		home, err := oplog.ParseID(s.Household())
		if err != nil {
			return err
		}
		log := data.store.Log(home)
		for part := range slices.Chunk(ops, exchange.MaxOps) {
			if _, err := log.Put(part); err != nil {
				return fmt.Errorf("write the entries: %w", err)
			}
		}
		return nil
	}, func(c *console) error {
		for part := range slices.Chunk(ops, exchange.MaxOps) {
			req := exchange.Request{Ops: make([]string, len(part))}
			for i, op := range part {
				req.Ops[i] = string(op.Bytes)
			}
			var a exchange.Answer
			if err := c.post(ctx, exchange.PathExchange, req, &a); err != nil {
				return err
			}
			for _, res := range a.Results {
				if res.Code != exchange.Stored && res.Code != exchange.Dup {
					return fmt.Errorf("the running server did not take an entry: %s", cmp.Or(res.Why, res.Code))
				}
			}
		}
		return nil
	})
}

// source is where a command takes a record from: a file of entries or a household.
type source struct{ entries, data string }

func (s *source) define(f *flag.FlagSet) {
	f.StringVar(&s.entries, "entries", "", "a file of entries, as export writes it")
	f.StringVar(&s.data, "data", "", aboutFolder)
}

func (s source) given() bool { return s.entries != "" || s.data != "" }

// read returns the record; what is bad in a file is named on stderr.
func (s source) read(ctx context.Context, command string, stderr io.Writer) (*record.Household, error) {
	if (s.entries == "") == (s.data == "") {
		return nil, usage("%s: say whose record: --entries FILE or --data DIR", command)
	}
	if s.data != "" {
		return readRecord(ctx, s.data)
	}
	file, err := os.ReadFile(s.entries)
	if err != nil {
		return nil, fmt.Errorf("read the entries: %w", err)
	}
	rep := replica.New(journal.Schema())
	r, err := entries.Import(file, entries.Scene{Replica: rep, Device: "file", Now: time.Now().UnixMilli(), Scrap: scrapCalled})
	if err != nil {
		return nil, fmt.Errorf("%s: %w", s.entries, err)
	}
	for _, bad := range r.Bad {
		fmt.Fprintf(stderr, "%s, line %d: %s\n", s.entries, bad.Line, bad.Why)
	}
	for _, op := range r.Ops {
		rep.Add(op)
	}
	return journal.Read(rep), nil
}

// kitchen returns what the record tells of the kitchen's scraps and the room.
func (s source) kitchen(ctx context.Context, command string, stderr io.Writer) (advice.Kitchen, error) {
	h, err := s.read(ctx, command, stderr)
	if err != nil {
		return advice.Kitchen{}, err
	}
	today, err := record.DayOf(time.Now().Format(time.DateOnly))
	if err != nil {
		return advice.Kitchen{}, err
	}
	return advice.KitchenOf(h, today), nil
}

// weekOf writes a kitchen's mean week as --scraps takes it.
func weekOf(k advice.Kitchen) string {
	var parts []string
	for _, it := range k.Week {
		parts = append(parts, fmt.Sprintf("%s=%d", it.Scrap, it.Grams))
	}
	return strings.Join(parts, ",")
}
