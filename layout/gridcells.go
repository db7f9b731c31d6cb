package layout

import (
	"rillwright/geom"
)

// Cell is one cell of a panel, counted from 0 as the file counts: columns from its
// left end, or the rear of one at a side, rows from the bottom, or the rear of one on
// the floor.
type Cell struct{ Column, Row int }

// along are the axes that the panel's columns and rows count along.
func (g *Grid) along() (columns, rows geom.Axis) {
	switch g.Face {
	case geom.X:
		return geom.Y, geom.Z
	case geom.Z:
		return geom.X, geom.Y
	}
	return geom.X, geom.Z
}

// CellBox returns a cell with half of each of its walls, through the panel's depth.
func (g *Grid) CellBox(c Cell) geom.Box {
	a, u := g.along()
	b := g.Box
	a0, u0 := b.Min.On(a)+float64(c.Column)*g.Pitch, b.Min.On(u)+float64(c.Row)*g.Pitch
	b.Min, b.Max = b.Min.With(a, a0), b.Max.With(a, a0+g.Pitch)
	b.Min, b.Max = b.Min.With(u, u0), b.Max.With(u, u0+g.Pitch)
	return b
}

// Near returns the cells that are nearer to a thing than some way (m), column by
// column, and how near the nearest is, m; below 0 it is met. Without any it is the
// distance to the panel as a whole.
func (g *Grid) Near(s geom.Solid, way float64) (cells []Cell, gap float64) {
	gap = geom.Gap(g.Box, s)
	if gap >= way {
		return nil, gap
	}
	reach := s.Bounds().Grown(way)
	for c := range g.Across {
		for r := range g.Up {
			at := Cell{c, r}
			b := g.CellBox(at)
			if _, ok := reach.Meet(b); ok && geom.Gap(b, s) < way {
				cells = append(cells, at)
			}
		}
	}
	return cells, gap
}

// Open reports whether a notch of the file or a brace's slot takes a cell out, or the
// cell is none of the panel's.
func (g *Grid) Open(c Cell) bool {
	if c.Column < 0 || c.Row < 0 || c.Column >= g.Across || c.Row >= g.Up {
		return true
	}
	mid := g.CellBox(c).Centre()
	for i := range g.Notches {
		if g.Notches[i].Box.Has(mid) {
			return true
		}
	}
	for i := range g.Slots {
		if s := &g.Slots[i]; c.Column >= s.Lo.Column && c.Column <= s.Hi.Column && c.Row >= s.Lo.Row && c.Row <= s.Hi.Row {
			return true
		}
	}
	return false
}

// SlotCuts returns how many walls are snipped for the slots of braces, over those for
// notches.
func (g *Grid) SlotCuts() int {
	bare := *g
	bare.Slots = nil
	all, _ := g.Cuts()
	notches, _ := bare.Cuts()
	return all - notches
}

// Cuts returns how many walls are snipped to take notches and slots out, and the most that
// are snipped to take the panel out of a larger sheet, none of whose edges is the
// panel's. A wall that goes is snipped at each end where it meets one that stays.
func (g *Grid) Cuts() (notches, outline int) {
	open := make([][]bool, g.Across+2) // with a rim of cells round the panel
	for c := range open {
		open[c] = make([]bool, g.Up+2)
		for r := range open[c] {
			open[c][r] = g.Open(Cell{c - 1, r - 1})
		}
	}
	within := func(c, r int) bool { return c >= 0 && r >= 0 && c < g.Across && r < g.Up }
	// A wall lies between two cells; it is there if one of them is the panel's, and
	// goes if none that is stays.
	wall := func(c, r, d, s int) (there, stays bool) {
		there = within(c, r) || within(d, s)
		stays = !open[c+1][r+1] || !open[d+1][s+1]
		return there, stays
	}
	for c := range g.Across + 1 {
		for r := range g.Up + 1 {
			gone, kept := 0, false
			for _, w := range [4][4]int{
				{c - 1, r, c, r},         // up from the crossing
				{c - 1, r - 1, c, r - 1}, // down
				{c, r - 1, c, r},         // right
				{c - 1, r - 1, c - 1, r}, // left
			} {
				switch there, stays := wall(w[0], w[1], w[2], w[3]); {
				case there && stays:
					kept = true
				case there:
					gone++
				}
			}
			if kept {
				notches += gone
			}
		}
	}
	return notches, 2 * (g.Across + 1 + g.Up + 1)
}
