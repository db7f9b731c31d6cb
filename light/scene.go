package light

import (
	"errors"
	"fmt"
	"math"

	"rillwright/geom"
)

// Bounces is how often light is followed from wall to wall.
type Bounces int

// Dull walls (0.1) lose 1 % with one bounce, walls of 0.3 lose 11 %, white film more
// than half (worked out for boxes, see the tests): All is what to show, One what to
// drag a lamp about with.
const (
	Straight Bounces = iota // from the lamps alone
	One
	All
)

// Scene is lamps about a room. Any part may be missing.
type Scene struct {
	Lamps  []Lamp
	Shades []Quad // hoods and ledges that keep light off
	Room   *Room  // nil for none: then nothing bounces
}

// cuts is into how many pieces a side of a face is cut for what bounces.
const cuts = 4

// Field is the light in a scene.
type Field struct {
	lamps   []Lamp
	shades  []Quad
	patches []patch
}

// NewField works out what the walls of a scene throw back. Scenes are checked first.
func NewField(s *Scene, b Bounces) (*Field, error) {
	errs := []error{}
	for i := range s.Lamps {
		if err := s.Lamps[i].Check(); err != nil {
			errs = append(errs, fmt.Errorf("lamp %d: %w", i+1, err))
		}
	}
	if s.Room != nil {
		errs = append(errs, s.Room.Check())
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	f := &Field{lamps: s.Lamps, shades: s.Shades}
	if s.Room == nil || b == Straight {
		return f, nil
	}
	ps := s.Room.patches(cuts)
	first, reflectance := make([]float64, len(ps)), make([]float64, len(ps))
	for i := range ps {
		p := &ps[i]
		in := p.side.Inward()
		// The mean of 2 by 2 points: those of Gauss's rule.
		g := 0.5 - 0.5/math.Sqrt(3)
		sum := 0.0
		for _, u := range [2]float64{g, 1 - g} {
			for _, v := range [2]float64{g, 1 - g} {
				sum += f.Direct(p.quad.At(u, v), in)
			}
		}
		reflectance[i] = s.Room.Reflect[p.side]
		first[i] = reflectance[i] * sum / 4
	}
	glow := first
	if b == All {
		var err error
		if glow, err = Radiosity(factors(ps), first, reflectance); err != nil {
			return nil, err
		}
	}
	for i := range ps {
		if ps[i].glow = glow[i]; glow[i] > 0 {
			f.patches = append(f.patches, ps[i])
		}
	}
	return f, nil
}

// Direct returns the PPFD straight from the lamps on a small face at a point with a
// unit vector across it on the lit side.
func (f *Field) Direct(p, normal geom.Vec) float64 {
	sum := 0.0
	for i := range f.lamps {
		l := &f.lamps[i]
		e := l.On(p, normal)
		if e > 0 && len(f.shades) > 0 {
			e *= l.seen(p, f.shades)
		}
		sum += e
	}
	return sum
}

// Reflected returns the PPFD from the walls of the room. Shades keep nothing of it
// off.
func (f *Field) Reflected(p, normal geom.Vec) float64 {
	sum := 0.0
	for i := range f.patches {
		q := &f.patches[i]
		if p.Sub(q.quad.Corner).Dot(q.side.Inward()) <= 0 {
			continue
		}
		sum += q.glow * q.quad.Factor(p, normal)
	}
	return sum
}

// At returns the whole PPFD on a small face.
func (f *Field) At(p, normal geom.Vec) float64 {
	return f.Direct(p, normal) + f.Reflected(p, normal)
}

// Grid is where a map is made: nu by nv points, in the middles of equal cells of a
// quad, lit from the side of Normal.
type Grid struct {
	Quad   Quad
	Normal geom.Vec // unit vector
	NU, NV int      // at least 1
}

// knots is the most points along a side at which what bounces is worked out for a
// map; it changes slowly, and is taken between them.
const knots = 31

// Map fills out, of length NU*NV, with the PPFD at the points of a grid, row by row
// of U. What bounces is worked out at 31 by 31 knots at most and taken between them.
func (f *Field) Map(g Grid, out []float64) {
	ku, kv := min(knots, g.NU), min(knots, g.NV)
	var bounced [knots * knots]float64
	if len(f.patches) > 0 {
		for j := range kv {
			for i := range ku {
				bounced[j*knots+i] = f.Reflected(g.Quad.At(middle(i, ku), middle(j, kv)), g.Normal)
			}
		}
	}
	for j := range g.NV {
		v := middle(j, g.NV)
		bv, fv := between(v, kv)
		for i := range g.NU {
			u := middle(i, g.NU)
			e := f.Direct(g.Quad.At(u, v), g.Normal)
			if len(f.patches) > 0 {
				bu, fu := between(u, ku)
				k := bounced[bv*knots+bu:]
				low, high := k[0], 0.0
				if fu != 0 {
					low += fu * (k[1] - k[0])
				}
				if fv != 0 {
					high = k[knots]
					if fu != 0 {
						high += fu * (k[knots+1] - k[knots])
					}
					low += fv * (high - low)
				}
				e += max(0, low)
			}
			out[j*g.NU+i] = e
		}
	}
}

// middle returns where the middle of cell i of n lies, 0 to 1.
func middle(i, n int) float64 { return (float64(i) + 0.5) / float64(n) }

// between returns the knot before a place from 0 to 1 and how far on to the next;
// outside the first and last knots it goes on straight.
func between(x float64, n int) (knot int, share float64) {
	if n == 1 {
		return 0, 0
	}
	at := x*float64(n) - 0.5
	knot = min(max(int(at), 0), n-2)
	return knot, at - float64(knot)
}
