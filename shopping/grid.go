package shopping

import (
	"fmt"
	"math"
	"strings"

	"rillwright/catalogue"
	"rillwright/cutting"
	"rillwright/design"
	"rillwright/quantity"
	"rillwright/takeoff"
)

const (
	// sheetLess is by how much a US sheet is smaller than its name each way, m: about
	// 1/4 in, from memory of the trade. Metric ones are taken as named.
	sheetLess = 0.00635
	// gridKeep is the narrowest rest of grid worth keeping, in cells.
	gridKeep = 4
)

// sheets is grid, in whole cells of sheets.
func (b *buyer) sheets(it *Item, g *catalogue.Good) {
	list := b.packs(it, g, func(k design.Pack) (float64, bool) { return 1, k.Kind == design.PackPieces })
	p := &list[0]
	wide, long := sheetSize(g.Packs[0].Text, b.us)
	byPitch := map[int64][]takeoff.Panel{}
	var order []int64
	for _, n := range it.Panels {
		key := int64(math.Round(n.Pitch * 1e6))
		if byPitch[key] == nil {
			order = append(order, key)
		}
		byPitch[key] = append(byPitch[key], n)
	}
	rows := b.onHand(&it.Need)
	used := make([]int, len(rows))
	buy, cellsLeft, split := 0, 0.0, false
	for _, key := range order {
		panels := byPitch[key]
		pitch := panels[0].Pitch
		plan, parted, ok := layGrid(panels, cells(wide, pitch), cells(long, pitch), rows, used, pitch, b.us)
		split = split || parted
		if !ok {
			area := 0.0
			for _, n := range panels {
				area += float64(n.Across*n.High) * n.Pitch * n.Pitch
			}
			buy += whole(area / (wide * long))
			continue
		}
		for _, s := range plan.Sheets {
			if s.Stock < len(rows) {
				if len(s.Pieces) > 0 {
					used[s.Stock]++
				}
			} else {
				buy++
			}
			if len(s.Pieces) == 0 && s.Stock < len(rows) {
				continue
			}
			for _, o := range s.Offcuts {
				if o.Reusable {
					cellsLeft += float64(o.Cols * o.Rows)
				}
			}
		}
	}
	it.takeRows(rows, used)
	it.charge(p, Ends{buy, buy, buy})
	it.Rest = fmt.Sprintf("%.0f cells left in pieces worth keeping", cellsLeft)
	if split {
		it.Rest += "; a panel larger than a sheet is made of parts, tied edge to edge"
	}
}

// cells returns how many whole cells a side (m) has.
func cells(side, pitch float64) int { return int(side/pitch + 1e-6) }

// sheetSize reads "600 x 1200 mm", m.
func sheetSize(text string, us bool) (wide, long float64) {
	a, c, ok := strings.Cut(strings.ReplaceAll(text, "×", "x"), "x")
	if !ok {
		return 0, 0
	}
	last, err := quantity.ParseLength(strings.TrimSpace(c))
	if err != nil {
		return 0, 0
	}
	first, err := quantity.ParseLength(strings.TrimSpace(a))
	if err != nil {
		if first, err = quantity.ParseLength(strings.TrimSpace(a) + " " + strings.TrimLeft(strings.TrimSpace(c), "0123456789./ ")); err != nil {
			return 0, 0
		}
	}
	wide, long = float64(first), float64(last)
	if us && wide > sheetLess {
		wide, long = wide-sheetLess, long-sheetLess
	}
	return wide, long
}

// layGrid lays panels onto sheets on hand (those not used yet) and bought ones. A
// panel larger than a sheet is cut into parts, along or across, whichever takes fewer.
func layGrid(panels []takeoff.Panel, cols, rowsOf int, rows []*held, used []int, pitch float64, us bool) (best cutting.CellPlan, split, ok bool) {
	for turn := range 2 {
		wide, high := cols, rowsOf
		if turn == 1 {
			wide, high = rowsOf, cols
		}
		job := cutting.CellJob{Keep: gridKeep, Effort: effort}
		parted := false
		for _, n := range panels {
			parts := []takeoff.Panel{n}
			if !(n.Across <= wide && n.High <= high || n.Across <= high && n.High <= wide) {
				parts, parted = inParts(n, wide, high), true
			}
			for _, p := range parts {
				job.Pieces = append(job.Pieces, cutting.CellPiece{Name: p.Name, Cols: p.Across, Rows: p.High, Count: 1})
			}
		}
		for k, h := range rows {
			w, l := sheetSize(h.item.Size.Value, us)
			if w == 0 {
				w, l = float64(cols)*pitch, float64(rowsOf)*pitch
			}
			if c, r := cells(w, pitch), cells(l, pitch); c > 0 && r > 0 && h.left > used[k] {
				job.Stock = append(job.Stock, cutting.CellStock{Name: h.item.What.Value, Cols: c, Rows: r, OnHand: true, Count: h.left - used[k]})
			} else {
				// Rows keep their numbers: an empty one holds nothing.
				job.Stock = append(job.Stock, cutting.CellStock{Name: h.item.What.Value, Cols: 1, Rows: 1, OnHand: true, Count: 1})
			}
		}
		job.Stock = append(job.Stock, cutting.CellStock{Name: "new", Cols: cols, Rows: rowsOf, Cost: 1})
		plan, err := cutting.CutCells(job)
		if err != nil || len(plan.Missing) > 0 {
			continue
		}
		if !ok || plan.Cost < best.Cost {
			best, split, ok = plan, parted, true
		}
		if !parted {
			break
		}
	}
	return best, split, ok
}

// inParts cuts a panel into parts of at most wide by high cells.
func inParts(n takeoff.Panel, wide, high int) []takeoff.Panel {
	var out []takeoff.Panel
	if wide < 1 || high < 1 || n.Across/wide+n.High/high > mostParts || (n.Across/wide+1)*(n.High/high+1) > mostParts {
		return []takeoff.Panel{n}
	}
	for x := 0; x < n.Across; x += wide {
		for y := 0; y < n.High; y += high {
			out = append(out, takeoff.Panel{Name: n.Name, Across: min(wide, n.Across-x), High: min(high, n.High-y), Pitch: n.Pitch})
		}
	}
	return out
}
