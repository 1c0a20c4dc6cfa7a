// Command soil puts drops of soil and water on printed labels and prints how many
// can still be read. It is what "go run ./cmd/dev bench labels" starts, a program
// of its own because cmd/dev imports nothing of the product.
//
// Each label is drawn as the product draws it, laid out in the dots of a 203 dpi
// printer, and spotted with round blotches, dark or light, until they cover the
// share of the square's area asked for; zbarimg then reads the label.
package main

import (
	"bytes"
	"flag"
	"fmt"
	"image"
	"image/color"
	"math/rand/v2"
	"os"
	"path/filepath"
	"time"

	"github.com/skip2/go-qrcode"

	"trayside/internal/label"
	"trayside/server/sheet"
	"trayside/server/sheet/sheettest"
)

// dpi is common for label printers and coarser than what a phone sees of a label
// that it was brought close to.
const dpi = 203

// shares are how much of the square is covered, per cent.
var shares = []int{0, 2, 5, 8}

func main() {
	trials := flag.Int("trials", 120, "labels for each cell of the table")
	seed := flag.Uint64("seed", 1, "of everything that is drawn")
	base := flag.String("base", "https://bins.example.org", "address that the labels lead to")
	flag.Parse()
	if err := run(*base, *seed, *trials); err != nil {
		fmt.Fprintln(os.Stderr, "soil:", err)
		os.Exit(1)
	}
}

func run(address string, seed uint64, trials int) error {
	base, err := label.ParseBase(address)
	if err != nil {
		return err
	}
	fmt.Printf("Share of labels read with soil on so much of the square; %d labels a cell, seed %d, %s\n\n", trials, seed, base)
	fmt.Printf("%-16s %-6s %-9s", "sheet or roll", "level", "module")
	for _, share := range shares {
		fmt.Printf("%7d %%", share)
	}
	fmt.Println()
	for _, s := range label.Presets() {
		if err := row(s, base, seed, trials); err != nil {
			return fmt.Errorf("%s: %w", s.Name, err)
		}
	}
	return nil
}

// row prints one sheet's line of the table.
func row(s label.Sheet, base label.Base, seed uint64, trials int) error {
	random := rand.New(rand.NewPCG(seed, 0))
	code := label.Draw(random.Uint64)
	clean, at, err := printed(s, base, code)
	if err != nil {
		return err
	}
	fmt.Printf("%-16s %-6s %.2f mm  ", s.Name, at.level, float64(at.face.Square.Module)/1e6)
	for _, share := range shares {
		var soiled []*image.Gray
		for range trials {
			soiled = append(soiled, soil(clean, at.square, share, random))
		}
		dir, err := os.MkdirTemp("", "trayside-soil-")
		if err != nil {
			return err
		}
		read, err := sheettest.Scan(dir, soiled)
		os.RemoveAll(dir)
		if err != nil {
			return err
		}
		right, wrong := 0, 0
		for _, text := range read {
			switch text {
			case base.Address(code):
				right++
			case "":
			default:
				wrong++
			}
		}
		if wrong > 0 {
			return fmt.Errorf("%d labels were read as something else", wrong)
		}
		fmt.Printf("%7d %%", (right*100+trials/2)/trials)
	}
	fmt.Println()
	return nil
}

// place is where the square of a label's picture lies.
type place struct {
	level  string
	face   label.Face
	square image.Rectangle // dots, without the quiet zone
}

// printed returns the picture of a sheet's first label.
func printed(s label.Sheet, base label.Base, code label.Code) (*image.Gray, place, error) {
	dir, err := os.MkdirTemp("", "trayside-soil-")
	if err != nil {
		return nil, place{}, err
	}
	defer os.RemoveAll(dir)
	var pdf bytes.Buffer
	if err := sheet.Write(&pdf, sheet.Job{Sheet: s, Base: base, Made: time.Unix(0, 0), Labels: []sheet.Label{{Code: code, Tray: "Slate", Bin: "Cellar"}}}); err != nil {
		return nil, place{}, err
	}
	file := filepath.Join(dir, "label.pdf")
	if err := os.WriteFile(file, pdf.Bytes(), 0o600); err != nil {
		return nil, place{}, err
	}
	page, err := sheettest.Render(file, 0, dpi)
	if err != nil {
		return nil, place{}, err
	}
	_, cell := s.Cell(0)
	at := place{}
	for _, try := range []struct {
		name  string
		level qrcode.RecoveryLevel
	}{{"H", qrcode.Highest}, {"Q", qrcode.High}} {
		q, err := qrcode.New(base.Address(code), try.level)
		if err != nil {
			continue
		}
		q.DisableBorder = true
		if face, ok := s.Face(cell, len(q.Bitmap())); ok {
			at.level, at.face = try.name, face
			break
		}
	}
	q := at.face.Square
	dots := func(nm int64) int { return int((nm*dpi + 12_700_000) / 25_400_000) }
	at.square = image.Rect(dots(q.X+label.Quiet*q.Module-cell.X*1000), dots(q.Y+label.Quiet*q.Module-cell.Y*1000),
		dots(q.X+q.Module*int64(q.Side-label.Quiet)-cell.X*1000), dots(q.Y+q.Module*int64(q.Side-label.Quiet)-cell.Y*1000))
	return sheettest.Crop(page, dpi, cell), at, nil
}

// soil returns a copy with blotches of a fortieth to a tenth of the square's
// side, half of them dark and half light, that cover so many per cent of it.
func soil(clean *image.Gray, square image.Rectangle, share int, random *rand.Rand) *image.Gray {
	m := image.NewGray(clean.Rect)
	copy(m.Pix, clean.Pix)
	side := float64(square.Dx())
	covered := map[image.Point]bool{}
	for len(covered)*100 < share*square.Dx()*square.Dy() {
		r := side * (1.0/40 + random.Float64()*(1.0/10-1.0/40)) / 2
		cx, cy := float64(square.Min.X)+random.Float64()*side, float64(square.Min.Y)+random.Float64()*side
		shade := color.Gray{Y: 40}
		if random.IntN(2) == 0 {
			shade.Y = 235
		}
		for y := int(cy - r); y <= int(cy+r); y++ {
			for x := int(cx - r); x <= int(cx+r); x++ {
				at := image.Pt(x, y)
				dx, dy := float64(x)-cx, float64(y)-cy
				if at.In(square) && dx*dx+dy*dy <= r*r {
					m.SetGray(x, y, shade)
					covered[at] = true
				}
			}
		}
	}
	return m
}
