package study

import (
	"math"

	"rillwright/enclosure"
	"rillwright/structure"
	"rillwright/structure/plate"
)

// Opening is a hole, a slot or a notch in a pane, as seen from outside.
type Opening struct {
	Name     string
	Drain    bool    // a drain's hole
	X, Y     float64 // centre from the pane's left and lower edge, m
	Diameter float64 // m, 0 if it has corners
	Width    float64 // m, if it has corners
	Height   float64
	Corner   float64 // radius of its corners, m
	Line     int
}

// openings finds what is cut into a pane.
func openings(e *enclosure.Enclosure, p *GlassPane, name string) {
	add := func(o Opening, in float64, edge string) {
		o.X = in
		if p.fromRight(edge) {
			o.X = p.Width - in
		}
		p.Openings = append(p.Openings, o)
	}
	for i := range e.Drains {
		d := &e.Drains[i]
		if h := &d.Hole; h.Given() && h.Pane.Value == name {
			add(Opening{Name: "hole of the " + d.Name, Drain: true, Y: float64(h.Up.Value), Diameter: float64(h.Size.Value), Line: h.Pos.Line}, float64(h.In.Value), h.Edge.Value)
		}
	}
	ways := e.Design.Enclosure.Ways
	for i := range ways {
		w := &ways[i]
		if w.Pane.Value == name {
			add(Opening{
				Name: w.Name.Value, Y: float64(w.Up.Value), Diameter: float64(w.Size.Value),
				Width: float64(w.Width.Value), Height: float64(w.Height.Value), Corner: float64(w.Corner.Value), Line: w.Pos.Line,
			}, float64(w.In.Value), w.Edge.Value)
		}
	}
}

// fromRight reports whether an edge that an opening is measured from is the right
// one as seen from outside. Of a pane at the back left and right are the
// enclosure's, as seen from its front.
func (p *GlassPane) fromRight(edge string) bool {
	switch edge {
	case "left":
		return p.At == "back"
	case "right":
		return p.At != "back"
	case "front":
		return p.At == "left" || p.At == "sides"
	case "rear":
		return p.At == "right"
	}
	return false
}

// tape is what no tape shows, m.
const tape = 1e-4

// Sharp reports whether an opening has corners that nobody has rounded.
func (o *Opening) Sharp() bool { return o.Diameter == 0 && !(o.Corner > 0) }

// size is the opening's larger side.
func (o *Opening) size() float64 { return max(o.Diameter, o.Width, o.Height) }

// cuts reports whether the opening is a notch, and how far it cuts in.
func (p *GlassPane) cuts(o *Opening) (depth float64, ok bool) {
	wide, high := max(o.Diameter, o.Width), max(o.Diameter, o.Height)
	switch {
	case o.Diameter > 0:
	case o.X-wide/2 < tape || o.X+wide/2 > p.Width-tape:
		return wide, true
	case o.Y-high/2 < tape || o.Y+high/2 > p.Height-tape:
		return high, true
	}
	return 0, false
}

// beside returns the largest stress beside an opening, Pa: from the stresses that
// the whole pane has at its centre and around its rim, the worst of which is taken,
// with the factors of a hole or corner in a wide pane and of the edge nearest to
// it, another opening counting as an edge half-way.
func (p *GlassPane) beside(r *plate.Result, i int, t, poisson float64) float64 {
	o := &p.Openings[i]
	wide, high := max(o.Diameter, o.Width), max(o.Diameter, o.Height)
	worst := 0.0
	for _, d := range [...][2]float64{{0, 0}, {0.5, 0}, {-0.5, 0}, {0, 0.5}, {0, -0.5}} {
		x, y := o.X+d[0]*wide, o.Y+d[1]*high
		if x < 0 || x > p.Width || y < 0 || y > p.Height {
			continue
		}
		for _, s := range faces(r.At(x, y), t) {
			if o.Diameter > 0 {
				worst = max(worst, structure.HoleStress(s[0], s[1], poisson, o.Diameter, t))
			} else {
				worst = max(worst, s[0])
			}
		}
	}
	depth, notch := p.cuts(o)
	if o.Diameter == 0 {
		if !notch {
			depth = o.size() / 2
		}
		worst = structure.CornerStress(worst, depth, o.Corner)
	}
	if notch {
		return worst
	}
	near := min(o.X, p.Width-o.X, o.Y, p.Height-o.Y)
	for k := range p.Openings {
		if q := &p.Openings[k]; k != i {
			gap := math.Hypot(q.X-o.X, q.Y-o.Y) - q.size()/2 - o.size()/2
			near = min(near, (o.size()+gap)/2)
		}
	}
	if near-o.size()/2 < tape { // it cuts the edge, or another opening
		return math.Inf(1)
	}
	return worst * structure.EdgeFactor(o.size(), near)
}

// faces returns the principal stresses of both faces, the larger first, Pa.
func faces(q plate.Point, t float64) [2][2]float64 {
	var out [2][2]float64
	for i, sign := range [...]float64{1, -1} {
		b := sign * 6 / (t * t)
		x, y, xy := q.Nx/t+b*q.Mx, q.Ny/t+b*q.My, q.Nxy/t+b*q.Mxy
		mean, half := (x+y)/2, math.Hypot((x-y)/2, xy)
		out[i] = [2]float64{mean + half, mean - half}
	}
	return out
}
