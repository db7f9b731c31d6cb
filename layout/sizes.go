package layout

import (
	"math"

	"rillwright/design"
	"rillwright/geom"
	"rillwright/quantity"
)

// MismatchKind is which sizes of the file contradict each other.
type MismatchKind int

// The kinds. By is in m, above 0 a gap and below 0 an overlap, unless said
// otherwise.
const (
	// Sum: along Axis the outside is larger than inside and panes by By, or smaller
	// if below 0. Joints explain up to Allow.
	Sum MismatchKind = iota
	// StandsOut: pane A reaches By beyond the outside box along Axis.
	StandsOut
	// PanesMeet: panes A and B overlap by By.
	PanesMeet
	// DamGap: each side of the dam is By from the side beside it.
	DamGap
	// DamPlace: the dam's dry face, by the pool's depth and the dam's thickness,
	// lies By behind the place that its set-back tells, or in front if below 0.
	DamPlace
	// DamPane: the pane listed as the dam is larger than the dam's section says by
	// By along Axis (z for its height, y for its thickness).
	DamPane
	// DoorShut: the dam, B, stands in the way of door A, which is drawn as far to the
	// front as the outside lets it, by By (below 0).
	DoorShut
	// PoolWide: the pool is narrower than the inside by By: more than a joint.
	PoolWide
)

// Mismatch is one contradiction between sizes.
type Mismatch struct {
	Kind        MismatchKind
	A, B        string
	Line, Other int
	Axis        geom.Axis
	By, Allow   float64
	Least       float64 // of a DamGap: the thinnest bond line
	// Outer says that it is of a shop tank's panes, which can only be measured over
	// the outside: they overlap at the corners they share.
	Outer bool
}

// bondLine returns the thinnest and thickest bond line, m: the file's, else 0.5 to
// 1.5 mm (assumed, no source).
func (l *Layout) bondLine() (thin, thick float64) {
	if b := l.e.Design.Sealant.BondLine; b.Given() {
		return float64(b.Value.Low), float64(b.Value.High)
	}
	return 0.0005, 0.0015
}

func (l *Layout) joint() float64 {
	_, thick := l.bondLine()
	return thick
}

// sizes finds the contradictions.
func (l *Layout) sizes() {
	l.sums()
	l.paneSizes()
	l.damSizes()
	if rest := l.Inside.Max.X - l.e.Pool.Width; rest > 2*(l.joint()+same) {
		l.Sizes = append(l.Sizes, Mismatch{Kind: PoolWide, A: "pool", Line: l.e.Pool.Pos.Line, Other: l.e.Design.Enclosure.Inside.Pos.Line, Axis: geom.X, By: rest})
	}
}

// sums holds the inside and the panes against the outside, along axes that both
// ends have panes on.
func (l *Layout) sums() {
	e := &l.e.Design.Enclosure
	if !e.Inside.Given() || !e.Outside.Given() {
		return
	}
	w := l.walls()
	rims := map[string]float64{}
	for i := range e.Rims {
		rims[e.Rims[i].At.Value] += float64(e.Rims[i].Wall.Value)
	}
	for _, s := range []struct {
		axis     geom.Axis
		lo, hi   float64
		in, out  design.Field[quantity.Length]
		from, to string
	}{
		{geom.X, w.left, w.right, e.Inside.Width, e.Outside.Width, "left", "right"},
		{geom.Y, w.back, w.front, e.Inside.Depth, e.Outside.Depth, "back", "front"},
		{geom.Z, w.bottom, w.top, e.Inside.Height, e.Outside.Height, "bottom", "top"},
	} {
		rest := float64(s.out.Value) - float64(s.in.Value) - s.lo - s.hi
		// A rim's wall stands proud at both ends of an axis across it.
		allow := 2 * l.joint()
		most := 0.0
		for at, t := range rims {
			if at != s.from && at != s.to {
				most = math.Max(most, 2*t)
			}
		}
		allow += most + rims[s.from] + rims[s.to]
		open := s.lo == 0 || s.hi == 0
		if rest < -same || !open && rest > allow+same {
			l.Sizes = append(l.Sizes, Mismatch{Kind: Sum, A: "inside", B: "outside", Line: s.in.Pos.Line, Other: s.out.Pos.Line, Axis: s.axis, By: rest, Allow: allow})
		}
	}
}

