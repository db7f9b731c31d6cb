package sheets

import (
	"rillwright/answers"
	"rillwright/drawing"
	"rillwright/geom"
	"rillwright/layout"
)

const datumNote = "Heights count from the datum, the inside bottom of the enclosure. "

// elevation is the view from the front, with what stands below.
func (d *draft) elevation(pool float64) drawing.Sheet {
	notes := []string{datumNote + d.units(), "Dashed: what lies behind the dam or inside the stand. What the design file leaves open is drawn where a plain rule puts it."}
	w := d.view("Elevation from the front", fromFront(), around{left: 24, above: 10, right: 24, below: 26}, notes, layout.KindStand, layout.KindSump, layout.KindDrainPipe)
	w.water(d.l.Pool.To(pool))
	w.draw(drawing.Fade, drawing.NoFill, layout.KindGrid)
	w.draw(drawing.Thin, drawing.Paper, layout.KindGridBrace)
	w.draw(drawing.Dashed, drawing.NoFill, layout.KindHole, layout.KindWay, layout.KindStandpipe, layout.KindStrainer, layout.KindSump, layout.KindDrainPipe)
	w.draw(drawing.Thin, drawing.NoFill, layout.KindManifold, layout.KindOutlet)
	w.draw(drawing.Medium, drawing.NoFill, layout.KindStand, layout.KindFoot, layout.KindRim)
	for i := range d.l.Panes {
		switch p := &d.l.Panes[i]; p.At {
		case "bottom", "top", "left", "right":
			w.solid(p.Box, drawing.Medium, drawing.NoFill)
		case "door", "front":
			w.solid(p.Box, drawing.Thin, drawing.NoFill)
		}
	}
	if d.l.HasDam {
		w.solid(d.l.Dam, drawing.Thick, drawing.NoFill)
	}
	w.across()
	w.callOut(layout.KindManifold, "")
	w.callOut(layout.KindGrid, "")
	w.callOut(layout.KindGridBrace, "")
	w.callOut(layout.KindStandpipe, "standpipe")
	w.callOut(layout.KindHole, "")
	w.callOut(layout.KindWay, "")
	if d.l.HasDam {
		w.nameBox("dam", w.flat(d.l.Dam))
	}
	w.callOut(layout.KindSump, "sump")
	w.callOut(layout.KindStand, "stand")
	return w.sheet
}

// section is cut through the middle and seen from the right, the front on the left.
func (d *draft) section(s *answers.Survey, pool float64) drawing.Sheet {
	notes := []string{
		"Cut through the middle and seen from the right: the front is on the left. " + datumNote + d.units(),
		"Hatched: glass that is cut. Dashed: what lies beside the cut. Water levels are the likely ones, with the pump running.",
	}
	w := d.view("Section", fromRight(), around{left: 24, above: 10, right: 76, below: 26}, notes, layout.KindStand, layout.KindSump, layout.KindDrainPipe)
	w.water(d.l.Pool.To(pool))
	sump := d.l.Z(s.Likely.SumpLevel)
	for _, p := range d.l.All(layout.KindSump) {
		if b := p.Solid.Bounds(); sump > b.Min.Z {
			b.Max.Z = min(sump, b.Max.Z)
			w.water(b)
		}
	}
	w.draw(drawing.Dashed, drawing.NoFill, layout.KindHole, layout.KindWay, layout.KindStandpipe, layout.KindStrainer, layout.KindDrainPipe, layout.KindRim)
	w.draw(drawing.Thin, drawing.NoFill, layout.KindGrid, layout.KindManifold)
	w.draw(drawing.Medium, drawing.Paper, layout.KindGridBrace)
	w.draw(drawing.Medium, drawing.NoFill, layout.KindStand, layout.KindSump, layout.KindFoot)
	for i := range d.l.Panes {
		switch p := &d.l.Panes[i]; p.At {
		case "left", "right":
			w.solid(p.Box, drawing.Fade, drawing.NoFill)
		case "dam":
		default:
			w.cut(p.Box)
		}
	}
	if d.l.HasDam {
		w.cut(d.l.Dam)
	}
	w.across()
	w.levels(d.heights(pool, sump))
	w.callOut(layout.KindGrid, "")
	w.callOut(layout.KindGridBrace, "")
	w.callOut(layout.KindStandpipe, "standpipe")
	if d.l.HasDam {
		w.nameBox("dam", w.flat(d.l.Dam))
	}
	w.callOut(layout.KindSump, "sump")
	return w.sheet
}

