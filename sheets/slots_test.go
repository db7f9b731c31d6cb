package sheets

import (
	"strings"
	"testing"

	"rillwright/drawing"
	"rillwright/examples"
)

// A slot of 3 x 4 cells is cut all round: two walls upright and three level, at both ends
// each. The strip in it is as wide as three cells and a
// wall, 47 mm, and 6 / cos 45 twice along the lean, at the panel's face and at its back,
// 12 mm apart.
func TestCellMapSlot(t *testing.T) {
	const above = "    notches:\n      - { for: riser,"
	e := remade(t, examples.CorridorCabinet, above, "    braces: [{ name: ledge, to: side, leans: right, wide: 3, left: 40, bottom: 20, angle: 45 deg }]\n"+above)
	s := CellMaps(e, print4(drawing.A4()))[0]
	written(t, s)
	all := texts([]drawing.Sheet{s})
	for _, want := range []string{"brace ledge, 3 x 4", "2640 of 2700 cells stay", "columns 41 to 43 from the left, rows 21 to 24", "leaning 45 deg to the right, to the side", "Of 23 x 3 cells, sawn 341 mm long", "10 for slots"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in %q", want, all)
		}
	}
	cells := 0.0
	var strips []drawing.Box
	for _, i := range s.Items {
		p, ok := i.(*drawing.Path)
		if !ok {
			continue
		}
		if p.Pen == drawing.Heavy {
			cells += (abs(p.Points[1].X-p.Points[0].X) + abs(p.Points[1].Y-p.Points[0].Y)) / (15 * s.Scale)
		}
		if b := drawing.BoundsOf(p.Points); abs((b.Bottom-b.Top)/s.Scale-47) < 1e-6 {
			strips = append(strips, b)
		}
	}
	if want := 2.0*(54+50) + 2*4 + 2*6 + 2*(3+4); abs(cells-want) > 1e-6 {
		t.Errorf("cut along %g walls, want %g", cells, want)
	}
	if len(strips) != 2 || abs((strips[0].Right-strips[0].Left)/s.Scale-16.9706) > 1e-3 || abs((strips[1].Left-strips[0].Left)/s.Scale-12) > 1e-3 {
		t.Errorf("strips %+v at 1:%g", strips, 1/s.Scale)
	}
}

// A prism is drawn as its section from its end, as a box from its sides, and named where
// it is.
func TestViewsBrace(t *testing.T) {
	const above = "    notches:\n      - { for: riser,"
	d := newDraft(remade(t, examples.CorridorCabinet, above, "    braces: [{ name: ledge, to: side, leans: right, wide: 3, left: 40, bottom: 20, angle: 45 deg }]\n"+above), print4(drawing.A4()))
	for _, c := range []struct {
		s     drawing.Sheet
		slant int
	}{{d.elevation(0.1), 0}, {d.plan(), 2}} {
		written(t, c.s)
		slants := 0
		for _, i := range c.s.Items {
			if p, ok := i.(*drawing.Path); ok && p.Closed && len(p.Points) == 4 {
				for k, a := range p.Points {
					b := p.Points[(k+1)%4]
					if abs(abs(a.X-b.X)-abs(a.Y-b.Y)) < 1e-6 && abs(a.X-b.X) > 20 {
						slants++
					}
				}
			}
		}
		if slants != c.slant || !strings.Contains(texts([]drawing.Sheet{c.s}), "ledge") {
			t.Errorf("%s: %d slanting edges", c.s.Title, slants)
		}
	}
}
