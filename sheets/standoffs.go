package sheets

import (
	"fmt"

	"rillwright/drawing"
	"rillwright/layout"
	"rillwright/study"
)

// bond returns where a panel is bonded to what is behind it, nil if the file does not
// say that it is, or its spots do not fit.
func (d *draft) bond(g *layout.Grid) *study.Bond {
	p := &d.e.Design.Grid[g.Index]
	if !p.Bond.Given() {
		return nil
	}
	b, err := study.GridBond(d.e, p)
	if err != nil {
		return nil
	}
	return b
}

// standOffs draws the spots behind a panel, those that meet what is cut out crossed.
func (d *draft) standOffs(b *board, g *layout.Grid, notches []cellNotch) {
	of := d.bond(g)
	if of == nil {
		return
	}
	mirrored, downward := turned(g)
	corner := func(u, v float64) drawing.Point {
		if mirrored {
			u = of.Width - u
		}
		if downward {
			v = of.Height - v
		}
		return b.at(u, v)
	}
	for i, p := range of.Patches {
		q := []drawing.Point{corner(p.X, p.Y), corner(p.X+p.Width, p.Y), corner(p.X+p.Width, p.Y+p.Height), corner(p.X, p.Y+p.Height)}
		box := drawing.BoundsOf(q)
		b.ink(drawing.Rectangle(box, drawing.Thin, drawing.Mid))
		if cutAway(g, notches, of, i) {
			b.ink(drawing.Line(q[0], q[2], drawing.Medium), drawing.Line(q[1], q[3], drawing.Medium))
		}
	}
}

// cutAway reports whether cells that a spot is bonded to are cut out.
func cutAway(g *layout.Grid, notches []cellNotch, of *study.Bond, spot int) bool {
	p := &of.Patches[spot]
	for _, n := range notches {
		if p.X < float64(n.right)*g.Pitch && p.X+p.Width > float64(n.left)*g.Pitch && p.Y < float64(n.high)*g.Pitch && p.Y+p.Height > float64(n.low)*g.Pitch {
			return true
		}
	}
	return false
}

func (d *draft) standOffNotes(g *layout.Grid, notches []cellNotch) []string {
	of := d.bond(g)
	if of == nil {
		return nil
	}
	lost := 0
	for i := range of.Patches {
		if cutAway(g, notches, of, i) {
			lost++
		}
	}
	rows := fmt.Sprintf("%d rows", of.Rows)
	if of.Rows == 1 {
		rows = "1 row"
	}
	text := fmt.Sprintf("Dark boxes: %d stand-offs behind it, each %s x %s, in %s.", len(of.Patches), d.size(of.Spot[0]), d.sized(of.Spot[1]), rows)
	if lost > 0 {
		text += fmt.Sprintf(" %d crossed: cells there are cut out, so bond beside, on the nearest that stay.", lost)
	}
	return []string{text}
}
