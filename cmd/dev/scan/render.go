package main

import (
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"trayside/internal/label"
	"trayside/server/sheet"
)

const (
	perCondition = 40
	seed         = 20261125
	dpi          = 400 // of the printed labels before the camera
)

// render writes the frames and their list.
func render(dir string) error {
	rng := rand.New(rand.NewPCG(seed, 0))
	labels, err := printed(dir, rng)
	if err != nil {
		return err
	}
	var all []frame
	for _, c := range conditions {
		for n := range perCondition {
			l := labels[n%len(labels)]
			f := frame{File: fmt.Sprintf("%s-%02d.grey", c.file, n), Condition: c.name, Text: l.text, Width: frameW, Height: frameH}
			if err := os.WriteFile(filepath.Join(dir, f.File), photograph(l.picture, c, rng), 0o644); err != nil {
				return err
			}
			all = append(all, f)
		}
	}
	return writeJSON(filepath.Join(dir, index), all)
}

// printedLabel is one label's part of a printed page.
type printedLabel struct {
	text    string
	picture *image.Gray
}

// printed prints a page of the default sheet and cuts it.
func printed(dir string, rng *rand.Rand) ([]printedLabel, error) {
	base, err := label.ParseBase("https://bins.example.org")
	if err != nil {
		return nil, err
	}
	s := label.A4x21()
	var labels []sheet.Label
	for range s.PerPage() {
		labels = append(labels, sheet.Label{Code: label.Draw(rng.Uint64), Tray: "Fern", Bin: "Cellar"})
	}
	pdf := filepath.Join(dir, "labels.pdf")
	out, err := os.Create(pdf)
	if err != nil {
		return nil, err
	}
	defer out.Close()
	if err := sheet.Write(out, sheet.Job{Sheet: s, Base: base, Made: time.Unix(0, 0).UTC(), Labels: labels}); err != nil {
		return nil, err
	}
	stem := filepath.Join(dir, "page")
	if b, err := exec.Command("pdftoppm", "-png", "-gray", "-singlefile", "-r", fmt.Sprint(dpi), pdf, stem).CombinedOutput(); err != nil {
		return nil, fmt.Errorf("pdftoppm (Debian: poppler-utils): %w: %s", err, b)
	}
	page, err := picture(stem + ".png")
	if err != nil {
		return nil, err
	}
	var cut []printedLabel
	for n, l := range labels {
		_, cell := s.Cell(n)
		px := func(um int64) int { return int(um * dpi / 25400) }
		r := image.Rect(px(cell.X), px(cell.Y), px(cell.X+cell.W), px(cell.Y+cell.H))
		cut = append(cut, printedLabel{base.Address(l.Code), page.SubImage(r).(*image.Gray)})
	}
	return cut, nil
}

func picture(path string) (*image.Gray, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		return nil, err
	}
	grey := image.NewGray(img.Bounds())
	draw.Draw(grey, grey.Bounds(), img, img.Bounds().Min, draw.Src)
	return grey, nil
}
