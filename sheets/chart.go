package sheets

import (
	"rillwright/drawing"
)

// Sizes of a plot's sheet, mm: half of A4 across. Words have capitals of 2.5 mm
// or more, the smallest height of ISO 3098 that is still read at arm's length
// (from memory).
const (
	plotWidth, plotHeight = 210.0, 148.0
	margin                = 8.0
	small, large          = 2.5, 3.5
	leading               = 5.2
	widest                = 80.0 // label in a plot
)

// chart is a plot being drawn: a frame with two axes, words about it.
type chart struct {
	sheet drawing.Sheet
	frame drawing.Box
	x, y  axis
	placer
}

// newChart begins a plot with its title, grid and axes. Names of axes have
// their units with them.
func newChart(title string, frame drawing.Box, x, y axis, xName, yName string) *chart {
	c := &chart{frame: frame, x: x, y: y}
	c.sheet = drawing.Sheet{Title: title, Width: plotWidth, Height: plotHeight}
	c.room = frame.Grown(-1)
	c.word(drawing.Fit(title, large, plotWidth-2*margin), large, drawing.Point{X: margin, Y: margin + large}, drawing.Left)
	for _, v := range x.ticks() {
		p := c.at(v, 0)
		c.rule(drawing.Point{X: p.X, Y: frame.Top}, drawing.Point{X: p.X, Y: frame.Bottom})
		c.sheet.Add(drawing.Line(drawing.Point{X: p.X, Y: frame.Bottom}, drawing.Point{X: p.X, Y: frame.Bottom + 1.2}, drawing.Thin))
		c.word(x.label(v), small, drawing.Point{X: p.X, Y: frame.Bottom + 5.5}, drawing.Middle)
	}
	for _, v := range y.ticks() {
		p := c.at(0, v)
		c.rule(drawing.Point{X: frame.Left, Y: p.Y}, drawing.Point{X: frame.Right, Y: p.Y})
		c.sheet.Add(drawing.Line(drawing.Point{X: frame.Left - 1.2, Y: p.Y}, drawing.Point{X: frame.Left, Y: p.Y}, drawing.Thin))
		c.word(y.label(v), small, drawing.Point{X: frame.Left - 2, Y: p.Y + small/2}, drawing.Right)
	}
	c.word(xName, small, drawing.Point{X: (frame.Left + frame.Right) / 2, Y: frame.Bottom + 10.8}, drawing.Middle)
	c.sheet.Add(&drawing.Text{
		Text: yName, Height: small, Anchor: drawing.Middle, Rotation: 90,
		At: drawing.Point{X: margin + 1.5, Y: (frame.Top + frame.Bottom) / 2},
	})
	return c
}

// at returns the place of a pair of figures on the sheet.
func (c *chart) at(x, y float64) drawing.Point {
	return drawing.Point{
		X: c.frame.Left + (x-c.x.min)/(c.x.max-c.x.min)*(c.frame.Right-c.frame.Left),
		Y: c.frame.Bottom - (y-c.y.min)/(c.y.max-c.y.min)*(c.frame.Bottom-c.frame.Top),
	}
}

// rule draws a line of the grid.
func (c *chart) rule(a, b drawing.Point) {
	c.sheet.Add(drawing.Line(a, b, drawing.Fade))
	c.grid = append(c.grid, []drawing.Point{a, b})
}

func (c *chart) word(text string, height float64, at drawing.Point, anchor drawing.Anchor) {
	t := &drawing.Text{Text: text, Height: height, At: at, Anchor: anchor}
	c.sheet.Add(t)
	c.texts = append(c.texts, t.Bounds())
}

// line draws what lies in the frame of a line through places on the sheet.
func (c *chart) line(points []drawing.Point, pen drawing.Pen) {
	for _, part := range drawing.ClipLine(points, c.frame) {
		c.sheet.Add(&drawing.Path{Points: part, Pen: pen})
		c.lines = append(c.lines, part)
	}
}

// between returns the area between two lines, within the frame.
func (c *chart) between(a, b []drawing.Point) []drawing.Point {
	polygon := append([]drawing.Point(nil), a...)
	for i := len(b) - 1; i >= 0; i-- {
		polygon = append(polygon, b[i])
	}
	return drawing.ClipArea(polygon, c.frame)
}

// border draws the frame over what was drawn in it.
func (c *chart) border() { c.sheet.Add(drawing.Rectangle(c.frame, drawing.Medium, drawing.NoFill)) }

// whisker draws a range as a bar with caps across its ends.
func (c *chart) whisker(a, b drawing.Point, foot float64) {
	ends := [2]drawing.Point{a, b}
	c.sheet.Add(drawing.Line(a, b, drawing.Medium))
	for _, e := range ends {
		if a.Y == b.Y {
			c.sheet.Add(drawing.Line(drawing.Point{X: e.X, Y: e.Y - foot}, drawing.Point{X: e.X, Y: e.Y + foot}, drawing.Medium))
		} else {
			c.sheet.Add(drawing.Line(drawing.Point{X: e.X - foot, Y: e.Y}, drawing.Point{X: e.X + foot, Y: e.Y}, drawing.Medium))
		}
	}
	c.lines = append(c.lines, ends[:])
}

// label names one of some places with words, where there is room.
func (c *chart) label(text string, at ...drawing.Point) {
	c.sheet.Add(c.place(drawing.Fit(text, small, widest), small, true, at)...)
}

// beside puts words by a line that leads to what they name.
func (c *chart) beside(text string, line ...drawing.Point) {
	c.sheet.Add(c.place(drawing.Fit(text, small, widest), small, false, line)...)
}

// caption writes paragraphs under the plot and makes them its description.
func (c *chart) caption(paragraphs ...string) {
	y := c.frame.Bottom + 17.5
	for _, p := range paragraphs {
		if p == "" {
			continue
		}
		if c.sheet.Description != "" {
			c.sheet.Description += " "
		}
		c.sheet.Description += p
		for _, l := range drawing.Wrap(p, small, plotWidth-2*margin) {
			// What does not fit is still in the description.
			if y > plotHeight-2 {
				return
			}
			c.word(l, small, drawing.Point{X: margin, Y: y}, drawing.Left)
			y += leading
		}
	}
}
