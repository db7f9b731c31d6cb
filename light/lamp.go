package light

import (
	"fmt"
	"math"

	"rillwright/geom"
)

// Kind is the shape of what glows.
type Kind int

// The shapes.
const (
	Point Kind = iota // a bulb, a spot, one lens
	Strip             // a bar
	Panel             // a rectangle
)

// Lamp is what gives light. All of it goes to the side that Aim points to.
type Lamp struct {
	Kind   Kind
	Flux   float64  // umol/s
	At     geom.Vec // its middle, m
	Aim    geom.Vec // unit vector
	Along  geom.Vec // unit vector of its length, across Aim; of strips and panels
	Length float64  // of strips and panels, m
	Width  float64  // of panels, m
	// Beam is the exponent n of cos^n about Aim: 1 is an even glow without a lens;
	// see BeamExponent.
	Beam float64
	Lid  *Lid // what its light must pass, nil for nothing
	// LidNormal is the unit vector across the lid.
	LidNormal geom.Vec
}

// BeamExponent returns n of cos^n for a beam whose light falls to half at an angle
// between both its sides (radians, over 0 and under pi): ln 0.5/ln cos(angle/2).
//
// Derived.
func BeamExponent(angle float64) float64 { return math.Log(0.5) / math.Log(math.Cos(angle/2)) }

// Check returns what is wrong, nil if nothing.
func (l *Lamp) Check() error {
	ok := func(v geom.Vec) bool { return math.Abs(v.Dot(v)-1) < 1e-9 }
	switch {
	case l.Kind < Point || l.Kind > Panel:
		return fmt.Errorf("light: lamp of kind %d", int(l.Kind))
	case !(l.Flux >= 0) || math.IsInf(l.Flux, 1):
		return fmt.Errorf("light: lamp of %g umol/s", l.Flux)
	case !(l.Beam >= 0 && l.Beam <= 1e4):
		return fmt.Errorf("light: beam exponent %g, want 0 to 10000; 1 without a lens", l.Beam)
	case !ok(l.Aim):
		return fmt.Errorf("light: lamp must aim along a vector of length 1, not %v", l.Aim)
	case l.Kind != Point && (!ok(l.Along) || math.Abs(l.Along.Dot(l.Aim)) > 1e-9 || !(l.Length > 0)):
		return fmt.Errorf("light: strip or panel of %g m must lie along a vector of length 1 across its aim, not %v", l.Length, l.Along)
	case l.Kind == Panel && !(l.Width > 0):
		return fmt.Errorf("light: panel %g m wide", l.Width)
	case l.Lid != nil && !ok(l.LidNormal):
		return fmt.Errorf("light: vector across the lid must have length 1, not %v", l.LidNormal)
	}
	return nil
}

// On returns the PPFD that a lamp gives to a small face at a point with a unit vector
// across it on the lit side, with nothing between but the lamp's lid, which is taken
// as passed at the angle to the lamp's middle.
//
// Points: I0 cos^n times cosine over distance squared, I0 = flux (n+1)/(2 pi). Strips
// and panels with n = 1 by closed forms, for any place and tilt of the face; with
// another n they are taken as some points. Derived; closed forms checked by
// quadrature.
func (l *Lamp) On(p, normal geom.Vec) float64 {
	e := 0.0
	switch {
	case l.Kind == Point:
		e = l.point(l.At, l.Flux, p, normal)
	case l.Beam != 1:
		k, m := l.grains()
		share := l.Flux / float64(k*m)
		for i := range k {
			for j := range m {
				e += l.point(l.spot(i, k, j, m), share, p, normal)
			}
		}
	case l.Kind == Strip:
		e = l.strip(p, normal)
	default:
		e = l.panel(p, normal)
	}
	if e > 0 && l.Lid != nil {
		way := l.At.Sub(p)
		e *= l.Lid.At(math.Abs(way.Dot(l.LidNormal)) / size(way))
	}
	return e
}

// grains returns into how many points a strip or panel with a beam is cut, along
// and across.
func (l *Lamp) grains() (along, across int) {
	if l.Kind == Panel {
		return 8, 4
	}
	return 16, 1
}

// spot returns the middle of one of k times m pieces.
func (l *Lamp) spot(i, k, j, m int) geom.Vec {
	p := l.At
	if l.Kind != Point {
		p = p.Add(l.Along.Times(l.Length * ((float64(i)+0.5)/float64(k) - 0.5)))
	}
	if l.Kind == Panel {
		p = p.Add(cross(l.Aim, l.Along).Times(l.Width * ((float64(j)+0.5)/float64(m) - 0.5)))
	}
	return p
}

func (l *Lamp) point(at geom.Vec, flux float64, p, normal geom.Vec) float64 {
	way := p.Sub(at)
	out, in := way.Dot(l.Aim), -way.Dot(normal)
	if !(out > 0 && in > 0) {
		return 0
	}
	r2 := way.Dot(way)
	c := out / math.Sqrt(r2)
	if l.Beam != 1 {
		c = math.Pow(c, l.Beam)
	}
	return flux * (l.Beam + 1) / (2 * math.Pi) * c * in / (r2 * math.Sqrt(r2))
}

// strip sums flux/(pi L) (aim . r)(face . r)/r^4 along the strip; the part of it
// behind the face is cut off.
func (l *Lamp) strip(p, normal geom.Vec) float64 {
	way := p.Sub(l.At)
	out := way.Dot(l.Aim)
	if !(out > 0) {
		return 0
	}
	x := way.Dot(l.Along)
	a2 := way.Dot(way) - x*x
	// Height of the strip over the face is k0 + k1 s at s from the foot of the
	// face's place.
	k1 := normal.Dot(l.Along)
	k0 := -way.Dot(normal) + x*k1
	lo, hi := -l.Length/2-x, l.Length/2-x
	switch {
	case k1 > 0:
		lo = max(lo, -k0/k1)
	case k1 < 0:
		hi = min(hi, -k0/k1)
	case k0 <= 0:
		return 0
	}
	if lo >= hi {
		return 0
	}
	a := math.Sqrt(a2)
	along := func(s float64) float64 {
		return k0*(s/(2*a2*(s*s+a2))+math.Atan(s/a)/(2*a2*a)) - k1/(2*(s*s+a2))
	}
	return l.Flux / (math.Pi * l.Length) * out * max(0, along(hi)-along(lo))
}

// face returns a panel as a quad.
func (l *Lamp) face() Quad {
	u, v := l.Along.Times(l.Length), cross(l.Aim, l.Along).Times(l.Width)
	return Quad{l.At.Sub(u.Times(0.5)).Sub(v.Times(0.5)), u, v}
}

// panel is the exitance times the view factor.
func (l *Lamp) panel(p, normal geom.Vec) float64 {
	if !(p.Sub(l.At).Dot(l.Aim) > 0) {
		return 0
	}
	q := l.face()
	return l.Flux / (l.Length * l.Width) * q.Factor(p, normal)
}

// seen returns the share of the lamp that is seen from a point past shades.
func (l *Lamp) seen(p geom.Vec, shades []Quad) float64 {
	k, m := 1, 1
	switch l.Kind {
	case Strip:
		k = 16
	case Panel:
		k, m = 6, 4
	}
	free := 0
	for i := range k {
	spots:
		for j := range m {
			at := l.spot(i, k, j, m)
			for s := range shades {
				if shades[s].stops(at, p) {
					continue spots
				}
			}
			free++
		}
	}
	return float64(free) / float64(k*m)
}
