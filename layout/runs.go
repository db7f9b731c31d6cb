package layout

import (
	"math"

	"rillwright/enclosure"
	"rillwright/geom"
)

const (
	besides   = 0.05 // how far outside the glass a hose is led up, m: assumed, no source
	lampAbove = 0.10 // how far above the enclosure a lamp is marked, m: assumed, no source
)

// runs draws each run of the supply by a plain route: from its pump straight up
// over the sump's rim, up outside the pane that its opening is in, through that
// opening and on to where it ends. A run between two things inside goes straight.
func (l *Layout) runs() {
	for i := range l.e.Runs {
		u := &l.e.Runs[i]
		field := "runs[" + u.Name + "]"
		from, ok1 := l.end(u.From, u.FromAt)
		to, ok2 := l.end(u.To, u.At)
		if !ok1 || !ok2 {
			l.left(u.Name, field, u.Pos.Line, "one of its ends has no place")
			continue
		}
		line, assumed := []geom.Vec{from, to}, "straight from end to end"
		radius := runRadius(u)
		if u.From.Kind == enclosure.AtPump && u.To.Kind != enclosure.AtSump {
			var through bool
			if line, assumed, through = l.riser(u, from, to); through {
				l.add(Part{Kind: KindTail, Name: u.Name, Field: field, Line: u.Pos.Line, Solid: geom.Path{Points: line[len(line)-3:], Radius: radius}, Assumed: []string{"straight in from its opening and straight on to its end"}})
			}
		}
		l.add(Part{Kind: KindRun, Name: u.Name, Field: field, Line: u.Pos.Line, Solid: geom.Path{Points: line, Radius: radius}, Assumed: []string{assumed}})
	}
}

// runRadius is half the outside of the longest pipe or hose of a run, m.
func runRadius(u *enclosure.Run) float64 {
	long, radius := 0.0, 0.0
	for k := range u.Pieces {
		p := &u.Pieces[k]
		if p.Kind.HasLength() && p.Length > long {
			long, radius = p.Length, float64(p.Part.Outside)/2
			if radius == 0 {
				radius = p.Bore.Value/2 + pipeWall
			}
		}
	}
	return radius
}

// end returns where a run begins or ends. at is the distance along a manifold.
func (l *Layout) end(p enclosure.Place, at float64) (geom.Vec, bool) {
	switch p.Kind {
	case enclosure.AtManifold:
		m, ok := l.Find(KindManifold, p.Name)
		if !ok {
			return geom.Vec{}, false
		}
		c, ok := m.Solid.(geom.Cylinder)
		v := c.From
		if !math.IsNaN(at) { // else at its left end
			v.X += at
		}
		return v, ok
	case enclosure.AtPump:
		q, ok := l.Find(KindPump, p.Name)
		if !ok {
			return geom.Vec{}, false
		}
		v, ok := q.Solid.(geom.Vec)
		return v, ok
	case enclosure.AtPool:
		return l.Pool.Box.Centre(), true
	case enclosure.AtSump:
		if q, ok := l.Find(KindSump, "sump"); ok {
			return q.Solid.Bounds().Centre(), true
		}
	}
	return geom.Vec{}, false // a tee's height is in the file, its place is not
}

// riser returns the route of a run from a pump up to something in the enclosure.
func (l *Layout) riser(u *enclosure.Run, from, to geom.Vec) (line []geom.Vec, assumed string, through bool) {
	rim := from.Z
	if q, ok := l.Find(KindSump, "sump"); ok {
		rim = q.Solid.Bounds().Max.Z
	}
	way, pane, ok := l.wayOf(u)
	up := from
	up.Z = max(rim+besides, from.Z)
	if !ok {
		// Over the top at the back.
		top := l.Outside.Max.Z + besides
		back := l.Outside.Min.Y - besides
		return []geom.Vec{
			from, up, {X: to.X, Y: back, Z: up.Z}, {X: to.X, Y: back, Z: top}, {X: to.X, Y: to.Y, Z: top}, to,
		}, "straight up behind the back and over the top, since no opening names it", false
	}
	c := way.Solid.Bounds().Centre()
	a := pane.Across()
	out := c.With(a, pane.World(0, 0, -besides).On(a))
	low := out
	low.Z = up.Z
	in := c.With(a, to.On(a))
	return []geom.Vec{from, up, low, out, in, to}, "straight up outside the pane that its opening is in", true
}

// wayOf returns the opening that a run passes: the one with its name in what
// passes it, else the only one that a hose or pipe of it passes by name.
func (l *Layout) wayOf(u *enclosure.Run) (*Part, *Pane, bool) {
	list := l.e.Design.Enclosure.Ways
	for i := range list {
		w := &list[i]
		for k := range w.Passes {
			if q := &w.Passes[k]; names(q.What.Value, u.Name) || names(w.Name.Value, u.Name) {
				part, ok1 := l.Find(KindWay, w.Name.Value)
				pane, ok2 := l.paneBy(w.Pane.Value)
				if ok1 && ok2 {
					return part, pane, true
				}
			}
		}
	}
	return nil, nil, false
}
