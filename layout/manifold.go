package layout

import (
	"fmt"

	"rillwright/geom"
)

// usualWall is the wall of a manifold's pipe that is drawn when neither file nor
// catalogue has one, m: assumed, no source.
const usualWall = 0.002

// manifolds places each drip manifold as a pipe along x at the height of its
// outlets, and each outlet on its middle line.
func (l *Layout) manifolds() {
	d := l.e.Design
	for i := range l.e.Manifolds {
		m := &l.e.Manifolds[i]
		part := Part{Kind: KindManifold, Name: m.Name, Field: "manifolds[" + m.Name + "]", Line: m.Pos.Line}
		wall := 0.0
		for k := range m.Groups {
			wall = max(wall, m.Groups[k].Wall)
		}
		if wall == 0 {
			wall = usualWall
			part.Assumed = append(part.Assumed, "with a wall of "+l.show(usualWall))
		}
		part.Assumed = append(part.Assumed, OnLine)
		radius := m.Bore.Value/2 + wall
		at := geom.Vec{Z: l.Z(m.Height)}
		left, out := 0.0, 0.0
		placed := false
		for k := range d.Manifolds {
			if q := &d.Manifolds[k]; q.Name.Value == m.Name {
				left, out = float64(q.Left.Value), float64(q.Out.Value)
				if !q.Left.Given() {
					left = middle(0, l.Inside.Max.X, m.Length)
					part.Assumed = append(part.Assumed, Middle)
				}
				placed = q.Out.Given()
			}
		}
		if !placed {
			out = l.wallFace() + 2*radius
			part.Assumed = append(part.Assumed, "just in front of the wall")
		}
		at.X, at.Y = left, out
		part.Solid = geom.Rod(at, geom.X, left, left+m.Length, radius)
		if m.Ring > 0 {
			part.Assumed = append(part.Assumed, "as a straight pipe, without its return leg")
		}
		l.add(part)
		for k := range m.Outlets {
			o := &m.Outlets[k]
			l.add(Part{
				Kind: KindOutlet, Name: OutletName(m.Name, k), Field: part.Field, Line: m.Groups[o.Group].Pos.Line,
				Solid: at.Add(geom.Vec{X: o.At}),
			})
		}
	}
}

// wallFace returns how far the planted wall's grid reaches from the back, m; 0 if
// there is none.
func (l *Layout) wallFace() float64 {
	y := 0.0
	for i := range l.Grids {
		if l.Grids[i].At == "back" {
			y = max(y, l.Grids[i].Box.Max.Y)
		}
	}
	return y
}

// OutletName is what an outlet of a manifold is called, counted from the left from 0.
func OutletName(manifold string, k int) string { return fmt.Sprintf("%s, outlet %d", manifold, k+1) }
