package light

import "math"

// Opposite returns the view factor from one rectangle a by b to its like, facing it
// at a distance c (m).
//
// Source: view-factors, C-11.
func Opposite(a, b, c float64) float64 {
	x, y := a/c, b/c
	x1, y1 := 1+x*x, 1+y*y
	return 2 / (math.Pi * x * y) * (math.Log(math.Sqrt(x1*y1/(1+x*x+y*y))) +
		x*math.Sqrt(y1)*math.Atan(x/math.Sqrt(y1)) + y*math.Sqrt(x1)*math.Atan(y/math.Sqrt(x1)) -
		x*math.Atan(x) - y*math.Atan(y))
}

// Adjacent returns the view factor from a rectangle with sides edge and own to one
// with sides edge and other that stands square on it along their common edge (m).
//
// Source: view-factors, C-14.
func Adjacent(edge, own, other float64) float64 {
	h, w := other/edge, own/edge
	h2, w2 := h*h, w*w
	r := math.Sqrt(h2 + w2)
	return 1 / (math.Pi * w) * (w*math.Atan(1/w) + h*math.Atan(1/h) - r*math.Atan(1/r) +
		0.25*(math.Log((1+w2)*(1+h2)/(1+w2+h2))+
			w2*math.Log(w2*(1+w2+h2)/((1+w2)*(w2+h2)))+
			h2*math.Log(h2*(1+h2+w2)/((1+h2)*(h2+w2)))))
}

// span is a stretch of a line.
type span struct{ from, to float64 }

// parallel returns area times view factor (m2), the same both ways, between two
// rectangles that lie parallel, apart by z, with sides along two lines.
//
// Source: view-factors, C-13 (general parallel rectangles).
func parallel(x, y, xi, eta span, z float64) float64 {
	g := func(dx, dy float64) float64 {
		a, b := math.Sqrt(dx*dx+z*z), math.Sqrt(dy*dy+z*z)
		return dy*a*math.Atan(dy/a) + dx*b*math.Atan(dx/b) - z*z/2*math.Log(dx*dx+dy*dy+z*z)
	}
	return alternate(x, xi, func(x, xi float64) float64 {
		return alternate(y, eta, func(y, eta float64) float64 { return g(x-xi, y-eta) })
	}) / (2 * math.Pi)
}

// square returns area times view factor (m2), the same both ways, between two
// rectangles that stand square to each other: one x from the line in which their
// planes meet, the other xi from it, along it y and eta.
//
// Source: view-factors, C-16 (general perpendicular rectangles).
func square(x, y, xi, eta span) float64 {
	g := func(x, xi, d float64) float64 {
		c2 := x*x + xi*xi
		all := c2 + d*d
		if all == 0 {
			return 0
		}
		out := -0.25 * (c2 - d*d) * math.Log(all)
		if c2 > 0 {
			c := math.Sqrt(c2)
			out += d * c * math.Atan(d/c)
		}
		return out
	}
	return alternate(x, xi, func(x, xi float64) float64 {
		return alternate(y, eta, func(y, eta float64) float64 { return g(x, xi, y-eta) })
	}) / (2 * math.Pi)
}

// alternate sums f over the ends of two stretches, with the sign of their parity.
func alternate(a, b span, f func(a, b float64) float64) float64 {
	return f(a.from, b.from) - f(a.from, b.to) - f(a.to, b.from) + f(a.to, b.to)
}
