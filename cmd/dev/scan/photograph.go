package main

import (
	"image"
	"math"
	"math/rand/v2"
)

// The camera: what a phone gives when 1280 by 720 are asked for, with a field of
// view of about 64 degrees, as phones' main cameras have (from memory).
const (
	frameW, frameH = 1280, 720
	focal          = 1024.0 // px
)

// condition is how a label is photographed. Angles are the most either way, in
// degrees; distances in mm.
type condition struct {
	name, file string
	near, far  float64 // from the camera
	turn       float64 // in the picture's plane
	lean       float64 // away from the camera, sideways and up together
	defocus    float64 // standard deviation, px
	motion     float64 // length of the smear, px
	light      float64 // how bright paper is, 0 to 1
	noise      float64 // standard deviation, of 255
	glare      float64 // radius of the burnt spot, mm
	soil       float64 // share of the label under blotches
}

var conditions = []condition{
	{name: "held well", file: "well", near: 110, far: 180, turn: 15, lean: 10, light: 0.85, noise: 4, defocus: 0.6},
	{name: "at an angle", file: "angle", near: 110, far: 180, turn: 45, lean: 50, light: 0.8, noise: 5, defocus: 0.6},
	{name: "blurred", file: "blur", near: 110, far: 180, turn: 20, lean: 20, light: 0.8, noise: 5, defocus: 1.6, motion: 7},
	{name: "glare", file: "glare", near: 110, far: 180, turn: 20, lean: 20, light: 0.8, noise: 5, defocus: 0.8, glare: 5},
	{name: "low light", file: "dark", near: 110, far: 180, turn: 20, lean: 20, light: 0.16, noise: 9, defocus: 1},
	{name: "soil, 5 %", file: "soil", near: 110, far: 180, turn: 20, lean: 20, light: 0.8, noise: 5, defocus: 0.8, soil: 0.05},
	{name: "small, 30 to 40 cm off", file: "small", near: 300, far: 400, turn: 20, lean: 15, light: 0.8, noise: 5, defocus: 0.6},
	{name: "all at once", file: "all", near: 130, far: 220, turn: 30, lean: 35, light: 0.45, noise: 9, defocus: 1.1, motion: 3, glare: 3, soil: 0.02},
}

// photograph returns a frame of a label as c says, the rest drawn from rng.
func photograph(l *image.Gray, c condition, rng *rand.Rand) []byte {
	either := func(most float64) float64 { return (2*rng.Float64() - 1) * most }
	l = soiled(l, c.soil, rng)
	v := newView(c, either, c.near+(c.far-c.near)*rng.Float64())
	b := l.Bounds()
	perMM := float64(dpi) / 25.4
	gx, gy := either(float64(b.Dx())/2/perMM), either(float64(b.Dy())/2/perMM)
	slope := either(0.25) // light falls off across the picture
	light := make([]float64, frameW*frameH)
	for y := range frameH {
		for x := range frameW {
			sum := 0.0
			// Four rays a pixel: a module may be smaller than a pixel's grid.
			for _, d := range [4][2]float64{{.25, .25}, {.75, .25}, {.25, .75}, {.75, .75}} {
				px, py := float64(x)+d[0], float64(y)+d[1]
				u, w := v.onPlane(px, py)
				paper := sample(l, float64(b.Min.X+b.Max.X)/2+u*perMM, float64(b.Min.Y+b.Max.Y)/2+w*perMM)
				burnt := 0.0
				if c.glare > 0 {
					burnt = 1.6 * math.Exp(-((u-gx)*(u-gx)+(w-gy)*(w-gy))/(c.glare*c.glare))
				}
				sum += c.light*(paper+burnt) + slope*c.light*(px/frameW-0.5)
			}
			light[y*frameW+x] = sum / 4 * 255
		}
	}
	light = smeared(light, c.motion, either(math.Pi))
	light = blurred(light, c.defocus)
	out := make([]byte, len(light))
	for i, v := range light {
		out[i] = byte(max(0, min(255, math.Round(v+c.noise*rng.NormFloat64()))))
	}
	return out
}

// view is a plane before a pinhole camera: a point on it and its two axes.
type view struct{ at, across, down, normal [3]float64 }

func newView(c condition, either func(float64) float64, far float64) view {
	rad := func(degrees float64) float64 { return degrees * math.Pi / 180 }
	turn, side, up := either(rad(c.turn)), either(rad(c.lean)), either(rad(c.lean))
	rot := func(p [3]float64) [3]float64 {
		x, y := p[0]*math.Cos(turn)-p[1]*math.Sin(turn), p[0]*math.Sin(turn)+p[1]*math.Cos(turn)
		x, z := x*math.Cos(side), x*math.Sin(side)
		return [3]float64{x, y*math.Cos(up) - z*math.Sin(up), y*math.Sin(up) + z*math.Cos(up)}
	}
	v := view{at: [3]float64{either(12), either(8), far}, across: rot([3]float64{1, 0, 0}), down: rot([3]float64{0, 1, 0})}
	v.normal = [3]float64{
		v.across[1]*v.down[2] - v.across[2]*v.down[1],
		v.across[2]*v.down[0] - v.across[0]*v.down[2],
		v.across[0]*v.down[1] - v.across[1]*v.down[0],
	}
	return v
}

