// Package drawing holds sheets of paper as lists of simple things in
// millimetres: lines, areas, circles and words. It knows neither what they mean
// nor any file format; packages below it write one format each.
//
// Distances are in mm from the sheet's top left corner, x to the right and y
// down. Angles are in degrees, counter-clockwise as seen. Later items lie over
// earlier ones.
package drawing

import (
	"fmt"
	"math"
)

// Point is a place on a sheet, mm.
type Point struct{ X, Y float64 }

// Box is an upright rectangle on a sheet, mm.
type Box struct{ Left, Top, Right, Bottom float64 }

// Sheet is one page.
type Sheet struct {
	Title, Description string // for people who cannot see the drawing too
	// Group is the heading that it goes under where sheets are bound together, ""
	// for none.
	Group string
	// Scale is how long on paper a length of what is drawn is: 0.2 for 1:5. 0 if the
	// sheet has none.
	Scale         float64
	Width, Height float64
	Items         []Item
}

// Item is one thing on a sheet: a Path, a Circle or a Text.
type Item interface {
	// Bounds returns the box that holds the item, half its line's width
	// included.
	Bounds() Box
	draw(Writer)
	check() error
}

// Writer takes the items of a sheet one by one. Each file format has one.
type Writer interface {
	Path(*Path)
	Circle(*Circle)
	Text(*Text)
}

// Path is a line through points, or with Closed an area bounded by them.
type Path struct {
	Points []Point
	Closed bool
	Pen    Pen
	Fill   Fill
	Arcs   []Arc // runs of the points that stand for arcs, in order and apart
}

// Arc tells that the points of a path from one to another, both included, lie on a
// circle in order, less than all the way round. A format that knows arcs writes one.
type Arc struct {
	From, To int
	Centre   Point
	Radius   float64
}

// Circle is a circle.
type Circle struct {
	Centre Point
	Radius float64
	Pen    Pen
	Fill   Fill
}

// Anchor is the part of a text that stands at its place.
type Anchor uint8

// The anchors.
const (
	Left Anchor = iota
	Middle
	Right
)

// Text is one line of words. Its place is on the baseline.
type Text struct {
	At       Point
	Text     string
	Height   float64 // of capitals, mm
	Anchor   Anchor
	Rotation float64 // about At
}

// Add puts items on the sheet, over those that are there.
func (s *Sheet) Add(items ...Item) { s.Items = append(s.Items, items...) }

// Draw gives every item to a writer, in order.
func (s *Sheet) Draw(w Writer) {
	for _, i := range s.Items {
		i.draw(w)
	}
}

// Check returns an error for what no writer could write: a size that is no
// size, a place that is no number, an unknown pen or fill, too few points.
func (s *Sheet) Check() error {
	if !(s.Width > 0 && s.Height > 0) || !finite(s.Width, s.Height) {
		return fmt.Errorf("a sheet of %g x %g mm", s.Width, s.Height)
	}
	for k, i := range s.Items {
		if err := i.check(); err != nil {
			return fmt.Errorf("item %d: %w", k+1, err)
		}
	}
	return nil
}

// Outside returns the items that reach over the sheet's edge.
func (s *Sheet) Outside() []Item {
	var out []Item
	for _, i := range s.Items {
		if b := i.Bounds(); b.Left < 0 || b.Top < 0 || b.Right > s.Width || b.Bottom > s.Height {
			out = append(out, i)
		}
	}
	return out
}

// Line returns the straight line between two points.
func Line(a, b Point, pen Pen) *Path { return &Path{Points: []Point{a, b}, Pen: pen} }

// Rectangle returns a box as an area.
func Rectangle(b Box, pen Pen, fill Fill) *Path {
	return &Path{
		Points: []Point{{b.Left, b.Top}, {b.Right, b.Top}, {b.Right, b.Bottom}, {b.Left, b.Bottom}},
		Closed: true, Pen: pen, Fill: fill,
	}
}

// Overlaps reports whether two boxes share more than an edge.
func (b Box) Overlaps(c Box) bool {
	return b.Left < c.Right && c.Left < b.Right && b.Top < c.Bottom && c.Top < b.Bottom
}

// Within reports whether b lies in c.
func (b Box) Within(c Box) bool {
	return b.Left >= c.Left && b.Right <= c.Right && b.Top >= c.Top && b.Bottom <= c.Bottom
}

// Grown returns b with a margin added on every side.
func (b Box) Grown(by float64) Box {
	return Box{b.Left - by, b.Top - by, b.Right + by, b.Bottom + by}
}

// BoundsOf returns the box that holds all of some points, an empty box at the
// origin for none.
func BoundsOf(points []Point) Box {
	if len(points) == 0 {
		return Box{}
	}
	b := Box{points[0].X, points[0].Y, points[0].X, points[0].Y}
	for _, p := range points[1:] {
		b.Left, b.Right = math.Min(b.Left, p.X), math.Max(b.Right, p.X)
		b.Top, b.Bottom = math.Min(b.Top, p.Y), math.Max(b.Bottom, p.Y)
	}
	return b
}

// Bounds implements Item. A sharp corner reaches a little farther than half the
// line's width; writers round corners, so none does.
func (p *Path) Bounds() Box { return BoundsOf(p.Points).Grown(p.Pen.Stroke().Width / 2) }

// Bounds implements Item.
func (c *Circle) Bounds() Box {
	return Box{c.Centre.X, c.Centre.Y, c.Centre.X, c.Centre.Y}.Grown(c.Radius + c.Pen.Stroke().Width/2)
}

func (p *Path) draw(w Writer)   { w.Path(p) }
func (c *Circle) draw(w Writer) { w.Circle(c) }
func (t *Text) draw(w Writer)   { w.Text(t) }

func (p *Path) check() error {
	if len(p.Points) < 2 || p.Closed && len(p.Points) < 3 {
		return fmt.Errorf("a path of %d points", len(p.Points))
	}
	for _, q := range p.Points {
		if !finite(q.X, q.Y) {
			return fmt.Errorf("a path through %g, %g", q.X, q.Y)
		}
	}
	next := 0
	for _, a := range p.Arcs {
		if a.From < next || a.To <= a.From || a.To >= len(p.Points) || !finite(a.Centre.X, a.Centre.Y, a.Radius) || a.Radius <= 0 {
			return fmt.Errorf("an arc from point %d to %d of %d, radius %g mm", a.From, a.To, len(p.Points), a.Radius)
		}
		next = a.To
	}
	if !p.Closed && p.Fill != NoFill {
		return fmt.Errorf("a fill on a path that is not closed")
	}
	return checkStyle(p.Pen, p.Fill)
}

func (c *Circle) check() error {
	if !finite(c.Centre.X, c.Centre.Y, c.Radius) || c.Radius <= 0 {
		return fmt.Errorf("a circle of %g mm about %g, %g", c.Radius, c.Centre.X, c.Centre.Y)
	}
	return checkStyle(c.Pen, c.Fill)
}

func (t *Text) check() error {
	if !finite(t.At.X, t.At.Y, t.Height, t.Rotation) || t.Height <= 0 || t.Anchor > Right {
		return fmt.Errorf("text %q of %g mm at %g, %g", t.Text, t.Height, t.At.X, t.At.Y)
	}
	return nil
}

func checkStyle(p Pen, f Fill) error {
	if p >= penCount || f >= fillCount {
		return fmt.Errorf("no such pen or fill: %d, %d", p, f)
	}
	return nil
}

func finite(v ...float64) bool {
	for _, x := range v {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}
