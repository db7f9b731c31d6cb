package geom

import "math"

// Prism is a straight bar with flat ends that lies along an axis, whose cross
// section is a convex figure with an area: a strip that leans between two others.
type Prism struct {
	// Base are the corners of its end with the least coordinate along Along, in
	// order round it: three or more, all with that coordinate.
	Base   []Vec
	Along  Axis
	Length float64 // m
}

// Bounds returns the least box round it.
func (p Prism) Bounds() Box {
	b := p.Base[0].Bounds()
	for _, v := range p.Base[1:] {
		b = b.Union(v.Bounds())
	}
	b.Max = b.Max.With(p.Along, b.Min.On(p.Along)+p.Length)
	return b
}

// Corners returns the corners of the base and then those of its other end.
func (p Prism) Corners() []Vec {
	out := make([]Vec, 0, 2*len(p.Base))
	out = append(out, p.Base...)
	for _, v := range p.Base {
		out = append(out, v.With(p.Along, v.On(p.Along)+p.Length))
	}
	return out
}

// Volume returns its content, m3.
func (p Prism) Volume() float64 { return p.area() * p.Length }

// area is that of its cross section, by the surveyor's formula.
func (p Prism) area() float64 {
	a, b := (p.Along+1)%3, (p.Along+2)%3
	sum := 0.0
	for i, v := range p.Base {
		w := p.Base[(i+1)%len(p.Base)]
		sum += v.On(a)*w.On(b) - w.On(a)*v.On(b)
	}
	return math.Abs(sum) / 2
}

// Centre returns the middle of its volume.
func (p Prism) Centre() Vec {
	a, b := (p.Along+1)%3, (p.Along+2)%3
	o := p.Base[0] // sums about a corner keep their digits
	sum, ca, cb := 0.0, 0.0, 0.0
	for i, v := range p.Base {
		v, w := v.Sub(o), p.Base[(i+1)%len(p.Base)].Sub(o)
		t := v.On(a)*w.On(b) - w.On(a)*v.On(b)
		sum += t
		ca += t * (v.On(a) + w.On(a))
		cb += t * (v.On(b) + w.On(b))
	}
	c := o.With(p.Along, o.On(p.Along)+p.Length/2)
	if sum != 0 {
		c = c.With(a, o.On(a)+ca/(3*sum)).With(b, o.On(b)+cb/(3*sum))
	}
	return c
}

// Moved returns the prism moved by v.
func (p Prism) Moved(v Vec) Prism {
	base := make([]Vec, len(p.Base))
	for i := range p.Base {
		base[i] = p.Base[i].Add(v)
	}
	p.Base = base
	return p
}

// hull is a solid with flat faces, convex: its corners, the edges between them, and
// the unit normals of its faces, one of each pair that stand opposite.
type hull struct {
	at    []Vec
	edges [][2]int
	faces []Vec
}

func (p Prism) hull() hull {
	n := len(p.Base)
	h := hull{at: p.Corners(), faces: []Vec{Vec{}.With(p.Along, 1)}}
	for i := range n {
		k := (i + 1) % n
		h.edges = append(h.edges, [2]int{i, k}, [2]int{n + i, n + k}, [2]int{i, n + i})
		d := p.Base[k].Sub(p.Base[i])
		if f, ok := unit(cross(d, Vec{}.With(p.Along, 1))); ok {
			h.faces = append(h.faces, f)
		}
	}
	return h
}

func (b Box) hull() hull {
	h := Prism{
		Base:   []Vec{b.Min, b.Min.With(X, b.Max.X), b.Max.With(Z, b.Min.Z), b.Min.With(Y, b.Max.Y)},
		Along:  Z,
		Length: b.Max.Z - b.Min.Z,
	}.hull()
	h.faces = []Vec{{X: 1}, {Y: 1}, {Z: 1}} // a flat box has no edge to tell them by
	return h
}

func line(a, b Vec) hull { return hull{at: []Vec{a, b}, edges: [][2]int{{0, 1}}} }

