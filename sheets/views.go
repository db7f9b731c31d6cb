package sheets

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/answers"
	"rillwright/drawing"
	"rillwright/geom"
	"rillwright/layout"
)

const viewGroup = "Views"

// Views draws the enclosure from the front, cut through its middle with levels
// above the datum, and from above. Levels of water are the likely ones, running.
func Views(s *answers.Survey, p Print) []drawing.Sheet {
	d := newDraft(s.E, p)
	pool := d.l.Z(s.Likely.PoolLevel)
	return []drawing.Sheet{d.elevation(pool), d.section(s, pool), d.plan()}
}

// look is the direction of a view: which axes run along and up the sheet.
type look struct {
	u, v, depth  geom.Axis
	flipU, flipV bool
}

func fromFront() look { return look{u: geom.X, v: geom.Z, depth: geom.Y} }
func fromRight() look { return look{u: geom.Y, v: geom.Z, depth: geom.X, flipU: true} }
func fromAbove() look { return look{u: geom.X, v: geom.Y, depth: geom.Z, flipV: true} }

// view is a board that shows parts from one side.
type view struct {
	*board
	*draft
	look
	u0, v0 float64 // of the board's lower left corner, m, in turned axes
}

func turn(v float64, flip bool) float64 {
	if flip {
		return -v
	}
	return v
}

// on is a place on the sheet.
func (w *view) on(p geom.Vec) drawing.Point {
	return w.at(turn(p.On(w.u), w.flipU)-w.u0, turn(p.On(w.v), w.flipV)-w.v0)
}

// flat is what a solid covers on the sheet.
func (w *view) flat(s geom.Solid) drawing.Box {
	b := s.Bounds()
	p, q := w.on(b.Min), w.on(b.Max)
	return drawing.Box{Left: math.Min(p.X, q.X), Top: math.Min(p.Y, q.Y), Right: math.Max(p.X, q.X), Bottom: math.Max(p.Y, q.Y)}
}

// view begins a sheet on which some kinds of parts have room.
func (d *draft) view(title string, l look, a around, notes []string, kinds ...layout.Kind) *view {
	b := d.l.Outside
	for _, k := range kinds {
		for _, p := range d.l.All(k) {
			b = b.Union(p.Solid.Bounds())
		}
	}
	lo := func(a geom.Axis, flip bool) (float64, float64) {
		x, y := turn(b.Min.On(a), flip), turn(b.Max.On(a), flip)
		return math.Min(x, y), math.Max(x, y)
	}
	u0, u1 := lo(l.u, l.flipU)
	v0, v1 := lo(l.v, l.flipV)
	w := &view{draft: d, look: l, u0: u0, v0: v0}
	w.board = d.board(viewGroup, title, u1-u0, v1-v0, a, notes)
	w.lead = true
	w.sheet.Description = strings.Join(notes, " ")
	return w
}

// draw draws the parts of some kinds with a pen: round ones seen from their end as
// circles, paths by their two sides, all else as the box that it covers.
func (w *view) draw(pen drawing.Pen, fill drawing.Fill, kinds ...layout.Kind) {
	for _, k := range kinds {
		for _, p := range w.l.All(k) {
			w.solid(p.Solid, pen, fill)
		}
	}
}

func (w *view) solid(s geom.Solid, pen drawing.Pen, fill drawing.Fill) {
	switch s := s.(type) {
	case geom.Vec:
		w.ink(&drawing.Circle{Centre: w.on(s), Radius: 0.6, Fill: drawing.Solid})
	case geom.Cylinder:
		if s.Along == w.depth {
			w.ink(&drawing.Circle{Centre: w.on(s.From), Radius: math.Max(s.Radius*w.k, 0.3), Pen: pen, Fill: fill})
			return
		}
		w.box2(w.flat(s), pen, fill)
	case geom.Path:
		w.pipe(s, pen)
	case geom.Prism:
		// From its end it is its section, from any side the box that it covers.
		if s.Along != w.depth {
			w.box2(w.flat(s), pen, fill)
			return
		}
		at := make([]drawing.Point, len(s.Base))
		for i, v := range s.Base {
			at[i] = w.on(v)
		}
		w.ink(&drawing.Path{Points: at, Closed: true, Pen: pen, Fill: fill})
	default:
		w.box2(w.flat(s), pen, fill)
	}
}

