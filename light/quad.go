package light

import (
	"math"

	"rillwright/geom"
)

// Quad is a flat parallelogram, mostly a rectangle.
type Quad struct {
	Corner, U, V geom.Vec // its corners are Corner, +U, +U+V, +V, m
}

// Area returns its area, m2.
func (q *Quad) Area() float64 { return size(cross(q.U, q.V)) }

// Normal returns the unit vector across it, on the side from which U to V turns
// left.
func (q *Quad) Normal() geom.Vec { return unit(cross(q.U, q.V)) }

// At returns a point of it by shares of U and V.
func (q *Quad) At(u, v float64) geom.Vec { return q.Corner.Add(q.U.Times(u)).Add(q.V.Times(v)) }

// Factor returns the share of what a small face at a point, with a unit vector
// across it on the side that looks out, sees that is the quad: the view factor of
// the face to it, 0 to 1. What lies below the face's own plane is cut off. Which
// side of the quad is seen does not matter.
//
// Lambert's formula for polygons, sum of angles times components over 2 pi.
// Derived.
func (q *Quad) Factor(p, normal geom.Vec) float64 {
	a := q.Corner.Sub(p)
	corners := [4]geom.Vec{a, a.Add(q.U), a.Add(q.U).Add(q.V), a.Add(q.V)}
	var h [4]float64
	over := 0
	for i, c := range corners {
		if h[i] = c.Dot(normal); h[i] > 0 {
			over++
		}
	}
	switch over {
	case 0:
		return 0
	case 4:
		return polygon(corners[:], normal)
	}
	var cut [5]geom.Vec
	n := 0
	for i, c := range corners {
		j := (i + 1) % 4
		if h[i] > 0 {
			cut[n] = c
			n++
		}
		if (h[i] > 0) != (h[j] > 0) {
			cut[n] = c.Between(corners[j], h[i]/(h[i]-h[j]))
			n++
		}
	}
	return polygon(cut[:n], normal)
}

// polygon is Lambert's formula for corners about the eye.
func polygon(corners []geom.Vec, normal geom.Vec) float64 {
	sum := 0.0
	from := corners[len(corners)-1]
	for _, to := range corners {
		c := cross(from, to)
		if s := size(c); s > 0 {
			sum += math.Atan2(s, from.Dot(to)) * c.Dot(normal) / s
		}
		from = to
	}
	return math.Abs(sum) / (2 * math.Pi)
}

// stops reports whether the quad lies between two points.
func (q *Quad) stops(from, to geom.Vec) bool {
	n := cross(q.U, q.V)
	way := to.Sub(from)
	d := way.Dot(n)
	if d == 0 {
		return false
	}
	t := q.Corner.Sub(from).Dot(n) / d
	if !(t > 1e-9 && t < 1-1e-9) {
		return false
	}
	at := from.Add(way.Times(t)).Sub(q.Corner)
	nn := n.Dot(n)
	u, v := cross(at, q.V).Dot(n)/nn, cross(q.U, at).Dot(n)/nn
	return u >= 0 && u <= 1 && v >= 0 && v <= 1
}
