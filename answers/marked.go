package answers

import (
	"math"

	"rillwright/enclosure"
	"rillwright/layout"
	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/study"
)

// Marked is an opening as it is to be marked on its pane. Lengths in m; X and Y are
// its centre from the pane's lower left corner in the pane's own coordinates, those
// of layout.Pane.
type Marked struct {
	Name          string
	Line          int
	Drain         bool
	X, Y          float64
	Width, Height float64
	Corner        float64 // radius of its corners; half its width if it is round
	Round         bool
	Flange        float64 // of what goes in, 0 for none
	FlangeTaken   bool    // its width is assumed
	NutRoom       float64 // to be clear round its nut for hand or spanner, 0 without a flange
	Edge          float64 // least from its rim to an edge: the strictest rule of glaziers
	Placed        bool    // the file says where the pane stands
	Edged         bool    // the file says which edge its distance counts from
}

// Openings returns the drains' holes and other openings of a pane, drains first.
func Openings(e *enclosure.Enclosure, pane string) []Marked {
	list := openingsOf(e, layout.Of(e))
	var out []Marked
	for i := range list.list {
		o := &list.list[i]
		if o.pane.Name.Value != pane {
			continue
		}
		room := 0.0
		if o.flange > 0 {
			room = structure.NutRoom
		}
		out = append(out, Marked{
			Name: o.name, Line: o.line, Drain: o.drain >= 0, X: o.x, Y: o.y, Width: o.w, Height: o.h, Corner: o.corner,
			Round: o.round, Flange: o.flange, FlangeTaken: o.flangeTaken, NutRoom: room, Edge: o.edge(), Placed: o.place != nil, Edged: o.edged,
		})
	}
	return out
}

// edge is the least distance from rim to edge that glaziers keep, m.
func (o *opening) edge() float64 {
	t, least := o.sheet(1).Thickness, 0.0
	if !o.round {
		for _, r := range structure.NotchRules() {
			if r.Edge != nil && !r.Strict {
				least = math.Max(least, r.Edge(t, math.Max(o.w, o.h)))
			}
		}
		return least
	}
	for _, r := range structure.HoleRules() {
		if r.Edge != nil && r.Name != "hobby" {
			least = math.Max(least, r.Edge(t, o.w))
		}
	}
	return least
}

// PaneWeight returns what one of a pane weighs, kg, over its true thickness, and
// whether it was taken as glass since nobody has looked at it. Holes are not taken
// off.
func PaneWeight(e *enclosure.Enclosure, pane string) (m quantity.Band[quantity.Mass], taken bool) {
	p := paneNamed(e, pane)
	if p == nil {
		return m, false
	}
	of, ok := structure.MaterialOf(study.GlassKind(p.Glass.Value))
	if !ok {
		of, _ = structure.MaterialOf(structure.Annealed)
	}
	t, _ := study.PaneThickness(p.Thickness)
	area := float64(p.Width.Value) * float64(p.Height.Value)
	mass := func(thick float64) quantity.Mass { return quantity.Mass(area * thick * of.Density.Likely) }
	return quantity.Band[quantity.Mass]{Low: mass(t.Low), Likely: mass(t.Likely), High: mass(t.High)}, !ok
}
