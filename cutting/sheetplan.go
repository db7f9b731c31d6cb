package cutting

import (
	"cmp"
	"slices"
)

// sheet is one sheet of a solution: a kind of stock and how it is cut.
type sheet struct {
	stock int
	tree  *cut
}

// cut is a part and what is made of it: two parts, a piece, or nothing.
type cut struct {
	part
	near, far *cut // nil if the part is not cut
	across    bool // near is below far, else left of it
	piece     int  // -1: an offcut
}

// split cuts a part so that the near side gets a width, or a height if across.
func (c *cut) split(across bool, size int64) (near, far *cut) {
	c.across = across
	if across {
		c.near, c.far = &cut{part: part{c.w, size}, piece: -1}, &cut{part: part{c.w, c.h - size}, piece: -1}
	} else {
		c.near, c.far = &cut{part: part{size, c.h}, piece: -1}, &cut{part: part{c.w - size, c.h}, piece: -1}
	}
	return c.near, c.far
}

// plan writes a solution in metres, with the rows of the job.
func (s *sheets) plan(j SheetJob, found []sheet) SheetPlan {
	p := SheetPlan{Steps: s.worked}
	rows, from := make([][]int, len(s.rows)), make([][]int, len(s.from))
	for i := range rows {
		rows[i] = slices.Clone(s.rows[i])
	}
	for k := range from {
		from[k] = slices.Clone(s.from[k])
	}
	var cost int64
	for _, f := range found {
		w := writer{sheets: s, job: j, rows: rows, out: SheetLayout{Stock: from[f.stock][0]}}
		if s.count[f.stock] >= 0 {
			from[f.stock] = from[f.stock][1:]
		}
		cost += s.cost[f.stock]
		trim := w.trim()
		w.write(f.tree, trim, trim, 0)
		p.Sheets = append(p.Sheets, w.out)
	}
	slices.SortStableFunc(p.Sheets, func(x, y SheetLayout) int {
		hand := func(l SheetLayout) int {
			if j.Stock[l.Stock].OnHand {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(hand(x), hand(y)), cmp.Compare(x.Stock, y.Stock))
	})
	p.Missing = slices.Sorted(slices.Values(slices.Concat(rows...)))
	p.Cost, p.Bound, p.Gap, p.Status = judged(cost, s.bound, s.unit, len(p.Missing) > 0, s.none)
	if len(p.Missing) > 0 {
		return p
	}
	if s.leftover {
		p.Leftover = Proven
	}
	return p
}

// writer writes one layout.
type writer struct {
	*sheets
	job  SheetJob
	rows [][]int
	out  SheetLayout
}

// trim writes the cuts that take off the edges, and returns the width of each.
func (w *writer) trim() int64 {
	k := w.job.Stock[w.out.Stock]
	t := steps(k.Trim)
	if t == 0 {
		return 0
	}
	width, height := steps(k.Width), steps(k.Height)
	add := func(x, y, wide, high int64, across bool, at int64) {
		w.out.Cuts = append(w.out.Cuts, SheetCut{Part: rect(x, y, wide, high), Across: across, At: metres(at), Trim: true})
	}
	// The kerf belongs to the strip: a strip beyond a cut ends with its kerf, one
	// before it begins a kerf earlier.
	add(0, 0, width, height, false, max(0, t-w.kerf))
	add(t, 0, width-t, height, false, width-t)
	add(t, 0, width-2*t, height, true, max(0, t-w.kerf))
	add(t, t, width-2*t, height-t, true, height-t)
	return t
}

func rect(x, y, w, h int64) Rect { return Rect{metres(x), metres(y), metres(w), metres(h)} }

// write writes a part whose near corner is given. A part no wider than the kerf is
// gone with the cut.
func (w *writer) write(c *cut, x, y int64, level int) {
	wide, high := c.w-w.kerf, c.h-w.kerf
	switch {
	case wide <= 0 || high <= 0:
	case c.near != nil:
		sc := SheetCut{Part: rect(x, y, wide, high), Across: c.across, Level: level}
		if c.across {
			sc.At = metres(y + c.near.h - w.kerf)
			w.out.Cuts = append(w.out.Cuts, sc)
			w.write(c.near, x, y, level+1)
			w.write(c.far, x, y+c.near.h, level+1)
		} else {
			sc.At = metres(x + c.near.w - w.kerf)
			w.out.Cuts = append(w.out.Cuts, sc)
			w.write(c.near, x, y, level+1)
			w.write(c.far, x+c.near.w, y, level+1)
		}
	case c.piece >= 0:
		row := w.rows[c.piece][0]
		w.rows[c.piece] = w.rows[c.piece][1:]
		turned := steps(w.job.Pieces[row].Width) != wide
		w.out.Pieces = append(w.out.Pieces, SheetPlace{row, rect(x, y, wide, high), turned})
	default:
		w.out.Offcuts = append(w.out.Offcuts, SheetOffcut{rect(x, y, wide, high), min(wide, high) >= w.keep})
	}
}