// paneSizes finds panes that reach beyond the outside and panes in each other's
// place.
func (l *Layout) paneSizes() {
	tank := l.e.Design.Enclosure.Made.Value == "from a tank"
	for i := range l.Panes {
		p := &l.Panes[i]
		for _, a := range []geom.Axis{geom.X, geom.Y, geom.Z} {
			if by := math.Max(l.Outside.Min.On(a)-p.Box.Min.On(a), p.Box.Max.On(a)-l.Outside.Max.On(a)); by > same && p.At != "door" {
				l.Sizes = append(l.Sizes, Mismatch{Kind: StandsOut, A: p.Name, B: "outside", Line: p.Line, Other: l.e.Design.Enclosure.Outside.Pos.Line, Axis: a, By: by})
			}
		}
		if by := geom.Gap(p.Box, l.Dam); l.HasDam && p.At != "dam" && by < -same {
			kind := PanesMeet
			if p.At == "door" {
				kind = DoorShut
			}
			l.Sizes = append(l.Sizes, Mismatch{Kind: kind, A: p.Name, B: "dam", Line: p.Line, Other: l.e.Design.Dam.Pos.Line, By: by})
		}
		for k := i + 1; k < len(l.Panes); k++ {
			q := &l.Panes[k]
			by := geom.Gap(p.Box, q.Box)
			if by > -same || p.At == "dam" || q.At == "dam" {
				continue
			}
			l.Sizes = append(l.Sizes, Mismatch{
				Kind: PanesMeet, A: p.Name, B: q.Name, Line: p.Line, Other: q.Line, By: by,
				Outer: tank && p.At != "door" && q.At != "door" && -by < math.Min(p.Thick, q.Thick)+same,
			})
		}
	}
}

// damSizes holds the dam against the sides beside it, its set-back and the pane
// that is listed for it.
func (l *Layout) damSizes() {
	if !l.HasDam {
		return
	}
	d := l.e.Design
	width := d.Dam.Width.Pos.Line
	if width == 0 {
		width = d.Pool.Width.Pos.Line
	}
	thin, thick := l.bondLine()
	if by := l.Dam.Min.X; by < thin-same || by > thick+same {
		l.Sizes = append(l.Sizes, Mismatch{Kind: DamGap, A: "dam", B: "inside", Line: width, Other: d.Enclosure.Inside.Pos.Line, Axis: geom.X, By: by, Allow: thick, Least: thin})
	}
	front := l.Outside.Max.Y
	for i := range l.Panes {
		if l.Panes[i].At == "bottom" {
			front = l.Panes[i].Box.Max.Y
		}
	}
	if d.Dam.SetBack.Given() {
		if by := front - float64(d.Dam.SetBack.Value) - l.Dam.Max.Y; math.Abs(by) > l.joint()+same {
			l.Sizes = append(l.Sizes, Mismatch{Kind: DamPlace, A: "dam", B: "pool", Line: d.Dam.SetBack.Pos.Line, Other: d.Pool.Depth.Pos.Line, Axis: geom.Y, By: by, Allow: l.joint()})
		}
	}
	for i := range l.Panes {
		p := &l.Panes[i]
		if p.At != "dam" {
			continue
		}
		q := &d.Enclosure.Panes[p.Index]
		size := l.Dam.Size()
		for _, c := range []struct {
			axis   geom.Axis
			listed float64
		}{{geom.X, float64(q.Width.Value)}, {geom.Y, float64(q.Thickness.Value)}, {geom.Z, float64(q.Height.Value)}} {
			if by := c.listed - size.On(c.axis); math.Abs(by) > same {
				l.Sizes = append(l.Sizes, Mismatch{Kind: DamPane, A: p.Name, B: "dam", Line: p.Line, Other: d.Dam.Pos.Line, Axis: c.axis, By: by})
			}
		}
	}
}
