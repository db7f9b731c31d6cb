package sheets

import (
	"fmt"
	"math"

	"rillwright/drawing"
	"rillwright/geom"
	"rillwright/layout"
	"rillwright/pieces"
)

// slots are those of braces in a panel, as notches whose names begin with "brace".
func (d *draft) slots(g *layout.Grid) []cellNotch {
	var out []cellNotch
	for i := range g.Slots {
		s := &g.Slots[i]
		out = append(out, cellNotch{
			name: "brace " + d.l.GridBraces[s.Brace].Name, slot: s,
			left: max(s.Lo.Column, 0), low: max(s.Lo.Row, 0), right: min(s.Hi.Column+1, g.Across), high: min(s.Hi.Row+1, g.Up),
		})
	}
	return out
}

// strips draws where each brace goes through a panel: dark, what it takes of its slot
// at the panel's face, hollow of the far one.
func (d *draft) strips(b *board, g *layout.Grid) {
	columns, rows := geom.X, geom.Z
	switch g.Face {
	case geom.X:
		columns = geom.Y
	case geom.Z:
		rows = geom.Y
	}
	mirrored, downward := turned(g)
	w, h := float64(g.Across)*g.Pitch, float64(g.Up)*g.Pitch
	for i := range g.Slots {
		p := d.l.GridBraces[g.Slots[i].Brace].Solid
		face, far := g.Box.Max.On(g.Face), g.Box.Min.On(g.Face)
		if g.Out < 0 {
			face, far = far, face
		}
		for _, f := range []struct {
			at   float64
			pen  drawing.Pen
			fill drawing.Fill
		}{{far, drawing.Thin, drawing.NoFill}, {face, drawing.Medium, drawing.Mid}} {
			cut, ok := across(p, g.Face, f.at)
			if !ok {
				continue
			}
			var q []drawing.Point
			for _, v := range []geom.Vec{cut.Min, cut.Max} {
				x, y := v.On(columns)-g.Box.Min.On(columns), v.On(rows)-g.Box.Min.On(rows)
				if mirrored {
					x = w - x
				}
				if downward {
					y = h - y
				}
				q = append(q, b.at(x, y))
			}
			b.sheet.Add(drawing.Rectangle(drawing.BoundsOf(q), f.pen, f.fill))
		}
	}
}

// across returns what a plane square to an axis cuts of a prism that lies along
// another; false if it misses it.
func across(p geom.Prism, on geom.Axis, at float64) (geom.Box, bool) {
	const touch = 1e-9
	var out geom.Box
	found := false
	for i, v := range p.Base {
		w := p.Base[(i+1)%len(p.Base)]
		a, b := v.On(on)-at, w.On(on)-at
		if min(a, b) > touch || max(a, b) < -touch {
			continue
		}
		t := 0.0
		if math.Abs(a-b) > touch {
			t = math.Min(math.Max(a/(a-b), 0), 1)
		}
		list := []geom.Vec{v.Between(w, t)}
		if math.Abs(a-b) <= touch { // an edge in the plane
			list = append(list, w)
		}
		for _, c := range list {
			if !found {
				out, found = c.Bounds(), true
			}
			out = out.Union(c.Bounds()).Union(c.With(p.Along, c.On(p.Along)+p.Length).Bounds())
		}
	}
	return out, found
}

// leans are the ways that a brace leans, in words.
var leans = map[string]string{"up": "up", "down": "down", "left": "to the left", "right": "to the right", "front": "to the front", "rear": "to the rear"}

// slotNote tells what goes through a slot, and how its strip is cut.
func (d *draft) slotNote(g *layout.Grid, n *cellNotch, from, low string) string {
	b := &d.l.GridBraces[n.slot.Brace]
	out := fmt.Sprintf("Slot for %s: %d x %d cells, columns %d to %d from the %s, rows %d to %d from the %s", n.name, n.right-n.left, n.high-n.low, n.left+1, n.right, from, n.low+1, n.high, low)
	if &d.l.Grids[b.Grid] != g {
		return out + "."
	}
	long, wide := pieces.BraceCells(b, g.Pitch)
	cut := pieces.Brace{Length: b.Length, Bevels: b.Bevels}
	lean := "straight out"
	if deg := b.Angle * 180 / math.Pi; deg >= 0.5 {
		lean = fmt.Sprintf("leaning %.0f deg %s", deg, leans[b.Leans])
	}
	out += fmt.Sprintf(", its dark strip %s, to the %s. Of %d x %d cells, %s", lean, d.l.Parts[b.To].Name, long, wide, cut.Ends(d.e.Units))
	if b.Bond > 0 {
		out += fmt.Sprintf("; its end bonded to the glass, %s x %s", d.size(b.Width), d.sized(b.Bond))
	}
	return out + "."
}
