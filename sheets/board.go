package sheets

import (
	"rillwright/drawing"
)

// board is a sheet with one drawing to scale and notes under it. Its own coordinates
// are m, u to the right and v up, from the drawing's lower left corner.
type board struct {
	sheet      drawing.Sheet
	wide, high float64     // of what is drawn, m
	k          float64     // mm on paper for each m
	frame      drawing.Box // of what is drawn, on the sheet
	room       drawing.Box // for it, its dimensions and its labels
	placer
}

// around is the room that a drawing wants beside it, mm.
type around struct{ left, above, right, below float64 }

const notePad = 3.0

// board begins a sheet for a thing of a size, m, on paper laid so that it is drawn
// largest.
func (d *draft) board(group, title string, wide, high float64, a around, notes []string) *board {
	var best *board
	for _, p := range []drawing.Format{d.p.Paper, d.p.Paper.Turned()} {
		_, room := p.Framed(d.block(title, ""))
		lines := wrapped(small, room.Right-room.Left-2*notePad, notes...)
		if len(lines) > 0 {
			room.Bottom -= tall(len(lines), small) + notePad + 1
		}
		k, name := d.scale(wide, high, room.Right-room.Left-a.left-a.right, room.Bottom-room.Top-a.above-a.below)
		if best != nil && k <= best.k {
			continue
		}
		b := &board{wide: wide, high: high, k: k, room: room}
		b.sheet, _ = p.Framed(d.block(title, name))
		b.sheet.Group, b.sheet.Scale = group, k/1000
		if len(lines) > 0 {
			b.sheet.Add(drawing.Line(drawing.Point{X: room.Left, Y: room.Bottom}, drawing.Point{X: room.Right, Y: room.Bottom}, drawing.Thin))
			prose(&b.sheet, lines, small, room.Left+notePad, room.Bottom+2)
		}
		// In the middle of what the surroundings leave.
		x := (room.Left + a.left + room.Right - a.right - wide*k) / 2
		y := (room.Top + a.above + room.Bottom - a.below - high*k) / 2
		b.frame = drawing.Box{Left: x, Top: y, Right: x + wide*k, Bottom: y + high*k}
		best = b
	}
	best.placer.room = best.room.Grown(-1.5)
	return best
}

// at is a place of the drawing on the sheet.
func (b *board) at(u, v float64) drawing.Point {
	return drawing.Point{X: b.frame.Left + u*b.k, Y: b.frame.Bottom - v*b.k}
}

// ink draws items, which labels then keep clear of.
func (b *board) ink(items ...drawing.Item) {
	b.sheet.Add(items...)
	for _, i := range items {
		switch i := i.(type) {
		case *drawing.Text:
			b.texts = append(b.texts, i.Bounds())
		case *drawing.Path:
			line := i.Points
			if i.Closed {
				line = append(append([]drawing.Point(nil), line...), line[0])
			}
			b.lines = append(b.lines, line)
		case *drawing.Circle:
			r := i.Bounds()
			b.lines = append(b.lines, []drawing.Point{{X: r.Left, Y: r.Top}, {X: r.Right, Y: r.Top}, {X: r.Right, Y: r.Bottom}, {X: r.Left, Y: r.Bottom}, {X: r.Left, Y: r.Top}})
		}
	}
}

// rows draws dimensions, which labels then keep clear of.
func (b *board) rows(r drawing.Rows) {
	items, _ := r.Draw()
	b.ink(items...)
}

// name labels one of some places, with a leader if need be.
func (b *board) name(text string, at ...drawing.Point) {
	b.sheet.Add(b.place(drawing.Fit(text, small, widest), small, true, at)...)
}
