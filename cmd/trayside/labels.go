package main

import (
	"bytes"
	"context"
	"crypto/rand"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"trayside/internal/advice"
	"trayside/internal/journal"
	"trayside/internal/label"
	"trayside/internal/record"
	"trayside/server/sheet"
)

// tryBase is where labels lead when nobody says: good for a try on one machine.
const tryBase = "http://localhost:8080"

// labelFlags are the flags of trayside labels.
type labelFlags struct {
	data, base, out      string
	list, asJSON         bool
	blank, copies, start int
	offset               string
	card, calibrate      bool
	paper, language      string
	sheet                sheetFlags
}

func runLabels(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	f := newFlags("labels", "trayside labels --data DIR --out FILE.pdf [--base URL] [--sheet NAME] [--start CELL] [--offset X,Y]\n"+
		"trayside labels --blank N --out FILE.pdf      labels that the first scan at the bin puts on a tray\n"+
		"trayside labels --calibrate --out FILE.pdf    the page that tells the offset of a printer\n"+
		"trayside labels --card --data DIR --out FILE.pdf\n"+
		"trayside labels --list [--json]", stderr)
	var l labelFlags
	f.StringVar(&l.data, "data", "", "the household's data folder; a server may have it open")
	f.StringVar(&l.base, "base", "", "address that phones open the household at, for instance https://bins.example.org")
	f.StringVar(&l.out, "out", "", "PDF file to write")
	f.BoolVar(&l.list, "list", false, "list the sheets and rolls that --sheet names")
	f.BoolVar(&l.asJSON, "json", false, "with --list: their geometry, to edit and give to --geometry")
	f.IntVar(&l.blank, "blank", 0, "print so many labels that no tray carries yet")
	f.IntVar(&l.copies, "copies", 2, "labels of each tray: two are for its two outside faces")
	f.IntVar(&l.start, "start", 1, "first free label of a started sheet, counted row by row from 1")
	f.StringVar(&l.offset, "offset", "0,0", "how far right and down the labels lie, mm, as the calibration page tells")
	f.BoolVar(&l.card, "card", false, "print a paper card for each bin instead, for people without a phone")
	f.BoolVar(&l.calibrate, "calibrate", false, "print the calibration page of the sheet instead")
	f.StringVar(&l.paper, "paper", sheet.Papers()[0].Name, "paper of cards: a4, letter")
	f.StringVar(&l.language, "language", "en", "words on cards and the calibration page: en, es")
	l.sheet.register(f)
	if err := parse(f, args); err != nil {
		return err
	}
	if l.list {
		return listSheets(stdout, l.asJSON)
	}
	if l.out == "" || l.data == "" && l.blank == 0 && !l.calibrate {
		return usage("say whose labels and where they go: trayside labels --data DIR --out FILE.pdf (or --blank N without --data)")
	}
	var pdf bytes.Buffer // an older sheet is not touched unless all went well
	if err := l.draw(ctx, &pdf, stdout, stderr); err != nil {
		return err
	}
	if err := os.WriteFile(l.out, pdf.Bytes(), 0o644); err != nil {
		return fmt.Errorf("write the labels: %w", err)
	}
	fmt.Fprintf(stdout, "Print %s at actual size (100 %%), not \"fit to page\".\n", l.out)
	return nil
}

// draw writes the PDF that the flags ask for and says on stdout what is in it.
func (l *labelFlags) draw(ctx context.Context, pdf *bytes.Buffer, stdout, stderr io.Writer) error {
	on, err := l.sheet.geometry()
	if err != nil {
		return err
	}
	if l.calibrate {
		fmt.Fprintf(stdout, "The calibration page of %s: print it on plain paper.\n", on.Name)
		return sheet.WriteCalibration(pdf, on, l.language, time.Now())
	}
	if l.base == "" {
		l.base = tryBase
		fmt.Fprintf(stderr, "The labels lead to %s, which only this machine opens; give --base for labels to keep.\n", tryBase)
	}
	to, err := label.ParseBase(l.base)
	if err != nil {
		return err
	}
	var view advice.LabelsView
	if l.data != "" {
		if view, err = readLabels(ctx, l.data); err != nil {
			return err
		}
	}
	if l.card {
		cards := cardsOf(view)
		fmt.Fprintf(stdout, "Cards of %d bins.\n", len(cards))
		return sheet.WriteCards(pdf, sheet.PaperNamed(l.paper), to, l.language, time.Now(), cards)
	}
	return l.labels(pdf, on, to, view, stdout, stderr)
}

