package pieces

import (
	"math"

	"rillwright/layout"
)

// cells returns how many whole cells a sheet gives each way.
func cells(width, height, pitch float64) (cols, rows int) {
	return int(width/pitch + 1e-6), int(height/pitch + 1e-6)
}

// panels lists the grid panels. One that no sheet holds whole comes in parts, side by
// side or one over the other, whichever takes fewer; the seam keeps clear of notches
// where it can.
func (b *builder) panels() {
	for i := range b.e.Design.Grid {
		g := &b.e.Design.Grid[i]
		pitch := float64(g.Pitch.Value)
		cols, rows := g.Across.Value, g.Up.Value
		if pitch <= 0 || cols <= 0 || rows <= 0 {
			continue
		}
		fits := func(c, r int) bool {
			for _, s := range b.gridSheets() {
				w, h := cells(s.size[0], s.size[1], pitch)
				if c <= w && r <= h || c <= h && r <= w {
					return true
				}
			}
			return false
		}
		most := max(cols, rows)
		parts, across := 1, true
		for ; parts < most; parts++ {
			if fits((cols+parts-1)/parts, rows) {
				break
			}
			if fits(cols, (rows+parts-1)/parts) {
				across = false
				break
			}
		}
		base := Panel{Name: g.Name.Value, Grid: i, Line: g.Pos.Line, Cols: cols, Rows: rows, Pitch: pitch, Part: 1, Parts: 1}
		if parts == 1 || parts == most {
			base.Notched = b.notched(i, &base)
			b.out.Panels = append(b.out.Panels, base)
			continue
		}
		whole := cols
		if !across {
			whole = rows
		}
		at := 0
		for k := range parts {
			end := whole
			if k+1 < parts {
				end = b.seam(i, across, at, whole, parts-k, func(n int) bool {
					if across {
						return fits(n, rows)
					}
					return fits(cols, n)
				})
			}
			p := base
			p.Part, p.Parts = k+1, parts
			if across {
				p.FirstCol, p.Cols = at, end-at
			} else {
				p.FirstRow, p.Rows = at, end-at
			}
			p.Notched = b.notched(i, &p)
			b.out.Panels = append(b.out.Panels, p)
			at = end
		}
	}
}

// seam returns where the part that begins at a cell ends: near its even share, off
// any notch if both sides still fit.
func (b *builder) seam(i int, across bool, at, whole, left int, fits func(n int) bool) int {
	g := &b.e.Design.Grid[i]
	even := at + (whole-at+left-1)/left
	cuts := func(end int) bool {
		for i := range g.Notches {
			n := &g.Notches[i]
			lo, size := n.Left.Value, n.Across.Value
			if !across {
				lo, size = n.Bottom.Value, n.Up.Value
			}
			if end > lo && end < lo+size {
				return true
			}
		}
		return b.slotted(i, across, end)
	}
	for off := range whole {
		for _, end := range []int{even - off, even + off} {
			rest := (whole - end + left - 2) / max(1, left-1)
			if end > at && end < whole && !cuts(end) && fits(end-at) && fits(rest) {
				return end
			}
		}
	}
	return even
}

// slotted reports whether a seam before a column, or a row, would cut a brace's slot of
// panel i in two.
func (b *builder) slotted(i int, across bool, end int) bool {
	for k := range b.l.Grids {
		g := &b.l.Grids[k]
		for j := range g.Slots {
			lo, hi := g.Slots[j].Lo.Column, g.Slots[j].Hi.Column
			if !across {
				lo, hi = g.Slots[j].Lo.Row, g.Slots[j].Hi.Row
			}
			if g.Index == i && end > lo && end <= hi {
				return true
			}
		}
	}
	return false
}

// notched counts the cells of a part of panel i that are cut out, each once.
func (b *builder) notched(i int, p *Panel) int {
	g := &b.e.Design.Grid[i]
	out := map[[2]int]bool{}
	cut := func(left, bottom, across, up int) {
		for c := left; c < left+across; c++ {
			for r := bottom; r < bottom+up; r++ {
				if c >= p.FirstCol && c < p.FirstCol+p.Cols && r >= p.FirstRow && r < p.FirstRow+p.Rows {
					out[[2]int{c, r}] = true
				}
			}
		}
	}
	for k := range g.Notches {
		n := &g.Notches[k]
		cut(n.Left.Value, n.Bottom.Value, n.Across.Value, n.Up.Value)
	}
	for k := range b.l.Grids {
		if b.l.Grids[k].Index != i {
			continue
		}
		for j := range b.l.Grids[k].Slots {
			s := &b.l.Grids[k].Slots[j]
			across, up := s.Cells()
			cut(s.Lo.Column, s.Lo.Row, across, up)
		}
	}
	return len(out)
}

// BraceCells returns how many cells long a strip must be for a brace, and how many
// wide: one of n cells is n cells and a wall long. pitch in m.
func BraceCells(b *layout.GridBrace, pitch float64) (long, wide int) {
	return max(1, int(math.Ceil((b.Length-layout.SlotWall)/pitch-1e-6))), b.Wide
}

// braces lists the strips that braces are sawn from, after the panels.
func (b *builder) braces() {
	for i := range b.l.GridBraces {
		x := &b.l.GridBraces[i]
		g := &b.l.Grids[x.Grid]
		p := Panel{Name: "brace " + x.Name, Grid: g.Index, Line: x.Line, Pitch: g.Pitch, Part: 1, Parts: 1}
		p.Cols, p.Rows = BraceCells(x, g.Pitch)
		p.Brace = &Brace{Index: i, Length: x.Length, Bevels: x.Bevels}
		for k := range b.l.Grids {
			for j := range b.l.Grids[k].Slots {
				if b.l.Grids[k].Slots[j].Brace == i {
					p.Brace.Slots++
				}
			}
		}
		b.out.Panels = append(b.out.Panels, p)
	}
}