func cross(a, b Vec) Vec {
	return Vec{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X}
}

// unit returns v one long; ok is false if it has no length to speak of.
func unit(v Vec) (Vec, bool) {
	l := v.Length()
	if l < 1e-12 {
		return Vec{}, false
	}
	return v.Times(1 / l), true
}

// span returns where a hull begins and ends along a direction.
func (h *hull) span(d Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, v := range h.at {
		x := v.Dot(d)
		lo, hi = math.Min(lo, x), math.Max(hi, x)
	}
	return lo, hi
}

// hullGap returns how far two hulls are apart, below 0 the least way out, exact.
//
// Two convex solids overlap unless some plane parts them, and then one that stands
// along a face of either or along an edge of each does (the theorem of the
// separating axis). Where none does, the least overlap along these directions is the
// way out. Where one does, the nearest points lie on an edge of each, or on a corner
// and a face; those of a corner and a face are found along the face's normal when
// the corner's foot lies on the face, which the edges then do not beat.
func hullGap(a, b *hull) float64 {
	apart := math.Inf(-1)
	try := func(d Vec) {
		alo, ahi := a.span(d)
		blo, bhi := b.span(d)
		apart = math.Max(apart, math.Max(alo-bhi, blo-ahi))
	}
	for _, f := range a.faces {
		try(f)
	}
	for _, f := range b.faces {
		try(f)
	}
	for _, e := range a.edges {
		u := a.at[e[1]].Sub(a.at[e[0]])
		for _, g := range b.edges {
			if d, ok := unit(cross(u, b.at[g[1]].Sub(b.at[g[0]]))); ok {
				try(d)
			}
		}
	}
	if apart <= 0 {
		return apart
	}
	least := math.Inf(1)
	for _, e := range a.edges {
		for _, g := range b.edges {
			least = math.Min(least, SegmentDist(a.at[e[0]], a.at[e[1]], b.at[g[0]], b.at[g[1]]))
		}
	}
	// No gap is less than what parts the two along any direction. If it is a corner
	// before a face, that is the gap; if not, some pair of edges is nearer than the
	// face would have it.
	return math.Max(apart, math.Min(least, cornerFace(a, b, least)))
}

// cornerFace returns the least distance from a corner of one hull to a face of the
// other that it stands before, or most.
func cornerFace(a, b *hull, most float64) float64 {
	for _, pair := range [2][2]*hull{{a, b}, {b, a}} {
		h := pair[1]
		for _, v := range pair[0].at {
			for _, f := range h.faces {
				lo, hi := h.span(f)
				x := v.Dot(f)
				d := math.Max(lo-x, x-hi)
				if d <= 0 || d >= most {
					continue
				}
				foot := v.Sub(f.Times(x - hi))
				if x < lo {
					foot = v.Sub(f.Times(x - lo))
				}
				if h.has(foot) {
					most = d
				}
			}
		}
	}
	return most
}

// has reports whether a point lies in the hull or on its face, to rounding.
func (h *hull) has(p Vec) bool {
	for _, f := range h.faces {
		lo, hi := h.span(f)
		if x := p.Dot(f); x < lo-1e-12 || x > hi+1e-12 {
			return false
		}
	}
	return len(h.faces) > 0
}

// gapPrism returns how far a prism and any solid are apart.
func gapPrism(p Prism, s Solid) float64 {
	h := p.hull()
	round := func(a, b Vec, radius float64) float64 {
		l := line(a, b)
		return math.Max(hullGap(&h, &l), 0) - radius
	}
	switch s := s.(type) {
	case Prism:
		g := s.hull()
		return hullGap(&h, &g)
	case Cylinder:
		// Both are of solids that hold the true one.
		boxed := s.Bounds().hull()
		return math.Max(round(s.From, s.To(), s.Radius), hullGap(&h, &boxed))
	case Path:
		least := math.Inf(1)
		s.pieces(func(a, b Vec) { least = math.Min(least, round(a, b, s.Radius)) })
		return least
	}
	g := s.Bounds().hull()
	return hullGap(&h, &g)
}
