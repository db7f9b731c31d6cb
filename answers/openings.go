package answers

import (
	"math"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/geom"
	"rillwright/layout"
	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/study"
)

// usualFillet is the leg of a sealant fillet in a corner, m, where the file does
// not give sealant.fillet, and how far it may well be off: assumed, no source.
const (
	usualFillet = 0.006
	leastFillet = 0.003
	mostFillet  = 0.012
)

// opening is one hole or way in a pane, in its place.
type opening struct {
	name  string
	line  int
	pane  *design.Pane
	drain int // index of its drain, -1 for none
	way   int // index of its way, -1 for none
	// place is nil if the pane has none; at is then not known.
	place *layout.Pane
	at    geom.Vec
	// x and y are its centre from the pane's lower left corner, m, w and h its size.
	x, y, w, h, corner float64
	round              bool
	edged              bool    // the file says which edge it counts from
	flange             float64 // of its fitting, m; 0 for none
	flangeTaken        bool    // not known, taken as a share of the hole
}

// openings are all that are drawn in panes that the file lists, drains first.
type openings struct {
	e           *enclosure.Enclosure
	l           *layout.Layout
	taken       layout.Taken
	list        []opening
	fillet      float64
	filletTaken bool
}

func openingsOf(e *enclosure.Enclosure, l *layout.Layout) *openings {
	s := &openings{e: e, l: l, taken: layout.Usual(), fillet: float64(e.Design.Sealant.Fillet.Value)}
	if !e.Design.Sealant.Fillet.Given() {
		s.fillet, s.filletTaken = usualFillet, true
	}
	for i := range e.Drains {
		d := &e.Drains[i]
		size := float64(d.Hole.Size.Value)
		o := opening{
			name: d.Name, line: d.Hole.Pos.Line, drain: i, way: -1, w: size, h: size, corner: size / 2, round: true,
			x: float64(d.Hole.In.Value), y: float64(d.Hole.Up.Value), edged: d.Hole.Edge.Given(), flange: float64(d.Part.Flange),
		}
		if o.flange == 0 {
			o.flange, o.flangeTaken = size*s.taken.FlangeShare, true
		}
		s.add(o, d.Hole.Pane.Value, layout.KindHole)
	}
	for i := range e.Ways {
		w := &e.Ways[i]
		o := opening{
			name: w.Name, line: w.Design.Pos.Line, drain: -1, way: i, w: w.Width, h: w.Height, corner: w.Corner, round: w.Round,
			x: float64(w.Design.In.Value), y: float64(w.Design.Up.Value), edged: w.Design.Edge.Given(),
		}
		if w.Round {
			o.corner = w.Width / 2
		}
		s.add(o, w.Pane, layout.KindWay)
	}
	return s
}

// add puts an opening in its place, if its pane is listed.
func (s *openings) add(o opening, pane string, kind layout.Kind) {
	if o.pane = paneNamed(s.e, pane); o.pane == nil || o.w <= 0 || o.h <= 0 {
		return
	}
	part, ok := s.l.Find(kind, o.name)
	for i := range s.l.Panes {
		if p := &s.l.Panes[i]; ok && p.Name == pane {
			o.place = p
			centre := part.Solid.Bounds().Centre()
			o.x, o.y, _ = p.Local(centre)
			o.at = p.World(o.x, o.y, p.Thick)
			break
		}
	}
	s.list = append(s.list, o)
}

// paneNamed returns the pane of a name, nil if the file lists none.
func paneNamed(e *enclosure.Enclosure, name string) *design.Pane {
	panes := e.Design.Enclosure.Panes
	for i := range panes {
		if panes[i].Name.Value == name {
			return &panes[i]
		}
	}
	return nil
}

// moved returns an opening elsewhere on its pane, by so much along it and up, m.
func (o opening) moved(dx, dy float64) opening {
	o.x, o.y = o.x+dx, o.y+dy
	if o.place != nil {
		o.at = o.place.World(o.x, o.y, o.place.Thick)
	}
	return o
}

// sheet is the opening's pane, as thick as it may well be: the rules go by
// thickness.
func (o *opening) sheet(side int) structure.Sheet {
	t, _ := study.PaneThickness(o.pane.Thickness)
	thick := t.At(side)
	if side > 0 {
		thick = math.Max(thick, float64(o.pane.Thickness.Value)) // glaziers go by the name
	}
	return structure.Sheet{Width: float64(o.pane.Width.Value), Height: float64(o.pane.Height.Value), Thickness: thick}
}

// across is half of an opening's size in every direction.
func (o *opening) across() float64 {
	if o.round {
		return o.w / 2
	}
	return math.Hypot(o.w, o.h) / 2
}

// apart is how far the rims of two openings of a pane are from each other, m;
// below 0 they run into one another. If it is not said which edge one of them
// counts from, it is the nearer of both ways.
func (o *opening) apart(p *opening) float64 {
	gap := rimGap(o, p)
	if !o.edged || !p.edged {
		q := *p
		q.x = float64(p.pane.Width.Value) - p.x
		gap = math.Min(gap, rimGap(o, &q))
	}
	return gap
}

// rimGap takes openings as boxes with wholly rounded corners: round ones are
// boxes of no size with the radius as corner.
func rimGap(a, b *opening) float64 {
	dx := math.Abs(a.x-b.x) - (a.w+b.w)/2 + a.corner + b.corner
	dy := math.Abs(a.y-b.y) - (a.h+b.h)/2 + a.corner + b.corner
	if dx < 0 && dy < 0 {
		return math.Max(dx, dy) - a.corner - b.corner
	}
	return math.Hypot(math.Max(dx, 0), math.Max(dy, 0)) - a.corner - b.corner
}

// fits shows a length.
func lengthText(v float64, sys quantity.System) string { return quantity.Length(v).Show(sys) }
