// Package geom holds the few solids that an enclosure is made of, and how far
// apart two of them are: boxes, cylinders and prisms that lie along the axes, and
// round things that follow a line.
//
// Lengths are in m, in any coordinate system whose axes stand square to each
// other; nothing here depends on its handedness. Everything is computed in plain
// float64: distances are right to a few units of the last digit of the
// coordinates, and exact where a function says exact. The package is pure.
package geom

import "math"

// Axis is one direction of the coordinate system.
type Axis int

// The axes.
const (
	X Axis = iota
	Y
	Z
)

// Vec is a point, or the way from one point to another, m.
type Vec struct{ X, Y, Z float64 }

// On returns the coordinate of v along an axis, m.
func (v Vec) On(a Axis) float64 {
	switch a {
	case X:
		return v.X
	case Y:
		return v.Y
	}
	return v.Z
}

// With returns v with one coordinate replaced.
func (v Vec) With(a Axis, c float64) Vec {
	switch a {
	case X:
		v.X = c
	case Y:
		v.Y = c
	default:
		v.Z = c
	}
	return v
}

// Add returns v + w.
func (v Vec) Add(w Vec) Vec { return Vec{v.X + w.X, v.Y + w.Y, v.Z + w.Z} }

// Sub returns v - w.
func (v Vec) Sub(w Vec) Vec { return Vec{v.X - w.X, v.Y - w.Y, v.Z - w.Z} }

// Times returns v stretched by k.
func (v Vec) Times(k float64) Vec { return Vec{v.X * k, v.Y * k, v.Z * k} }

// Dot returns the scalar product, m2.
func (v Vec) Dot(w Vec) float64 { return v.X*w.X + v.Y*w.Y + v.Z*w.Z }

// Length returns how long v is, m.
func (v Vec) Length() float64 { return math.Hypot(math.Hypot(v.X, v.Y), v.Z) }

// Dist returns the distance between two points, m.
func (v Vec) Dist(w Vec) float64 { return v.Sub(w).Length() }

// Between returns the point a share t of the way from v to w: v at 0, w at 1.
func (v Vec) Between(w Vec, t float64) Vec { return v.Add(w.Sub(v).Times(t)) }

// Solid is a thing in space: Vec (a point), Box, Cylinder, Path or Prism.
type Solid interface {
	// Bounds returns the least box round it.
	Bounds() Box
}

// Bounds returns the box of no size at v.
func (v Vec) Bounds() Box { return Box{v, v} }

// Box is a block whose sides lie along the axes. Min is no more than Max along
// each axis.
type Box struct{ Min, Max Vec }

// BoxOf returns the box that has two points as opposite corners.
func BoxOf(a, b Vec) Box {
	return Box{
		Vec{math.Min(a.X, b.X), math.Min(a.Y, b.Y), math.Min(a.Z, b.Z)},
		Vec{math.Max(a.X, b.X), math.Max(a.Y, b.Y), math.Max(a.Z, b.Z)},
	}
}

// Bounds returns the box itself.
func (b Box) Bounds() Box { return b }

// Size returns its three sizes, m.
func (b Box) Size() Vec { return b.Max.Sub(b.Min) }

// Centre returns the middle of the box.
func (b Box) Centre() Vec { return b.Min.Between(b.Max, 0.5) }

// Volume returns its content, m3.
func (b Box) Volume() float64 {
	s := b.Size()
	return s.X * s.Y * s.Z
}

// Moved returns the box moved by v.
func (b Box) Moved(v Vec) Box { return Box{b.Min.Add(v), b.Max.Add(v)} }

// Grown returns the box with every face moved outwards by d, m; inwards if d is
// below 0, at most to its middle.
func (b Box) Grown(d float64) Box {
	for _, a := range []Axis{X, Y, Z} {
		lo, hi := b.Min.On(a)-d, b.Max.On(a)+d
		if lo > hi {
			lo = (b.Min.On(a) + b.Max.On(a)) / 2
			hi = lo
		}
		b.Min, b.Max = b.Min.With(a, lo), b.Max.With(a, hi)
	}
	return b
}

// Union returns the least box round both.
func (b Box) Union(c Box) Box {
	return Box{
		Vec{math.Min(b.Min.X, c.Min.X), math.Min(b.Min.Y, c.Min.Y), math.Min(b.Min.Z, c.Min.Z)},
		Vec{math.Max(b.Max.X, c.Max.X), math.Max(b.Max.Y, c.Max.Y), math.Max(b.Max.Z, c.Max.Z)},
	}
}

