package geom

import "math"

// Gap returns how far two solids are apart, m. Below 0 they overlap, and the
// figure is the least way one of them must be moved to be free of the other; 0
// means that they touch.
//
// It is exact between points, boxes and cylinders that lie along the same axis,
// and between a box and a cylinder: each is then an interval across a flat
// figure, whose gaps add as the sides of a right angle. A gap above 0 from a path
// to a point, a box or a path is exact too. Between cylinders across each other,
// and from a path to a cylinder, flat ends count as round where that is needed:
// the gap returned is then the true one or less. How deep a path's middle line
// runs in another solid is not counted: a path overlaps by its radius at most, two
// paths by both. Between a prism and a point, a box or a prism it is exact; of a
// cylinder beside a prism the ends count as round or as a box, so that the gap is
// the true one or less.
func Gap(a, b Solid) float64 {
	if p, ok := b.(Prism); ok {
		return gapPrism(p, a)
	}
	switch a := a.(type) {
	case Vec:
		return gapBox(a.Bounds(), b)
	case Box:
		return gapBox(a, b)
	case Cylinder:
		return gapCylinder(a, b)
	case Path:
		return gapPath(a, b)
	case Prism:
		return gapPrism(a, b)
	}
	return gapBox(a.Bounds(), b)
}

func gapBox(a Box, b Solid) float64 {
	switch b := b.(type) {
	case Cylinder:
		return boxCylinder(a, b)
	case Path:
		return boxPath(a, b)
	}
	return boxBox(a, b.Bounds())
}

func gapCylinder(a Cylinder, b Solid) float64 {
	switch b := b.(type) {
	case Cylinder:
		return cylinderCylinder(a, b)
	case Path:
		return pathCylinder(b, a)
	}
	return boxCylinder(b.Bounds(), a)
}

func gapPath(a Path, b Solid) float64 {
	switch b := b.(type) {
	case Cylinder:
		return pathCylinder(a, b)
	case Path:
		return pathPath(a, b)
	}
	return boxPath(b.Bounds(), a)
}

// along returns the gap between two solids along one axis, below 0 if they
// overlap there: what remains to the nearer side.
func along(a, b Box, on Axis) float64 {
	return math.Max(a.Min.On(on)-b.Max.On(on), b.Min.On(on)-a.Max.On(on))
}

// join puts together gaps along directions that stand square to each other: the
// gaps above 0 as sides of a right angle; with none, the least way out.
func join(gaps ...float64) float64 {
	sum, most := 0.0, math.Inf(-1)
	for _, g := range gaps {
		most = math.Max(most, g)
		if g > 0 {
			sum = math.Hypot(sum, g)
		}
	}
	if sum > 0 {
		return sum
	}
	return most
}

func boxBox(a, b Box) float64 { return join(along(a, b, X), along(a, b, Y), along(a, b, Z)) }

func boxCylinder(a Box, c Cylinder) float64 {
	end := along(a, c.Bounds(), c.Along)
	// Across: a rectangle and a circle. From a centre inside, the way out is to
	// the nearest side.
	in, out := math.Inf(-1), 0.0
	for _, on := range []Axis{X, Y, Z} {
		if on == c.Along {
			continue
		}
		g := math.Max(a.Min.On(on)-c.From.On(on), c.From.On(on)-a.Max.On(on))
		in = math.Max(in, g)
		out = math.Hypot(out, math.Max(g, 0))
	}
	across := out
	if in <= 0 {
		across = in
	}
	return join(end, across-c.Radius)
}

func cylinderCylinder(a, b Cylinder) float64 {
	if a.Along == b.Along {
		d := b.From.Sub(a.From).With(a.Along, 0).Length()
		return join(along(a.Bounds(), b.Bounds(), a.Along), d-a.Radius-b.Radius)
	}
	// Each of the three is of solids that hold the true ones.
	round := SegmentDist(a.From, a.To(), b.From, b.To()) - a.Radius - b.Radius
	return math.Max(round, math.Max(boxCylinder(a.Bounds(), b), boxCylinder(b.Bounds(), a)))
}

// pieces calls f with each straight piece of a path, or with its one point.
func (p Path) pieces(f func(a, b Vec)) {
	if len(p.Points) == 1 {
		f(p.Points[0], p.Points[0])
	}
	for i := 1; i < len(p.Points); i++ {
		f(p.Points[i-1], p.Points[i])
	}
}

func boxPath(b Box, p Path) float64 {
	least := math.Inf(1)
	p.pieces(func(v, w Vec) {
		least = math.Min(least, SegmentBoxDist(v, w, b)-p.Radius)
	})
	return least
}

func pathCylinder(p Path, c Cylinder) float64 {
	least := math.Inf(1)
	p.pieces(func(v, w Vec) {
		round := SegmentDist(v, w, c.From, c.To()) - c.Radius - p.Radius
		boxed := SegmentBoxDist(v, w, c.Bounds()) - p.Radius
		least = math.Min(least, math.Max(round, boxed))
	})
	return least
}

func pathPath(p, q Path) float64 {
	least := math.Inf(1)
	p.pieces(func(v, w Vec) {
		q.pieces(func(s, t Vec) {
			least = math.Min(least, SegmentDist(v, w, s, t)-p.Radius-q.Radius)
		})
	})
	return least
}
