package sheets

import (
	"fmt"
	"slices"
	"time"

	"rillwright/drawing"
	"rillwright/works"
)

// Half heights of bars, mm, and the least width of one.
const (
	barHalf, boldHalf = 1.3, 2.0
	leastBar          = 1.2
)

// barsOf is a page being drawn: x of a minute, rows downwards.
type barsOf struct {
	s           *drawing.Sheet
	left, right float64
	from        int // minute at the left
	k           float64
}

func (b *barsOf) x(minute int) float64 {
	return min(max(b.left+float64(minute-b.from)*b.k, b.left), b.right)
}

// draw draws the pages on paper.
func (c *workChart) draw(f drawing.Format, pages []chartPage) []drawing.Sheet {
	var out []drawing.Sheet
	const name = "Chart of the plan"
	for n, p := range pages {
		title := name
		if len(pages) > 1 {
			title = fmt.Sprintf("%s, %d of %d", name, n+1, len(pages))
		}
		s, _ := f.Framed(c.d.block(title, ""))
		s.Group, s.Description = workGroup, c.said(p)
		c.page(&s, c.room(f), p)
		out = append(out, s)
	}
	return out
}

func (c *workChart) page(s *drawing.Sheet, room drawing.Box, p chartPage) {
	b := &barsOf{s: s, left: room.Left + chartNames, right: room.Right, from: p.from * dayMinutes}
	b.k = (b.right - b.left) / float64(p.days*dayMinutes)
	title := drawing.Fit(c.end(), chartTitle, room.Right-room.Left)
	y := prose(s, []string{title}, chartTitle, room.Left, room.Top) + 2
	foot := y + 6 + lineOf*small*float64(len(c.marks(p)))
	top := foot
	for _, i := range p.rows {
		foot += c.rowHeight(i)
	}
	dates := b.weeks(p, top, foot)
	y = top
	for _, i := range p.rows {
		h := c.rowHeight(i)
		prose(s, c.names[i], chartText, room.Left+3, y+0.7)
		if c.lines[i].Sets {
			s.Add(drawing.Line(drawing.Point{X: room.Left + 1, Y: y + 0.8}, drawing.Point{X: room.Left + 1, Y: y + h - 0.8}, drawing.Heavy))
		}
		b.bar(&c.lines[i], y+h/2)
		y += h
		s.Add(drawing.Line(drawing.Point{X: room.Left, Y: y}, drawing.Point{X: b.right, Y: y}, drawing.Fade))
	}
	b.marks(c.marks(p), dates, top, foot)
	s.Add(drawing.Rectangle(drawing.Box{Left: b.left, Top: top, Right: b.right, Bottom: foot}, drawing.Medium, drawing.NoFill))
	c.signs(s, room, foot+5)
}

// weeks draws a line for each Monday and its date over the rows, every date where
// there is room, else every second, third or later one. It returns where dates stand.
func (b *barsOf) weeks(p chartPage, top, foot float64) []drawing.Box {
	var dates []drawing.Box
	week := weekDays * dayMinutes * b.k
	every := 1
	for float64(every)*week < drawing.TextWidth("Mon 30 Mar", small)+1 {
		every++
	}
	for i := 0; i*weekDays < p.days; i++ {
		at := b.from + i*weekDays*dayMinutes
		x := b.x(at)
		if i > 0 {
			b.s.Add(drawing.Line(drawing.Point{X: x, Y: top}, drawing.Point{X: x, Y: foot}, drawing.Fade))
		}
		if i%every > 0 || x+drawing.TextWidth("Mon 30 Mar", small) > b.right {
			continue
		}
		t := &drawing.Text{Text: time.Unix(60*int64(at), 0).UTC().Format("Mon 2 Jan"), Height: small, At: drawing.Point{X: x + 0.4, Y: top - 1.6}}
		b.s.Add(t)
		dates = append(dates, t.Bounds())
	}
	// Days as ticks at the edge, so that a bar's day can be counted.
	for d := range p.days {
		x := b.x(b.from + d*dayMinutes)
		b.s.Add(drawing.Line(drawing.Point{X: x, Y: top}, drawing.Point{X: x, Y: top + 0.9}, drawing.Fine))
	}
	return dates
}