func dot(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

// onPlane returns where the ray of a pixel meets the plane, mm from its middle.
func (v view) onPlane(px, py float64) (across, down float64) {
	ray := [3]float64{(px - frameW/2) / focal, (py - frameH/2) / focal, 1}
	t := dot(v.at, v.normal) / dot(ray, v.normal)
	p := [3]float64{t*ray[0] - v.at[0], t*ray[1] - v.at[1], t*ray[2] - v.at[2]}
	return dot(p, v.across), dot(p, v.down)
}

// sample returns the paper's lightness at a place, 0 to 1; beyond the label is a
// dark tray.
func sample(l *image.Gray, x, y float64) float64 {
	b := l.Bounds()
	if x < float64(b.Min.X) || y < float64(b.Min.Y) || x >= float64(b.Max.X-1) || y >= float64(b.Max.Y-1) {
		return 0.22
	}
	x0, y0 := int(x), int(y)
	fx, fy := x-float64(x0), y-float64(y0)
	at := func(dx, dy int) float64 { return float64(l.GrayAt(x0+dx, y0+dy).Y) }
	v := (at(0, 0)*(1-fx)+at(1, 0)*fx)*(1-fy) + (at(0, 1)*(1-fx)+at(1, 1)*fx)*fy
	return 0.08 + 0.9*v/255 // ink is not black, paper not white
}

// soiled returns the label with round blotches, dark and light, over a share of it.
func soiled(l *image.Gray, share float64, rng *rand.Rand) *image.Gray {
	if share == 0 {
		return l
	}
	b := l.Bounds()
	out := image.NewGray(b)
	copyRows(out, l)
	for covered := 0.0; covered < share*float64(b.Dx()*b.Dy()); {
		r := (0.4 + 1.4*rng.Float64()) * dpi / 25.4 // 0.8 to 3.6 mm across
		cx, cy := float64(b.Min.X)+rng.Float64()*float64(b.Dx()), float64(b.Min.Y)+rng.Float64()*float64(b.Dy())
		shade := uint8(40)
		if rng.IntN(3) == 0 {
			shade = 215
		}
		for y := int(cy - r); y <= int(cy+r); y++ {
			for x := int(cx - r); x <= int(cx+r); x++ {
				if math.Hypot(float64(x)-cx, float64(y)-cy) <= r && (image.Point{X: x, Y: y}).In(b) {
					out.Pix[out.PixOffset(x, y)] = shade
				}
			}
		}
		covered += math.Pi * r * r
	}
	return out
}

func copyRows(to, from *image.Gray) {
	b := from.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		copy(to.Pix[to.PixOffset(b.Min.X, y):], from.Pix[from.PixOffset(b.Min.X, y):from.PixOffset(b.Max.X-1, y)+1])
	}
}

// smeared averages along a line, as a hand that moves does.
func smeared(in []float64, length, angle float64) []float64 {
	n := int(length)
	if n < 2 {
		return in
	}
	out := make([]float64, len(in))
	for y := range frameH {
		for x := range frameW {
			sum := 0.0
			for k := range n {
				along := float64(k) - float64(n-1)/2
				sum += pixel(in, x+int(math.Round(along*math.Cos(angle))), y+int(math.Round(along*math.Sin(angle))))
			}
			out[y*frameW+x] = sum / float64(n)
		}
	}
	return out
}

// blurred is a Gaussian blur, along rows and then along columns.
func blurred(in []float64, sigma float64) []float64 {
	if sigma == 0 {
		return in
	}
	reach := int(math.Ceil(2.5 * sigma))
	var kernel []float64
	sum := 0.0
	for k := -reach; k <= reach; k++ {
		w := math.Exp(-float64(k*k) / (2 * sigma * sigma))
		kernel = append(kernel, w)
		sum += w
	}
	pass := func(in []float64, dx, dy int) []float64 {
		out := make([]float64, len(in))
		for y := range frameH {
			for x := range frameW {
				v := 0.0
				for k, w := range kernel {
					v += w * pixel(in, x+(k-reach)*dx, y+(k-reach)*dy)
				}
				out[y*frameW+x] = v / sum
			}
		}
		return out
	}
	return pass(pass(in, 1, 0), 0, 1)
}

// pixel repeats the edge outside the frame.
func pixel(in []float64, x, y int) float64 {
	return in[max(0, min(frameH-1, y))*frameW+max(0, min(frameW-1, x))]
}
