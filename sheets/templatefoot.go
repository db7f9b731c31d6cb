package sheets

import (
	"rillwright/answers"
	"rillwright/drawing"
)

// foot draws what stands on every tile: the bars to check the print by, which way
// the sheet lies, and the notes. It returns what is left of the room.
func (t *template) foot(s *drawing.Sheet, room drawing.Box) drawing.Box {
	lines := wrapped(small, room.Right-room.Left-6, t.notes...)
	top := room.Bottom - templateBar
	s.Add(drawing.Line(drawing.Point{X: room.Left, Y: top}, drawing.Point{X: room.Right, Y: top}, drawing.Thin))
	x := room.Left + 4
	bar(s, x, top+9, 100, 10, "100 mm")
	bar(s, x, top+20, 4*25.4, 8, "4 in")
	t.facing(s, drawing.Box{Left: x + 108, Top: top, Right: room.Right, Bottom: room.Bottom})
	high := tall(len(lines), small) + 3.5
	prose(s, lines, small, room.Left+3, top-high+2)
	s.Add(drawing.Line(drawing.Point{X: room.Left, Y: top - high}, drawing.Point{X: room.Right, Y: top - high}, drawing.Thin))
	room.Bottom = top - high
	if len(t.boxed) > 0 {
		lines = wrapped(small, room.Right-room.Left-12, t.boxed...)
		high = tall(len(lines), small) + 7
		s.Add(drawing.Rectangle(drawing.Box{Left: room.Left + 3, Top: room.Bottom - high + 1.5, Right: room.Right - 3, Bottom: room.Bottom - 1.5}, drawing.Heavy, drawing.NoFill))
		prose(s, lines, small, room.Left+6, room.Bottom-high+3.5)
		room.Bottom -= high
	}
	return room
}

// boxedWords tells which rules an opening breaks with the builder's written consent.
func boxedWords(permit *answers.Permit, o *answers.Marked) []string {
	var out []string
	words := ""
	for _, r := range permit.Overridden {
		if r.Opening == o.Name {
			out, words = append(out, "RULE BROKEN. "+r.Why), r.Words
		}
	}
	if len(out) > 0 {
		out = append(out, "Overridden by the builder: "+words)
	}
	return out
}

// bar is a ruler of a length (mm) in parts, named over its end.
func bar(s *drawing.Sheet, x, y, long float64, parts int, name string) {
	const tick = 3.0
	s.Add(drawing.Line(drawing.Point{X: x, Y: y}, drawing.Point{X: x + long, Y: y}, drawing.Medium))
	for i := range parts + 1 {
		h := tick * 0.55
		if i == 0 || i == parts {
			h = tick
		}
		at := x + long*float64(i)/float64(parts)
		s.Add(drawing.Line(drawing.Point{X: at, Y: y - h}, drawing.Point{X: at, Y: y + h*0.6}, drawing.Medium))
	}
	s.Add(&drawing.Text{Text: name, Height: small, At: drawing.Point{X: x + long/2, Y: y - 2.6}, Anchor: drawing.Middle})
}

// facing draws the glass on edge with this sheet on it and an arrow to the inside,
// and an arrow to the pane's top.
func (t *template) facing(s *drawing.Sheet, room drawing.Box) {
	y := (room.Top + room.Bottom) / 2
	glass := drawing.Box{Left: room.Left + 29, Top: room.Top + 3, Right: room.Left + 32.5, Bottom: room.Bottom - 8.5}
	s.Add(drawing.Rectangle(glass, drawing.Medium, drawing.NoFill))
	s.Add(drawing.Hatch([]drawing.Point{{X: glass.Left, Y: glass.Top}, {X: glass.Right, Y: glass.Top}, {X: glass.Right, Y: glass.Bottom}, {X: glass.Left, Y: glass.Bottom}}, 45, 1.6, drawing.Fine)...)
	paper := glass.Left - 1.6
	s.Add(drawing.Line(drawing.Point{X: paper, Y: glass.Top}, drawing.Point{X: paper, Y: glass.Bottom}, drawing.Dashed))
	s.Add(&drawing.Text{Text: "pane on edge", Height: small, At: drawing.Point{X: (glass.Left + glass.Right) / 2, Y: room.Bottom - 2.4}, Anchor: drawing.Middle})
	word := func(text string, x, y float64, a drawing.Anchor) {
		s.Add(&drawing.Text{Text: text, Height: small, At: drawing.Point{X: x, Y: y}, Anchor: a})
	}
	mid := y - 2.5
	if t.pane.At == "bottom" { // the sheet lies on the inside face
		word("sheet", paper-2, glass.Top+small+0.5, drawing.Right)
		s.Add(drawing.Arrow(drawing.Point{X: paper - 2, Y: mid}, drawing.Point{X: paper - 14, Y: mid}, drawing.Thick)...)
		word("inside", paper-3, mid+5, drawing.Right)
	} else {
		word("this sheet", paper-2, mid+small/2, drawing.Right)
		s.Add(drawing.Arrow(drawing.Point{X: glass.Right + 1.5, Y: mid - 1}, drawing.Point{X: glass.Right + 13, Y: mid - 1}, drawing.Thick)...)
		word("inside", glass.Right+2, mid+4.5, drawing.Left)
	}
	up := glass.Right + 26
	word(map[bool]string{true: "rear", false: "top"}[t.pane.Lies()], up, room.Bottom-2.4, drawing.Middle)
	s.Add(drawing.Arrow(drawing.Point{X: up, Y: glass.Bottom}, drawing.Point{X: up, Y: glass.Top}, drawing.Thick)...)
}
