package layout

import (
	"testing"

	"rillwright/geom"
)

// panel is one of 10 x 8 cells of 15 mm against the back.
func panel(notches ...[4]int) *Grid {
	const pitch = 0.015
	g := &Grid{Across: 10, Up: 8, Pitch: pitch, Face: geom.Y, Out: 1, Box: geom.Box{Min: geom.Vec{X: 0.1, Y: 0.04, Z: 0.2}, Max: geom.Vec{X: 0.25, Y: 0.052, Z: 0.32}}}
	for _, n := range notches {
		b := g.Box
		b.Min.X, b.Max.X = 0.1+float64(n[0])*pitch, 0.1+float64(n[0]+n[2])*pitch
		b.Min.Z, b.Max.Z = 0.2+float64(n[1])*pitch, 0.2+float64(n[1]+n[3])*pitch
		g.Notches = append(g.Notches, Cutout{Box: b})
	}
	return g
}

// Counted on squared paper.
func TestGridCuts(t *testing.T) {
	for _, c := range []struct {
		name    string
		notches [][4]int // left, bottom, across, up
		want    int
	}{
		{"none", nil, 0},
		{"one cell within: no wall is snipped", [][4]int{{3, 3, 1, 1}}, 0},
		{"3 x 2 within: two walls upright and one level, at both ends", [][4]int{{3, 3, 3, 2}}, 6},
		{"3 x 2 at the bottom: 2 upright at the top, 1 level at both ends, the edge at both ends", [][4]int{{3, 0, 3, 2}}, 6},
		{"2 x 2 in a corner: one each at the far end, the edges at one end each", [][4]int{{0, 0, 2, 2}}, 4},
		{"two that share a side are one", [][4]int{{3, 3, 2, 2}, {5, 3, 1, 2}}, 6},
		{"all of it", [][4]int{{0, 0, 10, 8}}, 0},
	} {
		got, outline := panel(c.notches...).Cuts()
		if got != c.want || outline != 40 {
			t.Errorf("%s: %d walls, %d round it", c.name, got, outline)
		}
	}
}

// A pipe of 20 mm through the middle of cell (4, 3), 15 mm wide: it is 10 mm to each
// side, 2.5 mm into the cells beside it, and clears those at the corners by
// hypot(7.5, 7.5) - 10 = 0.6 mm.
func TestGridNear(t *testing.T) {
	g := panel()
	mid := geom.Vec{X: 0.1 + 4.5*0.015, Z: 0.2 + 3.5*0.015}
	pipe := geom.Rod(mid, geom.Y, 0, 0.2, 0.010)
	for _, c := range []struct {
		way  float64
		want int
	}{{0, 5}, {0.0005, 5}, {0.0007, 9}, {0.003, 9}} {
		cells, gap := g.Near(pipe, c.way)
		if len(cells) != c.want || gap > 0 {
			t.Errorf("within %g m: %v, gap %g", c.way, cells, gap)
		}
	}
	if cells, gap := g.Near(geom.Rod(mid, geom.Y, 0.1, 0.2, 0.010), 0.003); len(cells) != 0 || gap < 0.0479 || gap > 0.0481 {
		t.Errorf("before the panel: %v, %g", cells, gap)
	}
	if !g.Open(Cell{-1, 0}) || g.Open(Cell{0, 0}) || !panel([4]int{0, 0, 2, 2}).Open(Cell{1, 1}) || panel([4]int{0, 0, 2, 2}).Open(Cell{2, 1}) {
		t.Error("which cells are cut out")
	}
}
