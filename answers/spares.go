package answers

import (
	"math"

	"rillwright/geom"
	"rillwright/quantity"
	"rillwright/structure"
)

// spareKind tells what is wrong if a distance is not kept.
type spareKind int

const (
	glaziers spareKind = iota // the glass may crack: no
	hobby                     // nearer than some have it
	fouls                     // it does not go together
	hand                      // it goes together, but there is no room to turn it
)

// spare is one distance from an opening to something else.
type spare struct {
	what, rule string
	have, need float64 // m
	most       bool    // have may be at most need
	kind       spareKind
	line       int  // of what stands there, 0 for none
	size       bool // a size, not a distance
	other      bool // to another opening of the pane
}

// left is by how much the distance is kept, m, below 0 by how much it is not.
func (s *spare) left() float64 {
	if s.most {
		return s.need - s.have
	}
	return s.have - s.need
}

// kept allows for a hundredth of a millimetre, which no tape shows.
func (s *spare) kept() bool { return s.left() > -1e-5 }

func (s *spare) name() string {
	if s.rule == "" {
		return s.what
	}
	return s.what + ", " + s.rule + " rule"
}

// text shows a distance and what is wanted.
func (s *spare) text(show func(float64) string) string {
	switch {
	case s.most:
		return show(s.have) + ", at most " + show(s.need)
	case s.need == 0:
		return show(s.have)
	}
	return show(s.have) + ", wants " + show(s.need)
}

// figure is the distance with what it is held against.
func (s *spare) figure(of *Survey) Figure {
	f := figure(s.name(), quantity.Exactly(quantity.Length(s.have)), of.E.Units)
	if s.most {
		f = against(f, quantity.Length(s.need))
	} else {
		f = over(f, quantity.Length(s.need))
	}
	f.Text = s.text(of.length)
	return f
}

// spares are all distances of one opening of the list, with the pane thick, thin
// or as likely. Others of the pane are left out if they have no size there. The
// error is of an opening that does not lie on its pane.
func (s *openings) spares(o opening, side int) ([]spare, error) {
	out, err := s.glass(&o, side)
	if err != nil {
		return nil, err
	}
	out = append(out, s.beside(&o, side)...)
	if o.place != nil {
		out = append(out, s.wet(&o)...)
		out = append(out, s.dry(&o)...)
	}
	return out, nil
}

// glass are the rules of glaziers and hobby for one opening alone.
func (s *openings) glass(o *opening, side int) ([]spare, error) {
	var out []spare
	sheet := o.sheet(side)
	if o.round {
		list, err := structure.CheckHoles(sheet, structure.HoleRules(), structure.Hole{X: o.x, Y: o.y, Diameter: o.w})
		for _, c := range list {
			k := glaziers
			if c.Rule == "hobby" {
				k = hobby
			}
			out = append(out, spare{what: c.What.String(), rule: c.Rule, have: c.Have, need: c.Need, most: c.What == structure.LargestHole, kind: k, size: c.What == structure.LargestHole || c.What == structure.LeastHole})
		}
		return out, err
	}
	list, err := structure.CheckNotch(sheet, structure.NotchRules(), structure.Notch{X: o.x, Y: o.y, Width: o.w, Height: o.h, Corner: o.corner})
	for _, c := range list {
		k := glaziers
		if c.Strict {
			k = hobby
		}
		out = append(out, spare{what: c.What, rule: c.Rule, have: c.Have, need: c.Need, most: c.Most, kind: k, size: c.Most || c.What == structure.NotchCorners})
	}
	return out, err
}

// same reports whether two are one.
func (o *opening) same(p *opening) bool { return o.drain == p.drain && o.way == p.way }

// beside are the distances to other openings of the pane, and of flange to flange.
func (s *openings) beside(o *opening, side int) []spare {
	var out []spare
	t := o.sheet(side).Thickness
	for i := range s.list {
		p := &s.list[i]
		if p.pane != o.pane || o.same(p) {
			continue
		}
		gap := o.apart(p)
		for _, r := range structure.HoleRules() {
			k := glaziers
			if r.Name == "hobby" {
				if k = hobby; !o.round || !p.round {
					continue // it counts from centre to centre
				}
			}
			out = append(out, spare{what: "rim to rim of the " + p.name, rule: r.Name, have: gap, need: r.Between(t, o.w, p.w), kind: k, line: p.line, other: true})
		}
		if o.flange == 0 {
			continue
		}
		// What a fitting, or a hose, takes beside its hole.
		more := (o.flange - o.w) / 2
		if p.flange > 0 {
			more += (p.flange - p.w) / 2
		}
		out = append(
			out,
			spare{what: "flange to the " + p.name, have: gap - more, kind: fouls, line: p.line, other: true},
			spare{what: "nut to the " + p.name, have: gap - more, need: structure.NutRoom, kind: hand, line: p.line, other: true},
		)
	}
	return out
}

// circle is what an opening takes on a face of its pane: the fitting's flange, or
// the opening itself.
func (o *opening) circle() float64 { return math.Max(o.flange/2, o.across()) }

func (o *opening) thing() string {
	if o.flange > 0 {
		return "flange"
	}
	return "its rim"
}

// outer is the same on the dry side.
func (o *opening) outer() string {
	if o.flange > 0 {
		return "nut"
	}
	return "its rim"
}

