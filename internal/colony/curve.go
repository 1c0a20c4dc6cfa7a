package colony

// knot is one point of a curve.
type knot struct{ x, y float64 }

// curve is a quantity given at points, straight between them and level beyond
// the ends. Points are in rising x.
type curve []knot

// at returns the curve's value at x.
func (c curve) at(x float64) float64 {
	if x <= c[0].x {
		return c[0].y
	}
	for i := 1; i < len(c); i++ {
		if x <= c[i].x {
			a, b := c[i-1], c[i]
			return a.y + float64((b.y-a.y)*((x-a.x)/(b.x-a.x)))
		}
	}
	return c[len(c)-1].y
}
