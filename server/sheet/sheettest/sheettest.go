// Package sheettest reads printed labels back, for the tests of all who print
// them: Decode finds the square in one label's part of a page. Render, Crop and
// Scan are its steps, for programs that are no tests.
package sheettest

import (
	"image"
	"os/exec"
	"testing"

	"trayside/internal/label"
)

// Tool runs one of the programs that read a PDF or a picture and returns what it
// says; a missing one fails the test, because a check that is skipped is none.
func Tool(t testing.TB, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(name, args...).Output()
	if err != nil {
		t.Fatalf("%s: %v (\"go run ./cmd/dev test\" installs what is missing)", name, err)
	}
	return string(out)
}

// Decode returns what the square in a cell of a page (from 0) of the PDF file
// says, or "" if it cannot be read. A whole page decodes unreliably, and a single
// resolution too, so the cell is cropped and three are tried.
func Decode(t testing.TB, pdf string, page int, cell label.Box) string {
	t.Helper()
	for _, dpi := range []int{203, 150, 290} {
		if text := scan(t, []*image.Gray{Crop(render(t, pdf, page, dpi), dpi, cell)})[0]; text != "" {
			return text
		}
	}
	return ""
}

// DecodeAll returns what the squares of the first count labels of a sheet say,
// each cropped from its page at that resolution; "" for one that cannot be read.
func DecodeAll(t testing.TB, pdf string, s label.Sheet, count, dpi int) []string {
	t.Helper()
	pages := map[int]*image.Gray{}
	var crops []*image.Gray
	for n := range count {
		page, cell := s.Cell(n)
		if pages[page] == nil {
			pages[page] = render(t, pdf, page, dpi)
		}
		crops = append(crops, Crop(pages[page], dpi, cell))
	}
	return scan(t, crops)
}

// render makes a grey picture of a page.
func render(t testing.TB, pdf string, page, dpi int) *image.Gray {
	t.Helper()
	m, err := Render(pdf, page, dpi)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// scan reads the square in each picture.
func scan(t testing.TB, pictures []*image.Gray) []string {
	t.Helper()
	read, err := Scan(t.TempDir(), pictures)
	if err != nil {
		t.Fatal(err)
	}
	return read
}

// Runs returns the greatest common divisor of the lengths of all dark runs, in
// dots, across the rows of a part of the first page, as a printer of that
// resolution without grey would lay them.
func Runs(t testing.TB, pdf string, dpi int, at label.Box) int {
	t.Helper()
	m := Crop(render(t, pdf, 0, dpi), dpi, at)
	divisor := 0
	for y := range m.Rect.Dy() {
		run := 0
		for x := range m.Rect.Dx() {
			if m.GrayAt(x, y).Y < 128 {
				run++
				continue
			}
			for a, b := divisor, run; ; a, b = b, a%b {
				if b == 0 {
					divisor = a
					break
				}
			}
			run = 0
		}
	}
	return divisor
}