// box2 draws a box, as a line if it has no breadth.
func (w *view) box2(b drawing.Box, pen drawing.Pen, fill drawing.Fill) {
	switch {
	case b.Right-b.Left < 0.05 && b.Bottom-b.Top < 0.05:
	case b.Right-b.Left < 0.05 || b.Bottom-b.Top < 0.05:
		w.ink(drawing.Line(drawing.Point{X: b.Left, Y: b.Top}, drawing.Point{X: b.Right, Y: b.Bottom}, pen))
	default:
		w.ink(drawing.Rectangle(b, pen, fill))
	}
}

// pipe draws a path's two sides and its ends, corners mitred.
func (w *view) pipe(p geom.Path, pen drawing.Pen) {
	var line []drawing.Point
	for _, q := range p.Points {
		if at := w.on(q); len(line) == 0 || math.Hypot(at.X-line[len(line)-1].X, at.Y-line[len(line)-1].Y) > 0.05 {
			line = append(line, at)
		}
	}
	r := p.Radius * w.k
	if len(line) == 1 {
		w.ink(&drawing.Circle{Centre: line[0], Radius: math.Max(r, 0.3), Pen: pen})
		return
	}
	if r < 0.5 { // two sides would print as one
		w.ink(&drawing.Path{Points: line, Pen: pen})
		return
	}
	side := func(sign float64) []drawing.Point {
		var out []drawing.Point
		for i, q := range line {
			var nx, ny float64
			for _, k := range []int{i - 1, i} {
				if k < 0 || k+1 >= len(line) {
					continue
				}
				dx, dy := line[k+1].X-line[k].X, line[k+1].Y-line[k].Y
				l := math.Hypot(dx, dy)
				nx, ny = nx-dy/l, ny+dx/l
			}
			// A mitre is longer than the radius, by no more than twice here.
			l := math.Hypot(nx, ny)
			if l < 0.1 {
				nx, ny, l = 0, 0, 1
			}
			stretch := 1.0
			if i > 0 && i+1 < len(line) {
				stretch = math.Min(2/l, 2)
			}
			out = append(out, drawing.Point{X: q.X + sign*r*nx/l*stretch, Y: q.Y + sign*r*ny/l*stretch})
		}
		return out
	}
	a, b := side(1), side(-1)
	slices.Reverse(b)
	w.ink(&drawing.Path{Points: append(a, b...), Closed: true, Pen: pen})
}

// water fills a box and draws its surface.
func (w *view) water(b geom.Box) {
	r := w.flat(b)
	if r.Right-r.Left < 0.1 || r.Bottom-r.Top < 0.1 {
		return
	}
	w.sheet.Add(drawing.Rectangle(r, drawing.NoPen, drawing.BandA))
	w.ink(drawing.Line(drawing.Point{X: r.Left, Y: r.Top}, drawing.Point{X: r.Right, Y: r.Top}, drawing.Thin))
	if r.Right-r.Left > 12 && w.v == geom.Z { // the mark of a water surface
		x, y := r.Right-6, r.Top
		w.sheet.Add(
			&drawing.Path{Points: []drawing.Point{{X: x, Y: y}, {X: x - 1.4, Y: y - 2.2}, {X: x + 1.4, Y: y - 2.2}}, Closed: true, Pen: drawing.Thin, Fill: drawing.Paper},
			drawing.Line(drawing.Point{X: x - 1.4, Y: y + 1}, drawing.Point{X: x + 1.4, Y: y + 1}, drawing.Fine),
			drawing.Line(drawing.Point{X: x - 0.7, Y: y + 1.8}, drawing.Point{X: x + 0.7, Y: y + 1.8}, drawing.Fine),
		)
	}
}

// callOut names the first part of a kind at its top, sides and bottom.
func (w *view) callOut(kind layout.Kind, text string) {
	seen := map[string]bool{}
	for _, p := range w.l.All(kind) {
		if seen[p.Name] {
			continue
		}
		seen[p.Name] = true
		say := p.Name
		if text != "" {
			say = text
		}
		if x, ok := p.Solid.(geom.Prism); ok && x.Along == w.depth {
			w.nameSides(say, x)
			continue
		}
		w.nameBox(say, w.flat(p.Solid))
	}
}

// nameSides names a prism seen from its end at the middle of one of its sides: the box
// round it may be far from where it is.
func (w *view) nameSides(text string, x geom.Prism) {
	var at []drawing.Point
	for i, v := range x.Base {
		at = append(at, w.on(v.Between(x.Base[(i+1)%len(x.Base)], 0.5)))
	}
	w.name(text, at[1:]...)
}

