package pieces

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/cutting"
)

// What is lost and kept; assumed, no source, unless said otherwise.
const (
	pipeKerf  = 0.003 // of a saw through plastic pipe or sheet, m: 2 to 3 mm, from memory of the trade
	snapStrip = 0.015 // the narrowest strip that comes off scored glass in one piece, m; that of package cutting's check
	keepSheet = 0.05  // the shorter side of an offcut of sheet worth keeping, m
	keepBar   = 0.1   // an offcut of pipe or hose worth keeping, m
	keepCells = 4     // the shorter side of an offcut of grid worth keeping
)

// layouts lays out all that is cut.
func (b *builder) layouts() {
	b.sheets()
	b.grids()
	b.bars()
}

// group is the pieces that come from the same sheets.
type group struct {
	material string
	thick    float64
}

// sheets lays panes of one material and thickness onto sheets of it.
func (b *builder) sheets() {
	var order []group
	rows := map[group][]int{}
	for i := range b.out.Pieces {
		p := &b.out.Pieces[i]
		if p.Had {
			continue
		}
		if why := ordered(p); why != "" {
			b.out.Layouts.Ordered = append(b.out.Layouts.Ordered, Ordered{Piece: i, Why: why})
			continue
		}
		g := group{material(p.Material), p.Thickness}
		if rows[g] == nil {
			order = append(order, g)
		}
		rows[g] = append(rows[g], i)
	}
	for _, g := range order {
		what := "glass"
		l := GlassLayout{What: fmt.Sprintf("annealed glass, %s", b.show(g.thick)), Thick: g.thick, Pieces: rows[g]}
		if g.material != "annealed" {
			what = g.material
			l.What = fmt.Sprintf("%s, %s", g.material, b.show(g.thick))
			l.Job.Kerf = pipeKerf
		} else {
			l.Job.MinStrip = snapStrip
		}
		l.Job.Keep = keepSheet
		for _, i := range l.Pieces {
			p := &b.out.Pieces[i]
			l.Job.Pieces = append(l.Job.Pieces, cutting.SheetPiece{Name: p.Name, Width: p.Width.Cut, Height: p.Height.Cut, Count: p.Count})
		}
		from := b.stock(3, func(s string) bool {
			return strings.Contains(s, what) && !strings.Contains(s, "toughened") && !strings.Contains(s, "laminated")
		})
		from = slices.DeleteFunc(from, func(h held) bool { return math.Abs(h.size[2]-g.thick) > 0.0002 })
		for _, h := range append(from, b.sold(what)...) {
			l.Stock = append(l.Stock, h.Stock)
			l.Job.Stock = append(l.Job.Stock, cutting.SheetStock{Name: h.Name, Width: h.size[0], Height: h.size[1], Trim: h.trim, OnHand: h.OnHand, Count: h.count})
		}
		var err error
		if l.Plan, err = cutting.CutSheets(l.Job); err != nil {
			l.Err = err.Error()
		}
		used := make([]int, 0, len(l.Plan.Sheets))
		for i := range l.Plan.Sheets {
			used = append(used, l.Plan.Sheets[i].Stock)
		}
		b.bought(l.What, l.Stock, used, func(k int) [2]float64 { return [2]float64{l.Job.Stock[k].Width, l.Job.Stock[k].Height} })
		b.out.Layouts.Glass = append(b.out.Layouts.Glass, l)
	}
}

// ordered tells why a piece cannot be cut from a sheet at the bench; "" if it can.
func ordered(p *Piece) string {
	switch p.Material {
	case "annealed", "acrylic", "polycarbonate", "glass":
		return ""
	case "toughened":
		return "toughened glass cannot be cut: order it to size, its holes and edges with it"
	case "laminated":
		return "laminated glass: have it cut by the shop"
	case "aluminium", "steel":
		return "of metal: bought to length"
	}
	return "what it is made of is not checked: nothing is cut before that is known"
}

// grids lays panels of one pitch onto grid sheets.
func (b *builder) grids() {
	var order []float64
	rows := map[float64][]int{}
	for i := range b.out.Panels {
		p := b.out.Panels[i].Pitch
		if rows[p] == nil {
			order = append(order, p)
		}
		rows[p] = append(rows[p], i)
	}
	for _, pitch := range order {
		l := GridLayout{Pitch: pitch, Panels: rows[pitch], Job: cutting.CellJob{Keep: keepCells}}
		for _, i := range l.Panels {
			p := &b.out.Panels[i]
			l.Job.Pieces = append(l.Job.Pieces, cutting.CellPiece{Name: p.Title(), Cols: p.Cols, Rows: p.Rows, Count: 1})
		}
		for _, h := range b.gridSheets() {
			cols, rows := cells(h.size[0], h.size[1], pitch)
			if cols == 0 || rows == 0 {
				continue
			}
			l.Stock = append(l.Stock, h.Stock)
			l.Job.Stock = append(l.Job.Stock, cutting.CellStock{Name: h.Name, Cols: cols, Rows: rows, OnHand: h.OnHand, Count: h.count})
		}
		var err error
		if l.Plan, err = cutting.CutCells(l.Job); err != nil {
			l.Err = err.Error()
		}
		used := make([]int, 0, len(l.Plan.Sheets))
		for i := range l.Plan.Sheets {
			used = append(used, l.Plan.Sheets[i].Stock)
		}
		b.bought("grid sheet", l.Stock, used, func(k int) [2]float64 {
			return [2]float64{float64(l.Job.Stock[k].Cols) * pitch, float64(l.Job.Stock[k].Rows) * pitch}
		})
		b.out.Layouts.Grids = append(b.out.Layouts.Grids, l)
	}
}

