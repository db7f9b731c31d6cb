package network

import (
	"math"

	"rillwright/hydraulics"
)

// Hole is a small round outlet drilled through a thin wall, running into air.
// Its discharge coefficient follows from its own Reynolds number
// (hydraulics.ThinHoleCd), multiplied by Factor for the doubt about burrs and
// wall thickness. Use it in a one-way link to a fixed node at the hole's
// height. Make one with NewHole.
type Hole struct {
	reynolds float64 // sqrt(2 g h) to Reynolds number: d / nu
	area     float64 // times Factor
}

// NewHole returns the law of a hole of diameter d, m, for water of the given
// kinematic viscosity, m2/s.
func NewHole(d, kinematic, factor float64) Hole {
	return Hole{reynolds: d / kinematic, area: factor * hydraulics.CircleArea(d)}
}

// Loss implements Law: the head follows from q = Cd(Re) A sqrt(2 g h), in which
// Cd Re is known and Re is not. It is right to about 1e-14.
func (o Hole) Loss(q float64) (h, slope float64) {
	want := math.Abs(q) / o.area * o.reynolds // Cd Re
	if want < 1e-200 {
		return 0, 0
	}
	re, rate := thinHoleReynolds(want)
	v := re / o.reynolds // sqrt(2 g h)
	h = v * v / (2 * hydraulics.G)
	if rate > 0 {
		slope = v / (hydraulics.G * o.area * rate)
	}
	return h * sign(q), slope
}

// holeCd holds hydraulics.ThinHoleCd at r = sqrt Re, in parts that follow r
// cheaply: Cd = 0.61 (1 + e1 - e2).
type holeCd struct{ e1, e2 float64 }

const (
	holeCd0, holeA1, holeA2 = 0.61, 1.07, 2.07
	holeK1, holeK2          = 0.126, 0.246
)

// step returns by how much r is too large to solve r^2 Cd/0.61 = target, by
// Halley's method; the second derivative is free.
func (c holeCd) step(r, target float64) float64 {
	s := 1 + c.e1 - c.e2
	b1, b2 := holeK1*c.e1, holeK2*c.e2
	s1 := b2 - b1
	s2 := holeK1*b1 - holeK2*b2
	f := r*r*s - target
	f1 := r * (2*s + r*s1)
	f2 := 2*s + r*(4*s1+r*s2)
	return f / (f1 - f*f2/(2*f1))
}

// lower follows r down by a small d.
func (c *holeCd) lower(d float64) {
	c.e1 *= expSmall(holeK1 * d)
	c.e2 *= expSmall(holeK2 * d)
}

// thinHoleReynolds returns the Reynolds number at which Cd Re of a thin hole has
// the given value, and how fast Cd Re grows with it. The two exponentials of Cd
// are the whole cost. They are taken once, at a start that is good to 0.2 in
// sqrt Re, and follow the rest of the way by their series.
func thinHoleReynolds(want float64) (re, rate float64) {
	target := want / holeCd0
	u := math.Sqrt(target)
	var r float64
	switch {
	case u > 60:
		r = u // both exponentials are small
	case u > 3:
		// A cubic in 1/(u+5), fitted to the formula on 3 < u < 60.
		x := 1 / (u + 5)
		r = u + 1.34500572 + x*(-97.8327017+x*(1397.31920-x*5446.16862))
	default:
		// At a creep Cd is 0.3744 x 0.61 sqrt Re, the slope at rest.
		r = math.Cbrt(target / 0.3744)
	}
	var c holeCd
	var d float64
	for range 30 {
		c = holeCd{holeA1 * math.Exp(-holeK1*r), holeA2 * math.Exp(-holeK2*r)}
		d = c.step(r, target)
		d = min(d, 0.9*r)
		r -= d
		if math.Abs(d) <= min(0.25, 0.1*r) {
			break
		}
	}
	for range 3 {
		c.lower(d)
		d = c.step(r, target)
		r -= d
		if math.Abs(d) <= 1e-6*r {
			break
		}
	}
	c.lower(d)
	cd := holeCd0 * (1 + c.e1 - c.e2)
	dcd := holeCd0 * (holeK2*c.e2 - holeK1*c.e1) / (2 * r)
	re = r * r
	return re, cd + re*dcd
}

// expSmall returns exp x to within rounding for |x| < 0.07.
func expSmall(x float64) float64 {
	return 1 + x*(1+x*(1.0/2+x*(1.0/6+x*(1.0/24+x*(1.0/120+x*(1.0/720+x*(1.0/5040)))))))
}
