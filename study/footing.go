package study

import (
	"cmp"
	"math"
	"slices"

	"rillwright/enclosure"
	"rillwright/layout"
	"rillwright/structure"
)

// Footing is where everything stands on the room's floor.
type Footing struct {
	Feet []structure.Point // middle of each; none if it stands on its whole base
	// Outline is the convex line round all that touches the floor, corner by
	// corner.
	Outline []structure.Point
	Area    float64 // m2 of the base, left to right times front to back
	Foot    float64 // m2 under each foot, 0 if not known
	Floor   float64 // height of the room's floor, m, below 0
	Given   bool    // the file has a stand; else the enclosure's outside counts
}

// footing finds what touches the floor.
func footing(e *enclosure.Enclosure, l *layout.Layout) Footing {
	s := &e.Design.Stand
	f := Footing{Floor: l.Floor, Given: s.Given()}
	base := l.Outside
	if p := l.All(layout.KindStand); len(p) > 0 {
		base = p[0].Solid.Bounds()
	}
	size := base.Size()
	f.Area = size.X * size.Y
	var corners []structure.Point
	corner := func(x, y float64) {
		corners = append(corners, structure.Point{X: x, Y: y, Z: l.Floor})
	}
	box := func(x0, y0, x1, y1 float64) {
		corner(x0, y0)
		corner(x1, y0)
		corner(x1, y1)
		corner(x0, y1)
	}
	for _, p := range l.All(layout.KindFoot) {
		b := p.Solid.Bounds()
		c := b.Centre()
		f.Feet = append(f.Feet, structure.Point{X: c.X, Y: c.Y, Z: l.Floor})
		box(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)
	}
	if len(f.Feet) == 0 {
		box(base.Min.X, base.Min.Y, base.Max.X, base.Max.Y)
	}
	if side := float64(s.Foot.Value); s.Foot.Given() {
		f.Foot = math.Pi / 4 * side * side // round, the less of the two that the key may mean
	}
	f.Outline = hull(corners)
	return f
}

// hull returns the convex line round points, seen from above, without points that
// lie on it.
func hull(p []structure.Point) []structure.Point {
	slices.SortFunc(p, func(a, b structure.Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	half := func(p []structure.Point) []structure.Point {
		var out []structure.Point
		for _, c := range p {
			for n := len(out); n > 1 && cross(out[n-2], out[n-1], c) <= 0; n = len(out) {
				out = out[:n-1]
			}
			out = append(out, c)
		}
		return out[:max(len(out)-1, 0)]
	}
	lower := half(p)
	slices.Reverse(p)
	return append(lower, half(p)...)
}

// cross is positive if c lies to the left of the line from a to b, with X to the
// right and Y up on the paper.
func cross(a, b, c structure.Point) float64 {
	return (b.X-a.X)*(c.Y-a.Y) - (c.X-a.X)*(b.Y-a.Y)
}

// TipLine is one line about which it may tip.
type TipLine struct {
	Side     string // front, back, left, right, as seen from the front
	at       structure.Point
	OutX     float64 // unit vector outwards, level
	OutY     float64
	standing *Footing
}

// TipLines returns the lines about which it may tip.
func (f *Footing) TipLines() []TipLine {
	var out []TipLine
	for i, a := range f.Outline {
		b := f.Outline[(i+1)%len(f.Outline)]
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		if long < 1e-9 {
			continue
		}
		t := TipLine{at: a, OutX: (b.Y - a.Y) / long, OutY: -(b.X - a.X) / long, standing: f}
		switch {
		case math.Abs(t.OutY) >= math.Abs(t.OutX) && t.OutY > 0:
			t.Side = "front"
		case math.Abs(t.OutY) >= math.Abs(t.OutX):
			t.Side = "back"
		case t.OutX > 0:
			t.Side = "right"
		default:
			t.Side = "left"
		}
		out = append(out, t)
	}
	return out
}

// Beyond returns how far a place lies outside the line, m, below 0 inside it.
func (t TipLine) Beyond(p structure.Point) float64 {
	return (p.X-t.at.X)*t.OutX + (p.Y-t.at.Y)*t.OutY
}

// Standing returns how loads stand for tipping over the line. With open, doors
// stand open wide.
func (t TipLine) Standing(loads []Load, open bool) (structure.Standing, error) {
	parts := make([]structure.Part, 0, len(loads))
	var water []structure.FreeWater
	for i := range loads {
		l := &loads[i]
		c := l.Centre
		if open {
			c = structure.Point{X: c.X + l.Swing.X, Y: c.Y + l.Swing.Y, Z: c.Z + l.Swing.Z}
		}
		parts = append(parts, structure.Part{Name: l.Name, Mass: l.Mass, Centre: c})
		if l.Depth > 1e-6 {
			// In a direction between the two the box is taken as long as it reaches.
			length := math.Abs(t.OutX)*l.Across + math.Abs(t.OutY)*l.Deep
			water = append(water, structure.FreeWater{Length: length, Depth: l.Depth, Mass: l.Mass})
		}
	}
	all, err := structure.Assemble("all", parts...)
	if err != nil {
		return structure.Standing{}, err
	}
	return structure.Standing{Mass: all.Mass, Reach: -t.Beyond(all.Centre), Height: all.Centre.Z - t.standing.Floor, Water: water}, nil
}