// wet are the distances on the wet side, in the plane of the pane: to the faces
// of the panes beside it and the sealant in their corners, and to grid.
func (s *openings) wet(o *opening) []spare {
	var out []spare
	slab := o.slab(s.taken.FlangeThick, true)
	nearest := spare{have: math.Inf(1)}
	for i := range s.l.Panes {
		p := &s.l.Panes[i]
		if p.Name == o.pane.Name.Value && p.At == o.place.At {
			continue
		}
		d, ok := o.inPlane(p.Box, slab)
		if !ok {
			continue
		}
		leg := s.fillet
		if p.At == "door" {
			leg = 0
		}
		c := spare{what: o.thing() + " to the corner's sealant", have: structure.FlangeClearance(d, 2*o.circle(), leg), kind: fouls, line: p.Line}
		if c.have < nearest.have {
			nearest = c
		}
	}
	if !math.IsInf(nearest.have, 1) {
		out = append(out, nearest)
	}
	for i := range s.l.Grids {
		g := &s.l.Grids[i]
		least := math.Inf(1)
		for _, bar := range g.Bars() {
			if d, ok := o.inPlane(bar, slab); ok {
				least = math.Min(least, d-o.circle())
			}
		}
		if !math.IsInf(least, 1) {
			out = append(out, spare{what: o.thing() + " to the " + g.Name, have: least, kind: hand, line: s.l.Parts[g.Part].Line})
		}
	}
	return out
}

// dry are the distances on the dry side: a rim's lap, and for a nut the room to
// turn it beside the stand and whatever pane stands out there.
func (s *openings) dry(o *opening) []spare {
	var out []spare
	nearest := spare{have: math.Inf(1)}
	for i := range s.e.Design.Enclosure.Rims {
		r := &s.e.Design.Enclosure.Rims[i]
		d := s.lap(o, r.At.Value, float64(r.Over.Value), float64(r.Flat.Value))
		if have := d - o.circle(); have < nearest.have {
			nearest = spare{what: o.outer() + " to the tank's rim at the " + r.At.Value, have: have, kind: fouls, line: r.Pos.Line}
		}
	}
	if !math.IsInf(nearest.have, 1) {
		out = append(out, nearest)
	}
	if o.flange == 0 {
		return out
	}
	slab := o.slab(s.taken.NutThick, false)
	beside := spare{have: math.Inf(1)}
	look := func(what string, b geom.Box, line int) {
		if d, ok := o.inPlane(b, slab); ok && d-o.flange/2 < beside.have {
			beside = spare{what: "nut to the " + what, have: d - o.flange/2, need: structure.NutRoom, kind: hand, line: line}
		}
	}
	for i := range s.l.Panes {
		if p := &s.l.Panes[i]; p.Name != o.pane.Name.Value {
			look(p.Name, p.Box, p.Line)
		}
	}
	for i := range s.l.Parts {
		if p := &s.l.Parts[i]; p.Kind == "stand" {
			look("stand", p.Solid.Bounds(), p.Line)
		}
	}
	if !math.IsInf(beside.have, 1) {
		out = append(out, beside)
	}
	return out
}

// slab is what lies before the pane's inner face, or before its outer one, by
// some depth (m), as the coordinate that it lies along.
func (o *opening) slab(deep float64, inside bool) [2]float64 {
	a := o.place.Across()
	from, to := o.place.World(0, 0, o.place.Thick), o.place.World(0, 0, o.place.Thick+deep)
	if !inside {
		from, to = o.place.World(0, 0, 0), o.place.World(0, 0, -deep)
	}
	lo, hi := from.On(a), to.On(a)
	return [2]float64{math.Min(lo, hi), math.Max(lo, hi)}
}

// inPlane returns how far a box is from the opening's centre, seen square to the
// pane; ok is false if the box does not reach into the slab. A ten-thousandth of a
// metre of it does not count: sizes agree to no more.
func (o *opening) inPlane(b geom.Box, slab [2]float64) (d float64, ok bool) {
	const touch = 1e-4
	a := o.place.Across()
	if b.Max.On(a) < slab[0]+touch || b.Min.On(a) > slab[1]-touch {
		return 0, false
	}
	at := o.at.With(a, 0)
	b.Min, b.Max = b.Min.With(a, 0), b.Max.With(a, 0)
	return b.Dist(at), true
}

// lap returns how far the opening's centre is from where a rim round a face covers
// its pane's outside, m: from its lap on the panes beside that face, from its flat
// part on a pane in it.
func (s *openings) lap(o *opening, at string, over, flat float64) float64 {
	axis := geom.Y
	if at == "top" || at == "bottom" {
		axis = geom.Z
	}
	out := s.l.Outside
	across := o.place.Across()
	if across != axis {
		edge := out.Max.On(axis)
		if at == "back" || at == "bottom" {
			edge = out.Min.On(axis)
		}
		return math.Abs(o.at.On(axis)-edge) - over
	}
	if o.place.At != at {
		return math.Inf(1) // the pane opposite
	}
	least := math.Inf(1)
	for _, a := range []geom.Axis{geom.X, geom.Y, geom.Z} {
		if a != axis {
			least = math.Min(least, math.Min(o.at.On(a)-out.Min.On(a), out.Max.On(a)-o.at.On(a)))
		}
	}
	return least - flat
}
