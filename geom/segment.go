package geom

import (
	"math"
	"slices"
)

// SegmentPoint returns the distance from a point to the straight line from a to
// b, m, and where along it the nearest point is: 0 at a, 1 at b.
func SegmentPoint(a, b, p Vec) (dist, t float64) {
	d := b.Sub(a)
	if l := d.Dot(d); l > 0 {
		t = clamp(p.Sub(a).Dot(d) / l)
	}
	return a.Between(b, t).Dist(p), t
}

// SegmentDist returns the least distance between the straight lines from a to b
// and from c to d, m. Either may be a point.
//
// It is either between an end of one and the other, or between the points that
// the common perpendicular of both meets, if those lie on them.
func SegmentDist(a, b, c, d Vec) float64 {
	least := math.Inf(1)
	try := func(p, q, r Vec) {
		if s, _ := SegmentPoint(p, q, r); s < least {
			least = s
		}
	}
	try(a, b, c)
	try(a, b, d)
	try(c, d, a)
	try(c, d, b)
	u, v, w := b.Sub(a), d.Sub(c), a.Sub(c)
	uu, uv, vv, uw, vw := u.Dot(u), u.Dot(v), v.Dot(v), u.Dot(w), v.Dot(w)
	det := uu*vv - uv*uv
	if det <= 1e-14*uu*vv { // parallel, or a point: the ends tell it
		return least
	}
	s, t := (uv*vw-vv*uw)/det, (uu*vw-uv*uw)/det
	if s >= 0 && s <= 1 && t >= 0 && t <= 1 {
		least = math.Min(least, a.Between(b, s).Dist(c.Between(d, t)))
	}
	return least
}

// SegmentBoxDist returns the least distance from the straight line from a to b
// to a box, m; 0 if the line meets it.
//
// The square of the distance is a parabola of the way along the line between the
// places where it crosses a plane of the box's faces, so its least is found
// piece by piece.
func SegmentBoxDist(a, b Vec, box Box) float64 {
	cuts := []float64{0, 1}
	d := b.Sub(a)
	for _, on := range []Axis{X, Y, Z} {
		if d.On(on) == 0 {
			continue
		}
		for _, face := range []float64{box.Min.On(on), box.Max.On(on)} {
			if t := (face - a.On(on)) / d.On(on); t > 0 && t < 1 {
				cuts = append(cuts, t)
			}
		}
	}
	slices.Sort(cuts)
	least := math.Min(box.Dist(a), box.Dist(b))
	for i := 1; i < len(cuts); i++ {
		t := (cuts[i-1] + cuts[i]) / 2
		// Within the piece the same faces are the nearest ones: along the axes
		// where the line is beyond the box, its distance is from that face.
		p := a.Between(b, t)
		off := p.Sub(box.Nearest(p))
		slope, curve := 0.0, 0.0
		for _, on := range []Axis{X, Y, Z} {
			if off.On(on) != 0 {
				slope += off.On(on) * d.On(on)
				curve += d.On(on) * d.On(on)
			}
		}
		if curve > 0 {
			t = math.Min(math.Max(t-slope/curve, cuts[i-1]), cuts[i])
		}
		least = math.Min(least, box.Dist(a.Between(b, t)))
	}
	return least
}

func clamp(t float64) float64 { return math.Min(math.Max(t, 0), 1) }