func (l *labelFlags) labels(pdf *bytes.Buffer, on label.Sheet, to label.Base, view advice.LabelsView, stdout, stderr io.Writer) error {
	if l.copies < 1 || l.copies > 4 || l.blank < 0 || l.blank > sheet.Most {
		return usage("--copies is 1 to 4, --blank at most %d", sheet.Most)
	}
	run := label.Run{Start: l.start - 1}
	var err error
	if run.OffsetX, run.OffsetY, err = pair("offset", l.offset, ","); err != nil {
		return err
	}
	trays, bare := trayLabels(view)
	for range l.blank {
		trays = append(trays, sheet.Label{Code: label.Draw(randomWord)})
	}
	var all []sheet.Label
	var names []string
	for _, t := range trays {
		all = append(all, slices.Repeat([]sheet.Label{t}, l.copies)...)
		names = append(names, t.Tray, t.Bin)
	}
	if err := sheet.Write(pdf, sheet.Job{Sheet: on, Run: run, Base: to, Made: time.Now(), Labels: all}); err != nil {
		return err
	}
	if missing := sheet.Missing(names...); missing != "" {
		fmt.Fprintf(stderr, "Labels have Latin, Greek, Cyrillic, Armenian and Georgian letters, and not these: %s. Question marks stand in their place; the squares and codes open the trays all the same.\n", missing)
	}
	fmt.Fprintf(stdout, "%d labels for %d trays and blank ones, %d of each, on %s.\n", len(all), len(trays), l.copies, on.Name)
	if len(bare) > 0 {
		fmt.Fprintf(stdout, "Trays without a label: %s. Print blank ones (--blank %d) and scan them at the bin.\n", harmless(strings.Join(bare, ", ")), len(bare))
	}
	return nil
}

// randomWord returns 64 bits of the system's generator.
func randomWord() uint64 {
	var b [8]byte
	rand.Read(b[:])
	return binary.BigEndian.Uint64(b[:])
}

func listSheets(stdout io.Writer, asJSON bool) error {
	if asJSON {
		enc := json.NewEncoder(stdout)
		enc.SetIndent("", "  ")
		return enc.Encode(label.Presets())
	}
	for _, s := range label.Presets() {
		fmt.Fprintf(stdout, "%-15s %s\n", s.Name, sheetSays(s))
	}
	return nil
}

// sheetSays tells a sheet's measures in one line.
func sheetSays(s label.Sheet) string {
	mm := func(um int64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", float64(um)/1000), ".0") }
	size := mm(s.CellW) + " × " + mm(s.CellH) + " mm"
	if s.PerPage() == 1 {
		return fmt.Sprintf("roll, labels of %s, %d dots an inch", size, s.DPI)
	}
	out := fmt.Sprintf("%d × %d labels of %s on %s × %s mm", s.Columns, s.Rows, size, mm(s.PageW), mm(s.PageH))
	if s.Cut {
		out += ", plain paper with lines to cut along"
	}
	return out
}

// readLabels reads the household's trays and labels from a data folder.
func readLabels(ctx context.Context, dir string) (advice.LabelsView, error) {
	home, err := readRecord(ctx, dir)
	if err != nil {
		return advice.LabelsView{}, err
	}
	now := time.Now()
	day, err := record.DayOf(now.Format(time.DateOnly))
	if err != nil {
		return advice.LabelsView{}, err
	}
	return advice.New(home, day, advice.Phone{}).Labels(), nil
}

// readRecord folds everything in a data folder's log.
func readRecord(ctx context.Context, dir string) (*record.Household, error) {
	rep, err := readReplica(ctx, dir)
	if err != nil {
		return nil, err
	}
	return journal.Read(rep), nil
}

// trayLabels lists the labels of the trays in use, bin by bin from the top down,
// and names the trays that have none.
func trayLabels(view advice.LabelsView) (list []sheet.Label, bare []string) {
	for _, bin := range view.Bins {
		for _, tray := range bin.Trays {
			if tray.Code == "" {
				bare = append(bare, bin.Name+" "+tray.Name)
				continue
			}
			list = append(list, sheet.Label{Code: label.Code(tray.Code), Tray: tray.Name, Bin: bin.Name})
		}
	}
	return list, bare
}

// cardsOf makes a card of every bin.
func cardsOf(view advice.LabelsView) []sheet.Card {
	var cards []sheet.Card
	for _, bin := range view.Bins {
		c := sheet.Card{Bin: bin.Name, Mass: view.Mass, Temp: view.Temp}
		for _, t := range bin.Trays {
			c.Trays = append(c.Trays, t.Name)
		}
		for _, v := range view.Vessels {
			c.Vessels = append(c.Vessels, sheet.CardVessel{Name: v.Name, Amount: cardAmount(v.Grams, view.Mass)})
		}
		cards = append(cards, c)
	}
	return cards
}

// cardAmount writes a weight on a card. 1 oz = 28.349523125 g exactly
// (international yard and pound agreement, 1959).
func cardAmount(grams int64, mass string) string {
	if mass == string(record.MassOunces) {
		return fmt.Sprintf("%.1f oz", float64(grams)/28.349523125)
	}
	return fmt.Sprintf("%d g", grams)
}
