package layout

import (
	"strings"

	"rillwright/design"
	"rillwright/geom"
)

// usualGrid is the depth of lighting grid that is drawn when the file has none, m:
// common practice, 10 to 13 mm.
const usualGrid = 0.012

// Grid is a grid panel in its place.
type Grid struct {
	Name    string
	At      string // back, left, right or floor
	Index   int    // in the design's list
	Part    int    // index in Layout.Parts
	Box     geom.Box
	Pitch   float64
	Across  int       // cells along x, or along y for one at a side
	Up      int       // cells along z, or along y for one on the floor
	Notches []Cutout  // in the order of the file
	Slots   []Slot    // of braces that go through it: its own, then others'
	Face    geom.Axis // the axis that its depth lies along
	Out     float64   // +1 or -1: which way its face looks along that axis
}

// Cutout is a notch in a grid panel.
type Cutout struct {
	For  string
	Line int
	Box  geom.Box // through the whole depth of the panel
}

// grids places every panel.
func (l *Layout) grids() {
	list := l.e.Design.Grid
	for i := range list {
		l.grid(i, &list[i])
	}
}

// gridAt returns the face a panel stands before, read from its name if the file
// does not say.
func gridAt(g *design.GridPanel) (at string, assumed bool) {
	if g.At.Given() {
		return g.At.Value, false
	}
	name := strings.ToLower(g.Name.Value)
	for _, w := range []struct{ word, at string }{
		{"bottom", "floor"}, {"floor", "floor"}, {"left", "left"}, {"right", "right"}, {"back", "back"}, {"wall", "back"},
	} {
		if strings.Contains(name, w.word) {
			return w.at, true
		}
	}
	return "", false
}

func (l *Layout) grid(i int, p *design.GridPanel) {
	field := "grid[" + p.Name.Value + "]"
	at, guessed := gridAt(p)
	switch {
	case at == "":
		l.left(p.Name.Value, field, p.Pos.Line, field+".at")
		return
	case !p.Bottom.Given():
		l.left(p.Name.Value, field, p.Pos.Line, field+".bottom")
		return
	}
	var assumed []string
	if guessed {
		assumed = append(assumed, "at its place ("+at+") by its name")
	}
	thick := float64(p.Thick.Value)
	if !p.Thick.Given() {
		thick = usualGrid
		assumed = append(assumed, l.show(usualGrid)+" deep, as grid mostly is")
	}
	off := float64(p.StandOff.Value)
	if !p.StandOff.Given() {
		assumed = append(assumed, "close to the glass, with no gap behind it")
	}
	g := Grid{Name: p.Name.Value, At: at, Index: i, Part: len(l.Parts), Pitch: float64(p.Pitch.Value), Across: p.Across.Value, Up: p.Up.Value, Out: 1}
	across, up := float64(g.Across)*g.Pitch, float64(g.Up)*g.Pitch
	along := geom.X
	if at == "left" || at == "right" {
		along = geom.Y
	}
	begin := float64(p.Left.Value)
	if !p.Left.Given() {
		begin = middle(0, l.Inside.Max.On(along), across)
		assumed = append(assumed, [...]string{Middle, "in the middle, front to back"}[along])
	}
	z := float64(p.Bottom.Value)
	b := geom.Box{Min: geom.Vec{Z: z}, Max: geom.Vec{Z: z + up}}
	b.Min, b.Max = b.Min.With(along, begin), b.Max.With(along, begin+across)
	upAxis := geom.Z
	switch at {
	case "back":
		g.Face = geom.Y
		b.Min.Y, b.Max.Y = off, off+thick
	case "left":
		g.Face = geom.X
		b.Min.X, b.Max.X = off, off+thick
	case "right":
		g.Face, g.Out = geom.X, -1
		b.Max.X = l.Inside.Max.X - off
		b.Min.X = b.Max.X - thick
	default: // floor
		g.Face, upAxis = geom.Z, geom.Y
		b.Max.Z = z + thick
		b.Min.Y, b.Max.Y = off, off+up
	}
	g.Box = b
	for j := range p.Notches {
		n := &p.Notches[j]
		c := b
		a0, u0 := b.Min.On(along)+float64(n.Left.Value)*g.Pitch, b.Min.On(upAxis)+float64(n.Bottom.Value)*g.Pitch
		c.Min, c.Max = c.Min.With(along, a0), c.Max.With(along, a0+float64(n.Across.Value)*g.Pitch)
		c.Min, c.Max = c.Min.With(upAxis, u0), c.Max.With(upAxis, u0+float64(n.Up.Value)*g.Pitch)
		g.Notches = append(g.Notches, Cutout{For: n.For.Value, Line: n.Pos.Line, Box: c})
	}
	l.Grids = append(l.Grids, g)
	l.add(Part{Kind: KindGrid, Name: g.Name, Field: field, Line: p.Pos.Line, Solid: b, Assumed: assumed})
}

// Bars returns the boxes that the panel's notches and slots leave of it: it is cut
// into bands along its height at the ends of every one.
func (g *Grid) Bars() []geom.Box {
	left := []geom.Box{g.Box}
	cut := func(out geom.Box) {
		var next []geom.Box
		for _, b := range left {
			next = append(next, without(b, out)...)
		}
		left = next
	}
	for i := range g.Notches {
		cut(g.Notches[i].Box)
	}
	for i := range g.Slots {
		cut(g.Slots[i].Box)
	}
	return left
}

// without returns a box less another, as boxes that do not overlap.
func without(b, cut geom.Box) []geom.Box {
	m, ok := b.Meet(cut)
	if !ok || m.Volume() == 0 {
		return []geom.Box{b}
	}
	var out []geom.Box
	for _, a := range []geom.Axis{geom.X, geom.Y, geom.Z} {
		if m.Min.On(a) > b.Min.On(a) {
			c := b
			c.Max = c.Max.With(a, m.Min.On(a))
			out = append(out, c)
			b.Min = b.Min.With(a, m.Min.On(a))
		}
		if m.Max.On(a) < b.Max.On(a) {
			c := b
			c.Min = c.Min.With(a, m.Max.On(a))
			out = append(out, c)
			b.Max = b.Max.With(a, m.Max.On(a))
		}
	}
	return out
}
