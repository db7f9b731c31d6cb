package layout

import (
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/geom"
)

// track is the room between two sliding doors, m: assumed, no source.
const track = 0.002

// doors places doors in the front opening and the space they take when opened.
func (l *Layout) doors() {
	list := l.e.Design.Enclosure.Panes
	front := l.Outside.Max.Y
	for i := range list {
		p := &list[i]
		if at, _ := enclosure.PanePlace(p); at != "door" {
			continue
		}
		n := max(1, p.Count.Value)
		w, h, t := float64(p.Width.Value), float64(p.Height.Value), float64(p.Thickness.Value)
		z, assumed := l.doorUp(p)
		slides := p.Opens.Value == "slides" || !p.Opens.Given() && n > 1
		for k := range n {
			why := append([]string{"its outer face level with the front"}, assumed...)
			x := middle(0, l.Inside.Max.X, w)
			y := front - t
			if n > 1 {
				// Spread evenly from side to side; each on a track of its own.
				x = float64(k) * (l.Inside.Max.X - w) / float64(n-1)
				if slides {
					y -= float64(k) * (t + track)
					why = append(why, "on tracks "+l.show(track)+" apart, the left one in front")
				}
			}
			b := geom.Box{Min: geom.Vec{X: x, Y: y, Z: z}, Max: geom.Vec{X: x + w, Y: y + t, Z: z + h}}
			l.addPane(i, "door", b, why)
			if s, ok := doorSpace(p, b); ok {
				l.add(Part{Kind: KindDoorSpace, Name: p.Name.Value, Field: paneField(p, i) + ".opens", Line: p.Pos.Line, Solid: s, Assumed: why})
			}
		}
	}
}

// doorUp returns the lower edge of a door: as the file has it, else on the dam or
// on the floor pane.
func (l *Layout) doorUp(p *design.Pane) (float64, []string) {
	d := l.e.Design
	switch {
	case p.Up.Given():
		return float64(p.Up.Value), nil
	case d.Dam.Pos.Line > 0 && l.Z(l.e.Pool.DamTop)+float64(p.Height.Value) <= l.Inside.Max.Z+same:
		return l.Z(l.e.Pool.DamTop), []string{"its lower edge level with the dam's top"}
	}
	return 0, []string{"its lower edge on the floor pane"}
}

// doorSpace is what a door passes through when it is opened: for a hinge, the box
// round its quarter turn.
func doorSpace(p *design.Pane, b geom.Box) (geom.Box, bool) {
	size := b.Size()
	s := b
	switch p.Opens.Value {
	case "hinged left", "hinged right":
		s.Max.Y = b.Min.Y + size.X
	case "hinged top", "hinged bottom":
		s.Max.Y = b.Min.Y + size.Z
	case "lifts out":
		// It comes out over its lower edge, towards the front.
		s.Max.Y = b.Max.Y + size.Y
		s.Max.Z += size.Z
	default:
		return geom.Box{}, false // a sliding door stays in its own track
	}
	return s, true
}
