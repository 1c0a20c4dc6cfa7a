package build

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"strings"
)

// The icon is the bin's cross-section in the app's own pen: three trays, the food
// in the top one, and the plumb mark that points at it. One list of shapes makes
// the SVG and every PNG.

type icon struct {
	name    string
	px      int     // 0 for the SVG
	inset   float64 // share of the square kept free on each side
	purpose string  // "" keeps it out of the web manifest
}

var iconList = []icon{
	{"icon.svg", 0, 0, "any"},
	{"icon-192.png", 192, 0, "any"},
	{"icon-512.png", 512, 0, "any"},
	// A maskable icon may lose all but a circle of 80 % (W3C, Web Application
	// Manifest, "Icon masks and safe zone").
	{"icon-maskable-512.png", 512, 0.12, "maskable"},
}

func (i icon) sizes() string {
	if i.px == 0 {
		return "any"
	}
	return fmt.Sprintf("%dx%d", i.px, i.px)
}

func (i icon) mime() string {
	if i.px == 0 {
		return "image/svg+xml"
	}
	return "image/png"
}

type point struct{ x, y float64 }

// shape is a filled polygon in a square of side 1.
type shape struct {
	fill color.RGBA
	path []point
}

var (
	slate = color.RGBA{0x11, 0x1A, 0x1B, 0xFF}
	chalk = color.RGBA{0xE9, 0xEC, 0xE1, 0xFF}
	amber = color.RGBA{0xF6, 0xA2, 0x4A, 0xFF}
)

func bar(fill color.RGBA, x0, y0, x1, y1 float64) shape {
	return shape{fill, []point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}}
}

// drawing returns the shapes from the ground up.
func drawing() []shape {
	shapes := []shape{bar(slate, 0, 0, 1, 1)}
	const wall = 0.035
	for i, half := range []float64{0.31, 0.29, 0.27} {
		top := 0.40 + 0.155*float64(i)
		left, right, bottom := 0.5-half, 0.5+half, top+0.155
		shapes = append(shapes,
			bar(chalk, left, top, left+wall, bottom),
			bar(chalk, right-wall, top, right, bottom),
			bar(chalk, left, bottom-wall, right, bottom))
	}
	// Bedding in the middle tray, castings in the lowest.
	for _, x := range []float64{0.30, 0.44, 0.58} {
		shapes = append(shapes, shape{chalk, []point{{x, 0.618}, {x + 0.11, 0.602}, {x + 0.11, 0.618}, {x, 0.634}}})
	}
	for _, p := range []point{{0.34, 0.79}, {0.42, 0.775}, {0.50, 0.792}, {0.58, 0.772}, {0.65, 0.788}} {
		shapes = append(shapes, bar(chalk, p.x-0.014, p.y-0.014, p.x+0.014, p.y+0.014))
	}
	// The meal lies in the top tray, below the plumb mark on its line.
	meal := shape{amber, []point{{0.31, 0.518}, {0.36, 0.452}, {0.46, 0.468}, {0.54, 0.432}, {0.64, 0.462}, {0.69, 0.518}}}
	mark := shape{amber, []point{{0.5, 0.405}, {0.452, 0.295}, {0.5, 0.25}, {0.548, 0.295}}}
	return append(shapes, meal, mark, bar(amber, 0.4905, 0.12, 0.5095, 0.27))
}

func drawIcons() ([]file, error) {
	var files []file
	for _, i := range iconList {
		body := []byte(svg(drawing()))
		if i.px > 0 {
			var b bytes.Buffer
			if err := png.Encode(&b, raster(drawing(), i.px, i.inset)); err != nil {
				return nil, err
			}
			body = b.Bytes()
		}
		files = append(files, file{path: hashed(i.name, body), logical: i.name, part: "icons and manifest", body: body, kept: true})
	}
	return files, nil
}

func svg(shapes []shape) string {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1000 1000">`)
	for _, s := range shapes {
		fmt.Fprintf(&b, `<path fill="#%02x%02x%02x" d="`, s.fill.R, s.fill.G, s.fill.B)
		for i, p := range s.path {
			fmt.Fprintf(&b, "%c%g %g", "ML"[min(i, 1)], p.x*1000, p.y*1000)
		}
		b.WriteString(`z"/>`)
	}
	b.WriteString("</svg>\n")
	return b.String()
}

// raster draws the shapes with edges softened by 4 × 4 samples a pixel. The
// ground fills the whole square, whatever the inset.
func raster(shapes []shape, px int, inset float64) image.Image {
	const fine = 4
	img := image.NewRGBA(image.Rect(0, 0, px, px))
	for y := range px {
		for x := range px {
			var r, g, b int
			for s := range fine * fine {
				u := (float64(x) + (float64(s%fine)+0.5)/fine) / float64(px)
				v := (float64(y) + (float64(s/fine)+0.5)/fine) / float64(px)
				c := shapes[0].fill
				p := point{(u-0.5)/(1-2*inset) + 0.5, (v-0.5)/(1-2*inset) + 0.5}
				for _, sh := range shapes[1:] {
					if sh.holds(p) {
						c = sh.fill
					}
				}
				r, g, b = r+int(c.R), g+int(c.G), b+int(c.B)
			}
			const n = fine * fine
			img.SetRGBA(x, y, color.RGBA{uint8(r / n), uint8(g / n), uint8(b / n), 0xFF})
		}
	}
	return img
}

// holds counts the edges to the right of p: an odd number means inside.
func (s shape) holds(p point) bool {
	in := false
	for i, a := range s.path {
		b := s.path[(i+1)%len(s.path)]
		if (a.y > p.y) != (b.y > p.y) && p.x < a.x+(p.y-a.y)/(b.y-a.y)*(b.x-a.x) {
			in = !in
		}
	}
	return in
}
