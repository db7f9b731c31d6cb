package sheets

import (
	"fmt"
	"math"
	"strings"

	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/layout"
)

// CellMaps draws every grid panel cell by cell: counted cells with the numbers of
// columns and rows, notches shaded, and the lines to be cut, which run along walls.
func CellMaps(e *enclosure.Enclosure, p Print) []drawing.Sheet {
	d := newDraft(e, p)
	var out []drawing.Sheet
	for i := range d.l.Grids {
		out = append(out, d.cells(&d.l.Grids[i]))
	}
	return out
}

// numberEvery is the step at which columns and rows are numbered.
const numberEvery = 5

// cellNotch is a notch in cells, from the panel's first column and row, cut to the
// panel.
type cellNotch struct {
	name                   string
	left, low, right, high int
	slot                   *layout.Slot // nil if it is no brace's
}

// notches are those of the file that lie on the panel, then the slots of braces.
func (d *draft) notches(g *layout.Grid) []cellNotch {
	var out []cellNotch
	list := d.e.Design.Grid[g.Index].Notches
	for i := range list {
		n := &list[i]
		c := cellNotch{
			name: n.For.Value, left: max(n.Left.Value, 0), low: max(n.Bottom.Value, 0),
			right: min(n.Left.Value+n.Across.Value, g.Across), high: min(n.Bottom.Value+n.Up.Value, g.Up),
		}
		if c.right > c.left && c.high > c.low {
			out = append(out, c)
		}
	}
	return append(out, d.slots(g)...)
}

// open reports whether a cell is cut out.
func open(list []cellNotch, column, row int) bool {
	for _, n := range list {
		if column >= n.left && column < n.right && row >= n.low && row < n.high {
			return true
		}
	}
	return false
}

// turned tells how a panel is drawn: mirrored if its columns count from the right as
// seen from its face, and downwards if its rows do.
func turned(g *layout.Grid) (mirrored, downward bool) {
	return g.At == "left", g.At == "floor"
}

func (d *draft) cells(g *layout.Grid) drawing.Sheet {
	notches := d.notches(g)
	w, h := float64(g.Across)*g.Pitch, float64(g.Up)*g.Pitch
	notes := d.cellNotes(g, notches)
	b := d.board("Cell maps", "Cell map: "+g.Name, w, h, around{left: 26, above: 16, right: 10, below: 20}, notes)
	b.sheet.Description = strings.Join(notes, " ")
	mirrored, downward := turned(g)
	// at is the corner of a cell, before its column and row.
	at := func(column, row int) drawing.Point {
		u, v := float64(column)*g.Pitch, float64(row)*g.Pitch
		if mirrored {
			u = w - u
		}
		if downward {
			v = h - v
		}
		return b.at(u, v)
	}
	for _, n := range notches {
		p, q := at(n.left, n.low), at(n.right, n.high)
		box := drawing.Box{Left: math.Min(p.X, q.X), Top: math.Min(p.Y, q.Y), Right: math.Max(p.X, q.X), Bottom: math.Max(p.Y, q.Y)}
		b.sheet.Add(drawing.Rectangle(box, drawing.NoPen, drawing.Pale))
	}
	d.standOffs(b, g, notches)
	for c := range g.Across + 1 {
		b.sheet.Add(drawing.Line(at(c, 0), at(c, g.Up), wallPen(c)))
	}
	for r := range g.Up + 1 {
		b.sheet.Add(drawing.Line(at(0, r), at(g.Across, r), wallPen(r)))
	}
	d.cutLines(b, g, notches, at)
	d.strips(b, g)
	d.cellNumbers(b, g, at)
	side := drawing.Rows{Upright: true, First: b.frame.Left - 16, Outward: -1, Least: b.room.Top + 1, Most: b.room.Bottom - 1}
	side.Measures = []drawing.Measure{{From: b.frame.Bottom, To: b.frame.Top, Text: fmt.Sprintf("%d cells, %s", g.Up, d.sized(h)), FromEdge: b.frame.Left - 9, ToEdge: b.frame.Left - 9}}
	b.rows(side)
	below := drawing.Rows{First: b.frame.Bottom + 14, Outward: 1, Least: b.room.Left + 1, Most: b.room.Right - 1}
	below.Measures = []drawing.Measure{{From: b.frame.Left, To: b.frame.Right, Text: fmt.Sprintf("%d cells, %s", g.Across, d.sized(w)), FromEdge: b.frame.Bottom + 7, ToEdge: b.frame.Bottom + 7}}
	b.rows(below)
	for _, n := range notches {
		p, q := at(n.left, n.low), at(n.right, n.high)
		c := drawing.Point{X: (p.X + q.X) / 2, Y: (p.Y + q.Y) / 2}
		d.notchName(b, n, c, math.Abs(q.X-p.X), math.Abs(q.Y-p.Y))
	}
	return b.sheet
}

// wallPen makes every tenth wall heavier, to count by.
func wallPen(n int) drawing.Pen {
	if n%10 == 0 {
		return drawing.Medium
	}
	return drawing.Fade
}

