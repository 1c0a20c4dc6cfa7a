package main

import (
	"bytes"
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
		page, cell := label.A4x21.Cell(n)
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
		{"a folder that is not there", []string{"--data", dir + "-gone", "--out", old}, "there is no data folder"},
		{"an unknown sheet", []string{"--data", dir, "--out", old, "--sheet", "a5"}, "a4-3x7"},
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
