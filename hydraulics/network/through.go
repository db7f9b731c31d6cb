package network

import "math"

// Through returns the flow, m3/s, that a head difference, m, drives through a
// law, of the same sign as the head; 0 for a head of nothing. The law must lose
// nothing at rest and more and more with the flow. guess is a flow near by, 0 for
// none. It allocates nothing.
func Through(law Law, head, guess float64) float64 {
	if head == 0 {
		return 0
	}
	s := 1.0
	if head < 0 {
		s = -1
	}
	head = math.Abs(head)
	loss := func(q float64) (float64, float64) {
		h, slope := law.Loss(s * q)
		return s*h - head, slope
	}
	q := math.Abs(guess)
	if q == 0 {
		// Of a loss that grows ever faster the slope at rest gives a flow from
		// above, and for a trickle the flow itself.
		q = 1e-4
		if _, slope := law.Loss(0); slope > 0 {
			q = math.Min(q, head/slope)
		}
	}
	lo, hi := 0.0, math.Inf(1)
	for range 200 {
		f, slope := loss(q)
		if f > 0 {
			hi = q
		} else {
			lo = q
		}
		next := q - f/slope
		if math.Abs(next-q) <= 1e-15*q {
			return s * q
		}
		switch {
		case slope > 0 && next > lo && next < hi:
		case math.IsInf(hi, 1):
			next = 4 * q
		default:
			next = (lo + hi) / 2
		}
		q = next
	}
	return s * q
}
