package drawing

import (
	"math"
	"slices"
)

// Hatch returns parallel lines that fill a polygon, at an angle in degrees
// (counter-clockwise from the right) and a distance from one to the next, mm.
// Lines of equal angle and distance in different polygons continue one another.
// A polygon that crosses itself is filled by the even-odd rule. A distance that
// is not above 0 gives none.
func Hatch(polygon []Point, angle, distance float64, pen Pen) []Item {
	if len(polygon) < 3 || !(distance > 0) {
		return nil
	}
	// In turned coordinates the hatch lines are those of constant v.
	sin, cos := math.Sincos(angle * math.Pi / 180)
	turned := make([]Point, len(polygon))
	for i, p := range polygon {
		turned[i] = Point{p.X*cos - p.Y*sin, p.X*sin + p.Y*cos}
	}
	b := BoundsOf(turned)
	var out []Item
	var cuts []float64
	for k := math.Ceil(b.Top / distance); k*distance < b.Bottom; k++ {
		v := k * distance
		cuts = cuts[:0]
		for i, p := range turned {
			q := turned[(i+1)%len(turned)]
			// Half-open, so that a corner counts once.
			if (p.Y <= v) != (q.Y <= v) {
				cuts = append(cuts, p.X+(v-p.Y)/(q.Y-p.Y)*(q.X-p.X))
			}
		}
		slices.Sort(cuts)
		for i := 0; i+1 < len(cuts); i += 2 {
			// Slivers at corners are left out: they would print as dots.
			if cuts[i+1]-cuts[i] < 0.1 {
				continue
			}
			back := func(u float64) Point { return Point{u*cos + v*sin, -u*sin + v*cos} }
			out = append(out, Line(back(cuts[i]), back(cuts[i+1]), pen))
		}
	}
	return out
}
