package gravity

import "math"

// root finds where the rising function f crosses zero in [0, hi], to the last
// few bits: it returns the two ends of the bracket left, the lower where f is
// below zero and the upper where it is above. Both are the same where f is
// zero; both are 0 if f is not below zero there, hi if it is not above zero
// there. The method takes the inverse parabola through the last three points
// where that is safe and bisects otherwise (Chandrupatla 1997, Adv. Eng. Softw.
// 28, 145; from memory).
func root(hi float64, f func(float64) float64) (below, above float64) {
	// a is the newest point, b the one on the other side of zero, c the one
	// dropped last.
	a, b := hi, 0.0
	fa, fb := f(a), f(b)
	if fa <= 0 {
		return hi, hi
	}
	if fb >= 0 {
		return 0, 0
	}
	var c, fc float64
	share := 0.5
	for range 200 {
		x := a + share*(b-a)
		if x == a || x == b {
			break
		}
		fx := f(x)
		if fx == 0 {
			return x, x
		}
		if (fx > 0) == (fa > 0) {
			c, fc = a, fa
		} else {
			c, fc = b, fb
			b, fb = a, fa
		}
		a, fa = x, fx
		least := 2e-16 * max(a, b) / math.Abs(b-a)
		if least > 0.5 {
			break
		}
		share = 0.5
		xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			share = fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		}
		// Beyond the root by the least step that counts, so that both ends
		// close in.
		share = min(max(share, least), 1-least)
	}
	if fa > 0 {
		return b, a
	}
	return a, b
}

// newton finds x in [0, hi] where the rising function f, given with its slope,
// crosses zero; hi if f is not above zero there. Newton's method, bisecting
// where that leaves the bracket. f is not evaluated at 0, where it must be
// negative.
func newton(hi float64, f func(float64) (value, slope float64)) float64 {
	lo, x := 0.0, hi
	for range 200 {
		v, slope := f(x)
		switch {
		case v == 0:
			return x
		case v > 0:
			hi = x
		case x == hi:
			return hi
		default:
			lo = x
		}
		next := x - v/slope
		if !(next > lo && next < hi) {
			next = lo + (hi-lo)/2
		}
		if math.Abs(next-x) <= 2e-16*x || next == lo || next == hi {
			return next
		}
		x = next
	}
	return x
}
