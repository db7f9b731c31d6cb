package enclosure

import (
	"fmt"

	"rillwright/catalogue"
	"rillwright/design"
)

// Way is an opening in a pane besides the drains' holes.
type Way struct {
	Name          string
	Pane          string
	Round         bool
	Width, Height float64 // the diameter twice, if it is round
	Corner        float64 // radius of its corners
	Passes        []Passing
	Closed        string // how the rest is closed; "" if the file does not say
	Design        *design.Way
}

// Passing is something that must go through a Way, at its widest end.
type Passing struct {
	What          string
	Part          catalogue.Part // zero if it was measured
	Width, Height float64        // Height is 0 for something round; Width 0 if not known
	// What stays in the way afterwards: something round of StaysWidth, or all of it.
	StaysWidth, StaysHeight float64
	Pos                     design.Pos
}

// way resolves an opening: its parts are looked up, for their outside.
func (r *resolver) way(w *design.Way) {
	out := Way{
		Name: w.Name.Value, Pane: w.Pane.Value, Round: w.Size.Given(), Width: float64(w.Width.Value), Height: float64(w.Height.Value),
		Corner: float64(w.Corner.Value), Closed: w.Closed.Value, Design: w,
	}
	if out.Round {
		out.Width, out.Height = float64(w.Size.Value), float64(w.Size.Value)
	}
	for i := range w.Passes {
		q := &w.Passes[i]
		p := Passing{What: q.What.Value, Width: float64(q.Width.Value), Height: float64(q.Height.Value), Pos: q.Pos}
		if q.Part.Given() {
			part, ok := r.part(q.Part, fmt.Sprintf("enclosure.ways[%s].passes[%d].part", out.Name, i+1), catalogue.KindPipe, catalogue.KindHose, catalogue.KindTube)
			if !ok {
				continue
			}
			p.Part, p.Width = part, float64(part.Outside)
		}
		switch {
		case q.Leaves.Value:
		case q.Stays.Given():
			p.StaysWidth = float64(q.Stays.Value)
		default:
			p.StaysWidth, p.StaysHeight = p.Width, p.Height
		}
		out.Passes = append(out.Passes, p)
	}
	r.e.Ways = append(r.e.Ways, out)
}
