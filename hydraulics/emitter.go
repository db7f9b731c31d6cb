package hydraulics

import "math"

// Emitter is the law of a drip emitter, q = K h^X: X is 0.5 for turbulent
// passages, 1 for laminar, near 0 for pressure-compensating ones.
type Emitter struct {
	K float64 // m3/s at 1 m of head
	X float64
}

// Flow returns the flow (m3/s) at head h (m) and dq/dh; both 0 for h <= 0.
// For X < 1 the slope grows without bound towards h = 0.
func (e Emitter) Flow(h float64) (q, dqdh float64) {
	if h <= 0 {
		return 0, 0
	}
	q = e.K * math.Pow(h, e.X)
	return q, e.X * q / h
}

// Head returns the head (m) at flow q: the inverse of Flow, 0 for q <= 0. It is
// NaN for X = 0, where flow does not fix the head.
func (e Emitter) Head(q float64) float64 {
	if e.X == 0 {
		return math.NaN()
	}
	if q <= 0 {
		return 0
	}
	return math.Pow(q/e.K, 1/e.X)
}

// EmitterThrough returns the law with exponent x through one measured point: flow q at
// head h > 0.
func EmitterThrough(q, h, x float64) Emitter {
	return Emitter{K: q / math.Pow(h, x), X: x}
}