func (w *view) nameBox(text string, b drawing.Box) {
	mid := drawing.Point{X: (b.Left + b.Right) / 2, Y: (b.Top + b.Bottom) / 2}
	w.name(text,
		drawing.Point{X: b.Right, Y: b.Top + (b.Bottom-b.Top)/4}, drawing.Point{X: b.Left, Y: b.Top + (b.Bottom-b.Top)/4},
		drawing.Point{X: mid.X, Y: b.Top}, drawing.Point{X: mid.X, Y: b.Bottom}, drawing.Point{X: b.Right, Y: mid.Y}, drawing.Point{X: b.Left, Y: mid.Y})
}

// level is a height to be written beside a view, m above the datum.
type level struct {
	name string
	z    float64
}

// levels writes heights in a column at the right of a view, spread so that none
// runs into another, each with a line to its place.
func (w *view) levels(list []level) {
	slices.SortStableFunc(list, func(a, b level) int {
		switch {
		case a.z > b.z:
			return -1
		case a.z < b.z:
			return 1
		}
		return 0
	})
	// Those at one height share a line.
	var one []level
	for _, l := range list {
		if n := len(one); n > 0 && math.Abs(one[n-1].z-l.z) < 0.0005 {
			// Both may be middles: that is said once.
			one[n-1].name += ", " + strings.TrimPrefix(l.name, "middle of ")
			continue
		}
		one = append(one, l)
	}
	const step = 4.7
	want, sizes := make([]float64, len(one)), make([]float64, len(one))
	for i, l := range one {
		want[i], sizes[i] = w.at(0, l.z-w.v0).Y, step
	}
	y := spread(want, sizes, w.room.Top+4, w.room.Bottom-3)
	x := w.frame.Right + 3
	wide := w.room.Right - x - 11 - 2
	for i, l := range one {
		at := w.at(0, l.z-w.v0).Y
		w.sheet.Add(
			drawing.Line(drawing.Point{X: x, Y: at}, drawing.Point{X: x + 4, Y: at}, drawing.Thin),
			drawing.Line(drawing.Point{X: x + 4, Y: at}, drawing.Point{X: x + 9, Y: y[i]}, drawing.Fine),
		)
		sign := ""
		if w.size(l.z) != "0" && l.z > 0 {
			sign = "+"
		}
		t := sign + w.size(l.z) + "  " + l.name
		w.ink(&drawing.Text{Text: drawing.Fit(t, small, wide), Height: small, At: drawing.Point{X: x + 10, Y: y[i] + small/2}})
	}
}

// across adds dimensions below and up the left of a view: of the inside and the
// outside box along the view's axes.
func (w *view) across() {
	d := w.draft
	in, out := w.flat(d.l.Inside), w.flat(d.l.Outside)
	si, so := d.l.Inside.Size(), d.l.Outside.Size()
	below := drawing.Rows{First: w.frame.Bottom + 8, Outward: 1, Least: w.room.Left + 1, Most: w.room.Right - 1}
	below.Measures = []drawing.Measure{
		{From: in.Left, To: in.Right, Text: fmt.Sprintf("%s inside", d.size(si.On(w.u))), FromEdge: w.frame.Bottom, ToEdge: w.frame.Bottom},
		{From: out.Left, To: out.Right, Text: fmt.Sprintf("%s outside", d.size(so.On(w.u))), FromEdge: w.frame.Bottom, ToEdge: w.frame.Bottom},
	}
	if below.Measures[0].From == below.Measures[1].From && below.Measures[0].To == below.Measures[1].To {
		below.Measures = below.Measures[:1] // no panes: nothing to tell apart
	}
	w.rows(below)
	side := drawing.Rows{Upright: true, First: w.frame.Left - 5, Outward: -1, Least: w.room.Top + 1, Most: w.room.Bottom - 1}
	side.Measures = []drawing.Measure{
		{From: in.Top, To: in.Bottom, Text: fmt.Sprintf("%s inside", d.size(si.On(w.v))), FromEdge: w.frame.Left, ToEdge: w.frame.Left},
		{From: out.Top, To: out.Bottom, Text: fmt.Sprintf("%s outside", d.size(so.On(w.v))), FromEdge: w.frame.Left, ToEdge: w.frame.Left},
	}
	if side.Measures[0].From == side.Measures[1].From && side.Measures[0].To == side.Measures[1].To {
		side.Measures = side.Measures[:1]
	}
	w.rows(side)
}
