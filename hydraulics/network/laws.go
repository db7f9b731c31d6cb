package network

import "math"

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
