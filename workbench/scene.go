package workbench

import (
	"rillwright/answers"
	"rillwright/geom"
	"rillwright/internal/wire"
	"rillwright/layout"
)

// scene is the enclosure in its place, for drawing: see package layout for the
// datum. m.
type scene struct {
	Inside  sceneBox    `json:"inside"`
	Outside sceneBox    `json:"outside"`
	Floor   float64     `json:"floor"`
	Parts   []scenePart `json:"parts"`
	Missing []string    `json:"missing"` // what the file does not place
}

// point is x, y, z.
type point [3]float64

type sceneBox struct {
	Min point `json:"min"`
	Max point `json:"max"`
}

// scenePart is one thing: a box, or what is round along a line of points, or a
// bare point, or a prism by the corners of its one end and then of its other.
type scenePart struct {
	Kind    string    `json:"kind"`
	Name    string    `json:"name"`
	Field   string    `json:"field"`
	Line    int       `json:"line"`
	At      string    `json:"at,omitempty"` // of a pane: front, door, left
	Box     *sceneBox `json:"box,omitempty"`
	Points  []point   `json:"points,omitempty"`
	Radius  float64   `json:"radius,omitempty"`
	Corners []point   `json:"corners,omitempty"`
	Assumed []string  `json:"assumed,omitempty"`
}

func at3(v geom.Vec) point { return point{wire.Round(v.X), wire.Round(v.Y), wire.Round(v.Z)} }

func boxOf(b geom.Box) sceneBox { return sceneBox{at3(b.Min), at3(b.Max)} }

func sceneOf(s *answers.Survey) *scene {
	l := layout.Of(s.E)
	out := &scene{Inside: boxOf(l.Inside), Outside: boxOf(l.Outside), Floor: wire.Round(l.Floor), Parts: []scenePart{}, Missing: []string{}}
	for i := range l.Parts {
		p := &l.Parts[i]
		q := scenePart{Kind: string(p.Kind), Name: p.Name, Field: p.Field, Line: p.Line, Assumed: p.Assumed}
		switch v := p.Solid.(type) {
		case geom.Box:
			b := boxOf(v)
			q.Box = &b
		case geom.Cylinder:
			q.Points, q.Radius = []point{at3(v.From), at3(v.To())}, wire.Round(v.Radius)
		case geom.Path:
			for _, x := range v.Points {
				q.Points = append(q.Points, at3(x))
			}
			q.Radius = wire.Round(v.Radius)
		case geom.Prism:
			for _, x := range v.Corners() {
				q.Corners = append(q.Corners, at3(x))
			}
		case geom.Vec:
			q.Points = []point{at3(v)}
		}
		out.Parts = append(out.Parts, q)
	}
	for i := range l.Panes {
		out.Parts[l.Panes[i].Part].At = l.Panes[i].At
	}
	for _, m := range l.Left {
		out.Missing = append(out.Missing, m.Name+": "+m.Say)
	}
	return out
}
