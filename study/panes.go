package study

import (
	"fmt"
	"math"
	"slices"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/structure/plate"
)

func (p *GlassPane) assume(format string, args ...any) {
	if text := fmt.Sprintf(format, args...); !slices.Contains(p.Assumed, text) {
		p.Assumed = append(p.Assumed, text)
	}
}

// glassPanes finds the dam and the panes that stand in the pool.
func glassPanes(e *enclosure.Enclosure, level float64) []GlassPane {
	d := e.Design
	var out []GlassPane
	if d.Dam.Pos.Line > 0 {
		out = append(out, damPane(e, level))
	}
	for i := range d.Enclosure.Panes {
		if p, wet := poolPane(e, &d.Enclosure.Panes[i], level); wet {
			out = append(out, p)
		}
	}
	return out
}

// damPane is the dam, with what its entry among the panes says of it.
func damPane(e *enclosure.Enclosure, level float64) GlassPane {
	d := e.Design
	dam := &d.Dam
	p := GlassPane{
		Name: "dam", At: "dam", Width: e.Pool.DamWidth, Height: float64(dam.Height.Value), Kind: structure.Annealed, Line: dam.Pos.Line,
		Depth: [2]float64{max(level-e.Pool.Floor, 0), e.Pool.DamTop - e.Pool.Floor}, Outer: float64(dam.Outer.Value),
		Holds: [4]Hold{plate.Top: Loose},
	}
	var entry *design.Pane
	for i := range d.Enclosure.Panes {
		if at, _ := enclosure.PanePlace(&d.Enclosure.Panes[i]); at == "dam" {
			entry = &d.Enclosure.Panes[i]
			break
		}
	}
	t := dam.Thickness
	if entry != nil {
		p.Kind = GlassKind(entry.Glass.Value)
		if !t.Given() {
			t = entry.Thickness
		}
		p.holds(&entry.Edges)
	} else {
		p.assume("the dam is annealed glass, since no pane of the file stands at the dam")
	}
	if !t.Given() {
		p.Lacks = "dam.thickness"
		return p
	}
	p.Line = t.Pos.Line
	p.glass(t, entry)
	name := "dam"
	if entry != nil {
		name = entry.Name.Value
	}
	strips(e, &p, name)
	openings(e, &p, name)
	return p
}

// poolPane is a pane of the design, if it stands in the pool or nobody can say.
func poolPane(e *enclosure.Enclosure, pane *design.Pane, level float64) (GlassPane, bool) {
	d := e.Design
	at, guessed := enclosure.PanePlace(pane)
	foot := float64(d.Enclosure.Bottom.Value) + float64(pane.Up.Value)
	p := GlassPane{
		Name: pane.Name.Value, At: at, Kind: GlassKind(pane.Glass.Value), Width: float64(pane.Width.Value), Height: float64(pane.Height.Value), Line: pane.Pos.Line,
		Depth: [2]float64{max(level-foot, 0), e.Pool.DamTop - foot}, Outer: float64(pane.Outer.Value),
	}
	dam := d.Dam.Pos.Line > 0
	switch at {
	case "top", "door", "dam":
		return p, false
	case "front":
		if dam && p.Outer == 0 {
			return p, false // the dam keeps the water from it
		}
	case "bottom":
		p.floor(e) // held on four sides unless the file says else
	case "":
		p.Lacks = "at"
		return p, p.Depth[1] > 0
	}
	if p.Depth[1] <= 0 {
		return p, false
	}
	if guessed {
		p.assume("it stands at the place that its name says (at: %s)", at)
	}
	if at != "bottom" {
		p.Holds[plate.Top] = Loose
		front, open := openFront(d, at)
		if open {
			p.Holds[front] = Loose
		}
		switch {
		case anyEdge(&pane.Edges):
			if open && !edgeOf(&pane.Edges, front).Given() {
				p.assume("its front edge is free, since no pane stands at the front to hold it")
			}
		case open:
			p.assume("its bottom and back are bonded, its top is free, and so is its front, where no pane stands to hold it, since the file names no edges")
		default:
			p.assume("its bottom and sides are bonded and its top is free, since the file names no edges")
		}
		if at == "inside" && !pane.Outer.Given() {
			p.assume("there is water on one side of it only (water-outside would say it)")
		}
		if len(d.Enclosure.Rims) > 0 && !anyEdge(&pane.Edges) {
			p.assume("no rim holds any edge of it (edges would say which)")
		}
		if dam && (at == "left" || at == "right" || at == "sides") {
			p.Partly = true
			p.assume("the pool presses on all of its width, more than it does")
		}
	}
	p.holds(&pane.Edges)
	p.glass(pane.Thickness, pane)
	strips(e, &p, pane.Name.Value)
	openings(e, &p, pane.Name.Value)
	return p, true
}

