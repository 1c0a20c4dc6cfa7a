package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"trayside/internal/journal"
	"trayside/internal/label"
	"trayside/internal/record"
	"trayside/server/sheet"
	"trayside/sync/replica"
)

// tryBase is where labels lead when nobody says: good for a try on one machine.
const tryBase = "http://localhost:8080"

func runLabels(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	f := newFlags("labels", "trayside labels --data DIR --out FILE.pdf [--base URL] [--sheet NAME]", stderr)
	data := f.String("data", "", "the household's data folder; a server may have it open")
	base := f.String("base", "", "address that phones open the household at, for instance https://bins.example.org")
	out := f.String("out", "", "PDF file to write")
	name := f.String("sheet", label.Presets()[0].Name, "sheet to print on: "+sheetNames())
	if err := parse(f, args); err != nil {
		return err
	}
	if *data == "" || *out == "" {
		return usage("say whose labels and where they go: trayside labels --data DIR --out FILE.pdf")
	}
	if _, err := os.Stat(*data); err != nil {
		return fmt.Errorf("there is no data folder %s; give the one that trayside serve uses: %w", *data, err)
	}
	on, err := sheetNamed(*name)
	if err != nil {
		return err
	}
	if *base == "" {
		*base = tryBase
		fmt.Fprintf(stderr, "The labels lead to %s, which only this machine opens; give --base for labels to keep.\n", tryBase)
	}
	to, err := label.ParseBase(*base)
	if err != nil {
		return err
	}
	home, err := readRecord(ctx, *data)
	if err != nil {
		return err
	}
	list, bare := trayLabels(home)
	var pdf bytes.Buffer // an older sheet is not touched unless all went well
	if err := sheet.Write(&pdf, on, to, time.Now(), list); err != nil {
		return err
	}
	if err := os.WriteFile(*out, pdf.Bytes(), 0o644); err != nil {
		return fmt.Errorf("write the labels: %w", err)
	}
	fmt.Fprintf(stdout, "%d labels are in %s. Print them at actual size (100 %%), not \"fit to page\".\n", len(list), *out)
	if len(bare) > 0 {
		fmt.Fprintf(stdout, "Trays without a label: %s.\n", strings.Join(bare, ", "))
	}
	return nil
}

// readRecord folds everything in a data folder's log.
func readRecord(ctx context.Context, dir string) (*record.Household, error) {
	ops, err := readLog(ctx, dir)
	if err != nil {
		return nil, err
	}
	rep := replica.New(journal.Schema())
	for _, op := range ops {
		rep.Add(op)
	}
	return journal.Read(rep), nil
}

func sheetNames() string {
	var names []string
	for _, s := range label.Presets() {
		names = append(names, s.Name)
	}
	return strings.Join(names, ", ")
}

func sheetNamed(name string) (label.Sheet, error) {
	for _, s := range label.Presets() {
		if s.Name == name {
			return s, nil
		}
	}
	return label.Sheet{}, usage("there is no sheet %q; there are: %s", name, sheetNames())
}

// trayLabels lists the labels of the trays in use, bin by bin from the top down,
// and names the trays that have none.
func trayLabels(home *record.Household) (list []sheet.Label, bare []string) {
	for _, bin := range home.Bins {
		if bin.Gone {
			continue
		}
		trays := slices.Clone(home.Trays)
		// Trays that stand in no stack yet come last.
		slices.SortStableFunc(trays, func(a, b record.Tray) int {
			return slices.Index(bin.Stack, b.ID) - slices.Index(bin.Stack, a.ID)
		})
		for _, tray := range trays {
			switch {
			case tray.Gone || tray.Bin != bin.ID:
			case tray.Code == "":
				bare = append(bare, bin.Name+" "+tray.Name)
			default:
				list = append(list, sheet.Label{Code: label.Code(tray.Code), Tray: tray.Name, Bin: bin.Name})
			}
		}
	}
	return list, bare
}
