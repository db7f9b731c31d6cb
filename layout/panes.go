package layout

import (
	"fmt"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/geom"
)

// Pane is a pane in its place. Its own coordinates are those of a template laid on
// it: u to the right and v up as seen from outside the enclosure, w inwards from
// its outer face. A pane that lies, at the bottom or the top, is seen from above
// with its front edge lowest; w still counts from its outer face. The dam and a
// divider are seen from the front.
type Pane struct {
	Name   string
	At     string // bottom, back, left, right, front, top, door or dam
	Index  int    // in the design's list of panes
	Field  string
	Line   int
	Part   int // index in Layout.Parts
	Box    geom.Box
	Normal geom.Vec // unit, outwards
	Corner geom.Vec // where u, v and w are 0
	U, V   geom.Vec // unit
	// Width is along u, Height along v, Thick along w; m.
	Width, Height, Thick float64
}

// World returns the place of a point of the pane's own coordinates, m.
func (p *Pane) World(u, v, w float64) geom.Vec {
	return p.Corner.Add(p.U.Times(u)).Add(p.V.Times(v)).Sub(p.Normal.Times(w))
}

// Local returns the pane's own coordinates of a place, m.
func (p *Pane) Local(q geom.Vec) (u, v, w float64) {
	d := q.Sub(p.Corner)
	return d.Dot(p.U), d.Dot(p.V), -d.Dot(p.Normal)
}

// Across returns the axis that its thickness lies along.
func (p *Pane) Across() geom.Axis { return acrossOf(p.At) }

func acrossOf(at string) geom.Axis {
	switch at {
	case "left", "right":
		return geom.X
	case "bottom", "top":
		return geom.Z
	}
	return geom.Y
}

// Lies reports whether the pane lies flat.
func (p *Pane) Lies() bool { return p.At == "bottom" || p.At == "top" }

// face returns the unit vectors of a pane: outwards, u and v.
func face(at string) (normal, u, v geom.Vec) {
	x, y, z := geom.Vec{X: 1}, geom.Vec{Y: 1}, geom.Vec{Z: 1}
	switch at {
	case "left":
		return x.Times(-1), y, z
	case "right":
		return x, y.Times(-1), z
	case "back":
		return y.Times(-1), x.Times(-1), z
	case "bottom":
		return z.Times(-1), x, y.Times(-1)
	case "top":
		return z, x, y.Times(-1)
	}
	return y, x, z // front, door, dam
}

// placed makes a Pane of a box.
func placed(at string, b geom.Box) Pane {
	p := Pane{At: at, Box: b}
	p.Normal, p.U, p.V = face(at)
	for _, a := range []geom.Axis{geom.X, geom.Y, geom.Z} {
		// The corner lies at the far end along the normal, at the near end along
		// u and v.
		far := p.Normal.On(a) > 0 || p.U.On(a) < 0 || p.V.On(a) < 0
		c := b.Min.On(a)
		if far {
			c = b.Max.On(a)
		}
		p.Corner = p.Corner.With(a, c)
		size := b.Max.On(a) - b.Min.On(a)
		switch {
		case p.Normal.On(a) != 0:
			p.Thick = size
		case p.U.On(a) != 0:
			p.Width = size
		default:
			p.Height = size
		}
	}
	return p
}

// panes places every pane but doors and the dam's, which have files of their own.
func (l *Layout) panes() {
	list := l.e.Design.Enclosure.Panes
	for i := range list {
		p := &list[i]
		at, guessed := enclosure.PanePlace(p)
		var assumed []string
		if guessed {
			assumed = append(assumed, "at its place ("+at+") by its name")
		}
		switch at {
		case "":
			l.left(p.Name.Value, paneField(p, i), p.Pos.Line, "at")
		case "inside":
			l.left(p.Name.Value, paneField(p, i), p.Pos.Line, "nothing places a divider yet")
		case "dam", "door":
		case "sides":
			l.pane(i, "left", assumed)
			l.pane(i, "right", assumed)
		default:
			l.pane(i, at, assumed)
			if p.Count.Value > 1 {
				l.left(fmt.Sprintf("%s, all but one of %d", p.Name.Value, p.Count.Value), paneField(p, i), p.Pos.Line, "write each as a pane of its own")
			}
		}
	}
}

