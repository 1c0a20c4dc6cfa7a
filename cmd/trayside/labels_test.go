package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"trayside/internal/demo"
	"trayside/internal/label"
	"trayside/internal/record"
	"trayside/server"
	"trayside/server/sheet/sheettest"
)

// demoFolder makes a data folder that holds the demo household.
func demoFolder(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "data")
	data, err := openFolder(dir, logger(false, os.Stderr))
	if err != nil {
		t.Fatal(err)
	}
	s, err := server.New(server.Config{Store: data.store, Console: data.console, Name: demo.Name})
	if err != nil {
		t.Fatal(err)
	}
	if err := seedDemo(data, s, 0); err != nil {
		t.Fatal(err)
	}
	if err := data.close(); err != nil {
		t.Fatal(err)
	}
	return dir
}

func TestPrintedLabelsOpenTheRightTrays(t *testing.T) {
	dir, pdf := demoFolder(t), filepath.Join(t.TempDir(), "labels.pdf")
	var stdout, stderr bytes.Buffer
	err := run(t.Context(), []string{"labels", "--data", dir, "--base", "https://bins.example.org", "--out", pdf}, &stdout, &stderr)
	if err != nil {
		t.Fatalf("labels: %v\n%s", err, stderr.String())
	}
	home, err := readRecord(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	byCode := map[label.Code]record.Tray{}
	for _, tray := range home.Trays {
		if !tray.Gone && tray.Code != "" {
			byCode[label.Code(tray.Code)] = tray
		}
	}
	if len(byCode) < 3 {
		t.Fatalf("the demo household has %d labelled trays; this test needs at least 3", len(byCode))
	}
	words := sheettest.Tool(t, "pdftotext", "-layout", pdf, "-")
	opened := map[string]bool{}
	for n := range byCode {
		if !strings.Contains(words, n.Groups()) {
			t.Errorf("the sheet does not say %s, the code of %s", n.Groups(), byCode[n].Name)
		}
	}
	for n := range len(byCode) {
		page, cell := label.A4x21().Cell(2 * n)
		address := sheettest.Decode(t, pdf, page, cell)
		code, err := label.FromAddress(address)
		if err != nil {
			t.Errorf("label %d reads %q: %v", n, address, err)
			continue
		}
		tray, ok := byCode[code]
		if !ok {
			t.Errorf("label %d opens %s, which no tray of the household has", n, code)
			continue
		}
		// What a person reads on the label is the tray that the square opens.
		pt := func(um int64) string { return strconv.FormatInt(um*72/25400, 10) }
		said := sheettest.Tool(t, "pdftotext", "-r", "72", "-f", "1", "-l", "1",
			"-x", pt(cell.X), "-y", pt(cell.Y), "-W", pt(cell.W), "-H", pt(cell.H), pdf, "-")
		if !strings.Contains(said, tray.Name) {
			t.Errorf("label %d says %q and opens the tray %q", n, said, tray.Name)
		}
		opened[tray.ID] = true
	}
	if len(opened) != len(byCode) {
		t.Errorf("the labels open %d trays, want all %d", len(opened), len(byCode))
	}
}

func TestLabelsAskForWhatIsMissing(t *testing.T) {
	dir := demoFolder(t)
	old := filepath.Join(t.TempDir(), "old.pdf")
	if err := os.WriteFile(old, []byte("an older sheet"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		name string
		args []string
		want string
	}{
		{"no file", []string{"--data", dir}, "--out FILE.pdf"},
		{"no folder", []string{"--out", old}, "--data DIR"},
		{"a folder that is not there", []string{"--data", dir + "-gone", "--out", old}, "there is no household"},
		{"an unknown sheet", []string{"--data", dir, "--out", old, "--sheet", "a5"}, "a4-3x7"},
		{"a cell that is not there", []string{"--data", dir, "--out", old, "--start", "22"}, "there is no cell 22"},
		{"an offset of one number", []string{"--data", dir, "--out", old, "--offset", "2"}, "want two lengths"},
		{"labels larger than the page", []string{"--blank", "3", "--out", old, "--label", "300x300"}, "lie on each other"},
		{"a geometry that is none", []string{"--blank", "3", "--out", old, "--geometry", old}, "no geometry"},
		{"a base that is no address", []string{"--data", dir, "--out", old, "--base", "bins"}, "no web address"},
	} {
		var stdout, stderr bytes.Buffer
		err := run(t.Context(), append([]string{"labels"}, tt.args...), &stdout, &stderr)
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: got %v, want an error with %q", tt.name, err, tt.want)
		}
	}
	if b, err := os.ReadFile(old); err != nil || string(b) != "an older sheet" {
		t.Errorf("a refused run changed the older sheet: %q, %v", b, err)
	}
	if _, err := os.Stat(dir + "-gone"); err == nil {
		t.Error("asking for labels made a data folder")
	}
}

func TestASheetOfOnesOwnIsPrintedFromAFileAndFlags(t *testing.T) {
	var listed, stderr bytes.Buffer
	if err := run(t.Context(), []string{"labels", "--list", "--json"}, &listed, &stderr); err != nil {
		t.Fatal(err)
	}
	var sheets []label.Sheet
	if err := json.Unmarshal(listed.Bytes(), &sheets); err != nil || len(sheets) != len(label.Presets()) {
		t.Fatalf("--list --json gave %d sheets: %v", len(sheets), err)
	}
	own := sheets[0]
	own.Name, own.Left = "mine", 6_000
	text, err := json.Marshal(own)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	file, pdf := filepath.Join(dir, "mine.json"), filepath.Join(dir, "blank.pdf")
	if err := os.WriteFile(file, text, 0o600); err != nil {
		t.Fatal(err)
	}
	var stdout bytes.Buffer
	err = run(t.Context(), []string{"labels", "--blank", "2", "--copies", "2", "--geometry", file, "--pitch", "65.5x38.1",
		"--start", "3", "--offset", "1.5,-0.5", "--base", "https://bins.example.org", "--out", pdf}, &stdout, &stderr)
	if err != nil {
		t.Fatalf("labels: %v\n%s", err, stderr.String())
	}
	own.PitchX = 65_500
	var codes []string
	for n := range 4 {
		page, cell := own.Cell(2 + n)
		codes = append(codes, sheettest.Decode(t, pdf, page, cell.Shift(1_500, -500)))
		if _, err := label.FromAddress(codes[n]); err != nil {
			t.Errorf("label %d reads %q: %v", n, codes[n], err)
		}
	}
	if codes[0] != codes[1] || codes[2] != codes[3] || codes[0] == codes[2] {
		t.Errorf("codes %q: want two blank labels, each for two faces", codes)
	}
	if words := sheettest.Tool(t, "pdftotext", pdf, "-"); strings.Contains(words, "?") {
		t.Errorf("a blank label says %q", words)
	}
}

func TestCardsAndTheCalibrationPageAreDrawn(t *testing.T) {
	dir, pdf := demoFolder(t), filepath.Join(t.TempDir(), "card.pdf")
	home, err := readRecord(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	err = run(t.Context(), []string{"labels", "--card", "--language", "es", "--paper", "letter", "--data", dir, "--base", "https://bins.example.org", "--out", pdf}, &stdout, &stderr)
	if err != nil {
		t.Fatal(err)
	}
	words := sheettest.Tool(t, "pdftotext", "-layout", pdf, "-")
	for _, bin := range home.Bins {
		if !bin.Gone && !strings.Contains(words, bin.Name) {
			t.Errorf("no card says %s", bin.Name)
		}
	}
	if !strings.Contains(words, "Fecha") || !strings.Contains(sheettest.Tool(t, "pdfinfo", pdf), "612 x 792") {
		t.Errorf("want Spanish words on letter paper, got %s", words)
	}
	if err := run(t.Context(), []string{"labels", "--calibrate", "--sheet", "letter-2x5", "--out", pdf}, &stdout, &stderr); err != nil {
		t.Fatal(err)
	}
	if words := sheettest.Tool(t, "pdftotext", pdf, "-"); !strings.Contains(words, "100 mm") || !strings.Contains(words, "−4") {
		t.Errorf("the calibration page says %q", words)
	}
}
