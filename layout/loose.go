package layout

import (
	"strings"

	"rillwright/geom"
)

// names reports whether words name something.
func names(words, name string) bool {
	return name != "" && strings.Contains(strings.ToLower(words), strings.ToLower(name))
}

// loose marks lamps and the centres of weight of wood and rock.
func (l *Layout) loose() {
	d := l.e.Design
	for i := range d.Lights {
		p := l.Inside.Centre()
		p.Z = l.Outside.Max.Z + lampAbove
		l.add(Part{
			Kind: KindLamp, Name: d.Lights[i].Name.Value, Field: "lights[" + d.Lights[i].Name.Value + "]", Line: d.Lights[i].Pos.Line, Solid: p,
			Assumed: []string{l.show(lampAbove) + " above the middle of the top, as a point: its size is not in the file"},
		})
	}
	for i := range d.Hardscape {
		h := &d.Hardscape[i]
		part := Part{Kind: KindHardscape, Name: h.Name.Value, Field: "hardscape[" + h.Name.Value + "]", Line: h.Pos.Line}
		if h.On.Value == "pool" {
			c := l.Pool.Box.Centre()
			c.Z = l.Pool.Box.Min.Z + float64(h.Up.Value)
			if !h.Up.Given() {
				c.Z = l.Pool.Box.Centre().Z
				part.Assumed = append(part.Assumed, "halfway up the pool")
			}
			if h.Left.Given() {
				c.X = l.Pool.Box.Min.X + float64(h.Left.Value)
			} else {
				part.Assumed = append(part.Assumed, "in the middle of the pool")
			}
			part.Solid = c
			l.add(part)
			continue
		}
		g, ok := l.gridBy(h.On.Value)
		if !ok {
			l.left(part.Name, part.Field, part.Line, "the panel it hangs on has no place")
			continue
		}
		part.Solid = g.hang(float64(h.Out.Value), float64(h.Up.Value), float64(h.Left.Value), h.Up.Given(), h.Left.Given())
		if !h.Out.Given() {
			part.Assumed = append(part.Assumed, "close to the panel's face")
		}
		if !h.Up.Given() {
			part.Assumed = append(part.Assumed, "halfway up the panel")
		}
		if !h.Left.Given() {
			part.Assumed = append(part.Assumed, "in the middle of the panel, left to right")
		}
		l.add(part)
	}
}

func (l *Layout) gridBy(name string) (*Grid, bool) {
	for i := range l.Grids {
		if l.Grids[i].Name == name {
			return &l.Grids[i], true
		}
	}
	return nil, false
}

// hang returns the place of something that hangs before the panel's face: out
// from it, up from its lower edge, left from its left end (for a side from its
// rear end); the middle for what is not given.
func (g *Grid) hang(out, up, left float64, hasUp, hasLeft bool) geom.Vec {
	c := g.Box.Centre()
	face := g.Box.Max.On(g.Face)
	if g.Out < 0 {
		face = g.Box.Min.On(g.Face)
	}
	c = c.With(g.Face, face+g.Out*out)
	along, high := geom.X, geom.Z
	if g.Face == geom.X {
		along = geom.Y
	}
	if g.Face == geom.Z {
		high = geom.Y
	}
	if hasLeft {
		c = c.With(along, g.Box.Min.On(along)+left)
	}
	if hasUp {
		c = c.With(high, g.Box.Min.On(high)+up)
	}
	return c
}