// Title names a panel, and which part of it this is.
func (p *Panel) Title() string {
	if p.Parts == 1 {
		return p.Name
	}
	return fmt.Sprintf("%s, part %d of %d", p.Name, p.Part, p.Parts)
}

// bars lays lengths of one part onto what it is sold in. Hose is cut off a roll: only
// what is on hand is laid out, the rest is bought by the length.
func (b *builder) bars() {
	var order []string
	rows := map[string][]int{}
	for i := range b.out.Lengths {
		of := b.out.Lengths[i].Of
		if rows[of] == nil {
			order = append(order, of)
		}
		rows[of] = append(rows[of], i)
	}
	for _, part := range order {
		l := BarLayout{Part: part, Lengths: rows[part]}
		kind := b.out.Lengths[l.Lengths[0]].Kind
		l.Roll = kind != "pipe"
		l.Job = cutting.BarJob{Kerf: pipeKerf, Keep: keepBar}
		if l.Roll {
			l.Job.Kerf = 0
		}
		longest := 0.0
		for _, i := range l.Lengths {
			x := &b.out.Lengths[i]
			l.Job.Pieces = append(l.Job.Pieces, cutting.BarPiece{Name: x.Name, Length: x.Cut, Count: x.Count})
			l.Need += x.Cut * float64(x.Count)
			longest = math.Max(longest, x.Cut)
		}
		from := b.stock(1, func(s string) bool { return strings.HasPrefix(strings.ToLower(part), s) })
		if !l.Roll {
			from = append(from, b.pipeSold(part)...)
		} else if total := math.Ceil(l.Need/b.roll()-1e-9) * b.roll(); total > 0 {
			from = append(from, held{Stock: Stock{Name: b.show(total) + " off the roll"}, count: 1, size: []float64{total}})
		}
		for _, h := range from {
			l.Stock = append(l.Stock, h.Stock)
			l.Job.Stock = append(l.Job.Stock, cutting.BarStock{Name: h.Name, Length: h.size[0], OnHand: h.OnHand, Count: h.count, Cost: h.cost})
		}
		var err error
		if l.Plan, err = cutting.CutBars(l.Job); err != nil {
			l.Err = err.Error()
		}
		if l.Roll {
			b.shorten(&l)
		}
		used := make([]int, 0, len(l.Plan.Bars))
		for i := range l.Plan.Bars {
			used = append(used, l.Plan.Bars[i].Stock)
		}
		b.bought(part, l.Stock, used, func(k int) [2]float64 { return [2]float64{l.Job.Stock[k].Length, 0} })
		b.out.Layouts.Bars = append(b.out.Layouts.Bars, l)
	}
}

// roll is the step in which hose is sold off a roll: half a metre, or a foot.
func (b *builder) roll() float64 {
	if b.us() {
		return 0.3048
	}
	return 0.5
}

// shorten buys no more off the roll than what the stock on hand leaves to be cut.
func (b *builder) shorten(l *BarLayout) {
	for i := range l.Plan.Bars {
		x := &l.Plan.Bars[i]
		if l.Stock[x.Stock].OnHand || len(x.Cuts) == 0 {
			continue
		}
		end := x.Cuts[len(x.Cuts)-1].To
		s := &l.Job.Stock[x.Stock]
		if total := math.Ceil(end/b.roll()-1e-6) * b.roll(); total < s.Length {
			x.Offcut -= s.Length - total
			x.Reusable = x.Offcut >= l.Job.Keep
			s.Length = total
			s.Name = b.show(total) + " off the roll"
			l.Stock[x.Stock].Name = s.Name
		}
	}
}

// bought counts what of a layout is not on hand.
func (b *builder) bought(what string, stock []Stock, used []int, size func(k int) [2]float64) {
	for k := range stock {
		n := 0
		for _, u := range used {
			if u == k {
				n++
			}
		}
		if n > 0 && !stock[k].OnHand {
			b.out.Layouts.Buy = append(b.out.Layouts.Buy, Bought{What: what, Label: stock[k].Name, Count: n, Size: size(k)})
		}
	}
}
