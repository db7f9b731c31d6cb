package layout

import (
	"rillwright/geom"
)

// Opening is the way in for hands and parts: a flat box in the plane of a face.
type Opening struct {
	Box     geom.Box
	At      string // front or top
	Field   string
	Line    int
	Assumed []string
}

// opening finds the face that opens and places the clear opening in it: in the
// middle of its door, else of what a rim or frame leaves.
func (l *Layout) opening() {
	e := &l.e.Design.Enclosure
	o := Opening{At: "front", Field: "enclosure.opening", Line: e.Opening.Pos.Line}
	var doors geom.Box
	closed, hasDoor := map[string]bool{}, false
	for i := range l.Panes {
		p := &l.Panes[i]
		switch {
		case p.At == "door" && hasDoor:
			doors = doors.Union(p.Box)
		case p.At == "door":
			doors, hasDoor = p.Box, true
		case e.Panes[p.Index].Opens.Given() && p.At == "top":
			closed["top"] = false
		case p.At == "top" || p.At == "front":
			closed[p.At] = true
		}
	}
	switch {
	case hasDoor:
	case closed["front"]:
		o.At = "top"
		o.Assumed = append(o.Assumed, "at the top, since a pane stands at the front")
	default:
		o.Assumed = append(o.Assumed, "at the front, since no pane stands there")
	}
	in, out := l.Inside, l.Outside
	w, h := float64(e.Opening.Width.Value), float64(e.Opening.Height.Value)
	if o.At == "top" {
		if !e.Opening.Given() {
			w, h = in.Max.X, in.Max.Y
			o.Assumed = append(o.Assumed, "as wide and deep as the inside")
		}
		x, y := middle(0, in.Max.X, w), middle(0, in.Max.Y, h)
		o.Box = geom.Box{Min: geom.Vec{X: x, Y: y, Z: out.Max.Z}, Max: geom.Vec{X: x + w, Y: y + h, Z: out.Max.Z}}
		l.Opening = o
		return
	}
	lo, hi := 0.0, in.Max.Z
	switch {
	case hasDoor:
		lo, hi = doors.Min.Z, doors.Max.Z
	case e.Opening.Given():
		lo, hi = out.Min.Z, out.Max.Z
	}
	if !e.Opening.Given() {
		w, h = in.Max.X, hi-lo
		o.Assumed = append(o.Assumed, "as wide as the inside, with nothing of a rim or frame in it")
	}
	x, z := middle(0, in.Max.X, w), middle(lo, hi, h)
	o.Box = geom.Box{Min: geom.Vec{X: x, Y: out.Max.Y, Z: z}, Max: geom.Vec{X: x + w, Y: out.Max.Y, Z: z + h}}
	l.Opening = o
}
