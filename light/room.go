package light

import (
	"fmt"

	"rillwright/geom"
)

// Room is a box that light bounces in: back, sides, front, floor and lid.
type Room struct {
	Box geom.Box
	// Reflect is what share of light its faces throw back, by the face's
	// coordinate: least and largest x, least and largest y, least and largest z. A
	// clear pane throws back some 0.08, planted walls 0.1 to 0.2, a white film 0.85
	// (from memory).
	Reflect [6]float64
}

// Side is a face of a Room.
type Side int

// The faces in the order of Room.Reflect.
const (
	LeastX Side = iota
	MostX
	LeastY
	MostY
	LeastZ
	MostZ
)

// axes are the coordinates of a face: across it, and along its two sides.
func (s Side) axes() (across, u, v geom.Axis) {
	switch s / 2 {
	case 0:
		return geom.X, geom.Y, geom.Z
	case 1:
		return geom.Y, geom.Z, geom.X
	}
	return geom.Z, geom.X, geom.Y
}

// Inward returns the unit vector across a face of the room, into it.
func (s Side) Inward() geom.Vec {
	across, _, _ := s.axes()
	if s%2 == 0 {
		return geom.Vec{}.With(across, 1)
	}
	return geom.Vec{}.With(across, -1)
}

// Face returns a face of the room.
func (r *Room) Face(s Side) Quad {
	across, u, v := s.axes()
	corner, size := r.Box.Min, r.Box.Size()
	if s%2 == 1 {
		corner = corner.With(across, r.Box.Max.On(across))
	}
	return Quad{corner, geom.Vec{}.With(u, size.On(u)), geom.Vec{}.With(v, size.On(v))}
}

// Check returns what is wrong, nil if nothing.
func (r *Room) Check() error {
	if s := r.Box.Size(); !(s.X > 0 && s.Y > 0 && s.Z > 0) {
		return fmt.Errorf("light: room of %g by %g by %g m", s.X, s.Y, s.Z)
	}
	for i, x := range r.Reflect {
		if !(x >= 0 && x <= 0.98) {
			return fmt.Errorf("light: face %d throws back %g of the light, want 0 to 0.98", i+1, x)
		}
	}
	return nil
}

// patch is a piece of a face.
type patch struct {
	quad   Quad
	side   Side
	u, v   span
	at     float64 // of its face on the axis across
	middle geom.Vec
	area   float64
	glow   float64 // what it throws back, umol/(m2 s)
}

// patches cuts all faces into m by m pieces.
func (r *Room) patches(m int) []patch {
	out := make([]patch, 0, 6*m*m)
	for s := LeastX; s <= MostZ; s++ {
		across, u, v := s.axes()
		q := r.Face(s)
		du, dv := q.U.Times(1/float64(m)), q.V.Times(1/float64(m))
		for i := range m {
			for j := range m {
				p := patch{quad: Quad{q.At(float64(i)/float64(m), float64(j)/float64(m)), du, dv}, side: s}
				p.at = q.Corner.On(across)
				p.u = span{p.quad.Corner.On(u), p.quad.At(1, 1).On(u)}
				p.v = span{p.quad.Corner.On(v), p.quad.At(1, 1).On(v)}
				p.middle, p.area = p.quad.At(0.5, 0.5), p.quad.Area()
				out = append(out, p)
			}
		}
	}
	return out
}

// along returns the stretch of a patch on an axis that is not the one across it.
func (p *patch) along(a geom.Axis) span {
	if _, u, _ := p.side.axes(); a == u {
		return p.u
	}
	return p.v
}

// exchange returns area times view factor between two patches of a room, m2.
func exchange(p, q *patch) float64 {
	across, u, v := p.side.axes()
	other, _, _ := q.side.axes()
	if p.side == q.side {
		return 0
	}
	if across == other {
		d := p.at - q.at
		if d < 0 {
			d = -d
		}
		return parallel(p.u, p.v, q.along(u), q.along(v), d)
	}
	// The planes meet in a line along the axis that neither lies across.
	common := u
	if other == u {
		common = v
	}
	from := func(s span, edge float64) span {
		a, b := s.from-edge, s.to-edge
		if a+b < 0 {
			a, b = -b, -a
		}
		return span{a, b}
	}
	return square(from(p.along(other), q.at), p.along(common), from(q.along(across), p.at), q.along(common))
}

// factors returns the view factors between patches, row by row.
func factors(ps []patch) []float64 {
	n := len(ps)
	f := make([]float64, n*n)
	for i := range ps {
		for j := range i {
			a := max(0, exchange(&ps[i], &ps[j]))
			f[i*n+j], f[j*n+i] = a/ps[i].area, a/ps[j].area
		}
	}
	return f
}