// cutLines draws the walls to be cut along: those between what stays and what goes,
// and the panel's own edge where it is not a notch's.
func (d *draft) cutLines(b *board, g *layout.Grid, notches []cellNotch, at func(int, int) drawing.Point) {
	gone := func(c, r int) bool {
		return c < 0 || r < 0 || c >= g.Across || r >= g.Up || open(notches, c, r)
	}
	// Runs of walls are drawn as one line each.
	run := func(n, m int, cut func(i, j int) bool, end func(i, j int) drawing.Point) {
		for i := range n + 1 {
			from := -1
			for j := range m + 1 {
				switch is := j < m && cut(i, j); {
				case is && from < 0:
					from = j
				case !is && from >= 0:
					b.ink(drawing.Line(end(i, from), end(i, j), drawing.Heavy))
					from = -1
				}
			}
		}
	}
	run(g.Across, g.Up, func(i, j int) bool { return gone(i-1, j) != gone(i, j) }, at)
	run(g.Up, g.Across, func(i, j int) bool { return gone(j, i-1) != gone(j, i) }, func(i, j int) drawing.Point { return at(j, i) })
}

// cellNumbers writes the numbers of columns and rows beside the panel.
func (d *draft) cellNumbers(b *board, g *layout.Grid, at func(int, int) drawing.Point) {
	number := func(n, of int, pitch float64, put func(i int)) {
		step := numberEvery
		for float64(step)*pitch < 8 {
			step *= 2
		}
		for i := 1; i <= of; i++ {
			// The last number gives way to none before it.
			if i == 1 || i%step == 0 || i == n && float64(i%step)*pitch > 8 {
				put(i)
			}
		}
	}
	pitch := g.Pitch * b.k
	number(g.Across, g.Across, pitch, func(i int) {
		p, q := at(i-1, 0), at(i, 0)
		x := (p.X + q.X) / 2
		b.ink(&drawing.Text{Text: fmt.Sprint(i), Height: small, At: drawing.Point{X: x, Y: b.frame.Bottom + 2 + small}, Anchor: drawing.Middle})
	})
	number(g.Up, g.Up, pitch, func(i int) {
		p, q := at(0, i-1), at(0, i)
		y := (p.Y + q.Y) / 2
		b.ink(&drawing.Text{Text: fmt.Sprint(i), Height: small, At: drawing.Point{X: b.frame.Left - 2, Y: y + small/2}, Anchor: drawing.Right})
	})
}

// notchName names a notch within it if there is room, otherwise beside it.
func (d *draft) notchName(b *board, n cellNotch, c drawing.Point, wide, high float64) {
	text := fmt.Sprintf("%s, %d x %d", n.name, n.right-n.left, n.high-n.low)
	t := &drawing.Text{Text: text, Height: small, At: drawing.Point{X: c.X, Y: c.Y + small/2}, Anchor: drawing.Middle}
	if drawing.TextWidth(text, small)+3 < wide && high > 6 {
		b.sheet.Add(drawing.Rectangle(t.Bounds(), drawing.NoPen, drawing.Paper))
		b.ink(t)
		return
	}
	// Over the walls of cells words need white under them.
	at := len(b.sheet.Items)
	b.name(text, drawing.Point{X: c.X, Y: c.Y - high/2}, drawing.Point{X: c.X + wide/2, Y: c.Y}, drawing.Point{X: c.X - wide/2, Y: c.Y}, drawing.Point{X: c.X, Y: c.Y + high/2})
	for i := at; i < len(b.sheet.Items); i++ {
		if x, ok := b.sheet.Items[i].(*drawing.Text); ok {
			b.sheet.Items[i] = drawing.Rectangle(x.Bounds(), drawing.NoPen, drawing.Paper)
			b.sheet.Add(x)
			break
		}
	}
}

func (d *draft) cellNotes(g *layout.Grid, notches []cellNotch) []string {
	seen := map[string]string{
		"back":  "Seen from the front: columns count from the left, rows from the bottom.",
		"left":  "Seen from inside: columns count from the rear, here from the right, rows from the bottom.",
		"right": "Seen from inside: columns count from the rear, here from the left, rows from the bottom.",
		"floor": "Seen from above, the front below: columns count from the left, rows from the rear.",
	}[g.At]
	cut := 0
	for c := range g.Across {
		for r := range g.Up {
			if open(notches, c, r) {
				cut++
			}
		}
	}
	out := []string{
		fmt.Sprintf("%d x %d cells, pitch %s over ten cells: %s x %s. Cut along the heavy lines, on walls; what is shaded goes.", g.Across, g.Up, d.sized(10*g.Pitch), d.size(float64(g.Across)*g.Pitch), d.sized(float64(g.Up)*g.Pitch)),
		seen + fmt.Sprintf(" %d of %d cells stay.", g.Across*g.Up-cut, g.Across*g.Up),
	}
	cuts, round := g.Cuts()
	slots := ""
	if n := g.SlotCuts(); len(g.Slots) > 0 {
		cuts, slots = cuts-n, fmt.Sprintf(" %d for slots,", n)
	}
	out = append(out, fmt.Sprintf("Walls to snip: %d for notches,%s at most %d to take it out of its sheet.", cuts, slots, round))
	out = append(out, d.standOffNotes(g, notches)...)
	mirrored, downward := turned(g)
	for i := range notches {
		n := &notches[i]
		from, low := "left", "bottom"
		if mirrored {
			from = "rear"
		}
		if downward {
			low = "rear"
		}
		if n.slot != nil {
			out = append(out, d.slotNote(g, n, from, low))
			continue
		}
		out = append(out, fmt.Sprintf("Notch for %s: %d x %d cells, columns %d to %d from the %s, rows %d to %d from the %s.", n.name, n.right-n.left, n.high-n.low, n.left+1, n.right, from, n.low+1, n.high, low))
	}
	return out
}