func paneField(p *design.Pane, i int) string {
	if p.Name.Value == "" {
		return fmt.Sprintf("enclosure.panes[%d]", i+1)
	}
	return "enclosure.panes[" + p.Name.Value + "]"
}

// pane places one pane before its face of the inside box.
func (l *Layout) pane(i int, at string, assumed []string) {
	p := &l.e.Design.Enclosure.Panes[i]
	w, h, t := float64(p.Width.Value), float64(p.Height.Value), float64(p.Thickness.Value)
	var b geom.Box
	set := func(a geom.Axis, lo, size float64) {
		b.Min, b.Max = b.Min.With(a, lo), b.Max.With(a, lo+size)
	}
	up := func() float64 {
		z, why := l.lower(p)
		if why != "" {
			assumed = append(assumed, why)
		}
		return z
	}
	span := func(a geom.Axis, size float64) {
		lo, why := l.span(a, size)
		if why != "" {
			assumed = append(assumed, why)
		}
		set(a, lo, size)
	}
	switch at {
	case "left", "right":
		span(geom.Y, w)
		set(geom.Z, up(), h)
		if at == "left" {
			set(geom.X, -t, t)
		} else {
			set(geom.X, l.Inside.Max.X, t)
		}
	case "back", "front":
		span(geom.X, w)
		set(geom.Z, up(), h)
		if at == "back" {
			set(geom.Y, -t, t)
		} else {
			set(geom.Y, l.Inside.Max.Y, t)
		}
	default: // bottom, top
		span(geom.X, w)
		span(geom.Y, h)
		switch z := float64(p.Up.Value); {
		case at == "bottom":
			set(geom.Z, z-t, t)
		case l.between(p):
			set(geom.Z, l.Inside.Max.Z-t, t)
			assumed = append(assumed, "between the sides, its upper face level with the inside height")
		default:
			set(geom.Z, l.Inside.Max.Z, t)
		}
	}
	l.addPane(i, at, b, assumed)
}

func (l *Layout) addPane(i int, at string, b geom.Box, assumed []string) {
	p := &l.e.Design.Enclosure.Panes[i]
	q := placed(at, b)
	q.Name, q.Index, q.Field, q.Line, q.Part = p.Name.Value, i, paneField(p, i), p.Pos.Line, len(l.Parts)
	l.Panes = append(l.Panes, q)
	l.add(Part{Kind: KindPane, Name: q.Name, Field: q.Field, Line: q.Line, Solid: b, Assumed: assumed})
}

// lower returns the lower edge of an upright pane: as the file has it, else on the
// inside bottom. A pane that would then stand out above the top is one that was
// measured over the outside.
func (l *Layout) lower(p *design.Pane) (z float64, assumed string) {
	if p.Up.Given() {
		return float64(p.Up.Value), ""
	}
	h := float64(p.Height.Value)
	if out := l.Outside; h > l.Inside.Max.Z+same && h > out.Max.Z+same && h <= out.Max.Z-out.Min.Z+same {
		return middle(out.Min.Z, out.Max.Z, h), "beside the floor pane, since it is as high as the outside"
	}
	return 0, ""
}

// span returns where a pane of a size begins along x or y: in the least of the
// rooms between the faces of the inside and outside boxes that it fits into. One
// that reaches from an inside face to an outside one is laid to the outside, so
// that its joint is at the inside face; any other is laid in the middle.
func (l *Layout) span(a geom.Axis, size float64) (lo float64, assumed string) {
	in, out := l.Inside, l.Outside
	rooms := []struct {
		lo, hi float64
		push   int
	}{
		{in.Min.On(a), in.Max.On(a), 0},
		{in.Min.On(a), out.Max.On(a), 1},
		{out.Min.On(a), in.Max.On(a), -1},
		{out.Min.On(a), out.Max.On(a), 0},
	}
	best := rooms[3]
	for _, r := range rooms {
		if r.hi-r.lo >= size-same && r.hi-r.lo < best.hi-best.lo-1e-9 {
			best = r
		}
	}
	const loose = 0.005 // beyond a joint's width it is not told where it lies
	switch best.push {
	case 1:
		lo = best.hi - size
	case -1:
		lo = best.lo
	default:
		lo = middle(best.lo, best.hi, size)
	}
	if best.hi-best.lo > size+2*loose {
		assumed = [...]string{Middle, "in the middle, front to back"}[a]
		if best.push == 1 {
			assumed = "with its free edge at the front"
		}
	}
	return lo, assumed
}
