package sheettest

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"trayside/internal/label"
)

// Scan returns what zbarimg reads in each picture, "" where it finds no square.
// The pictures are kept in dir.
func Scan(dir string, pictures []*image.Gray) ([]string, error) {
	args := []string{"--nodbus", "-q", "--xml", "-Sdisable", "-Sqrcode.enable"}
	index := map[string]int{}
	for i, m := range pictures {
		// As grey bytes (PGM), like the pages: zbarimg takes longer to unpack a PNG than to read it.
		name := filepath.Join(dir, fmt.Sprintf("label-%d.pgm", i))
		head := fmt.Sprintf("P5\n%d %d\n255\n", m.Rect.Dx(), m.Rect.Dy())
		if err := os.WriteFile(name, append([]byte(head), m.Pix...), 0o600); err != nil {
			return nil, err
		}
		index[name] = i
		args = append(args, name)
	}
	if _, err := exec.LookPath("zbarimg"); err != nil {
		return nil, fmt.Errorf("%w (\"go run ./cmd/dev test\" installs what is missing)", err)
	}
	// It ends with an error as soon as one picture has no square.
	out, _ := exec.Command("zbarimg", args...).Output()
	var found struct {
		Sources []struct {
			Href    string   `xml:"href,attr"`
			Symbols []string `xml:"index>symbol>data"`
		} `xml:"source"`
	}
	if len(out) > 0 {
		if err := xml.Unmarshal(out, &found); err != nil {
			return nil, fmt.Errorf("zbarimg: %w", err)
		}
	}
	read := make([]string, len(pictures))
	for _, s := range found.Sources {
		if i, ok := index[s.Href]; ok && len(s.Symbols) > 0 {
			read[i] = strings.TrimSpace(s.Symbols[0])
		}
	}
	return read, nil
}

// Render makes a grey picture of a page (from 0) of a PDF.
func Render(pdf string, page, dpi int) (*image.Gray, error) {
	n := fmt.Sprint(page + 1)
	// Grey bytes as they are (PGM): packing a page as PNG takes longer than drawing it.
	out, err := exec.Command("pdftoppm", "-gray", "-r", fmt.Sprint(dpi), "-f", n, "-l", n, pdf).Output()
	if err != nil {
		return nil, fmt.Errorf("pdftoppm: %w (\"go run ./cmd/dev test\" installs what is missing)", err)
	}
	var w, h int
	if _, err := fmt.Fscanf(bytes.NewReader(out), "P5\n%d %d\n255\n", &w, &h); err != nil || len(out) < w*h {
		return nil, fmt.Errorf("pdftoppm: its answer is no grey picture: %w", err)
	}
	return &image.Gray{Pix: out[len(out)-w*h:], Stride: w, Rect: image.Rect(0, 0, w, h)}, nil
}

// Crop cuts a label out of the picture of its page.
func Crop(page *image.Gray, dpi int, cell label.Box) *image.Gray {
	px := func(um int64) int { return int(um * int64(dpi) / 25400) }
	at := image.Rect(px(cell.X), px(cell.Y), px(cell.X+cell.W), px(cell.Y+cell.H)).Intersect(page.Bounds())
	part := image.NewGray(image.Rect(0, 0, at.Dx(), at.Dy()))
	for y := range at.Dy() { // row by row: image/draw goes dot by dot here
		from := page.PixOffset(at.Min.X, at.Min.Y+y)
		copy(part.Pix[y*part.Stride:], page.Pix[from:from+at.Dx()])
	}
	return part
}
