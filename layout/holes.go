package layout

import (
	"rillwright/design"
	"rillwright/geom"
)

// spot returns the place, on a pane's outer face, of a point that the file gives
// by its height over the pane's lower edge and its distance from a side edge. left
// and right are the enclosure's, seen from the front; rear and front are the edges
// of a side or of a pane that lies. On a pane that lies, up counts from the front
// edge, or from the left one if in counts from the rear or the front.
func (p *Pane) spot(up, in float64, edge string) (at geom.Vec, assumed []string) {
	b := p.Box
	at = p.Corner
	across := geom.X
	if p.At == "left" || p.At == "right" {
		across = geom.Y
	}
	if edge == "" {
		edge = "left"
		if across == geom.Y {
			edge = "rear"
		}
		assumed = append(assumed, "from the "+edge+" edge")
	}
	high := geom.Z
	if p.Lies() {
		high = geom.Y
		if edge == "rear" || edge == "front" {
			across, high = geom.Y, geom.X
		}
	}
	switch edge {
	case "left", "rear":
		at = at.With(across, b.Min.On(across)+in)
	default:
		at = at.With(across, b.Max.On(across)-in)
	}
	switch {
	case high == geom.Y:
		at.Y = b.Max.Y - up
		assumed = append(assumed, "so far from the front edge as the file has it up")
	case high == geom.X:
		at.X = b.Min.X + up
		assumed = append(assumed, "so far from the left edge as the file has it up")
	default:
		at.Z = b.Min.Z + up
	}
	return at, assumed
}

// bore returns the cylinder of a hole through the pane.
func (p *Pane) bore(at geom.Vec, size float64) geom.Cylinder {
	a := p.Across()
	return geom.Rod(at, a, p.Box.Min.On(a), p.Box.Max.On(a), size/2)
}

// inward returns the coordinate along the pane's thickness that lies a way (m)
// inwards of its inner face.
func (p *Pane) inward(by float64) float64 {
	return p.World(0, 0, p.Thick+by).On(p.Across())
}

// holePane returns the pane that a hole is in. In one of a pair it is the left
// one, or the one that stands in front: the file cannot tell them apart.
func (l *Layout) holePane(name string, assumed *[]string) (*Pane, bool) {
	p, ok := l.paneBy(name)
	if ok && p.Name == name && p.Index < len(l.e.Design.Enclosure.Panes) && l.e.Design.Enclosure.Panes[p.Index].Count.Value > 1 {
		*assumed = append(*assumed, "in the left one of the pair")
	}
	return p, ok
}

// ways places every opening of the enclosure's panes.
func (l *Layout) ways() {
	list := l.e.Design.Enclosure.Ways
	for i := range list {
		w := &list[i]
		part := Part{Kind: KindWay, Name: w.Name.Value, Field: "enclosure.ways[" + w.Name.Value + "]", Line: w.Pos.Line}
		p, ok := l.holePane(w.Pane.Value, &part.Assumed)
		if !ok {
			l.left(part.Name, part.Field, part.Line, "the pane it is in has no place")
			continue
		}
		at, why := p.spot(float64(w.Up.Value), float64(w.In.Value), w.Edge.Value)
		part.Assumed = append(part.Assumed, why...)
		part.Solid = p.through(w, at)
		l.add(part)
	}
}

// through returns the solid of an opening: round, or a box without its rounded
// corners.
func (p *Pane) through(w *design.Way, at geom.Vec) geom.Solid {
	if w.Size.Given() {
		return p.bore(at, float64(w.Size.Value))
	}
	u, v, _ := p.Local(at)
	dx, dy := float64(w.Width.Value)/2, float64(w.Height.Value)/2
	return geom.BoxOf(p.World(u-dx, v-dy, 0), p.World(u+dx, v+dy, p.Thick))
}
