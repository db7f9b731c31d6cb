package pieces

import "rillwright/design"

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
			base.Notched = notched(g, &base)
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
				end = b.seam(g, across, at, whole, parts-k, func(n int) bool {
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
			p.Notched = notched(g, &p)
			b.out.Panels = append(b.out.Panels, p)
			at = end
		}
	}
}

// seam returns where the part that begins at a cell ends: near its even share, off
// any notch if both sides still fit.
func (b *builder) seam(g *design.GridPanel, across bool, at, whole, left int, fits func(n int) bool) int {
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
		return false
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

// notched counts the cells of a part that are cut out, each once.
func notched(g *design.GridPanel, p *Panel) int {
	out := map[[2]int]bool{}
	for i := range g.Notches {
		n := &g.Notches[i]
		for c := n.Left.Value; c < n.Left.Value+n.Across.Value; c++ {
			for r := n.Bottom.Value; r < n.Bottom.Value+n.Up.Value; r++ {
				if c >= p.FirstCol && c < p.FirstCol+p.Cols && r >= p.FirstRow && r < p.FirstRow+p.Rows {
					out[[2]int{c, r}] = true
				}
			}
		}
	}
	return len(out)
}