// bar draws one step about a height.
func (b *barsOf) bar(l *works.Line, y float64) {
	half, outline := barHalf, drawing.Thin
	if l.Sets {
		half, outline = boldHalf, drawing.Thick
	}
	to := b.from + int((b.right-b.left)/b.k+0.5)
	start, end, finish, slips := int(l.Start), int(l.End), int(l.Finish), int(l.Finish+l.Slack)
	stands := end
	if l.Comes { // nobody works on it
		stands = start
	}
	if finish > stands && stands < to && finish > b.from {
		box := drawing.Box{Left: b.x(stands), Top: y - half, Right: b.x(finish), Bottom: y + half}
		if box.Right-box.Left > 0.2 {
			b.s.Add(drawing.Hatch([]drawing.Point{{X: box.Left, Y: box.Top}, {X: box.Right, Y: box.Top}, {X: box.Right, Y: box.Bottom}, {X: box.Left, Y: box.Bottom}}, 45, 1.2, drawing.Fine)...)
			b.s.Add(drawing.Rectangle(box, outline, drawing.NoFill))
		}
	}
	if !l.Done && slips > finish && finish < to && slips > b.from {
		x := b.x(slips)
		b.s.Add(drawing.Line(drawing.Point{X: b.x(finish), Y: y}, drawing.Point{X: x, Y: y}, drawing.Thin))
		if slips <= to {
			b.s.Add(drawing.Line(drawing.Point{X: x, Y: y - 1}, drawing.Point{X: x, Y: y + 1}, drawing.Thin))
		}
	}
	if l.Comes {
		return
	}
	if start < to && end > b.from && len(l.Pieces) > 1 {
		b.s.Add(drawing.Line(drawing.Point{X: b.x(start), Y: y}, drawing.Point{X: b.x(end), Y: y}, drawing.Medium))
	}
	for _, piece := range l.Pieces {
		if int(piece.From) >= to || int(piece.To) <= b.from {
			continue
		}
		left, right := b.x(int(piece.From)), b.x(int(piece.To))
		right = min(max(right, left+leastBar), b.right)
		b.s.Add(drawing.Rectangle(drawing.Box{Left: min(left, right-leastBar), Top: y - half, Right: right, Bottom: y + half}, drawing.Thin, fillOf(l)))
	}
}

// marks draws lines across all rows, each one's words over the dates at a height of
// their own, on the side on which there is room. A line is broken where a date stands.
func (b *barsOf) marks(list []chartMark, dates []drawing.Box, top, foot float64) {
	y := top - 6
	for i := len(list) - 1; i >= 0; i-- {
		m := &list[i]
		x := b.x(m.minute)
		say := drawing.Fit(m.say, small, max(b.right-x, x-b.left+chartNames)-1)
		t := &drawing.Text{Text: say, Height: small, At: drawing.Point{X: x + 1, Y: y}}
		if x+1+drawing.TextWidth(say, small) > b.right {
			t.Anchor, t.At.X = drawing.Right, x-1
		}
		from, begin := y-small, y-small
		for _, d := range dates {
			if x > d.Left-0.5 && x < d.Right+0.5 {
				b.s.Add(drawing.Line(drawing.Point{X: x, Y: from}, drawing.Point{X: x, Y: d.Top}, m.pen))
				begin = top
			}
		}
		b.s.Add(drawing.Line(drawing.Point{X: x, Y: begin}, drawing.Point{X: x, Y: foot}, m.pen), t)
		y -= lineOf * small
	}
}

// signs draws what the signs of the chart mean.
func (c *workChart) signs(s *drawing.Sheet, room drawing.Box, y float64) {
	const long = 8.0
	b := &barsOf{s: s, k: 1}
	x := room.Left
	sign := func(say string, l works.Line) {
		wide := long + 8 + drawing.TextWidth(say, small)
		if x+wide > room.Right {
			x, y = room.Left, y+5.5
		}
		b.left, b.right = x, x+long
		b.bar(&l, y)
		if l.End > 0 {
			s.Add(drawing.Rectangle(drawing.Box{Left: x, Top: y - barHalf, Right: x + long, Bottom: y + barHalf}, drawing.Thin, fillOf(&l)))
		}
		s.Add(&drawing.Text{Text: say, Height: small, At: drawing.Point{X: x + long + 2, Y: y + small/2}})
		x += wide
	}
	sign("hands-on", works.Line{End: long, Finish: long})
	if slices.ContainsFunc(c.lines, func(l works.Line) bool { return l.Done }) {
		sign("done", works.Line{End: long, Finish: long, Done: true})
	}
	sign("stands: cures, dries, waits", works.Line{Finish: long})
	sign("may slip so far", works.Line{Slack: long})
	sign("sets the end", works.Line{Finish: long, Sets: true})
}

// fillOf is how the work of a step is filled.
func fillOf(l *works.Line) drawing.Fill {
	if l.Done {
		return drawing.Mid
	}
	return drawing.Solid
}
