package network

import (
	"math"

	"rillwright/hydraulics"
)

// Power is the law h = R q |q|^(n-1), with R in the unit that gives metres for
// q in m3/s. n = 2 is a fully turbulent loss, n = 1 a laminar one.
type Power struct{ R, N float64 }

// Loss implements Law.
func (p Power) Loss(q float64) (h, slope float64) {
	a := math.Abs(q)
	if p.N == 2 {
		return p.R * q * a, 2 * p.R * a
	}
	t := p.R * math.Pow(a, p.N-1)
	return t * q, p.N * t
}

// Emitter is an outlet that passes q = K h^X, h being the head over its mouth
// in m and q in m3/s; 0 < X <= 1. Use it in a one-way link to a fixed node
// whose head is the height of the mouth.
type Emitter struct{ K, X float64 }

// Loss implements Law.
func (e Emitter) Loss(q float64) (h, slope float64) {
	a := math.Abs(q) / e.K
	if e.X == 0.5 {
		return a * a * sign(q), 2 * a / e.K
	}
	n := 1 / e.X
	t := math.Pow(a, n-1)
	return t * a * sign(q), n * t / e.K
}

// Series is several laws one behind the other.
type Series []Law

// Loss implements Law.
func (s Series) Loss(q float64) (h, slope float64) {
	for _, l := range s {
		dh, ds := l.Loss(q)
		h += dh
		slope += ds
	}
	return h, slope
}

// Rise is a head that must be overcome whatever the flow, m.
type Rise float64

// Loss implements Law.
func (r Rise) Loss(float64) (h, slope float64) { return float64(r), 0 }

func sign(x float64) float64 {
	if x < 0 {
		return -1
	}
	return 1
}

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

// Loss implements Law. The head is found from q = Cd(Re) A sqrt(2 g h) by
// Newton's method on Re, which grows with the head alone.
func (o Hole) Loss(q float64) (h, slope float64) {
	a := math.Abs(q)
	want := a / o.area * o.reynolds // Cd Re
	if want < 1e-200 {
		return 0, 0
	}
	re := want / 0.61
	if want < 1 {
		// At a creep Cd is 0.2283 sqrt(Re), the slope of the formula at rest.
		re = math.Cbrt(want * want / (0.2283 * 0.2283))
	}
	cd, dcd := hydraulics.ThinHoleCd(re)
	for range 30 {
		d := (cd*re - want) / (cd + re*dcd)
		re = max(re-d, re/8)
		cd, dcd = hydraulics.ThinHoleCd(re)
		if math.Abs(d) <= 1e-14*re {
			break
		}
	}
	v := re / o.reynolds // sqrt(2 g h)
	h = v * v / (2 * hydraulics.G)
	if rate := o.area * (cd + re*dcd); rate > 0 {
		slope = v / hydraulics.G / rate
	}
	return h * sign(q), slope
}