// Meet returns what two boxes have in common; ok is false if they do not even
// touch. Exact.
func (b Box) Meet(c Box) (m Box, ok bool) {
	m = Box{
		Vec{math.Max(b.Min.X, c.Min.X), math.Max(b.Min.Y, c.Min.Y), math.Max(b.Min.Z, c.Min.Z)},
		Vec{math.Min(b.Max.X, c.Max.X), math.Min(b.Max.Y, c.Max.Y), math.Min(b.Max.Z, c.Max.Z)},
	}
	return m, m.Min.X <= m.Max.X && m.Min.Y <= m.Max.Y && m.Min.Z <= m.Max.Z
}

// Has reports whether a point lies in the box or on its face. Exact.
func (b Box) Has(p Vec) bool {
	return b.Min.X <= p.X && p.X <= b.Max.X && b.Min.Y <= p.Y && p.Y <= b.Max.Y && b.Min.Z <= p.Z && p.Z <= b.Max.Z
}

// Holds reports whether another box lies wholly in it. Exact.
func (b Box) Holds(c Box) bool { return b.Has(c.Min) && b.Has(c.Max) }

// Nearest returns the point of the box nearest to p: p itself if it lies inside.
func (b Box) Nearest(p Vec) Vec {
	for _, a := range []Axis{X, Y, Z} {
		p = p.With(a, math.Min(math.Max(p.On(a), b.Min.On(a)), b.Max.On(a)))
	}
	return p
}

// Dist returns the distance from a point to the box, m; 0 inside.
func (b Box) Dist(p Vec) float64 { return b.Nearest(p).Dist(p) }

// Cylinder is a round bar with flat ends that lies along an axis.
type Cylinder struct {
	From   Vec // the centre of the end with the least coordinate along Along
	Along  Axis
	Length float64 // m
	Radius float64 // m
}

// Rod returns the cylinder along an axis from one coordinate to another, in any
// order, through the point at.
func Rod(at Vec, along Axis, from, to, radius float64) Cylinder {
	lo, hi := math.Min(from, to), math.Max(from, to)
	return Cylinder{From: at.With(along, lo), Along: along, Length: hi - lo, Radius: radius}
}

// To returns the centre of its other end.
func (c Cylinder) To() Vec { return c.From.With(c.Along, c.From.On(c.Along)+c.Length) }

// Centre returns its middle.
func (c Cylinder) Centre() Vec { return c.From.Between(c.To(), 0.5) }

// Volume returns its content, m3.
func (c Cylinder) Volume() float64 { return math.Pi * c.Radius * c.Radius * c.Length }

// Moved returns the cylinder moved by v.
func (c Cylinder) Moved(v Vec) Cylinder {
	c.From = c.From.Add(v)
	return c
}

// Bounds returns the least box round it.
func (c Cylinder) Bounds() Box {
	b := Box{c.From, c.To()}
	for _, a := range []Axis{X, Y, Z} {
		if a != c.Along {
			b.Min, b.Max = b.Min.With(a, b.Min.On(a)-c.Radius), b.Max.With(a, b.Max.On(a)+c.Radius)
		}
	}
	return b
}

// Has reports whether a point lies in the cylinder or on its face.
func (c Cylinder) Has(p Vec) bool {
	d := p.Sub(c.From)
	s := d.On(c.Along)
	return s >= 0 && s <= c.Length && d.With(c.Along, 0).Length() <= c.Radius
}

// Path is a round thing that follows a line, such as a hose: all points within
// Radius of it, so that its ends and bends are round. It has at least one point.
type Path struct {
	Points []Vec
	Radius float64 // m
}

// Length returns how long the line is, m.
func (p Path) Length() float64 {
	sum := 0.0
	for i := 1; i < len(p.Points); i++ {
		sum += p.Points[i].Dist(p.Points[i-1])
	}
	return sum
}

// At returns the point at a distance s along the line from its beginning, m; an
// end of the line for a distance beyond it.
func (p Path) At(s float64) Vec {
	for i := 1; i < len(p.Points); i++ {
		a, b := p.Points[i-1], p.Points[i]
		l := b.Dist(a)
		if s <= l && l > 0 {
			return a.Between(b, math.Max(s, 0)/l)
		}
		s -= l
	}
	return p.Points[len(p.Points)-1]
}

// Moved returns the path moved by v.
func (p Path) Moved(v Vec) Path {
	q := Path{Points: make([]Vec, len(p.Points)), Radius: p.Radius}
	for i := range p.Points {
		q.Points[i] = p.Points[i].Add(v)
	}
	return q
}

// Bounds returns the least box round it.
func (p Path) Bounds() Box {
	b := p.Points[0].Bounds()
	for _, q := range p.Points[1:] {
		b = b.Union(q.Bounds())
	}
	return b.Grown(p.Radius)
}