func anyEdge(e *design.Edges) bool {
	return e.Bottom.Given() || e.Left.Given() || e.Right.Given() || e.Top.Given()
}

func edgeOf(e *design.Edges, s plate.Side) design.Field[string] {
	return [4]design.Field[string]{plate.Bottom: e.Bottom, plate.Right: e.Right, plate.Top: e.Top, plate.Left: e.Left}[s]
}

// openFront returns the front edge of a side pane, as seen from outside, and whether
// nothing stands there but a dam, which holds it only as high as it reaches. Two
// alike are described by the left one.
func openFront(d *design.Design, at string) (plate.Side, bool) {
	front := plate.Right
	switch at {
	case "left", "sides":
	case "right":
		front = plate.Left
	default:
		return 0, false
	}
	if d.Dam.Pos.Line == 0 {
		return front, false
	}
	for i := range d.Enclosure.Panes {
		q := &d.Enclosure.Panes[i]
		if place, _ := enclosure.PanePlace(q); place == "front" && q.Up.Value == 0 {
			return front, false
		}
	}
	return front, true
}

// holds reads what the file says of a pane's edges.
func (p *GlassPane) holds(e *design.Edges) {
	for s, f := range [4]string{plate.Bottom: e.Bottom.Value, plate.Right: e.Right.Value, plate.Top: e.Top.Value, plate.Left: e.Left.Value} {
		switch f {
		case "bonded":
			p.Holds[s] = Bonded
		case "rim":
			p.Holds[s] = Rimmed
			if p.At == "bottom" { // the rim stands on what carries it
				p.Holds[s] = Bonded
			}
		case "free":
			p.Holds[s] = Loose
		}
	}
}

// glass reads how thick a pane is, and of how many plies.
func (p *GlassPane) glass(t design.Field[quantity.Length], entry *design.Pane) {
	p.Thickness, p.Named = thickness(t)
	if mm := float64(t.Value) * 1000; p.IsPlastic() && (p.Named || math.Abs(mm-math.Round(mm)) < 1e-6) {
		p.Named = true
		p.Thickness = structure.AcrylicThickness(float64(t.Value), p.Kind == structure.Acrylic).Band
		p.assume("the sheet is as thick as plastic sold under that name may be: cell cast acrylic, extruded polycarbonate")
	}
	if p.Kind != structure.Laminated {
		return
	}
	p.Plies = 2
	if entry != nil && entry.Ply.Given() {
		p.Ply, _ = thickness(entry.Ply)
		p.Plies = max(2, int(math.Floor(float64(t.Value)/float64(entry.Ply.Value)+1e-9)))
		if p.Plies > 2 {
			p.assume("%d sheets are in its thickness", p.Plies)
		}
	} else {
		const film = 0.00076 // from memory of what is sold
		p.Ply = quantity.Exactly((float64(t.Value) - film) / 2)
		p.assume("it is made of two like sheets and a film of 0.76 mm (ply would say it)")
	}
	p.assume("its sheets do not work as one under a load that stays, which is cautious")
}

// Pads of a floor pane whose number and size the file does not say: assumed, no
// source.
const (
	padSide  = 0.05
	padThick = 0.005
	padYoung = 5e6 // Pa, of rubber or cork
)

// floor reads how a floor pane lies.
func (p *GlassPane) floor(e *enclosure.Enclosure) {
	d := e.Design
	p.Lying = true
	for i := range d.Hardscape {
		if h := &d.Hardscape[i]; h.On.Value == "pool" {
			p.Stands += float64(h.Mass.Value) * structure.G / (p.Width * p.Height)
		}
	}
	if p.Stands > 0 {
		p.assume("what stands in the pool presses evenly on all of the floor pane, at its full weight")
	}
	rests := d.Enclosure.Rests
	p.Rests = rests.Value
	switch {
	case rests.Value == "on a full board":
		p.Flat = true
	case rests.Value == "on pads":
		k := padYoung / padThick
		for _, x := range [...]float64{0, p.Width - padSide} {
			for _, y := range [...]float64{0, p.Height - padSide} {
				p.Pads = append(p.Pads, plate.Bed{X0: x, X1: x + padSide, Y0: y, Y1: y + padSide, Stiffness: k})
			}
		}
		p.assume("four pads of 50 mm lie under its corners, of rubber 5 mm thick at 5 MPa, and nothing else stiffens it, assumed, no source")
	case !rests.Given():
		p.assume("it rests on its rim alone (enclosure.rests would say it)")
	}
}