// cut draws glass that the section cuts through, hatched.
func (w *view) cut(b geom.Box) {
	r := w.flat(b)
	w.ink(drawing.Rectangle(r, drawing.Thick, drawing.Paper))
	if min(r.Right-r.Left, r.Bottom-r.Top) > 1 {
		w.sheet.Add(drawing.Hatch([]drawing.Point{{X: r.Left, Y: r.Top}, {X: r.Right, Y: r.Top}, {X: r.Right, Y: r.Bottom}, {X: r.Left, Y: r.Bottom}}, 45, 1.2, drawing.Fine)...)
	}
}

// heights are those that a builder sets out by.
func (d *draft) heights(pool, sump float64) []level {
	out := []level{
		{"inside bottom (datum)", 0},
		{"inside top", d.l.Inside.Max.Z},
		{"floor of the room", d.l.Floor},
		{"pool, running", pool},
		{"sump, running", sump},
	}
	if d.l.HasDam {
		out = append(out, level{"top of the dam", d.l.Dam.Max.Z})
	}
	for i := range d.e.Drains {
		out = append(out, level{"lip of the " + d.e.Drains[i].Name, d.l.Z(d.e.Drains[i].Lip)})
	}
	for _, k := range []layout.Kind{layout.KindHole, layout.KindWay} {
		for _, p := range d.l.All(k) {
			if c, ok := p.Solid.(geom.Cylinder); ok && c.Along == geom.Z {
				continue // in a pane that lies: its height is that of the pane
			}
			name := "middle of the " + p.Name
			if k == layout.KindHole {
				name = "middle of the hole of the " + p.Name
			}
			out = append(out, level{name, p.Solid.Bounds().Centre().Z})
		}
	}
	for _, p := range d.l.All(layout.KindManifold) {
		out = append(out, level{"middle of the " + p.Name, p.Solid.Bounds().Centre().Z})
	}
	for i := range d.l.Grids {
		if g := &d.l.Grids[i]; g.At != "floor" {
			out = append(out, level{"foot of the " + g.Name, g.Box.Min.Z}, level{"top of the " + g.Name, g.Box.Max.Z})
		} else {
			out = append(out, level{"top of the " + g.Name, g.Box.Max.Z})
		}
	}
	return out
}

// plan is the view from above into the open box.
func (d *draft) plan() drawing.Sheet {
	notes := []string{"Seen from above, the front below; what is at the top is taken off. " + d.units(), "What the design file leaves open is drawn where a plain rule puts it."}
	w := d.view("Plan", fromAbove(), around{left: 24, above: 10, right: 24, below: 26}, notes, layout.KindDrainPipe)
	w.water(d.l.Pool.Box)
	w.draw(drawing.Dashed, drawing.NoFill, layout.KindHole, layout.KindWay)
	w.draw(drawing.Thin, drawing.NoFill, layout.KindStandpipe, layout.KindStrainer, layout.KindFlange, layout.KindNut, layout.KindDrainPipe, layout.KindElbow)
	for i := range d.l.Grids {
		g := &d.l.Grids[i]
		pen := drawing.Thin
		if g.At == "floor" {
			pen = drawing.Dashed
		}
		w.solid(g.Box, pen, drawing.NoFill)
	}
	w.draw(drawing.Thin, drawing.Paper, layout.KindGridBrace)
	w.draw(drawing.Medium, drawing.NoFill, layout.KindManifold)
	for i := range d.l.Panes {
		switch p := &d.l.Panes[i]; p.At {
		case "bottom":
			w.solid(p.Box, drawing.Thin, drawing.NoFill)
		case "top", "dam":
		default:
			w.cut(p.Box)
		}
	}
	if d.l.HasDam {
		w.cut(d.l.Dam)
		w.nameBox("dam", w.flat(d.l.Dam))
	}
	w.across()
	w.callOut(layout.KindManifold, "")
	w.callOut(layout.KindGrid, "")
	w.callOut(layout.KindGridBrace, "")
	w.callOut(layout.KindStandpipe, "standpipe")
	w.callOut(layout.KindWay, "")
	w.callOut(layout.KindDrainPipe, "")
	return w.sheet
}
