package layout

import (
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/geom"
)

// same is the difference up to which two sizes count as one, m: half a
// millimetre, about what a tape tells.
const same = 0.0005

// walls are the thicknesses of the panes at the enclosure's faces, 0 where there
// is none.
type walls struct{ bottom, top, left, right, back, front float64 }

func (l *Layout) walls() walls {
	var w walls
	panes := l.e.Design.Enclosure.Panes
	for i := range panes {
		t := float64(panes[i].Thickness.Value)
		at, _ := enclosure.PanePlace(&panes[i])
		switch at {
		case "bottom":
			w.bottom = max(w.bottom, t)
		case "top":
			if !l.between(&panes[i]) {
				w.top = max(w.top, t)
			}
		case "left":
			w.left = max(w.left, t)
		case "right":
			w.right = max(w.right, t)
		case "sides":
			w.left, w.right = max(w.left, t), max(w.right, t)
		case "back":
			w.back = max(w.back, t)
		case "front":
			w.front = max(w.front, t)
		}
	}
	return w
}

// between reports whether a pane at the top lies between the sides: it is no
// wider than the inside.
func (l *Layout) between(p *design.Pane) bool {
	in := l.e.Design.Enclosure.Inside
	return in.Given() && float64(p.Width.Value) <= float64(in.Width.Value)+same
}

// boxes sets the inside and the outside box. The inside one lies at the datum.
// Round it the outside one leaves each pane its thickness; what is then left over
// is shared between two faces with panes, and given to a face without one.
func (l *Layout) boxes() {
	e := &l.e.Design.Enclosure
	w := l.walls()
	lo := geom.Vec{X: w.left, Y: w.back, Z: w.bottom}
	hi := geom.Vec{X: w.right, Y: w.front, Z: w.top}
	size := func(b design.Box) geom.Vec {
		return geom.Vec{X: float64(b.Width.Value), Y: float64(b.Depth.Value), Z: float64(b.Height.Value)}
	}
	in, out := size(e.Inside), size(e.Outside)
	switch {
	case !e.Inside.Given():
		in = out.Sub(lo).Sub(hi)
		l.Assumed = append(l.Assumed, "the inside sizes as the outside ones less the panes")
	case !e.Outside.Given():
		out = in.Add(lo).Add(hi)
		for i := range e.Panes {
			// Where a face is open only the floor pane tells how far it goes.
			if at, _ := enclosure.PanePlace(&e.Panes[i]); at == "bottom" {
				out.X, out.Y = max(out.X, float64(e.Panes[i].Width.Value)), max(out.Y, float64(e.Panes[i].Height.Value))
			}
		}
		l.Assumed = append(l.Assumed, "the outside sizes as the inside ones and the panes, or as the floor pane if that is larger")
	}
	for _, a := range []geom.Axis{geom.X, geom.Y, geom.Z} {
		in = in.With(a, max(in.On(a), 0))
	}
	l.Inside = geom.Box{Max: in}
	rest := out.Sub(in).Sub(lo).Sub(hi)
	share := geom.Vec{X: rest.X / 2}
	if w.back > 0 == (w.front > 0) {
		share.Y = rest.Y / 2
	}
	if w.bottom > 0 == (w.top > 0) {
		share.Z = rest.Z / 2
	}
	l.Outside.Min = geom.Vec{}.Sub(lo).Sub(share)
	l.Outside.Max = l.Outside.Min.Add(out)
}
